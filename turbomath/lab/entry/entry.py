"""One entry at the engine: which cell, the text exactly as it was typed, who read it, when. It is never changed."""

import secrets
from collections.abc import Sequence
from dataclasses import asdict, dataclass, field, fields
from datetime import datetime
from typing import Any


def _now():
    return datetime.now().isoformat(timespec="seconds")


@dataclass(frozen=True)
class Entry:
    """What was entered into one cell, or that an entry is taken back.

    `unit` is the unit in the head of the column when it was typed. `name` is the entry's own, given by chance so that
    two windows never give the same. `undoes` is the name of the entry that this one takes back, else "".
    """

    row: str
    column: str
    text: str
    unit: str = ""
    reader: str = ""
    remark: str = ""
    undoes: str = ""
    when: str = field(default_factory=_now)
    name: str = field(default_factory=lambda: secrets.token_hex(8))

    @property
    def cell(self) -> tuple[str, str]:
        """The row and the column."""
        return self.row, self.column

    def taken_back(self, reader: str = "") -> "Entry":
        """Return the entry that takes this one back."""
        return Entry(self.row, self.column, self.text, self.unit, reader, undoes=self.name)


_FIELDS = frozenset(one.name for one in fields(Entry))


def record(entry: Entry) -> dict[str, str]:
    """Return an entry as a journal keeps it."""
    return asdict(entry)


def from_record(found: Any) -> Entry | None:
    """Return the entry of a record, or None where it is none."""
    is_one = isinstance(found, dict) and found.keys() == _FIELDS
    return Entry(**found) if is_one and all(isinstance(value, str) for value in found.values()) else None


def counting(entries: Sequence[Entry]) -> list[Entry]:
    """Return the entries that count, in their order: not those taken back, unless that was taken back in turn."""
    gone, kept = set(), []
    for one in reversed(entries):  # what takes back comes after what is taken back
        if one.name in gone:
            continue
        if one.undoes:
            gone.add(one.undoes)
        kept.append(one)
    return kept[::-1]


def standing(entries: Sequence[Entry]) -> dict[tuple[str, str], Entry]:
    """Return {(row, column): entry} of what stands in each cell: of the entries that count, the last."""
    return {one.cell: one for one in counting(entries) if not one.undoes}
