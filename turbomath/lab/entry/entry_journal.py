"""The journal of a run folder: its plan, every entry, and which files of readings were written from them."""

import hashlib
from dataclasses import dataclass
from pathlib import Path

from turbomath.disk.journal import Journal
from turbomath.lab.entry import entry as entries_of
from turbomath.lab.entry.entry import Entry
from turbomath.lab.entry.grid import Plan
from turbomath.lab.run.channels import CONDITIONS, NUMBER_COLUMNS

FILE = "readings.journal"


@dataclass(frozen=True)
class Kept:
    """What a journal holds: its plan or None, its entries in order, sums of files written, a note on torn lines."""

    plan: Plan | None = None
    entries: tuple = ()
    sums: frozenset[str] = frozenset()
    note: str = ""


class EntryJournal:
    """The journal in a run folder. What was appended is on the disk; two windows may append to one journal.

    Parameters
    ----------
    folder : path
        The run folder.
    file : str
        ``readings.journal``, or that of another sort of entries, which has no plan.
    """

    def __init__(self, folder: Path | str, file: str = FILE) -> None:
        self._journal = Journal(Path(folder) / file)

    def begin(self, plan: Plan) -> None:
        """Put the plan on the disk; of several the first counts."""
        self._journal.append({"plan": {"conditions": list(plan.conditions), "units": plan.units}})

    def append(self, entry: Entry) -> None:
        """Put one entry on the disk; when this returns, it is there to stay.

        Raises
        ------
        OSError, RefusedFileError
            If the disk refuses; what was in the journal before is as it was.
        """
        self._journal.append({"entry": entries_of.record(entry)})

    def will_write(self, content: bytes) -> None:
        """Note that a file of this content (bytes) is about to be written, so that it is known as our own later."""
        self._journal.append({"written": checksum(content)})

    def read(self) -> Kept:
        """Return `Kept`: of an entry that stands there twice the first, and a note on what is not whole or not ours.

        Raises
        ------
        OSError, RefusedFileError
            If the journal is there and cannot be read.
        """
        records, note = self._journal.read()
        plans = [found for one in records if (found := _plan(one.get("plan")))]
        entries = [found for one in records if (found := entries_of.from_record(one.get("entry")))]
        sums = frozenset(str(one["written"]) for one in records if "written" in one)
        strange = len(records) - len(plans) - len(entries) - sum("written" in one for one in records)
        notes = [note] if note else []
        if strange:
            notes.append(f"{self._journal.path.name}: {strange} lines are no entries of this kit and were left out.")
        once = {one.name: one for one in reversed(entries)}
        return Kept(
            plans[0] if plans else None, tuple(one for one in entries if once[one.name] is one), sums, " ".join(notes)
        )


def checksum(content: bytes) -> str:
    """Return the SHA-256 of bytes as text."""
    return hashlib.sha256(content).hexdigest()


def _plan(found):
    """Return the plan of a record, or None where it is none."""
    if not isinstance(found, dict) or found.keys() != {"conditions", "units"}:
        return None
    conditions, units = found["conditions"], found["units"]
    if not isinstance(conditions, list) or not isinstance(units, dict):
        return None
    sound = all(one in CONDITIONS for one in conditions) and all(
        name in NUMBER_COLUMNS and isinstance(unit, str) for name, unit in units.items()
    )
    return Plan(tuple(conditions), units) if sound and units else None
