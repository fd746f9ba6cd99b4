"""The exhaust turbine: how far the gas cools, what work that gives, and whether it pays for the compressor.

A perfect gas with the specific heat and heat-capacity ratio of the exhaust (at load about 1,150 J/(kg K) and 1.33). How
much of it gets through the turbine is in `turbine_flow`.
"""

import numpy as np

from turbomath.physics.turbine_flow import critical_expansion_ratio, ellipse_flow_parameter, nozzle_flow_parameter
from turbomath.table.errors import warn_at_caller
from turbomath.table.formulas import defined, formula

__all__ = [
    "compressor_power",
    "critical_expansion_ratio",
    "efficiency",
    "ellipse_flow_parameter",
    "expansion_ratio",
    "nozzle_flow_parameter",
    "outlet_temperature",
    "power",
    "specific_work",
]


@formula(
    result="turbine_outlet_temperature",
    equation=r"T_5 = T_4 \left[1 - \eta_\mathrm{t} \left(1 - \pi_\mathrm{t}^{(1-\gamma)/\gamma}\right)\right]",
    source="Heywood",
    conditions="perfect gas, no heat lost",
)
def outlet_temperature(turbine_inlet_temperature, expansion_ratio, turbine_efficiency, heat_capacity_ratio):
    """Temperature of the exhaust after the turbine.

    Parameters
    ----------
    turbine_inlet_temperature : float or array [K]
        Exhaust temperature before the turbine.
    expansion_ratio : float or array [-]
        Absolute pressure before the turbine over that after it.
    turbine_efficiency : float or array [-]
        Real temperature drop over the ideal one, above 0 and at most 1; 1 gives the ideal temperature.
    heat_capacity_ratio : float or array [-]
        Of the exhaust, about 1.33.

    Returns
    -------
    float or array of the broadcast shape [K]
        Turbine outlet temperature.

    Raises
    ------
    OutOfRangeError
        If an argument is not above zero, or the efficiency above 1.

    Notes
    -----
    A hot turbine also loses heat, so a real outlet reads lower. A ratio below 1 gives a `RangeWarning`.

    Examples
    --------
    >>> round(outlet_temperature(1000.0, 5.2 / 1.03, 0.88, 1.33), 1)
    708.9

    References
    ----------
    Heywood, section 6.8, eq. 6.48; Gorla, ch. 7.
    """
    return turbine_inlet_temperature * (1 - turbine_efficiency * _ideal_drop(expansion_ratio, heat_capacity_ratio))


@formula(
    result="turbine_efficiency",
    equation=r"\eta_\mathrm{t} = \frac{T_4 - T_5}{T_4 \left(1 - \pi_\mathrm{t}^{(1-\gamma)/\gamma}\right)}",
    source="Heywood",
    conditions="perfect gas, no heat lost",
)
def efficiency(turbine_inlet_temperature, turbine_outlet_temperature, expansion_ratio, heat_capacity_ratio):
    """Turbine efficiency from readings: real temperature drop over the ideal one.

    Parameters
    ----------
    turbine_inlet_temperature : float or array [K]
        Exhaust temperature before the turbine.
    turbine_outlet_temperature : float or array [K]
        Exhaust temperature after the turbine.
    expansion_ratio : float or array [-]
        Absolute pressure before the turbine over that after it.
    heat_capacity_ratio : float or array [-]
        Of the exhaust, about 1.33.

    Returns
    -------
    float or array of the broadcast shape [-]
        Turbine efficiency; `nan` where the pressure did not fall.

    Raises
    ------
    OutOfRangeError
        If an argument is not above zero.

    Notes
    -----
    Heat lost counts as work here, so such readings flatter a turbine. Outside 0 to 1: a `RangeWarning`.

    Examples
    --------
    >>> round(efficiency(1000.0, 708.9, 5.2 / 1.03, 1.33), 3)
    0.88

    References
    ----------
    Heywood, section 6.8, eq. 6.48.
    """
    ideal = turbine_inlet_temperature * _ideal_drop(expansion_ratio, heat_capacity_ratio)
    efficiency = defined(ideal != 0, (turbine_inlet_temperature - turbine_outlet_temperature) / ideal)
    if np.any((efficiency < -1e-9) | (efficiency > 1 + 1e-9)):  # rounding is no fault
        warn_at_caller("the turbine efficiency from these readings is outside 0 to 1; heat is lost, or one is wrong.")
    return efficiency


@formula(
    result="specific_turbine_work",
    equation=r"w_\mathrm{t} = c_p \left(T_4 - T_5\right)",
    source="Heywood",
    conditions="perfect gas, no heat lost",
)
def specific_work(turbine_inlet_temperature, turbine_outlet_temperature, specific_heat):
    """Work that a kilogram of exhaust gives to the turbine.

    Parameters
    ----------
    turbine_inlet_temperature : float or array [K]
        Exhaust temperature before the turbine.
    turbine_outlet_temperature : float or array [K]
        Exhaust temperature after the turbine.
    specific_heat : float or array [J/(kg K)]
        Of the exhaust, at the mean of the two temperatures.

    Returns
    -------
    float or array of the broadcast shape [J/kg]
        Specific turbine work.

    Raises
    ------
    OutOfRangeError
        If an argument is not above zero.

    Notes
    -----
    Exhaust has about an eighth more specific heat than the air it was made from, so it cools less than the air warms.

    Examples
    --------
    >>> round(specific_work(1100.0, 835.2, 1148.0))
    303990

    References
    ----------
    Heywood, section 6.8, eq. 6.49; Saravanamuttoo, section 2.2.
    """
    return specific_heat * (turbine_inlet_temperature - turbine_outlet_temperature)


@formula(
    result="turbine_power",
    equation=r"P_\mathrm{t} = \dot m_\mathrm{exhaust} \, c_p \left(T_4 - T_5\right)",
    source="Heywood",
    conditions="perfect gas, no heat lost",
)
def power(exhaust_mass_flow, turbine_inlet_temperature, turbine_outlet_temperature, specific_heat):
    """Power that the exhaust gives to the turbine.

    Parameters
    ----------
    exhaust_mass_flow : float or array [kg/s]
        Exhaust through the turbine: air and fuel, without what a wastegate lets past.
    turbine_inlet_temperature : float or array [K]
        Exhaust temperature before the turbine.
    turbine_outlet_temperature : float or array [K]
        Exhaust temperature after the turbine.
    specific_heat : float or array [J/(kg K)]
        Of the exhaust, at the mean of the two temperatures.

    Returns
    -------
    float or array of the broadcast shape [W]
        Turbine power.

    Raises
    ------
    OutOfRangeError
        If a mass flow is below zero, or another argument not above zero.

    Notes
    -----
    The shaft's bearings take some per cent of it; the rest goes to the compressor.

    Examples
    --------
    >>> round(power(28.0, 1000.0, 709.0, 1147.0))
    9345756

    References
    ----------
    Heywood, section 6.8, eq. 6.49; Gorla, ch. 7.
    """
    return exhaust_mass_flow * specific_heat * (turbine_inlet_temperature - turbine_outlet_temperature)


@formula(
    result="compressor_power",
    equation=r"P_\mathrm{c} = \eta_\mathrm{shaft} P_\mathrm{t}",
    source="Heywood",
    conditions="steady speed",
)
def compressor_power(turbine_power, shaft_efficiency):
    """Power that reaches the compressor; when it is what the compressor takes, the shaft holds its speed.

    Parameters
    ----------
    turbine_power : float or array [W]
        Power that the exhaust gives to the turbine.
    shaft_efficiency : float or array [-]
        Share of it that the bearings leave, in (0, 1].

    Returns
    -------
    float or array of the broadcast shape [W]
        Compressor power.

    Raises
    ------
    OutOfRangeError
        If the efficiency is not in (0, 1].

    Notes
    -----
    More than the compressor takes, and the shaft speeds up until boost and air flow have grown to match.

    Examples
    --------
    >>> compressor_power(50_000.0, 0.96)
    48000.0

    References
    ----------
    Heywood, section 6.8, eq. 6.50.
    """
    return shaft_efficiency * turbine_power


@formula(
    result="expansion_ratio",
    equation=r"\pi_\mathrm{t} = \left(1 - \frac{w_\mathrm{t}}{\eta_\mathrm{t} c_p T_4}\right)^{\gamma/(1-\gamma)}",
    source="Heywood",
    conditions="perfect gas, no heat lost",
)
def expansion_ratio(
    turbine_inlet_temperature, specific_turbine_work, turbine_efficiency, specific_heat, heat_capacity_ratio
):
    """Expansion ratio that a turbine needs to give a wanted work.

    Parameters
    ----------
    turbine_inlet_temperature : float or array [K]
        Exhaust temperature before the turbine.
    specific_turbine_work : float or array [J/kg]
        Work wanted from a kilogram of exhaust: compressor power over shaft efficiency and exhaust mass flow.
    turbine_efficiency : float or array [-]
        Real temperature drop over the ideal one, above 0 and at most 1.
    specific_heat : float or array [J/(kg K)]
        Of the exhaust, about 1,150.
    heat_capacity_ratio : float or array [-]
        Of the exhaust, about 1.33.

    Returns
    -------
    float or array of the broadcast shape [-]
        Expansion ratio; `nan` where no pressure gives so much work.

    Raises
    ------
    OutOfRangeError
        If a temperature, a specific heat or a ratio is not above zero, or the efficiency not in (0, 1].

    Notes
    -----
    Times the pressure after the turbine it is the pressure the pistons push against.

    Examples
    --------
    >>> round(expansion_ratio(1100.0, 303_990.0, 0.87, 1148.0, 4 / 3), 3)
    3.654

    References
    ----------
    Heywood, section 6.8, eq. 6.48; Saravanamuttoo, section 2.2.
    """
    left = 1 - specific_turbine_work / (turbine_efficiency * specific_heat * turbine_inlet_temperature)
    return defined(left > 0, np.abs(left) ** (heat_capacity_ratio / (1 - heat_capacity_ratio)))


def _ideal_drop(ratio, gamma):
    """Ideal temperature drop over the inlet temperature; a ratio below 1 is warned of."""
    if np.any(ratio < 1):
        warn_at_caller("the expansion ratio is below 1; check which pressure is before the turbine.")
    return 1 - ratio ** ((1 - gamma) / gamma)
