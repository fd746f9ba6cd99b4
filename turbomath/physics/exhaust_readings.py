"""What the gauges before and after the turbine say by themselves: a ratio of pressures and a drop of temperature."""

from turbomath.table.formulas import formula
from turbomath.table.kinds_of_value import Values


@formula(
    result="expansion_ratio",
    equation=r"\pi_\mathrm{t} = \frac{p_4}{p_5}",
    source="Heywood",
    conditions="both pressures absolute",
)
def expansion_ratio(turbine_inlet_pressure: Values, turbine_outlet_pressure: Values) -> Values:
    """Expansion ratio from the pressures on both sides of the turbine.

    Parameters
    ----------
    turbine_inlet_pressure : float or array [Pa]
        Absolute exhaust pressure before the turbine.
    turbine_outlet_pressure : float or array [Pa]
        Absolute exhaust pressure after the turbine: barometer and exhaust back pressure.

    Returns
    -------
    float or array of the broadcast shape [-]
        Expansion ratio.

    Raises
    ------
    OutOfRangeError
        If a pressure is not above zero.

    Notes
    -----
    Two gauge pressures give a far greater ratio, and a wrong one.

    Examples
    --------
    >>> round(expansion_ratio(1.8e5, 1.05e5), 3)
    1.714

    References
    ----------
    Heywood, section 6.8.
    """
    return turbine_inlet_pressure / turbine_outlet_pressure


@formula(
    result="turbine_temperature_drop",
    equation=r"\Delta T_\mathrm{t} = T_4 - T_5",
    source="Heywood",
    conditions="both thermometers in the whole stream",
)
def temperature_drop(turbine_inlet_temperature: Values, turbine_outlet_temperature: Values) -> Values:
    """How much the exhaust cools in the turbine.

    Parameters
    ----------
    turbine_inlet_temperature : float or array [K]
        Exhaust temperature before the turbine.
    turbine_outlet_temperature : float or array [K]
        Exhaust temperature after the turbine.

    Returns
    -------
    float or array of the broadcast shape [K]
        Temperature drop in the turbine.

    Raises
    ------
    OutOfRangeError
        If a temperature is not above zero.

    Notes
    -----
    It is a difference: 180 F° are 100 C°, not 82 °C.

    Examples
    --------
    >>> round(temperature_drop(873.0, 785.5), 1)
    87.5

    References
    ----------
    Heywood, section 6.8.
    """
    return turbine_inlet_temperature - turbine_outlet_temperature
