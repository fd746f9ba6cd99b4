"""The charge: how much air a cubic metre holds, which is what an engine breathes."""

from turbomath.table.constants import AIR_GAS_CONSTANT
from turbomath.table.formulas import formula
from turbomath.table.kinds_of_value import Values


@formula(
    result="density",
    equation=r"\rho = \frac{p}{R T}",
    source="ISO2533",
    conditions="perfect gas, dry air",
)
def density(pressure: Values, temperature: Values) -> Values:
    """Density of air.

    Parameters
    ----------
    pressure : float or array [Pa]
        Absolute pressure.
    temperature : float or array [K]
        Temperature.

    Returns
    -------
    float or array of the broadcast shape [kg/m^3]
        Density.

    Raises
    ------
    OutOfRangeError
        If a pressure or temperature is not above zero.

    Notes
    -----
    R = 287.05287 J/(kg K). Real dry air is within 0.2 % of this up to 0.4 MPa and from 288 to 500 K;
    moist air is a little lighter.

    Examples
    --------
    >>> round(density(248_535.0, 327.59), 3)
    2.643

    References
    ----------
    ISO2533, clause 2.
    """
    return pressure / (AIR_GAS_CONSTANT * temperature)


@formula(
    result="pressure",
    equation=r"p = \rho R T",
    source="ISO2533",
    conditions="perfect gas, dry air",
)
def pressure(density: Values, temperature: Values) -> Values:
    """Pressure that gives air a wanted density.

    Parameters
    ----------
    density : float or array [kg/m^3]
        Density.
    temperature : float or array [K]
        Temperature.

    Returns
    -------
    float or array of the broadcast shape [Pa]
        Absolute pressure.

    Raises
    ------
    OutOfRangeError
        If a density or temperature is not above zero.

    Notes
    -----
    It answers how much boost hot air needs to be as dense as cooled air: subtract the barometer.

    Examples
    --------
    >>> round(pressure(2.643, 438.71))
    332841

    References
    ----------
    ISO2533, clause 2.
    """
    return density * AIR_GAS_CONSTANT * temperature


@formula(
    result="density_gain",
    equation=r"G_\rho = \frac{p_\mathrm{out}}{p_\mathrm{in}} \, \frac{T_\mathrm{in}}{T_\mathrm{out}} - 1",
    source="ISO2533",
    conditions="perfect gas",
)
def density_gain(
    inlet_pressure: Values, inlet_temperature: Values, outlet_pressure: Values, outlet_temperature: Values
) -> Values:
    """How much denser the charge leaves than it came in.

    Parameters
    ----------
    inlet_pressure : float or array [Pa]
        Absolute pressure at the inlet.
    inlet_temperature : float or array [K]
        Temperature at the inlet.
    outlet_pressure : float or array [Pa]
        Absolute pressure at the outlet.
    outlet_temperature : float or array [K]
        Temperature at the outlet.

    Returns
    -------
    float or array of the broadcast shape [-]
        Density ratio less 1, as a fraction; negative where the charge leaves thinner.

    Raises
    ------
    OutOfRangeError
        If a pressure or temperature is not above zero.

    Notes
    -----
    Across an aftercooler this is what cooling gains in density, its pressure loss allowed for; from
    ambient to manifold it is the whole gain in charge. Say which is meant.

    Examples
    --------
    >>> round(density_gain(260_946.0, 438.71, 248_535.0, 327.59), 3)
    0.276

    References
    ----------
    ISO2533, clause 2.
    """
    return outlet_pressure / inlet_pressure * inlet_temperature / outlet_temperature - 1
