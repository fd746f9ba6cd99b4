"""The widgets: a live panel and an exit ticket. Each hears what the reader did and sends back one frame to draw."""

from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any

import anywidget
import traitlets

from turbomath.disk.kept import Kept, changes
from turbomath.table.errors import TurbomathError, refused
from turbomath.table.formulas import choice
from turbomath.widgets.ahead import Ahead
from turbomath.widgets.answers import MARKS, Answer, drawn
from turbomath.widgets.asking import Asked, Question, heard, states, take_up
from turbomath.widgets.desk import Desk, Sheet

_HERE = Path(__file__).parent
_NAMES = (
    "asking",
    "picture",
    "air_path",
    "readings",
    "steps",
    "homework",
    "run_up",
    "log_follow",
    "fault_finder",
    "live_lab",
    "present",
    "live",
)
SCRIPT = "\n".join((_HERE / f"{name}.js").read_text(encoding="utf-8") for name in _NAMES)
STYLE = "\n".join((_HERE / name).read_text(encoding="utf-8") for name in ("live.css", "present.css"))
SILENCE = (
    "Python does not answer. What you see is old, and what you change now is not worked out. "
    "If this stays, choose Run, then Run All Cells."
)
SLIDE = "slide"
UNKEPT = "It stays on this page as long as that is open, and is tried again with the next thing you do."


class _Live(anywidget.AnyWidget):
    """A widget that draws `frame`. Every message from the reader is answered by a frame with the message's turn."""

    _esm, _css, _kind = SCRIPT, STYLE, "prediction"
    opening = traitlets.Dict().tag(sync=True)
    frame = traitlets.Dict().tag(sync=True)

    def __init__(self, desk):
        self._desk, opening = desk, desk.opening()
        self._kept = Kept(opening["title"], self._kind)
        desk.take_up(self._kept.state)
        self._saved = desk.state()
        super().__init__(opening={**opening, "silence": SILENCE}, frame={**desk.frame(), "journal": self._kept.note})
        self._ahead = Ahead(desk, self.send)
        self.on_msg(self._hear)

    @property
    def desk(self) -> Any:
        """What hears the reader and says what is shown; paper asks it without a browser."""
        return self._desk

    def _hear(self, _widget, message, _buffers):
        turn, notice, heading = message.pop("turn", ""), "", 0
        self._ahead.stop()
        try:
            if message.get("say") == SLIDE:
                heading = self._ahead.heading(message["name"], message["text"])
            self._desk.hear(**message)
        except Exception as failure:  # ipywidgets would hide it
            notice = f"The panel did not understand that: {failure}"
        journal = self._keep(sure=message.get("say") != SLIDE)
        self.frame = {**self._desk.frame(), "turn": turn, "notice": notice, "journal": journal}
        if heading and self._desk.asked.open:
            self._ahead.start(message["name"], heading, turn)

    def _keep(self, *, sure):
        """Keep what has changed; what the disk refuses now is tried again with what changes next."""
        now = self._desk.state()
        try:
            self._kept.keep(changes(self._saved, now), sure=sure)
        except (OSError, TurbomathError, ValueError) as trouble:
            return f"Not kept: {refused(trouble)} {UNKEPT}"
        self._saved = now
        return self._kept.note


class Panel(_Live):
    """A live panel of one `Sheet`: prediction, controls, pictures, a sentence, read-outs, table, compare, reset.

    *desk* makes the desk of a sheet; one of another kind can have readings beside the sliders.
    """

    def __init__(self, sheet: Sheet | str, desk: Callable[[Any], Any] = Desk) -> None:
        super().__init__(desk(sheet))


class Figure(_Live):
    """Pictures with their sentence, read-outs and table twin, from one `Answer`: to look at, with nothing to set."""

    def __init__(self, title: str, answer: Answer) -> None:
        super().__init__(_FigureDesk(title, answer))


class Ticket(_Live):
    """An exit ticket: a few questions, each answered in words that name the mistake behind a wrong option."""

    _kind = "ticket"

    def __init__(self, questions: Sequence[Question], title: str = "Before you leave") -> None:
        super().__init__(_TicketDesk(questions, title))


class _FigureDesk:
    """What is shown and never changes."""

    questions = ()

    def __init__(self, title, answer):
        self._title, self._answer, self._wall = title, answer, False

    def hear(self, say, on):
        choice("say", say, {"wall": None})
        self._wall = on

    def printed(self, system):
        return self._answer

    def state(self):
        return {}

    def take_up(self, state):
        pass

    def opening(self):
        return {"title": self._title, "questions": [], "controls": [], "marks": MARKS}

    def frame(self):
        return {"asked": [], "error": None, "shown": drawn(self._answer, wall=self._wall)}


class _TicketDesk:
    """What was answered on a ticket."""

    def __init__(self, questions, title):
        self._title, self.questions, self._asked = title, questions, [Asked(one) for one in questions]

    def hear(self, say, **words):
        choice("say", say, heard(self._asked))(**words)

    def state(self):
        return {"asked": states(self._asked)}

    def take_up(self, state):
        take_up(self._asked, state.get("asked"))

    def opening(self):
        return {"title": self._title, "questions": [one.question.sheet() for one in self._asked], "controls": []}

    def frame(self):
        return {"asked": [one.frame("us") for one in self._asked]}
