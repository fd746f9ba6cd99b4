"""What stands on a sheet: readings as a gauge shows them, units to answer in, and ranges to draw from."""

import numpy as np
from numpy.typing import NDArray

from turbomath.homework.bank.question import Asked, Given, Tolerance
from turbomath.working.coherent import to_si

SHOWN = {  # sort of reading: (US unit and step, SI unit and step)
    "barometer": (("inHg", 0.01), ("kPa", 0.1)),
    "boost": (("psi", 0.5), ("kPa", 1)),
    "absolute": (("psi abs", 0.1), ("kPa abs", 1)),
    "loss": (("psi", 0.1), ("kPa", 0.5)),
    "restriction": (("inH2O", 0.5), ("kPa", 0.1)),
    "back pressure": (("inHg", 0.1), ("kPa", 0.1)),
    "temperature": (("°F", 1), ("°C", 1)),
    "rise": (("F°", 1), ("C°", 1)),
    "share": (("-", 0.01), ("-", 0.01)),
    "ratio": (("-", 0.01), ("-", 0.01)),
    "table ratio": (("-", 0.001), ("-", 0.001)),
    "per cent": (("%", 1), ("%", 1)),
    "density": (("lb/ft³", 0.0001), ("kg/m³", 0.001)),
    "flow": (("lb/min", 0.5), ("kg/min", 0.2)),
    "height": (("ft", 50), ("m", 20)),
    "displacement": (("in³", 1), ("L", 0.1)),
    "speed": (("rpm", 10), ("rpm", 10)),
    "power": (("hp", 1), ("kW", 1)),
    "fuel": (("lb/h", 1), ("kg/h", 0.5)),
    "consumption": (("lb/hp·h", 0.001), ("g/kW·h", 1)),
    "torque": (("lbf·ft", 10), ("N·m", 10)),
    "fuel mass": (("lb", 0.05), ("kg", 0.02)),
    "seconds": (("s", 0.1), ("s", 0.1)),
    "air-fuel ratio": (("-", 0.5), ("-", 0.5)),
}
_SORTS = {
    "barometer": "barometer",
    "sea_level_pressure": "barometer",
    "intake_restriction": "restriction",
    "boost": "boost",
    "cooler_pressure_loss": "loss",
    "compressor_inlet_temperature": "temperature",
    "ambient_temperature": "temperature",
    "compressor_outlet_temperature": "temperature",
    "manifold_temperature": "temperature",
    "cooling_medium_temperature": "temperature",
    "cooling_medium_outlet_temperature": "temperature",
    "pressure_ratio": "ratio",
    "elevation": "height",
    "compressor_efficiency": "share",
    "effectiveness": "share",
    "displacement": "displacement",
    "engine_speed": "speed",
    "volumetric_efficiency": "share",
    "mass_flow": "flow",
    "ambient_density": "density",
    "manifold_density": "density",
}


def given(name: str, sort: str = "", *, of: str = "", source: str = "", symbol: str = "") -> Given:
    """Return a reading on the sheet: its sort of gauge, the quantity it is *of*, and where it is drawn from."""
    us, si = SHOWN[sort or _SORTS[name]]
    return Given(name, us, si, of, source, symbol)


BAROMETER, BOOST = given("barometer"), given("boost")
HOT, COOL = given("compressor_outlet_temperature"), given("manifold_temperature")
INLET_TEMPERATURE = given("compressor_inlet_temperature")
AIR_AT_CORE = given("cooling_medium_temperature", source="core_air_temperature")
COOLANT_IN = given("cooling_medium_temperature", source="coolant_temperature")
COOLANT_OUT = given("cooling_medium_outlet_temperature", source="coolant_outlet_temperature")
OUTLET_BOOST = given("compressor_outlet_boost", "boost", of="boost", symbol=r"p_{2,\mathrm{gauge}}")

ABSOLUTE = ("psi abs", "kPa abs")
DENSITY = ("lb/ft³", "kg/m³")
TEMPERATURE = ("°F", "°C")
PER_CENT = ("%", "%")
NUMBER = ("-", "-")
PRESSURE = ("psi", "kPa")
RISE = ("F°", "C°")
FLOW = ("lb/min", "kg/min")
POWER = ("hp", "kW")
HALF_A_PER_CENT = Tolerance(us=0.002, si=0.002)  # of small changes, in which a ratio upside down must still show

# Ranges that keep a mistake from passing as rounding
HIGH_GROUND = {"elevation": (2500, 5500, "ft")}
WARM = {"ambient_temperature": (50, 105, "°F")}


def asked(name: str, units: tuple[str, str], *, of: str = "", tolerance: Tolerance | None = None) -> Asked:
    """Return a value that is asked for."""
    return Asked(name, *units, of, tolerance)


def a_span(share: NDArray, system: str) -> NDArray:
    """Return the span [Pa] of a gauge that shops have: one of three, by a number from 0 to 1."""
    unit, spans = {"us": ("psi", (30, 60, 100)), "si": ("kPa", (250, 400, 600))}[system]
    return np.array([to_si(one, unit, "boost") for one in spans])[(share * (len(spans) - 0.001)).astype(int)]
