"""A chain of calls: what is given, the formulas that lead on from it, and what is asked at the end."""

import inspect
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from typing import Any

from turbomath.table.formulas import Tied
from turbomath.table.quantities import QUANTITIES


@dataclass(frozen=True)
class Step:
    """One call of a formula: `result` is its name in the chain, `arguments` parameter -> name in the chain or number.

    `quantity` is the row of the table that the result belongs to, `symbol` its letter; where they are left out,
    they are those of the result's name, or else of the formula.
    """

    result: str
    formula: Tied
    arguments: Mapping[str, Any]
    quantity: str = ""
    symbol: str = ""

    def quantity_of(self, parameter: str | None = None) -> str:
        """Return the row of the table that a parameter belongs to, or the result."""
        if parameter is None:
            named = self.result if self.result in QUANTITIES else self.formula.formula.result
            return self.quantity or named
        return parameter if parameter in QUANTITIES else own_letters(self.formula)[parameter][1]

    def letter_of(self, parameter: str | None = None) -> str:
        """Return the letter that the formula's equation uses for a parameter, or for the result."""
        own = own_letters(self.formula)
        name = self.formula.formula.result if parameter is None else parameter
        return own[parameter or "result"][0] if (parameter or "result") in own else QUANTITIES[name].symbol

    def call(self, known: Mapping[str, Any]) -> Any:
        """Return the result for the values that are known so far."""
        return self.formula(
            **{
                name: known[value] if isinstance(value, str) and self._is_number(name) else value
                for name, value in self.arguments.items()
            }
        )

    def all_arguments(self) -> dict[str, Any]:
        """Return parameter -> name in the chain or number, with the numbers that the formula itself puts in.

        A parameter that takes a word, such as an arrangement, is not among them.
        """
        parameters = inspect.signature(self.formula).parameters.values()
        own = {one.name: one.default for one in parameters if isinstance(one.default, int | float)}
        return {name: value for name, value in {**own, **self.arguments}.items() if self._is_number(name)}

    def _is_number(self, parameter):
        return parameter in QUANTITIES or parameter in own_letters(self.formula)


@dataclass(frozen=True)
class Amount:
    """One given value of a quantity in SI, and the text and unit in which it is shown ("" for the table's)."""

    value: float
    quantity: str
    text: str = ""
    unit: str = ""
    symbol: str = ""


@dataclass(frozen=True)
class Result:
    """What is asked: its name in the chain, and unit -> decimals to show; a unit with None is shown to 4 figures."""

    name: str
    units: Mapping[str, tuple[str, int | None]] = field(default_factory=dict)  # by system


@dataclass(frozen=True)
class Chain:
    """Given amounts by name, the steps, what is asked, and a sentence for the sense check ("" for the table's own)."""

    given: Mapping[str, Amount]
    steps: tuple[Step, ...]
    asked: tuple[Result, ...]
    sense: str = ""


def own_letters(formula: Tied) -> dict[str, tuple[str, str]]:
    """Return parameter -> (letter, quantity) of the parameters of a formula that are not in the table."""
    return getattr(formula, "letters", {})


def results(steps: Iterable[Step], known: dict[str, Any], changes: Mapping[str, Any] | None = None) -> Any:
    """Return every value of a chain by name, in a copy of the given ones.

    *changes* sets names to what they are put to instead: another name, a number, or a function of the values
    known by then. This is how a usual mistake is worked out.
    """
    known, changes = known.copy(), changes or {}
    for name in [name for name in changes if name in known]:
        known[name] = _changed(changes[name], known)
    for step in steps:
        change = changes.get(step.result)
        known[step.result] = step.call(known) if change is None else _changed(change, known)
    return known


def _changed(change, known):
    if callable(change):
        return change(known)
    return known[change] if isinstance(change, str) else change
