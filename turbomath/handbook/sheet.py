"""The formula sheet: what a student needs in class, on the two sides of one leaf for the binder."""

from dataclasses import dataclass
from pathlib import Path

from turbomath.disk.files import write_whole
from turbomath.handbook import docstrings
from turbomath.handbook.book import colophon
from turbomath.handbook.letters import letters
from turbomath.handbook.subjects import numbered
from turbomath.paper.page import page
from turbomath.physics import (
    airflow,
    atmosphere,
    charge,
    combustion_air,
    compression,
    compressor_work,
    cooling,
    correction,
    fuel,
    humidity,
)
from turbomath.table.formulas import Tied
from turbomath.table.letters import CONSTANTS, OTHERS
from turbomath.working import coherent, sums
from turbomath.working.equations import read
from turbomath.working.writing import figures, with_unit

NAME = "formula_sheet.html"

# The formulas of the sheet, in their order
FORMULAS = (
    sums.absolute_pressure,
    sums.inlet_pressure,
    compression.pressure_ratio,
    compression.ideal_outlet_temperature,
    compression.outlet_temperature,
    compression.isentropic_efficiency,
    cooling.effectiveness,
    cooling.outlet_temperature,
    charge.density,
    charge.density_gain,
    sums.gain_difference,
    airflow.mass_flow,
    airflow.volumetric_efficiency,
    compressor_work.power,
    combustion_air.air_fuel_ratio,
    combustion_air.excess_air_ratio,
    combustion_air.power_potential,
    fuel.power,
    fuel.specific_consumption,
    atmosphere.station_pressure,
    humidity.humidity_ratio,
    correction.iso1585_factor,
    correction.corrected_mass_flow,
    correction.corrected_speed,
)
# (one of these, is so many of these, of a quantity in whose units they are)
FACTORS = (
    ("inHg", "psi", "barometer"),
    ("inHg", "kPa", "barometer"),
    ("psi", "kPa", "boost"),
    ("bar", "psi", "boost"),
    ("inH2O", "psi", "intake_restriction"),
    ("lb/ft³", "kg/m³", "density"),
    ("lb/min", "kg/s", "mass_flow"),
    ("cfm", "m³/min", "volume_flow"),
    ("L", "in³", "displacement"),
    ("hp", "kW", "power"),
    ("hp", "Btu/min", "power"),
    ("lbf·ft", "N·m", "torque"),
    ("Btu/lb", "kJ/kg", "specific_heat_rejected"),
    ("lb/hp·h", "g/kW·h", "specific_fuel_consumption"),
    ("ft", "m", "elevation"),
)
# Letters of constants with a box of their own
ON_THE_SHEET = ("R", "c_p", r"\gamma", r"(\gamma-1)/\gamma", r"k_\mathrm{P}", r"T_\mathrm{std}", "L")
_FIGURES = 4
_ABSOLUTE = " abs"
_EXACT = 6  # figures of 459.67 and 273.15


@dataclass(frozen=True)
class Item:
    """One formula of the sheet: number in the handbook, title, equations, letters with words and units, conditions."""

    number: str
    title: str
    equations: list[str]
    letters: list[tuple[str, str, str]]
    conditions: str


def formula_sheet() -> str:
    """Return the formula sheet as HTML."""
    return page(
        "formula_sheet.html",
        title="Formula sheet",
        invented=False,
        items=[_item(function) for function in FORMULAS],
        scales=_scales(),
        factors=[_factor(*one) for one in FACTORS],
        constants=[_constant(letter) for letter in ON_THE_SHEET],
        colophon=colophon(),
    )


def write(folder: Path | str) -> Path:
    """Write the formula sheet into a folder, which is made if need be, and return its path."""
    path = Path(folder) / NAME
    write_whole(path, formula_sheet())
    return path


def _item(function: Tied) -> Item:
    equation = function.formula.equation
    found = letters(function)
    quantities = [one.quantity for one in found if one.quantity]
    by_the_hour = coherent.by_the_hour(quantities)
    is_worked = read(equation, tuple(one.latex for one in found)) is not None
    told = [(one.latex, one.name, _units(one.quantity, by_the_hour, is_worked)) for one in found]
    conditions = "" if is_worked else function.formula.conditions  # one case of several stands for all
    return Item(
        numbered()[function],
        docstrings.title(function).partition(": ")[0],
        equation.split(r", \quad "),
        told,
        conditions,
    )


def _units(quantity: str, by_the_hour: bool, is_worked: bool) -> str:
    """The units with which the equation needs no factor; only those of SI where it has a number with a unit in it."""
    if not quantity:
        return ""
    unit = coherent.hourly_unit if by_the_hour else coherent.unit
    found = [unit(quantity, system) for system in (("us", "si") if is_worked else ("si",))]
    if all(one.endswith(_ABSOLUTE) for one in found):
        found[:-1] = [one.removesuffix(_ABSOLUTE) for one in found[:-1]]  # the last one says it for all
    return " or ".join(dict.fromkeys(one for one in found if one != "-"))


def _scales() -> list[str]:
    """How readings that count from elsewhere are turned, with the rounding of the shop in brackets."""
    zeros = {unit: coherent.scale(unit, "temperature") for unit in ("°F", "°C")}
    said = []
    for unit, absolute in (("°F", "°R"), ("°C", "K")):
        zero, size = zeros[unit]
        said.append(f"{absolute} = {unit} + {figures(zero / size, _EXACT)} (shop: {figures(zero / size, 3)})")
    ice = figures(coherent.from_si(zeros["°C"][0], "°F", "temperature"))
    return [*said, f"°C = (°F − {ice}) / {figures(zeros['°C'][1] / zeros['°F'][1])}"]


def _factor(one: str, other: str, quantity: str) -> tuple[str, str, str, str]:
    """Return both units, and how many of each the other is."""
    (_, first), (_, second) = coherent.scale(one, quantity), coherent.scale(other, quantity)
    return one, other, figures(first / second, _FIGURES), figures(second / first, _FIGURES)


def _constant(letter: str) -> tuple[str, str, str, str]:
    meaning = next((one.meaning for one in CONSTANTS if one.letter == letter), OTHERS.get(letter, ""))
    us, si = (with_unit(*coherent.constant(letter, system)) for system in ("us", "si"))
    return letter, meaning, us, si
