"""Water in real air: how much vapour there can be, and what forms when air under pressure is cooled.

The same questions as in `humidity`, with the enhancement factor: air pressed on water raises the vapour above it,
by 0.4 % at the engine's surroundings and by 1 to 3 % under boost.
"""

import numpy as np

from turbomath.physics.water import CRITICAL, LOWEST, saturation_pressure, saturation_temperature
from turbomath.table.constants import VAPOUR_MASS_RATIO, ZERO_CELSIUS
from turbomath.table.formulas import choice, defined, formula
from turbomath.table.kinds_of_value import Values

# Hardy 1998, tables of alpha and beta, powers of the Celsius temperature
_COEFFICIENTS = {
    "water": (
        (3.53624e-4, 2.9328363e-5, 2.6168979e-7, 8.5813609e-9),
        (-1.07588e1, 6.3268134e-2, -2.5368934e-4, 6.3405286e-7),
    ),
    "ice": (
        (3.64449e-4, 2.9367585e-5, 4.8874766e-7, 4.3669918e-9),
        (-1.07271e1, 7.6215115e-2, -1.7490155e-4, 2.4668279e-6),
    ),
}
_DEW_POINT_STEPS = 5  # each one leaves less than a hundredth of the error


def _enhancement_factor(pressure, temperature, saturation, over):
    t = temperature - ZERO_CELSIUS
    (a0, a1, a2, a3), (b0, b1, b2, b3) = choice("over", over, _COEFFICIENTS)
    alpha = a0 + t * (a1 + t * (a2 + t * a3))
    beta = np.exp(b0 + t * (b1 + t * (b2 + t * b3)))
    return np.exp(alpha * (1 - saturation / pressure) + beta * (pressure / saturation - 1))


def _greatest_vapour(pressure, temperature, over="water"):
    """The vapour pressure at saturation [Pa], infinite where water boils."""
    saturation = saturation_pressure(temperature, over=over)
    factor = _enhancement_factor(pressure, temperature, saturation, over)
    return np.where(saturation >= pressure, np.inf, factor * saturation)


@formula(
    result="enhancement_factor",
    equation=r"f = \exp\left[\alpha \left(1 - \frac{p_\mathrm{sat}(T)}{p}\right)"
    r" + \beta \left(\frac{p}{p_\mathrm{sat}(T)} - 1\right)\right], \quad \alpha = \sum_{i=0}^{3} A_i t^i, \quad"
    r" \beta = \exp \sum_{i=0}^{3} B_i t^i, \quad t = T - 273.15",
    source="Hardy1998",
    conditions="air free of carbon dioxide, over water or over ice, up to 0.9 MPa",
    where={
        r"\alpha": "what the air itself adds, by temperature",
        r"\beta": "what the pressure on the water adds, by temperature",
        "A_i": "the four numbers of the source for the first",
        "B_i": "the four numbers of the source for the second",
        "i": "number of a term",
        "t": "temperature in °C",
    },
)
def enhancement_factor(pressure: Values, temperature: Values, over: str = "water") -> Values:
    """How much more vapour stands above water in air than above water alone.

    Parameters
    ----------
    pressure : float or array [Pa]
        Absolute pressure of the mixture.
    temperature : float or array [K]
        Temperature, 233.15 to 448 over water, 173.15 to 273.16 over ice.
    over : "water" or "ice"
        What the vapour is in balance with.

    Returns
    -------
    float or array of the broadcast shape [-]
        Vapour pressure at saturation in air over that of water alone; `nan` where water boils.

    Raises
    ------
    OutOfRangeError
        If a pressure or temperature is not above zero, or `over` is neither "water" nor "ice".

    Notes
    -----
    The coefficients over water were made for 0 to 100 °C. Beside the virial model of Herrmann et al. they are
    within 0.03 % at 0.1 MPa, 0.1 % at 0.9 MPa and 0.15 % up to 440 K; over ice within 0.06 % at 0.1 MPa.

    Examples
    --------
    >>> round(enhancement_factor(101_325.0, 353.15), 4)
    1.0057
    >>> round(enhancement_factor(300_000.0, 313.15), 3)
    1.01

    References
    ----------
    Hardy1998, eqs. 3 to 5 and tables 3 and 4; Greenspan1976, eq. 3.
    """
    saturation = saturation_pressure(temperature, over=over)
    return defined(saturation < pressure, _enhancement_factor(pressure, temperature, saturation, over))


@formula(
    result="humidity_ratio",
    equation=r"w = \frac{R}{R_\mathrm{v}} \, \frac{\varphi \, f \, p_\mathrm{sat}(T)}"
    r"{p - \varphi \, f \, p_\mathrm{sat}(T)}, \quad f = f(p, T)",
    source="ASHRAE2017",
    conditions="real air, relative humidity as a share of the vapour at saturation",
    where={"f": "enhancement_factor"},
)
def humidity_ratio(pressure: Values, temperature: Values, relative_humidity: Values, over: str = "water") -> Values:
    """Water vapour with each kilogram of dry air, from relative humidity.

    Parameters
    ----------
    pressure : float or array [Pa]
        Absolute pressure of the mixture.
    temperature : float or array [K]
        Temperature, 233.15 to 448 over water, 173.15 to 273.16 over ice.
    relative_humidity : float or array [-]
        Vapour over the vapour at saturation, a fraction from 0 to 1.
    over : "water" or "ice"
        What the vapour at saturation is in balance with. A hygrometer's relative humidity is over water.

    Returns
    -------
    float or array of the broadcast shape [kg/kg]
        Humidity ratio; `nan` where water boils.

    Raises
    ------
    OutOfRangeError
        If a pressure or temperature is not above zero, or a humidity outside 0 to 1.

    Notes
    -----
    With relative humidity 1 it is the most that the air can carry.

    Examples
    --------
    >>> round(humidity_ratio(101_325.0, 298.15, 1.0), 5)
    0.02017

    References
    ----------
    ASHRAE2017, ch. 1, section on humidity parameters and table 2.
    """
    vapour = relative_humidity * _greatest_vapour(pressure, temperature, over)
    return defined(vapour < pressure, VAPOUR_MASS_RATIO * vapour / (pressure - vapour))


@formula(
    result="relative_humidity",
    equation=r"\varphi = \frac{w \, p}{\left(w + R / R_\mathrm{v}\right) f \, p_\mathrm{sat}(T)}, \quad f = f(p, T)",
    source="ASHRAE2017",
    conditions="real air",
    where={"f": "enhancement_factor"},
)
def relative_humidity(pressure: Values, temperature: Values, humidity_ratio: Values, over: str = "water") -> Values:
    """Relative humidity: the vapour over the most there can be at this pressure and temperature.

    Parameters
    ----------
    pressure : float or array [Pa]
        Absolute pressure of the mixture.
    temperature : float or array [K]
        Temperature, 233.15 to 448 over water, 173.15 to 273.16 over ice.
    humidity_ratio : float or array [kg/kg]
        Water vapour with each kilogram of dry air.
    over : "water" or "ice"
        What the vapour at saturation is in balance with.

    Returns
    -------
    float or array of the broadcast shape [-]
        Relative humidity; above 1 where water must form, 0 where water boils and any vapour can stay.

    Raises
    ------
    OutOfRangeError
        If a pressure or temperature is not above zero, or a humidity ratio is below zero.

    Notes
    -----
    Above 1 the result stands without a warning; `condensate` says how much water forms.

    Examples
    --------
    >>> round(relative_humidity(300_000.0, 313.15, 0.012), 3)
    0.762

    References
    ----------
    ASHRAE2017, ch. 1, section on humidity parameters and table 2.
    """
    vapour = pressure * humidity_ratio / (humidity_ratio + VAPOUR_MASS_RATIO)
    return vapour / _greatest_vapour(pressure, temperature, over)


@formula(
    result="dew_point",
    equation=r"f(p, T_\mathrm{dew}) \, p_\mathrm{sat}(T_\mathrm{dew}) = \frac{w \, p}{w + R / R_\mathrm{v}}",
    source="Hardy1998",
    conditions="real air, over water",
    where={"f": "enhancement_factor"},
)
def dew_point(pressure: Values, humidity_ratio: Values) -> Values:
    """Temperature at which water begins to form when real air is cooled at constant pressure.

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
    The factor changes so little with temperature that five steps from the dew point without it reach the last
    digit. A dew point below 233.15 K gives a `RangeWarning`. Boost raises the dew point.

    Examples
    --------
    >>> round(dew_point(300_000.0, 0.02187) - 273.15, 1)
    46.0

    References
    ----------
    Hardy1998, section on the enhancement factor; IAPWS-IF97, section 8.2, eq. 31.
    """
    vapour = pressure * humidity_ratio / (humidity_ratio + VAPOUR_MASS_RATIO)
    vapour = defined(vapour > 0, vapour)
    temperature = saturation_temperature(vapour)
    for _ in range(_DEW_POINT_STEPS):
        known = np.maximum(temperature, LOWEST)
        factor = _enhancement_factor(pressure, known, saturation_pressure(known), "water")
        temperature = saturation_temperature(vapour / factor)
    return temperature


@formula(
    result="condensate",
    equation=r"w_\mathrm{water} = \max\left(0, \; w - \frac{R}{R_\mathrm{v}} \,"
    r" \frac{f \, p_\mathrm{sat}(T)}{p - f \, p_\mathrm{sat}(T)}\right), \quad f = f(p, T)",
    source="ASHRAE2017",
    conditions="real air, over water, time enough to settle",
    where={"f": "enhancement_factor"},
)
def condensate(pressure: Values, temperature: Values, humidity_ratio: Values) -> Values:
    """Water formed with each kilogram of dry air, once real air is at this pressure and temperature.

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
    It is the most that can form: in a moving stream some water is carried on as mist.

    Examples
    --------
    >>> round(condensate(300_000.0, 308.15, 0.02187), 4)
    0.0099

    References
    ----------
    ASHRAE2017, ch. 1, section on humidity parameters and table 2.
    """
    vapour = _greatest_vapour(pressure, np.minimum(temperature, CRITICAL))  # no water forms in air hotter than that
    greatest = VAPOUR_MASS_RATIO * vapour / (pressure - vapour)
    return np.maximum(0.0, humidity_ratio - np.where(vapour >= pressure, np.inf, greatest))
