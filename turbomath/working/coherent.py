"""Units in which the equations hold as they stand: pounds, feet, minutes and °R, or kilograms, metres, seconds and K.

With them no equation needs a factor of its own; the constants take the value that goes with the units.
"""

import functools
import math
from collections.abc import Callable, Iterable
from typing import Any

from turbomath import units
from turbomath.physics import humidity, water
from turbomath.table import constants
from turbomath.table.formulas import choice
from turbomath.table.quantities import QUANTITIES
from turbomath.working.equations import GROUPS, Node, worked_out
from turbomath.working.writing import Style, Terminal, figures, fixed, plain_number

# kind of quantity -> (US, SI)
UNITS = {
    "pressure": ("psi abs", "kPa abs"),
    "absolute pressure": ("psi", "kPa"),
    "gauge pressure": ("psi", "kPa"),
    "pressure difference": ("psi", "kPa"),
    "temperature": ("°R", "K"),
    "temperature difference": ("F°", "K"),
    "density": ("lb/ft³", "kg/m³"),
    "humidity ratio": ("lb/lb", "kg/kg"),
    "mass flow": ("lb/min", "kg/s"),
    "fuel flow": ("lb/min", "kg/s"),
    "water flow": ("lb/min", "kg/s"),
    "volume flow": ("cfm", "m³/s"),
    "coolant flow": ("cfm", "m³/s"),
    "rotational speed": ("rpm", "rev/s"),
    "elevation": ("ft", "m"),
    "volume": ("ft³", "m³"),
    "mass": ("lb", "kg"),
    "time": ("s", "s"),
    "power": ("Btu/min", "kW"),
    "specific energy": ("Btu/lb", "kJ/kg"),
    "gas constant": ("psi·ft³/(lb·°R)", "kJ/(kg K)"),
    "specific heat": ("Btu/(lb·°R)", "kJ/(kg K)"),
    "heating value": ("Btu/lb", "kJ/kg"),
    "heat capacity rate": ("Btu/(min·°R)", "kW/K"),
    "vapour pressure": ("psi", "kPa"),
    "length": ("ft", "m"),
    "velocity": ("ft/min", "m/s"),
    "energy": ("Btu", "kJ"),
    "moment of inertia": ("lb·ft²", "kg·m²"),
    "viscosity": ("cP", "cP"),
    "flow for each drop": ("cfm per inH2O", "m³/h per kPa"),
}
HOURLY = {  # what fuel and shaft power are reckoned in; with them torque needs the one factor k_P
    "mass flow": ("lb/h", "kg/h"),
    "fuel flow": ("lb/h", "kg/h"),
    "power": ("hp", "kW"),
    "specific fuel consumption": ("lb/hp·h", "kg/kW·h"),
    "torque": ("lbf·ft", "N·m"),
    "rotational speed": ("rpm", "rpm"),
    "mass": ("lb", "kg"),
    "time": ("h", "h"),
}
_BY_THE_HOUR = {"specific fuel consumption", "torque", "time"}  # a step with one of these is worked in hours
_MADE_OF = {  # a unit of the equations that no gauge shows: (listed unit, a quantity it measures, power)
    "ft³": (("lb", "fuel_mass", 1), ("lb/ft³", "density", -1)),
    "h": (("kg", "fuel_mass", 1), ("kg/h", "mass_flow", -1)),
    "Btu/(min·°R)": (("Btu/min", "power", 1), ("°R", "temperature", -1)),
    "Btu/(lb·°R)": (("Btu/lb", "enthalpy", 1), ("°R", "temperature", -1)),
    "psi·ft³/(lb·°R)": (("psi", "station_pressure", 1), ("lb/ft³", "density", -1), ("°R", "temperature", -1)),
}
_SYSTEMS = {"us": 0, "si": 1}
ZERO_FIGURES = 6  # 459.67 and 273.15
_EXPONENTS = dict(zip(GROUPS, ("0.28571", "3.5", "5.2559", "0.19026"), strict=True))
COOLANT_DENSITY, COOLANT_SPECIFIC_HEAT = 1050.0, 3600.0  # kg/m^3, J/(kg K): half water, half glycol, common practice
EXHAUST_SPECIFIC_HEAT = 1150.0  # J/(kg K): of a loaded diesel's exhaust in its turbine, common practice
_LookUp = tuple[Callable[..., Any], tuple[str, ...], str]  # function, quantities in, quantity out
_LOOK_UPS: dict[str, _LookUp] = {  # by the letter
    r"p_\mathrm{sat}": (water.saturation_pressure, ("temperature",), "saturation_pressure"),
    r"T_\mathrm{sat}": (water.saturation_temperature, ("vapour_pressure",), "dew_point"),
    r"w_\mathrm{sat}": (
        lambda pressure, temperature: humidity.humidity_ratio(pressure, temperature, 1.0),
        ("pressure", "temperature"),
        "humidity_ratio",
    ),
}


def unit(quantity: str, system: str) -> str:
    """Return the unit in which equations take a quantity, in the system "us" or "si"; "-" for a pure number."""
    kind = "specific heat" if quantity == "specific_heat" else QUANTITIES[quantity].kind
    return {**HOURLY, **UNITS}.get(kind, ("-", "-"))[choice("units", system, _SYSTEMS)]


def by_the_hour(quantities: Iterable[str]) -> bool:
    """Whether a step with these quantities is worked in hours, as the shop reckons fuel."""
    return not _BY_THE_HOUR.isdisjoint(QUANTITIES[quantity].kind for quantity in quantities)


def hourly_unit(quantity: str, system: str) -> str:
    """Return the unit in which a step that is worked in hours takes a quantity."""
    row = HOURLY.get(QUANTITIES[quantity].kind)
    return row[choice("units", system, _SYSTEMS)] if row else unit(quantity, system)


@functools.cache
def scale(unit: str, quantity: str) -> tuple[float, float]:
    """Return (SI value of nought, SI size of one) of a unit."""
    if unit in _MADE_OF:
        return 0.0, math.prod(scale(part, row)[1] ** power for part, row, power in _MADE_OF[unit])
    zero = units.to_si(0.0, unit, quantity)
    return zero, units.to_si(1.0, unit, quantity) - zero


def to_si(number: Any, unit: str, quantity: str) -> Any:
    """Return a number in any unit of `units` or of this page as SI."""
    zero, size = scale(unit, quantity)
    return zero + number * size


def from_si(value: Any, unit: str, quantity: str) -> Any:
    """Return an SI value in any unit of `units` or of this page."""
    zero, size = scale(unit, quantity)
    return (value - zero) / size


@functools.cache
def constant(letter: str, system: str) -> tuple[str, str]:
    """Return (text to print, unit) of a constant that stands in an equation."""
    if letter in _EXPONENTS:
        return _EXPONENTS[letter], "-"
    value, size, label = _constants(system)[letter]
    return figures(value / size), label


@functools.cache
def _constants(system):
    """Letter -> (SI value, size of its unit, unit in words)."""

    def size(quantity):
        return scale(unit(quantity, system), quantity)[1]

    degree, energy, volume = size("temperature"), size("enthalpy"), size("displacement")
    mass = size("fuel_mass")
    gas = size("gas_constant")
    words = {
        "us": ("psi·ft³/(lb·°R)", "Btu/(lb·°R)", "psi", "°R", "°R/ft", "lb/ft³"),
        "si": ("kJ/(kg K)", "kJ/(kg K)", "kPa", "K", "K/m", "kg/m³"),
    }[system]
    return {
        "R": (constants.AIR_GAS_CONSTANT, gas, words[0]),
        r"R_\mathrm{v}": (constants.VAPOUR_GAS_CONSTANT, gas, words[0]),
        "c_p": (constants.AIR_SPECIFIC_HEAT, energy / degree, words[1]),
        r"c_\mathrm{coolant}": (COOLANT_SPECIFIC_HEAT, energy / degree, words[1]),
        r"c_\mathrm{exhaust}": (EXHAUST_SPECIFIC_HEAT, energy / degree, words[1]),
        r"\rho_\mathrm{coolant}": (COOLANT_DENSITY, mass / volume, words[5]),
        r"p_\mathrm{std}": (constants.STANDARD_PRESSURE, size("station_pressure"), words[2]),
        r"T_\mathrm{std}": (constants.STANDARD_TEMPERATURE, degree, words[3]),
        r"T_\mathrm{ice}": (constants.ZERO_CELSIUS, degree, words[3]),
        "L": (constants.STANDARD_LAPSE_RATE, degree / size("elevation"), words[4]),
        r"\gamma": (constants.AIR_HEAT_CAPACITY_RATIO, 1.0, "-"),
        r"k_\mathrm{P}": (_torque_and_speed_to_power(system), 1.0, "-"),
        r"k_\mathrm{u}": (energy / size("tip_speed") ** 2, 1.0, "-"),
    }


def _torque_and_speed_to_power(system):
    """Return by what torque times speed is divided to give power, in the units of the shop."""
    power, torque, speed = (scale(hourly_unit(row, system), row)[1] for row in ("power", "torque", "engine_speed"))
    return power / (torque * speed * 2 * math.pi)


def looked_up(node: Node, value: Callable[[Node], float], system: str) -> tuple[str, str]:
    """Return (text to print, unit) of a value from a table; *value* gives the numbers of the letters in it."""
    function, taken, given = _LOOK_UPS[node.text]
    numbers = [
        to_si(worked_out(part, value), unit(name, system), name) for part, name in zip(node.parts, taken, strict=True)
    ]
    found = function(*numbers)
    return figures(from_si(found, unit(given, system), given)), unit(given, system)


def conversion(
    text: str, unit_in: str, unit_out: str, quantity: str, places: int | None = None, style: Style = Terminal
) -> tuple[str, str]:
    """Return (how a number is turned into another unit, the number it comes to), both as text.

    The result is worked out from the factor and the number as they are printed.

    Examples
    --------
    >>> conversion("28.60", "inHg", "psi", "barometer"), conversion("80", "°F", "°R", "temperature")
    (('28.60 inHg × 0.49115', '14.047'), ('80 °F + 459.67', '539.67'))
    """
    if unit_in == unit_out:
        number = text if places is None else fixed(plain_number(text), places)
        return style.number(text, unit_in), number
    (zero_in, size_in), (zero_out, size_out) = scale(unit_in, quantity), scale(unit_out, quantity)
    before, after = figures(zero_in / size_in, ZERO_FIGURES), figures(zero_out / size_out, ZERO_FIGURES)
    factor, divisor = figures(size_in / size_out), figures(size_out / size_in)
    expression, value = style.number(text, unit_in), plain_number(text)
    if before != "0":
        expression, value = f"{expression} + {before}", value + plain_number(before)
    if factor != "1":
        expression = style.group(expression) if before != "0" else expression
        shorter = len(divisor) <= 4 and len(divisor) < len(factor)
        expression += f" / {divisor}" if shorter else f"{style.times}{factor}"
        value = value / plain_number(divisor) if shorter else value * plain_number(factor)
    if after != "0":
        expression, value = f"{expression} {style.minus} {after}", value - plain_number(after)
    return expression, fixed(value, places) if places is not None else figures(value)
