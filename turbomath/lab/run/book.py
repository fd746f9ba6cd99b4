"""The sheets of a workbook of whatever kind: which one holds the readings, and its cells as a person types them.

A number comes as its shortest text, a time as hours and minutes, a cell shown in per cent as a per cent. What a
spreadsheet program hides is read like the rest, and said.
"""

from collections.abc import Callable, Collection, Iterable, Sequence
from dataclasses import dataclass, field

import numpy as np

from turbomath.disk.plain_files import Place
from turbomath.lab.run.cells import MOST_ROWS, Note, Sheet, table
from turbomath.table.errors import RefusedFileError

SEPARATOR = ""  # the cells of a book stand apart without any
SHEET_NAME = "readings"
LAST_ROW, LAST_COLUMN, MOST_CELLS = 1_048_576, 16_384, 2_000_000  # of a sheet, blank ones too
NUMBERS_ONLY = "Copy the cells, paste them as values, and save again."
_SHOW = "Show all rows, columns and sheets, and delete what is no reading of this run."


@dataclass(frozen=True)
class Page:
    """One sheet of a book: `rows` gives (row, texts) from the top; hidden rows and columns are counted from 1."""

    title: str
    rows: Callable[[], Iterable[tuple[int, list[str]]]]
    hidden: bool = False
    hidden_rows: Callable[[], Collection[int]] = field(default=frozenset)
    hidden_columns: Callable[[], Collection[int]] = field(default=frozenset)


def readings_sheet(pages: Sequence[Page], place: Place) -> Sheet:
    """Return the `Sheet` of a book: its only page, or the one named "readings"."""
    page = _only_page(pages, place)
    records = _as_wide_as_the_head(list(_filled_rows(page, place)))
    notes = [Note(f"{what} read like the rest", _SHOW) for what in _hidden(page, records)]
    return table(records, SEPARATOR, place, notes)


def refuse(place: Place, column: int, found: str) -> RefusedFileError:
    """Return (not raise) the refusal of a cell that holds neither a number nor a text."""
    return place.at(column=letters(column)).refusal(found, "a number or a text", NUMBERS_ONLY)


def shortest(value: float, figures: int | None = None) -> str:
    """Return the shortest decimal text that is this number, without an exponent; or so many figures of it."""
    if isinstance(value, int):
        return str(value)
    return np.format_float_positional(value, precision=figures, unique=figures is None, fractional=False, trim="-")


def per_cent(value: float) -> str:
    """Return a fraction as the per cent that its cell shows."""
    return f"{shortest(value * 100.0, 12)}%"


def letters(column: int) -> str:
    """Return the letters of a column, counted from 1.

    Examples
    --------
    >>> letters(1), letters(28)
    ('A', 'AB')
    """
    found = ""
    while column:
        column, rest = divmod(column - 1, 26)
        found = chr(ord("A") + rest) + found
    return found


def _only_page(pages, place):
    named = [page for page in pages if page.title.strip().lower() == SHEET_NAME]
    if len(pages) == 1 or len(named) == 1:
        return (named or pages)[0]
    titles = ", ".join(page.title + " (hidden)" * page.hidden for page in pages) or "none"
    raise place.refusal(f"the sheets {titles}", f"one sheet, or one named {SHEET_NAME!r}", "Name the sheet so.")


def _filled_rows(page, place):
    """Yield (row, texts) of the rows that are not blank, as long as there are not too many."""
    found = seen = 0
    for row, texts in page.rows():
        if any(text.strip() for text in texts):
            found += 1
            yield row, texts
        seen += len(texts)
        if found > MOST_ROWS + 2 or row > LAST_ROW or seen > MOST_CELLS:
            most = f"at most {MOST_ROWS:,} readings"
            raise place.at(row=row).refusal("more rows", most, "Split the run into several folders.")


def _as_wide_as_the_head(records):
    width = len(records[0][1]) if records else 0
    return [(row, texts + [""] * (width - len(texts))) for row, texts in records]


def _hidden(page, records):
    """Yield words for each hidden thing that holds readings."""
    if page.hidden:
        yield f"the hidden sheet '{page.title}' was"
    filled = {row for row, _ in records}
    named = {index for index, name in enumerate(records[0][1] if records else (), 1) if name.strip()}
    for kind, every, used, name in (
        ("row", page.hidden_rows(), filled, str),
        ("column", page.hidden_columns(), named, letters),
    ):
        found = [name(one) for one in sorted(used.intersection(every))]
        if found:
            yield (
                f"the hidden {kind} {found[0]} was" if len(found) == 1 else f"the hidden {kind}s {_listed(found)} were"
            )


def _listed(names, most=6):
    return ", ".join(names[:most]) + f" and {len(names) - most} more" * (len(names) > most)
