"""The turbine's end of the shaft, and both ends together: 43 to 45."""

from collections.abc import Iterable
from dataclasses import replace

import numpy as np

from turbomath.lab.checks.bounds import Bound
from turbomath.lab.checks.finding import Finding, judged, spoken
from turbomath.lab.checks.look import Look
from turbomath.lab.reduction.against_design import enough_boost
from turbomath.lab.reduction.joint import coverage
from turbomath.lab.reduction.shaft import CLOSING
from turbomath.lab.reduction.shaft_closing import closing

BEFORE, AFTER = "turbine_inlet_temperature", "turbine_outlet_temperature"
PRESSURES = ("turbine_inlet_pressure", "exhaust_back_pressure", "barometer")
ENDS = (BEFORE, AFTER, "compressor_outlet_temperature", "compressor_inlet_temperature")
DROP = Bound(
    "temperature_rise",
    "F°",
    possible=(0, None),
    impossible="exhaust that drives a turbine leaves it cooler",
)
RATIO = Bound(
    "expansion_ratio", "-", (None, 4.5), (1, 6), impossible="gas flows through a turbine from the higher pressure on"
)
RATIOS = {1: RATIO, 2: replace(RATIO, usual=(None, 9), possible=(1, 13))}  # by the number of stages
EFFICIENCY = Bound(  # the mean of a pulsing pressure is too small, so more than 1 can show
    "turbine_efficiency", "-", (0.5, 0.85), (0.2, 1.15), why="by such readings a sound turbine has"
)
BY_SHAFT = Bound(  # where no thermometer stands at the compressor outlet
    "compressor_efficiency_by_shaft",
    "-",
    (0.5, 0.85),
    (0.2, 1),
    why="by such readings a sound compressor has",
    impossible="no compressor takes less than an ideal one",
)
COLD = (
    "Read all four thermometers cold, engine off, and check the type of each against its meter: a wrong type reads "
    "right when cold and wrong when hot."
)
CLOSE = {
    "low": f"{COLD} Then look for a leak between the two ends: charge air on its way to the engine, exhaust before the "
    "turbine.",
    "high": f"{COLD} Look at depth and place of the two in the exhaust too: that before the turbine may read low.",
}


def turbine(look: Look) -> Iterable[Finding]:
    """44: at load the exhaust leaves the turbine cooler and at less pressure."""
    drop = look.run[BEFORE] - look.run[AFTER]

    def fallen(row):
        return look.amount(drop[row], "F°", "temperature_rise", BEFORE, AFTER)

    yield from judged(
        look,
        44,
        look.loaded,
        drop,
        look.widths(BEFORE, AFTER),
        DROP,
        (BEFORE, AFTER),
        lambda row: f"{look.told(row, BEFORE, AFTER)}: a drop of {fallen(row)}",
        "Check whether the two probes or the two cells are swapped, and the type of each against its meter.",
    )
    yield from _judged(
        look,
        RATIOS[look.bench.engine.stages],
        PRESSURES,
        "Check whether the two gauges or the two cells are swapped, and their units.",
    )


def turbine_efficiency(look: Look) -> Iterable[Finding]:
    """45: the exhaust cools by as much as a turbine can make it at such pressures."""
    action = "Check the two thermometers and the two pressures of the exhaust: type, place, unit."
    return _judged(look, EFFICIENCY, (BEFORE, AFTER, *PRESSURES), action, check=45)


def _judged(look, bound, columns, action, check=44):
    name = bound.quantity
    return judged(
        look,
        check,
        [row for row in look.loaded if row not in look.doubtful],
        look.value(name),
        look.result_width(name),
        bound,
        look.present(*columns),
        lambda row: f"{look.tell_result(name, row)} from {look.told(row, *columns)}",
        action,
    )


def both_ends(look: Look) -> Iterable[Finding]:
    """43: the compressor takes the power that the exhaust gives up, but for bearings and a hot housing."""
    found = closing(look.run, look.estimates, look.boost)
    if found is None:
        return _by_shaft(look)
    apart = found.differences
    widths = coverage(apart) * apart.standard_uncertainty
    parts = zip(found.rows, apart.value, widths, strict=True)
    return [_finding(look, *part) for part in parts if part[0] not in look.doubtful]


def _by_shaft(look):
    """Judge the compressor by what the turbine gives it, where nothing else tells."""
    name = BY_SHAFT.quantity
    if np.isfinite(look.value("compressor_efficiency")).any():
        return []
    columns = look.present(BEFORE, AFTER, "boost")
    return judged(
        look,
        43,
        [row for row in np.flatnonzero(enough_boost(look.boost)) if row not in look.doubtful],
        look.value(name),
        look.result_width(name),
        BY_SHAFT,
        columns,
        lambda row: f"{look.tell_result(name, row)} from {look.told(row, *columns)}",
        "Read both thermometers in the exhaust cold, engine off, and check type, depth and place of each.",
    )


def _finding(look, row, difference, width):
    level = "amber" if np.abs(difference) > width else ""
    ratio, usual = (look.tell_result(name, row) for name in (CLOSING, f"usual_{CLOSING}"))
    reason = f"{ratio} by {look.told(row, *ENDS)}; {usual}, so the shaft does not close"
    return spoken(43, int(row), level, look.present(*ENDS), reason, CLOSE["low" if difference < 0 else "high"])
