"""How sure one reading of a pressure gauge is: the band on its scale, and the same as a share of the reading."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from turbomath import units
from turbomath.pictures.picture import Axis, Picture, Series, Text
from turbomath.pictures.scales import axis, series, shown
from turbomath.units.rounding import rounded

SAMPLES = 240
MOST_DIVISIONS = 130
PARTS = ("lowest quarter", "middle half", "highest quarter")
SHOWN_SHARE = 100.0  # per cent: where the curve of the share begins


@dataclass(frozen=True)
class GaugeScale(Picture):
    """A straight scale without axes; its facts say what is marked on it."""

    facts: tuple[tuple[str, str], ...] = ()
    height: int = 140

    @property
    def alt(self) -> str:
        """What the scale shows, in words."""
        return f"{self.title}. " + " ".join(f"{name}: {text}." for name, text in self.facts)

    @property
    def heads(self) -> tuple[str, ...]:
        """The heads of the table twin."""
        return "mark", "where"

    @property
    def rows(self) -> tuple[tuple[str, ...], ...]:
        """The rows of the table twin."""
        return self.facts


def picture_gauge_scale(
    span: float, shares: Sequence[float], reading: float, half: float, division: float, system: str
) -> GaugeScale:
    """Return the scale of a gauge laid straight, with the reading and the band its grade allows.

    Parameters
    ----------
    span : float [Pa]
        Where the scale ends; it starts at 0.
    shares : three floats [% of span]
        What the grade allows in the lowest quarter, the middle half and the highest quarter.
    reading, half, division : float [Pa]
        What it shows, half of the band, and the step between two marks.
    system : "us" or "si"
        The units shown.
    """
    unit = units.display("boost", system)
    end, at, edge, step = shown("boost", [span, reading, half, division], system).tolist()
    low, high = at - edge, at + edge
    marks = [_mark(value, 0.50, 0.42) for value in _divisions(end, step)]
    numbers = _numbers(end)
    scale = (
        _line((0.0, end), (0.50, 0.50)),
        *marks,
        *(_mark(value, 0.50, 0.37) for value in numbers),
        *(Series("line", "ambient", "quarter", (end * part,) * 2, (0.06, 0.66)) for part in (0.25, 0.75)),
        Series("band", "measured", "band", (low, high), (0.6, 0.6), (0.50, 0.50), (0.72, 0.72)),
        _line((low, low), (0.50, 0.72)),
        _line((high, high), (0.50, 0.72)),
        _mark(at, 0.50, 0.80),
    )
    texts = [Text(value - 0.008 * end * len(rounded(value)), 0.22, rounded(value)) for value in numbers]
    texts += [Text(end * place, 0.06, words) for place, words in _quarters(shares)]
    said = f"{_amount(low)} to {_amount(high)} {unit}"
    texts.append(Text(min(max(low, 0.0), 0.72 * end), 0.87, said))
    facts = (
        ("the scale", f"0 to {rounded(end)} {unit}"),
        ("reading", f"{_amount(at)} {unit}"),
        ("band", said),
        *((f"± in the {part}", f"{share:g} % of span") for part, share in zip(PARTS, shares, strict=True)),
    )
    title = f"The scale of the gauge [{unit}], laid straight"
    return GaugeScale(title, Axis("", "", -0.03 * end, 1.04 * end), Axis("", "", 0.0, 1.0), scale, tuple(texts), facts)


def pressures_shown(span: float) -> np.ndarray:
    """Return the pressures along a scale [Pa], with both sides of the steps from one part of it to the next."""
    return span * np.unique([*np.linspace(0, 1, SAMPLES + 1)[1:], 0.25 + 1e-6, 0.75 - 1e-6])


def picture_share_of_reading(
    grade: str, pressures: np.ndarray, halves: np.ndarray, reading: float, half: float, system: str
) -> Picture:
    """Return the picture of the band as a share of the reading, along the scale, with the reader's point.

    Parameters
    ----------
    grade : str
        What the line is called.
    pressures, halves : array [Pa]
        Readings along the scale, the last at its end, and half of the band at each.
    reading, half : float [Pa]
        Those of the reader.
    system : "us" or "si"
        The units shown.
    """
    share = 100 * halves / pressures
    kept = share <= SHOWN_SHARE
    own = np.array([100 * half / reading if reading > 0 else np.nan])
    x = axis("boost", system, shown("boost", [0.0, pressures[-1]], system))
    y = axis("load", system, [SHOWN_SHARE], own, label="± as a share of the reading")
    line = series("line", "theory", f"grade {grade}", shown("boost", pressures[kept], system), share[kept])
    point = series("points", "measured", "yours", shown("boost", [reading], system), own)
    return Picture("The lower the reading, the bigger its share", x, y, (line, point))


def _quarters(shares):
    low, middle, high = (f"± {share:g} %" for share in shares)
    return (0.02, low), (0.27, f"{middle} of span"), (0.77, high)


def _numbers(end):
    """Return round numbers for the scale, at most eight."""
    power = 10.0 ** math.floor(math.log10(end / 8))
    step = next(power * part for part in (1, 2, 2.5, 5, 10) if end / (power * part) <= 8)
    return [step * turn for turn in range(math.floor(end / step + 1e-9) + 1)]


def _divisions(end, step):
    count = math.floor(end / step + 1e-9)
    return [step * turn for turn in range(count + 1)] if count <= MOST_DIVISIONS else []


def _line(x, y):
    return Series("line", "measured", "scale", x, y)


def _mark(value, low, high):
    return _line((value, value), (low, high))


def _amount(value):
    return rounded(round(value, 2))
