"""One seat's sheet of one question; its key is worked out when it is asked for."""

import contextlib
import functools
from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Any

import numpy as np

from turbomath.homework.asking import widths
from turbomath.homework.asking.sheet import Sheet, solved
from turbomath.homework.bank import neighbours
from turbomath.homework.bank.question import SYSTEMS, Asked, Choice, Mistake
from turbomath.table.errors import OutOfRangeError, TurbomathError
from turbomath.working import Amount, Chain, Result
from turbomath.working.coherent import scale

LETTERS = "ABCDEFGH"


class Together:
    """The variants of one question for many seats, solved at once: far faster than one by one."""

    def __init__(self, variants: Sequence["Variant"]) -> None:
        self.question, system = variants[0].question, variants[0].units
        names = variants[0].givens
        values = {name: np.array([one.givens[name].value for one in variants]) for name in names}
        self.sheet, self.mistakes = Sheet(self.question, values, system), self.question.mistakes_in(system)

    @classmethod
    def bind(cls, variants: Sequence["Variant"]) -> None:
        """Let variants of one question be solved together."""
        whole = cls(variants)
        for place, one in enumerate(variants):
            vars(one)["_together"] = whole, place

    @functools.cached_property
    def key(self) -> Sheet:
        """Every value of the chain, by name, with an element for each seat."""
        return solved(self.question, self.sheet)

    @functools.cached_property
    def widths(self) -> dict[str, Any]:
        """How far each value may lie from the key [SI], by name."""
        return widths.half_widths(self.question, self.key)

    @functools.cached_property
    def outcomes(self) -> list[Sheet]:
        """What each mistake leads to, as `key`."""
        return [solved(self.question, self.sheet, mistake.changes) for mistake in self.mistakes]


@dataclass(frozen=True)
class Variant:
    """One seat's sheet of one question.

    `givens` holds an `Amount` by name, as the student sees it; `asked` what is asked for, the answer last, or the
    options of a question to choose in; `code` is the public sheet code. The key is not kept: it is worked out.
    """

    question: Any = field(repr=False)  # Question or Choice
    givens: dict[str, Amount]
    asked: tuple[Any, ...]  # `Asked`, or `Option` of a question to choose in
    code: str
    units: str
    wording: str

    @property
    def text(self) -> str:
        """The question as the sheet prints it."""
        if isinstance(self.question, Choice):
            listed = "\n".join(f"  {LETTERS[place]}  {one.words}" for place, one in enumerate(self.asked))
            return f"{self.wording}\n{listed}"
        wanted = [f"{in_words(one.name)} in {_words_of(one.unit(self.units))}" for one in self.asked]
        return f"{self.wording}\nGive {' and '.join(wanted)}."

    @property
    def chain(self) -> Chain:
        """The chain that `turbomath.working.solution` prints."""
        if isinstance(self.question, Choice):
            raise TurbomathError(f"{self.question.name}: found a question to choose in, expected one with numbers.")
        asked = tuple(
            Result(one.name, {system: (one.unit(system), self.decimals(one, system)) for system in SYSTEMS})
            for one in self.asked
        )
        return Chain(self.givens, self.question.steps, asked, self.question.verdict_on(self.key))

    @functools.cached_property
    def key(self) -> Sheet:
        """Every value of the chain in SI, by name."""
        return self._own(self._together[0].key)

    @functools.cached_property
    def outcomes(self) -> tuple[tuple[Mistake, Sheet], ...]:
        """What each mistake of the question leads to: the mistakes, and every value of the chain in SI, by name."""
        whole = self._together[0]
        return tuple(zip(whole.mistakes, map(self._own, whole.outcomes), strict=True))

    @functools.cached_property
    def neighbours(self) -> tuple[tuple[Mistake, Sheet], ...]:
        """What each usual mistake of the questions beside this one leads to, as `outcomes`."""
        found = []
        for one in neighbours.slips(self.question, self.units):
            with contextlib.suppress(OutOfRangeError):  # a mistake that leads nowhere here
                found.append((one, solved(self.question, self.sheet, one.changes)))
        return tuple(found)

    def width(self, name: str) -> float:
        """Return how far a value of the chain may lie from the key [SI]."""
        place = self._together[1]
        found = self._together[0].widths[name]
        return float(found[place] if np.ndim(found) else found)

    @functools.cached_property
    def _together(self):
        """The variants this one is solved with, and its place among them; on its own unless it was bound to others."""
        return Together((self,)), 0

    def _own(self, values):
        """Return this seat's values among those of all."""
        place = self._together[1]
        own = {name: float(value[place] if np.ndim(value) else value) for name, value in values.items()}
        return Sheet(self.question, own, self.units)

    @functools.cached_property
    def sheet(self) -> Sheet:
        """The numbers of the sheet, for the chain to work on."""
        return Sheet(self.question, {name: one.value for name, one in self.givens.items()}, self.units)

    def decimals(self, asked: Asked, system: str) -> int:
        """How many decimals the answer deserves: its tolerance shows in the last of them."""
        width = asked.allowed.width(self.key[asked.name], system)  # of the gauges, whatever rounding may add
        size = scale(asked.unit(system), asked.row)[1]
        return max(0, int(np.ceil(-np.log10(width / size / 2))))


def in_words(name: str) -> str:
    """Return the name of a question or of a value as a sheet prints it.

    Examples
    --------
    >>> in_words("compressor_outlet_boost"), in_words("more_air_in_b")
    ('compressor outlet boost', 'more air in B')
    """
    *words, last = name.split("_")
    return " ".join((*words, last.upper() if last in ("a", "b") else last))


def _words_of(unit):
    return "figures, without a unit" if unit == "-" else unit
