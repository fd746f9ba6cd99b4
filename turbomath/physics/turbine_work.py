"""What a turbine gives: work from each kilogram of exhaust, power, and what of it the shaft brings to the compressor.

A perfect gas with the specific heat of the exhaust, as in `turbine`.
"""

from turbomath.table.formulas import formula
from turbomath.table.kinds_of_value import Values


@formula(
    result="specific_turbine_work",
    equation=r"w_\mathrm{t} = c_p \left(T_4 - T_5\right)",
    source="Heywood",
    conditions="perfect gas, no heat lost",
)
def specific_work(
    turbine_inlet_temperature: Values, turbine_outlet_temperature: Values, specific_heat: Values
) -> Values:
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
def power(
    exhaust_mass_flow: Values,
    turbine_inlet_temperature: Values,
    turbine_outlet_temperature: Values,
    specific_heat: Values,
) -> Values:
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
def compressor_power(turbine_power: Values, shaft_efficiency: Values) -> Values:
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
