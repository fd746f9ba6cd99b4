"""Usual mistakes: what each changes in the chain, wrong ways that come back, and those that many questions share."""

from collections.abc import Callable
from typing import Any

from turbomath.homework.bank.question import Mistake
from turbomath.table import prose
from turbomath.table.constants import AIR_GAS_CONSTANT, STANDARD_PRESSURE
from turbomath.working.coherent import to_si

SHARED = prose.read(__file__, "mistakes.toml")  # what to tell the student, by the name of the mistake


def mistake(name: str, code: str, *, only: str = "", **changes: Any) -> Mistake:
    """Return a usual mistake: its name among the words, its code, and what it changes in the chain."""
    return Mistake(name, code, changes, only)


def taken_as(name: str, units: tuple[str, str]) -> Callable:
    """Return the SI value of the number on the sheet if it were of another unit."""
    return lambda sheet: sheet.written(sheet.number(name), units, name)


def converted_the_wrong_way(name: str, shown: tuple[str, str], asked: tuple[str, str], quantity: str = "") -> Callable:
    """Return what comes of dividing by the factor from one unit to another where it multiplies, or the reverse."""
    row = quantity or name

    def wrong(sheet):
        number = sheet.shown(sheet.written(sheet.number(name), asked, row), shown, row)
        return sheet.written(number, asked, row)

    return wrong


def density_from_degrees(pressure: str, temperature: str) -> Callable:
    """Return the density [kg/m^3] that comes of °F or °C put in as they stand."""
    return lambda sheet: sheet[pressure] / (AIR_GAS_CONSTANT * sheet.as_absolute(sheet[temperature]))


def ideal_from_degrees(inlet: str = "compressor_inlet_temperature", ratio: str = "pressure_ratio") -> Callable:
    """Return the ideal outlet temperature [K] that comes of °F or °C put in as they stand."""
    return lambda sheet: sheet.from_degrees(sheet.degrees(sheet[inlet]) * sheet[ratio] ** (2 / 7))


def ideal_with_exponent(
    exponent: float, inlet: str = "compressor_inlet_temperature", ratio: str = "pressure_ratio"
) -> Callable:
    """Return the ideal outlet temperature [K] with a wrong exponent."""
    return lambda sheet: sheet[inlet] * sheet[ratio] ** exponent


def rise_multiplied(
    inlet: str = "compressor_inlet_temperature",
    ideal: str = "ideal_outlet_temperature",
    efficiency: str = "compressor_efficiency",
) -> Callable:
    """Return the outlet temperature [K] that comes of multiplying by the efficiency."""
    return lambda sheet: sheet[inlet] + (sheet[ideal] - sheet[inlet]) * sheet[efficiency]


def degrees_ratio(above: str, below: str) -> Callable:
    """Return the ratio of two temperatures in °F or °C as they stand."""
    return lambda sheet: sheet.degrees(sheet[above]) / sheet.degrees(sheet[below])


def offset_32() -> float:
    """Return the 32 of the Fahrenheit scale as a difference [K], where a student puts it into one."""
    return to_si(32.0, "F°", "temperature_rise")


# Mistakes that many questions share
SEA_LEVEL = mistake("sea_level_barometer", "M2", barometer=STANDARD_PRESSURE)


def boost_as_absolute(name: str = "manifold_pressure", source: str = "boost") -> Mistake:
    """Return M1: the gauge reading taken as the pressure."""
    return mistake("boost_as_absolute", "M1", **{name: source})
