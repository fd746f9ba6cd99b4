"""The shaft between turbine and compressor: whether what one gives is what the other takes, and what follows from it.

What gives the power is in `turbine_work`, what takes it in `compressor_work`.
"""

from turbomath.table.constants import AIR_SPECIFIC_HEAT
from turbomath.table.formulas import defined, formula
from turbomath.table.kinds_of_value import Values


@formula(
    result="shaft_power_ratio",
    equation=r"r_\mathrm{shaft} = \frac{P_\mathrm{c}}{P_\mathrm{t}}",
    source="Heywood",
    conditions="steady speed",
)
def power_ratio(compressor_power: Values, turbine_power: Values) -> Values:
    """Power that the compressor takes over power that the exhaust gives up in the turbine, from readings at both ends.

    Parameters
    ----------
    compressor_power : float or array [W]
        Power that the compressor puts into its air.
    turbine_power : float or array [W]
        Power that the exhaust gives to the turbine.

    Returns
    -------
    float or array of the broadcast shape [-]
        Shaft power ratio; `nan` where the exhaust gives nothing.

    Raises
    ------
    OutOfRangeError
        For text and infinity.

    Notes
    -----
    From 0.9 to 1 at load (common practice): bearings take a few per cent, and heat that leaves through the turbine's
    housing looks like power. Above 1 a reading is wrong.

    Examples
    --------
    >>> round(power_ratio(98.7, 106.1), 2)
    0.93

    References
    ----------
    Heywood, section 6.8, eq. 6.50.
    """
    return defined(turbine_power > 0, compressor_power / turbine_power)


@formula(
    result="turbocharger_efficiency",
    equation=r"\eta_\mathrm{TC} = \eta_\mathrm{c} \, \eta_\mathrm{t} \, r_\mathrm{shaft}",
    source="Stone",
    conditions="compressor and turbine on one shaft",
)
def turbocharger_efficiency(
    compressor_efficiency: Values, turbine_efficiency: Values, shaft_power_ratio: Values
) -> Values:
    """Overall efficiency of a turbocharger: power of an ideal compressor over power of an ideal turbine.

    Parameters
    ----------
    compressor_efficiency : float or array [-]
        Ideal temperature rise over the real one.
    turbine_efficiency : float or array [-]
        Real temperature drop in the turbine over the ideal one.
    shaft_power_ratio : float or array [-]
        Power the compressor takes over power the exhaust gives up.

    Returns
    -------
    float or array of the broadcast shape [-]
        Turbocharger efficiency.

    Raises
    ------
    OutOfRangeError
        If an efficiency is not in (0, 1] or the ratio not above zero.

    Notes
    -----
    It needs neither of the two outlet temperatures: they stand in it once above and once below the line. So heat that
    passes through the housings does not touch it.

    Examples
    --------
    >>> round(turbocharger_efficiency(0.70, 0.80, 0.93), 3)
    0.521

    References
    ----------
    Stone, ch. 9.
    """
    return compressor_efficiency * turbine_efficiency * shaft_power_ratio


@formula(
    result="compressor_outlet_temperature_by_shaft",
    equation=r"T_{2,\mathrm{shaft}} = T_\mathrm{in} + \frac{\eta_\mathrm{shaft} \, P_\mathrm{t}}{\dot m \, c_p}",
    source="Heywood",
    conditions="perfect gas, no heat exchanged, steady speed",
)
def compressor_outlet_temperature(
    inlet_temperature: Values, mass_flow: Values, turbine_power: Values, shaft_efficiency: Values
) -> Values:
    """Outlet temperature of the compressor where no thermometer stands, from what the turbine gives.

    Parameters
    ----------
    inlet_temperature : float or array [K]
        Temperature at the compressor inlet.
    mass_flow : float or array [kg/s]
        Air through the compressor.
    turbine_power : float or array [W]
        Power that the exhaust gives to the turbine.
    shaft_efficiency : float or array [-]
        Share of it that reaches the compressor, in (0, 1].

    Returns
    -------
    float or array of the broadcast shape [K]
        Compressor outlet temperature by the shaft; `nan` without air.

    Raises
    ------
    OutOfRangeError
        If the temperature is not above zero, a mass flow is below zero, or the efficiency not in (0, 1].

    Notes
    -----
    Heat that the turbine's housing loses cools the exhaust too, so with a shaft efficiency of 1 this is an upper bound.

    Examples
    --------
    >>> round(compressor_outlet_temperature(343.15, 0.018, 1063.0, 0.95), 1)
    399.0

    References
    ----------
    Heywood, section 6.8, eqs. 6.42 and 6.50; Cengel, ch. 7.
    """
    capacity = mass_flow * AIR_SPECIFIC_HEAT
    return defined(capacity > 0, inlet_temperature + shaft_efficiency * turbine_power / capacity)
