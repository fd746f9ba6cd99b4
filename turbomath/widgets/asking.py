"""Questions with an answer to commit to: the prediction that opens a panel, and the exit ticket of a lesson."""

import re
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from typing import Any

from turbomath import units
from turbomath.table.errors import OutOfRangeError, TurbomathError, short
from turbomath.table.formulas import choice

MOST_HANDS = 999
HANDS = "{!r} is no count of hands. Type a whole number from 0 to 999."


@dataclass(frozen=True)
class Option:
    """One answer to choose from: its words, the reply to it, and the usual mistake behind it ("" where there is none).

    `mistake` is a code of the instructor's list, such as "M1"; it is never shown to the student.
    """

    words: str
    reply: str
    mistake: str = ""
    right: bool = False


@dataclass(frozen=True)
class Question:
    """A question with options, or with a number to enter in `unit` where there are none.

    `outcome` says in the system "us" or "si" what the air does; it is shown once an answer is given.
    `entry` names the box where there are no options. A question that `stays` can be answered again and again.
    """

    text: str
    options: tuple[Option, ...] = ()
    unit: str = ""
    outcome: Callable[[str], str] | None = None
    entry: str = "your number"
    stays: bool = False

    def sheet(self) -> dict[str, Any]:
        """Return what is shown before an answer; replies stay behind."""
        return {
            "text": self.text,
            "options": [one.words for one in self.options],
            "unit": self.unit,
            "entry": self.entry,
            "stays": self.stays,
        }

    def said(self, text: str) -> str:
        """Return an answer as it will stand beside the outcome, or refuse it.

        Raises
        ------
        OutOfRangeError
            If nothing is chosen, or a number is asked for and the text is none.
        """
        if not self.options:
            units.number(text)
            return f"{text.strip()} {self.unit}".strip()
        if text not in [one.words for one in self.options]:
            raise OutOfRangeError("choose one answer first; a guess is welcome.")
        return text

    def reply(self, said: str) -> str:
        """Return the words for an answer: those of the option chosen."""
        return next((one.reply for one in self.options if one.words == said), "")

    def answer(self) -> str:
        """Return the reply to the right option, or nothing where none is marked as right."""
        return next((one.reply for one in self.options if one.right), "")


class Asked:
    """One question while it is put: what was said, why, what was wrong with an attempt, and the hands of a class."""

    def __init__(self, question: Question) -> None:
        self.question = question
        self.votes: dict[str, int] = {}
        self.miscount = ""
        self.again()

    @property
    def open(self) -> bool:
        """Whether an answer has been given, or the instructor goes on without one."""
        return bool(self.said) or self.unasked

    def answer(self, text: str, why: str = "") -> None:
        """Take an answer, or keep the words that say why it was not taken."""
        if self.question.stays:
            self.again()
        try:
            self.said, self.why, self.fault = self.question.said(text), short(why, 200), ""
        except TurbomathError as refusal:
            self.fault = sentence(refusal)

    def again(self) -> None:
        """Forget the answer, so that another can be given; the hands stay counted."""
        self.said = self.why = self.fault = self.now = ""
        self.unasked = False

    def go_on(self) -> None:
        """Show the outcome without an answer, as an instructor does before a class."""
        self.unasked = True

    def explain(self, text: str) -> None:
        """Keep how the reader explains the outcome now."""
        self.now = short(text, 200)

    def count(self, option: str, hands: str) -> None:
        """Keep how many hands went up for an option, as typed; what is no count is refused in words."""
        choice("option", option, {one.words: None for one in self.question.options})
        self.miscount = "" if re.fullmatch("[0-9]{1,3}", hands.strip()) else HANDS.format(short(hands, 20))
        if not self.miscount:
            self.votes[option] = int(hands)

    def hand(self, option: str, more: int) -> None:
        """Count so many hands *more* for an option, or fewer."""
        choice("option", option, {one.words: None for one in self.question.options})
        self.votes[option] = min(max(self.votes.get(option, 0) + int(more), 0), MOST_HANDS)

    def state(self) -> dict[str, Any]:
        """Return what is worth keeping: the answer, both reasons, the hands."""
        kept = {"said": self.said, "why": self.why, "now": self.now, "unasked": self.unasked, "votes": {**self.votes}}
        return {name: value for name, value in kept.items() if value}

    def take_up(self, state: Any) -> None:
        """Take up what was kept, as far as it fits the question as it is put now."""
        state, options = state if isinstance(state, dict) else {}, [one.words for one in self.question.options]
        said = str(state.get("said", ""))
        self.said = said if said in options or not options else ""
        self.why, self.now = (short(str(state.get(name, "")), 200) for name in ("why", "now"))
        self.unasked = bool(state.get("unasked"))
        votes = state.get("votes")
        if isinstance(votes, dict):
            self.votes = {one: min(int(votes[one]), MOST_HANDS) for one in options if isinstance(votes.get(one), int)}

    def frame(self, system: str) -> dict[str, Any]:
        """Return what is shown now."""
        outcome = self.question.outcome(system) if self.open and self.question.outcome else ""
        return {
            "open": self.open,
            "said": self.said,
            "why": self.why,
            "now": self.now,
            "fault": self.fault,
            "outcome": outcome,
            "reply": self.question.reply(self.said),
            "told": (outcome or self.question.answer()) if self.open else "",
            "miscount": self.miscount,
            "votes": [self.votes.get(one.words, 0) for one in self.question.options],
            "right": [one.right for one in self.question.options] if self.open else [],
        }


def heard(every: Sequence[Asked]) -> dict[str, Callable[..., None]]:
    """Return what a reader can say to some questions, by its name; `question` is the number of the one meant."""

    def to(do):
        return lambda question=0, **words: do(every[question], **words)

    said = {
        "answer": Asked.answer,
        "again": Asked.again,
        "go on": Asked.go_on,
        "vote": Asked.count,
        "hand": Asked.hand,
        "now": Asked.explain,
    }
    return {name: to(do) for name, do in said.items()}


def states(every: Iterable[Asked]) -> dict[str, Any]:
    """Return what is worth keeping of some questions, by their texts."""
    return {one.question.text: one.state() for one in every}


def take_up(every: Iterable[Asked], state: Any) -> None:
    """Take up what was kept of each of them."""
    for one in every:
        one.take_up(state.get(one.question.text) if isinstance(state, dict) else None)


def sentence(refusal: object) -> str:
    """Return the words of a refusal as one sentence with a capital."""
    words = str(refusal)
    return words[:1].upper() + words[1:]
