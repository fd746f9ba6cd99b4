"""The way of the charge: ambient, compressor inlet, compressor outlet, manifold, and what was gained.

The compressor works adiabatically with the given isentropic efficiency; the aftercooler has the given
effectiveness on the charge side. What vapour is over saturation at the manifold condenses and leaves the gas.
How the air and its vapour are modelled is in `charge_air`, what flows through one engine in `charge_flow`.
"""

from dataclasses import dataclass
from typing import Any

import numpy as np

from turbomath import air as air_models
from turbomath.engine.charge_air import mixture
from turbomath.engine.charge_flow import ChargeFlow, charge_flow
from turbomath.physics import cooling
from turbomath.table.errors import OutOfRangeError
from turbomath.table.formulas import check_shapes, plain
from turbomath.table.kinds_of_value import Values
from turbomath.table.quantities import possible
from turbomath.table.records import Record
from turbomath.table.unusual import warn_of_unusual

__all__ = ["ChargeFlow", "ChargePath", "Stations", "charge_flow", "charge_path", "through"]


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


def charge_path(
    *,
    ambient_pressure: Values,
    ambient_temperature: Values,
    manifold_pressure: Values | None = None,
    compressor_outlet_pressure: Values | None = None,
    isentropic_efficiency: Values,
    compressor_inlet_temperature: Values | None = None,
    intake_restriction: Values = 0.0,
    effectiveness: Values = 0.0,
    medium_temperature: Values | None = None,
    cooler_pressure_loss: Values = 0.0,
    relative_humidity: Values | None = None,
    air: Any = None,
) -> ChargePath:
    """Air from ambient to manifold, and what compression and aftercooling gained.

    Parameters
    ----------
    ambient_pressure, ambient_temperature : float or array [Pa], [K]
        Station barometer and air temperature at the engine.
    manifold_pressure, compressor_outlet_pressure : float or array [Pa]
        Absolute; exactly one of the two.
    isentropic_efficiency : float or array [-]
        Compressor efficiency, in (0, 1].
    compressor_inlet_temperature : float or array [K], optional
        Ambient if not given.
    intake_restriction : float or array [Pa]
        Fall of pressure from ambient to the compressor inlet.
    effectiveness : float or array [-]
        Of the aftercooler, charge side, 0 to 1; 0 is no aftercooler.
    medium_temperature : float or array [K], optional
        Cooling medium where it enters the aftercooler; ambient if not given.
    cooler_pressure_loss : float or array [Pa]
        Fall of pressure across the aftercooler.
    relative_humidity : float or array [-], optional
        At ambient, over water, 0 to 1; dry air if not given.
    air : air model or its name, optional
        From `turbomath.air.choose`, or what it takes, such as "ideal"; if not given, real air with the humidity there
        is. "real" and "moist" take the water with its enhancement factor and its heat of condensation, and leave a
        gap with a `RangeWarning` outside 210 to 720 K and above 900 kPa. Every other model takes it as an ideal
        mixture.

    Returns
    -------
    ChargePath
        All stations, works and gains.

    Raises
    ------
    OutOfRangeError
        For impossible input, naming the argument.

    Examples
    --------
    >>> path = charge_path(ambient_pressure=98_544.0, ambient_temperature=298.15, manifold_pressure=264_018.0,
    ...                    isentropic_efficiency=0.74, effectiveness=0.80, cooler_pressure_loss=10_342.0)
    >>> round(path.charge_gain, 3)
    1.455
    """
    if (manifold_pressure is None) == (compressor_outlet_pressure is None):
        raise OutOfRangeError("give exactly one of manifold_pressure and compressor_outlet_pressure.")
    given = dict(
        ambient_pressure=ambient_pressure,
        ambient_temperature=ambient_temperature,
        manifold_pressure=manifold_pressure,
        compressor_outlet_pressure=compressor_outlet_pressure,
        isentropic_efficiency=isentropic_efficiency,
        intake_restriction=intake_restriction,
        compressor_inlet_temperature=compressor_inlet_temperature,
        effectiveness=effectiveness,
        medium_temperature=medium_temperature,
        cooler_pressure_loss=cooler_pressure_loss,
        relative_humidity=relative_humidity,
    )
    checked = _checked(given)
    warn_of_unusual("charge_path", {name: value for name, value in checked.items() if value is not None})
    for name in ("compressor_inlet_temperature", "medium_temperature"):
        checked[name] = checked["ambient_temperature"] if checked[name] is None else checked[name]
    air = air_models.chosen(air)
    return _solve(mixture(air), _carried(air, relative_humidity), **checked)


def _carried(air, relative_humidity):
    """The humidity ratio that a moist model carries along, if the humidity is not given otherwise."""
    carried = getattr(air, "humidity_ratio", 0.0)
    if relative_humidity is not None and np.any(carried):
        raise OutOfRangeError("relative_humidity and the moist air model both say how humid the air is; give one.")
    return carried


def _checked(given):
    """Check every argument that was given and bring all to one shape."""
    checked = {name: possible(name, value) for name, value in given.items() if value is not None}
    shape = check_shapes(checked)
    whole = {name: np.broadcast_to(value, shape) for name, value in checked.items()}
    return {name: whole.get(name) for name in given}


def _solve(
    air,
    humidity_ratio,
    *,
    ambient_pressure,
    ambient_temperature,
    manifold_pressure,
    compressor_outlet_pressure,
    isentropic_efficiency,
    compressor_inlet_temperature,
    intake_restriction,
    effectiveness,
    medium_temperature,
    cooler_pressure_loss,
    relative_humidity,
):
    inlet_pressure = possible("compressor_inlet_pressure", ambient_pressure - intake_restriction)
    if manifold_pressure is None:
        manifold_pressure = possible("manifold_pressure", compressor_outlet_pressure - cooler_pressure_loss)
    else:
        compressor_outlet_pressure = possible("compressor_outlet_pressure", manifold_pressure + cooler_pressure_loss)
    vapour = humidity_ratio + 0 * ambient_pressure
    if relative_humidity is not None:
        vapour = air.humidity_ratio(ambient_pressure, ambient_temperature, relative_humidity)
    outlet_temperature = _outlet_temperature(
        air, inlet_pressure, compressor_inlet_temperature, compressor_outlet_pressure, isentropic_efficiency, vapour
    )
    manifold_temperature = cooling.outlet_temperature(outlet_temperature, medium_temperature, effectiveness)
    stations = Stations(
        ambient_pressure,
        ambient_temperature,
        inlet_pressure,
        compressor_inlet_temperature,
        compressor_outlet_pressure,
        outlet_temperature,
        manifold_pressure,
        manifold_temperature,
        medium_temperature,
        vapour,
    )
    return through(stations, isentropic_efficiency, air)


def through(stations: Stations, isentropic_efficiency: Values, air: Any) -> ChargePath:
    """Return the `ChargePath` through known stations, whether they were worked out or read from gauges.

    Missing readings (`nan`) leave `nan` in what needs them. The efficiency is that of the compressor of the
    same engine without aftercooler, with which the mass flow gain compares. The air is a mixture of `charge_air`.
    """
    here, w = stations, stations.humidity_ratio
    p1, t1 = here.compressor_inlet_pressure, here.compressor_inlet_temperature
    p2, t2 = here.compressor_outlet_pressure, here.compressor_outlet_temperature
    p3, t3 = here.manifold_pressure, here.manifold_temperature
    condensate = air.condensate(p3, t3, w)
    ambient = air.density(here.ambient_pressure, here.ambient_temperature, w)
    outlet, outlet_enthalpy = air.density(p2, t2, w), air.enthalpy(p2, t2, w)
    dry = air.dry_air_density(p3, t3, w)
    manifold = dry * (1 + w - condensate)
    uncooled = air.dry_air_density(p3, _outlet_temperature(air, p1, t1, p3, isentropic_efficiency, w), w)
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


def _outlet_temperature(air, inlet_pressure, inlet_temperature, outlet_pressure, isentropic_efficiency, vapour):
    """Outlet temperature [K]; `nan` where a pressure far below the inlet's would put it below absolute zero."""
    temperature = air.outlet_temperature(
        inlet_pressure, inlet_temperature, outlet_pressure, isentropic_efficiency, vapour
    )
    return np.where(np.asarray(temperature) > 0, temperature, np.nan)
