"""The live lab: readings entered beside the running engine, each kept at once, checked and worked out as they come."""

import os
from dataclasses import replace
from itertools import chain, islice
from pathlib import Path
from typing import Any

from turbomath.disk.files import work_folder
from turbomath.lab.entry.entry_journal import FILE
from turbomath.lab.entry.entry_run import EntryRun, Results, Written
from turbomath.panels.live_lab import LESSON
from turbomath.panels.live_lab.fault_page import FaultPage
from turbomath.panels.live_lab.log_page import LogPage
from turbomath.panels.live_lab.record_page import RecordPage
from turbomath.panels.live_lab.shown import answer, readings_of, sheet_frame, shown
from turbomath.panels.live_lab.tasks import JUDGES
from turbomath.panels.live_lab.wall import Wall
from turbomath.table.cautions import CAUTIONS, SHOP_CAUTIONS
from turbomath.table.errors import TurbomathError, refused
from turbomath.table.formulas import choice
from turbomath.widgets import own_run
from turbomath.widgets.answers import MARKS, Answer
from turbomath.widgets.asking import Asked, heard, sentence, states, take_up
from turbomath.widgets.panel import Panel
from turbomath.widgets.steps import Ticks

MOST_FOUND, DEEPEST = 50, 4
ON_PAPER = "generator_air_to_air"  # INVENTED
NO_FOLDER = "type the folder of your run first, such as week 3/run 1: it holds bench.toml."
UNSAVED = "The run that is open has readings that are not on the disk. Press save again first."
CLOSED = (
    "What the readings come to is drawn here, once you have predicted and one point has a barometer, an ambient "
    "temperature and boost."
)


WORDS = LESSON.words["live_lab"]


def panel() -> Panel:
    """Return the panel in which a run is entered at the engine."""
    return Panel(WORDS.title, LabDesk)


class LabDesk:
    """One shop's desk: which run folders there are, the one that is open, who reads, what the readings come to.

    It begins with the run that was entered last, so that after a crash all stands there again by itself.
    """

    entries: EntryRun | None
    record: RecordPage | None
    results: Results | None
    readings: own_run.Readings | None
    wrote: Written | None
    written: Path | None
    fresh: set[tuple[str, str]]
    twice: set[str]

    def __init__(self, title: str) -> None:
        self.title, self.typed, self.reader = title, "", ""
        self.asked, self.ticks, self.wall = Asked(WORDS.asked()), Ticks(WORDS.steps), Wall()
        self.log, self.faults = LogPage(self), FaultPage(self)
        self._close()
        self._heard = {
            "open": self.open,
            "look": self.look,
            "reader": self.read_by,
            "enter": self.enter,
            "save again": self.save_again,
            "settle": self.settle,
            "save record again": self.save_record_again,
            "look over": self.look_over,
            "undo": self.undo,
            "redo": self.redo,
            "add": self.add,
            "second": self.second,
            "work out": self.work_out,
            "report": self.report,
            "wall": self.hang,
            "follow": self.follow,
            **self.log.heard,
            **self.faults.heard,
            **heard([self.asked]),
        }
        self._begin_with_the_last()

    def _begin_with_the_last(self):
        self.look()
        begun = [path for path, _ in self.found if (Path(path) / FILE).is_file()]
        if begun:
            self.open(max(begun, key=lambda path: (Path(path) / FILE).stat().st_mtime))

    def hear(self, say: str, **words: Any) -> None:
        """Do what the reader did; an unknown doing is refused."""
        choice("say", say, self._heard)(**words)
        if self.entries and self.asked.open:
            self.ticks.look(lambda step: JUDGES[step.asks["judged"]](self))

    def look(self) -> None:
        """Look again which run folders there are, and what another window entered."""
        work = work_folder().absolute()
        benches = chain.from_iterable(sorted(work.glob("*/" * depth + "bench.toml")) for depth in range(1, DEEPEST))
        self.found = [[str(one.parent), one.parent.relative_to(work).as_posix()] for one in islice(benches, MOST_FOUND)]
        if self.entries:
            self._try(self.entries.refresh)
            self.work_out()

    def open(self, path: str) -> None:
        """Open a run folder, with every reading that was kept before."""
        self.typed, self.fault = path, ""
        if self.entries and (self.entries.unsaved or (self.record and self.record.unsaved)):
            self.fault = UNSAVED
            return
        self._close()
        name = path.strip().strip("\"'")
        if not name or not name.isprintable():
            self.fault = sentence(NO_FOLDER)
            return
        try:
            entries = EntryRun(work_folder().absolute() / os.path.expanduser(name))
            self.record = RecordPage(entries.folder, entries.bench)
            self.entries = entries
        except (OSError, TurbomathError) as trouble:
            self.fault = sentence(refused(trouble))
        else:
            self.work_out()

    def read_by(self, text: str) -> None:
        """Take the initials of who reads from now on."""
        self.reader = text.strip()

    def enter(self, row: str, column: str, text: str) -> None:
        """Keep what was typed into one box; it is looked at when all is worked out."""
        self._open().enter(row, column, text, self.reader, look=False)
        self.fresh.add((row, column))
        self.said = ""

    def save_again(self) -> None:
        """Save what the disk refused before."""
        self._told(self._open().again())

    def settle(self, row: str, column: str, text: str) -> None:
        """Keep one answer of the run-up record."""
        self._page().settle(row, column, text, self.reader)

    def save_record_again(self) -> None:
        """Save the answers that the disk refused before."""
        self._page().save_again()
        self.look_over()

    def look_over(self) -> None:
        """Judge the run-up record, write record.toml, and with it what is said of the run."""
        self._page().look_over()
        self._reckon()

    def undo(self) -> None:
        """Take the last entry back."""
        self._told(self._open().undo(self.reader))

    def redo(self) -> None:
        """Bring back what was taken back last."""
        self._told(self._open().redo(self.reader))

    def add(self, condition: str) -> None:
        """Add a point behind the last one."""
        self._told(self._open().add_point(condition, self.reader))

    def second(self, point: str) -> None:
        """Show the row for a second pass of a point."""
        self.twice.add(point)

    def work_out(self) -> None:
        """Write readings.csv from the entries, check it, and work out what it allows."""
        self._reckon()
        if self.results:
            self.wrote = self._open().write()

    def hang(self, on: bool) -> None:
        """Show what the readings come to, for a wall, or the grid again; a wall follows and writes nothing."""
        self.wall = Wall(on=on)
        if on:
            self.follow()
        elif self.entries:
            self.look()

    def follow(self) -> None:
        """Take up what was entered into the run folder in another window, if there is anything new."""
        if self.entries is None:
            self._begin_with_the_last()
        self.log.look()
        if self.entries and self.wall.is_news(self.entries.folder / FILE):
            self._try(self.entries.refresh)
            self._reckon()

    def _reckon(self):
        own = self._open()
        self.results, self.readings, self.fresh = None, None, set()
        if not own.entries:
            return
        try:
            self.results = own.results()
        except (OSError, TurbomathError) as trouble:
            self.fault = sentence(refused(trouble))
        self.readings = self.results and readings_of(self.results)

    def report(self) -> None:
        """Write the report of what was entered into the work folder."""
        self.written = None
        self.work_out()
        if self.readings:
            self._try(self._write_report)

    def state(self) -> dict[str, Any]:
        """Return what is worth keeping beside the readings, which have a journal of their own."""
        asked, steps, faults = states([self.asked]), self.ticks.state(), self.faults.state()
        return {"folder": self.typed, "reader": self.reader, "asked": asked, "steps": steps, "faults": faults}

    def take_up(self, state: dict[str, Any]) -> None:
        """Open the folder again that was chosen, unless it is open already."""
        self.reader = str(state.get("reader", ""))
        take_up([self.asked], state.get("asked"))
        self.ticks.take_up(state.get("steps"))
        folder = str(state.get("folder", ""))
        if folder and folder != self.typed:
            self.open(folder)
        self.faults.take_up(state.get("faults"))

    def _write_report(self):
        self.written = self.readings.write_report(self._open().bench.run.units)

    def _told(self, told):
        """Keep the words of what was done, and work everything out anew."""
        self.said = told.sentence
        self.work_out()

    def _close(self) -> None:
        self.entries, self.record, self.results, self.readings = None, None, None, None
        self.wrote, self.written = None, None
        self.fresh, self.twice, self.said, self.fault = set(), set(), "", ""
        self.faults.forget()

    def _try(self, do):
        self.fault = ""
        try:
            do()
        except (OSError, TurbomathError) as trouble:
            self.fault = sentence(refused(trouble))

    def _open(self):
        if self.entries is None:
            raise TurbomathError("no run is open. Open yours first.")
        return self.entries

    def _page(self):
        self._open()
        return self.record

    def printed(self, system: str) -> Answer:
        """Return what paper shows: a shipped run, up to its highest load, for the one that the class will enter."""
        run = own_run.opened(ON_PAPER)
        return answer(replace(run, rows=run.rows[: run.rows.index(run.most_boost()) + 1]), system)

    def opening(self) -> dict[str, Any]:
        """Return what never changes."""
        return {
            "title": self.title,
            "questions": [self.asked.question.sheet()],
            "controls": [],
            "screen": "lab",
            "predict": True,
            "marks": MARKS,
            "closed": CLOSED,
            "cautions": {one.hazard: f"{one.text} ({one.source})" for one in (*CAUTIONS, *SHOP_CAUTIONS)},
        }

    def frame(self) -> dict[str, Any]:
        """Return all that is shown now."""
        own, written = self.entries, self.written
        system = own.bench.run.units if own else "us"
        if self.wall.on:
            return self.wall.frame(self, system)
        page = written and {"path": str(written), "page": written.relative_to(work_folder().absolute()).as_posix()}
        return {
            "found": self.found,
            "steps": self.ticks.frame() if self.asked.open else [],
            "wall": None,
            "typed": self.typed,
            "fault": self.fault,
            "reader": self.reader,
            "asked": [self.asked.frame(system)],
            "error": None,
            "written": page,
            "sheet": own and sheet_frame(self),
            "record": self.record and self.record.frame(),
            "log": self.log.frame(),
            "faults": self.faults.frame() if self.asked.open else None,
            "shown": shown(self.readings, system) if self.readings and self.asked.open else None,
        }
