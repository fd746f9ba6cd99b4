"""Bars of temperature, a group for each aftercooler: compressor outlet, manifold, and the medium where it enters."""

from collections.abc import Sequence
from dataclasses import dataclass

from turbomath import units
from turbomath.pictures.picture import Axis, Picture, Series, Text
from turbomath.units.rounding import fixed
from turbomath.units.shown import DEGREE

HEIGHT = 330  # px
BARS = (("T2", "hot", "compressor outlet"), ("T3", "cooled", "manifold"), ("Tm", "ambient", "medium"))
MANIFOLD = 1  # of the bars
KEY = "T2 compressor outlet, T3 manifold, Tm medium where it enters"
GROUP = 3.6  # widths of a bar from one group to the next
LINE = 0.068  # a line of words, in heights of the picture


@dataclass(frozen=True)
class TemperatureBars(Picture):
    """A picture without axes; its facts are the numbers of each group.

    `foot` is where lines of words begin below the bars, and how high a line is: it keeps room for its letters.
    """

    facts: tuple[tuple[str, ...], ...] = ()
    unit: str = ""
    height: int = HEIGHT
    foot: tuple[float, float] = (0.0, 0.0)

    @property
    def alt(self) -> str:
        """Each group with its temperatures, from left to right."""
        told = " ".join(
            f"{name}: "
            + ", ".join(
                f"{words} {text} {self.unit}" for (*_, words), text in zip(BARS, texts, strict=True) if text != "–"
            )
            + "."
            for name, *texts in self.facts
        )
        return f"{self.title}. Bars of temperature, from left to right. {told}"

    @property
    def heads(self) -> tuple[str, ...]:
        """The heads of the table twin."""
        return ("aftercooler", *(f"{words} [{self.unit}]" for *_, words in BARS))

    @property
    def rows(self) -> tuple[tuple[str, ...], ...]:
        """The rows of the table twin."""
        return self.facts


def picture_temperature_bars(
    title: str, groups: Sequence[tuple[str, Sequence[float | None]]], system: str, *, ends: tuple[float, float]
) -> TemperatureBars:
    """Return the picture of groups of bars.

    Parameters
    ----------
    title : str
        What it shows.
    groups : sequence of (name, temperatures [K])
        Compressor outlet, manifold and medium of each aftercooler; None where there is no medium.
    system : "us" or "si"
        The units shown.
    ends : (float, float) [K]
        Coldest and hottest that the picture reaches at least, so that it stands still.
    """
    known = [value for _, values in groups for value in values if value is not None]
    low = min(0.0, *(_shown(value, system) for value in (*known, ends[0])))
    high = max(_shown(value, system) for value in (*known, ends[1]))
    tall = high - low
    series: list[Series] = []
    texts: list[Text] = []
    facts: list[tuple[str, ...]] = []
    for place, (name, values) in enumerate(groups):
        told = ["–" if value is None else fixed(_shown(value, system), 0) for value in values]
        facts.append((name, *told))
        texts.append(Text(GROUP * place + 0.05, low - 3 * LINE * tall, name))
        for turn, (value, text) in enumerate(zip(values, told, strict=True)):
            if value is not None:
                uncooled = turn == MANIFOLD and values[0] is not None and value >= values[0]
                role = "hot" if uncooled else BARS[turn][1]
                drawn, words = _bar(GROUP * place + turn, _shown(value, system), text, turn, low, tall, role)
                series, texts = [*series, *drawn], [*texts, *words]
    wide = GROUP * len(groups)
    zero = Series("line", "measured", "zero", (0.0, wide - 0.5), (0.0, 0.0))
    texts.append(Text(0.05, low - 4.2 * LINE * tall, KEY))
    x, y = Axis("", "", -0.1, wide), Axis("", "", low - 4.6 * LINE * tall, high + 1.3 * LINE * tall)
    unit, foot = DEGREE[system], (low, LINE * tall)
    return TemperatureBars(title, x, y, (*series, zero), tuple(texts), facts=tuple(facts), unit=unit, foot=foot)


def _bar(left, value, text, turn, low, tall, role):
    """Return the tint and outline of a bar from zero, its number at the end, and its letter below all bars."""
    letters, _, words = BARS[turn]
    x, (foot, top) = (left + 0.06, left + 0.94), sorted((0.0, value))
    band = Series("band", role, words, x, (foot,) * 2, (foot,) * 2, (top,) * 2)
    outline = Series("line", role, words, (x[0], x[0], x[1], x[1], x[0]), (foot, top, top, foot, foot))
    over = top + 0.02 * tall if value >= 0 else foot - 0.85 * LINE * tall
    return (band, outline), (Text(left + 0.22, over, text), Text(left + 0.3, low - 2 * LINE * tall, letters))


def _shown(temperature, system):
    return float(units.from_si(temperature, DEGREE[system], "manifold_temperature"))
