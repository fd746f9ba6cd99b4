"""From what was entered to a `Run`, by the reader of readings.csv; and where readings may be written, over no work."""

import os
import tempfile
from dataclasses import dataclass, replace
from itertools import count
from pathlib import Path

from turbomath.lab.entry.entry_journal import checksum
from turbomath.lab.entry.entry_sheet import EntrySheet, LeftOut, entry_sheet
from turbomath.lab.run import headers
from turbomath.lab.run.cells import MOST_BYTES, read_sheet
from turbomath.lab.run.channels import NUMBER_COLUMNS
from turbomath.lab.run.readings import Run, read_run
from turbomath.table.errors import RefusedFileError

READINGS, WORKBOOK, BENCH = "readings.csv", "readings.xlsx", "bench.toml"


@dataclass(frozen=True)
class Taken:
    """What the reader takes of the entries: their sheet, and the run, or None where there is no number yet."""

    sheet: EntrySheet
    run: Run | None


def taken(folder, bench, bench_text, grid, cells):
    """Return `Taken` of the standing entries in *cells*: what the reader refuses is left out, cell by cell.

    Raises
    ------
    OSError
        If there is no room for the scratch copy that is read.
    RefusedFileError
        If the reader refuses what is no single cell, such as a file that is too large.
    """
    refused = []
    while True:
        sheet = entry_sheet(grid, cells, refused)
        if not any(name in NUMBER_COLUMNS for name in sheet.columns):
            return Taken(sheet, None)
        try:
            run = _read(sheet.text(), bench_text)
        except RefusedFileError as refusal:
            refused += _refused(sheet, cells, refusal)
        else:
            return Taken(sheet, replace(run, name=Path(folder).resolve().name, folder=Path(folder), bench=bench))


def _read(text, bench_text):
    """Return the `Run` of two texts, read from a scratch folder as any other run is."""
    with tempfile.TemporaryDirectory(prefix="turbomath-", ignore_cleanup_errors=True) as scratch:
        (Path(scratch) / READINGS).write_text(text, encoding="utf-8", newline="")
        (Path(scratch) / BENCH).write_bytes(bench_text)
        return read_run(scratch)


def _refused(sheet, cells, refusal):
    """Return the cells that a refusal of the reader means, as left out; one that means none is raised again."""
    row, column = sheet.cell_at(refusal.row, refusal.column)
    meant = [one for one in cells.values() if one.column == column and row in (None, one.row)]
    if not meant:
        raise refusal
    return [LeftOut(*one.cell, one.text, refusal.expected, refusal.action) for one in meant]


def target(folder, journal):
    """Return (path, why not readings.csv or ""): where readings may be written without loss of another's work.

    The *journal* has the sum of each file that was written from it; a file changed since has another.
    """
    readings = Path(folder) / READINGS
    if os.path.lexists(Path(folder) / WORKBOOK):
        why = f"{WORKBOOK} is there, and a run has one file of readings"
    elif _may_go(readings, journal):
        return readings, ""
    else:
        why = f"{READINGS} holds what was not written here, or was changed since"
    names = (f"readings-entered{'' if number == 1 else f'-{number}'}.csv" for number in count(1))
    path = next(path for name in names if _may_go(path := Path(folder) / name, journal))
    return path, f"{why}; it was left as it is, and what you entered is in {path.name}."


def blank_heads(folder):
    """Return {column: unit} of the number columns of a readings.csv that has a head and no readings, else {}."""
    path = Path(folder) / READINGS
    return {one.name: one.unit for one in _blank(path) or () if one.holds_numbers}


def _may_go(path, journal):
    """Return whether a file is none, our own and unchanged, or a blank one."""
    if not os.path.lexists(path):
        return True
    if path.is_symlink() or not path.is_file() or path.stat().st_size > MOST_BYTES:
        return False
    try:
        found = checksum(
            path.read_bytes()
        )  # before the journal is read, where another window notes it before it writes
    except OSError:
        return False
    return found in journal.read().sums or bool(_blank(path))


def _blank(path):
    """Return the columns of a file with a head that the kit knows and nothing below it, else None."""
    try:
        sheet = read_sheet(path)
        columns, _ = headers.columns(sheet)
    except RefusedFileError:
        return None
    known = all(one.holds_numbers or one.name in headers.TEXT_COLUMNS for one in columns)
    return columns if known and not sheet.rows else None
