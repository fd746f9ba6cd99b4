"""Controls of a panel, built from the table of quantities: name, range and units are written nowhere else."""

import functools
import math
from collections import namedtuple
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from turbomath import units
from turbomath.table.errors import OutOfRangeError
from turbomath.table.kinds import KINDS
from turbomath.table.quantities import QUANTITIES, possible
from turbomath.units.rounding import rounded
from turbomath.units.shown import in_unit, words


@dataclass(frozen=True)
class Control:
    """One quantity that the reader sets, or that the lesson holds.

    Parameters
    ----------
    name : str
        A quantity of the table that needs no barometer to be shown.
    start : float
        Where it starts, in SI.
    low, high : float, optional
        The range of the lesson in SI; that of the table where none is given.
    held : bool
        Whether it starts held; the reader may let it go.
    locked : bool
        Whether it stays held.
    more : bool
        Whether it waits behind "more".
    us, si : str, optional
        Units other than those of the table.
    """

    name: str
    start: float
    low: float | None = None
    high: float | None = None
    held: bool = False
    locked: bool = False
    more: bool = False
    us: str | None = None
    si: str | None = None

    @property
    def label(self) -> str:
        """The plain name of the quantity."""
        return QUANTITIES[self.name].plain_name

    @property
    def range(self) -> tuple[float, float]:
        """The ends of the lesson's range, in SI."""
        low, high = QUANTITIES[self.name].sensible
        return low if self.low is None else self.low, high if self.high is None else self.high

    def unit(self, system: str) -> str:
        """Return the unit shown in the system "us" or "si"."""
        return {"us": self.us, "si": self.si}[system] or units.display(self.name, system)

    def scale(self, system: str) -> tuple[float, float, float]:
        """Return (low, high, step) of the slider in display units: round numbers within the range."""
        low, high = (units.from_si(end, self.unit(system), self.name) for end in self.range)
        step = _tidy((high - low) / 100)
        return _snap(math.ceil(low / step - 1e-9), step), _snap(math.floor(high / step + 1e-9), step), step

    def words(self, value: float, system: str) -> str:
        """Return an SI value as text with its unit."""
        return words(self.name, value, system, self.unit(system))

    def read(self, text: str, system: str) -> float:
        """Return the SI value of a number as typed, or refuse what is no number or cannot be.

        Raises
        ------
        OutOfRangeError
            With a plain sentence, if the text is not one number or the value is impossible.
        """
        number = units.number(text)
        unit = self.unit(system)
        value = units.to_si(number, unit, self.name)
        try:
            return float(possible(self.name, value))
        except OutOfRangeError:
            needed = KINDS[QUANTITIES[self.name].kind].needed
            said = f"{in_unit(number, unit)} {unit}".removesuffix(" -")
            raise OutOfRangeError(f"{said} cannot be: {self.label} must be {needed}.") from None

    def outside(self, value: float, system: str) -> str:
        """Return a sentence where the value lies outside the lesson's range, else nothing. It is not changed."""
        low, high = self.range
        slack = 1e-9 * (high - low)  # a round number in a shop unit is not one in SI
        if low - slack <= value <= high + slack:
            return ""
        low, high = map(rounded, self.scale(system)[:2])
        ends = f"{low} to {high} {self.unit(system)}"
        return f"Out of range: this lesson goes from {ends}. Your number was not changed; check it."


@dataclass(frozen=True)
class Choice:
    """One thing that the reader picks from a short list, such as the grade of a gauge.

    Parameters
    ----------
    name : str
        The field of the record that holds the key picked.
    label : str
        Its plain name.
    options : tuple of (key, words)
        Words are one text, or a dict with a text for "us" and one for "si".
    start : str
        The key picked at the start.
    more : bool
        Whether it waits behind "more".
    """

    name: str
    label: str
    options: tuple[tuple[str, str | dict], ...]
    start: str
    more: bool = False
    held = locked = False

    def line(self, system: str) -> list[list[str]]:
        """Return [key, words] of each option in the system "us" or "si"."""
        return [[key, words if isinstance(words, str) else words[system]] for key, words in self.options]


def at_start(controls: Sequence[Control | Choice]) -> Any:
    """Return the record of controls and choices where they start, with nothing held."""
    record = record_type(*(one.name for one in controls), "held")
    return record(*(one.start for one in controls), frozenset())


@functools.cache
def record_type(*names: str) -> Any:
    """Return the type of a frozen record with these fields."""
    return namedtuple("Controls", names)  # type: ignore[misc]  # each lesson has its own names


def _tidy(span):
    """Return the largest of 1, 2 and 5 times a power of ten that is not above *span*."""
    power = 10.0 ** math.floor(math.log10(span))
    return next(part * power for part in (5, 2, 1) if part * power <= span * (1 + 1e-9))


def _snap(count, step):
    return float(f"{count * step:.12g}")
