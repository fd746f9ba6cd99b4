"""Compressor and aftercooler against their design, and the charge against what the design makes of this boost.

All of it is worked out in one function of the raw readings, so that what comes from one gauge moves everything at once.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from turbomath import air as air_models
from turbomath import uncertainty
from turbomath.lab.checks.bounds import LEAST_BOOST_TO_HEAT, in_si
from turbomath.lab.reduction.reduce import Reduced, measured_and_theoretical
from turbomath.lab.reduction.stations import at_stations, gauge_readings
from turbomath.lab.verdicts.design_here import RULES, design_here, rated_row, stated_design
from turbomath.lab.verdicts.joint import Differences, own_parts, split
from turbomath.table.errors import unwarned

MACHINES = ("compressor_efficiency", "effectiveness")
CHARGE = "charge_gain"
COARSE = {"compressor_efficiency": 0.10, "effectiveness": 0.10}  # a ± from which a reading says nothing of the machine


@dataclass(frozen=True)
class Comparison:
    """One quantity at some rows of a run: measured and expected [SI], their differences, and whence the expectation."""

    quantity: str
    source: str
    rows: NDArray[np.int_]
    measured: NDArray[np.float64]
    expected: NDArray[np.float64]
    differences: Differences


def comparisons(reduced: Reduced) -> tuple[Comparison, ...]:
    """Return those of the machines and the charge that the readings and the stated design allow."""
    run, stated = reduced.run, stated_design(reduced.run.bench)
    values, unsure = gauge_readings(run)
    stations = at_stations(run, values)
    boost = stations.manifold_pressure - stations.ambient_pressure
    row = rated_row(run, boost)
    if row is None or not stated:
        return ()
    values, unsure = _with_design(values, unsure, stated)
    with unwarned():
        found = uncertainty.signed_shares(_both(run, reduced.air, row), values, unsure)
    kept = ((name, _judged(reduced, name, boost)) for name in (*MACHINES, CHARGE))
    return tuple(one for name, rows in kept if (one := _comparison(run, name, rows, found)) is not None)


def _with_design(values, unsure, stated):
    """Return the readings with the design's own ± and the rules, each a number that may be off."""
    values = values | {f"design_{name}": one.value for name, one in stated.items()} | dict.fromkeys(RULES, 0.0)
    widths = {f"design_{name}": one.tolerance for name, one in stated.items()} | dict.fromkeys(RULES, 1.0)
    return values, unsure | {name: np.asarray(width) / np.sqrt(3) for name, width in widths.items()}


def _both(run, air, row):
    """Return a function of the raw readings: measured and expected of each quantity."""
    model = air_models.choose(air)

    def function(**read):
        here = design_here(run, read, row)
        results = measured_and_theoretical(run, model, read | here)
        expected = {name: here.get(f"design_{name}", np.nan) for name in MACHINES}
        measured = {name: results[name] for name in MACHINES}
        expected[CHARGE], measured[CHARGE] = results["theoretical_charge_gain"], results["measured_charge_gain"]
        differences = {f"{name} difference": measured[name] - expected[name] for name in expected}
        return {f"{name} measured": one for name, one in measured.items()} | differences

    return function


def _judged(reduced, name, boost):
    """Return the rows where the boost is enough to heat, and the gauges fine enough to say something of a machine."""
    with np.errstate(invalid="ignore"):
        rows = boost >= in_si(LEAST_BOOST_TO_HEAT)
        if name in COARSE:
            rows &= reduced[name].plus_or_minus < COARSE[name]
    return rows


def _comparison(run, name, rows, found):
    """Return the comparison of one quantity at the rows where it is known; `None` if there are none."""
    measured, (value, shares) = found[f"{name} measured"][0], found[f"{name} difference"]
    rows = np.flatnonzero(rows & np.isfinite(value) & np.isfinite(sum(shares.values())))
    if not rows.size:
        return None
    shares = {one: part[rows] for one, part in shares.items()}
    differences = split(value[rows], shares, own_parts(run, rows))
    return Comparison(name, "design", rows, measured[rows], measured[rows] - value[rows], differences)
