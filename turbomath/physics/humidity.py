"""Water in the air: how much there is, how much there can be, and what forms when air is cooled.

Air and vapour are an ideal mixture here, with no enhancement factor: at 0.1 MPa that puts the
greatest humidity ratio about 0.5 % low. Relative humidity and dew point are over water.
"""

import numpy as np

from turbomath.physics.condensing import condensate, dew_point, vapour_pressure
from turbomath.physics.mixture import density, dry_air_density, gas_constant
from turbomath.physics.water import saturation_pressure, saturation_temperature
from turbomath.table.constants import VAPOUR_MASS_RATIO, ZERO_CELSIUS
from turbomath.table.errors import warn_at_caller
from turbomath.table.formulas import defined, formula
from turbomath.table.kinds_of_value import Values

__all__ = [
    "condensate",
    "density",
    "dew_point",
    "dry_air_density",
    "gas_constant",
    "humidity_ratio",
    "relative_humidity",
    "relative_humidity_from_wet_bulb",
    "saturation_pressure",
    "saturation_temperature",
    "vapour_pressure",
]


@formula(
    result="humidity_ratio",
    equation=r"w = \frac{R}{R_\mathrm{v}} \, \frac{\varphi \, p_\mathrm{sat}(T)}{p - \varphi \, p_\mathrm{sat}(T)}",
    source="ASHRAE2017",
    conditions="ideal mixture, relative humidity over water",
)
def humidity_ratio(pressure: Values, temperature: Values, relative_humidity: Values) -> Values:
    """Water vapour with each kilogram of dry air, from relative humidity.

    Parameters
    ----------
    pressure : float or array [Pa]
        Absolute pressure of the mixture.
    temperature : float or array [K]
        Temperature, 233.15 to 647.096.
    relative_humidity : float or array [-]
        Vapour pressure over saturation pressure, a fraction from 0 to 1.

    Returns
    -------
    float or array of the broadcast shape [kg/kg]
        Humidity ratio; `nan` where vapour alone would make up the whole pressure or more.

    Raises
    ------
    OutOfRangeError
        If a pressure or temperature is not above zero, or a humidity outside 0 to 1.

    Notes
    -----
    Ideal mixture, no enhancement factor: about 0.5 % low for saturated air at 0.1 MPa.

    Examples
    --------
    >>> round(humidity_ratio(101_325.0, 298.15, 0.5), 5)
    0.00988

    References
    ----------
    ASHRAE2017, ch. 1, eqs. 12 and 20.
    """
    vapour = relative_humidity * saturation_pressure(temperature)
    return defined(vapour < pressure, VAPOUR_MASS_RATIO * vapour / (pressure - vapour))


@formula(
    result="relative_humidity",
    equation=r"\varphi = \frac{w \, p}{\left(w + R / R_\mathrm{v}\right) p_\mathrm{sat}(T)}",
    source="ASHRAE2017",
    conditions="ideal mixture, over water",
)
def relative_humidity(pressure: Values, temperature: Values, humidity_ratio: Values) -> Values:
    """Relative humidity: vapour pressure over the greatest there can be at this temperature.

    Parameters
    ----------
    pressure : float or array [Pa]
        Absolute pressure of the mixture.
    temperature : float or array [K]
        Temperature, 233.15 to 647.096.
    humidity_ratio : float or array [kg/kg]
        Water vapour with each kilogram of dry air.

    Returns
    -------
    float or array of the broadcast shape [-]
        Relative humidity; above 1 where water must form.

    Raises
    ------
    OutOfRangeError
        If a pressure or temperature is not above zero, or a humidity ratio is below zero.

    Notes
    -----
    Above 1 there is a `RangeWarning`: `condensate` says how much water forms.

    Examples
    --------
    >>> round(relative_humidity(101_325.0, 298.15, 0.00988), 3)
    0.5

    References
    ----------
    ASHRAE2017, ch. 1, eqs. 12 and 20.
    """
    return _relative_humidity(pressure, temperature, humidity_ratio)


def _relative_humidity(pressure, temperature, ratio):
    humidity = pressure * ratio / (ratio + VAPOUR_MASS_RATIO) / saturation_pressure(temperature)
    if np.any((humidity < -1e-9) | (humidity > 1 + 1e-9)):  # rounding is no fault
        warn_at_caller("the relative humidity is outside 0 to 1; a reading must be wrong, or water is forming.")
    return humidity


@formula(
    result="relative_humidity",
    equation=r"\varphi = \frac{w \, p}{\left(w + R / R_\mathrm{v}\right) p_\mathrm{sat}(T)}, \quad"
    r" w = \frac{(2501 - 2.326 \, t_\mathrm{wet}) \, w_\mathrm{sat}(p, T_\mathrm{wet}) - 1.006 \, (T - T_\mathrm{wet})}"
    r"{2501 + 1.86 \, t - 4.186 \, t_\mathrm{wet}}, \quad t = T - 273.15",
    source="ASHRAE2017",
    conditions="ideal mixture, well aired wet thermometer; below 0 °C the numbers are those for ice on the wick",
    where={
        "w": "humidity_ratio",
        "t": "temperature of the dry thermometer in °C",
        r"t_\mathrm{wet}": "temperature of the wet thermometer in °C",
    },
)
def relative_humidity_from_wet_bulb(pressure: Values, temperature: Values, wet_bulb_temperature: Values) -> Values:
    """Relative humidity from a dry and a wet thermometer.

    Parameters
    ----------
    pressure : float or array [Pa]
        Absolute pressure, from a station barometer.
    temperature : float or array [K]
        Temperature of the dry thermometer.
    wet_bulb_temperature : float or array [K]
        Temperature of the wet thermometer; below 273.15 there is ice on its wick.

    Returns
    -------
    float or array of the broadcast shape [-]
        Relative humidity, over water below freezing too.

    Raises
    ------
    OutOfRangeError
        If a pressure or temperature is not above zero.

    Notes
    -----
    Ideal mixture. A result outside 0 to 1 gives a `RangeWarning`: the wet thermometer reads above the
    dry one, or too low for any humidity. The rule holds for a wick with moving air. Below freezing it takes the
    wick to be iced, as it is once a piece of ice has touched it; water that stays liquid there reads as more humid.

    Examples
    --------
    >>> round(relative_humidity_from_wet_bulb(101_325.0, 313.15, 293.15), 3)
    0.14

    References
    ----------
    ASHRAE2017, ch. 1, eqs. 33 (water) and 35 (ice) and example 1.
    """
    iced = wet_bulb_temperature < ZERO_CELSIUS
    most = _saturated(pressure, np.where(iced, wet_bulb_temperature, ZERO_CELSIUS), "ice")
    most = np.where(iced, most, _saturated(pressure, np.where(iced, ZERO_CELSIUS, wet_bulb_temperature), "water"))
    t, t_wet = temperature - ZERO_CELSIUS, wet_bulb_temperature - ZERO_CELSIUS
    latent = np.where(iced, 2830 - 0.24 * t_wet, 2501 - 2.326 * t_wet)  # kJ/kg
    carried = np.where(iced, 2830 + 1.86 * t - 2.1 * t_wet, 2501 + 1.86 * t - 4.186 * t_wet)
    return _relative_humidity(pressure, temperature, (latent * most - 1.006 * (t - t_wet)) / carried)


def _saturated(pressure, temperature, over):
    vapour = saturation_pressure(temperature, over)
    return defined(vapour < pressure, VAPOUR_MASS_RATIO * vapour / (pressure - vapour))
