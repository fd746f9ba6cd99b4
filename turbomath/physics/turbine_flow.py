"""Flow through a turbine: how much exhaust it lets through, by the ratio of the pressures before and after it.

The flow is written as a pure number, mass flow x sqrt(R T) over (area x pressure before the turbine), so that the laws
hold for any size of turbine.
"""

import numpy as np

from turbomath.table.formulas import formula
from turbomath.table.kinds_of_value import Values


@formula(
    result="critical_expansion_ratio",
    equation=r"\pi_\mathrm{crit} = \left(\frac{2}{\gamma+1}\right)^{\gamma/(1-\gamma)}",
    source="Heywood",
    conditions="perfect gas, no losses",
)
def critical_expansion_ratio(heat_capacity_ratio: Values) -> Values:
    """Expansion ratio at which the gas reaches the speed of sound in a nozzle; more lets no more through.

    Parameters
    ----------
    heat_capacity_ratio : float or array [-]
        Of the gas: 7/5 for air, about 1.33 for exhaust.

    Returns
    -------
    float or array of the broadcast shape [-]
        Critical expansion ratio.

    Raises
    ------
    OutOfRangeError
        If the ratio is not above zero.

    Notes
    -----
    A diesel engine's turbine at full load works near it.

    Examples
    --------
    >>> round(critical_expansion_ratio(1.4), 4)
    1.8929

    References
    ----------
    Heywood, app. C, eq. C.9 of section C.4.
    """
    return ((heat_capacity_ratio + 1) / 2) ** (heat_capacity_ratio / (heat_capacity_ratio - 1))


@formula(
    result="flow_parameter",
    equation=r"\Phi = \sqrt{\frac{2 \gamma}{\gamma - 1} \left(\pi^{-2/\gamma} - \pi^{-(\gamma+1)/\gamma}\right)},"
    r" \quad \pi = \min\left(\pi_\mathrm{t}, \pi_\mathrm{crit}\right)",
    source="Heywood",
    conditions="perfect gas, no losses; choked above the critical ratio",
    where={
        r"\pi": "expansion ratio that counts: beyond the critical one no more gas comes through",
        r"\pi_\mathrm{crit}": "critical_expansion_ratio",
    },
)
def nozzle_flow_parameter(expansion_ratio: Values, heat_capacity_ratio: Values) -> Values:
    """Flow through a nozzle as a pure number, choked or not.

    Parameters
    ----------
    expansion_ratio : float or array [-]
        Absolute pressure before the nozzle over that after it.
    heat_capacity_ratio : float or array [-]
        Of the gas: 7/5 for air, about 1.33 for exhaust.

    Returns
    -------
    float or array of the broadcast shape [-]
        Flow parameter; 0 at a ratio of 1, and `nan` below it, where the gas would run backwards.

    Raises
    ------
    OutOfRangeError
        If an argument is not above zero.

    Notes
    -----
    Mass flow = flow parameter x area x pressure before the nozzle / sqrt(R T).

    Examples
    --------
    >>> round(nozzle_flow_parameter(2.5, 1.4), 4)
    0.6847

    References
    ----------
    Heywood, app. C, eqs. C.8 and C.9 of section C.4.
    """
    gamma = heat_capacity_ratio
    ratio = np.minimum(expansion_ratio, ((gamma + 1) / 2) ** (gamma / (gamma - 1)))
    return np.sqrt(2 * gamma / (gamma - 1) * (ratio ** (-2 / gamma) - ratio ** (-(gamma + 1) / gamma)))


@formula(
    result="flow_parameter",
    equation=r"\Phi = \Phi_\mathrm{nozzle}\left(\pi_\mathrm{fit}, \gamma\right) \sqrt{\frac{1 - \pi_\mathrm{t}^{-2}}"
    r"{1 - \pi_\mathrm{fit}^{-2}}}",
    source="Stodola",
    conditions="one ellipse for the whole turbine, made to agree with a nozzle at one expansion ratio",
    where={
        r"\Phi_\mathrm{nozzle}": "flow parameter of a nozzle",
    },
)
def ellipse_flow_parameter(
    expansion_ratio: Values, fitted_expansion_ratio: Values, heat_capacity_ratio: Values
) -> Values:
    """Flow through a turbine as a pure number, by the ellipse law.

    Parameters
    ----------
    expansion_ratio : float or array [-]
        Absolute pressure before the turbine over that after it.
    fitted_expansion_ratio : float or array [-]
        Expansion ratio at which the ellipse agrees with the nozzle.
    heat_capacity_ratio : float or array [-]
        Of the gas: about 1.33 for exhaust.

    Returns
    -------
    float or array of the broadcast shape [-]
        Flow parameter; 0 at a ratio of 1, and `nan` below it.

    Raises
    ------
    OutOfRangeError
        If an argument is not above zero.

    Notes
    -----
    Solved for the pressure before the turbine it needs no iteration, and like a turbine with several rows of blades it
    never quite chokes. Fitted at 2.3 (heat-capacity ratio 1.34), a nozzle passes 4 % more at 2.0, 11 % more at 1.7,
    30 % more at 1.1, and 4.5 % less at 3.0: boost at light load is what this law knows least.

    Examples
    --------
    >>> round(ellipse_flow_parameter(1.7, 2.3, 1.34), 4)
    0.6056

    References
    ----------
    Stodola, section on the changed working conditions of turbines.
    """
    fitted = nozzle_flow_parameter(fitted_expansion_ratio, heat_capacity_ratio)
    return fitted * np.sqrt((1 - expansion_ratio**-2.0) / (1 - fitted_expansion_ratio**-2.0))
