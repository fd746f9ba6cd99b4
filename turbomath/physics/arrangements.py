"""How the two flows run: effectiveness of a heat exchanger by its size and arrangement, and the way back.

Effectiveness is that of the side with the smaller capacity rate (mass flow times specific heat).
"""

import numpy as np

from turbomath.physics.crossflow import effectiveness as unmixed_effectiveness
from turbomath.physics.crossflow import ntu as unmixed_ntu
from turbomath.table.errors import warn_at_caller
from turbomath.table.formulas import choice, defined, formula
from turbomath.table.kinds_of_value import Values

_SMALL = 1e-300  # stands for a capacity ratio of nought, so that nothing is divided by 0


def _counterflow(N, C):
    cooled = -np.expm1(-N * (1 - C))
    return np.where(C == 1, N / (1 + N), cooled / (1 - C + C * cooled))


def _counterflow_ntu(e, C):
    gap, ratio = 1 - C, e / (1 - e)
    return np.where(gap == 0, ratio, np.log1p(gap * ratio) / gap)


_EFFECTIVENESS = {
    "counterflow": _counterflow,
    "parallel flow": lambda N, C: -np.expm1(-N * (1 + C)) / (1 + C),
    "crossflow, both unmixed": unmixed_effectiveness,
    "crossflow, Cmin mixed": lambda N, C: -np.expm1(np.expm1(-N * C) / C),
    "crossflow, Cmax mixed": lambda N, C: -np.expm1(C * np.expm1(-N)) / C,
}
_NTU = {
    "counterflow": _counterflow_ntu,
    "parallel flow": lambda e, C: -np.log1p(-e * (1 + C)) / (1 + C),
    "crossflow, both unmixed": unmixed_ntu,
    "crossflow, Cmin mixed": lambda e, C: -np.log1p(C * np.log1p(-e)) / C,
    "crossflow, Cmax mixed": lambda e, C: -np.log1p(np.log1p(-C * e) / C),
}
ARRANGEMENTS = tuple(_EFFECTIVENESS)


@formula(
    result="effectiveness",
    equation=r"\varepsilon = \frac{1 - e^{-\mathrm{NTU} (1 - C_\mathrm{r})}}"
    r"{1 - C_\mathrm{r} e^{-\mathrm{NTU} (1 - C_\mathrm{r})}}",
    source="KaysLondon",
    conditions="shown for counterflow; steady, no heat lost to the surroundings",
)
def effectiveness(ntu: Values, capacity_ratio: Values, arrangement: str) -> Values:
    """Effectiveness of a heat exchanger, on the side with the smaller capacity rate.

    Parameters
    ----------
    ntu : float or array [-]
        Number of transfer units: conductance over the smaller capacity rate.
    capacity_ratio : float or array [-]
        Smaller capacity rate over the larger, 0 to 1.
    arrangement : str
        "counterflow", "parallel flow", "crossflow, both unmixed", "crossflow, Cmin mixed" or
        "crossflow, Cmax mixed".

    Returns
    -------
    float or array of the broadcast shape [-]
        Effectiveness.

    Raises
    ------
    OutOfRangeError
        If a number of transfer units is below zero, a capacity ratio outside 0 to 1, or the
        arrangement none of the five.

    Notes
    -----
    Parallel flow: (1 - exp(-NTU (1 + C))) / (1 + C). Cmin mixed: 1 - exp(-(1 - exp(-NTU C)) / C). Cmax
    mixed: (1 - exp(-C (1 - exp(-NTU)))) / C. Both unmixed: the exact series of `crossflow.effectiveness`.

    Examples
    --------
    >>> round(effectiveness(2.0, 0.5, "counterflow"), 4)
    0.7746

    References
    ----------
    KaysLondon, ch. 2, table 2-2; Incropera, ch. 11, table 11.3.
    """
    relation = choice("arrangement", arrangement, _EFFECTIVENESS)
    return relation(ntu, np.maximum(capacity_ratio, _SMALL))


@formula(
    result="ntu",
    equation=r"\mathrm{NTU} = \frac{1}{1 - C_\mathrm{r}} \ln\left(\frac{1 - \varepsilon C_\mathrm{r}}"
    r"{1 - \varepsilon}\right)",
    source="KaysLondon",
    conditions="shown for counterflow; steady, no heat lost to the surroundings",
)
def ntu(effectiveness: Values, capacity_ratio: Values, arrangement: str) -> Values:
    """Number of transfer units that an effectiveness takes.

    Parameters
    ----------
    effectiveness : float or array [-]
        Effectiveness on the side with the smaller capacity rate, 0 to 1.
    capacity_ratio : float or array [-]
        Smaller capacity rate over the larger, 0 to 1.
    arrangement : str
        One of the five that `effectiveness` lists.

    Returns
    -------
    float or array of the broadcast shape [-]
        Number of transfer units; `nan` where no size of this arrangement reaches the effectiveness.

    Raises
    ------
    OutOfRangeError
        If an effectiveness or a capacity ratio is outside 0 to 1, or the arrangement none of the five.

    Notes
    -----
    Parallel flow never passes 1/(1 + C), Cmin mixed 1 - exp(-1/C), Cmax mixed (1 - exp(-C))/C. What lies
    beyond gives a `RangeWarning`.

    Examples
    --------
    >>> round(ntu(0.9, 1.0, "counterflow"), 4)
    9.0

    References
    ----------
    KaysLondon, ch. 2, table 2-2; Incropera, ch. 11, table 11.4.
    """
    found = choice("arrangement", arrangement, _NTU)(effectiveness, np.maximum(capacity_ratio, _SMALL))
    reached = defined(np.isfinite(found), found)
    if arrangement != "crossflow, both unmixed" and np.any(
        np.isnan(reached) & ~np.isnan(effectiveness + capacity_ratio)
    ):
        warn_at_caller("no heat exchanger of this arrangement is so effective, whatever its size.")
    return reached


@formula(
    result="charge_effectiveness",
    equation=r"\varepsilon_\mathrm{charge} = \varepsilon \,"
    r" \frac{\min\left(C_\mathrm{charge}, C_\mathrm{medium}\right)}{C_\mathrm{charge}}",
    source="KaysLondon",
    conditions="steady, no heat lost to the surroundings",
)
def charge_effectiveness(effectiveness: Values, charge_capacity_rate: Values, medium_capacity_rate: Values) -> Values:
    """Effectiveness on the charge side: the shop's (T2 - T3)/(T2 - Tm).

    Parameters
    ----------
    effectiveness : float or array [-]
        Effectiveness on the side with the smaller capacity rate, 0 to 1.
    charge_capacity_rate : float or array [W/K]
        Mass flow of the charge times its specific heat.
    medium_capacity_rate : float or array [W/K]
        Mass flow of the cooling medium times its specific heat.

    Returns
    -------
    float or array of the broadcast shape [-]
        Charge effectiveness.

    Raises
    ------
    OutOfRangeError
        If an effectiveness is outside 0 to 1, or a capacity rate not above zero.

    Notes
    -----
    The two are the same only while the charge has the smaller capacity rate. With the fan off the cooling
    air has it: however large the core, the charge then keeps a part of its heat.

    Examples
    --------
    >>> charge_effectiveness(0.8, 400.0, 300.0)
    0.6

    References
    ----------
    KaysLondon, ch. 2.
    """
    return effectiveness * np.minimum(charge_capacity_rate, medium_capacity_rate) / charge_capacity_rate


@formula(
    result="effectiveness",
    equation=r"\varepsilon = \varepsilon_\mathrm{charge} \, \frac{C_\mathrm{charge}}"
    r"{\min\left(C_\mathrm{charge}, C_\mathrm{medium}\right)}",
    source="KaysLondon",
    conditions="steady, no heat lost to the surroundings",
)
def core_effectiveness(
    charge_effectiveness: Values, charge_capacity_rate: Values, medium_capacity_rate: Values
) -> Values:
    """Effectiveness on the side with the smaller capacity rate, from that of the charge.

    Parameters
    ----------
    charge_effectiveness : float or array [-]
        The shop's (T2 - T3)/(T2 - Tm), 0 to 1.
    charge_capacity_rate : float or array [W/K]
        Mass flow of the charge times its specific heat.
    medium_capacity_rate : float or array [W/K]
        Mass flow of the cooling medium times its specific heat.

    Returns
    -------
    float or array of the broadcast shape [-]
        Effectiveness; above 1 where the medium could not carry so much heat away.

    Raises
    ------
    OutOfRangeError
        If a charge effectiveness is outside 0 to 1, or a capacity rate not above zero.

    Notes
    -----
    Above 1 there is a `RangeWarning`: a temperature or a flow was read wrong.

    Examples
    --------
    >>> round(core_effectiveness(0.6, 400.0, 300.0), 3)
    0.8

    References
    ----------
    KaysLondon, ch. 2.
    """
    ratio = charge_effectiveness * charge_capacity_rate / np.minimum(charge_capacity_rate, medium_capacity_rate)
    if np.any(ratio > 1 + 1e-9):  # rounding is no fault
        warn_at_caller("the cooling medium could not carry so much heat away; a reading must be wrong.")
    return ratio
