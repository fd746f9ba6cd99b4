"""Readings as they are entered at the engine: each on the disk before it is called saved, none ever changed.

The journal in the run folder is the raw record: every text as it was typed, who read it and when. What stands in the
grid is always worked out from it, so a second window, a dead kernel or a power cut loses nothing that was saved.
"""

from contextlib import suppress
from dataclasses import dataclass, field
from datetime import datetime
from pathlib import Path

from turbomath.errors import TurbomathError, refused
from turbomath.formulas import choice
from turbomath.journal import Journal
from turbomath.lab import entry_file
from turbomath.lab.bench import read_bench
from turbomath.lab.channels import CONDITIONS
from turbomath.lab.entry_cells import LONGEST
from turbomath.lab.entry_grid import SECOND_PASS, TEXT_BOXES, GridRow, next_point

JOURNAL = "readings.journal"


@dataclass
class Grid:
    """What a journal comes to: the rows, the head of each column, what stands in the boxes, and what was undone.

    `texts` and `readers` have a (row key, column) for each box; `entered` the entries that can be undone, the last
    one last, each as (box, text before, text); `written` the checksums of every readings.csv written from it.
    """

    rows: list = field(default_factory=list)
    heads: dict = field(default_factory=dict)
    texts: dict = field(default_factory=dict)
    readers: dict = field(default_factory=dict)
    entered: list = field(default_factory=list)
    written: set = field(default_factory=set)
    begun: dict = field(default_factory=dict)

    def take(self, record):
        """Take up one record of the journal; what is no record of this kit is passed over."""
        for name, take in (("begun", self._begin), ("row", self._enter), ("added", self._add), ("writes", self._wrote)):
            if name in record:
                with suppress(KeyError, TypeError, ValueError):  # written by another program
                    take(record)

    def _begin(self, record):
        if not self.rows:  # of two windows that begin at once the first counts
            self.rows = [GridRow(*map(str, row)) for row in record["rows"]]
            self.heads = {str(name): str(head) for name, head in record["begun"].items()}
            self.begun = record
            self.written.add(record["found"])

    def _enter(self, record):
        box, text = (record["row"], record["column"]), str(record["text"])
        before = self.texts.get(box, "")
        if record.get("undo"):
            last = max(place for place, entry in enumerate(self.entered) if entry[0] == box)
            del self.entered[last]
        else:
            self.entered.append((box, before, text))
        self.texts[box], self.readers[box] = text, str(record.get("reader", ""))

    def _add(self, record):
        row = GridRow(*map(str, record["added"]))
        keys = [one.key for one in self.rows]
        if row.key not in keys:
            self.rows.insert(keys.index(record["after"]) + 1, row)

    def _wrote(self, record):
        self.written.add(record["writes"])


class Entries:
    """The readings entered for one run, begun with what its journal holds.

    Parameters
    ----------
    folder : str or Path
        The run folder; bench.toml is in it.

    Raises
    ------
    RefusedFileError
        If bench.toml cannot be read, or there are readings in the folder that were not entered here.
    OSError
        If the journal is there and cannot be read.

    Attributes
    ----------
    grid : what the journal comes to, a `Grid`.
    unsaved : (row key, column) -> (text, reader, why it is not on the disk).
    note : what of the journal is not whole, as after a power cut; "" if all is.
    fault : why readings.csv could not be written from the entries; "" if it was.
    """

    def __init__(self, folder):
        self.folder = Path(folder)
        self.bench = read_bench(self.folder / "bench.toml")
        self.journal = Journal(self.folder / JOURNAL)
        self.unsaved, self.note, self.fault = {}, "", ""
        self.refresh()
        if not self.grid.rows:
            self.grid.take(entry_file.first_grid(self.folder, self.bench))

    @property
    def rows(self):
        """The rows of the grid, in their order."""
        return tuple(self.grid.rows)

    @property
    def heads(self):
        """{column: the text in its head}, in the order of the grid."""
        return self.grid.heads

    def text(self, row, column):
        """Return what stands in a box, saved or not."""
        box = row, column
        return self.unsaved[box][0] if box in self.unsaved else self.grid.texts.get(box, "")

    def refresh(self):
        """Take up what the journal holds now, also what another window wrote."""
        records, self.note = self.journal.read()
        self.grid = Grid()
        for record in records:
            self.grid.take(record)

    def enter(self, row, column, text, reader=""):
        """Put what was typed into a box on the disk, as it was typed; when it fails, keep it and say why.

        Returns
        -------
        str
            Why it is not saved; "" when it is on the disk.
        """
        box, text = self._box(row, column), _typed(text)
        try:
            self._keep({"row": box[0], "column": box[1], "text": text, "reader": _typed(reader)})
        except (OSError, TurbomathError) as trouble:
            self.unsaved[box] = text, reader, refused(trouble)
            return self.unsaved[box][2]
        self.unsaved.pop(box, None)
        return ""

    def save_again(self):
        """Try once more to save what the disk refused."""
        for (row, column), (text, reader, _) in tuple(self.unsaved.items()):
            self.enter(row, column, text, reader)

    def undo(self):
        """Take the last entry back, as an entry of its own; return the box, or None if there is nothing to undo.

        Raises
        ------
        OSError, TurbomathError
            If it cannot be put on the disk; nothing is undone then.
        """
        if not self.grid.entered:
            return None
        box, before, _ = self.grid.entered[-1]
        self._keep({"row": box[0], "column": box[1], "text": before, "undo": True})
        return box

    def add_point(self, after, condition):
        """Add a row for one more point below the row *after*, and return it; raises as `undo` does."""
        return self._add(after, GridRow(next_point(self.grid.rows), choice("condition", condition, _CONDITIONS)))

    def add_second_pass(self, row):
        """Add a row in which the point of *row* is read a second time, and return it; raises as `undo` does."""
        first = {one.key: one for one in self.grid.rows}[row]
        return self._add(row, GridRow(first.point, first.condition, SECOND_PASS))

    def write_readings(self):
        """Write readings.csv from the entries, whole; return whether there is anything to read in it.

        `fault` says why it could not be written. A readings.csv that was changed by other means is left as it is.
        """
        self.fault = ""
        try:
            return entry_file.write(self.folder, self.grid, self._keep)
        except (OSError, TurbomathError) as trouble:
            self.fault = f"{refused(trouble)} What you entered is safe in {JOURNAL}."
            return False

    def _add(self, after, row):
        self._keep({"added": [row.point, row.condition, row.reading_pass], "after": after})
        return row

    def _keep(self, record):
        """Put a record on the disk, then take up what the journal holds."""
        if not self.journal.path.exists():
            self.journal.append(self._stamped(self.grid.begun))
        self.journal.append(self._stamped(record))
        self.refresh()

    @staticmethod
    def _stamped(record):
        return {"when": datetime.now().isoformat(timespec="seconds"), **record}

    def _box(self, row, column):
        keys, columns = [one.key for one in self.grid.rows], (*self.heads, *TEXT_BOXES)
        return (choice("row", row, dict(zip(keys, keys, strict=True))),
                choice("column", column, dict(zip(columns, columns, strict=True))))  # fmt: skip


_CONDITIONS = {one: one for one in CONDITIONS}


def _typed(text):
    """Return a text as it was typed, or refuse what no keyboard types into a box."""
    text = str(text)
    if len(text) > LONGEST or not text.isprintable():
        raise TurbomathError(f"a box takes at most {LONGEST} letters on one line; write the rest as a remark.")
    return text
