"""Fuel and power: what an engine burns, what it makes of it, and what the air would allow.

A diesel burns with air to spare at every load, so fuel sets its power and air sets its smoke. How much air a fuel
needs is in `combustion_air`, and how much fuel is burnt in `fuel_burnt`.
"""

import numpy as np

from turbomath.physics.combustion_air import (
    air_fuel_ratio,
    excess_air_ratio,
    power_potential,
    stoichiometric_air_fuel_ratio,
)
from turbomath.physics.fuel_burnt import fuel_delivery, fuel_flow, specific_consumption, weighed_fuel_flow
from turbomath.table.formulas import defined, formula
from turbomath.table.kinds_of_value import Values

__all__ = [  # those of `combustion_air` and `fuel_burnt` too
    "DIESEL_HIGHER_HEATING_VALUE",
    "DIESEL_HYDROGEN_CARBON_RATIO",
    "DIESEL_LOWER_HEATING_VALUE",
    "SMOKE_LIMIT_AIR_FUEL_RATIO",
    "air_fuel_ratio",
    "excess_air_ratio",
    "fuel_delivery",
    "fuel_flow",
    "power",
    "power_potential",
    "specific_consumption",
    "stoichiometric_air_fuel_ratio",
    "thermal_efficiency",
    "weighed_fuel_flow",
]

# Typical diesel fuel: Heywood, table D.4, light diesel (from memory of the print)
DIESEL_HYDROGEN_CARBON_RATIO = 1.8
DIESEL_LOWER_HEATING_VALUE = 42.5e6  # J/kg, water leaving as vapour
DIESEL_HIGHER_HEATING_VALUE = 44.8e6  # J/kg, water leaving as liquid

# Common practice: a diesel begins to smoke near 18 to 20 kilograms of air with each kilogram of fuel
SMOKE_LIMIT_AIR_FUEL_RATIO = 19.0


@formula(
    result="power",
    equation=r"P = \frac{M \, N}{k_\mathrm{P}}",
    source="Heywood",
    conditions="torque and speed of the same shaft",
)
def power(torque: Values, engine_speed: Values) -> Values:
    """Power of a shaft from its torque and speed.

    Parameters
    ----------
    torque : float or array [N m]
        Torque at the crankshaft.
    engine_speed : float or array [rev/s]
        Turns of the crankshaft.

    Returns
    -------
    float or array of the broadcast shape [W]
        Power.

    Raises
    ------
    OutOfRangeError
        If a speed is below zero.

    Notes
    -----
    The factor k_P is 1/(2 pi) in SI. In the shop: lbf·ft times rpm over 5,252 gives hp, N·m times rpm
    over 9,549 gives kW.

    Examples
    --------
    >>> round(power(1965.94, 1600 / 60))
    329396

    References
    ----------
    Heywood, section 2.3, eq. 2.13.
    """
    return 2 * np.pi * engine_speed * torque


@formula(
    result="thermal_efficiency",
    equation=r"\eta_\mathrm{th} = \frac{P}{\dot m_\mathrm{fuel} H_\mathrm{u}}",
    source="Heywood",
    conditions="lower heating value",
)
def thermal_efficiency(fuel_flow: Values, power: Values, fuel_lower_heating_value: Values) -> Values:
    """Work at the crankshaft over the heat of the fuel burnt.

    Parameters
    ----------
    fuel_flow : float or array [kg/s]
        Fuel burnt.
    power : float or array [W]
        Power at the crankshaft.
    fuel_lower_heating_value : float or array [J/kg]
        Heat of burning a kilogram of fuel; about 42.5e6 for diesel.

    Returns
    -------
    float or array of the broadcast shape [-]
        Thermal efficiency; `nan` for an engine that burns nothing.

    Raises
    ------
    OutOfRangeError
        If a fuel flow is below zero or a heating value not above zero.

    Notes
    -----
    The rest leaves with the exhaust, the coolant and the charge air, in that order.

    Examples
    --------
    >>> round(thermal_efficiency(0.018, 307_228.0, 42.5e6), 3)
    0.402

    References
    ----------
    Heywood, section 2.8, eq. 2.23.
    """
    return defined(fuel_flow > 0, power / (fuel_flow * fuel_lower_heating_value))
