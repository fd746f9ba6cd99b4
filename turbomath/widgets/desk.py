"""What the reader has set on a panel, kept in SI, and what the panel shows for it. No widget is needed here."""

import copy
import traceback
from collections.abc import Callable, Iterable
from dataclasses import dataclass, field
from typing import Any

from turbomath import units
from turbomath.table.errors import OutOfRangeError, TurbomathError, unwarned
from turbomath.table.formulas import choice
from turbomath.units.rounding import rounded
from turbomath.units.shown import in_unit
from turbomath.widgets import desk_state
from turbomath.widgets.answers import MARKS, Answer, drawn
from turbomath.widgets.asking import Asked, Question, heard, sentence
from turbomath.widgets.controls import Choice, Control, record_type
from turbomath.widgets.steps import Judges, Step, Ticks, reached

IN_SIGHT = 4
FAILED = "This case could not be worked out: the lesson's own sums failed. Set something else, or press reset."


@dataclass(frozen=True)
class Sheet:
    """All a lesson gives to have a panel.

    Parameters
    ----------
    title : str
        The shop question in one line.
    prediction : Question
        What must be answered before anything is drawn.
    controls : tuple of Control and Choice
        At most four of them in sight and not locked.
    answer : function of (controls, system) -> Answer
        `controls` is a frozen record in SI with a field for each control (of a `Choice` the key picked), and `held`,
        the names held now.
    cases : tuple of (label, {name: SI value})
        Named cases that the reader can go to with one button.
    steps : tuple of Step
        The tasks beside the panel.
    judges : dict of name to function of controls
        They tell whether a step is done that asks for them.
    together : function of many records of controls, optional
        It works out at once what `answer` is then asked for one by one, such as that of `Cases`.
    """

    title: str
    prediction: Question
    controls: tuple[Control | Choice, ...]
    answer: Callable[..., Answer]
    cases: tuple[tuple[str, dict], ...] = ()
    steps: tuple[Step, ...] = ()
    judges: Judges = field(default_factory=dict)
    together: Callable[[Iterable[Any]], None] | None = None

    def __post_init__(self) -> None:
        in_sight = [one.name for one in self.controls if not (one.more or one.locked)]
        if len(in_sight) > IN_SIGHT:
            raise OutOfRangeError(
                f"at most {IN_SIGHT} controls in sight; found {len(in_sight)}: {', '.join(in_sight)}."
            )


class Desk:
    """One reader's desk: values in SI, which are held, the prediction, the kept case, US or SI.

    One that `remembers` shows more than follows from where its controls stand.
    """

    remembers = False

    def __init__(self, sheet: Sheet) -> None:
        self.sheet, self.system, self.wall, self.questions = sheet, "us", False, (sheet.prediction,)
        self.asked, self.ticks = Asked(sheet.prediction), Ticks(sheet.steps)
        self.controls = {one.name: one for one in sheet.controls if isinstance(one, Control)}
        self.choices = {one.name: one for one in sheet.controls if isinstance(one, Choice)}
        self._record = record_type(*(one.name for one in sheet.controls), "held")
        self._heard = {
            "slide": self.slide,
            "type": self.type,
            "hold": self.hold,
            "system": self.switch,
            "pick": self.pick,
            "wall": self.hang,
            "keep": self.keep,
            "drop": self.drop,
            "case": self.case,
            "reset": self.reset,
            "table": self.look_up,
            **heard([self.asked]),
        }
        self.reset()

    def hear(self, say: str, **words: Any) -> None:
        """Do what the reader did; an unknown doing is refused."""
        choice("say", say, self._heard)(**words)
        if self.asked.open:
            self.ticks.look(lambda step: reached(step, self, say))

    def look_up(self) -> None:
        """Open the table twin, or shut it; it is on the page already."""

    def reset(self) -> None:
        """Put every control where it started and drop the kept case; the prediction and the units stay."""
        self.values: dict[str, Any] = {one.name: one.start for one in self.sheet.controls}
        self.held = {name for name, one in self.controls.items() if one.held or one.locked}
        self.typed: dict[str, tuple[str, str]] = {}  # the system and the text of what was typed
        self.faults: dict[str, tuple[str, str]] = {}  # the text and what is wrong with it
        self.kept: Any = None
        self._last: dict[str, Any] | None = None

    def slide(self, name: str, text: str) -> None:
        """Set a control to where its slider stands, in the units shown."""
        self._set(name, text, typed=False)

    def type(self, name: str, text: str) -> None:
        """Set a control to a number as typed, in the units shown; the text stays as it was typed."""
        self._set(name, text, typed=True)

    def pick(self, name: str, key: str) -> None:
        """Pick one option of a choice."""
        choice("key", key, dict(choice("name", name, self.choices).options))
        self.values[name] = key

    def hold(self, name: str, on: bool) -> None:
        """Hold a control where it is, or let it go; a locked one stays held."""
        if on or choice("name", name, self.controls).locked:
            self.held.add(name)
        else:
            self.held.discard(name)
        self.faults.pop(name, None)

    def switch(self, system: str) -> None:
        """Show the same case in the other units; nothing is rounded."""
        choice("system", system, {"us": None, "si": None})
        self.system, self.faults = system, {}

    def hang(self, on: bool) -> None:
        """Draw for a wall, or for a page again."""
        self.wall = on

    def keep(self) -> None:
        """Keep the case as it stands, to compare others with it."""
        self.kept = self.record()._replace(held=frozenset())

    def drop(self) -> None:
        """Let the kept case go."""
        self.kept = None

    def case(self, label: str) -> None:
        """Go to a named case; what is held is held there."""
        self.values |= choice("case", label, dict(self.sheet.cases))
        self.typed, self.faults = {}, {}

    def record(self) -> Any:
        """Return the controls as one frozen record in SI."""
        return self._record(**self.values, held=frozenset(self.held))

    def printed(self, system: str, case: str = "") -> Answer:
        """Return what paper shows, as records: of the case that stands, or of a named one, which then stands."""
        if case:
            self.case(case)
        with unwarned():
            return self.sheet.answer(self.record(), system)

    def state(self) -> dict[str, Any]:
        """Return what is worth keeping, as JSON can hold it."""
        return desk_state.state(self)

    def take_up(self, state: dict[str, Any]) -> None:
        """Take up what was kept, as far as this panel still has it."""
        desk_state.take_up(self, state)

    def beside(self, name: str) -> dict[int, str]:
        """Return the places of a slider one step down (-1) and up (1) from where it stands, in the units shown."""
        control = choice("name", name, self.controls)
        low, high, step = control.scale(self.system)
        here = units.from_si(self.values[name], control.unit(self.system), name)
        near = {way: here + way * step for way in (-1, 1)}
        return {way: f"{place:.10g}" for way, place in near.items() if low <= place <= high}

    def foreseen(self, name: str, text: str) -> dict[str, Any] | None:
        """Return what would be shown if a slider went to a place, None where that cannot be; nothing changes."""
        trial = copy.copy(self)
        trial.values, trial.typed, trial.faults = dict(self.values), dict(self.typed), dict(self.faults)
        trial.slide(name, text)
        frame = trial.frame()
        parts = {part: frame[part] for part in ("controls", "shown")}
        return None if frame["error"] else {"name": name, "text": text, **parts}

    def _set(self, name, text, *, typed):
        control = choice("name", name, self.controls)
        self.faults.pop(name, None)
        try:
            if name in self.held:
                raise OutOfRangeError(f"{control.label} is held: let it go first.")
            self.values[name] = control.read(text, self.system)
        except TurbomathError as refusal:
            still = f" The panel still shows {control.words(self.values[name], self.system)}."
            self.faults[name] = str(text), sentence(refusal) + still
        else:
            self.typed.pop(name, None)
            if typed:
                self.typed[name] = self.system, text.strip()

    def opening(self) -> dict[str, Any]:
        """Return what never changes: words, controls in their order, what each role looks like."""
        controls = [
            {
                "name": one.name,
                "label": one.label,
                "locked": one.locked,
                "more": one.more,
                "choice": one.name in self.choices,
            }
            for one in self.sheet.controls
        ]
        return {
            "title": self.sheet.title,
            "questions": [self.sheet.prediction.sheet()],
            "controls": controls,
            "cases": [label for label, _ in self.sheet.cases],
            "marks": MARKS,
            "predict": True,
        }

    def frame(self) -> dict[str, Any]:
        """Return all that is shown now; nothing of the outcome before there is a prediction."""
        frame = {
            "system": self.system,
            "asked": [self.asked.frame(self.system)],
            "steps": self.ticks.frame() if self.asked.open else [],
            "kept": self.kept is not None,
            "controls": [self._line(one) for one in self.sheet.controls],
            "error": None,
            "shown": None,
        }
        if self.asked.open:
            try:
                self._last = self._answered()
            except Exception as failure:  # whatever a lesson's function does, the reader gets a sentence
                known = isinstance(failure, TurbomathError)
                words = f"This case cannot be worked out: {failure}" if known else FAILED
                last = " What is drawn below is the last case that could be worked out." if self._last else ""
                frame["error"] = {"words": words + last, "details": traceback.format_exc()}
            frame["shown"] = self._last
        return frame

    def _answered(self):
        with unwarned():  # each control says in words what is out of its range
            kept = None if self.kept is None else self.sheet.answer(self.kept, self.system)
            return drawn(self.sheet.answer(self.record(), self.system), kept, wall=self.wall)

    def _line(self, control):
        if control.name in self.choices:
            return {"name": control.name, "options": control.line(self.system), "key": self.values[control.name]}
        name, unit, value = control.name, control.unit(self.system), self.values[control.name]
        low, high, step = control.scale(self.system)
        position = units.from_si(value, unit, name)
        system, typed = self.typed.get(name, ("", ""))
        text, fault = self.faults.get(name, (typed if system == self.system else in_unit(position, unit), ""))
        return {
            "name": name,
            "text": text,
            "unit": unit.removesuffix("-"),
            "low": low,
            "high": high,
            "step": step,
            "ends": [rounded(low), rounded(high)],
            "position": position,
            "held": name in self.held,
            "words": control.words(value, self.system),
            "fault": fault or control.outside(value, self.system),
        }
