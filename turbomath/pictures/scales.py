"""From SI arrays to what a picture shows: display units, ends of an axis, a series without gaps."""

import math

import numpy as np
from numpy.typing import ArrayLike, NDArray

from turbomath import units
from turbomath.pictures.picture import Axis, Series
from turbomath.table.quantities import QUANTITIES

WithWidth = tuple[ArrayLike, ArrayLike]  # values in SI, and the ± of each


def shown(name: str, values: ArrayLike, system: str) -> NDArray:
    """Return SI values of a quantity in the display unit of *system* ("us" or "si")."""
    return np.atleast_1d(units.from_si(values, units.display(name, system), name))


def axis(name: str, system: str, *values: ArrayLike, label: str | None = None, from_zero: bool = True) -> Axis:
    """Return an `Axis` for a quantity, to round numbers around all *values* (as shown), and zero if wanted."""
    found = np.concatenate([np.ravel(array) for array in values])
    found = found[np.isfinite(found)]
    low, high = (found.min(), found.max()) if found.size else (0.0, 1.0)
    if from_zero:
        low, high = min(0.0, low), max(0.0, high)
    step = _step(high - low or 1.0)
    first = math.floor(low / step)
    last = max(math.ceil(high / step), first + 1)
    unit = units.display(name, system)
    return Axis(label or QUANTITIES[name].plain_name, "" if unit == "-" else unit, step * first, step * last)


def series(kind: str, role: str, label: str, x: NDArray, y: NDArray, plus_or_minus: NDArray | None = None) -> Series:
    """Return a `Series` in the order of x, without the elements where a number is missing."""
    width = np.zeros_like(y) if plus_or_minus is None else plus_or_minus
    known = np.flatnonzero(np.isfinite(x) & np.isfinite(y) & np.isfinite(width))
    order = known[np.argsort(x[known], kind="stable")]
    x, y, width = (tuple(float(value) for value in np.asarray(array)[order]) for array in (x, y, width))
    if plus_or_minus is None:
        return Series(kind, role, label, x, y)
    edges = [tuple(a + sign * b for a, b in zip(y, width, strict=True)) for sign in (-1, 1)]
    return Series(kind, role, label, x, y, *edges)


def _step(span):
    """Return a round step that parts *span* into five to ten."""
    power = 10.0 ** math.floor(math.log10(span))
    return next(power * part for part in (0.1, 0.2, 0.5, 1.0) if span / (power * part) <= 10)
