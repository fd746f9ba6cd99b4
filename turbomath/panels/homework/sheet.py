"""The sheet of an assignment in the notebook: opened, answered, kept on the disk at each step, handed in."""

from pathlib import Path
from typing import Any

from turbomath.disk import files
from turbomath.panels.homework import LESSON
from turbomath.panels.homework.exercise import box, plain
from turbomath.panels.homework.read_back import read_as
from turbomath.panels.homework.sheet_answers import LONGEST_REMARK, REMARK, SheetAnswers
from turbomath.panels.homework.sheet_file import found_sheets, path_of, read_sheet
from turbomath.table.errors import TurbomathError, refused
from turbomath.table.formulas import choice
from turbomath.widgets.asking import sentence
from turbomath.widgets.panel import Panel

KEPT = "Your text stays in its box. Make room, or let your instructor help; then press save again."
NOTE = {**box(REMARK, "a note to your instructor, if you like", ""), "longest": LONGEST_REMARK}


def panel() -> Panel:
    """Return the panel for the sheet of an assignment. It marks nothing: the key is the instructor's."""
    return Panel(LESSON.words["sheet"].title, SheetDesk)


class SheetDesk:
    """One reader's desk: which sheets there are, the one that is open with its answers, which hints were asked for.

    It begins with the sheet that was worked on last, so that after a crash all stands there again by itself.
    """

    def __init__(self, title: str) -> None:
        self.title, self.typed, self.fault = title, "", ""
        self.answers: SheetAnswers | None = None
        self.hints: dict[str, int] = {}
        self._heard = {
            "open": self.open,
            "look": self.look,
            "enter": self.enter,
            "again": self.again,
            "hint": self.hint,
            "hand in": self.hand_in,
        }
        self.look()
        begun = [Path(path) for path, _ in self.found if _journal(Path(path)).is_file()]
        if begun:
            self.open(str(max(begun, key=lambda path: _journal(path).stat().st_mtime)))

    def hear(self, say: str, **words: Any) -> None:
        """Do what the reader did; an unknown doing is refused."""
        choice("say", say, self._heard)(**words)

    def look(self) -> None:
        """Look again which sheets there are."""
        work = files.work_folder().absolute()
        self.found = [[str(path), path.relative_to(work).as_posix()] for path in found_sheets()]

    def open(self, path: str) -> None:
        """Open a sheet by its path, with every answer that was kept before."""
        self.typed, self.fault = path, ""
        if self.answers and self.answers.unsaved:
            self.fault = "The sheet that is open has entries that are not on the disk. Press save again first."
            return
        self.answers = None
        try:
            self.answers = SheetAnswers(read_sheet(path_of(path)))
        except (OSError, TurbomathError) as trouble:
            self.fault = sentence(refused(trouble))
        else:
            self.hints = {one.name: 0 for one in self.answers.sheet.questions}

    def enter(self, question: str, part: str, text: str) -> None:
        """Save one answer."""
        self._open().enter(question, part, text)

    def again(self) -> None:
        """Save what the disk refused before."""
        self._open().again()

    def hint(self, question: str) -> None:
        """Give one more hint, if the sheet holds any; the second, which tells the method, only after an answer."""
        count = choice("question", question, self.hints) + 1
        one = next(one for one in self._open().sheet.questions if one.name == question)
        self.hints[question] = min(count, self._hints_open(one))

    def hand_in(self) -> None:
        """Write answers.json beside the sheet."""
        self._open().hand_in()

    def state(self) -> dict[str, Any]:
        """Return what is worth keeping beside the answers, which have a journal of their own."""
        return {"path": self.typed, "hints": dict(self.hints)}

    def take_up(self, state: dict[str, Any]) -> None:
        """Open the sheet again that was chosen, with the hints that were asked for."""
        path, hints = str(state.get("path", "")), state.get("hints")
        if path and path != self.typed:
            self.open(path)
        if isinstance(hints, dict):
            self.hints |= {
                name: count for name, count in hints.items() if name in self.hints and isinstance(count, int)
            }

    def _open(self):
        if self.answers is None:
            raise TurbomathError("no sheet is open. Open yours first.")
        return self.answers

    def opening(self) -> dict[str, Any]:
        """Return what never changes."""
        return {"title": self.title, "questions": [], "controls": [], "screen": "sheet"}

    def frame(self) -> dict[str, Any]:
        """Return all that is shown now."""
        return {"found": self.found, "typed": self.typed, "fault": self.fault, "sheet": self._shown()}

    def _shown(self):
        if self.answers is None:
            return None
        own, sheet = self.answers, self.answers.sheet
        due = f", due {sheet.due}" if sheet.due else ""
        restored = f"{own.restored} entries were found on the disk and stand in their boxes again. "
        again = " You have changed it since: hand in again." if own.handed and own.changed else ""
        return {
            "key": f"{sheet.path} {sheet.code}",
            "path": str(sheet.path),
            "title": sheet.title,
            "facts": f"Seat {sheet.seat}, sheet code {sheet.code}{due}. Made with turbomath {sheet.kit}.",
            "note": f"{restored if own.restored else ''}{own.note}".strip(),
            "questions": [self._question(one) for one in sheet.questions],
            "filled": "{} of {} boxes are filled.".format(*own.filled),
            "unsaved": len(own.unsaved),
            "handed": f"{own.handed}{again}",
            "fault": own.fault,
        }

    def _hints_open(self, one):
        """Return how many hints may be given: the first, and all once an answer that can be read stands there."""
        parts = [name for name, _ in one.parts] or [""]
        texts = {part: self._open().texts.get((one.name, part), "").strip() for part in parts}
        units = self._open().sheet.units
        tried = any(text and (one.options or read_as(one.name, part, text, units)[0]) for part, text in texts.items())
        return len(one.hints) if tried else min(1, len(one.hints))

    def _question(self, one):
        given = one.hints[: self.hints[one.name]]
        boxes = [box(name, plain(name), units[0]) for name, units in one.parts] or [box("", "your answer", "")]
        boxes.append(NOTE)
        return {
            "name": one.name,
            "head": f"{one.number}. {plain(one.name)}",
            "hints": list(given),
            "more": max(0, self._hints_open(one) - len(given)),
            "states": [self._state(one, each["name"]) for each in boxes],
            "exercise": {
                "key": one.name,
                "wording": one.wording.split("\n"),
                "options": list(one.options),
                "parts": boxes,
            },
        }

    def _state(self, question, part):
        """Return what stands in a box, whether it is on the disk, and what the kit reads in it."""
        own, key = self.answers, (question.name, part)
        text = own.texts.get(key, "")
        if key in own.unsaved:
            return {
                "text": text,
                "kept": False,
                "good": False,
                "head": "Not saved:",
                "words": f"{own.unsaved[key]} {KEPT}",
            }
        if key not in own.texts or part == REMARK or question.options or not text.strip():
            return {"text": text, "kept": True, "good": True, "head": "Saved." if key in own.texts else "", "words": ""}
        good, words = read_as(question.name, part, text, own.sheet.units)
        return {
            "text": text,
            "kept": True,
            "good": good,
            "words": words,
            "head": "Saved." if good else "Saved, but it cannot be read.",
        }


def _journal(path):
    return path.with_suffix(".journal")
