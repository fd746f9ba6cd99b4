"""A worked example of each formula in US and in SI units, worked out from the INVENTED numbers of `specimens.toml`."""

import inspect
from collections.abc import Mapping
from dataclasses import dataclass

from turbomath import units
from turbomath.handbook.letters import found
from turbomath.handbook.letters import unit as display
from turbomath.handbook.subjects import key, room
from turbomath.table import prose
from turbomath.table.errors import unwarned
from turbomath.table.formulas import Tied
from turbomath.table.prose import Prose, ProseError
from turbomath.table.quantities import QUANTITIES
from turbomath.units.shown import shown
from turbomath.working import Amount, Chain, Result, Step, lines
from turbomath.working.chain import own_letters
from turbomath.working.lines import Line


@dataclass(frozen=True)
class Example:
    """One formula worked in one system: what is given by parameter, a word or an amount, and the lines."""

    system: str
    given: Mapping[str, Amount | str]
    lines: tuple[Line, ...]

    @property
    def choices(self) -> list[str]:
        """What is chosen by a word, such as the sort of engine."""
        return [f"{name.replace('_', ' ')}: {one}" for name, one in self.given.items() if isinstance(one, str)]

    @property
    def told(self) -> list[tuple[str, str, tuple[str, ...]]]:
        """Each line as (sort, words, equations), without the equation that stands above the example."""
        return [
            (line.sort, "" if line.sort == "step" else line.words, () if line.says_no_more else self._new(line))
            for line in self.lines
        ]

    @staticmethod
    def _new(line: Line) -> tuple[str, ...]:
        return line.latex[1:] if line.sort == "step" else line.latex


class Specimens:
    """The numbers of the examples: those of a formula, else those of its subject, else those of the engine."""

    def __init__(self, words: Prose | None = None) -> None:
        self._words = words or prose.read(__file__, "specimens.toml")
        self._places = {name: self._words.table(name) for name in self._words.names()}

    def given(self, function: Tied) -> dict[str, str]:
        """Return parameter -> text, such as "29.10 inHg" or "counterflow", of what a formula is given."""
        places = [self._places[name] for name in (key(function), room(function), "engine") if name in self._places]
        asked = inspect.signature(function).parameters.values()
        needed = [one.name for one in asked if one.default is one.empty or any(one.name in at for at in places[:-1])]
        return {name: self._text(name, places, key(function)) for name in needed}

    def finished(self) -> None:
        """Refuse a number that no formula takes."""
        self._words.finished()

    @staticmethod
    def _text(name: str, places: list[Prose], formula: str) -> str:
        for place in places:
            if name in place:
                return place.raw(name)
        raise ProseError(f"{places[-1].place}: {name!r} is missing: the example of {formula} needs it.")


def examples(function: Tied, specimens: Specimens) -> tuple[Example, ...]:
    """Return a formula worked in US and in SI units; once, where pure numbers make them the same."""
    texts = specimens.given(function)
    us, si = (_example(function, texts, system) for system in ("us", "si"))
    return (us,) if us.lines == si.lines else (us, si)


def _example(function: Tied, texts: Mapping[str, str], system: str) -> Example:
    given = {name: _given(function, name, text, system) for name, text in texts.items()}
    amounts = {name: one for name, one in given.items() if isinstance(one, Amount)}
    result = function.formula.result
    twice = result in amounts
    name, symbol = (f"resulting_{result}", found(function.formula.equation)[0]) if twice else (result, "")
    step = Step(name, function, {put: put if put in amounts else given[put] for put in given}, symbol=symbol)
    with unwarned():
        return Example(system, given, lines(Chain(amounts, (step,), (Result(name),)), system))


def _given(function: Tied, name: str, text: str, system: str) -> Amount | str:
    """Return an amount, in SI rounded as a gauge would show it; a word stays as it is."""
    symbol, quantity = own_letters(function).get(name, ("", name))
    if quantity not in QUANTITIES:
        return text
    number, _, unit = text.partition(" ")
    value = units.to_si(units.number(number), unit or "-", quantity)
    if system == "si" and (unit or "-") != display(quantity, system):
        number, unit = shown(quantity, value, system, display(quantity, system))
        value = units.to_si(units.number(number), unit or "-", quantity)
    return Amount(value, quantity, number, unit or "-", symbol)
