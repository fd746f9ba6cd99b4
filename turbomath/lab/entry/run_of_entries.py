"""From what was entered to a `Run`, by the reader of readings.csv."""

import tempfile
from collections.abc import Mapping
from dataclasses import dataclass, replace
from pathlib import Path

from turbomath.lab.entry.entry import Entry
from turbomath.lab.entry.entry_sheet import EntrySheet, LeftOut, entry_sheet
from turbomath.lab.entry.grid import Grid
from turbomath.lab.entry.readings_file import BENCH, READINGS
from turbomath.lab.run.bench import Bench
from turbomath.lab.run.channels import NUMBER_COLUMNS
from turbomath.lab.run.readings import Run, read_run
from turbomath.table.errors import RefusedFileError


@dataclass(frozen=True)
class Taken:
    """What the reader takes of the entries: their sheet, and the run, or None where there is no number yet."""

    sheet: EntrySheet
    run: Run | None


def taken(
    folder: Path | str, bench: Bench, bench_text: bytes, grid: Grid, cells: Mapping[tuple[str, str], Entry]
) -> Taken:
    """Return `Taken` of the standing entries in *cells*: what the reader refuses is left out, cell by cell.

    Raises
    ------
    OSError
        If there is no room for the scratch copy that is read.
    RefusedFileError
        If the reader refuses what is no single cell, such as a file that is too large.
    """
    refused: list[LeftOut] = []
    while True:
        sheet = entry_sheet(grid, cells, refused)
        if not any(name in NUMBER_COLUMNS for name in sheet.columns):
            return Taken(sheet, None)
        try:
            run = run_of_texts(sheet.text(), bench_text)
        except RefusedFileError as refusal:
            refused += _refused(sheet, cells, refusal)
        else:
            return Taken(sheet, replace(run, name=Path(folder).resolve().name, folder=Path(folder), bench=bench))


def run_of_texts(text: str, bench_text: bytes) -> Run:
    """Return the `Run` of a readings.csv and a bench.toml, read from a scratch folder as any other run is."""
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
