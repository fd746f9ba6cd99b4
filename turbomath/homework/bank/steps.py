"""Calls of formulas, as the steps of a question, and those that many questions share."""

import inspect

from turbomath.homework.bank import arithmetic
from turbomath.physics import charge, compression, cooling
from turbomath.table.formulas import Tied
from turbomath.table.quantities import QUANTITIES
from turbomath.units.spellings import FAMILIES
from turbomath.working import Step, sums


def step(result: str, formula: Tied, *, quantity: str = "", symbol: str = "", **arguments: str) -> Step:
    """Return one call of a formula; a parameter that is not named takes the value of its own name in the chain."""
    parameters = inspect.signature(formula).parameters.values()
    own = {one.name: one.name for one in parameters if one.default is one.empty}
    return Step(result, formula, own | arguments, quantity, symbol)


def family(quantity: str) -> str:
    """Return the name of the family of units that a quantity is written in."""
    kind = QUANTITIES[quantity].kind
    return FAMILIES.get(kind, kind)


INLET = step("compressor_inlet_pressure", sums.inlet_pressure)
MANIFOLD = step("manifold_pressure", sums.absolute_pressure)
OUTLET_GAUGE = step("compressor_outlet_boost", arithmetic.outlet_boost, symbol=r"p_{2,\mathrm{gauge}}")
OUTLET = step("compressor_outlet_pressure", sums.absolute_pressure, boost="compressor_outlet_boost")
RATIO = step(
    "pressure_ratio",
    compression.pressure_ratio,
    inlet_pressure="compressor_inlet_pressure",
    outlet_pressure="compressor_outlet_pressure",
)
EFFECTIVENESS = step(
    "effectiveness",
    cooling.effectiveness,
    inlet_temperature="compressor_outlet_temperature",
    outlet_temperature="manifold_temperature",
    medium_temperature="cooling_medium_temperature",
)


def ideal(
    inlet: str = "compressor_inlet_temperature",
    ratio: str = "pressure_ratio",
    result: str = "ideal_outlet_temperature",
    symbol: str = "",
) -> Step:
    """Return the step to the ideal outlet temperature."""
    formula = arithmetic.ideal_outlet_temperature
    return step(result, formula, inlet_temperature=inlet, pressure_ratio=ratio, symbol=symbol)


def real(
    inlet: str = "compressor_inlet_temperature",
    ideal: str = "ideal_outlet_temperature",
    efficiency: str = "compressor_efficiency",
    result: str = "compressor_outlet_temperature",
    symbol: str = "",
) -> Step:
    """Return the step to the real outlet temperature."""
    return step(
        result,
        arithmetic.real_outlet_temperature,
        inlet_temperature=inlet,
        ideal_outlet_temperature=ideal,
        isentropic_efficiency=efficiency,
        symbol=symbol,
    )


def cooled(
    inlet: str = "compressor_outlet_temperature",
    medium: str = "cooling_medium_temperature",
    effectiveness: str = "effectiveness",
    result: str = "manifold_temperature",
    symbol: str = "",
) -> Step:
    """Return the step through an aftercooler."""
    return step(
        result,
        cooling.outlet_temperature,
        inlet_temperature=inlet,
        medium_temperature=medium,
        effectiveness=effectiveness,
        symbol=symbol,
    )


def density(result: str, pressure: str, temperature: str, symbol: str = "") -> Step:
    """Return the step to a density."""
    return step(result, charge.density, pressure=pressure, temperature=temperature, symbol=symbol)
