"""A range that a check judges by: what is usual, what is possible, and how both are told."""

import math
from dataclasses import dataclass, replace
from functools import cache, cached_property

import numpy as np

from turbomath import units
from turbomath.lab.checks.units_of_sheet import range_end
from turbomath.lab.run.amounts import Stated

COMMON_PRACTICE = "common practice"
OPEN = (None, None)
ALIKE = (0, 0)  # two readings of one thing: no range to tell
LEAST_SCALE = 0.1  # of the usual range


@dataclass(frozen=True)
class Bound:
    """Two ranges for one quantity, in *unit*; `typical` is a healthy value.

    `why` reads on into the usual range; `impossible` says what is wrong beyond the possible one, where "cannot be
    right" does not fit, with "{outside}" where that range is told.
    """

    quantity: str
    unit: str
    usual: tuple = OPEN
    possible: tuple = OPEN
    why: str = "usual is"
    typical: float | None = None
    source: str = COMMON_PRACTICE
    impossible: str = ""

    @cached_property
    def usual_in_si(self) -> tuple[float, float]:
        """(low, high) of the usual range in SI, infinite where open."""
        return self._in_si(self.usual)

    @cached_property
    def possible_in_si(self) -> tuple[float, float]:
        """(low, high) of the possible range in SI, infinite where open."""
        return self._in_si(self.possible)

    def level(self, value: float, width: float, firm: bool = False) -> str:
        """Return "red", "amber" or "": is *value* beyond a range by more than *width*? *firm*: no width for red."""
        if _beyond(value, 0.0 if firm else width, self.possible_in_si):
            return "red"
        return "amber" if _beyond(value, width, self.usual_in_si) else ""

    def distance(self, value: float) -> float:
        """Return how far *value* is from typical; 1 is the end of the usual range, 0 where nothing is typical.

        A typical value that is stated at that end, or beyond it, counts as a tenth of the range away from it.
        """
        if self.typical is None:
            return 0.0
        typical, (low, high) = self._one_in_si(self.typical), self.usual_in_si
        end = high if value > typical else low
        scale = abs(end - typical) if np.isfinite(end) else abs(typical)
        least = LEAST_SCALE * (high - low) if np.isfinite(high - low) else 0.0
        return abs(value - typical) / max(scale, least)

    def expecting(self, stated: Stated | None) -> "Bound":
        """Return the same bound with the typical value that bench.toml states, if it does."""
        if stated is None:
            return self
        return replace(self, typical=units.from_si(stated.value, self.unit, self.quantity))

    def at_least_as_wide_as(self, band: tuple[float, float]) -> "Bound":
        """Return the same bound about the middle of a band, its usual range no narrower than that band."""
        half = units.from_si((band[1] - band[0]) / 2, self.unit, self.quantity)
        return replace(self, usual=(min(self.usual[0], -half), max(self.usual[1], half)))

    def words(self, level: str, unit: str) -> str:
        """Return why a value of this level is remarkable, with the range in *unit*."""
        there = f"{self.why} {self._range(unit)}"
        usual = "" if self.usual == OPEN else self.why if self.usual == ALIKE else there
        if level != "red":
            return usual
        impossible = (self.impossible or "nothing {outside} can be right").format(outside=self._outside(unit))
        return f"{usual}, and {impossible}" if usual else impossible

    def _range(self, unit):
        low, high = self._figures(self.usual, unit)
        words = f"at most {high}" if low is None else f"at least {low}" if high is None else f"{low} to {high}"
        return f"{words} {unit}".removesuffix(" -")

    def _outside(self, unit):
        low, high = self._figures(self.possible, unit)
        words = f"above {high}" if low is None else f"below {low}" if high is None else f"outside {low} to {high}"
        return f"{words} {unit}".removesuffix(" -")

    def _figures(self, ends, unit):
        """Return both ends in figures: in the shop's own unit as they stand, in another one rounded."""
        if unit == self.unit:
            return [None if end is None else _figure(end) for end in ends]
        converted = [None if end is None else units.from_si(self._one_in_si(end), unit, self.quantity) for end in ends]
        return [None if end is None else range_end(end) for end in converted]

    def _in_si(self, ends):
        return tuple(
            open_end if end is None else self._one_in_si(end)
            for end, open_end in zip(ends, (-math.inf, math.inf), strict=True)
        )

    def _one_in_si(self, number):
        return in_si((self.quantity, number, self.unit))


def _figure(number):
    return f"{number:,g}".replace("-", "−")


def _beyond(value, width, ends):
    return value < ends[0] - width or value > ends[1] + width


@cache
def in_si(threshold: tuple[str, float, str]) -> float:
    """Return a threshold (quantity, number, unit) in SI."""
    quantity, number, unit = threshold
    return units.to_si(number, unit, quantity)


def amount_of(threshold: tuple[str, float, str], unit: str) -> str:
    """Return a threshold (quantity, number, its unit) in words, in *unit*: as it stands there, else rounded.

    Examples
    --------
    >>> amount_of(("boost", 10, "psi"), "psi"), amount_of(("boost", 10, "psi"), "bar")
    ('10 psi', '0.69 bar')
    """
    quantity, number, own = threshold
    return f"{_figure(number) if unit == own else range_end(units.from_si(in_si(threshold), unit, quantity))} {unit}"
