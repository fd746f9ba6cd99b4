"""From differences to a verdict: holds, does not hold, or cannot tell, for all points of a run together."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from turbomath.lab.reduction.against_design import CHARGE, Comparison
from turbomath.lab.reduction.joint import coverage, joined
from turbomath.lab.reduction.shaft import CLOSING
from turbomath.uncertainty import COVERAGE_FACTOR

HOLDS, FAILS, UNKNOWN = "holds", "does not hold", "cannot tell"

# A change of this size must not stay hidden, or a verdict does not say "holds"; common practice.
# That of the boost is a share of what is expected, that of the charge one of the density expected.
MATTERS = {"boost": 0.15, "compressor_efficiency": 0.08, "effectiveness": 0.10, CHARGE: 0.05, CLOSING: 0.15}


@dataclass(frozen=True)
class AtPoint:
    """One quantity at one point of a run [SI]; `plus_or_minus` is that of the difference, for the joint verdict."""

    quantity: str
    source: str
    row: int
    point: str
    measured: float
    expected: float
    plus_or_minus: float

    @property
    def difference(self) -> float:
        """Measured less expected."""
        return self.measured - self.expected

    @property
    def beyond(self) -> float:
        """How often the difference holds its ±: above 1 it is no chance."""
        return abs(self.difference) / self.plus_or_minus

    @property
    def sign(self) -> str:
        """Which way it is off: "low" or "high"."""
        return "low" if self.difference < 0 else "high"

    @property
    def tells(self) -> bool:
        """Whether the ± is narrow enough to show a change that matters."""
        whole = {"boost": self.expected, CHARGE: 1 + self.expected}.get(self.quantity, 1.0)
        return self.plus_or_minus <= MATTERS[self.quantity] * whole


@dataclass(frozen=True)
class Judged:
    """The answer to one question before it is put in words; `points` holds every number, `factor` its width in u."""

    answer: str
    points: tuple[AtPoint, ...] = ()
    factor: float = COVERAGE_FACTOR

    @property
    def worst(self) -> AtPoint:
        """The point that is furthest out, counted in its own ±."""
        return max(self.points, key=lambda one: one.beyond)

    def best(self, quantity: str | None = None) -> AtPoint:
        """The point at which these readings tell most, of one quantity or of all."""
        these = [one for one in self.points if quantity in (None, one.quantity)]
        return min(these, key=lambda one: one.plus_or_minus / (abs(one.expected) + (one.quantity == CHARGE)))

    def told(self, quantity: str) -> bool:
        """Whether some point shows a change of this quantity that matters."""
        return any(one.tells for one in self.points if one.quantity == quantity)


def judged(comparisons: tuple[Comparison, ...], points: tuple[str, ...], asked: tuple[str, ...]) -> Judged:
    """Return the joint verdict; it holds only if each of the quantities *asked* for can be told of.

    *points* are the labels of the rows.
    """
    if not comparisons:
        return Judged(UNKNOWN)
    differences = joined([one.differences for one in comparisons])
    factor = coverage(differences)
    numbers = tuple(_numbers(comparisons, factor * differences.standard_uncertainty, points))
    found = Judged(UNKNOWN, numbers, factor)
    if found.worst.beyond > 1:
        return Judged(FAILS, numbers, factor)
    return Judged(HOLDS if all(found.told(name) for name in asked) else UNKNOWN, numbers, factor)


def _numbers(comparisons, widths: NDArray[np.float64], points):
    """Yield an `AtPoint` for each number, its ± in the order of the comparisons."""
    left = iter(widths)
    for one in comparisons:
        for row, measured, expected in zip(one.rows, one.measured, one.expected, strict=True):
            values = float(measured), float(expected), float(next(left))
            yield AtPoint(one.quantity, one.source, int(row), points[row], *values)
