"""The numbers of an engine that a maker's sheet or a run may tell, where each usually lies, and how far from there.

A usual place and its width are a standard deviation, of the trade at large (common practice); a fit moves a number as
far from there as the sheet can tell, and what it cannot tell stays.
"""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any

import numpy as np
from numpy.typing import NDArray

from turbomath.engine.turbocharged_engine import EXHAUST_SPECIFIC_HEAT, TurbochargedEngine
from turbomath.table.kinds_of_value import Values

SHARE, AMOUNT = "share", "amount"  # a width is a share of the usual place, or an amount to add to it


@dataclass(frozen=True)
class FreeNumber:
    """A number of the engine, or of its *part*; `usual` is `None` where the size of the engine says it."""

    words: str
    by: str
    width: float
    usual: float | None = None
    part: str = ""
    field: str = ""  # of the part, where it has another name there

    def moved(self, usual: Values, steps: Values) -> NDArray[np.float64]:
        """Return the number so many widths from its usual place."""
        if self.by == SHARE:
            return np.asarray(usual) * np.exp(self.width * np.asarray(steps))
        return np.asarray(usual) + self.width * np.asarray(steps)


ENGINE_NUMBERS = {
    "turbine_area": FreeNumber("turbine area", SHARE, 0.30),
    "turbine_efficiency": FreeNumber("turbine efficiency", SHARE, 0.06, 0.70),
    "nozzle_share": FreeNumber("lean of the turbine to a nozzle's law", AMOUNT, 0.20, 0.15),
    "matched_speed_ratio": FreeNumber("matched blade speed of the turbine over its best", AMOUNT, 0.10, 0.95),
    "turbine_fall": FreeNumber("fall of the turbine efficiency at part load", AMOUNT, 0.045, 0.03),
    "best_compressor_efficiency": FreeNumber("best compressor efficiency", SHARE, 0.05, 0.76),
    "best_pressure_ratio": FreeNumber("best pressure ratio of the compressor", SHARE, 0.15),
    "compressor_fall": FreeNumber("fall of the compressor efficiency off its best", AMOUNT, 0.08, 0.15),
    "best_compressor_flow": FreeNumber("best compressor flow", SHARE, 0.12),
    "volumetric_efficiency": FreeNumber("volumetric efficiency", SHARE, 0.04),
    "best_indicated_efficiency": FreeNumber("best indicated efficiency", SHARE, 0.06, 0.485),
    "efficiency_fall": FreeNumber("fall of the indicated efficiency with fuel", AMOUNT, 0.06, 0.10),
    "friction_at_rest": FreeNumber("friction", SHARE, 0.35),
    "coolant_share": FreeNumber("share of heat to the coolant", AMOUNT, 0.04, 0.18),
    "wall_heat_fall": FreeNumber("fall of that share with fuel", AMOUNT, 0.08, 0.08),
    "exhaust_conductance": FreeNumber("heat through the exhaust manifold", SHARE, 0.6),
    "intake_coefficient": FreeNumber("intake restriction", SHARE, 0.4),
    "exhaust_coefficient": FreeNumber("exhaust back pressure", SHARE, 0.4),
}
COOLER_NUMBERS = {
    "conductance": FreeNumber("conductance of the aftercooler", SHARE, 0.4, part="aftercooler"),
    "pressure_loss_coefficient": FreeNumber("pressure loss of the aftercooler", SHARE, 0.4, part="aftercooler"),
}
LIQUID_NUMBERS = {
    "jacket_water_temperature": FreeNumber("temperature of the cooling water", AMOUNT, 18.0, part="aftercooler"),
}
VALVE_NUMBERS = {
    "held_temperature": FreeNumber("charge temperature held by a valve", AMOUNT, 20.0, part="aftercooler"),
}
GATE_NUMBERS = {
    "wastegate_area": FreeNumber("wastegate area", SHARE, 0.6, part="wastegate", field="area"),
    "opening_boost": FreeNumber("boost that opens the wastegate", SHARE, 0.25, part="wastegate"),
}
ALL = ENGINE_NUMBERS | COOLER_NUMBERS | LIQUID_NUMBERS | VALVE_NUMBERS | GATE_NUMBERS

# What every fit begins with. Shapes of wheels off their best point: see `turbocharged_engine` for their sources. Two
# models identified from measured engines (Sivertsson and Eriksson 2014, Wahlström and Eriksson 2011) have turbines
# whose flow lies at shares of 0.15 and 0.34 between ellipse and nozzle, compressors that are best below the boost of
# full load, and exhaust manifolds of 0.10 and 0.12 units of heat transfer; a lagged manifold has fewer.
BEST_BOOST, MANIFOLD_UNITS = 0.8, 0.09
# `compressor_fall` then tells both sides of the best wheel speed.
SHAPES = {"best_flow_lean": 1.0, "fast_wheel_fall": 0.0, "blade_speed_fall": 1.0, "bearing_fall": 1.0}


def usual_engine(sized: TurbochargedEngine, pressure_ratio: float) -> TurbochargedEngine:
    """Return an engine of its size with every other number at its usual place, for this pressure ratio at full load."""
    places: dict[str, Any] = {name: one.usual for name, one in ENGINE_NUMBERS.items() if one.usual is not None}
    wall = MANIFOLD_UNITS * sized.best_compressor_flow * EXHAUST_SPECIFIC_HEAT
    best = 1 + BEST_BOOST * (pressure_ratio - 1)
    return replace(sized, **places | SHAPES, best_pressure_ratio=best, exhaust_conductance=wall)


def number(engine: TurbochargedEngine, name: str) -> Values:
    """Return a number of the engine or of its part."""
    part = ALL[name].part
    return getattr(getattr(engine, part) if part else engine, ALL[name].field or name)


def engine_with(engine: TurbochargedEngine, steps: Mapping[str, Values]) -> TurbochargedEngine:
    """Return the engine with numbers so many widths from where they are; the steps may be arrays."""
    changes: dict[str, dict[str, Any]] = {"": {}, "aftercooler": {}, "wastegate": {}}
    for name, step in steps.items():
        moved = ALL[name].moved(number(engine, name), step)
        changes[ALL[name].part][ALL[name].field or name] = moved if moved.ndim else float(moved)
    own = changes.pop("")
    own |= {part: replace(getattr(engine, part), **given) for part, given in changes.items() if given}
    return replace(engine, **own)
