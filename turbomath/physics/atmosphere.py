"""The standard atmosphere: what the air is like at an elevation on a standard day.

Good for setting a scene. It never stands in for a station barometer: the weather moves the real
pressure by some 3 kPa either way.
"""

import numpy as np

from turbomath.table.constants import (
    AIR_GAS_CONSTANT,
    STANDARD_GRAVITY,
    STANDARD_LAPSE_RATE,
    STANDARD_PRESSURE,
    STANDARD_TEMPERATURE,
)
from turbomath.table.errors import warn_at_caller
from turbomath.table.formulas import defined, formula
from turbomath.table.kinds import KINDS
from turbomath.table.kinds_of_value import Values

_EXPONENT = STANDARD_GRAVITY / (AIR_GAS_CONSTANT * STANDARD_LAPSE_RATE)


@formula(
    result="temperature",
    equation=r"T = T_\mathrm{std} - L H",
    source="ISO2533",
    conditions="standard day, below 11 km",
)
def temperature(elevation: Values) -> Values:
    """Temperature of the standard atmosphere.

    Parameters
    ----------
    elevation : float or array [m]
        Geopotential height above sea level, -5000 to 11000.

    Returns
    -------
    float or array of the same shape [K]
        Temperature.

    Raises
    ------
    OutOfRangeError
        If an elevation is outside -5000 to 11000 m, where the law changes.

    Notes
    -----
    Geopotential height H follows from the height Z of a map by H = r Z / (r + Z), r = 6356766 m;
    the two are 2.5 m apart at 4000 m.

    Examples
    --------
    >>> round(temperature(1500.0), 2)
    278.4

    References
    ----------
    ISO2533, clause 2; USSA1976, eq. 23 and table 4.
    """
    return STANDARD_TEMPERATURE - STANDARD_LAPSE_RATE * elevation


@formula(
    result="pressure",
    equation=r"p = p_\mathrm{std} \left(1 - \frac{L H}{T_\mathrm{std}}\right)^{g / (R L)}",
    source="ISO2533",
    conditions="standard day, below 11 km",
)
def pressure(elevation: Values) -> Values:
    """Pressure of the standard atmosphere.

    Parameters
    ----------
    elevation : float or array [m]
        Geopotential height above sea level, -5000 to 11000.

    Returns
    -------
    float or array of the same shape [Pa]
        Absolute pressure.

    Raises
    ------
    OutOfRangeError
        If an elevation is outside -5000 to 11000 m, where the law changes.

    Notes
    -----
    The exponent is 5.25588. The law takes dry air at rest, 6.5 K colder for each kilometre.

    Examples
    --------
    >>> round(pressure(1500.0))
    84556

    References
    ----------
    ISO2533, clause 2; USSA1976, eq. 33a.
    """
    return STANDARD_PRESSURE * (temperature(elevation) / STANDARD_TEMPERATURE) ** _EXPONENT


@formula(
    result="density",
    equation=r"\rho = \frac{p_\mathrm{std}}{R T_\mathrm{std}}"
    r" \left(1 - \frac{L H}{T_\mathrm{std}}\right)^{g / (R L) - 1}",
    source="ISO2533",
    conditions="standard day, below 11 km, dry air",
)
def density(elevation: Values) -> Values:
    """Density of the standard atmosphere.

    Parameters
    ----------
    elevation : float or array [m]
        Geopotential height above sea level, -5000 to 11000.

    Returns
    -------
    float or array of the same shape [kg/m^3]
        Density.

    Raises
    ------
    OutOfRangeError
        If an elevation is outside -5000 to 11000 m, where the law changes.

    Notes
    -----
    Density falls more slowly than pressure, since higher air is colder too.

    Examples
    --------
    >>> round(density(1500.0), 5)
    1.05807

    References
    ----------
    ISO2533, clause 2; USSA1976, eq. 42.
    """
    return pressure(elevation) / (AIR_GAS_CONSTANT * temperature(elevation))


@formula(
    result="elevation",
    equation=r"H = \frac{T_\mathrm{std}}{L} \left[1 - \left(\frac{p}{p_\mathrm{std}}\right)^{R L / g}\right]",
    source="ISO2533",
    conditions="standard day, below 11 km",
)
def elevation(pressure: Values) -> Values:
    """Elevation at which the standard atmosphere has a given pressure.

    Parameters
    ----------
    pressure : float or array [Pa]
        Absolute pressure.

    Returns
    -------
    float or array of the same shape [m]
        Geopotential height above sea level (pressure altitude); `nan` outside -5000 to 11000 m.

    Raises
    ------
    OutOfRangeError
        If a pressure is not above zero.

    Notes
    -----
    A pressure that belongs outside -5000 to 11000 m gives `nan` and a `RangeWarning`.

    Examples
    --------
    >>> round(elevation(84_556.0), 1)
    1500.0

    References
    ----------
    ISO2533, clause 2; USSA1976, eq. 33a.
    """
    height = STANDARD_TEMPERATURE / STANDARD_LAPSE_RATE * (1 - (pressure / STANDARD_PRESSURE) ** (1 / _EXPONENT))
    lowest, highest = KINDS["elevation"].low, KINDS["elevation"].high
    if np.any((height < lowest) | (height > highest)):
        warn_at_caller("the pressure belongs to no elevation from -5000 to 11000 m; check its unit.")
    return defined((height >= lowest) & (height <= highest), height)


@formula(
    result="station_pressure",
    equation=r"p_\mathrm{station} = p_\mathrm{sea} \left(1 - \frac{L H}{T_\mathrm{std}}\right)^{g / (R L)}",
    source="ISO2533",
    conditions="ratio of the standard atmosphere, below 11 km",
)
def station_pressure(sea_level_pressure: Values, elevation: Values) -> Values:
    """Station pressure behind a barometer reading that was corrected to sea level.

    Parameters
    ----------
    sea_level_pressure : float or array [Pa]
        Barometer reading corrected to sea level, as a weather report gives it.
    elevation : float or array [m]
        Geopotential height above sea level, -5000 to 11000.

    Returns
    -------
    float or array of the broadcast shape [Pa]
        Absolute pressure where you stand.

    Raises
    ------
    OutOfRangeError
        If a pressure is not above zero or an elevation is outside -5000 to 11000 m.

    Notes
    -----
    The rule is the ratio of the standard atmosphere: station over sea-level pressure is taken as on
    a standard day. Weather services use the day's temperature as well, so on a hot or cold day high
    up the result can be off by 1 or 2 %. An open barometer at the engine is always better.

    Examples
    --------
    >>> round(station_pressure(101_759.0, 1082.04))
    89365

    References
    ----------
    ISO2533, clause 2; USSA1976, eq. 33a.
    """
    return sea_level_pressure * pressure(elevation) / STANDARD_PRESSURE
