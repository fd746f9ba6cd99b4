"""Compressor and aftercooler against their design, and the charge against what the design makes of this boost.

All of it comes from one function of the raw readings, so that what is from one gauge moves everything at once.
"""

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from turbomath import uncertainty, units
from turbomath.lab.reduction.joint import Differences, coverage, own_parts, split
from turbomath.lab.reduction.stations import ROUNDING
from turbomath.lab.run.readings import Run
from turbomath.uncertainty import Estimate

MACHINES = ("compressor_efficiency", "effectiveness")
CHARGE = "charge_gain"
COARSE = {"compressor_efficiency": 0.10, "effectiveness": 0.10}  # a ± from which a reading says nothing of the machine
LEAST_BOOST_TO_HEAT = ("boost", 2, "psi")  # of less the charge says nothing; common practice
CANNOT_TELL = "cannot tell"


@dataclass(frozen=True)
class Comparison:
    """One quantity at some rows of a run: measured and expected [SI], their differences, and whence the expectation."""

    quantity: str
    source: str
    rows: NDArray[np.int_]
    measured: NDArray[np.float64]
    expected: NDArray[np.float64]
    differences: Differences


def comparisons(
    run: Run, found: Mapping[str, Estimate], design: Mapping[str, Estimate], boost: NDArray[np.float64]
) -> tuple[Comparison, ...]:
    """Return those of the machines and the charge that the readings and the stated design allow.

    *found* are the results of a run and *design* the design at each of its rows, from one propagation.
    """
    pairs = {name: (found[name], design[name]) for name in MACHINES if name in design}
    pairs[CHARGE] = found["measured_charge_gain"], found["theoretical_charge_gain"]
    kept = ((name, *pair, _judged(found, name, boost)) for name, pair in pairs.items())
    return tuple(one for parts in kept if (one := comparison(run, *parts)) is not None)


def agreement(difference: Estimate, charge: Comparison | None) -> tuple[str, ...]:
    """Return "yes", "no", "cannot tell" or "" for each row: does the difference of the charge gains lie within its ±?

    That ± is the one of the whole run, so that no row says "no" of a run whose charge fits. With too little boost the
    row cannot tell; without a reading there is nothing to say.
    """
    answers = [CANNOT_TELL if known else "" for known in np.isfinite(difference.value)]
    if charge is not None:
        apart = charge.differences
        inside = np.abs(apart.value) <= coverage(apart) * apart.standard_uncertainty
        for row, ok in zip(charge.rows, inside, strict=True):
            answers[row] = "yes" if ok else "no"
    return tuple(answers)


def enough_boost(boost: NDArray[np.float64]) -> NDArray[np.bool_]:
    """Return the rows where the boost [Pa] is enough to heat the air so that thermometers can tell."""
    column, number, unit = LEAST_BOOST_TO_HEAT
    with np.errstate(invalid="ignore"):
        return boost >= (1 - ROUNDING) * units.to_si(number, unit, column)


def _judged(found, name, boost):
    """Return the rows where the boost is enough to heat, and the gauges fine enough to say something of a machine."""
    rows = enough_boost(boost)
    with np.errstate(invalid="ignore"):
        if name in COARSE:
            rows &= found[name].plus_or_minus < COARSE[name]
    return rows


def comparison(
    run: Run, name: str, measured: Estimate, expected: Estimate, rows: NDArray[np.bool_], source: str = "design"
) -> Comparison | None:
    """Return the comparison of one quantity at those of *rows* where it is known; `None` if there are none."""
    apart = uncertainty.difference(measured, expected)
    rows = np.flatnonzero(rows & np.isfinite(apart.value) & np.isfinite(apart.standard_uncertainty))
    if not rows.size:
        return None
    shares = {one: np.broadcast_to(part, apart.value.shape)[rows] for one, part in apart.shares.items()}
    differences = split(apart.value[rows], shares, own_parts(run, rows))
    return Comparison(name, source, rows, measured.value[rows], expected.value[rows], differences)
