"""The file of readings that entries are written to: readings.csv, or one beside it where that would lose work."""

import os
from pathlib import Path

from turbomath.lab.entry import own_file
from turbomath.lab.entry.entry_journal import EntryJournal
from turbomath.lab.run import headers, readings
from turbomath.lab.run.cells import read_sheet
from turbomath.table.errors import RefusedFileError

READINGS, BENCH = readings.DEFAULT_FILE, "bench.toml"
WORKBOOKS = tuple(name for name in readings.FILES if name != READINGS)


def target(folder: Path | str, journal: EntryJournal) -> tuple[Path, str]:
    """Return (path, why not readings.csv or ""): where readings may be written without loss of another's work.

    The *journal* has the sum of each file that was written from it; a file changed since has another.
    """
    workbook = next((name for name in WORKBOOKS if os.path.lexists(Path(folder) / name)), None)
    why = f"{workbook} is there, and a run has one file of readings" if workbook else ""
    return own_file.target(folder, READINGS, journal, _blank, why)


def blank_heads(folder: Path | str) -> dict[str, str]:
    """Return {column: unit} of the number columns of a readings.csv that has a head and no readings, else {}."""
    path = Path(folder) / READINGS
    return {one.name: one.unit for one in _blank(path) or () if one.holds_numbers}


def _blank(path):
    """Return the columns of a file with a head that the kit knows and nothing below it, else None."""
    try:
        sheet = read_sheet(path)
        columns, _ = headers.columns(sheet)
    except RefusedFileError:
        return None
    known = all(one.holds_numbers or one.name in headers.TEXT_COLUMNS for one in columns)
    return columns if known and not sheet.rows else None
