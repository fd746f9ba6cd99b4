"""The file of readings that entries are written to: readings.csv, or one beside it where that would lose work."""

import os
from itertools import count
from pathlib import Path

from turbomath.lab.entry.entry_journal import EntryJournal, checksum
from turbomath.lab.run import headers, readings
from turbomath.lab.run.cells import MOST_BYTES, read_sheet
from turbomath.table.errors import RefusedFileError

READINGS, BENCH = readings.DEFAULT_FILE, "bench.toml"
WORKBOOKS = tuple(name for name in readings.FILES if name != READINGS)


def target(folder: Path | str, journal: EntryJournal) -> tuple[Path, str]:
    """Return (path, why not readings.csv or ""): where readings may be written without loss of another's work.

    The *journal* has the sum of each file that was written from it; a file changed since has another.
    """
    own = Path(folder) / READINGS
    workbook = next((name for name in WORKBOOKS if os.path.lexists(Path(folder) / name)), None)
    if workbook:
        why = f"{workbook} is there, and a run has one file of readings"
    elif _may_go(own, journal):
        return own, ""
    else:
        why = f"{READINGS} holds what was not written here, or was changed since"
    names = (f"readings-entered{'' if number == 1 else f'-{number}'}.csv" for number in count(1))
    path = next(path for name in names if _may_go(path := Path(folder) / name, journal))
    return path, f"{why}; it was left as it is, and what you entered is in {path.name}."


def blank_heads(folder: Path | str) -> dict[str, str]:
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
        found = checksum(path.read_bytes())  # before the journal, where another window notes what it is to write
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
