"""Cooling the charge: what an aftercooler does to its temperature, and what that is worth.

Effectiveness is on the charge side: 1 would bring the charge to the temperature at which the cooling
medium enters. That medium is air for an air-to-air aftercooler, coolant for a water one.
"""

import numpy as np

from turbomath.table.constants import AIR_SPECIFIC_HEAT
from turbomath.table.errors import warn_at_caller
from turbomath.table.formulas import defined, formula
from turbomath.table.kinds_of_value import Values


@formula(
    result="outlet_temperature",
    equation=r"T_\mathrm{out} = T_\mathrm{in} - \varepsilon \left(T_\mathrm{in} - T_\mathrm{medium}\right)",
    source="KaysLondon",
    conditions="effectiveness on the charge side",
)
def outlet_temperature(inlet_temperature: Values, medium_temperature: Values, effectiveness: Values) -> Values:
    """Temperature at which the charge leaves an aftercooler.

    Parameters
    ----------
    inlet_temperature : float or array [K]
        Temperature of the charge where it enters.
    medium_temperature : float or array [K]
        Temperature of the cooling medium where it enters.
    effectiveness : float or array [-]
        Temperature drop over the greatest possible drop, 0 to 1.

    Returns
    -------
    float or array of the broadcast shape [K]
        Outlet temperature of the charge.

    Raises
    ------
    OutOfRangeError
        If a temperature is not above zero, or the effectiveness outside 0 to 1.

    Notes
    -----
    A medium hotter than the charge heats it: jacket water can at light load.

    Examples
    --------
    >>> round(outlet_temperature(438.71, 302.59, 0.80), 2)
    329.81

    References
    ----------
    KaysLondon, ch. 2.
    """
    return inlet_temperature - effectiveness * (inlet_temperature - medium_temperature)


@formula(
    result="effectiveness",
    equation=r"\varepsilon = \frac{T_\mathrm{in} - T_\mathrm{out}}{T_\mathrm{in} - T_\mathrm{medium}}",
    source="KaysLondon",
    conditions="effectiveness on the charge side",
)
def effectiveness(inlet_temperature: Values, outlet_temperature: Values, medium_temperature: Values) -> Values:
    """Aftercooler effectiveness from readings: temperature drop over the greatest possible drop.

    Parameters
    ----------
    inlet_temperature : float or array [K]
        Temperature of the charge where it enters.
    outlet_temperature : float or array [K]
        Temperature of the charge where it leaves.
    medium_temperature : float or array [K]
        Temperature of the cooling medium where it enters.

    Returns
    -------
    float or array of the broadcast shape [-]
        Effectiveness; `nan` where the charge enters as warm as the medium.

    Raises
    ------
    OutOfRangeError
        If a temperature is not above zero.

    Notes
    -----
    Outside 0 to 1 there is a `RangeWarning`, since such readings cannot all be right. The heat
    exchanger's own effectiveness is the same only while the charge has the smaller capacity rate.

    Examples
    --------
    >>> round(effectiveness(438.71, 327.59, 302.59), 3)
    0.816

    References
    ----------
    KaysLondon, ch. 2.
    """
    possible_drop = inlet_temperature - medium_temperature
    ratio = defined(possible_drop != 0, (inlet_temperature - outlet_temperature) / possible_drop)
    if np.any((ratio < -1e-9) | (ratio > 1 + 1e-9)):  # rounding is no fault
        warn_at_caller("the effectiveness from these readings is outside 0 to 1; a reading must be wrong.")
    return ratio


@formula(
    result="break_even_pressure_loss",
    equation=r"\Delta p_\mathrm{even} = p_\mathrm{in} \left(1 - \frac{T_\mathrm{out}}{T_\mathrm{in}}\right)",
    source="Heywood",
    conditions="perfect gas",
)
def break_even_pressure_loss(inlet_pressure: Values, inlet_temperature: Values, outlet_temperature: Values) -> Values:
    """Pressure loss that would undo the whole gain in density of an aftercooler.

    Parameters
    ----------
    inlet_pressure : float or array [Pa]
        Absolute pressure of the charge where it enters.
    inlet_temperature : float or array [K]
        Temperature of the charge where it enters.
    outlet_temperature : float or array [K]
        Temperature of the charge where it leaves.

    Returns
    -------
    float or array of the broadcast shape [Pa]
        Fall of pressure at which the charge leaves no denser than it came; negative where it is heated.

    Raises
    ------
    OutOfRangeError
        If a pressure or temperature is not above zero.

    Notes
    -----
    It follows from equal p/T before and after. An aftercooler that loses more makes the charge thinner.

    Examples
    --------
    >>> round(break_even_pressure_loss(260_946.0, 438.71, 327.59))
    66095

    References
    ----------
    Heywood, section 6.8.
    """
    return inlet_pressure * (1 - outlet_temperature / inlet_temperature)


@formula(
    result="specific_heat_rejected",
    equation=r"q = c_p \left(T_\mathrm{in} - T_\mathrm{out}\right)",
    source="Heywood",
    conditions="perfect gas, no water formed",
)
def specific_heat_rejected(inlet_temperature: Values, outlet_temperature: Values) -> Values:
    """Heat that a kilogram of charge gives to the aftercooler.

    Parameters
    ----------
    inlet_temperature : float or array [K]
        Temperature of the charge where it enters.
    outlet_temperature : float or array [K]
        Temperature of the charge where it leaves.

    Returns
    -------
    float or array of the broadcast shape [J/kg]
        Heat rejected; negative where the aftercooler heats the charge.

    Raises
    ------
    OutOfRangeError
        If a temperature is not above zero.

    Notes
    -----
    Perfect gas: about 0.6 % low for charge cooled from 440 to 320 K, whose specific heat rises with
    temperature.

    Examples
    --------
    >>> round(specific_heat_rejected(438.71, 327.59))
    111641

    References
    ----------
    Heywood, section 6.8.
    """
    return AIR_SPECIFIC_HEAT * (inlet_temperature - outlet_temperature)
