"""Squeezing air: what a compressor does to its temperature, and what that says of the compressor.

Air is a perfect gas here: R = 287.05287 J/(kg K), heat-capacity ratio 7/5. A real compressor takes
in a little heat from the turbine side as well, so at light load its apparent efficiency reads low.
"""

import numpy as np

from turbomath.physics.compressor_work import power, specific_work
from turbomath.physics.polytropic import polytropic_efficiency
from turbomath.table.constants import AIR_HEAT_CAPACITY_RATIO
from turbomath.table.errors import warn_at_caller
from turbomath.table.formulas import defined, formula
from turbomath.table.kinds_of_value import Values

__all__ = [
    "ideal_outlet_temperature",
    "isentropic_efficiency",
    "outlet_pressure",
    "outlet_temperature",
    "polytropic_efficiency",
    "power",
    "pressure_ratio",
    "specific_work",
]
_EXPONENT = (AIR_HEAT_CAPACITY_RATIO - 1) / AIR_HEAT_CAPACITY_RATIO


@formula(
    result="pressure_ratio",
    equation=r"\pi = \frac{p_\mathrm{out}}{p_\mathrm{in}}",
    source="Heywood",
    conditions="both pressures absolute",
)
def pressure_ratio(inlet_pressure: Values, outlet_pressure: Values) -> Values:
    """Pressure ratio of a compressor: absolute outlet over absolute inlet pressure.

    Parameters
    ----------
    inlet_pressure : float or array [Pa]
        Absolute pressure at the compressor inlet, after the filter.
    outlet_pressure : float or array of the same shape [Pa]
        Absolute pressure at the compressor outlet.

    Returns
    -------
    float or array of the broadcast shape [-]
        Pressure ratio.

    Raises
    ------
    OutOfRangeError
        If a pressure is not above zero.

    Notes
    -----
    A boost gauge shows pressure above the barometer, so boost over barometer is not this ratio.

    Examples
    --------
    >>> round(pressure_ratio(95_557.0, 274_358.0), 4)
    2.8711

    References
    ----------
    Heywood, section 6.8.
    """
    return outlet_pressure / inlet_pressure


@formula(
    result="ideal_outlet_temperature",
    equation=r"T_{2s} = T_\mathrm{in} \left(\frac{p_\mathrm{out}}{p_\mathrm{in}}\right)^{(\gamma-1)/\gamma}",
    source="Heywood",
    conditions="perfect gas, no heat exchanged, no losses",
)
def ideal_outlet_temperature(inlet_pressure: Values, inlet_temperature: Values, outlet_pressure: Values) -> Values:
    """Outlet temperature of a compressor without losses.

    Parameters
    ----------
    inlet_pressure : float or array [Pa]
        Absolute pressure at the compressor inlet.
    inlet_temperature : float or array [K]
        Temperature at the compressor inlet.
    outlet_pressure : float or array [Pa]
        Absolute pressure at the compressor outlet.

    Returns
    -------
    float or array of the broadcast shape [K]
        Ideal (isentropic) outlet temperature.

    Raises
    ------
    OutOfRangeError
        If a pressure or temperature is not above zero.

    Notes
    -----
    A pressure ratio below 1 gives a `RangeWarning`: the machine is then no compressor.

    Examples
    --------
    >>> round(ideal_outlet_temperature(100_000.0, 298.15, 200_000.0), 2)
    363.45

    References
    ----------
    Heywood, section 6.8, eq. 6.39.
    """
    if np.any(outlet_pressure < inlet_pressure):
        warn_at_caller("the outlet pressure is below the inlet pressure; check gauge against absolute.")
    return inlet_temperature * (outlet_pressure / inlet_pressure) ** _EXPONENT


@formula(
    result="outlet_temperature",
    equation=r"T_\mathrm{out} = T_\mathrm{in} \left[1 + \frac{(p_\mathrm{out}/p_\mathrm{in})^{(\gamma-1)/\gamma}"
    r" - 1}{\eta}\right]",
    source="Heywood",
    conditions="perfect gas, no heat exchanged",
)
def outlet_temperature(
    inlet_pressure: Values, inlet_temperature: Values, outlet_pressure: Values, isentropic_efficiency: Values
) -> Values:
    """Outlet temperature of a real compressor.

    Parameters
    ----------
    inlet_pressure : float or array [Pa]
        Absolute pressure at the compressor inlet.
    inlet_temperature : float or array [K]
        Temperature at the compressor inlet.
    outlet_pressure : float or array [Pa]
        Absolute pressure at the compressor outlet.
    isentropic_efficiency : float or array [-]
        Ideal temperature rise over the real one, above 0 and at most 1.

    Returns
    -------
    float or array of the broadcast shape [K]
        Outlet temperature.

    Raises
    ------
    OutOfRangeError
        If a pressure or temperature is not above zero, or the efficiency not in (0, 1].

    Notes
    -----
    A pressure ratio below 1 gives a `RangeWarning`.

    Examples
    --------
    >>> round(outlet_temperature(95_557.0, 299.8167, 274_358.0, 0.74), 2)
    442.3

    References
    ----------
    Heywood, section 6.8, eqs. 6.39 and 6.40.
    """
    ideal = ideal_outlet_temperature(inlet_pressure, inlet_temperature, outlet_pressure)
    return inlet_temperature + (ideal - inlet_temperature) / isentropic_efficiency


@formula(
    result="isentropic_efficiency",
    equation=r"\eta = \frac{T_\mathrm{in} \left[(p_\mathrm{out}/p_\mathrm{in})^{(\gamma-1)/\gamma} - 1\right]}"
    r"{T_\mathrm{out} - T_\mathrm{in}}",
    source="Heywood",
    conditions="perfect gas, no heat exchanged",
)
def isentropic_efficiency(
    inlet_pressure: Values, inlet_temperature: Values, outlet_pressure: Values, outlet_temperature: Values
) -> Values:
    """Compressor efficiency from readings: ideal temperature rise over the real one.

    Parameters
    ----------
    inlet_pressure : float or array [Pa]
        Absolute pressure at the compressor inlet.
    inlet_temperature : float or array [K]
        Temperature at the compressor inlet.
    outlet_pressure : float or array [Pa]
        Absolute pressure at the compressor outlet.
    outlet_temperature : float or array [K]
        Temperature at the compressor outlet.

    Returns
    -------
    float or array of the broadcast shape [-]
        Isentropic efficiency; `nan` where the air did not warm at all.

    Raises
    ------
    OutOfRangeError
        If a pressure or temperature is not above zero.

    Notes
    -----
    Whatever a thermometer can show gives a number: outside 0..1 it comes with a `RangeWarning`,
    since such readings cannot all be right.

    Examples
    --------
    >>> round(isentropic_efficiency(95_557.0, 299.8167, 274_358.0, 442.25), 3)
    0.74

    References
    ----------
    Heywood, section 6.8, eqs. 6.39 and 6.40.
    """
    ideal = ideal_outlet_temperature(inlet_pressure, inlet_temperature, outlet_pressure)
    rise = outlet_temperature - inlet_temperature
    efficiency = defined(rise != 0, (ideal - inlet_temperature) / rise)
    if np.any((efficiency < -1e-9) | (efficiency > 1 + 1e-9)):  # rounding is no fault
        warn_at_caller("the efficiency from these readings is outside 0 to 1; a reading must be wrong.")
    return efficiency


@formula(
    result="outlet_pressure",
    equation=r"p_\mathrm{out} = p_\mathrm{in} \left[1 + \eta \left(\frac{T_\mathrm{out}}{T_\mathrm{in}}"
    r" - 1\right)\right]^{\gamma/(\gamma-1)}",
    source="Heywood",
    conditions="perfect gas, no heat exchanged",
)
def outlet_pressure(
    inlet_pressure: Values, inlet_temperature: Values, outlet_temperature: Values, isentropic_efficiency: Values
) -> Values:
    """Outlet pressure a compressor reaches by the time its air has warmed to a given temperature.

    Parameters
    ----------
    inlet_pressure : float or array [Pa]
        Absolute pressure at the compressor inlet.
    inlet_temperature : float or array [K]
        Temperature at the compressor inlet.
    outlet_temperature : float or array [K]
        Temperature at the compressor outlet.
    isentropic_efficiency : float or array [-]
        Ideal temperature rise over the real one, above 0 and at most 1.

    Returns
    -------
    float or array of the broadcast shape [Pa]
        Absolute outlet pressure; below the inlet pressure where the air leaves colder.

    Raises
    ------
    OutOfRangeError
        If a pressure or temperature is not above zero, or the efficiency not in (0, 1].

    Notes
    -----
    The greatest pressure that keeps the outlet below a temperature limit.

    Examples
    --------
    >>> round(outlet_pressure(100_000.0, 305.37, 477.59, 0.74))
    338967

    References
    ----------
    Heywood, section 6.8, eqs. 6.39 and 6.40.
    """
    ratio = 1 + isentropic_efficiency * (outlet_temperature / inlet_temperature - 1)
    return inlet_pressure * ratio ** (1 / _EXPONENT)
