"""43: the power that the compressor takes is the power that the exhaust gives up, but for bearings and a hot housing."""

from collections.abc import Iterable

import numpy as np

from turbomath.lab.checks.finding import Finding, spoken
from turbomath.lab.checks.look import Look
from turbomath.lab.reduction.joint import coverage
from turbomath.lab.reduction.shaft_closing import closing
from turbomath.units.rounding import decimals, fixed

CHECK = 43
COLUMNS = (
    "turbine_inlet_temperature",
    "turbine_outlet_temperature",
    "compressor_outlet_temperature",
    "compressor_inlet_temperature",
)
ACTIONS = {
    "low": "Read all four thermometers cold, engine off. Then look for a leak between the two ends: charge air on its way "
    "to the engine, exhaust before the turbine.",
    "high": "Read all four thermometers cold, engine off, and look at type, depth and place of the two in the exhaust: "
    "that before the turbine may read low.",
}


def both_ends(look: Look) -> Iterable[Finding]:
    """43: the two ends of the shaft agree, where both were read."""
    found = closing(look.run, look.estimates, look.boost)
    if found is None:
        return []
    apart = found.differences
    widths = coverage(apart) * apart.standard_uncertainty
    parts = zip(found.rows, found.measured, found.expected, apart.value, widths, strict=True)
    return [_finding(look, *part) for part in parts]


def _finding(look, row, measured, expected, difference, width):
    level = "amber" if np.abs(difference) > width else ""
    places = decimals(width)
    reason = (
        f"the compressor takes {fixed(measured, places)} ± {fixed(width, places)} of the power that the exhaust gives up "
        f"by {look.told(row, *COLUMNS)}; {fixed(expected, places)} is usual, so the shaft does not close"
    )
    action = ACTIONS["low" if difference < 0 else "high"]
    return spoken(CHECK, int(row), level, look.present(*COLUMNS), reason, action, distance=abs(difference) / width)
