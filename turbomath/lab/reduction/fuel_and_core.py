"""What fuel, torque and the cooling medium add to a reduced run: air-fuel ratio, consumption, corrected power, UA."""

from collections.abc import Mapping
from typing import Any

import numpy as np
from numpy.typing import NDArray

from turbomath.lab.reduction.stations import AtStations, above_zero
from turbomath.lab.run import fuels
from turbomath.lab.run.bench import Engine
from turbomath.lab.run.channels import LIQUID_COOLED
from turbomath.lab.run.readings import Run
from turbomath.physics import correction, exchanger, fuel, humidity
from turbomath.table.constants import AIR_SPECIFIC_HEAT
from turbomath.working.coherent import COOLANT_DENSITY, COOLANT_SPECIFIC_HEAT

NEAR_FULL_LOAD = 0.90  # the standard corrects full load only
ARRANGEMENT = "crossflow, both unmixed"  # the usual build of a charge air aftercooler, common practice


def fuel_results(run: Run, at: AtStations, read: Mapping[str, Any], dry_air: NDArray) -> dict[str, NDArray]:
    """Return the results that need fuel or power, by name; *dry_air* is the flow of dry air [kg/s]."""
    burnt = fuel_flow(read)
    power = shaft_power(read)
    ratio = fuel.air_fuel_ratio(dry_air, burnt)
    return {
        "fuel_flow": burnt,
        "power": power,
        "air_fuel_ratio": ratio,
        "excess_air_ratio": fuel.excess_air_ratio(ratio, stoichiometric(run.bench.engine)),
        "specific_fuel_consumption": fuel.specific_consumption(burnt, power),
        "corrected_power": _corrected_power(run, at, read, burnt, power),
    }


def conductance(at: AtStations, read: Mapping[str, Any], engine: Engine, charge_flow: NDArray) -> NDArray:
    """Return the conductance (UA) of the aftercooler; *charge_flow* is the flow of charge into it [kg/s]."""
    charge = above_zero(charge_flow * AIR_SPECIFIC_HEAT)
    balance = exchanger.medium_capacity_rate(
        charge,
        at.compressor_outlet_temperature,
        at.manifold_temperature,
        at.medium_temperature,
        above_zero(read["cooling_medium_outlet_temperature"]),
    )
    return exchanger.conductance(
        at.compressor_outlet_temperature,
        at.manifold_temperature,
        at.medium_temperature,
        charge,
        _first(_coolant_rate(read, engine), balance),
        ARRANGEMENT,
    )


def fuel_flow(read: Mapping[str, Any]) -> NDArray:
    """Return the fuel flow as read, or from scale and stopwatch."""
    weighed = fuel.weighed_fuel_flow(_not_negative(read["fuel_mass"]), _not_negative(read["fuel_time"]))
    return above_zero(_first(read["fuel_flow"], weighed))


def shaft_power(read: Mapping[str, Any]) -> NDArray:
    """Return the power as read, or from torque and speed."""
    return _first(read["power"], fuel.power(read["torque"], _not_negative(read["engine_speed"])))


def stoichiometric(engine: Engine) -> float:
    """Return the stoichiometric air-fuel ratio of the fuel that bench.toml names, `nan` for one that is not known."""
    known = fuels.known(engine.fuel)
    return np.nan if known is None else known.stoichiometric


def is_diesel(engine: Engine) -> bool:
    """Return whether the engine burns diesel fuel."""
    return fuels.known(engine.fuel) is fuels.FUELS["diesel"]


def within_standard(run: Run, at: AtStations, read: Mapping[str, Any]) -> NDArray[np.bool_]:
    """Return the rows whose day, and the factor it gives, are not outside what ISO 1585 corrects."""
    dry, factor = _dry_pressure(at), _factor(run, at, read, fuel_flow(read))
    inside = np.ones(np.shape(dry), dtype=bool)
    for values, (low, high) in (
        (dry, correction.VALID_DRY_PRESSURE),
        (factor, correction.VALID_FACTOR),
        (at.ambient_temperature, correction.VALID_TEMPERATURE),
    ):
        inside = inside & ~((values < low) | (values > high))
    return inside


def _corrected_power(run, at, read, burnt, power):
    """Return the power on the day of ISO 1585: a diesel's at full load only, and nowhere outside its own limits."""
    holds = within_standard(run, at, read) & ~(run["load"] < NEAR_FULL_LOAD)  # without loads it is taken at its word
    holds = holds & is_diesel(run.bench.engine)
    return np.where(holds, _factor(run, at, read, burnt) * power, np.nan)


def _factor(run, at, read, burnt):
    engine = run.bench.engine
    delivery = above_zero(
        fuel.fuel_delivery(
            burnt,
            np.nan if engine.displacement is None else engine.displacement,
            above_zero(read["engine_speed"]),
            engine.strokes,
        )
    )
    return correction.iso1585_factor(
        _dry_pressure(at),
        at.ambient_temperature,
        aspiration="turbocharged",
        fuel_delivery=delivery,
        pressure_ratio=above_zero(at.compressor_outlet_pressure / at.ambient_pressure),
    )


def _dry_pressure(at):
    return above_zero(at.ambient_pressure - humidity.vapour_pressure(at.ambient_pressure, at.humidity_ratio))


def _coolant_rate(read, engine):
    """Return the capacity rate of a liquid medium from its flow: half water, half glycol."""
    if engine.aftercooler not in LIQUID_COOLED:
        return np.nan * read["cooling_medium_flow"]
    return above_zero(read["cooling_medium_flow"] * COOLANT_DENSITY * COOLANT_SPECIFIC_HEAT)


def _not_negative(values):
    return np.where(np.asarray(values) >= 0, values, np.nan)


def _first(value, otherwise):
    return np.where(np.isnan(value), otherwise, value)
