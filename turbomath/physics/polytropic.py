"""Comparing compressors: an efficiency that does not depend on the pressure ratio.

Polytropic efficiency is that of each small step of the compression. It compares compressors at different pressure
ratios fairly: the same wheel shows a lower isentropic efficiency at a higher ratio.
"""

import numpy as np

from turbomath.table.constants import AIR_HEAT_CAPACITY_RATIO
from turbomath.table.errors import warn_at_caller
from turbomath.table.formulas import defined, formula
from turbomath.table.kinds_of_value import Values

_EXPONENT = (AIR_HEAT_CAPACITY_RATIO - 1) / AIR_HEAT_CAPACITY_RATIO


@formula(
    result="polytropic_efficiency",
    equation=r"\eta_\mathrm{p} = \frac{\gamma-1}{\gamma} \, \frac{\ln\left(p_\mathrm{out} / p_\mathrm{in}\right)}"
    r"{\ln\left(T_\mathrm{out} / T_\mathrm{in}\right)}",
    source="Saravanamuttoo",
    conditions="perfect gas, no heat exchanged",
)
def polytropic_efficiency(
    inlet_pressure: Values, inlet_temperature: Values, outlet_pressure: Values, outlet_temperature: Values
) -> Values:
    """Polytropic efficiency of a compressor from readings.

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
        Polytropic efficiency; `nan` where the air did not warm at all.

    Raises
    ------
    OutOfRangeError
        If a pressure or temperature is not above zero.

    Notes
    -----
    Outside 0 to 1 there is a `RangeWarning`, since such readings cannot all be right.

    Examples
    --------
    >>> round(polytropic_efficiency(95_557.0, 299.8167, 274_358.0, 442.3), 3)
    0.775

    References
    ----------
    Saravanamuttoo, section 2.3.
    """
    warmed = np.log(outlet_temperature / inlet_temperature)
    efficiency = defined(warmed != 0, _EXPONENT * np.log(outlet_pressure / inlet_pressure) / warmed)
    if np.any((efficiency < -1e-9) | (efficiency > 1 + 1e-9)):  # rounding is no fault
        warn_at_caller("the polytropic efficiency from these readings is outside 0 to 1; a reading must be wrong.")
    return efficiency


@formula(
    result="isentropic_efficiency",
    equation=r"\eta = \frac{\pi^{(\gamma-1)/\gamma} - 1}{\pi^{(\gamma-1)/(\gamma \eta_\mathrm{p})} - 1}",
    source="Saravanamuttoo",
    conditions="perfect gas, no heat exchanged",
)
def isentropic_efficiency(pressure_ratio: Values, polytropic_efficiency: Values) -> Values:
    """Isentropic efficiency that a compressor of given polytropic efficiency shows at a pressure ratio.

    Parameters
    ----------
    pressure_ratio : float or array [-]
        Outlet over inlet absolute pressure.
    polytropic_efficiency : float or array [-]
        Efficiency of each small step, above 0 and at most 1.

    Returns
    -------
    float or array of the broadcast shape [-]
        Isentropic efficiency; the polytropic one itself at a pressure ratio of 1.

    Raises
    ------
    OutOfRangeError
        If a pressure ratio is not above zero, or an efficiency not in (0, 1].

    Notes
    -----
    Air that each step leaves too hot makes the next step harder, so it lies below the polytropic one.

    Examples
    --------
    >>> round(isentropic_efficiency(4.0, 0.85), 3)
    0.819

    References
    ----------
    Saravanamuttoo, section 2.3.
    """
    ideal = _EXPONENT * np.log(pressure_ratio)
    return np.where(ideal == 0, polytropic_efficiency, np.expm1(ideal) / np.expm1(ideal / polytropic_efficiency))


@formula(
    result="outlet_temperature",
    equation=r"T_\mathrm{out} = T_\mathrm{in} \left(\frac{p_\mathrm{out}}{p_\mathrm{in}}\right)"
    r"^{(\gamma-1)/(\gamma \eta_\mathrm{p})}",
    source="Saravanamuttoo",
    conditions="perfect gas, no heat exchanged",
)
def outlet_temperature(
    inlet_pressure: Values, inlet_temperature: Values, outlet_pressure: Values, polytropic_efficiency: Values
) -> Values:
    """Outlet temperature of a compressor of given polytropic efficiency.

    Parameters
    ----------
    inlet_pressure : float or array [Pa]
        Absolute pressure at the compressor inlet.
    inlet_temperature : float or array [K]
        Temperature at the compressor inlet.
    outlet_pressure : float or array [Pa]
        Absolute pressure at the compressor outlet.
    polytropic_efficiency : float or array [-]
        Efficiency of each small step, above 0 and at most 1.

    Returns
    -------
    float or array of the broadcast shape [K]
        Outlet temperature.

    Raises
    ------
    OutOfRangeError
        If a pressure or temperature is not above zero, or an efficiency not in (0, 1].

    Notes
    -----
    Two compressors in a row, each of this efficiency, give what one gives over the whole pressure ratio.

    Examples
    --------
    >>> round(outlet_temperature(1e5, 288.0, 4e5, 0.85), 1)
    459.0

    References
    ----------
    Saravanamuttoo, section 2.3.
    """
    if np.any(outlet_pressure < inlet_pressure):
        warn_at_caller("the outlet pressure is below the inlet pressure; check gauge against absolute.")
    return inlet_temperature * (outlet_pressure / inlet_pressure) ** (_EXPONENT / polytropic_efficiency)
