"""Power at another site: what its height, heat and humidity do to power and consumption, by ISO 3046-1."""

from turbomath.table.formulas import choice, defined, formula
from turbomath.table.kinds_of_value import Values

# engine: (share of vapour that counts, exponents of pressure, air temperature, medium temperature)
_EXPONENTS = {
    "naturally aspirated, excess air": (1.0, 1.0, 0.75, 0.0),
    "naturally aspirated, heat": (0.0, 1.0, 1.0, 0.0),
    "turbocharged": (0.0, 0.7, 2.0, 0.0),
    "turbocharged and aftercooled": (0.0, 0.7, 1.2, 1.0),
}
ENGINES = tuple(_EXPONENTS)
_POWER = r"\alpha = k - 0.7 \left(1 - k\right) \left(\frac{1}{\eta_\mathrm{m}} - 1\right)"
_RATIO = (
    r"k = \left(\frac{p_\mathrm{site} - a \, p_\mathrm{v,site}}{p_\mathrm{ref} - a \, p_\mathrm{v,ref}}\right)^{m}"
    r" \left(\frac{T_\mathrm{ref}}{T_\mathrm{site}}\right)^{n}"
    r" \left(\frac{T_\mathrm{medium,ref}}{T_\mathrm{medium}}\right)^{s}"
)

_WHERE = {
    "k": "ratio of the power on the pistons at the site to that in the reference state",
    r"\alpha": "ratio of the power at the crankshaft",
    "a": "1 where vapour counts, 0 where it does not",
    "m": "exponent of the pressures, by the sort of engine",
    "n": "exponent of the air temperatures",
    "s": "exponent of the temperatures of the cooling medium",
}


@formula(
    result="site_power",
    equation=r"P_\mathrm{site} = \alpha \, P_\mathrm{ref}, \quad " + _POWER + r", \quad " + _RATIO,
    source="ISO3046",
    conditions="engine that does not adjust itself; exponents by the sort of engine",
    where=_WHERE,
)
def iso3046_power(
    reference_power: Values,
    site_pressure: Values,
    site_temperature: Values,
    *,
    engine: str,
    mechanical_efficiency: Values = 0.80,
    site_vapour_pressure: Values = 0.0,
    medium_temperature: Values | None = None,
    reference_pressure: Values = 100_000.0,
    reference_temperature: Values = 298.0,
    reference_vapour_pressure: Values = 960.0,
    reference_medium_temperature: Values = 298.0,
) -> Values:
    """Power that an engine gives at a site, from its power in the reference state.

    Parameters
    ----------
    reference_power : float or array [W]
        Power in the reference state.
    site_pressure : float or array [Pa]
        Barometer at the site.
    site_temperature : float or array [K]
        Air temperature at the site.
    engine : str
        "naturally aspirated, excess air", "naturally aspirated, heat" (by what limits it), "turbocharged"
        or "turbocharged and aftercooled".
    mechanical_efficiency : float or array [-]
        Power at the crankshaft over power on the pistons.
    site_vapour_pressure : float or array [Pa]
        Vapour pressure at the site; it counts only for the first sort of engine.
    medium_temperature : float or array [K]
        Temperature of the medium that cools the charge, for the last sort of engine; the air at the site
        if not given.
    reference_pressure : float or array [Pa]
        Barometer of the reference state.
    reference_temperature : float or array [K]
        Air temperature of the reference state.
    reference_vapour_pressure : float or array [Pa]
        Vapour pressure of the reference state.
    reference_medium_temperature : float or array [K]
        Temperature of the medium that cools the charge in the reference state.

    Returns
    -------
    float or array of the broadcast shape [W]
        Power at the site; `nan` where vapour alone would make up the whole pressure.

    Raises
    ------
    OutOfRangeError
        If a value is not possible, or the engine none of the four.

    Notes
    -----
    Exponents m, n, s: 1, 0.75, 0 with vapour counted (a = 1), else 1, 1, 0; 0.7, 2, 0; 0.7, 1.2, 1. Those
    of the second engine are from memory of the standard. A maker may forbid more than the rated power on a
    better day, whatever this gives.

    Examples
    --------
    >>> round(iso3046_power(500e3, 87e3, 318.0, engine="turbocharged", mechanical_efficiency=0.85))
    385739

    References
    ----------
    ISO3046, section 10; MathurSharma, ch. 27.
    """
    k = _ratio(
        engine,
        site_pressure,
        site_temperature,
        site_vapour_pressure,
        medium_temperature,
        reference_pressure,
        reference_temperature,
        reference_vapour_pressure,
        reference_medium_temperature,
    )
    return reference_power * _adjusted(k, mechanical_efficiency)


@formula(
    result="site_fuel_ratio",
    equation=r"\beta = \frac{k}{\alpha}, \quad " + _POWER + r", \quad " + _RATIO,
    source="ISO3046",
    conditions="engine that does not adjust itself; exponents by the sort of engine",
    where=_WHERE,
)
def iso3046_fuel_ratio(
    site_pressure: Values,
    site_temperature: Values,
    *,
    engine: str,
    mechanical_efficiency: Values = 0.80,
    site_vapour_pressure: Values = 0.0,
    medium_temperature: Values | None = None,
    reference_pressure: Values = 100_000.0,
    reference_temperature: Values = 298.0,
    reference_vapour_pressure: Values = 960.0,
    reference_medium_temperature: Values = 298.0,
) -> Values:
    """Specific fuel consumption of an engine at a site over that in the reference state.

    Parameters
    ----------
    site_pressure : float or array [Pa]
        Barometer at the site.
    site_temperature : float or array [K]
        Air temperature at the site.
    engine : str
        One of the four that `iso3046_power` lists.
    mechanical_efficiency : float or array [-]
        Power at the crankshaft over power on the pistons.
    site_vapour_pressure : float or array [Pa]
        Vapour pressure at the site; it counts only for the first sort of engine.
    medium_temperature : float or array [K]
        Temperature of the medium that cools the charge, for the last sort of engine; the air at the site
        if not given.
    reference_pressure : float or array [Pa]
        Barometer of the reference state.
    reference_temperature : float or array [K]
        Air temperature of the reference state.
    reference_vapour_pressure : float or array [Pa]
        Vapour pressure of the reference state.
    reference_medium_temperature : float or array [K]
        Temperature of the medium that cools the charge in the reference state.

    Returns
    -------
    float or array of the broadcast shape [-]
        Specific fuel consumption at the site over that in the reference state; `nan` where the engine
        would give no power.

    Raises
    ------
    OutOfRangeError
        If a value is not possible, or the engine none of the four.

    Notes
    -----
    Friction stays while power falls, so each unit of work costs more fuel.

    Examples
    --------
    >>> round(iso3046_fuel_ratio(87e3, 318.0, engine="turbocharged", mechanical_efficiency=0.85), 4)
    1.0326

    References
    ----------
    ISO3046, section 10; MathurSharma, ch. 27.
    """
    k = _ratio(
        engine,
        site_pressure,
        site_temperature,
        site_vapour_pressure,
        medium_temperature,
        reference_pressure,
        reference_temperature,
        reference_vapour_pressure,
        reference_medium_temperature,
    )
    adjusted = _adjusted(k, mechanical_efficiency)
    return defined(adjusted > 0, k / adjusted)


def _ratio(engine, p, T, p_vapour, T_medium, p_ref, T_ref, p_vapour_ref, T_medium_ref):
    """Return k, the ratio of the power on the pistons at the site to that in the reference state."""
    a, m, n, s = choice("engine", engine, _EXPONENTS)
    T_medium = T if T_medium is None else T_medium
    here, there = p - a * p_vapour, p_ref - a * p_vapour_ref
    pressures = defined((here > 0) & (there > 0), here / there)
    return pressures**m * (T_ref / T) ** n * (T_medium_ref / T_medium) ** s


def _adjusted(k, mechanical_efficiency):
    """Return the ratio of the power at the crankshaft: friction does not fall with the air."""
    return k - 0.7 * (1 - k) * (1 / mechanical_efficiency - 1)
