"""The equations behind a report, laid close: each once, and below them what their letters and sources are."""

import inspect
from dataclasses import dataclass
from typing import Any

from turbomath.lab.reduction.reduce import Reduced
from turbomath.paper.parts import Equation
from turbomath.physics import airflow, charge, compression, cooling, correction, fuel, humidity
from turbomath.table.quantities import QUANTITIES
from turbomath.table.sources import SOURCES

# what it gives: (the formula, the result that needs it)
EQUATIONS: dict[str, tuple[Any, str]] = {
    "pressure ratio": (compression.pressure_ratio, "pressure_ratio"),
    "ideal outlet temperature of the compressor": (compression.ideal_outlet_temperature, "ideal_outlet_temperature"),
    "compressor efficiency": (compression.isentropic_efficiency, "compressor_efficiency"),
    "outlet temperature of the compressor": (compression.outlet_temperature, "theoretical_charge_gain"),
    "effectiveness of the aftercooler": (cooling.effectiveness, "effectiveness"),
    "outlet temperature of the aftercooler": (cooling.outlet_temperature, "theoretical_aftercooling_density_gain"),
    "density": (charge.density, "ambient_density"),
    "gain of density between two places": (charge.density_gain, "measured_charge_gain"),
    "humidity ratio": (humidity.humidity_ratio, "dew_point"),
    "air flow, where it was not measured": (airflow.mass_flow, "air_flow"),
    "air-fuel ratio": (fuel.air_fuel_ratio, "air_fuel_ratio"),
    "excess air ratio": (fuel.excess_air_ratio, "excess_air_ratio"),
    "specific fuel consumption": (fuel.specific_consumption, "specific_fuel_consumption"),
    "factor of power correction": (correction.iso1585_factor, "corrected_power"),
}
OTHER_LETTERS = (
    ("R", "gas constant of dry air"),
    (r"R_\mathrm{v}", "gas constant of water vapour"),
    (r"\gamma", "heat capacity ratio"),
    (r"f_\mathrm{m}", "engine factor"),
    (r"p_\mathrm{sat}(T)", "saturation pressure"),
)


@dataclass(frozen=True)
class Equations:
    """Equations ready for a page, with the (LaTeX, words) of every letter and the (key, words) of every source."""

    laid: tuple[Equation, ...]
    letters: tuple[tuple[str, str], ...]
    sources: tuple[tuple[str, str], ...]


def equations(reduced: Reduced) -> Equations:
    """Return the equations of the results that a run has; a letter means the same in each, so it is told once."""
    used = {name: function for name, (function, result) in EQUATIONS.items() if result not in reduced.missing}
    names = dict.fromkeys(name for function in used.values() for name in inspect.signature(function).parameters)
    letters = [(QUANTITIES[name].symbol, QUANTITIES[name].plain_name) for name in names if name in QUANTITIES]
    keys = dict.fromkeys(function.formula.source for function in used.values())
    return Equations(
        tuple(_laid(name, function.formula) for name, function in used.items()),
        (*letters, *OTHER_LETTERS),
        tuple((key, SOURCES[key]) for key in keys),
    )


def _laid(name, formula):
    return Equation(name, formula.equation, formula.conditions, formula.source)
