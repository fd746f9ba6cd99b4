"""Least squares of a few numbers that each have a usual place: nought, with a width of one."""

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Values = NDArray[np.float64]

_NUDGE = 0.02  # of a width, for the slope
_DAMPINGS = np.array([0.0, 0.3, 3.0, 30.0, 300.0])[:, None, None]  # tried at once; the best one is taken
_ROUNDS, _ENOUGH = 25, 1e-4  # of the sum of squares
_LONGEST = 3.0  # widths in one step


@dataclass(frozen=True)
class Found:
    """Where the sum of squares is least: the `steps` from the usual places, the misses there and their slopes."""

    steps: Values
    misses: Values
    slopes: Values

    @property
    def cost(self) -> float:
        """The sum of squares, of the misses and of the way from the usual places."""
        return float(self.misses @ self.misses + self.steps @ self.steps)

    def spread(self, scale: float = 1.0) -> Values:
        """Return what stays unknown of the steps, their covariance, if a miss is usually *scale* and not one."""
        square: Values = self.slopes.T @ self.slopes / scale**2 + np.eye(len(self.steps))
        return np.asarray(np.linalg.inv(square), dtype=np.float64)


def least(function: Callable[[Values], Values], count: int, kept: NDArray[np.bool_] | None = None) -> Found:
    """Return the steps with the least sum of squares.

    Parameters
    ----------
    function : callable
        From steps of shape (trials, count) to misses of shape (trials, readings), each over its standard uncertainty.
    count : int
        How many numbers there are.
    kept : array of bool, optional
        Those that stay at their usual place.
    """
    free = np.ones(count, dtype=bool) if kept is None else ~kept
    found = _with_slopes(function, np.zeros(count))
    for _ in range(_ROUNDS):
        trials = found.steps + np.where(free, _ways(found, free), 0.0)
        costs = (function(trials) ** 2).sum(axis=1) + (trials**2).sum(axis=1)
        best = int(np.argmin(costs))
        if not costs[best] < found.cost * (1 - _ENOUGH) - _ENOUGH:
            break
        found = _with_slopes(function, trials[best])
    return found


def _with_slopes(function, steps):
    trials = steps + np.concatenate([np.zeros((1, len(steps))), _NUDGE * np.eye(len(steps))])
    misses = function(trials)
    return Found(steps, misses[0], (misses[1:] - misses[:1]).T / _NUDGE)


def _ways(found, free):
    """Return a step of each damping, none longer than is safe."""
    slopes = found.slopes * free
    square = slopes.T @ slopes + np.eye(len(free))
    damped = square + _DAMPINGS * np.eye(len(free)) * np.diag(square)
    downhill = -(slopes.T @ found.misses + found.steps * free)
    ways = np.linalg.solve(damped, np.broadcast_to(downhill[:, None], (len(damped), len(free), 1)))[:, :, 0]
    return ways / np.maximum(1.0, np.abs(ways).max(axis=1, keepdims=True) / _LONGEST)
