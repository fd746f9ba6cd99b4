"""Crossflow, both sides unmixed: the usual build of an aftercooler; exact series, its inverse, and the usual rule.

The rule of the textbooks is off by up to 0.011; the series is exact to the last figures of the machine.
"""

import numpy as np

from turbomath.table.errors import warn_at_caller
from turbomath.table.formulas import defined, formula
from turbomath.table.kinds_of_value import Values

MOST_TRANSFER_UNITS = 100.0  # the series grows with them; an aftercooler has fewer than ten
_BLOCK = 4096  # elements worked out at a time, so that every row of the series stays in the fast memory
_LAST_STEP = 1e-7  # each step squares the error, so that after one as small as this none is left
_SMALL = 1e-300  # stands for a capacity ratio of nought, so that nothing is divided by 0


@formula(
    result="effectiveness",
    equation=r"\varepsilon = \frac{1}{C_\mathrm{r} \mathrm{NTU}} \sum_{n=0}^{\infty} P_n(\mathrm{NTU}) \,"
    r" P_n(C_\mathrm{r} \mathrm{NTU}), \quad P_n(x) = 1 - e^{-x} \sum_{m=0}^{n} \frac{x^m}{m!}",
    source="KaysLondon",
    conditions="steady, no heat lost to the surroundings, both sides unmixed",
    where={
        "P_n": "part of the series, the tail of the exponential series after its term n",
        "n": "number of a term of the series",
        "m": "number of a term within the part",
        "x": "the number for which the part is taken",
    },
)
def effectiveness(ntu: Values, capacity_ratio: Values) -> Values:
    """Effectiveness of a crossflow heat exchanger with both sides unmixed, exact.

    Parameters
    ----------
    ntu : float or array [-]
        Number of transfer units.
    capacity_ratio : float or array [-]
        Smaller capacity rate over the larger, 0 to 1.

    Returns
    -------
    float or array of the broadcast shape [-]
        Effectiveness on the side with the smaller capacity rate.

    Raises
    ------
    OutOfRangeError
        If a number of transfer units is below zero, or a capacity ratio outside 0 to 1.

    Notes
    -----
    All terms are positive, so nothing cancels. Above 100 transfer units there is a `RangeWarning` and `nan`.

    Examples
    --------
    >>> round(effectiveness(1.0, 1.0), 6)
    0.476222

    References
    ----------
    KaysLondon, ch. 2, table 2-2.
    """
    if np.any(ntu > MOST_TRANSFER_UNITS):
        warn_at_caller(f"more than {MOST_TRANSFER_UNITS:g} transfer units; the series is not worked out so far.")
    return _in_blocks(_series, defined(ntu <= MOST_TRANSFER_UNITS, ntu), capacity_ratio)


@formula(
    result="ntu",
    equation=r"\varepsilon = \frac{1}{C_\mathrm{r} \mathrm{NTU}} \sum_{n=0}^{\infty} P_n(\mathrm{NTU}) \,"
    r" P_n(C_\mathrm{r} \mathrm{NTU}), \quad P_n(x) = 1 - e^{-x} \sum_{m=0}^{n} \frac{x^m}{m!}",
    source="KaysLondon",
    conditions="steady, no heat lost to the surroundings, both sides unmixed",
    where={
        "P_n": "part of the series, the tail of the exponential series after its term n",
        "n": "number of a term of the series",
        "m": "number of a term within the part",
        "x": "the number for which the part is taken",
    },
)
def ntu(effectiveness: Values, capacity_ratio: Values) -> Values:
    """Number of transfer units behind an effectiveness in crossflow with both sides unmixed.

    Parameters
    ----------
    effectiveness : float or array [-]
        Effectiveness on the side with the smaller capacity rate, 0 to 1.
    capacity_ratio : float or array [-]
        Smaller capacity rate over the larger, 0 to 1.

    Returns
    -------
    float or array of the broadcast shape [-]
        Number of transfer units; `nan` where no heat exchanger of up to 100 transfer units reaches it.

    Raises
    ------
    OutOfRangeError
        If an effectiveness or a capacity ratio is outside 0 to 1.

    Notes
    -----
    Newton's method from the counterflow value: the curve is concave, so it comes up to the answer from below.
    Where nothing reaches the effectiveness there is a `RangeWarning`.

    Examples
    --------
    >>> round(ntu(0.476222, 1.0), 4)
    1.0

    References
    ----------
    KaysLondon, ch. 2, table 2-2.
    """
    found = _in_blocks(_newton, effectiveness, capacity_ratio)
    if np.any(np.isnan(found) & ~np.isnan(effectiveness + capacity_ratio)):
        warn_at_caller(f"no heat exchanger of up to {MOST_TRANSFER_UNITS:g} transfer units is so effective.")
    return found


@formula(
    result="effectiveness",
    equation=r"\varepsilon = 1 - \exp\left[\frac{\mathrm{NTU}^{0.22}}{C_\mathrm{r}} \left(e^{-C_\mathrm{r}"
    r" \mathrm{NTU}^{0.78}} - 1\right)\right]",
    source="Incropera",
    conditions="both sides unmixed; an approximation, off by up to 0.011",
)
def approximate_effectiveness(ntu: Values, capacity_ratio: Values) -> Values:
    """Effectiveness in crossflow with both sides unmixed, by the usual rule of the textbooks.

    Parameters
    ----------
    ntu : float or array [-]
        Number of transfer units.
    capacity_ratio : float or array [-]
        Smaller capacity rate over the larger, 0 to 1.

    Returns
    -------
    float or array of the broadcast shape [-]
        Effectiveness, about.

    Raises
    ------
    OutOfRangeError
        If a number of transfer units is below zero, or a capacity ratio outside 0 to 1.

    Notes
    -----
    From 0.05 to 6 transfer units it lies 0.011 below the exact value at worst (0.55 transfer units, equal
    capacity rates) and 0.009 above (3 transfer units, capacity ratio 0.4).

    Examples
    --------
    >>> round(approximate_effectiveness(1.0, 1.0), 4)  # exact: 0.4762
    0.4685

    References
    ----------
    Incropera, ch. 11, eq. 11.32.
    """
    C = np.maximum(capacity_ratio, _SMALL)
    return -np.expm1(ntu**0.22 / C * np.expm1(-C * ntu**0.78))


def _in_blocks(function, first, second):
    """Return a function of two arrays, worked out block by block."""
    first, second = np.broadcast_arrays(first, second)
    flat = [array.ravel() for array in (first, second)]
    parts = [function(*(array[at : at + _BLOCK] for array in flat)) for at in range(0, first.size, _BLOCK)]
    return np.concatenate([*parts, np.empty(0)]).reshape(first.shape)


def _series(N, C):
    """Return the effectiveness: a sum of products of the tails of two Poisson distributions."""
    weights, tails, product = _poisson(N, C)
    total = np.zeros_like(N)
    for row in weights[:0:-1]:
        tails += row
        total += np.multiply(*tails, out=product)
    return np.minimum(total / np.maximum(C * N, _SMALL), 1.0)  # rounding may pass 1


def _slope(N, C, effectiveness):
    """Return how fast the effectiveness grows with the number of transfer units."""
    weights, tails, growth = _poisson(N, C)
    growth[:] = 0.0
    for row, before in zip(weights[:0:-1], weights[-2::-1], strict=True):
        tails += row
        growth += before[0] * tails[1] + C * tails[0] * before[1]
    return np.where(N > 0, growth / np.maximum(C * N, _SMALL) - effectiveness / N, 1.0)


def _poisson(N, C):
    """Return e^-x x^n / n! for x = N and x = C N, one row each n, with room for their sums and for one product."""
    largest = np.max(N[~np.isnan(N)], initial=0.0)
    terms = int(largest + 9 * np.sqrt(largest) + 16)  # the rest is below the last figure
    both = np.stack([N, np.maximum(C * N, _SMALL)])
    weights = np.empty((terms + 1, *both.shape))
    weights[0] = np.exp(-both)
    for n in range(1, terms + 1):
        np.multiply(weights[n - 1], both, out=weights[n])
        weights[n] *= 1.0 / n
    return weights, np.zeros_like(both), np.empty_like(N)


def _newton(effectiveness, C):
    """Return the number of transfer units by Newton's method; `nan` where it runs past the limit."""
    gap, ratio = 1 - C, effectiveness / (1 - effectiveness)
    N = np.where(gap > 0, np.log1p(gap * ratio) / gap, ratio)  # that of counterflow
    moving = np.isfinite(N)
    while moving.any():
        N = defined(N <= MOST_TRANSFER_UNITS, N)
        found = _series(N, C)
        step = (effectiveness - found) / _slope(N, C, found)
        N = np.where(moving, N + step, N)
        moving &= np.abs(step) > _LAST_STEP * (1 + N)
    return defined(np.isfinite(N), N)
