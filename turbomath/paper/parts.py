"""The parts of a page as plain data; templates show them and work nothing out."""

from dataclasses import dataclass

MOST_ROWS_TOGETHER = 12


@dataclass(frozen=True)
class Head:
    """The head of a column: its name and its unit ("" for none)."""

    name: str
    unit: str = ""


@dataclass(frozen=True)
class Table:
    """A table; the first cell of each row is the head of the row.

    `style` is "numbers" (right-aligned, never broken), "words", or "free" for text from outside, broken
    anywhere rather than too wide, or a style that one page has for itself. `group` rows at a time belong
    together; 0 is all of them.
    """

    caption: str
    heads: tuple[Head, ...]
    rows: tuple[tuple[str, ...], ...]
    style: str = "numbers"
    group: int = 0

    @property
    def groups(self) -> list[tuple[tuple[str, ...], ...]]:
        """The rows, `group` at a time."""
        size = self.group or max(len(self.rows), 1)
        return [self.rows[at : at + size] for at in range(0, len(self.rows), size)]

    @property
    def is_short(self) -> bool:
        """Whether the whole table should stay on one page."""
        return len(self.rows) <= MOST_ROWS_TOGETHER


@dataclass(frozen=True)
class Figure:
    """A picture ready for a page: caption, words for those who do not see it, SVG text and table twin."""

    caption: str
    alt: str
    svg: str
    table: Table


@dataclass(frozen=True)
class Equation:
    """An equation: what it gives, its LaTeX, its conditions, the key of its source."""

    name: str
    latex: str
    conditions: str
    source: str
