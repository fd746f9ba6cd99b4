"""Practice: a question of the bank with numbers of one's own, answered at once. No record of it unless it is wanted."""

import secrets
from datetime import datetime
from typing import Any

from turbomath import working
from turbomath.homework import bank
from turbomath.homework.asking import variants
from turbomath.homework.asking.variant import LETTERS
from turbomath.homework.bank.question import Choice
from turbomath.homework.marking import marking
from turbomath.homework.marking.terminal import PRACTICE
from turbomath.panels.homework import LESSON
from turbomath.panels.homework.exercise import exercise
from turbomath.panels.homework.maths import NAMESPACE, tree
from turbomath.panels.homework.practice_record import Record
from turbomath.table.errors import TurbomathError
from turbomath.table.formulas import choice
from turbomath.table.version import __version__
from turbomath.widgets.asking import sentence
from turbomath.widgets.panel import Panel

SUBJECTS = bank.SUBJECTS
HEADS = {
    "right": "Right.",
    "unit": "Look at the unit.",
    "rounding": "Rounded too far.",
    "carried": "Right for your own earlier value.",
    "given": "A number of the question.",
    "waiting": "This cannot be read.",
    "none": "Not yet.",
}
NO_TRY = ("given", "waiting")  # what was typed is no try: a number of the question, or nothing that can be read


def panel() -> Panel:
    """Return the panel to practise on: any question, fresh numbers whenever wanted, an answer to each try."""
    return Panel(LESSON.words["homework"].title, PracticeDesk)


class PracticeDesk:
    """One reader's practice: which question with which numbers, what was tried, which hints were asked for."""

    def __init__(self, title: str) -> None:
        self.title, self.system, self.seat, self.fault = title, "us", f"P{secrets.randbelow(9000) + 1000}", ""
        self.subject = next(iter(SUBJECTS))
        self.record = Record()
        self.retry, self.hints, self.tried, self.worked = 0, 0, False, False
        self._heard = {
            "subject": self.pick_subject,
            "question": self.pick,
            "system": self.switch,
            "seat": self.sit,
            "fresh": self.fresh,
            "check": self.check,
            "hint": self.hint,
            "work": self.work,
            "record": self.record.switch,
        }
        self._begin(SUBJECTS[self.subject][0].name)

    def hear(self, say: str, **words: Any) -> None:
        """Do what the reader did; an unknown doing is refused."""
        choice("say", say, self._heard)(**words)

    def pick_subject(self, key: str) -> None:
        """Go to the first question of a subject."""
        questions = choice("key", key, SUBJECTS)
        self.subject = key
        self._begin(questions[0].name)

    def pick(self, key: str) -> None:
        """Go to a question of the subject."""
        names = {one.name: one.name for one in SUBJECTS[self.subject]}
        self._begin(choice("key", key, names))

    def switch(self, system: str) -> None:
        """Put the same question in the other units."""
        self.system = choice("system", system, {"us": "us", "si": "si"})
        self._put()

    def sit(self, text: str) -> None:
        """Take the numbers of a seat; those of a seat code are the same on any machine."""
        before, self.seat, self.fault = self.seat, text.strip(), ""
        try:
            self._put()
        except TurbomathError as refusal:
            self.seat, self.fault = before, sentence(refusal)

    def fresh(self) -> None:
        """Put the same question with other numbers."""
        self._put(self.retry + 1)

    def check(self, texts: dict[str, str]) -> None:
        """Mark what was typed into each box; an empty one is left alone."""
        self._answer(texts)
        self.tried = self.tried or any(mark.finding not in NO_TRY for mark in self.marks.values())
        for part, mark in self.marks.items():
            self.record.keep(self._told(part, mark))

    def hint(self) -> None:
        """Give one more hint; the second, which tells the method, only after a real try."""
        self.hints = min(self.hints + 1, len(self.variant.question.hints) if self.tried else 1)

    def work(self) -> None:
        """Show the worked solution, or put it away; there has to be a try before."""
        self.worked = self.tried and not self.worked

    def state(self) -> dict[str, Any]:
        """Return what is worth keeping: which question with which numbers, what was typed, how much help was given."""
        return {
            "question": [self.subject, self.name, self.seat, self.system, self.retry],
            "texts": dict(self.texts),
            "help": [self.hints, self.tried, self.worked],
        }

    def take_up(self, state: dict[str, Any]) -> None:
        """Put the same question again, with what was typed, if this edition of the kit still has it."""
        try:
            subject, name, seat, system, retry = state["question"]
            hints, tried, worked = state["help"]
            self.pick_subject(subject)
            self.pick(name)
            self.sit(seat)
            self.switch(system)
            self._put(int(retry))
            self._answer(state["texts"])
        except (LookupError, TypeError, ValueError, AttributeError, TurbomathError):
            return
        self.hints, self.tried, self.worked = int(hints), bool(tried), bool(worked)

    def _answer(self, texts):
        self.texts = {part: str(texts.get(part, "")) for part in self._parts()}
        self.marks = {part: self._mark(part) for part, text in self.texts.items() if text.strip()}

    def _begin(self, name):
        self.name = name
        self._put()

    def _put(self, retry=0):
        self.variant = variants.make(
            self.name, secret=PRACTICE, assignment=PRACTICE, seat=self.seat, units=self.system, retry=retry
        )
        self.retry, self.texts, self.marks, self.hints, self.tried, self.worked = retry, {}, {}, 0, False, False

    def _parts(self):
        return [""] if self._is_choice() else [one.name for one in self.variant.asked]

    def _is_choice(self):
        return isinstance(self.variant.question, Choice)

    def _mark(self, part):
        if self._is_choice():
            return marking.mark(self.variant, self.texts[part])
        earlier = {name: text for name, text in self.texts.items() if name != part and text.strip()}
        return marking.mark(self.variant, self.texts[part], part=part, earlier=earlier)

    def _told(self, part, mark):
        return {
            "when": datetime.now().isoformat(timespec="seconds"),
            "kit": __version__,
            "seat": self.seat,
            "question": self.name,
            "sheet": self.variant.code,
            "part": part,
            "answer": self.texts[part],
            "finding": mark.finding,
        }

    def opening(self) -> dict[str, Any]:
        """Return what never changes."""
        return {
            "title": self.title,
            "questions": [],
            "controls": [],
            "screen": "practice",
            "subjects": list(SUBJECTS),
            "maths": NAMESPACE,
        }

    def frame(self) -> dict[str, Any]:
        """Return all that is shown now."""
        question = self.variant.question
        return {
            "system": self.system,
            "subject": self.subject,
            "name": self.name,
            "seat": self.seat,
            "fault": self.fault,
            "names": [[one.name, one.name.replace("_", " ")] for one in SUBJECTS[self.subject]],
            "about": f"{question.objective[:1].upper()}{question.objective[1:]}. Difficulty {question.difficulty} "
            f"of 3. Sheet code {self.variant.code}.",
            "exercise": exercise(self.variant),
            "parts": [{"name": part, "text": self.texts.get(part, ""), **self._reply(part)} for part in self._parts()],
            "hints": list(question.hints[: self.hints]),
            "more": (len(question.hints) if self.tried else 1) - self.hints,
            "tried": self.tried,
            "worked": self._solution() if self.worked else None,
            "record": {"on": self.record.on, "note": self.record.note, "fault": self.record.fault},
        }

    def _reply(self, part):
        mark = self.marks.get(part)
        if mark is None:
            return {"good": False, "head": "", "words": ""}
        head = HEADS.get(mark.finding, f"A usual mistake ({mark.finding}).")
        return {"good": mark.right, "head": head, "words": mark.message}

    def _solution(self):
        if self._is_choice():
            place = next(place for place, one in enumerate(self.variant.asked) if not one.code)
            right = self.variant.asked[place]
            return [["answer", f"{LETTERS[place]}  {right.words}", []], ["sense", right.reply, []]]
        return [
            [line.sort, line.words, [] if line.says_no_more else [tree(one) for one in line.latex]]
            for line in working.lines(self.variant.chain, self.system)
        ]
