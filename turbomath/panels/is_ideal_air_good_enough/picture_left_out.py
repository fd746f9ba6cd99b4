"""How far a number is off for each thing that hand work leaves out, on one line with the ± of the gauges."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from turbomath.pictures.picture import Axis, Picture, Series, Text
from turbomath.units.rounding import fixed

HEIGHT = 158  # px
ROLES = ("theory", "hot", "cooled")
LEFT, MIDDLE, REACH = 0.0, 50.0, 28.0  # where words begin, where zero stands, and half the length of the scale
TOP, FIRST, FOOT = 4.55, 3.3, 0.1  # the line of the gauges, the first bar, the line of the scale
HALF = 0.26  # of the height of a bar
COUNTS, WITHIN = "counts", "inside"


@dataclass(frozen=True)
class LeftOut(Picture):
    """A picture without axes; its facts are what hand work takes, how far off that is, and if it counts."""

    facts: tuple[tuple[str, str, str], ...] = ()
    unit: str = ""
    gauges: str = ""
    height: int = HEIGHT

    @property
    def alt(self) -> str:
        """Each thing left out with its size, and what the gauges can tell."""
        told = " ".join(f"{name}: {text} {self.unit}, {verdict}." for name, text, verdict in self.facts)
        return f"{self.title}. Bars from zero, too low to the left, too high to the right. {self.gauges}. {told}"

    @property
    def heads(self) -> tuple[str, ...]:
        """The heads of the table twin."""
        return "hand work takes", f"off by [{self.unit}]", f"beside {self.gauges}"

    @property
    def rows(self) -> tuple[tuple[str, ...], ...]:
        """The rows of the table twin."""
        return self.facts


def verdict(off: float, plus_or_minus: float) -> str:
    """Return whether so much counts beside the ± of the gauges, or lies within it."""
    return COUNTS if abs(off) > plus_or_minus else WITHIN


def picture_left_out(
    title: str, offs: Sequence[tuple[str, float]], plus_or_minus: float, gauges: str, unit: str, *, most: float
) -> LeftOut:
    """Return the picture.

    Parameters
    ----------
    title : str
        Which number it is that is off.
    offs : sequence of three (name, float)
        What hand work takes, and how far that puts the number off, in the unit shown.
    plus_or_minus : float
        Of the gauges, in the unit shown.
    gauges : str
        What has this ±, such as "thermometer".
    unit : str
        The unit shown.
    most : float
        How far the scale reaches at least, so that it stands still.
    """
    end = max(most, *(math.ceil(abs(size)) for size in (plus_or_minus, *(off for _, off in offs))))
    texts, series, facts = [], [_band(plus_or_minus / end)], []
    for turn, (name, off) in enumerate(offs):
        said, told = _signed(off), verdict(off, plus_or_minus)
        facts.append((name, said, told))
        series += _bar(ROLES[turn], name, off / end, FIRST - turn)
        texts += [
            Text(LEFT, FIRST - turn - 0.15, name),
            Text(MIDDLE + REACH + 1.5, FIRST - turn - 0.15, f"{said} {unit}, {told}"),
        ]
    series += [_line("zero", (MIDDLE, MIDDLE), (0.75, 3.9)), _line("scale", *_ruler())]
    told = f"{gauges} ± {fixed(plus_or_minus, 1)} {unit}"
    texts += [Text(MIDDLE - REACH, TOP, f"shaded: {told}"), *_scale(end, unit)]
    return LeftOut(
        title,
        Axis("", "", -0.5, 100.0),
        Axis("", "", -0.25, 5.2),
        tuple(series),
        tuple(texts),
        facts=tuple(facts),
        unit=unit,
        gauges=told,
    )


def _signed(off):
    text = fixed(off, 2)
    return text if text.startswith("−") or float(text) == 0 else f"+{text}"


def _band(share):
    x = MIDDLE - REACH * share, MIDDLE + REACH * share
    return Series("band", "measured", "gauges", x, (2.3, 2.3), (0.75, 0.75), (3.9, 3.9))


def _bar(role, name, share, y):
    """Return the tint and the outline of a bar from zero."""
    x = tuple(sorted((MIDDLE, MIDDLE + REACH * share)))
    low, high = (y - HALF,) * 2, (y + HALF,) * 2
    outline = Series("line", role, name, (x[0], x[0], x[1], x[1], x[0]), (low[0], high[0], high[0], low[0], low[0]))
    return Series("band", role, name, x, (y, y), low, high), outline


def _line(name, x, y):
    return Series("line", "measured", name, x, y)


def _ruler():
    """Return the line of the scale, with a mark at each end."""
    low, high = MIDDLE - REACH, MIDDLE + REACH
    return (low, low, low, high, high, high), (0.62, 0.88, 0.75, 0.75, 0.88, 0.62)


def _scale(end, unit):
    low, high = (f"{sign}{fixed(end, 0)} {unit}" for sign in ("−", "+"))
    return (
        Text(MIDDLE - REACH - 3, FOOT, f"{low}, too low"),
        Text(MIDDLE - 0.7, FOOT, "0"),
        Text(MIDDLE + REACH - 8, FOOT, f"{high}, too high"),
    )
