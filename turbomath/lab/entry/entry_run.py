"""Entering readings at the engine: each on the disk before it is called saved, then looked at; results as they come.

A run folder with its bench.toml is opened; ``readings.journal`` in it holds every entry from then on, readings.csv is
made from it. Nothing is blocked and nothing is changed: what cannot be read is kept, and said.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import ClassVar

from turbomath.disk import files
from turbomath.lab.checks import check_run, zero_drift
from turbomath.lab.checks.flags import Flag
from turbomath.lab.entry import grid as entry_grid
from turbomath.lab.entry import own_file, readings_file
from turbomath.lab.entry.cell_flags import cell_flags, left_out_flag
from turbomath.lab.entry.entry import Entry
from turbomath.lab.entry.entry_journal import FILE
from turbomath.lab.entry.entry_sheet import LeftOut
from turbomath.lab.entry.grid import CONDITION, MOST_POINTS, PASSES, point_of
from turbomath.lab.entry.keeping import Keeping
from turbomath.lab.entry.run_of_entries import taken
from turbomath.lab.record.record import FILE as RECORD
from turbomath.lab.reduction.reduce import Reduced, reduce_run
from turbomath.lab.run.bench import read_bench
from turbomath.lab.run.channels import CONDITIONS
from turbomath.lab.run.headers import is_missing
from turbomath.lab.run.readings import Run
from turbomath.table.errors import RefusedFileError, TurbomathError, refused, short
from turbomath.table.formulas import choice

MOST_TIMES = 5  # that a file is written again because another window goes on entering
LONGEST = 2_000  # letters of one text
SAVED = "Saved."


@dataclass(frozen=True)
class Told:
    """What became of an entry: whether it is on the disk, that in a sentence, and the flags of its cell."""

    saved: bool
    sentence: str
    flags: tuple[Flag, ...] = ()


@dataclass(frozen=True)
class Results:
    """What the entries so far give: `rows` are the grid rows of the elements of `run` and `reduced`."""

    run: Run
    reduced: Reduced
    flags: tuple[Flag, ...]
    drift: tuple[zero_drift.Drift, ...]
    rows: tuple[str, ...]
    left_out: tuple[LeftOut, ...]


@dataclass(frozen=True)
class Written:
    """Where the readings were written, whether they are there whole, and a sentence on it."""

    path: Path
    saved: bool
    sentence: str
    left_out: tuple[LeftOut, ...] = ()


class EntryRun:
    """The readings of one run folder as they are entered, begun with what its journal holds.

    Parameters
    ----------
    folder : path
        A run folder of your own with a bench.toml.
    conditions : sequence of str, optional
        The condition of each point; by default the rows of the printed sheet. A journal that has begun keeps its own.
    units : dict, optional
        Column -> unit for heads other than the display units of bench.toml; else those of a blank readings.csv.

    Raises
    ------
    OSError, TurbomathError
        If bench.toml or the journal cannot be read, or the run is a shipped one.
    """

    _worked: ClassVar[tuple] = (None, None)  # the entries that were worked out last, and what they gave

    def __init__(
        self, folder: Path | str, conditions: Sequence[str] | None = None, units: Mapping[str, str] | None = None
    ) -> None:
        self.folder = Path(folder)
        self.bench = read_bench(self.folder / readings_file.BENCH)
        self._bench_text = (self.folder / readings_file.BENCH).read_bytes()
        self._refuse_shipped()
        units = readings_file.blank_heads(self.folder) if units is None else units
        self._plan = entry_grid.plan(self.bench, conditions, units)
        self._keeping = Keeping(self.folder, self._plan)
        self.note, self.restored = self._keeping.kept.note, sum(bool(text.strip()) for text in self.texts.values())

    @property
    def entries(self) -> tuple[Entry, ...]:
        """Every entry, in order: those on the disk, then those that the disk has refused so far."""
        return self._keeping.entries

    @property
    def texts(self) -> dict[tuple[str, str], str]:
        """{(row, column): text exactly as typed} of what stands in each cell, saved or not."""
        return {cell: entry.text for cell, entry in self._keeping.cells.items()}

    @property
    def grid(self) -> entry_grid.Grid:
        """The `Grid` to enter into; it grows with the points that are added."""
        return entry_grid.grid(self._keeping.plan or self._plan, self._keeping.cells)

    @property
    def unsaved(self) -> dict[tuple[str, str], str]:
        """{(row, column): why it is not on the disk}."""
        return self._keeping.unsaved

    def history(self, row: str, column: str) -> tuple[Entry, ...]:
        """Return every entry of one cell, the oldest first, also those taken back or entered in another window."""
        return tuple(one for one in self.entries if one.cell == (row, column))

    def enter(self, row: str, column: str, text: str, reader: str = "", remark: str = "", *, look: bool = True) -> Told:
        """Put one entry on the disk and look at its cell.

        Parameters
        ----------
        row, column : str
            A `Row.key` and a `Column.name` of the grid, or "condition" with a pass A.
        text, reader, remark : str
            What was typed, who read it, what is to be said of it. An empty text empties the cell.
        look : bool
            False leaves the flags to a later call of `flags`, since looking takes longer than saving.

        Returns
        -------
        Told
            `saved` is true only once the entry is on the disk. What is not saved stays here; `again` tries once more.

        Raises
        ------
        TurbomathError
            If the grid has no such cell.
        """
        grid, texts = self.grid, [str(one) for one in (text, reader, remark)]
        if (row, column) not in grid.cells:
            raise TurbomathError(
                f"row {short(row)!r}, column {short(column)!r}: found no such box in this grid. "
                "Take a row and a column of the grid."
            )
        if max(map(len, texts)) > LONGEST:
            return Told(False, f"Not saved: a text of more than {LONGEST:,} letters. Write it shorter.")
        return self._keep(Entry(row, column, texts[0], grid.unit(column), *texts[1:]), look=look)

    def add_point(self, condition: str = "load", reader: str = "") -> Told:
        """Add a point behind the last one, with both passes; it is an entry too."""
        choice(CONDITION, condition, dict.fromkeys(CONDITIONS))
        last = max(point_of(row.key) for row in self.grid.rows)
        if last >= MOST_POINTS:
            return Told(False, f"Not added: a run has at most {MOST_POINTS} points. Begin another folder.")
        return self._keep(Entry(f"{last + 1}{PASSES[0]}", CONDITION, condition, reader=reader))

    def undo(self, reader: str = "", name: str = "") -> Told:
        """Take back the entry of that name, or the last one that counts and was not made in another window."""
        last = self._keeping.last(name)
        return self._keep(last.taken_back(reader), "Taken back") if last else Told(False, "Nothing to take back.")

    def redo(self, reader: str = "") -> Told:
        """Bring back what the last undo took back, if nothing was entered since."""
        last = self._keeping.last_taken_back()
        return self._keep(last.taken_back(reader), "Brought back") if last else Told(False, "Nothing to bring back.")

    def again(self) -> Told:
        """Try once more to save what the disk refused."""
        self._keeping.save()
        return Told(not self.unsaved, self._keeping.fault or SAVED)

    def refresh(self) -> int:
        """Take up what another window wrote to the journal, and return how many entries were new.

        Raises
        ------
        OSError, RefusedFileError
            If the journal cannot be read; what is known here stays.
        """
        return self._keeping.refresh()

    def flags(self, row: str, column: str) -> tuple[Flag, ...]:
        """Return the flags of one cell, the worst first: what is odd, why, and what to read again."""
        found, cells = self._taken(), self._keeping.cells
        point = next((one.point for one in self.grid.rows if one.key == row), row)
        left_out = [one for one in found.sheet.left_out if (one.row, one.column) == (row, column)]
        if left_out:
            return (left_out_flag(left_out[0], point),)
        entry = cells.get((row, column))
        if found.run is None or entry is None or not entry.unit or is_missing(entry.text):
            return ()
        alone = {cell: one for cell, one in cells.items() if cell[0] == row or cell[1] == CONDITION}
        return cell_flags(found.run, found.sheet.keys.index(row), column, self._taken(alone).run)

    def results(self) -> Results | None:
        """Return the `Results` of what was entered so far, or None where there is no number yet."""
        record = self.folder / RECORD
        given = self.folder, self._bench_text, self.entries, record.read_bytes() if record.is_file() else b""
        if EntryRun._worked[0] != given:  # else another window of this Python has worked out the same
            found = self._taken()
            EntryRun._worked = given, found.run and _results(found.run, found.sheet)
        return EntryRun._worked[1]

    def write(self) -> Written:
        """Write what was entered as readings.csv, whole; beside it if that holds what was not written here.

        Returns
        -------
        Written
            `saved` is false where the disk refused: what was there before is as it was, and the journal has it all.
        """
        path = self.folder / readings_file.READINGS
        try:
            for _ in range(MOST_TIMES):
                self.refresh()
                seen, found = self._keeping.kept.entries, self._taken()
                path, beside = readings_file.target(self.folder, self._keeping.journal)
                if not found.sheet.rows and not path.exists():
                    return Written(path, False, "Nothing was entered yet, so nothing was written.")
                own_file.write(path, found.sheet.text().encode(), self._keeping.journal)
                self.refresh()
                if self._keeping.kept.entries == seen:  # else another window has entered something meanwhile
                    break
        except (OSError, TurbomathError) as trouble:
            sentence = f"{path.name} was not written: {refused(trouble)} Every saved entry is in {FILE}."
            return Written(path, False, sentence)
        return Written(path, True, beside or f"Written to {path.name}.", found.sheet.left_out)

    def _taken(self, cells=None):
        """Return what the reader takes of all that stands, or of the *cells* given."""
        cells = self._keeping.cells if cells is None else cells
        return taken(self.folder, self.bench, self._bench_text, self.grid, cells)

    def _keep(self, entry, done="", *, look=True):
        """Save an entry behind those that still wait, and tell what there is to say of its cell."""
        saved = self._keeping.add(entry)
        sentence = self._keeping.fault or SAVED
        if done:
            sentence = f"{done}: {entry.column.replace('_', ' ')} at {entry.row}, {short(entry.text)!r}. {sentence}"
        try:
            return Told(saved, sentence, self.flags(*entry.cell) if look else ())
        except (OSError, TurbomathError) as trouble:
            return Told(saved, f"{sentence} It could not be looked at: {refused(trouble)}")

    def _refuse_shipped(self):
        if self.folder.resolve().is_relative_to(files.shipped("data").resolve()):
            raise RefusedFileError(
                self.folder,
                "a run that comes with the kit",
                "a folder of your own",
                "Begin one with: turbomath new FOLDER.",
            )


def _results(run, sheet):
    reduced = reduce_run(run)
    return Results(run, reduced, check_run(run, reduced), zero_drift.drifts(run), sheet.keys, sheet.left_out)
