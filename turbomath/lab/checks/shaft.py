"""43: the compressor takes the power that the exhaust gives up, but for bearings and a hot housing."""

from collections.abc import Iterable

from turbomath.lab.checks.finding import Finding, spoken
from turbomath.lab.checks.look import Look
from turbomath.lab.reduction.joint import coverage
from turbomath.lab.reduction.shaft_closing import closing

CHECK = 43
COLUMNS = (
    "turbine_inlet_temperature",
    "turbine_outlet_temperature",
    "compressor_outlet_temperature",
    "compressor_inlet_temperature",
)
ACTIONS = {
    "low": "Read all four thermometers cold, engine off. Then look for a leak between the two ends: charge air on its "
    "way to the engine, exhaust before the turbine.",
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
    return [_finding(look, *part) for part in zip(found.rows, apart.value, widths, strict=True)]


def _finding(look, row, difference, width):
    level = "amber" if abs(difference) > width else ""
    ratio, usual = (look.tell_result(name, row) for name in (CLOSING, f"usual_{CLOSING}"))
    reason = f"{ratio} by {look.told(row, *COLUMNS)}; {usual}, so the shaft does not close"
    action = ACTIONS["low" if difference < 0 else "high"]
    return spoken(CHECK, int(row), level, look.present(*COLUMNS), reason, action, distance=abs(difference) / width)
