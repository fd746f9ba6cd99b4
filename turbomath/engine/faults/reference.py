"""The sound engine that readings are held against: the usual engine of the size, brought to its own earlier readings.

What counts is the change from one run to the next, so the engine need not be exact: a few numbers are moved until the
gauges of the hardest point and of one in the middle show nearly what they showed.
"""

from dataclasses import replace
from functools import partial

import numpy as np

from turbomath.engine import free_numbers, least_squares, start
from turbomath.engine.faults.observed import FUEL, GAUGES, Observed, fuel_for, shown
from turbomath.engine.free_numbers import engine_with
from turbomath.engine.sheet import sheet_of
from turbomath.engine.turbocharged_engine import TurbochargedEngine

# Each number and the gauge that tells it
TOLD_BY = {
    "turbine_area": "boost",
    "turbine_efficiency": "boost",
    "best_compressor_efficiency": "compressor_outlet_temperature",
    "best_indicated_efficiency": "power",
    "friction_at_rest": "power",
    "coolant_share": "turbine_inlet_temperature",
    "intake_coefficient": "intake_restriction",
    "exhaust_coefficient": "exhaust_back_pressure",
    "conductance": "manifold_temperature",
    "pressure_loss_coefficient": "cooler_pressure_loss",
    "wastegate_area": "boost",
    "opening_boost": "boost",
}
LEAST = dict.fromkeys(GAUGES, 300.0) | {  # Pa; a closer match is of no use
    "compressor_inlet_temperature": 1.0,
    "compressor_outlet_temperature": 2.0,
    "manifold_temperature": 2.0,
    "turbine_inlet_temperature": 6.0,
    "turbine_outlet_temperature": 6.0,
    "air_flow": 0.005,
    "power": 1000.0,
}
SPANS = (1.0, 2.0)  # times the usual way from where a gate begins to open to where it is open
SHARE = 0.01  # of the reading, the same
_MISSED = 30.0


def reference_engine(observed: Observed, like: TurbochargedEngine) -> TurbochargedEngine:
    """Return the engine of the size and the parts of *like* that shows nearly the readings of a sound run."""
    sheet = sheet_of([point(observed, place) for place in range(len(observed.load))])
    begun = start.starting_engine(sheet, like)
    few = observed.at(_few(observed))
    fuel = fuel_for(begun, few)
    tried = [_brought_to(one, few, fuel) for one in _gates(begun)]
    return min(tried, key=lambda one: one[1])[0]


def _gates(begun):
    """Return the engine, and where it has a gate the same with one that opens more slowly."""
    gate = begun.wastegate
    if not gate.area:
        return [begun]
    return [replace(begun, wastegate=replace(gate, span=gate.span * share)) for share in SPANS]


def _brought_to(begun, few, fuel):
    """Return (the engine whose numbers are moved until it shows the readings, what is left over)."""
    names = tuple(name for name, gauge in TOLD_BY.items() if gauge in few.gauges and _has(begun, name))
    near = shown(begun, few.site, fuel)
    found = least_squares.least(partial(_misses, begun, few, fuel, near, names), len(names))
    return engine_with(begun, dict(zip(names, map(float, found.steps), strict=True))), found.cost


def point(observed: Observed, place: int) -> dict[str, float]:
    """Return one point of a run as a sheet takes it: where it ran, what drove it, and its boost or else its power."""
    point = {name: float(one[place]) for name, one in observed.site.items()}
    fuel = observed.read.get(FUEL)
    drive = FUEL if fuel is not None and np.isfinite(fuel).all() else "power"
    point[drive] = float(observed.read[drive][place])
    if "boost" in observed.gauges:
        point["manifold_pressure"] = point["ambient_pressure"] + float(observed.read["boost"][place])
    elif "power" in observed.gauges:
        point["power"] = float(observed.read["power"][place])
    return point


def _few(observed):
    """Return the hardest point, and those nearest to some shares of it."""
    work = observed.read[FUEL if FUEL in observed.read else "power"]
    return np.unique([int(np.argmin(np.abs(work - share * work.max()))) for share in (1.0, 0.8, 0.6, 0.3)])


def _has(engine, name):
    if free_numbers.ALL[name].part == "wastegate":
        return float(engine.wastegate.area) > 0
    cooler = engine.aftercooler
    return free_numbers.ALL[name].part != "aftercooler" or cooler.arrangement != "none"


def _misses(begun, observed, fuel, near, names, steps):
    """Return model less reading over what a closer match is worth; a row for each trial."""
    engine = engine_with(begun, {name: steps[:, place, None] for place, name in enumerate(names)})
    found = shown(engine, observed.site, fuel, near)
    rows = [list(GAUGES).index(name) for name in observed.gauges]
    read = np.stack([observed.read[name] for name in observed.gauges])
    widths = np.stack([np.hypot(LEAST[name], SHARE * observed.read[name]) for name in observed.gauges])
    misses = (found.only(rows) - read) / widths
    return np.nan_to_num(misses, nan=_MISSED).reshape(len(misses), -1)
