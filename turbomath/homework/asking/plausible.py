"""A plausible engine: what is drawn, and every reading that follows from it.

The ranges are common practice of the trade for heavy-duty diesel engines, never anybody's specification.
"""

import functools
from collections.abc import Mapping
from typing import Any

import numpy as np
from numpy.typing import NDArray

from turbomath import units
from turbomath.physics import airflow, atmosphere, charge, compression, cooling
from turbomath.table.errors import unwarned

Ranges = Mapping[str, tuple[Any, ...]]  # name: (low, high, unit), and the quantity where the unit does not tell it
RANGES: Ranges = {
    "sea_level_pressure": (29.5, 30.5, "inHg"),
    "elevation": (0, 5500, "ft"),
    "ambient_temperature": (20, 105, "°F"),
    "inlet_warming": (0, 20, "F°"),
    "core_warming": (0, 8, "F°"),
    "intake_restriction": (5, 25, "inH2O"),
    "boost": (8, 36, "psi"),
    "cooler_pressure_loss": (0.3, 4, "psi"),
    "compressor_efficiency": (0.60, 0.80, "-"),
    "effectiveness": (0.50, 0.90, "-"),
    "jacket_effectiveness": (0.55, 0.85, "-"),
    "coolant_temperature": (170, 205, "°F"),
    "coolant_warming": (3, 14, "F°"),
    "displacement": (5.9, 16.0, "L"),
    "engine_speed": (1000, 2200, "rpm"),
    "volumetric_efficiency": (0.85, 0.97, "-"),
}
QUANTITY_OF = {  # what is drawn under a name that is not in the table
    "inlet_warming": "temperature_rise",
    "core_warming": "temperature_rise",
    "coolant_warming": "temperature_rise",
    "jacket_effectiveness": "effectiveness",
    "coolant_temperature": "cooling_medium_temperature",
}
_BY_UNIT = {
    "-": "load",
    "%": "load",
    "°F": "temperature",
    "°C": "temperature",
    "F°": "temperature_rise",
    "L": "displacement",
    "rpm": "engine_speed",
    "ft": "elevation",
    "inHg": "exhaust_back_pressure",
    "lb/min": "mass_flow",
    "hp": "power",
    "kg/m³": "density",
    "s": "fuel_time",
    "lb/hp·h": "specific_fuel_consumption",
    "lb": "fuel_mass",
    "US gal/min": "cooling_medium_flow",
    "Btu/min": "power",
    "kW": "power",
}
HIGHEST_RATIO, HOTTEST = 4.0, 505.4  # one stage, and 450 °F at its outlet


def engine(ranges: Ranges, shares: NDArray[np.float64]) -> dict[str, NDArray[np.float64]]:
    """Return name -> array of SI values: one plausible engine for each row of *shares* (numbers from 0 to 1)."""
    values = {}
    for place, (name, ends) in enumerate(_all(ranges).items()):
        low, high = _ends(name, *ends)
        values[name] = low + shares[:, place] * (high - low)
    return values | _readings(values)


def count(ranges: Ranges) -> int:
    """Return how many numbers each engine needs."""
    return len(_all(ranges))


def believable(values: Mapping[str, NDArray[np.float64]]) -> NDArray[np.bool_]:
    """Return which of the engines could be standing in a shop."""
    return (values["pressure_ratio"] <= HIGHEST_RATIO) & (values["compressor_outlet_temperature"] <= HOTTEST)


def _all(ranges):
    return {**RANGES, **ranges}


@functools.cache
def _ends(name, low, high, unit, quantity=""):
    own = name if name in RANGES else _BY_UNIT.get(unit, "cooler_pressure_loss")
    quantity = quantity or QUANTITY_OF.get(name, own)
    return units.to_si(low, unit, quantity), units.to_si(high, unit, quantity)


def _readings(drawn):
    """Return what the gauges of each engine show, and what follows from them."""
    with unwarned():
        barometer = atmosphere.station_pressure(drawn["sea_level_pressure"], drawn["elevation"])
        inlet_pressure = barometer - drawn["intake_restriction"]
        inlet_temperature = drawn["ambient_temperature"] + drawn["inlet_warming"]
        manifold_pressure = barometer + drawn["boost"]
        outlet_pressure = manifold_pressure + drawn["cooler_pressure_loss"]
        outlet_temperature = compression.outlet_temperature(
            inlet_pressure, inlet_temperature, outlet_pressure, drawn["compressor_efficiency"]
        )
        core = drawn["ambient_temperature"] + drawn["core_warming"]
        manifold_temperature = cooling.outlet_temperature(outlet_temperature, core, drawn["effectiveness"])
        jacket = cooling.outlet_temperature(
            outlet_temperature, drawn["coolant_temperature"], drawn["jacket_effectiveness"]
        )
        density = charge.density(manifold_pressure, manifold_temperature)
        mass_flow = airflow.mass_flow(
            density, drawn["displacement"], drawn["engine_speed"], drawn["volumetric_efficiency"]
        )
    return {
        "barometer": barometer,
        "compressor_inlet_pressure": inlet_pressure,
        "compressor_inlet_temperature": inlet_temperature,
        "manifold_pressure": manifold_pressure,
        "compressor_outlet_pressure": outlet_pressure,
        "compressor_outlet_boost": drawn["boost"] + drawn["cooler_pressure_loss"],
        "pressure_ratio": outlet_pressure / inlet_pressure,
        "compressor_outlet_temperature": outlet_temperature,
        "core_air_temperature": core,
        "manifold_temperature": manifold_temperature,
        "jacket_manifold_temperature": jacket,
        "coolant_outlet_temperature": drawn["coolant_temperature"] + drawn["coolant_warming"],
        "ambient_density": charge.density(barometer, drawn["ambient_temperature"]),
        "compressor_outlet_density": charge.density(outlet_pressure, outlet_temperature),
        "manifold_density": density,
        "mass_flow": mass_flow,
        "standard_ratio": np.asarray(atmosphere.pressure(drawn["elevation"])) / atmosphere.pressure(0.0),
    }
