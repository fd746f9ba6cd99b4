"""What a compressor takes: the work for each kilogram of air, and power.

Air is a perfect gas here, as in `compression`.
"""

from turbomath.table.constants import AIR_SPECIFIC_HEAT
from turbomath.table.formulas import formula
from turbomath.table.kinds_of_value import Values


@formula(
    result="specific_compressor_work",
    equation=r"w_\mathrm{c} = c_p \left(T_\mathrm{out} - T_\mathrm{in}\right)",
    source="Heywood",
    conditions="perfect gas, no heat exchanged",
)
def specific_work(inlet_temperature: Values, outlet_temperature: Values) -> Values:
    """Work to compress a kilogram of air.

    Parameters
    ----------
    inlet_temperature : float or array [K]
        Temperature at the compressor inlet.
    outlet_temperature : float or array [K]
        Temperature at the compressor outlet.

    Returns
    -------
    float or array of the broadcast shape [J/kg]
        Specific compressor work.

    Raises
    ------
    OutOfRangeError
        If a temperature is not above zero.

    Notes
    -----
    The turbine pays for it, and the shaft's friction besides.

    Examples
    --------
    >>> round(specific_work(299.8167, 442.25))
    143101

    References
    ----------
    Heywood, section 6.8, eq. 6.42.
    """
    return AIR_SPECIFIC_HEAT * (outlet_temperature - inlet_temperature)


@formula(
    result="compressor_power",
    equation=r"P_\mathrm{c} = \dot m \, c_p \left(T_\mathrm{out} - T_\mathrm{in}\right)",
    source="Heywood",
    conditions="perfect gas, no heat exchanged",
)
def power(mass_flow: Values, inlet_temperature: Values, outlet_temperature: Values) -> Values:
    """Power that a compressor puts into its air.

    Parameters
    ----------
    mass_flow : float or array [kg/s]
        Air through the compressor.
    inlet_temperature : float or array [K]
        Temperature at the compressor inlet.
    outlet_temperature : float or array [K]
        Temperature at the compressor outlet.

    Returns
    -------
    float or array of the broadcast shape [W]
        Compressor power.

    Raises
    ------
    OutOfRangeError
        If a mass flow is below zero or a temperature not above zero.

    Notes
    -----
    The turbine gives a few per cent more, for the bearings.

    Examples
    --------
    >>> round(power(0.4536, 302.59, 438.71))
    62033

    References
    ----------
    Heywood, section 6.8, eq. 6.42.
    """
    return mass_flow * AIR_SPECIFIC_HEAT * (outlet_temperature - inlet_temperature)
