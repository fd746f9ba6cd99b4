"""What the questions share: readings as a gauge shows them, calls of formulas, and mistakes that come back."""

import numpy as np

from turbomath.homework.bank import arithmetic
from turbomath.homework.bank.question import Asked, Given, Mistake, Tolerance
from turbomath.physics import charge, compression, cooling
from turbomath.table.constants import AIR_GAS_CONSTANT, STANDARD_PRESSURE
from turbomath.working import Step, sums
from turbomath.working.coherent import to_si

_SHOWN = {  # sort of reading: (US unit and step, SI unit and step)
    "barometer": (("inHg", 0.01), ("kPa", 0.1)),
    "boost": (("psi", 0.5), ("kPa", 1)),
    "absolute": (("psi abs", 0.1), ("kPa abs", 1)),
    "loss": (("psi", 0.1), ("kPa", 0.5)),
    "restriction": (("inH2O", 0.5), ("kPa", 0.1)),
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


def given(name, sort="", *, of="", source="", symbol=""):
    """Return a reading on the sheet: its sort of gauge, the quantity it is *of*, and where it is drawn from."""
    us, si = _SHOWN[sort or _SORTS[name]]
    return Given(name, us, si, of, source, symbol)


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
HALF_A_PER_CENT = Tolerance(us=0.002, si=0.002)  # of small changes, in which a ratio upside down must still show


def asked(name, units, *, of="", tolerance=None):
    """Return a value that is asked for."""
    return Asked(name, *units, of, tolerance)


def a_span(share, system):
    """Return the span [Pa] of a gauge that shops have: one of three, by a number from 0 to 1."""
    unit, spans = {"us": ("psi", (30, 60, 100)), "si": ("kPa", (250, 400, 600))}[system]
    return np.array([to_si(one, unit, "boost") for one in spans])[(share * (len(spans) - 0.001)).astype(int)]


# Steps that many questions share
INLET = Step(
    "compressor_inlet_pressure",
    sums.inlet_pressure,
    {"barometer": "barometer", "intake_restriction": "intake_restriction"},
)
MANIFOLD = Step("manifold_pressure", sums.absolute_pressure, {"barometer": "barometer", "boost": "boost"})
OUTLET_GAUGE = Step(
    "compressor_outlet_boost",
    arithmetic.outlet_boost,
    {"boost": "boost", "cooler_pressure_loss": "cooler_pressure_loss"},
    symbol=r"p_{2,\mathrm{gauge}}",
)
OUTLET = Step(
    "compressor_outlet_pressure", sums.absolute_pressure, {"barometer": "barometer", "boost": "compressor_outlet_boost"}
)
RATIO = Step(
    "pressure_ratio",
    compression.pressure_ratio,
    {"inlet_pressure": "compressor_inlet_pressure", "outlet_pressure": "compressor_outlet_pressure"},
)


def ideal(inlet="compressor_inlet_temperature", ratio="pressure_ratio", result="ideal_outlet_temperature", symbol=""):
    """Return the step to the ideal outlet temperature."""
    arguments = {"inlet_temperature": inlet, "pressure_ratio": ratio}
    return Step(result, arithmetic.ideal_outlet_temperature, arguments, symbol=symbol)


def real(
    inlet="compressor_inlet_temperature",
    ideal="ideal_outlet_temperature",
    efficiency="compressor_efficiency",
    result="compressor_outlet_temperature",
    symbol="",
):
    """Return the step to the real outlet temperature."""
    arguments = {"inlet_temperature": inlet, "ideal_outlet_temperature": ideal, "isentropic_efficiency": efficiency}
    return Step(result, arithmetic.real_outlet_temperature, arguments, symbol=symbol)


def cooled(
    inlet="compressor_outlet_temperature",
    medium="cooling_medium_temperature",
    effectiveness="effectiveness",
    result="manifold_temperature",
    symbol="",
):
    """Return the step through an aftercooler."""
    arguments = {"inlet_temperature": inlet, "medium_temperature": medium, "effectiveness": effectiveness}
    return Step(result, cooling.outlet_temperature, arguments, symbol=symbol)


def density(result, pressure, temperature, symbol=""):
    """Return the step to a density."""
    return Step(result, charge.density, {"pressure": pressure, "temperature": temperature}, symbol=symbol)


# Wrong ways to the same place
def density_from_degrees(pressure, temperature):
    """Return the density [kg/m^3] that comes of °F or °C put in as they stand."""
    return lambda sheet: sheet[pressure] / (AIR_GAS_CONSTANT * sheet.as_absolute(sheet[temperature]))


def ideal_from_degrees(inlet="compressor_inlet_temperature", ratio="pressure_ratio"):
    """Return the ideal outlet temperature [K] that comes of °F or °C put in as they stand."""
    return lambda sheet: sheet.from_degrees(sheet.degrees(sheet[inlet]) * sheet[ratio] ** (2 / 7))


def ideal_with_exponent(exponent, inlet="compressor_inlet_temperature", ratio="pressure_ratio"):
    """Return the ideal outlet temperature [K] with a wrong exponent."""
    return lambda sheet: sheet[inlet] * sheet[ratio] ** exponent


def rise_multiplied(
    inlet="compressor_inlet_temperature", ideal="ideal_outlet_temperature", efficiency="compressor_efficiency"
):
    """Return the outlet temperature [K] that comes of multiplying by the efficiency."""
    return lambda sheet: sheet[inlet] + (sheet[ideal] - sheet[inlet]) * sheet[efficiency]


def degrees_ratio(above, below):
    """Return the ratio of two temperatures in °F or °C as they stand."""
    return lambda sheet: sheet.degrees(sheet[above]) / sheet.degrees(sheet[below])


# Mistakes that many questions share
def boost_as_absolute(name="manifold_pressure", source="boost"):
    """M1: the gauge reading taken as the pressure."""
    return Mistake(
        "M1",
        {name: source},
        "You used the gauge reading as the pressure. A gauge counts from the barometer: with the engine off "
        "it shows 0 and the manifold still holds air. Add the station barometer.",
    )


SEA_LEVEL = Mistake(
    "M2",
    {"barometer": STANDARD_PRESSURE},
    "You took 29.92 inHg (14.7 psi, 101.3 kPa) for the barometer. That is a standard day at sea level. "
    "Use the station barometer on the sheet.",
)
INCHES_AS_PSI = Mistake(
    "M9",
    {"manifold_pressure": lambda s: s.answered(s.number("barometer") + s.number("boost"), "manifold_pressure")},
    "You added inches of mercury to psi. Turn the barometer into psi first: 1 inHg is 0.491 psi.",
    only="us",
)
NO_RESTRICTION = Mistake(
    "M7",
    {"compressor_inlet_pressure": "barometer"},
    "You left the intake restriction out. The compressor breathes from behind the filter: take "
    "the restriction off the barometer.",
)
RESTRICTION_ADDED = Mistake(
    "M7",
    {"compressor_inlet_pressure": lambda s: s.barometer + s.intake_restriction},
    "You added the intake restriction. Air loses pressure on its way through the filter: take it off the barometer.",
)
LOSS_IGNORED = Mistake(
    "M8",
    {"compressor_outlet_boost": "boost"},
    "You left the aftercooler's pressure loss out. The compressor must give the manifold's pressure "
    "and the loss: add them.",
)
LOSS_SUBTRACTED = Mistake(
    "M8",
    {"compressor_outlet_boost": lambda s: s.boost - s.cooler_pressure_loss},
    "You took the aftercooler's pressure loss off. The pressure is higher before the aftercooler "
    "than after it: add the loss.",
)
DEGREES = (
    "You put °F or °C into a ratio. Neither counts from absolute zero. Turn each temperature into °R "
    "(°F + 460) or K (°C + 273) first."
)
IDEAL_AS_REAL = (
    "You stopped at the ideal temperature. A real compressor heats the air more: divide the ideal rise by "
    "the efficiency."
)
MULTIPLIED = (
    "You multiplied the rise by the efficiency. Losses make the air hotter, not cooler: divide the ideal "
    "rise by the efficiency."
)
UPSIDE_DOWN = "Your ratio is upside down. Ask first which way the answer must go, then put the larger one on top."
EXPONENT = "Your exponent is not the one for air. It is (1.4 − 1)/1.4 = 0.286."
OFFSET_32 = (
    "You used the 32 that belongs to a thermometer reading. A difference of temperatures has no 32 in it: "
    "180 F° are 100 C°."
)
