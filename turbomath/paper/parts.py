"""The parts of a page as plain data; templates show them and work nothing out."""

from dataclasses import dataclass


@dataclass(frozen=True)
class Head:
    """The head of a column: its name and its unit ("" for none)."""

    name: str
    unit: str = ""


@dataclass(frozen=True)
class Table:
    """A table; the first cell of each row is the head of the row. `numeric` sets the cells right-aligned."""

    caption: str
    heads: tuple[Head, ...]
    rows: tuple[tuple[str, ...], ...]
    numeric: bool = True


@dataclass(frozen=True)
class Figure:
    """A picture ready for a page: caption, words for those who do not see it, SVG text and table twin."""

    caption: str
    alt: str
    svg: str
    table: Table


@dataclass(frozen=True)
class Equation:
    """An equation: what it gives, its LaTeX, what its letters mean, its conditions, its source."""

    name: str
    latex: str
    letters: tuple[tuple[str, str], ...]
    conditions: str
    source: str
