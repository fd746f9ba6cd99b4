"""From what was entered to the text of readings.csv: each pass a row, nothing averaged, no zero subtracted.

What the reader of readings.csv would refuse is left out there, said in the remark of its row, and kept in the journal.
"""

import csv
import io
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from turbomath import units
from turbomath.disk import files
from turbomath.lab.entry.entry import Entry
from turbomath.lab.entry.grid import CONDITION, PASSES, TEXTS, Grid
from turbomath.lab.run.channels import CONDITIONS
from turbomath.lab.run.headers import is_missing, known_name
from turbomath.lab.run.numbers import bare
from turbomath.table.errors import OutOfRangeError, short

FIRST_ROW = 2  # of a spreadsheet, below the head
_SWAP = str.maketrans(".,", ",.")


@dataclass(frozen=True)
class LeftOut:
    """A cell that is in the journal but not in readings.csv, since no number can be read from it."""

    row: str
    column: str
    text: str
    expected: str
    action: str


@dataclass(frozen=True)
class EntrySheet:
    """The cells as readings.csv takes them: `heads`, `rows` of texts, and `keys`, the grid row of each of them."""

    heads: tuple[str, ...]
    keys: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    columns: tuple[str, ...]
    left_out: tuple[LeftOut, ...]

    def text(self) -> str:
        """Return the text of readings.csv; no cell of it is one that a spreadsheet would run."""
        page = io.StringIO(newline="")
        csv.writer(page, lineterminator="\n").writerows([self.heads, *self.rows])
        return files.BYTE_ORDER_MARK + page.getvalue()

    def cell_at(self, spreadsheet_row: int | None, head: str | None) -> tuple[str | None, str | None]:
        """Return (grid row or None for a whole column, column or None) of a place in readings.csv."""
        index = (spreadsheet_row or 1) - FIRST_ROW
        column = self.columns[self.heads.index(head)] if head in self.heads else None
        return self.keys[index] if index >= 0 else None, column


def entry_sheet(grid: Grid, cells: Mapping[tuple[str, str], Entry], refused: Iterable[LeftOut] = ()) -> EntrySheet:
    """Return the `EntrySheet` of the standing entries.

    Parameters
    ----------
    grid : Grid
        From `turbomath.lab.entry.grid.grid`.
    cells : dict
        (row, column) -> standing entry.
    refused : iterable of LeftOut
        Cells that the reader of readings.csv has refused already.
    """
    out = {(one.row, one.column): one for one in refused}
    texts = {}
    for cell, entry in cells.items():
        if cell in out or is_missing(entry.text):
            continue
        text, fault = _written(grid, entry)
        if fault:
            out[cell] = LeftOut(*cell, entry.text, *fault)
        else:
            texts[cell] = text
    return _laid_out(grid, cells, texts, tuple(out.values()))


def _written(grid, entry):
    """Return (text, fault): the cell as readings.csv takes it, or (what was expected, what to do) where it does not."""
    if entry.cell not in grid.cells:
        return "", ("a box of this sheet", "Enter it where it belongs.")
    unit = grid.unit(entry.column)
    return _number(entry, unit) if unit else _words(entry)


def _words(entry):
    """Return (text, fault) of a cell of words."""
    if entry.column == CONDITION and known_name(entry.text.replace("-", " ")).replace("_", " ") not in CONDITIONS:
        return "", (f"one of {', '.join(CONDITIONS)}", "Write one of them.")
    return harmless(entry.text), None


def _number(entry, unit):
    """Return (text, fault) of a number: as it was typed, or with a decimal point where it has a comma."""
    if entry.unit != unit:
        return "", (f"a number in {unit}, not in {entry.unit or 'none'}", "Read the gauge again, in the unit above.")
    typed, (number, _) = entry.text.strip(), bare(entry.text)
    try:
        value = units.number(number)
    except OutOfRangeError as refusal:
        return "", (f"a number in {unit}", f"{refusal.action} Read the gauge again, or leave the cell empty.")
    for text in (number, number.translate(_SWAP)):
        if _with_a_point(text) == value:
            return typed.replace(number, text, 1), None
    return "", (f"a number in {unit}", "Write it with a decimal point.")


def _with_a_point(text):
    """Return the number that readings.csv, which has a decimal point, gives for a text; None if none."""
    try:
        return units.number(text, decimal=".")
    except OutOfRangeError:
        return None


def _laid_out(grid, cells, texts, left_out):
    """Lay the cells out in rows; a row or a number column without any is not written."""
    names = [one.name for one in grid.columns if one.unit and any(cell[1] == one.name for cell in texts)]
    heads = {one.name: one.head for one in grid.columns}
    conditions = {row: text for (row, column), text in texts.items() if column == CONDITION}
    rows, keys = [], []
    for row in grid.rows:
        here = [entry for cell, entry in cells.items() if cell[0] == row.key and entry.column != CONDITION]
        if not any(entry.remark.strip() or not is_missing(entry.text) for entry in here):
            continue
        named = (row.point + PASSES[0], CONDITION) in cells
        condition = conditions.get(row.point + PASSES[0], "") if named else row.condition
        readers = harmless(", ".join(dict.fromkeys(entry.reader.strip() for entry in here if entry.reader.strip())))
        keys.append(row.key)
        rows.append(
            (
                row.point,
                condition,
                texts.get((row.key, "time"), ""),
                row.reading_pass,
                *(texts.get((row.key, name), "") for name in names),
                readers,
                _remark(row.key, here, left_out),
            )
        )
    columns = ("point", CONDITION, "time", "pass", *names, "reader", "remark")
    return EntrySheet(tuple(heads.get(name, name) for name in columns), tuple(keys), tuple(rows), columns, left_out)


def _remark(key, here, left_out):
    """Return the remark of a row: its own, those of its entries, and what could not be read as a number."""
    own = [entry.text for entry in here if entry.column == TEXTS[1] and not is_missing(entry.text)]
    beside = [f"{entry.column.replace('_', ' ')}: {entry.remark}" for entry in here if entry.remark.strip()]
    lost = [
        f"{one.column.replace('_', ' ')}: left out, as typed: {short(one.text)}" for one in left_out if one.row == key
    ]
    return harmless("; ".join((*own, *beside, *lost)))


def harmless(text: object) -> str:
    """Return free text on one line, every mark of it visible, and none of it a formula to a spreadsheet."""
    from turbomath.paper.page import visible  # pages are slow to import

    return visible(files.cell(" ".join(str(text).split())))
