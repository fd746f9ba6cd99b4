"""The way of the charge: ambient, compressor inlet, compressor outlet, manifold, and what was gained.

The compressor works adiabatically with the given isentropic efficiency; the aftercooler has the given
effectiveness on the charge side. What vapour is over saturation at the manifold condenses and leaves the gas.
How the air and its vapour are modelled is in `charge_air`, what flows through one engine in `charge_flow`.
"""

from typing import Any, NamedTuple

import numpy as np

from turbomath import air as air_models
from turbomath.engine.charge_air import mixture
from turbomath.engine.charge_flow import ChargeFlow, charge_flow
from turbomath.engine.through import ChargePath, Stations, densities, outlet_temperature, through
from turbomath.physics import cooling
from turbomath.table.errors import OutOfRangeError
from turbomath.table.formulas import check_shapes, plain
from turbomath.table.kinds_of_value import Values
from turbomath.table.quantities import possible
from turbomath.table.unusual import warn_of_unusual

__all__ = ["ChargeFlow", "ChargePath", "Gains", "Stations", "charge_flow", "charge_gains", "charge_path", "through"]


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
    return through(*_solved(given, air))


class Gains(NamedTuple):
    """What compression and aftercooling gained [-], as `ChargePath` has it."""

    charge_gain: Values
    aftercooling_density_gain: Values


def charge_gains(**given: Any) -> Gains:
    """Return the two gains of density alone, in a third of the time of `charge_path`, whose arguments these are."""
    given = dict(charge_path.__kwdefaults__ or {}, **given)
    stations, _, gas = _solved(given, given.pop("air"))
    ambient, outlet, _, _, manifold = densities(stations, gas)
    return Gains(plain(manifold / ambient - 1), plain(manifold / outlet - 1))


def _solved(given, air):
    """Return the stations, the compressor efficiency and the mixture of air for the arguments of `charge_path`."""
    if (given["manifold_pressure"] is None) == (given["compressor_outlet_pressure"] is None):
        raise OutOfRangeError("give exactly one of manifold_pressure and compressor_outlet_pressure.")
    checked = _checked(given)
    warn_of_unusual("charge_path", {name: value for name, value in checked.items() if value is not None})
    for name in ("compressor_inlet_temperature", "medium_temperature"):
        checked[name] = checked["ambient_temperature"] if checked[name] is None else checked[name]
    air = air_models.chosen(air)
    gas = mixture(air)
    return _stations(gas, _carried(air, given["relative_humidity"]), **checked), checked["isentropic_efficiency"], gas


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


def _stations(
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
    hot = outlet_temperature(
        air, inlet_pressure, compressor_inlet_temperature, compressor_outlet_pressure, isentropic_efficiency, vapour
    )
    manifold_temperature = cooling.outlet_temperature(hot, medium_temperature, effectiveness)
    return Stations(
        ambient_pressure,
        ambient_temperature,
        inlet_pressure,
        compressor_inlet_temperature,
        compressor_outlet_pressure,
        hot,
        manifold_pressure,
        manifold_temperature,
        medium_temperature,
        vapour,
    )
