"""From what was entered to readings.csv: written whole, and never over what someone else wrote there."""

import csv
import hashlib
import io

from turbomath import files
from turbomath.errors import RefusedFileError, TurbomathError
from turbomath.lab import headers
from turbomath.lab.cells import read_sheet
from turbomath.lab.channels import NUMBER_COLUMNS, TEXT_COLUMNS
from turbomath.lab.entry_cells import sheet_cell
from turbomath.lab.entry_grid import first_heads, first_rows

READINGS, WORKBOOK = "readings.csv", "readings.xlsx"
_OWN = set(TEXT_COLUMNS)


def first_grid(folder, bench):
    """Return the record that begins a journal: the rows, and the heads of the readings.csv there is or of the bench.

    Raises
    ------
    RefusedFileError
        If there are readings in the folder already, or the head of readings.csv cannot be read.
    """
    path, heads, found = folder / READINGS, first_heads(bench), ""
    if (folder / WORKBOOK).exists():
        raise _refusal(folder / WORKBOOK, "a workbook of readings")
    if path.exists():
        sheet = read_sheet(path)
        if sheet.rows:
            raise _refusal(path, f"{len(sheet.rows)} readings")
        heads = {one.name: _head(one) for one in headers.columns(sheet)[0] if one.name not in _OWN}
        found = _digest(path.read_bytes())
    rows = [[row.point, row.condition, row.reading_pass] for row in first_rows()]
    return {"begun": heads, "rows": rows, "found": found}


def write(folder, grid, keep):
    """Write readings.csv and return True; or, while no box holds a reading, write nothing and return False.

    *keep* puts a record into the journal, so that the kit knows its own file again.

    Raises
    ------
    RefusedFileError
        If readings.csv is not as it was written from the entries.
    OSError
        If the disk refuses; the old file is then as it was.
    """
    text = sheet_text(grid)
    if not text:
        return False
    path, content = folder / READINGS, text.encode()
    if path.exists():
        there = _digest(path.read_bytes())
        if there == _digest(content):
            return True
        if there not in grid.written:
            raise RefusedFileError(path, "changes that were not made in the grid", "the file as the grid wrote it",
                                   "It was left as it is. Move it elsewhere, then enter a reading.")  # fmt: skip
    keep({"writes": _digest(content)})
    files.write_whole(path, content)
    return True


def sheet_text(grid):
    """Return readings.csv as text, a line for each row that holds a reading; "" if none does."""
    lines = [line for row in grid.rows if (line := _line(grid, row))]
    if not lines:
        return ""
    out = io.StringIO()
    heads = (files.cell(head) for head in grid.heads.values())
    csv.writer(out, lineterminator="\n").writerows([("point", "condition", "pass", *heads, "reader", "remark"), *lines])
    return out.getvalue()


def trouble_in(grid, row, column):
    """Return why what stands in a box is no reading, in one sentence; "" if it is one, or there is none."""
    if column not in NUMBER_COLUMNS:
        return ""
    try:
        sheet_cell(grid.texts.get((row, column), ""), column, unit_of(grid.heads[column]))
    except TurbomathError as trouble:
        return str(trouble)
    return ""


def unit_of(head):
    """Return the unit in a head, such as "psi" of "boost [psi]"."""
    return head.rpartition("[")[2].rstrip("]").strip() if head.endswith("]") else ""


def _line(grid, row):
    """The cells of one row; what is no reading leaves its cell empty and stands in the remark, as it was typed."""
    cells, unread = [], []
    for column in grid.heads:
        text = grid.texts.get((row.key, column), "")
        if column not in NUMBER_COLUMNS:
            cells.append(files.cell(text))
        elif trouble_in(grid, row.key, column):
            cells.append("")
            unread.append(f"{column.replace('_', ' ')}: {text!r} is no reading")
        else:
            cells.append(sheet_cell(text, column, unit_of(grid.heads[column])))
    if not any(cells) and not unread:
        return None
    readers = dict.fromkeys(name for column in grid.heads if (name := grid.readers.get((row.key, column), "").strip()))
    remark = "; ".join(part for part in (grid.texts.get((row.key, "remark"), "").strip(), *unread) if part)
    return [row.point, row.condition, row.reading_pass, *cells, files.cell(", ".join(readers)), files.cell(remark)]


def _head(column):
    words = column.name.replace("_", " ")
    return f"{words} [{column.unit}]" if column.holds_numbers else column.header


def _digest(content):
    return hashlib.sha256(content).hexdigest()


def _refusal(path, found):
    return RefusedFileError(path, found, "a folder without readings, or those entered here before",
                            "Enter a new run in a folder of its own: turbomath new FOLDER.")  # fmt: skip
