"""Where a fit begins: a ready engine brought to the size of the sheet, every number of it at its usual place."""

from dataclasses import replace

import numpy as np

from turbomath.engine import free_numbers
from turbomath.engine.expected import Design, sized_engine, with_boost
from turbomath.engine.sheet import Sheet
from turbomath.engine.turbocharged_engine import TurbochargedEngine, Wastegate
from turbomath.table.constants import AIR_GAS_CONSTANT
from turbomath.table.errors import OutOfRangeError

LEAST_SIZE, LARGEST_SIZE = 0.5e-3, 2.0  # m^3
USUAL_EFFECTIVENESS, USUAL_LOSS = 0.80, 0.03  # the loss is a share of the pressure; common practice
USUAL_AIR_FUEL, USUAL_CHARGE = 28.0, 320.0  # where no boost was read; common practice
USUAL_GATE, USUAL_OPENING, USUAL_SPAN = 0.15, 0.75, 0.45  # of the turbine's area, and of the top boost


def starting_engine(sheet: Sheet, like: TurbochargedEngine) -> TurbochargedEngine:
    """Return the usual engine of the size, aftercooler and fuel of *like* that makes the boost of the top point."""
    if not LEAST_SIZE <= float(like.displacement) <= LARGEST_SIZE:
        raise OutOfRangeError(
            f"displacement must be from {LEAST_SIZE:g} to {LARGEST_SIZE:g} m^3 to be fitted; "
            f"found {float(like.displacement):g}."
        )
    top, boost = sheet.at(sheet.top), _boost(sheet, like)
    arrangement = like.aftercooler.arrangement
    cooled = arrangement != "none"
    design = Design(
        arrangement,
        float(like.displacement),
        float(like.volumetric_efficiency),
        compressor_efficiency=0.75,
        effectiveness=USUAL_EFFECTIVENESS if cooled else 0.0,
        cooler_pressure_loss=USUAL_LOSS * (boost + float(top.ambient_pressure)) if cooled else 0.0,
    )
    sized = sized_engine(design, top, max(boost, 5e3))
    fuel = {name: getattr(like, name) for name in ("hydrogen_carbon_ratio", "fuel_lower_heating_value")}
    sized = replace(sized, name=like.name, **fuel)
    if arrangement == "jacket-water":
        water = like.aftercooler.jacket_water_temperature
        sized = replace(sized, aftercooler=replace(sized.aftercooler, jacket_water_temperature=water))
    usual = free_numbers.usual_engine(sized, 1.06 * (1 + boost / float(top.ambient_pressure)))
    if like.wastegate.area:
        usual = with_gate(usual, boost)
    return with_boost(usual, top, boost)


def with_gate(engine: TurbochargedEngine, boost: float) -> TurbochargedEngine:
    """Return the engine with a smaller turbine and a wastegate as is usual for this top boost [Pa]."""
    area = float(engine.turbine_area)
    gate = Wastegate(USUAL_GATE * area, USUAL_OPENING * boost, USUAL_SPAN * boost)
    return replace(engine, turbine_area=(1 - USUAL_GATE / 2) * area, wastegate=gate)


def with_held_charge(engine: TurbochargedEngine, temperature: float) -> TurbochargedEngine:
    """Return the engine with a valve in the cooling water that holds the charge at this temperature [K]."""
    return replace(engine, aftercooler=replace(engine.aftercooler, held_temperature=temperature))


def _boost(sheet, like):
    """Return the boost of the top point [Pa]; where none was read, that of a usual ratio of air to fuel."""
    read = float(sheet.boost[sheet.top])
    if np.isfinite(read):
        return read
    top = sheet.at(sheet.top)
    fuel = top.fuel_flow if top.fuel_flow is not None else top.power / 0.40 / like.fuel_lower_heating_value
    swept = like.displacement * top.engine_speed / 2 * like.volumetric_efficiency
    pressure = USUAL_AIR_FUEL * fuel * AIR_GAS_CONSTANT * USUAL_CHARGE / swept
    return float(np.clip(pressure - top.ambient_pressure, 10e3, 4 * top.ambient_pressure))
