"""The tasks of a panel as steps that tick themselves: each says in the lesson's file what state it asks for.

A step in `lesson.toml` has its `words`, and one or more of what must be so at the same time:

- ``case``: the name of the case that the controls stand at
- ``at``: a table, control = "130 °F", "at least 28", "at most 40 %", a key of a choice, or a list of such
- ``moved``: the controls that are not where they start
- ``held``, ``free``: the controls that are held, or not
- ``kept``: a case is kept beside this one
- ``system``: the units, "us" or "si"
- ``run``: the run that is open, or "own" for a folder of the reader's own
- ``did``: what the reader did last, such as "table" or "report"
- ``judged``: the name of a predicate beside the panel, from its controls to true or false
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from typing import Any

from turbomath import units
from turbomath.table.errors import TurbomathError, unwarned
from turbomath.table.prose import Prose, ProseError
from turbomath.widgets.controls import Choice, Control

LEAST, MOST = "at least ", "at most "
Judges = Mapping[str, Callable[[Any], bool]]


@dataclass(frozen=True)
class Step:
    """One task: its words, and what must be so for it to be done."""

    words: str
    asks: Mapping[str, Any]


class Ticks:
    """Which steps of a panel are done; a tick stays, whatever is set afterwards."""

    def __init__(self, every: tuple[Step, ...]) -> None:
        self.every, self.done = every, set[str]()

    def look(self, is_reached: Callable[[Step], bool]) -> None:
        """Tick what is reached now."""
        self.done |= {one.words for one in self.every if one.words not in self.done and is_reached(one)}

    def frame(self) -> list[list]:
        """Return [words, done] of each step."""
        return [[one.words, one.words in self.done] for one in self.every]

    def state(self) -> dict[str, bool]:
        """Return what is worth keeping."""
        return dict.fromkeys(sorted(self.done), True)

    def take_up(self, state: Any) -> None:
        """Take up what was kept, as far as there are such steps."""
        self.done = {one.words for one in self.every if isinstance(state, dict) and state.get(one.words) is True}


def steps(prose: Prose) -> tuple[Step, ...]:
    """Return the steps of a panel from its words."""
    return tuple(_step(one) for one in prose.tables("steps"))


def reached(step: Step, desk: Any, did: str) -> bool:
    """Return whether a desk is where a step asks it to be; *did* is what the reader did last."""
    return all(_ASKED[name](desk, did, asked) for name, asked in step.asks.items())


def fitted(
    every: tuple[Step, ...], controls: tuple[Control | Choice, ...], cases: Mapping[str, str], judges: Judges
) -> tuple[Step, ...]:
    """Return the steps with the labels of their cases, or refuse those that no reader could take.

    Raises
    ------
    ProseError
        If a step names a control, a case or a predicate that is not there, or a value that the control cannot have.
    """
    known = {one.name: one for one in controls}
    for step in every:
        named = [*step.asks.get("at", ()), *(one for sort in _LISTS for one in step.asks.get(sort, ()))]
        lost = [name for name in named if name not in known]
        lost += [
            step.asks[sort]
            for sort, there in (("judged", judges), ("case", cases))
            if sort in step.asks and step.asks[sort] not in there
        ]
        if lost:
            raise ProseError(f"the step {step.words!r} asks for {', '.join(lost)}, which the panel has not.")
        for name, asked in step.asks.get("at", {}).items():
            for text in asked if isinstance(asked, list) else [asked]:
                _value(known[name], text)
    return tuple(
        replace(one, asks={**one.asks, "case": cases[one.asks["case"]]}) if "case" in one.asks else one for one in every
    )


def values_asked(every: tuple[Step, ...], control: Control) -> list[float]:
    """Return the values [SI] to which steps send the reader with a control."""
    texts = [step.asks.get("at", {}).get(control.name, []) for step in every]
    return [_value(control, text) for one in texts for text in (one if isinstance(one, list) else [one])]


def _step(prose):
    words, names = prose.raw("words"), [name for name in prose.names() if name != "words"]
    if not names:
        raise ProseError(f"{prose.place}: a step must say when it is done; found nothing but its words.")
    return Step(words, {name: _taken(prose, name) for name in names if name in _KINDS})


def _taken(prose, name):
    kind = _KINDS[name]
    if kind is list:
        return prose.texts(name)
    if kind is dict:
        found = prose.table(name)
        return {one: found.value(one, (str, list)) for one in found.names()}
    return prose.value(name, kind)


def _value(control, text):
    """Return the value that a text asks of a control, without the words before it."""
    bare = text.removeprefix(LEAST).removeprefix(MOST)
    if isinstance(control, Choice):
        if bare not in dict(control.options):
            raise ProseError(f"a step asks for {text!r} of {control.name}; it has {', '.join(dict(control.options))}.")
        return bare
    number, _, unit = bare.partition(" ")
    return float(units.to_si(units.number(number), unit or control.unit("us"), control.name))


def _stands(control, value, text):
    """Return whether a control stands where a text asks, to half a step of its slider."""
    asked = _value(control, text)
    if isinstance(control, Choice):
        return value == asked
    for system in ("us", "si"):
        unit = control.unit(system)
        over = float(units.from_si(value, unit, control.name) - units.from_si(asked, unit, control.name))
        if abs(over) <= control.scale(system)[-1] / 2:
            return True
    return (text.startswith(LEAST) and over > 0) or (text.startswith(MOST) and over < 0)


def _at(desk, _did, asked):
    known = desk.controls | desk.choices
    return all(
        any(_stands(known[name], desk.values[name], text) for text in (texts if isinstance(texts, list) else [texts]))
        for name, texts in asked.items()
    )


def _case(desk, _did, label):
    values = dict(desk.sheet.cases)[label]
    return all(desk.values[name] == value for name, value in values.items())


def _moved(desk, _did, names):
    start = {one.name: one.start for one in desk.sheet.controls}
    return all(desk.values[name] != start[name] for name in names)


def _judged(desk, _did, name):
    try:
        with unwarned():
            return bool(desk.sheet.judges[name](desk.record()))
    except TurbomathError:  # what cannot be worked out is not done
        return False


_LISTS = ("moved", "held", "free")
_KINDS: dict[str, Any] = {
    "case": str,
    "at": dict,
    "moved": list,
    "held": list,
    "free": list,
    "kept": bool,
    "system": str,
    "run": str,
    "did": str,
    "judged": str,
}
_ASKED: dict[str, Callable[[Any, str, Any], bool]] = {
    "case": _case,
    "at": _at,
    "moved": _moved,
    "held": lambda desk, _did, names: desk.held >= set(names),
    "free": lambda desk, _did, names: not desk.held & set(names),
    "kept": lambda desk, _did, asked: (desk.kept is not None) == asked,
    "system": lambda desk, _did, system: desk.system == system,
    "run": lambda desk, _did, run: desk.chosen is not None and desk.picked == run,
    "did": lambda _desk, did, asked: did == asked,
    "judged": _judged,
}
