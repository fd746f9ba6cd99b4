"""When water forms: what part of the pressure is vapour, where it begins to condense, and how much does.

Air and vapour are an ideal mixture, as in `humidity`.
"""

import numpy as np

from turbomath.physics.water import CRITICAL, saturation_pressure, saturation_temperature
from turbomath.table.constants import VAPOUR_MASS_RATIO
from turbomath.table.formulas import defined, formula
from turbomath.table.kinds_of_value import Values


@formula(
    result="vapour_pressure",
    equation=r"p_\mathrm{v} = \frac{w \, p}{w + R / R_\mathrm{v}}",
    source="ASHRAE2017",
    conditions="ideal mixture",
)
def vapour_pressure(pressure: Values, humidity_ratio: Values) -> Values:
    """Part of the pressure that is water vapour.

    Parameters
    ----------
    pressure : float or array [Pa]
        Absolute pressure of the mixture.
    humidity_ratio : float or array [kg/kg]
        Water vapour with each kilogram of dry air.

    Returns
    -------
    float or array of the broadcast shape [Pa]
        Vapour pressure; 0 for dry air.

    Raises
    ------
    OutOfRangeError
        If a pressure is not above zero or a humidity ratio is below zero.

    Notes
    -----
    A compressor raises it along with the total pressure, which is why boost brings water.

    Examples
    --------
    >>> round(vapour_pressure(300_000.0, 0.02187))
    10190

    References
    ----------
    ASHRAE2017, ch. 1, eq. 20.
    """
    return pressure * humidity_ratio / (humidity_ratio + VAPOUR_MASS_RATIO)


@formula(
    result="dew_point",
    equation=r"T_\mathrm{dew} = T_\mathrm{sat}\left(\frac{w \, p}{w + R / R_\mathrm{v}}\right)",
    source="IAPWS-IF97",
    conditions="ideal mixture, over water",
)
def dew_point(pressure: Values, humidity_ratio: Values) -> Values:
    """Temperature at which water begins to form when air is cooled at constant pressure.

    Parameters
    ----------
    pressure : float or array [Pa]
        Absolute pressure of the mixture.
    humidity_ratio : float or array [kg/kg]
        Water vapour with each kilogram of dry air.

    Returns
    -------
    float or array of the broadcast shape [K]
        Dew point; `nan` for dry air, which has none.

    Raises
    ------
    OutOfRangeError
        If a pressure is not above zero or a humidity ratio is below zero.

    Notes
    -----
    Ideal mixture; T_sat is the closed inverse of the saturation equation. A dew point below 233.15 K
    gives a `RangeWarning`. Boost raises the dew point.

    Examples
    --------
    >>> round(dew_point(300_000.0, 0.02187) - 273.15, 1)
    46.2

    References
    ----------
    IAPWS-IF97, section 8.2, eq. 31.
    """
    vapour = vapour_pressure(pressure, humidity_ratio)
    return saturation_temperature(defined(vapour > 0, vapour))


@formula(
    result="condensate",
    equation=r"w_\mathrm{water} = \max\left(0, \; w - w_\mathrm{sat}(p, T)\right)",
    source="ASHRAE2017",
    conditions="ideal mixture, over water, time enough to settle",
)
def condensate(pressure: Values, temperature: Values, humidity_ratio: Values) -> Values:
    """Water formed with each kilogram of dry air, once the air is at this pressure and temperature.

    Parameters
    ----------
    pressure : float or array [Pa]
        Absolute pressure of the mixture.
    temperature : float or array [K]
        Temperature, from 233.15.
    humidity_ratio : float or array [kg/kg]
        Water that came in with each kilogram of dry air.

    Returns
    -------
    float or array of the broadcast shape [kg/kg]
        Water that is no longer vapour; 0 where all of it can stay vapour.

    Raises
    ------
    OutOfRangeError
        If a pressure or temperature is not above zero, or a humidity ratio is below zero.

    Notes
    -----
    Ideal mixture. It is the most that can form: in a moving stream some water is carried on as mist.

    Examples
    --------
    >>> round(condensate(300_000.0, 308.15, 0.02187), 4)
    0.01

    References
    ----------
    ASHRAE2017, ch. 1, eqs. 12 and 20.
    """
    saturated = saturation_pressure(np.minimum(temperature, CRITICAL))  # no water forms in air hotter than that
    greatest = VAPOUR_MASS_RATIO * saturated / (pressure - saturated)
    return np.maximum(0.0, humidity_ratio - np.where(saturated >= pressure, np.inf, greatest))
