"""Bars that lie, a few below each heading and all from zero, so that lengths under one heading can be compared."""

from collections.abc import Sequence
from dataclasses import dataclass

from turbomath.pictures.picture import Axis, Picture, Series, Text

LINE = 27  # px for a bar
HEADING, GAP, FOOT = 1.15, 0.5, 0.3  # lines for a heading, below a group, and below the last one
THICK = 0.72  # of a line
LABELS, BARS = 0.30, 0.50  # shares of the width: names before the bars, and the longest bar


@dataclass(frozen=True)
class Bar:
    """One bar: a role, its name, its length in the unit of its group, and the number as text."""

    role: str
    label: str
    number: float
    text: str


@dataclass(frozen=True)
class Group:
    """Bars of one unit under a heading. They reach to `most` at least, so that the scale stands still."""

    heading: str
    unit: str
    most: float
    bars: tuple[Bar, ...]


@dataclass(frozen=True)
class LyingBars(Picture):
    """A picture without axes; its facts are the numbers at the bars."""

    facts: tuple[tuple[str, str, str], ...] = ()
    height: int = 0

    @property
    def alt(self) -> str:
        """Each heading with its bars, from top to bottom."""
        told = " ".join(f"{heading}, {label}: {number}." for heading, label, number in self.facts)
        return f"{self.title}. Lying bars, from top to bottom. {told}"

    @property
    def heads(self) -> tuple[str, ...]:
        """The heads of the table twin."""
        return ("quantity", "bar", "number")

    @property
    def rows(self) -> tuple[tuple[str, ...], ...]:
        """The rows of the table twin."""
        return self.facts


def picture_lying_bars(title: str, groups: Sequence[Group]) -> LyingBars:
    """Return the picture of groups of bars, from top to bottom."""
    series, texts, facts, top = [], [], [], 0.0
    for group in groups:
        texts.append(Text(0.0, -(top + 0.72), group.heading))
        top += HEADING
        start = top
        longest = max(group.most, *(bar.number for bar in group.bars))
        for bar in group.bars:
            end = LABELS + BARS * max(0.0, bar.number) / longest
            series += _bar(bar, end, top)
            texts += [
                Text(0.015, -(top + 0.66), bar.label),
                Text(end + 0.012, -(top + 0.66), f"{bar.text} {group.unit}".strip()),
            ]
            facts.append((group.heading, bar.label, f"{bar.text} {group.unit}".strip()))
            top += 1
        series.append(Series("line", "measured", "zero", (LABELS,) * 2, (-start, -top)))
        top += GAP
    low = GAP - FOOT - top
    return LyingBars(
        title,
        Axis("", "", 0.0, 1.0),
        Axis("", "", low, 0.0),
        tuple(series),
        tuple(texts),
        facts=tuple(facts),
        height=round(-low * LINE),
    )


def _bar(bar, end, top):
    """Return the tint and the outline of one bar."""
    high, low = -(top + (1 - THICK) / 2), -(top + (1 + THICK) / 2)
    band = Series("band", bar.role, bar.label, (LABELS, end), (high,) * 2, (low,) * 2, (high,) * 2)
    return band, Series("line", bar.role, bar.label, (LABELS, end, end, LABELS), (high, high, low, low))
