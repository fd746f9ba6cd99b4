"""From a logger's file to points: the stretches in which the engine was steady, each with its mean and its scatter.

The rule is the shop's (common practice): the temperatures of the charge rest, and speed and load are still. A drift is
the mean of half a minute less that of the half before it, so everything is sums and the time grows with the rows.
"""

import itertools
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from turbomath import units

MOST_STRETCHES = 40
MINUTE = 60.0  # s
WINDOW, SHORTEST = 60.0, 60.0  # s: over how long a drift is judged, and how long a stretch lasts, at least
FEWEST = 6  # rows in a window
GAP = 5.0  # times the usual step between rows: from there on a new stretch begins
_TWO_DEGREES = units.to_si(2.0, "F°", "temperature_rise")
# a minute: in K, as a share of the speed, as a share of rated load
DRIFTS = {
    "compressor_outlet_temperature": _TWO_DEGREES,
    "manifold_temperature": _TWO_DEGREES,
    "engine_speed": 0.01,
    "load": 0.02,
}
RELATIVE = ("engine_speed",)
TEMPERATURES = ("compressor_outlet_temperature", "manifold_temperature")


@dataclass(frozen=True, eq=False)
class Log:
    """What is kept of a logger's file: its words, its time and values drawn, its stretches, and their scatter.

    Attributes
    ----------
    sentence, offered : how many stretches became points, or may become some, and by which rule.
    minutes, traces : time of the rows that are drawn [min], and column -> its values there, in SI.
    stretches : (from, to) of each point [min].
    scatter : number column -> standard deviation within each stretch [SI].
    """

    sentence: str
    offered: str
    minutes: NDArray
    traces: dict[str, NDArray]
    stretches: tuple[tuple[float, float], ...]
    scatter: dict[str, NDArray]


def stretches(time: NDArray, columns: Mapping[str, ArrayLike]) -> list[slice]:
    """Return the rows of each steady stretch, in order.

    Parameters
    ----------
    time : array [s]
        Of each row; where it jumps, back or far ahead, a new stretch begins.
    columns : dict of array [SI]
        The columns of `DRIFTS` that were read.
    """
    found, window = [], max(WINDOW, FEWEST * usual_step(time))
    for part in _unbroken(time):
        rest = np.ones(part.stop - part.start, dtype=bool)
        for name, values in columns.items():
            rest &= _at_rest(time[part], np.asarray(values, dtype=float)[part], window, DRIFTS[name], name in RELATIVE)
        found += [slice(part.start + one.start, part.start + one.stop) for one in _runs(rest)]
    return [one for one in found if time[one.stop - 1] - time[one.start] >= SHORTEST]


def longest(found: Sequence[slice]) -> list[slice]:
    """Return the longest of the stretches, at most `MOST_STRETCHES`, in order."""
    kept = sorted(found, key=lambda one: one.start - one.stop)[:MOST_STRETCHES]
    return sorted(kept, key=lambda one: one.start)


def mean_and_scatter(values: NDArray, found: Sequence[slice]) -> tuple[NDArray, NDArray]:
    """Return mean and standard deviation of the readings in each stretch; `nan` and 0 where there is none.

    The scatter is not divided by the root of the number of rows: rows close together do not err on their own.
    """
    parts = [values[one][np.isfinite(values[one])] for one in found]
    return np.array([part.mean() if part.size else np.nan for part in parts]), np.array(
        [part.std(ddof=1) if part.size > 1 else 0.0 for part in parts]
    )


def usual_step(time: NDArray) -> float:
    """Return the usual time from one row to the next [s]."""
    steps = np.diff(time)
    return float(np.median(steps[steps > 0])) if np.any(steps > 0) else np.inf


def _unbroken(time):
    """Return the rows between jumps of the clock."""
    steps, usual = np.diff(time), usual_step(time)
    cuts = [0, *(np.flatnonzero((steps <= 0) | (steps > GAP * usual)) + 1).tolist(), time.size]
    return [slice(first, last) for first, last in itertools.pairwise(cuts) if last - first >= FEWEST]


def _at_rest(time, values, window, most, relative):
    """Return for each row whether a column neither drifts nor swings in the minute around it."""
    middle = np.arange(time.size)
    first, last = (np.searchsorted(time, time + half) for half in (-window / 2, window / 2))
    before, _ = _mean_and_swing(values, first, middle)
    after, _ = _mean_and_swing(values, middle, last)
    around, swing = _mean_and_swing(values, first, last)
    widest = most * np.abs(around) if relative else most
    apart = (_mean_and_swing(time, middle, last)[0] - _mean_and_swing(time, first, middle)[0]) / MINUTE
    whole = (time - window / 2 >= time[0]) & (time + window / 2 <= time[-1]) & (last - first >= FEWEST)
    with np.errstate(invalid="ignore"):
        return whole & (np.abs(after - before) < widest * apart) & (swing < 2 * widest)


def _mean_and_swing(values, first, last):
    """Return mean and standard deviation of the rows from *first* to before *last*, for each row."""
    known = np.isfinite(values)
    level = values[known].mean() if known.any() else 0.0
    off = np.where(known, values - level, 0.0)
    sums = (np.concatenate([[0.0], np.cumsum(one)]) for one in (known, off, off**2))
    count, total, squares = (one[last] - one[first] for one in sums)
    with np.errstate(invalid="ignore", divide="ignore"):
        mean = total / count
        return level + mean, np.sqrt(np.maximum(squares / count - mean**2, 0.0))


def _runs(rest):
    """Return the rows of each unbroken run of true."""
    edges = np.flatnonzero(np.diff(np.concatenate([[0], rest.astype(int), [0]])))
    return [slice(int(first), int(last)) for first, last in edges.reshape(-1, 2)]
