"""What an engine of the balance does at the points of a sheet, by the names of its columns, and how sure a sheet is."""

from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from turbomath.engine import balance
from turbomath.engine.expected import Point
from turbomath.engine.turbocharged_engine import TurbochargedEngine

OUTPUTS = (
    "manifold_pressure",
    "fuel_flow",
    "power",
    "manifold_temperature",
    "compressor_outlet_temperature",
    "turbine_inlet_temperature",
    "turbine_inlet_pressure",
    "turbine_outlet_temperature",
)

# Standard uncertainties of what a sheet or a shop's run says, gauge and steadiness together; common practice. Of a
# pressure: a share of what it is above the barometer, and an amount; of a power a share; of a temperature an amount.
PRESSURES = {"manifold_pressure": (0.012, 600.0), "turbine_inlet_pressure": (0.03, 1500.0)}
SHARES = {"power": 0.006, "fuel_flow": 0.006}
TEMPERATURES = {
    "manifold_temperature": 2.0,
    "compressor_outlet_temperature": 3.0,
    "turbine_inlet_temperature": 10.0,
    "turbine_outlet_temperature": 10.0,
}


def outputs(engine: TurbochargedEngine, point: Point) -> dict[str, NDArray[np.float64]]:
    """Return {column: what the balance says}, `nan` where it has no answer; a row for each engine, a column a point."""
    if point.medium_temperature is not None and engine.aftercooler.arrangement == "jacket-water":
        cooler = replace(engine.aftercooler, jacket_water_temperature=point.medium_temperature)
        engine = replace(engine, aftercooler=cooler)
    settled = balance.solve(
        engine,
        ambient_pressure=point.ambient_pressure,
        ambient_temperature=point.ambient_temperature,
        engine_speed=point.engine_speed,
        **point.driven_by,
    )
    return {name: np.where(settled.carried, getattr(settled, name), np.nan) for name in OUTPUTS}


def unsure_of(name: str, value: NDArray[np.float64], ambient_pressure: NDArray[np.float64]) -> NDArray[np.float64]:
    """Return the standard uncertainty [SI] of a figure of a sheet."""
    if name in PRESSURES:
        share, amount = PRESSURES[name]
        return np.hypot(share * (value - ambient_pressure), amount)
    return SHARES[name] * value if name in SHARES else np.full_like(value, TEMPERATURES[name])
