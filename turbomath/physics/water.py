"""Water and its vapour alone: how much pressure vapour can have before water or ice forms.

Over water it is region 4 of IAPWS-IF97, over ice the sublimation equation of IAPWS R14-08.
"""

import numpy as np

from turbomath.table.errors import warn_at_caller
from turbomath.table.formulas import choice, defined, formula
from turbomath.table.kinds_of_value import Values

# IAPWS-IF97, table 34
_N1, _N2, _N3 = 0.11670521452767e4, -0.72421316703206e6, -0.17073846940092e2
_N4, _N5, _N6 = 0.12020824702470e5, -0.32325550322333e7, 0.14915108613530e2
_N7, _N8, _N9, _N10 = -0.48232657361591e4, 0.40511340542057e6, -0.23855557567849, 0.65017534844798e3

LOWEST, CRITICAL = 233.15, 647.096  # K
_TRIPLE_TEMPERATURE, _TRIPLE_PRESSURE = 273.16, 611.657  # K, Pa
_SUBLIMATION = (  # IAPWS R14-08, table 2
    (-0.212144006e2, 0.333333333e-2),
    (0.273203819e2, 0.120666667e1),
    (-0.610598130e1, 0.170333333e1),
)


def _over_water(T):
    theta = T + _N9 / (T - _N10)
    a = theta**2 + _N1 * theta + _N2
    b = _N3 * theta**2 + _N4 * theta + _N5
    c = _N6 * theta**2 + _N7 * theta + _N8
    return 1e6 * (2 * c / (-b + np.sqrt(b**2 - 4 * a * c))) ** 4


def _over_ice(T):
    theta = T / _TRIPLE_TEMPERATURE
    return _TRIPLE_PRESSURE * np.exp(sum(a * theta**b for a, b in _SUBLIMATION) / theta)


_SURFACES = {
    "water": (_over_water, LOWEST, CRITICAL),
    "ice": (_over_ice, 50.0, _TRIPLE_TEMPERATURE),
}


@formula(
    result="saturation_pressure",
    equation=r"p_\mathrm{sat} = 10^6 \left[\frac{2C}{-B + \sqrt{B^2 - 4AC}}\right]^4, \quad"
    r" \vartheta = T + \frac{n_9}{T - n_{10}}, \quad A = \vartheta^2 + n_1 \vartheta + n_2, \quad"
    r" B = n_3 \vartheta^2 + n_4 \vartheta + n_5, \quad C = n_6 \vartheta^2 + n_7 \vartheta + n_8",
    source="IAPWS-IF97",
    conditions="pure water vapour over water; over ice the sublimation equation of IAPWS-R14 instead",
    where={
        r"\vartheta": "temperature as the standard shifts it, K",
        "A": "first part of the quadratic equation for the pressure",
        "B": "second part of it",
        "C": "third part of it",
        "n_i": "the ten numbers of table 34 of the standard",
    },
)
def saturation_pressure(temperature: Values, over: str = "water") -> Values:
    """Greatest pressure of water vapour at a temperature.

    Parameters
    ----------
    temperature : float or array [K]
        Temperature, 233.15 to 647.096 over water, 50 to 273.16 over ice.
    over : "water" or "ice"
        What the vapour is in balance with. Relative humidity is always taken over water.

    Returns
    -------
    float or array of the same shape [Pa]
        Saturation pressure; `nan` above the range, where there is no such water or ice.

    Raises
    ------
    OutOfRangeError
        If a temperature is not above zero, or `over` is neither "water" nor "ice".

    Notes
    -----
    Outside the range there is a `RangeWarning`. The equation over water was made for 273.15 K and
    more; here it runs on to water that is colder and still liquid. Beside the equation of Murphy and
    Koop for such water it is within 0.06 % down to 238 K, 0.24 % at 233.15 K and 1.5 % at 223 K,
    so 233.15 K is the limit. Air mixed with the vapour is not allowed for: at 0.1 MPa it raises the
    pressure by about 0.4 %.

    Examples
    --------
    >>> round(saturation_pressure(293.15), 1)
    2339.2
    >>> round(saturation_pressure(263.15, over="ice"), 2)
    259.87

    References
    ----------
    IAPWS-IF97, section 8.1, eq. 30; IAPWS-R14, eq. 6; MurphyKoop2005, eq. 10.
    """
    equation, lowest, highest = choice("over", over, _SURFACES)
    if np.any((temperature < lowest) | (temperature > highest)):
        warn_at_caller(f"a temperature is outside {lowest:g} to {highest:g} K, where the saturation equation holds.")
    return defined(temperature <= highest, equation(temperature))


@formula(
    result="dew_point",
    equation=r"T_\mathrm{dew} = \frac{n_{10} + D - \sqrt{(n_{10} + D)^2 - 4 (n_9 + n_{10} D)}}{2}, \quad"
    r" D = \frac{2G}{-F - \sqrt{F^2 - 4EG}}, \quad \beta = \left(\frac{p_\mathrm{v}}{10^6}\right)^{1/4}, \quad"
    r" E = \beta^2 + n_3 \beta + n_6, \quad F = n_1 \beta^2 + n_4 \beta + n_7, \quad"
    r" G = n_2 \beta^2 + n_5 \beta + n_8",
    source="IAPWS-IF97",
    conditions="pure water vapour over water",
    where={
        r"\beta": "fourth root of the vapour pressure in MPa",
        "D": "root of a quadratic equation",
        "E": "first part of it",
        "F": "second part of it",
        "G": "third part of it",
        "n_i": "the ten numbers of table 34 of the standard",
    },
)
def saturation_temperature(vapour_pressure: Values) -> Values:
    """Temperature at which vapour of a given pressure begins to turn to water.

    Parameters
    ----------
    vapour_pressure : float or array [Pa]
        Pressure of the water vapour.

    Returns
    -------
    float or array of the same shape [K]
        Saturation temperature; `nan` above the critical point.

    Raises
    ------
    OutOfRangeError
        If a pressure is not above zero.

    Notes
    -----
    The exact inverse of `saturation_pressure` over water, with the same range: 233.15 to 647.096 K,
    and a `RangeWarning` outside.

    Examples
    --------
    >>> round(saturation_temperature(2339.2), 2)
    293.15

    References
    ----------
    IAPWS-IF97, section 8.2, eq. 31.
    """
    beta = (vapour_pressure / 1e6) ** 0.25
    e = beta**2 + _N3 * beta + _N6
    f = _N1 * beta**2 + _N4 * beta + _N7
    g = _N2 * beta**2 + _N5 * beta + _N8
    d = _N10 + 2 * g / (-f - np.sqrt(f**2 - 4 * e * g))
    temperature = (d - np.sqrt(d**2 - 4 * (_N9 + _N10 * (d - _N10)))) / 2
    lowest, highest = _over_water(LOWEST), _over_water(CRITICAL)
    if np.any((vapour_pressure < lowest) | (vapour_pressure > highest)):
        warn_at_caller(f"a dew point is outside {LOWEST:g} to {CRITICAL:g} K, where the equation holds.")
    return defined(vapour_pressure <= highest, temperature)
