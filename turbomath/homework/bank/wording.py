"""Questions get their words: how one is worked stands in Python, what a student reads in the TOML file beside it."""

from collections.abc import Callable
from dataclasses import replace
from typing import Any, NamedTuple

from turbomath.homework.bank.question import Asked, Case, Choice, Given, Mistake, Option, Question
from turbomath.table import prose
from turbomath.table.prose import Prose
from turbomath.working import Step


class Either(NamedTuple):
    """A verdict that turns on the values of the chain: one of two sentences, by their names."""

    when: Callable[[Any], bool]
    yes: str
    no: str


class Wording:
    """The words of one subject: a table for each question, by its name.

    What to tell the student who made a mistake stands under the mistake's name: in the question's own `mistakes`,
    else in those of the subject, else in those that all subjects share.
    """

    def __init__(self, beside: str, name: str, shared: Prose | None = None) -> None:
        self.words = prose.read(beside, name)
        own = (self.words.table("mistakes"),) if "mistakes" in self.words else ()
        self.shared = (*own, *((shared,) if shared else ()))

    def question(
        self,
        name: str,
        *,
        number: int,
        difficulty: int,
        givens: tuple[Given, ...],
        steps: tuple[Step, ...],
        asked: tuple[Asked, ...],
        mistakes: tuple[Mistake, ...],
        verdict: Either | None = None,
        **draw: Any,
    ) -> Question:
        """Return a question with its words.

        Parameters
        ----------
        name : str
            Its own, and that of its table of words.
        number, difficulty, givens, steps, asked, mistakes
            As in `Question`; the mistakes come without their messages.
        verdict : Either, optional
            Where what follows from the answer turns on the values.
        **draw
            `ranges`, `also` and `where` of `Question`.

        Raises
        ------
        ProseError
            If words are missing, or the wording does not show just the givens.
        """
        words = self.words.table(name)
        places = {one.name: f"{{{one.name}}}" for one in givens}
        return Question(
            name=name,
            number=number,
            difficulty=difficulty,
            objective=words.text("objective"),
            wording=words.text("wording", **places),
            hints=words.texts("hints"),
            narrowed=words.raw("narrowed", ""),
            verdict=_verdict(words, verdict),
            mistakes=self._told(words, mistakes),
            givens=givens,
            steps=steps,
            asked=asked,
            **draw,
        )

    def choice(self, name: str, *, number: int, difficulty: int, cases: Callable | None = None, **draw: Any) -> Choice:
        """Return a question to choose in: its cases from its words, or made of them for each seat by *cases*."""
        words = self.words.table(name)
        made = cases(words.table("cases")) if cases else tuple(map(_case, words.tables("cases")))
        return Choice(name, number, words.text("objective"), difficulty, made, words.texts("hints"), **draw)

    def finished(self) -> None:
        """Refuse words of this file that no question took."""
        self.words.finished()

    def _told(self, words, mistakes):
        places = (*((words.table("mistakes"),) if "mistakes" in words else ()), *self.shared)
        return tuple(replace(one, message=_message(one.name, places)) for one in mistakes)


def _message(name, places):
    """Return the message of a mistake from the first place that has it; the first place refuses one that none has."""
    return next((place for place in places if name in place), places[0]).text(name)


def _verdict(words, verdict):
    if verdict is None:
        return words.raw("verdict", "")
    told = words.table("verdicts")
    yes, no = told.text(verdict.yes), told.text(verdict.no)
    return lambda values: yes if verdict.when(values) else no


def _case(words):
    return Case(words.text("text"), tuple(map(_option, words.tables("options"))))


def _option(words):
    return Option(words.text("words"), words.text("reply"), words.raw("mistake", ""))
