"""The aftercooler as a heat exchanger: its conductance (UA) from readings, and what it does at any two flows.

How effectiveness follows from size and arrangement is in `arrangements`, the exact crossflow series in `crossflow`,
and what other flows and dirt do to a core in `fouling_and_flow`.
"""

import numpy as np

from turbomath.physics.arrangements import (
    ARRANGEMENTS,
    charge_effectiveness,
    core_effectiveness,
    effectiveness,
    ntu,
)
from turbomath.physics.cooling import effectiveness as seen_effectiveness
from turbomath.physics.crossflow import approximate_effectiveness
from turbomath.physics.fouling_and_flow import conductance_at_flows, fouled_conductance, pressure_loss_at_flow
from turbomath.table.formulas import defined, formula
from turbomath.table.kinds_of_value import Values

__all__ = [
    "ARRANGEMENTS",
    "approximate_effectiveness",
    "capacity_rate",
    "charge_effectiveness",
    "conductance",
    "conductance_at_flows",
    "core_effectiveness",
    "effectiveness",
    "effectiveness_from_conductance",
    "fouled_conductance",
    "medium_capacity_rate",
    "ntu",
    "pressure_loss_at_flow",
]


@formula(
    result="charge_capacity_rate",
    equation=r"C_\mathrm{charge} = \dot m \, c_p",
    source="KaysLondon",
    conditions="specific heat at the mean temperature of the stream",
)
def capacity_rate(mass_flow: Values, specific_heat: Values) -> Values:
    """Capacity rate of a stream: the heat that warms it by one kelvin, each second.

    Parameters
    ----------
    mass_flow : float or array [kg/s]
        Mass flow of the stream.
    specific_heat : float or array [J/(kg K)]
        Specific heat: about 1,005 for air, 3,600 for half water and half glycol.

    Returns
    -------
    float or array of the broadcast shape [W/K]
        Capacity rate.

    Raises
    ------
    OutOfRangeError
        If a mass flow is below zero or a specific heat not above zero.

    Notes
    -----
    The stream with the smaller capacity rate changes its temperature more.

    Examples
    --------
    >>> round(capacity_rate(0.4632, 1004.7), 1)
    465.4

    References
    ----------
    KaysLondon, ch. 2.
    """
    return mass_flow * specific_heat


@formula(
    result="medium_capacity_rate",
    equation=r"C_\mathrm{medium} = C_\mathrm{charge} \, \frac{T_\mathrm{in} - T_\mathrm{out}}"
    r"{T_\mathrm{medium,out} - T_\mathrm{medium}}",
    source="KaysLondon",
    conditions="no heat lost to the surroundings",
)
def medium_capacity_rate(
    charge_capacity_rate: Values,
    inlet_temperature: Values,
    outlet_temperature: Values,
    medium_temperature: Values,
    cooling_medium_outlet_temperature: Values,
) -> Values:
    """Capacity rate of the cooling medium, from four thermometers and the flow of the charge.

    Parameters
    ----------
    charge_capacity_rate : float or array [W/K]
        Mass flow of the charge times its specific heat.
    inlet_temperature : float or array [K]
        Temperature of the charge where it enters.
    outlet_temperature : float or array [K]
        Temperature of the charge where it leaves.
    medium_temperature : float or array [K]
        Temperature of the cooling medium where it enters.
    cooling_medium_outlet_temperature : float or array [K]
        Temperature of the cooling medium where it leaves.

    Returns
    -------
    float or array of the broadcast shape [W/K]
        Capacity rate; `nan` where the two sides did not change in opposite ways.

    Raises
    ------
    OutOfRangeError
        If a capacity rate or a temperature is not above zero.

    Notes
    -----
    What the charge gives, the medium takes. A rise of a few kelvin needs good thermometers.

    Examples
    --------
    >>> round(medium_capacity_rate(465.0, 440.0, 329.0, 303.0, 343.0))
    1290

    References
    ----------
    KaysLondon, ch. 2.
    """
    ratio = (inlet_temperature - outlet_temperature) / (cooling_medium_outlet_temperature - medium_temperature)
    return defined((ratio > 0) & np.isfinite(ratio), charge_capacity_rate * ratio)


@formula(
    result="conductance",
    equation=r"UA = \mathrm{NTU}\left(\varepsilon, C_\mathrm{r}\right) \min\left(C_\mathrm{charge},"
    r" C_\mathrm{medium}\right), \quad \varepsilon \min\left(C_\mathrm{charge}, C_\mathrm{medium}\right) ="
    r" C_\mathrm{charge} \frac{T_\mathrm{in} - T_\mathrm{out}}{T_\mathrm{in} - T_\mathrm{medium}}",
    source="KaysLondon",
    conditions="steady, no heat lost to the surroundings",
    where={
        r"\mathrm{NTU}": "ntu",
        r"\varepsilon": "effectiveness",
        r"C_\mathrm{r}": "capacity_ratio",
    },
)
def conductance(
    inlet_temperature: Values,
    outlet_temperature: Values,
    medium_temperature: Values,
    charge_capacity_rate: Values,
    medium_capacity_rate: Values,
    arrangement: str,
) -> Values:
    """Conductance (UA) of an aftercooler from readings: what it can do, whatever the flows.

    Parameters
    ----------
    inlet_temperature : float or array [K]
        Temperature of the charge where it enters.
    outlet_temperature : float or array [K]
        Temperature of the charge where it leaves.
    medium_temperature : float or array [K]
        Temperature of the cooling medium where it enters.
    charge_capacity_rate : float or array [W/K]
        Mass flow of the charge times its specific heat.
    medium_capacity_rate : float or array [W/K]
        Mass flow of the cooling medium times its specific heat.
    arrangement : str
        One of the five that `effectiveness` lists.

    Returns
    -------
    float or array of the broadcast shape [W/K]
        Conductance; `nan` where no size of this arrangement gives these readings.

    Raises
    ------
    OutOfRangeError
        If a temperature or a capacity rate is not above zero, or the arrangement none of the five.

    Notes
    -----
    Readings that cannot all be right give a `RangeWarning`.

    Examples
    --------
    >>> round(conductance(440.0, 329.0, 303.0, 465.0, 1290.0, "crossflow, both unmixed"))
    1107

    References
    ----------
    KaysLondon, ch. 2; Incropera, ch. 11, example 11.3.
    """
    smaller, capacity_ratio = _smaller_and_ratio(charge_capacity_rate, medium_capacity_rate)
    seen = seen_effectiveness(inlet_temperature, outlet_temperature, medium_temperature)
    core = seen * charge_capacity_rate / smaller
    return smaller * ntu(defined((core >= 0) & (core <= 1), core), capacity_ratio, arrangement)


@formula(
    result="charge_effectiveness",
    equation=r"\varepsilon_\mathrm{charge} = \varepsilon\left(\mathrm{NTU}, C_\mathrm{r}\right) \,"
    r" \frac{\min\left(C_\mathrm{charge}, C_\mathrm{medium}\right)}{C_\mathrm{charge}}, \quad \mathrm{NTU} ="
    r" \frac{UA}{\min\left(C_\mathrm{charge}, C_\mathrm{medium}\right)}",
    source="KaysLondon",
    conditions="steady, no heat lost to the surroundings",
    where={
        r"\mathrm{NTU}": "ntu",
        r"\varepsilon": "effectiveness",
        r"C_\mathrm{r}": "capacity_ratio",
    },
)
def effectiveness_from_conductance(
    conductance: Values, charge_capacity_rate: Values, medium_capacity_rate: Values, arrangement: str
) -> Values:
    """Effectiveness on the charge side of an aftercooler of known conductance (UA).

    Parameters
    ----------
    conductance : float or array [W/K]
        Heat through the core for each kelvin between the two sides (UA).
    charge_capacity_rate : float or array [W/K]
        Mass flow of the charge times its specific heat.
    medium_capacity_rate : float or array [W/K]
        Mass flow of the cooling medium times its specific heat.
    arrangement : str
        One of the five that `effectiveness` lists.

    Returns
    -------
    float or array of the broadcast shape [-]
        Charge effectiveness.

    Raises
    ------
    OutOfRangeError
        If a conductance or a capacity rate is not above zero, or the arrangement none of the five.

    Notes
    -----
    More charge through the same core makes it less effective, less cooling air too.

    Examples
    --------
    >>> round(effectiveness_from_conductance(1107.0, 465.0, 1290.0, "crossflow, both unmixed"), 3)
    0.81

    References
    ----------
    KaysLondon, ch. 2.
    """
    smaller, capacity_ratio = _smaller_and_ratio(charge_capacity_rate, medium_capacity_rate)
    core = effectiveness(conductance / smaller, capacity_ratio, arrangement)
    return core * smaller / charge_capacity_rate


def _smaller_and_ratio(first, second):
    """Return the smaller of two capacity rates, and the smaller over the larger."""
    smaller = np.minimum(first, second)
    return smaller, smaller / np.maximum(first, second)
