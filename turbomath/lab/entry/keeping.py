"""What was entered, on the disk and on its way there; nothing that was entered is dropped when the disk refuses."""

from dataclasses import replace
from pathlib import Path

from turbomath.lab.entry.entry import Entry, counting, standing
from turbomath.lab.entry.entry_journal import FILE, EntryJournal, Kept
from turbomath.lab.entry.grid import Plan
from turbomath.table.errors import TurbomathError, refused


class Keeping:
    """The entries of one run folder: those in its journal, and behind them those that the disk has refused so far.

    Parameters
    ----------
    folder : path
        The run folder.
    plan : Plan or None
        What the grid is made from, if the journal has none yet; None for entries that need none.
    file : str
        The name of the journal.

    Attributes
    ----------
    plan : Plan or None
        The journal's own plan where it has begun, else the one given.
    fault : str
        Why something is not on the disk, in a sentence, or "".
    kept : Kept
        What the journal was last seen to hold.

    Raises
    ------
    OSError, RefusedFileError
        If the journal is there and cannot be read.
    """

    def __init__(self, folder: Path | str, plan: Plan | None, file: str = FILE) -> None:
        self.journal, self.plan, self.fault, self.kept = EntryJournal(folder, file), plan, "", Kept()
        self._pending: list[Entry] = []
        self._take_up(self.journal.read())
        self._own = {one.name for one in self.kept.entries}

    @property
    def entries(self) -> tuple[Entry, ...]:
        """Every entry, in order: those on the disk, then those on their way."""
        there = {one.name for one in self.kept.entries}  # some are, although the disk could not vouch for them
        return (*self.kept.entries, *(one for one in self._pending if one.name not in there))

    @property
    def cells(self) -> dict[tuple[str, str], Entry]:
        """{(row, column): entry} of what stands in each cell."""
        return standing(self.entries)

    @property
    def unsaved(self) -> dict[tuple[str, str], str]:
        """{(row, column): why what stands there is not on the disk}."""
        return {entry.cell: self.fault for entry in self._pending}

    def add(self, entry: Entry) -> bool:
        """Put an entry on the disk, behind those that still wait; return whether it is there to stay."""
        self._own.add(entry.name)
        self._pending.append(entry)
        self.save()
        return entry not in self._pending

    def save(self) -> None:
        """Put what waits on the disk, the oldest first; stop where the disk refuses, and say why in `fault`."""
        self.fault, saved = "", []
        try:
            if self._pending and self.plan and self.kept.plan is None:
                self.journal.begin(self.plan)
            while self._pending:
                self.journal.append(self._pending[0])
                saved.append(self._pending.pop(0))
        except (OSError, TurbomathError) as trouble:
            self.fault = f"Not saved: {refused(trouble)} It stays here until it is saved or you leave."
        try:
            self.refresh()
        except (OSError, TurbomathError):  # it is there to stay, even if it cannot be read again now
            self.kept = replace(self.kept, entries=(*self.kept.entries, *saved))

    def refresh(self) -> int:
        """Take up what is in the journal by now, in its order; return how many entries were not known here."""
        known = {one.name for one in self.entries}
        self._take_up(self.journal.read())
        return len({one.name for one in self.kept.entries} - known)

    def last(self, name: str = "") -> Entry | None:
        """Return the entry of that name if it counts, or the last one that counts and was entered here, else None."""
        fit = [
            one
            for one in counting(self.entries)
            if not one.undoes and (one.name == name if name else one.name in self._own)
        ]
        return fit[-1] if fit else None

    def last_taken_back(self) -> Entry | None:
        """Return the last entry that takes one back, if nothing was entered here since, else None."""
        undoes = {one.name: one.undoes for one in self.entries}
        fit = [one for one in counting(self.entries) if one.name in self._own and not undoes.get(one.undoes)]
        return fit[-1] if fit and fit[-1].undoes else None

    def _take_up(self, kept: Kept) -> None:
        self.kept, self.plan = kept, kept.plan or self.plan
