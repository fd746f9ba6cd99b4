"""Each reading's change from the engine's own healthy run, as a bar to the left or the right, counted in its own ±."""

from collections.abc import Sequence
from dataclasses import dataclass

from turbomath.pictures.picture import Axis, Picture, Series, Text

LINE, HEAD = 27, 1.0  # px for a bar, lines above the first
ZERO, SIDE, NUMBERS = 0.54, 0.20, 0.78  # shares of the width: the middle, the longest bar, the numbers
LEAST, MOST = 5.0, 12.0  # of the own ±: what the longest bar stands for
THICK = 0.6
MOVED, STILL = "measured", "ambient"


@dataclass(frozen=True)
class Change:
    """One reading: its name, its change counted in its own ± (None where it was not read), and both as text."""

    label: str
    times: float | None
    text: str


@dataclass(frozen=True)
class ChangePicture(Picture):
    """A picture without axes; its facts are the numbers at the bars."""

    facts: tuple[tuple[str, str], ...] = ()
    height: int = 0
    names: tuple[str, str] = ("", "")

    @property
    def alt(self) -> str:
        """Each reading with its change, from top to bottom."""
        return f"{self.title}. Bars from top to bottom. " + " ".join(f"{one}: {text}." for one, text in self.facts)

    @property
    def heads(self) -> tuple[str, ...]:
        """The heads of the table twin."""
        return self.names

    @property
    def rows(self) -> tuple[tuple[str, ...], ...]:
        """The rows of the table twin."""
        return self.facts


def picture_change(title: str, changes: Sequence[Change], names: tuple[str, str]) -> ChangePicture:
    """Return the picture; the grey band is the ± of each reading itself."""
    read = [abs(one.times) for one in changes if one.times is not None]
    most = min(MOST, max(LEAST, *read))
    own = SIDE / most
    bottom = -(HEAD + len(changes))
    edges = (ZERO - own, ZERO + own)
    series = [Series("band", STILL, "±", edges, (-HEAD, -HEAD), (bottom, bottom), (-HEAD, -HEAD))]
    texts = [Text(0.36, -0.72, "less"), Text(0.5, -0.72, "healthy"), Text(NUMBERS, -0.72, "change")]
    for turn, one in enumerate(changes):
        top = HEAD + turn
        texts += [Text(0.0, -(top + 0.66), one.label), Text(NUMBERS, -(top + 0.66), one.text)]
        if one.times is not None:
            series += _bar(one, ZERO + own * max(-most, min(most, one.times)), top)
    series.append(Series("line", MOVED, "healthy", (ZERO, ZERO), (-HEAD, bottom)))
    return ChangePicture(
        title,
        Axis("", "", 0.0, 1.0),
        Axis("", "", bottom - 0.2, 0.0),
        tuple(series),
        tuple(texts),
        facts=tuple((one.label, one.text) for one in changes),
        height=round((0.2 - bottom) * LINE),
        names=names,
    )


def _bar(one, end, top):
    high, low = -(top + (1 - THICK) / 2), -(top + (1 + THICK) / 2)
    left, right = min(ZERO, end), max(ZERO, end)
    return (
        Series("band", MOVED, one.label, (left, right), (high, high), (low, low), (high, high)),
        Series("line", MOVED, one.label, (left, right, right, left, left), (high, high, low, low, high)),
    )
