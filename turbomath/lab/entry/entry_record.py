"""The run-up record as it is entered: each answer on the disk before it is called saved, record.toml made from all.

``record.journal`` in the run folder holds every answer from then on. Nothing is blocked and nothing is changed: what is
no answer to its question is kept as typed, and said.
"""

from dataclasses import dataclass
from pathlib import Path
from typing import Any, NamedTuple

from turbomath.lab.checks.flags import Flag
from turbomath.lab.checks.run_up import run_up_flags
from turbomath.lab.entry import own_file
from turbomath.lab.entry.entry import Entry
from turbomath.lab.entry.keeping import Keeping
from turbomath.lab.record.questions import ANSWER, Box, Column, boxes
from turbomath.lab.record.record import FILE, Record, record_of
from turbomath.lab.record.record_text import record_text, typed
from turbomath.lab.run.bench import Bench
from turbomath.table.errors import RefusedFileError, TurbomathError, refused, short

JOURNAL = "record.journal"
LONGEST = 2_000  # letters of one text, as of a reading


class Told(NamedTuple):
    """What became of an answer: whether it is on the disk, and that in a sentence."""

    saved: bool
    sentence: str


@dataclass(frozen=True)
class Looked:
    """What the answers come to: the record, why some text is no answer, and which passes a limit."""

    record: Record
    values: dict[Box, Any]
    refusals: dict[Box, RefusedFileError]
    flags: dict[Box, Flag]


class EntryRecord:
    """The run-up record of one run folder, begun with what its journal holds.

    Parameters
    ----------
    folder : path
        A run folder of your own.
    bench : Bench
        What its bench.toml says.

    Raises
    ------
    OSError, RefusedFileError
        If the journal is there and cannot be read.
    """

    def __init__(self, folder: Path | str, bench: Bench) -> None:
        self.folder, self.bench = Path(folder), bench
        self._columns: dict[Box, Column] = {box: column for box, _, _, column in boxes(bench)}
        self._keeping = Keeping(folder, None, JOURNAL)

    @property
    def note(self) -> str:
        """What of the journal is not whole, in a sentence, or ""."""
        return self._keeping.kept.note

    @property
    def texts(self) -> dict[Box, str]:
        """{box: text exactly as typed} of what stands in each box, saved or not."""
        return {_box(cell): entry.text for cell, entry in self._keeping.cells.items()}

    @property
    def unsaved(self) -> dict[Box, str]:
        """{box: why it is not on the disk}."""
        return {_box(cell): why for cell, why in self._keeping.unsaved.items()}

    def enter(self, box: Box, text: str, reader: str = "", remark: str = "") -> Told:
        """Put one answer on the disk; an empty text empties the box. What is not saved stays here.

        Raises
        ------
        TurbomathError
            If the record has no such box.
        """
        if box not in self._columns:
            raise TurbomathError(f"the record: found no such box as {short(_name(box))!r}. Take one of its questions.")
        if max(len(text), len(reader), len(remark)) > LONGEST:
            return Told(False, f"Not saved: a text of more than {LONGEST:,} letters. Write it shorter.")
        row = f"{box.question}.{box.row}" if box.row else box.question
        unit = self._columns[box].unit(self.bench.run.units)
        return self._told(self._keeping.add(Entry(row, box.column, text, unit, reader, remark)))

    def again(self) -> Told:
        """Try once more to save what the disk refused."""
        self._keeping.save()
        return self._told(not self.unsaved)

    def refresh(self) -> int:
        """Take up what another window wrote to the journal, and return how many answers were new."""
        return self._keeping.refresh()

    def looked(self) -> Looked:
        """Return what the answers come to; a text that is no answer is left out, and told."""
        values, refusals = {}, {}
        for cell, entry in self._keeping.cells.items():
            box = _box(cell)
            if box not in self._columns or not entry.text.strip():
                continue
            try:
                values[box] = typed(entry.text, self._columns[box], entry.unit)
            except RefusedFileError as refusal:
                refusals[box] = refusal
        record = record_of(record_text(values, self.bench), FILE, self.bench)
        return Looked(record, values, refusals, run_up_flags(record, self.bench))

    def write(self) -> Told:
        """Write what was answered as record.toml, whole; beside it if that holds what was not written here."""
        path = self.folder / FILE
        try:
            self.refresh()
            found = self.looked()
            if not (found.values or found.refusals or path.exists()):
                return Told(False, "Nothing was answered yet, so nothing was written.")
            left_out = [f"left out, as typed: {_name(box)}: {self.texts[box]}" for box in found.refusals]
            path, beside = own_file.target(self.folder, FILE, self._keeping.journal, self._is_blank)
            own_file.write(path, record_text(found.values, self.bench, left_out).encode(), self._keeping.journal)
        except (OSError, TurbomathError) as trouble:
            return Told(False, f"{path.name} was not written: {refused(trouble)} Every saved answer is in {JOURNAL}.")
        return Told(True, beside or f"Written to {path.name}.")

    def _is_blank(self, path):
        try:
            return not record_of(path.read_text(encoding="utf-8"), str(path), self.bench).answers
        except (UnicodeDecodeError, RefusedFileError):
            return False

    def _told(self, saved):
        return Told(saved, self._keeping.fault or "Saved.")


def _name(box: Box) -> str:
    return ".".join(part for part in box if part and part != ANSWER)


def _box(cell: tuple[str, str]) -> Box:
    question, _, row = cell[0].partition(".")
    return Box(question, row, cell[1])
