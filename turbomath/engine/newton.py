"""Newton's method for thousands of small systems at once, damped so that a step never makes a point worse."""

import functools
from collections.abc import Callable

import numpy as np
from numpy.typing import NDArray

CLOSE = 1e-11  # a residual this small is as good as nought in double precision
_NUDGE = 1e-7  # of a logarithm, for the slope
_LARGEST_STEP = 0.4  # of a logarithm
_HALVINGS = 6
_FLAT = 1e-12  # a determinant that says nothing


def roots(
    function: Callable[..., NDArray[np.float64]], start: NDArray[np.float64], *, steps: int = 25
) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Return (unknowns, residual) of each point: the largest of its scaled residuals, not above `CLOSE` where solved.

    Parameters
    ----------
    function : callable
        From unknowns of shape (unknowns, points) and the numbers of these points to residuals of the same shape.
    start : array of shape (unknowns, points)
        First guess; the unknowns are logarithms.
    steps : int
        Most steps to take.
    """
    unknowns = np.array(start, dtype=float)
    left = np.arange(unknowns.shape[1])
    misses, slopes = _with_slopes(function, unknowns, left)
    residual = _largest(misses)
    for _ in range(steps):
        still = residual[left] > CLOSE
        left, misses, slopes = left[still], misses[:, still], slopes[still]
        if not left.size:
            break
        at = unknowns[:, left]
        unknowns[:, left], misses, slopes = _damped(function, at, _step(misses, slopes), left, _largest(misses))
        residual[left] = _largest(misses)
    return unknowns, residual


def _largest(misses):
    largest = np.abs(misses).max(axis=0)
    return np.where(largest < np.inf, largest, np.inf)  # what is not defined is larger than all


def _with_slopes(function, at, points):
    """Return the residuals and their slopes to each unknown, all from one call, which is what a few points wait for."""
    count = len(at)
    places = (at[:, None, :] + _nudges(count)).reshape(count, -1)
    found = function(places, np.concatenate([points] * (count + 1))).reshape(count, count + 1, -1)
    slopes = (found[:, 1:] - found[:, :1]) / _NUDGE
    return found[:, 0], slopes.transpose(2, 0, 1)


@functools.cache
def _nudges(count):
    """By how much each unknown is moved: in no call, and each in one call after it."""
    return np.concatenate([np.zeros((count, 1)), _NUDGE * np.eye(count)], axis=1)[:, :, None]


def _step(misses, slopes):
    """Newton's step of each point, no longer than the largest that is safe."""
    usable = np.isfinite(slopes).all(axis=(1, 2))
    usable[usable] = np.abs(np.linalg.det(slopes[usable])) > _FLAT
    slopes[~usable] = np.eye(len(misses))  # any other direction may do better
    if not np.isfinite(misses).all():
        misses = np.nan_to_num(misses)
    step = -np.linalg.solve(slopes, misses.T[:, :, None])[:, :, 0].T
    return step / np.maximum(1.0, np.abs(step).max(axis=0) / _LARGEST_STEP)


def _damped(function, at, step, points, before):
    """Take the step of each point, halved until its residuals shrink; return the place, residuals and slopes."""
    new = at + step
    misses, slopes = _with_slopes(function, new, points)
    for _ in range(_HALVINGS):
        worse = np.flatnonzero(~(_largest(misses) < before))
        if not worse.size:
            break
        step[:, worse] /= 2
        new[:, worse] = at[:, worse] + step[:, worse]
        misses[:, worse], slopes[worse] = _with_slopes(function, new[:, worse], points[worse])
    return new, misses, slopes


def bracketed(
    function: Callable[..., NDArray[np.float64]],
    low: NDArray[np.float64],
    high: NDArray[np.float64],
    *,
    steps: int = 60,
) -> NDArray[np.float64]:
    """Return the root of each point between *low* and *high*, where *function* falls through nought, by halving.

    Parameters
    ----------
    function : callable
        From one unknown for each point to one value.
    low, high : arrays
        The bracket.
    steps : int
        Halvings; sixty leave nothing of it.
    """
    low, high = np.array(low, dtype=float), np.array(high, dtype=float)
    for _ in range(steps):
        middle = (low + high) / 2
        above = function(middle) > 0
        low, high = np.where(above, middle, low), np.where(above, high, middle)
    return (low + high) / 2
