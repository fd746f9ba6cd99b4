"""Readings of one day brought to another: power by ISO 1585, SAE J1349 and ISO 3046-1, flow and speed of a compressor.

A modern engine that measures its own air corrects itself: it holds its power over a range of weather, and a factor on
top of that corrects twice. The standards say so too; use the power factors for engines without such controls.
"""

import numpy as np

from turbomath.physics.site_power import iso3046_fuel_ratio, iso3046_power
from turbomath.table.errors import warn_at_caller
from turbomath.table.formulas import choice, formula
from turbomath.table.kinds_of_value import Values

__all__ = [
    "corrected_mass_flow",
    "corrected_speed",
    "iso1585_factor",
    "iso3046_fuel_ratio",
    "iso3046_power",
    "j1349_factor",
]

# (exponent of pressure, exponent of temperature) of the atmospheric factor
_NATURALLY_ASPIRATED, _TURBOCHARGED = (1.0, 0.7), (0.7, 1.5)
_ISO1585 = {"naturally aspirated": _NATURALLY_ASPIRATED, "turbocharged": _TURBOCHARGED}
_J1349 = {"none": (0.7, 1.2), "air-to-air": (0.7, 1.2), "liquid": (0.7, 0.7)}

# Where the standards' own factors hold
VALID_TEMPERATURE, VALID_DRY_PRESSURE, VALID_FACTOR = (283.0, 313.0), (80_000.0, 110_000.0), (0.9, 1.1)


@formula(
    result="power_correction_factor",
    equation=r"\alpha_\mathrm{c} = \left[\left(\frac{p_\mathrm{ref}}{p_\mathrm{dry}}\right)^{0.7}"
    r" \left(\frac{T}{T_\mathrm{ref}}\right)^{1.5}\right]^{f_\mathrm{m}}, \quad f_\mathrm{m} ="
    r" 36 \, \frac{q_\mathrm{fuel}}{\pi} - 1.14",
    source="ISO1585",
    conditions="shown for a turbocharged engine; diesel at full load, 283 to 313 K, 80 to 110 kPa dry",
    where={
        r"f_\mathrm{m}": "engine factor: how much the day matters at this much fuel",
    },
)
def iso1585_factor(
    dry_pressure: Values,
    temperature: Values,
    *,
    aspiration: str,
    fuel_delivery: Values,
    pressure_ratio: Values = 1.0,
    reference_pressure: Values = 99_000.0,
    reference_temperature: Values = 298.0,
) -> Values:
    """Factor that brings the power of a diesel to the standard day of ISO 1585.

    Parameters
    ----------
    dry_pressure : float or array [Pa]
        Station barometer less the vapour pressure.
    temperature : float or array [K]
        Temperature of the air that the engine draws in.
    aspiration : str
        "naturally aspirated" (also for a mechanically driven blower) or "turbocharged".
    fuel_delivery : float or array [kg/m^3]
        Fuel in a working cycle for each cubic metre of displacement, see `fuel.fuel_delivery`.
    pressure_ratio : float or array [-]
        Charge pressure over ambient pressure, both absolute; 1 without boost.
    reference_pressure : float or array [Pa]
        Dry pressure of the standard day.
    reference_temperature : float or array [K]
        Temperature of the standard day.

    Returns
    -------
    float or array of the broadcast shape [-]
        Factor to multiply the measured power with.

    Raises
    ------
    OutOfRangeError
        If a value is not above zero, or the aspiration neither of the two.

    Notes
    -----
    Without turbocharger the exponents are 1 and 0.7. The standard holds the engine factor f_m within 0.3
    and 1.2 (40 and 65 mg for each litre, cycle and unit of pressure ratio). Outside 283 to 313 K, 80 to
    110 kPa, or a factor of 0.9 to 1.1 there is a `RangeWarning`: then say both powers and the day.

    Examples
    --------
    >>> round(iso1585_factor(95_000.0, 308.0, aspiration="turbocharged", fuel_delivery=0.1, pressure_ratio=2.0), 4)
    1.0531

    References
    ----------
    ISO1585, section 6; MathurSharma, ch. 27, section 27.4.
    """
    exponents = choice("aspiration", aspiration, _ISO1585)
    atmosphere = _atmospheric_factor(dry_pressure, temperature, reference_pressure, reference_temperature, exponents)
    return _checked(dry_pressure, temperature, atmosphere ** _engine_factor(fuel_delivery, pressure_ratio, 0.3))


@formula(
    result="power_correction_factor",
    equation=r"\alpha_\mathrm{c} = \left[\left(\frac{p_\mathrm{ref}}{p_\mathrm{dry}}\right)^{0.7}"
    r" \left(\frac{T}{T_\mathrm{ref}}\right)^{1.2}\right]^{f_\mathrm{m}}, \quad f_\mathrm{m} ="
    r" 36 \, \frac{q_\mathrm{fuel}}{\pi} - 1.14",
    source="SAEJ1349",
    conditions="shown for a turbocharged engine with an air-to-air aftercooler or none; diesel at full load",
    where={
        r"f_\mathrm{m}": "engine factor: how much the day matters at this much fuel",
    },
)
def j1349_factor(
    dry_pressure: Values,
    temperature: Values,
    *,
    aspiration: str,
    fuel_delivery: Values,
    pressure_ratio: Values = 1.0,
    reference_pressure: Values = 99_000.0,
    reference_temperature: Values = 298.0,
    aftercooler: str = "none",
) -> Values:
    """Factor that brings the power of a diesel to the standard day of SAE J1349.

    Parameters
    ----------
    dry_pressure : float or array [Pa]
        Station barometer less the vapour pressure.
    temperature : float or array [K]
        Temperature of the air that the engine draws in.
    aspiration : str
        "naturally aspirated" (also for a mechanically driven blower) or "turbocharged".
    fuel_delivery : float or array [kg/m^3]
        Fuel in a working cycle for each cubic metre of displacement, see `fuel.fuel_delivery`.
    pressure_ratio : float or array [-]
        Charge pressure over ambient pressure, both absolute; 1 without boost.
    reference_pressure : float or array [Pa]
        Dry pressure of the standard day.
    reference_temperature : float or array [K]
        Temperature of the standard day.
    aftercooler : str
        "none", "air-to-air" or "liquid"; coolant keeps its temperature when the day is hot, so less of
        the day reaches the charge.

    Returns
    -------
    float or array of the broadcast shape [-]
        Factor to multiply the measured power with.

    Raises
    ------
    OutOfRangeError
        If a value is not above zero, or the aspiration or the aftercooler none of those listed.

    Notes
    -----
    The exponent of temperature is 1.2, or 0.7 with a liquid-cooled aftercooler; without turbocharger the
    exponents are 1 and 0.7. The engine factor f_m stays within 0.2 and 1.2. Limits and `RangeWarning` as
    in `iso1585_factor`. ISO 15550 has the same form.

    Examples
    --------
    >>> options = {"aspiration": "turbocharged", "fuel_delivery": 0.1, "pressure_ratio": 2.0}
    >>> round(j1349_factor(95_000.0, 308.0, aftercooler="liquid", **options), 4)
    1.0349

    References
    ----------
    SAEJ1349, section 5.
    """
    turbocharged = choice("aftercooler", aftercooler, _J1349)
    exponents = choice("aspiration", aspiration, {**_ISO1585, "turbocharged": turbocharged})
    atmosphere = _atmospheric_factor(dry_pressure, temperature, reference_pressure, reference_temperature, exponents)
    return _checked(dry_pressure, temperature, atmosphere ** _engine_factor(fuel_delivery, pressure_ratio, 0.2))


@formula(
    result="corrected_mass_flow",
    equation=r"\dot m_\mathrm{corr} = \dot m \, \frac{\sqrt{T / T_\mathrm{ref}}}{p / p_\mathrm{ref}}",
    source="Saravanamuttoo",
    conditions="same gas, same place on the compressor map",
)
def corrected_mass_flow(
    mass_flow: Values,
    pressure: Values,
    temperature: Values,
    *,
    reference_pressure: Values,
    reference_temperature: Values,
) -> Values:
    """Air flow brought to the reference state that a compressor map is drawn for.

    Parameters
    ----------
    mass_flow : float or array [kg/s]
        Air through the compressor.
    pressure : float or array [Pa]
        Absolute pressure at the compressor inlet.
    temperature : float or array [K]
        Temperature at the compressor inlet.
    reference_pressure : float or array [Pa]
        Pressure printed on the map.
    reference_temperature : float or array [K]
        Temperature printed on the map.

    Returns
    -------
    float or array of the broadcast shape [kg/s]
        Corrected mass flow.

    Raises
    ------
    OutOfRangeError
        If a mass flow is below zero, or a pressure or temperature not above zero.

    Notes
    -----
    There is no single reference state: maps come with 288.15 K and 101.325 kPa, 298 K and 100 kPa, 302.6 K
    and 96.2 kPa and others, which are up to 8 % apart. So it is never assumed.

    Examples
    --------
    >>> round(corrected_mass_flow(0.30, 95_000.0, 305.0, reference_pressure=1e5, reference_temperature=298.0), 5)
    0.31948

    References
    ----------
    Saravanamuttoo, section 4.6.
    """
    return mass_flow * np.sqrt(temperature / reference_temperature) / (pressure / reference_pressure)


@formula(
    result="corrected_speed",
    equation=r"N_\mathrm{corr} = \frac{N}{\sqrt{T / T_\mathrm{ref}}}",
    source="Saravanamuttoo",
    conditions="same gas, same place on the compressor map",
    of_any_size=("engine_speed",),
)
def corrected_speed(engine_speed: Values, temperature: Values, *, reference_temperature: Values) -> Values:
    """Speed of a shaft brought to the reference temperature that a compressor map is drawn for.

    Parameters
    ----------
    engine_speed : float or array [rev/s]
        Turns of the shaft, here that of the turbocharger.
    temperature : float or array [K]
        Temperature at the compressor inlet.
    reference_temperature : float or array [K]
        Temperature printed on the map.

    Returns
    -------
    float or array of the broadcast shape [rev/s]
        Corrected speed.

    Raises
    ------
    OutOfRangeError
        If a speed is below zero or a temperature not above zero.

    Notes
    -----
    On a cold day the wheel stands further right on its map than its speed says.

    Examples
    --------
    >>> round(corrected_speed(1500.0, 305.0, reference_temperature=298.0), 1)
    1482.7

    References
    ----------
    Saravanamuttoo, section 4.6.
    """
    return engine_speed / np.sqrt(temperature / reference_temperature)


def _atmospheric_factor(p, T, p_ref, T_ref, exponents):
    return (p_ref / p) ** exponents[0] * (T / T_ref) ** exponents[1]


def _engine_factor(fuel_delivery, pressure_ratio, lowest):
    """Return how strongly the weather reaches the power: the more fuel for each unit of charge, the more."""
    return np.clip(36 * fuel_delivery / pressure_ratio - 1.14, lowest, 1.2)


def _checked(dry_pressure, temperature, factor):
    for values, (low, high), words in (
        (temperature, VALID_TEMPERATURE, "the temperature is outside 283 to 313 K"),
        (dry_pressure, VALID_DRY_PRESSURE, "the dry pressure is outside 80 to 110 kPa"),
        (factor, VALID_FACTOR, "the factor is outside 0.9 to 1.1"),
    ):
        if np.any((values < low) | (values > high)):
            warn_at_caller(f"{words}: the standard does not correct so far.")
    return factor
