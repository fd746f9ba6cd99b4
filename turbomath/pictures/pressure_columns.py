"""Columns of pressure on a floor of vacuum: what the air outside gives, and what the compressor puts on top."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from turbomath import units
from turbomath.pictures.picture import Axis, Picture, Series, Text
from turbomath.units.rounding import fixed

HEIGHT = 400  # px
LADDER, MARGIN = 0.44, 0.30  # left and right of the columns, in widths of a column
INSET = 0.04  # on either side of a column
LINE = 0.056  # a line of words, in heights of the ladder
FOOT = 3.4 * LINE
THIN = 0.065  # a block below this share of the ladder has no room for words; the table has them
_UNIT = {"us": "psi abs", "si": "kPa abs"}
_STEP = {"us": 10.0, "si": 50.0}


@dataclass(frozen=True)
class Block:
    """A pressure [Pa] with its name and role."""

    role: str
    name: str
    pressure: float


@dataclass(frozen=True)
class Column:
    """Blocks on top of each other, and at most two lines of words below the name."""

    name: str
    blocks: tuple[Block, ...]
    words: tuple[str, ...] = ()

    @property
    def top(self) -> float:
        """The pressure at the top [Pa]."""
        return sum(block.pressure for block in self.blocks)


@dataclass(frozen=True)
class PressureColumns(Picture):
    """A picture without axes; its facts say what each column is built of.

    `foot` is where lines of words begin below the columns, and how high a line is: it keeps room for its letters.
    """

    facts: tuple[tuple[str, str, str], ...] = ()
    unit: str = ""
    height: int = HEIGHT
    foot: tuple[float, float] = (0.0, 0.0)

    @property
    def alt(self) -> str:
        """Each column with its blocks, from left to right."""
        told = " ".join(f"{name}: {blocks}, {top} {self.unit} above vacuum." for name, blocks, top in self.facts)
        return f"{self.title}. Columns of blocks on a floor of vacuum, from left to right. {told}"

    @property
    def heads(self) -> tuple[str, ...]:
        """The heads of the table twin."""
        return "column", f"blocks [{self.unit}]", f"height above vacuum [{self.unit}]"

    @property
    def rows(self) -> tuple[tuple[str, ...], ...]:
        """The rows of the table twin."""
        return self.facts


def picture_pressure_columns(
    title: str,
    columns: Sequence[Column],
    system: str,
    *,
    most: float,
    rise: tuple[int, int] | None = None,
    times: float = 0.0,
) -> PressureColumns:
    """Return the picture of columns side by side, in absolute pressure.

    Parameters
    ----------
    title : str
        What it shows.
    columns : sequence of Column
        From left to right.
    system : "us" or "si"
        The units shown.
    most : float [Pa]
        The pressure that the ladder reaches at least, so that it stands still.
    rise : (int, int), optional
        Two columns: a level line runs from the top of the first to the second, and an arrow to its top.
    times : float [Pa], optional
        A pressure whose multiples are marked all across.
    """
    tops = [_shown(column.top, system) for column in columns]
    steps = _steps(max(_shown(most, system), *tops), _STEP[system])
    top, right, once = steps[-1], LADDER + len(columns), _shown(times, system)
    once = once if once > THIN * top else 0.0  # closer together, the lines would hide the columns
    stacks = (_column(column, place + LADDER, top, system, once) for place, column in enumerate(columns))
    parts = [(_ladder(steps), _numbers(steps, system)), *stacks, _multiples(once, top, right)]
    series = [one for drawn, _ in parts for one in drawn] + (_rise(*rise, tops, top) if rise else [])
    texts = [one for _, words in parts for one in words]
    facts = tuple(
        (column.name, _built(column, system), fixed(tall, 1)) for column, tall in zip(columns, tops, strict=True)
    )
    x, y = Axis("", "", 0.0, right + (MARGIN if times else 0)), Axis("", "", -FOOT * top, 1.02 * top)
    unit, foot = _UNIT[system].split()[0], (0.0, LINE * top)
    return PressureColumns(title, x, y, tuple(series), tuple(texts), facts=facts, unit=unit, foot=foot)


def _shown(pressure, system):
    return units.from_si(pressure, _UNIT[system].removesuffix(" abs"), "boost")


def _built(column, system):
    return " + ".join(f"{block.name} {fixed(_shown(block.pressure, system), 1)}" for block in column.blocks)


def _steps(most, step):
    """Return round numbers from 0 to the first that is not below *most*, at most nine."""
    while most / step > 8:
        step *= 2
    return [step * turn for turn in range(math.ceil(most / step - 1e-9) + 1)]


def _ladder(steps):
    marks = [_line("ladder", (LADDER - 0.06, LADDER), (value, value)) for value in steps]
    return [_line("ladder", (LADDER, LADDER), (0.0, steps[-1])), *marks]


def _numbers(steps, system):
    top, down = steps[-1], 0.012 * steps[-1]  # from the middle of a word to its foot
    texts = [Text(LADDER - 0.075 - 0.065 * len(f"{value:g}"), value - down, f"{value:g}") for value in steps]
    unit = Text(0.01, top - steps[1] / 2 - down, _UNIT[system].split()[0])
    return [*texts, unit, Text(0.01, -LINE * top, "vacuum")]


def _column(column, left, top, system, once):
    """Return the outline and tint of each block, and the words in and below the column."""
    x, level, series, texts = (left + INSET, left + 1 - INSET), 0.0, [], []
    for block in column.blocks:
        size = _shown(block.pressure, system)
        low, high = sorted((level, level + size))
        outline = (low, low, high, high, low)
        series += [
            Series("band", block.role, block.name, x, (low,) * 2, (low,) * 2, (high,) * 2),
            _line(block.name, (x[0], x[1], x[1], x[0], x[0]), outline, block.role),
        ]
        if high - low > THIN * top:
            middle = _beside((low + high) / 2, once, top)
            texts.append(Text(x[0] + 0.03, middle - 0.014 * top, f"{block.name} {fixed(size, 1)}"))
        level += size
    texts += [Text(x[0], -LINE * (turn + 1) * top, words) for turn, words in enumerate((column.name, *column.words))]
    return series + [_line("floor", (left, left + 1), (0.0, 0.0))], texts


def _beside(middle, once, top):
    """Return the middle of a block's words, moved up where a multiple of *once* would strike them through."""
    line = once * round(middle / once) if once else middle + top
    return line + 0.6 * LINE * top if abs(middle - line) < 0.6 * LINE * top else middle


def _rise(first, second, tops, top):
    """Return a dashed level line from one column to another, and an arrow from it to the other's top."""
    low, high = tops[first], tops[second]
    x, up = LADDER + second + 0.86, 0.02 * top * (1 if high > low else -1)
    level = _line("level", (LADDER + first + 1 - INSET, LADDER + second + 1 - INSET), (low, low), "theory")
    if abs(high - low) < 0.01 * top:
        return [level]
    head = _line("error", (x - 0.03, x, x + 0.03), (high - up, high, high - up))
    return [level, _line("error", (x, x), (low, high)), head]


def _multiples(once, top, right):
    """Return dashed lines at 1, 2, 3 ... times a pressure, with their words; none for zero."""
    count = int(top / once + 1e-9) if once else 0
    lines = [_line("times", (LADDER, right), (once * turn,) * 2, "theory") for turn in range(1, count + 1)]
    return lines, [Text(right + 0.03, once * turn - 0.012 * top, f"{turn} ×") for turn in range(1, count + 1)]


def _line(label, x, y, role="measured"):
    return Series("line", role, label, tuple(map(float, x)), tuple(map(float, y)))
