"""A lesson as one record: its head, the words of its panels and its tickets, all from `lesson.toml` in its folder."""

from __future__ import annotations

import functools
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, replace
from pathlib import Path
from typing import TYPE_CHECKING, Any

from turbomath.table.prose import Prose, ProseError, read
from turbomath.widgets.answers import Answer
from turbomath.widgets.asking import Option, Question
from turbomath.widgets.controls import Choice, Control
from turbomath.widgets.desk import Sheet
from turbomath.widgets.steps import Judges, Step, fitted, steps

if TYPE_CHECKING:
    from turbomath.widgets.panel import Panel, Ticket

FILE = "lesson.toml"
PANEL = "panel_"


@dataclass(frozen=True, eq=False)
class Words:
    """The words of one panel.

    `outcome` fills the places of what is said once there is a prediction. `cases` has a label for the name of each
    case. `specimen` is the sentence under the picture, in US units, before anything is moved. `steps` are the tasks
    beside the panel.
    """

    title: str
    prediction: Question | None
    outcome: Callable[..., str]
    cases: Mapping[str, str]
    specimen: str
    steps: tuple[Step, ...] = ()

    def asked(self, places: Callable[[str], Mapping[str, str]] = lambda system: {}) -> Question:
        """Return the prediction with its outcome; *places* gives what the outcome's sentence has places for."""
        if self.prediction is None:
            raise ProseError(f"{self.title}: a prediction is missing.")
        outcome = functools.cache(lambda system: self.outcome(**places(system)))  # no slider moves what was asked
        return replace(self.prediction, outcome=outcome)

    def sheet(
        self,
        controls: tuple[Control | Choice, ...],
        answer: Callable[..., Answer],
        places: Callable[[str], Mapping[str, str]] = lambda system: {},
        cases: Mapping[str, Mapping[str, Any]] | None = None,
        judges: Judges | None = None,
        together: Callable[[Iterable[Any]], None] | None = None,
    ) -> Sheet:
        """Return the sheet of the panel; *cases* and *judges*, which tell whether a step is done, go by their names."""
        values = cases or {}
        if set(values) != set(self.cases):
            raise ProseError(f"{self.title}: the cases must be {', '.join(values)}; found {', '.join(self.cases)}.")
        labelled = tuple((label, dict(values[name])) for name, label in self.cases.items())
        steps = fitted(self.steps, controls, self.cases, judges or {})
        return Sheet(self.title, self.asked(places), controls, answer, labelled, steps, judges or {}, together)


@dataclass(frozen=True, eq=False)
class Lesson:
    """One lesson.

    `heading` and `head` are how its notebook begins. `panels` are the functions that make its panels, `words` has what
    each of them says by its name, `tickets` the questions of each ticket. `previous` and `next` are the names of its
    neighbours; the registry knows them.
    """

    number: str
    name: str
    title: str
    heading: str
    head: str
    question: str
    minutes: str
    needs: str
    tasks: tuple[str, ...]
    words: Mapping[str, Words]
    tickets: Mapping[str, tuple[Question, ...]]
    panels: tuple[Callable[[], Panel], ...]
    previous: str = ""
    next: str = ""

    @property
    def notebook(self) -> str:
        """The name of its notebook and of its teaching notes, without an ending."""
        return f"{self.number}_{self.name}" if self.number.isdigit() else self.name

    @property
    def predictions(self) -> dict[str, Question]:
        """The question that opens each panel, by the name of the panel."""
        return {name: one.prediction for name, one in self.words.items() if one.prediction}

    @property
    def specimens(self) -> dict[str, str]:
        """What each panel says before anything is moved, by the name of the panel."""
        return {name: one.specimen for name, one in self.words.items() if one.specimen}

    @property
    def ticket(self) -> tuple[Question, ...]:
        """The questions of the exit ticket."""
        return self.tickets.get(self.name, ())

    def exit_ticket(self) -> Ticket:
        """Return the exit ticket."""
        from turbomath.widgets.panel import Ticket  # opens ipywidgets, which a list of lessons does not need

        return Ticket(self.ticket)


def lesson(module_file: str, *panels: Callable[[], Panel]) -> Lesson:
    """Return the lesson whose `lesson.toml` lies beside a module.

    Parameters
    ----------
    module_file : str
        `__file__` of the lesson's folder.
    *panels : functions without arguments
        They make its panels, in the order of the file; `panel_<name>` makes the panel `<name>`.

    Raises
    ------
    ProseError
        If a word is missing, misspelt, empty or used nowhere, or the panels are others than those of the file.
    """
    prose = read(module_file, FILE)
    told = prose.table("panels")
    found = Lesson(
        name=Path(module_file).parent.name,
        **_head(prose),
        words={name: _words(told.table(name)) for name in told.names()},
        tickets=_tickets(prose),
        panels=panels,
    )
    prose.finished()
    if (made := [one.__name__.removeprefix(PANEL) for one in panels]) != list(found.words):
        raise ProseError(f"{prose.place}: the panels must be {', '.join(made)}; found {', '.join(found.words)}.")
    return found


def _head(prose: Prose) -> dict[str, Any]:
    """Return the fields of a lesson that say what it is; only a lesson unlike the others words its own head."""
    plain = {name: prose.raw(name) for name in ("number", "title", "question", "minutes", "needs")}
    tasks = prose.texts("tasks")
    usual = f"Lesson {plain['number'].lstrip('0') or 0}. {plain['minutes']} minutes"
    opens = prose.raw("opens", default=usual)
    listed = f"Task{'s' if len(tasks) > 1 else ''}: {'; '.join(tasks)}."
    return {
        **plain,
        "tasks": tasks,
        "heading": prose.raw("heading", default=plain["title"]),
        "head": f"{opens}. {listed}",
    }


def _words(prose: Prose) -> Words:
    asked = "prediction" in prose
    prediction = Question(prose.raw("prediction"), _options(prose)) if asked else None
    if asked:
        prose.raw("outcome")
    cases = prose.table("cases") if "cases" in prose else None
    return Words(
        prose.raw("title"),
        prediction,
        lambda **places: prose.text("outcome", **places),
        {name: cases.raw(name) for name in cases.names()} if cases else {},
        prose.raw("specimen", default=""),
        steps(prose),
    )


def _tickets(prose):
    if "tickets" not in prose:
        return {}
    found = prose.table("tickets")
    return {name: tuple(_question(one) for one in found.tables(name)) for name in found.names()}


def _question(prose):
    return Question(prose.raw("text"), _options(prose))


def _options(prose):
    return tuple(
        Option(
            one.raw("words"),
            one.raw("reply"),
            one.raw("mistake", default=""),
            one.value("right", bool, default=False),
        )
        for one in prose.tables("options")
    )
