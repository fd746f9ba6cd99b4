"""What a charge gains on its way, once every station is known, whether worked out or read from gauges."""

from dataclasses import dataclass
from typing import Any

import numpy as np

from turbomath.table.formulas import plain
from turbomath.table.kinds_of_value import Values
from turbomath.table.records import Record


@dataclass(frozen=True)
class Stations:
    """Pressures and temperatures along the path [Pa, K], absolute, and the vapour the air brought with it."""

    ambient_pressure: Values
    ambient_temperature: Values
    compressor_inlet_pressure: Values
    compressor_inlet_temperature: Values
    compressor_outlet_pressure: Values
    compressor_outlet_temperature: Values
    manifold_pressure: Values
    manifold_temperature: Values
    medium_temperature: Values
    humidity_ratio: Values


@dataclass(frozen=True, repr=False)
class ChargePath(Record):
    """Everything along the path; each field is a quantity of the table, a float or an array of the broadcast shape.

    The three gains answer three questions. `charge_gain`: how much denser is the charge than the air outside?
    `aftercooling_density_gain`: how much denser did the aftercooler make it? (A worn compressor makes this one
    bigger.) `mass_flow_gain`: how much more dry air than the same engine without aftercooler at equal manifold
    pressure? `greatest_possible_gain` is the last for a perfect aftercooler without pressure loss.
    """

    HEADLINE = ("pressure_ratio", "manifold_temperature", "charge_gain")

    ambient_pressure: Values
    ambient_temperature: Values
    ambient_density: Values
    compressor_inlet_pressure: Values
    compressor_inlet_temperature: Values
    compressor_inlet_density: Values
    compressor_outlet_pressure: Values
    compressor_outlet_temperature: Values
    compressor_outlet_density: Values
    manifold_pressure: Values
    manifold_temperature: Values
    manifold_density: Values
    manifold_dry_air_density: Values
    pressure_ratio: Values
    ideal_outlet_temperature: Values
    density_ratio: Values
    specific_compressor_work: Values
    specific_heat_rejected: Values
    humidity_ratio: Values
    dew_point: Values
    condensate: Values
    charge_gain: Values
    aftercooling_density_gain: Values
    mass_flow_gain: Values
    greatest_possible_gain: Values


def through(stations: Stations, isentropic_efficiency: Values, air: Any) -> ChargePath:
    """Return the `ChargePath` through known stations, whether they were worked out or read from gauges.

    Missing readings (`nan`) leave `nan` in what needs them. The efficiency is that of the compressor of the
    same engine without aftercooler, with which the mass flow gain compares. The air is a mixture of `charge_air`.
    """
    here, w = stations, stations.humidity_ratio
    p1, t1 = here.compressor_inlet_pressure, here.compressor_inlet_temperature
    p2, t2 = here.compressor_outlet_pressure, here.compressor_outlet_temperature
    p3, t3 = here.manifold_pressure, here.manifold_temperature
    ambient, outlet, dry, condensate, manifold = densities(here, air)
    outlet_enthalpy = air.enthalpy(p2, t2, w)
    uncooled = air.dry_air_density(p3, outlet_temperature(air, p1, t1, p3, isentropic_efficiency, w), w)
    coldest = air.dry_air_density(p3, here.medium_temperature, w)
    fields = dict(
        ambient_pressure=here.ambient_pressure,
        ambient_temperature=here.ambient_temperature,
        ambient_density=ambient,
        compressor_inlet_pressure=p1,
        compressor_inlet_temperature=t1,
        compressor_inlet_density=air.density(p1, t1, w),
        compressor_outlet_pressure=p2,
        compressor_outlet_temperature=t2,
        compressor_outlet_density=outlet,
        manifold_pressure=p3,
        manifold_temperature=t3,
        manifold_density=manifold,
        manifold_dry_air_density=dry,
        pressure_ratio=p2 / p1,
        ideal_outlet_temperature=air.outlet_temperature(p1, t1, p2, 1.0, w),
        density_ratio=manifold / ambient,
        specific_compressor_work=outlet_enthalpy - air.enthalpy(p1, t1, w),
        specific_heat_rejected=outlet_enthalpy - air.enthalpy(p3, t3, w, condensate),
        humidity_ratio=w,
        dew_point=air.dew_point(p3, w),
        condensate=condensate,
        charge_gain=manifold / ambient - 1,
        aftercooling_density_gain=manifold / outlet - 1,
        mass_flow_gain=dry / uncooled - 1,
        greatest_possible_gain=coldest / uncooled - 1,
    )
    shape = np.broadcast_shapes(*(np.shape(value) for value in fields.values()))
    return ChargePath(**{name: plain(np.broadcast_to(value, shape)) for name, value in fields.items()})


def densities(here: Stations, air: Any) -> tuple[Any, Any, Any, Any, Any]:
    """Return the density at ambient and compressor outlet, of dry air, condensate and density at the manifold."""
    at_manifold = here.manifold_pressure, here.manifold_temperature, here.humidity_ratio
    condensate, dry = air.condensate(*at_manifold), air.dry_air_density(*at_manifold)
    ambient = air.density(here.ambient_pressure, here.ambient_temperature, here.humidity_ratio)
    outlet = air.density(here.compressor_outlet_pressure, here.compressor_outlet_temperature, here.humidity_ratio)
    return ambient, outlet, dry, condensate, dry * (1 + here.humidity_ratio - condensate)


def outlet_temperature(
    air: Any,
    inlet_pressure: Values,
    inlet_temperature: Values,
    outlet_pressure: Values,
    isentropic_efficiency: Values,
    vapour: Values,
) -> Any:
    """Return the outlet temperature [K]; `nan` where the pressure falls so far that it would be below zero."""
    temperature = air.outlet_temperature(
        inlet_pressure, inlet_temperature, outlet_pressure, isentropic_efficiency, vapour
    )
    return np.where(np.asarray(temperature) > 0, temperature, np.nan)
