"""The wheel of a turbocharger: how fast its rim must run for its work, how fast the shaft turns, what the rotor stores.

A compressor's rim speed follows from the work that a kilogram of air takes, whatever the size of the wheel.
"""

import numpy as np

from turbomath.table.formulas import formula
from turbomath.table.kinds_of_value import Values


@formula(
    result="tip_speed",
    equation=r"u_2 = \sqrt{\frac{k_\mathrm{u} \, w_\mathrm{c}}{\psi}}",
    source="Saravanamuttoo",
    conditions="air enters without whirl",
)
def tip_speed(specific_compressor_work: Values, work_coefficient: Values) -> Values:
    """Speed of the rim of a compressor wheel, from the work that it puts into a kilogram of air.

    Parameters
    ----------
    specific_compressor_work : float or array [J/kg]
        Work that a kilogram of air takes.
    work_coefficient : float or array [-]
        That work over the square of the rim's speed.

    Returns
    -------
    float or array of the broadcast shape [m/s]
        Tip speed; 0 where the air takes no work.

    Raises
    ------
    OutOfRangeError
        If the coefficient is not above zero.

    Notes
    -----
    Blades that lean back have a work coefficient of about 0.7 to 0.8 (common practice), radial ones about 0.9. A wheel
    of forged aluminium is commonly let run to about 530 m/s.

    Examples
    --------
    >>> round(tip_speed(139_000.0, 0.75), 1)
    430.5

    References
    ----------
    Saravanamuttoo, section 4.1; Gorla, ch. 4.
    """
    return np.sqrt(np.maximum(specific_compressor_work, 0.0) / work_coefficient)


@formula(
    result="shaft_speed",
    equation=r"n = \frac{u_2}{3.14159 \, D_2}",
    source="Saravanamuttoo",
    conditions="steady or not",
)
def shaft_speed(tip_speed: Values, wheel_diameter: Values) -> Values:
    """Turns of the shaft of a turbocharger, from the speed of its compressor's rim.

    Parameters
    ----------
    tip_speed : float or array [m/s]
        Speed of the rim.
    wheel_diameter : float or array [m]
        Outer diameter of the compressor wheel.

    Returns
    -------
    float or array of the broadcast shape [rev/s]
        Shaft speed.

    Raises
    ------
    OutOfRangeError
        If a speed is below zero or the diameter not above zero.

    Notes
    -----
    The smaller the wheel, the faster it turns for the same pressure ratio.

    Examples
    --------
    >>> round(60 * shaft_speed(430.5, 0.10))
    82219

    References
    ----------
    Saravanamuttoo, section 4.1; Gorla, ch. 4.
    """
    return tip_speed / (np.pi * wheel_diameter)


@formula(
    result="rotor_energy",
    equation=r"E = \frac{J \, (6.28319 \, n)^2}{2 \, k_\mathrm{u}}",
    source="OpenStaxPhysics",
    conditions="both wheels and the shaft as one body",
)
def rotor_energy(rotor_inertia: Values, shaft_speed: Values) -> Values:
    """Energy stored in the turning rotor of a turbocharger.

    Parameters
    ----------
    rotor_inertia : float or array [kg m^2]
        Moment of inertia of shaft and both wheels.
    shaft_speed : float or array [rev/s]
        Turns of the shaft.

    Returns
    -------
    float or array of the broadcast shape [J]
        Rotor energy.

    Raises
    ------
    OutOfRangeError
        If the inertia is not above zero, or a speed below zero.

    Notes
    -----
    It has to be brought by the turbine, over what the compressor takes, before there is boost: that is the lag.

    Examples
    --------
    >>> round(rotor_energy(4e-4, 1380.0))
    15037

    References
    ----------
    OpenStaxPhysics, section 10.4.
    """
    return rotor_inertia * (2 * np.pi * shaft_speed) ** 2 / 2
