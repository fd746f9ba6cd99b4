"""A desk with readings beside the sliders: pick a shipped run or read a folder of your own, pick a point, report."""

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from turbomath.disk.files import work_folder
from turbomath.table.errors import TurbomathError
from turbomath.table.formulas import choice
from turbomath.widgets import own_run
from turbomath.widgets.controls import record_type
from turbomath.widgets.desk import Desk, Sheet

NONE, OWN = "", "own"
NO_FOLDER = "type the folder of a run first, such as my_run: it holds bench.toml and readings.csv."


@dataclass(frozen=True)
class Chosen:
    """What an answer needs of the readings: the `Readings`, and the row that is looked at (None where none can be)."""

    readings: own_run.Readings
    row: int | None


class RunDesk(Desk):
    """A `Desk` whose record has one field more: `chosen`, the readings beside the sliders, or None."""

    def __init__(self, sheet: Sheet, follow: Callable[[Chosen], dict[str, Any]], *, whole_run: bool = False) -> None:
        self.picked, self.folder, self.fault = NONE, "", ""
        self.written: Path | None = None
        self.chosen: Chosen | None = None
        self._follow, self.whole_run = follow, whole_run
        super().__init__(sheet)
        self._record = record_type(*self._record._fields, "chosen")
        self._heard |= {
            "run": self.run,
            "read": self.read,
            "point": self.point,
            "follow": self.follow,
            "report": self.report,
        }

    def record(self) -> Any:
        """Return the controls and the readings as one frozen record."""
        return self._record(**self.values, held=frozenset(self.held), chosen=self.chosen)

    def run(self, key: str) -> None:
        """Pick a shipped run, none, or that a folder will be named; then the readings before it go."""
        choice("key", key, {NONE: None, OWN: None, **dict(own_run.titles())})
        self.picked, self.fault, self.written, self.chosen = key, "", None, None
        if key not in (NONE, OWN):
            self._open(key)

    def read(self, folder: str) -> None:
        """Read a folder as typed. One that is refused leaves the words of the refusal, and no readings."""
        self.picked, self.folder, self.fault, self.written, self.chosen = OWN, folder, "", None, None
        name = folder.strip().strip("\"'")
        if name:
            self._open(name)
        else:
            self.fault = NO_FOLDER

    def point(self, row: str) -> None:
        """Look at one reading of the run."""
        readings = self._looked_at().readings
        self.chosen = Chosen(readings, choice("row", str(row), {str(one): one for one in readings.rows}))

    def follow(self) -> None:
        """Set the sliders to what the gauges read at this point; the reader's own values are replaced."""
        self.values |= self._follow(self._looked_at())
        self.typed, self.faults = {}, {}

    def report(self) -> None:
        """Write the report of the readings into the work folder."""
        self.fault, self.written, readings = "", None, self._looked_at().readings
        try:
            self.written = readings.write_report(self.system)
        except TurbomathError as refusal:
            self.fault = str(refusal)
        except OSError as trouble:
            self.fault = own_run.plain(trouble)

    def state(self) -> dict[str, Any]:
        """Return what is worth keeping, with the run that was picked, its folder as typed, and the reading."""
        row = None if self.chosen is None else self.chosen.row
        return {**super().state(), "run": self.picked, "folder": self.folder, "row": row}

    def take_up(self, state: dict[str, Any]) -> None:
        """Open the run again that was picked; one that is gone is told in the words of its refusal."""
        picked, folder, row = str(state.get("run", NONE)), str(state.get("folder", "")), state.get("row")
        if picked == OWN and folder:
            self.read(folder)
        elif picked in (OWN, *dict(own_run.titles())):
            self.run(picked)
        if self.chosen and row in self.chosen.readings.rows:
            self.point(row)
        super().take_up(state)

    def _looked_at(self):
        if self.chosen is None:
            raise TurbomathError("no readings are open. Pick a run first.")
        return self.chosen

    def _answered(self):
        if self.kept:  # the sliders are kept; both cases stand beside the same readings
            self.kept = self.kept._replace(chosen=self.chosen)
        return super()._answered()

    def _open(self, folder):
        try:
            found = own_run.opened(folder)
            self.chosen = Chosen(found, found.most_boost())
        except TurbomathError as refusal:
            self.fault = str(refusal)

    def opening(self) -> dict[str, Any]:
        """Return what never changes, and the runs to pick from."""
        runs = [[NONE, "no readings: sliders only"], *own_run.titles(), [OWN, "a folder of your own"]]
        return {**super().opening(), "runs": runs, "own": OWN}

    def frame(self) -> dict[str, Any]:
        """Return all that is shown now, with the state of the readings."""
        chosen = self.chosen
        lines: dict[str, Any] = {"points": [], "row": None, "notes": []}
        if chosen:
            found = chosen.readings
            notes = found.notes(whole_run=self.whole_run)
            lines = {"points": found.points(), "row": chosen.row, "notes": notes}
        written = self.written and {"path": str(self.written), "page": self._page()}
        return {
            **super().frame(),
            "readings": {"run": self.picked, "folder": self.folder, "fault": self.fault, "written": written, **lines},
        }

    def _page(self):
        return self.written.relative_to(work_folder().absolute()).as_posix()
