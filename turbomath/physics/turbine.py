"""The exhaust turbine: how far the gas cools, and from how much pressure. What that gives is in `turbine_work`.

A perfect gas with the specific heat and heat-capacity ratio of the exhaust (at load about 1,150 J/(kg K) and 1.33). How
much of it gets through the turbine is in `turbine_flow`.
"""

import numpy as np

from turbomath.physics.turbine_flow import critical_expansion_ratio, ellipse_flow_parameter, nozzle_flow_parameter
from turbomath.physics.turbine_work import compressor_power, power, specific_work
from turbomath.table.errors import warn_at_caller
from turbomath.table.formulas import defined, formula
from turbomath.table.kinds_of_value import Values

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
def outlet_temperature(
    turbine_inlet_temperature: Values, expansion_ratio: Values, turbine_efficiency: Values, heat_capacity_ratio: Values
) -> Values:
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
def efficiency(
    turbine_inlet_temperature: Values,
    turbine_outlet_temperature: Values,
    expansion_ratio: Values,
    heat_capacity_ratio: Values,
) -> Values:
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
    result="expansion_ratio",
    equation=r"\pi_\mathrm{t} = \left(1 - \frac{w_\mathrm{t}}{\eta_\mathrm{t} c_p T_4}\right)^{\gamma/(1-\gamma)}",
    source="Heywood",
    conditions="perfect gas, no heat lost",
)
def expansion_ratio(
    turbine_inlet_temperature: Values,
    specific_turbine_work: Values,
    turbine_efficiency: Values,
    specific_heat: Values,
    heat_capacity_ratio: Values,
) -> Values:
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
