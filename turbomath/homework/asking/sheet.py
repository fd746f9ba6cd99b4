"""The numbers of one sheet, as its chain and its mistakes work on them."""

from collections.abc import Mapping
from typing import Any

import numpy as np

from turbomath.homework.bank.question import Question
from turbomath.working.chain import results
from turbomath.working.coherent import from_si, scale, to_si

DEGREES, ABSOLUTE_DEGREES = ("°F", "°C"), ("°R", "K")


class Sheet(dict):
    """Values of a chain in SI by name, also as attributes, with what a mistake needs: numbers as they are read.

    The values are floats, or arrays with an element for each draw.
    """

    def __init__(self, question: Question, values: Mapping[str, Any], system: str) -> None:
        super().__init__(values)
        self.question, self.system = question, system

    def copy(self) -> "Sheet":
        """Return a sheet with the same values."""
        return Sheet(self.question, self, self.system)

    def __getattr__(self, name: str) -> Any:
        try:
            return self[name]
        except KeyError:
            raise AttributeError(name) from None

    def number(self, name: str) -> Any:
        """Return the number that stands on the sheet for a given, without its unit."""
        zero, size = self._scale(name)
        return (self[name] - zero) / size

    def answered(self, number: Any, name: str) -> Any:
        """Return what a number means when it is written down for *name* in the unit of the sheet, in SI."""
        zero, size = self._scale(name)
        return zero + number * size

    def written(self, number: Any, units: tuple[str, str], quantity: str) -> Any:
        """Return what a number means [SI] in one of two units: the first on a US sheet, the second on an SI one."""
        return to_si(number, units[self.system == "si"], quantity)

    def shown(self, value: Any, units: tuple[str, str], quantity: str) -> Any:
        """Return an SI value as a number in one of two units, as for `written`."""
        return from_si(value, units[self.system == "si"], quantity)

    def degrees(self, temperature: Any) -> Any:
        """Return a temperature [K] in °F or °C, whichever the sheet shows."""
        return self.shown(temperature, DEGREES, "temperature")

    def from_degrees(self, number: Any) -> Any:
        """Return the temperature [K] of a number of °F or °C, whichever the sheet shows."""
        return self.written(number, DEGREES, "temperature")

    def as_absolute(self, temperature: Any) -> Any:
        """Return what [K] a calculation works with when °F or °C are put in as if they counted from absolute zero."""
        return self.written(self.degrees(temperature), ABSOLUTE_DEGREES, "temperature")

    def _scale(self, name):
        for one in (*self.question.givens, *self.question.asked):
            if one.name == name:
                unit = getattr(one, self.system)
                return scale(unit if isinstance(unit, str) else unit[0], one.row)
        raise KeyError(name)


def solved(question: Question, sheet: Sheet, changes: Mapping[str, Any] | None = None) -> Sheet:
    """Return every value of the chain of a question, from the numbers of a sheet; *changes* as for a mistake."""
    with np.errstate(all="ignore"):
        return results(question.steps, sheet, changes)
