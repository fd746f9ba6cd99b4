"""Records that stand a year later: checksums of what was read, and which runs a faulty instrument touched."""

import csv
import hashlib
import io
from collections.abc import Iterable, Mapping
from datetime import date
from itertools import islice
from pathlib import Path
from typing import Any

import numpy as np

from turbomath.disk import files
from turbomath.disk.journal import Journal
from turbomath.lab.entry.entry_journal import FILE as ENTRIES
from turbomath.lab.entry.entry_record import JOURNAL as ANSWERS
from turbomath.lab.record.record import FILE as RECORD
from turbomath.lab.run.channels import NUMBER_COLUMNS
from turbomath.lab.run.readings import Run, read_run
from turbomath.table.errors import RefusedFileError, TurbomathError, short
from turbomath.table.formulas import choice

NOTES, NOTES_CSV = "instrument-notes.journal", "instrument-notes.csv"
HEADS = ("date of the note", "instrument", "note", "run", "date of the run", "calibrated", "points")
MOST_RUNS, DEEPEST, LONGEST = 500, 5, 300
SHOWN = 16  # figures of a checksum that tell two files apart


def checksums(run: Run) -> str:
    """Return in words the files of a run and the first figures of their SHA-256, those that are there."""
    found = []
    for name in ("bench.toml", run.file, ENTRIES, RECORD, ANSWERS):
        path = Path(run.folder) / name
        if path.is_file():
            found.append(f"{name} {hashlib.sha256(path.read_bytes()).hexdigest()[:SHOWN]}")
    return ", ".join(found) or "no file"


def note_instrument(folder: Path | str, instrument: str, note: str) -> tuple[list[str], list[str], tuple[Path, Path]]:
    """Write down that an instrument was out of tolerance, with every run below *folder* in which it was read.

    Parameters
    ----------
    folder : path
        The folder that holds the runs of a shop.
    instrument : str
        The column it reads, such as "boost".
    note : str
        What was found, in your own words.

    Returns
    -------
    (touched, unread, paths)
        Names of the runs it touched, sentences on those that could not be read, and the two files of notes.

    Raises
    ------
    TurbomathError
        If there is no such folder or column, the note is empty, or no run below it has the instrument.
    """
    folder, column = Path(folder), "_".join(str(instrument).strip().lower().replace("_", " ").split())
    choice("--instrument", column, dict.fromkeys(NUMBER_COLUMNS))
    words = " ".join(short(note, LONGEST).split())
    if not words:
        raise TurbomathError('--note: found nothing, expected what was wrong, such as "reads 1.5 psi high at 20 psi".')
    if not folder.is_dir():
        raise RefusedFileError(folder, "no such folder", "the folder that holds your runs", "Check its name.")
    touched, unread = _touched(folder, column)
    if not touched:
        what = column.replace("_", " ")
        raise TurbomathError(f"{folder}: found no run with a reading of {what}, so nothing is noted. Check the folder.")
    journal = Journal(folder / NOTES)
    journal.append({"date": date.today().isoformat(), "instrument": column, "note": words, "runs": touched})
    files.write_whole(folder / NOTES_CSV, notes_csv(journal.read()[0]))
    return [run["run"] for run in touched], unread, (folder / NOTES, folder / NOTES_CSV)


def notes_csv(records: Iterable[Mapping[str, Any]]) -> str:
    """Return all notes as text for a spreadsheet, a row for each run that one touched."""
    out = io.StringIO(newline="")
    writer = csv.writer(out, lineterminator="\r\n")
    writer.writerow(HEADS)
    for one in records:
        for run in one.get("runs", ()):
            lead = (one.get("date", ""), str(one.get("instrument", "")).replace("_", " "), one.get("note", ""))
            writer.writerow([files.cell(text) for text in (*lead, *(run.get(key, "") for key in _RUN))])
    return "\ufeff" + out.getvalue()


_RUN = ("run", "date", "calibrated", "points")


def _touched(folder, column):
    """Return the runs below a folder in which a column was read, and a sentence on each that could not be read."""
    found, unread = [], []
    benches = sorted(path for depth in range(1, DEEPEST) for path in folder.glob("*/" * depth + "bench.toml"))
    for bench in islice(benches, MOST_RUNS):
        try:
            run = read_run(bench.parent)
        except (OSError, TurbomathError) as trouble:
            unread.append(str(trouble))
            continue
        rows = np.flatnonzero(np.isfinite(run[column]) | run.pegged.get(column, np.zeros(len(run), dtype=bool)))
        if rows.size:
            found.append(
                {
                    "run": bench.parent.relative_to(folder).as_posix(),
                    "date": str(run.bench.run.date or "not stated"),
                    "calibrated": str(run.bench.instrument(column).calibrated or "not stated"),
                    "points": ", ".join(run.points[row] for row in rows),
                }
            )
    return found, unread
