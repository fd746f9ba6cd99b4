"""Moist air: dry air and water vapour together, as two perfect gases that do not feel each other."""

from turbomath.table.constants import AIR_GAS_CONSTANT, VAPOUR_GAS_CONSTANT, VAPOUR_MASS_RATIO
from turbomath.table.formulas import formula
from turbomath.table.kinds_of_value import Values


@formula(
    result="gas_constant",
    equation=r"R_\mathrm{mix} = \frac{R + w R_\mathrm{v}}{1 + w}",
    source="ASHRAE2017",
    conditions="ideal mixture",
)
def gas_constant(humidity_ratio: Values) -> Values:
    """Gas constant of moist air.

    Parameters
    ----------
    humidity_ratio : float or array [kg/kg]
        Water vapour with each kilogram of dry air.

    Returns
    -------
    float or array of the same shape [J/(kg K)]
        Gas constant for each kilogram of the mixture.

    Raises
    ------
    OutOfRangeError
        If a humidity ratio is below zero.

    Notes
    -----
    Ideal mixture. Vapour is lighter than air, so moist air has the larger gas constant.

    Examples
    --------
    >>> round(gas_constant(0.02), 2)
    290.47

    References
    ----------
    ASHRAE2017, ch. 1, section on perfect gas relationships.
    """
    return (AIR_GAS_CONSTANT + humidity_ratio * VAPOUR_GAS_CONSTANT) / (1 + humidity_ratio)


@formula(
    result="dry_air_density",
    equation=r"\rho_\mathrm{dry} = \frac{p}{R T \left(1 + w R_\mathrm{v} / R\right)}",
    source="ASHRAE2017",
    conditions="ideal mixture, all water as vapour",
)
def dry_air_density(pressure: Values, temperature: Values, humidity_ratio: Values) -> Values:
    """Mass of dry air in a cubic metre of moist air: the part that can burn fuel.

    Parameters
    ----------
    pressure : float or array [Pa]
        Absolute pressure of the mixture.
    temperature : float or array [K]
        Temperature.
    humidity_ratio : float or array [kg/kg]
        Water vapour with each kilogram of dry air.

    Returns
    -------
    float or array of the broadcast shape [kg/m^3]
        Density of the dry air alone.

    Raises
    ------
    OutOfRangeError
        If a pressure or temperature is not above zero, or a humidity ratio is below zero.

    Notes
    -----
    Ideal mixture. Charge air at 0.4 MPa is within about 0.2 % of it.

    Examples
    --------
    >>> round(dry_air_density(95_461.0, 303.15, 0.02), 4)
    1.0628

    References
    ----------
    ASHRAE2017, ch. 1, eq. 26.
    """
    return pressure / (AIR_GAS_CONSTANT * temperature * (1 + humidity_ratio / VAPOUR_MASS_RATIO))


@formula(
    result="density",
    equation=r"\rho = \frac{p (1 + w)}{R T \left(1 + w R_\mathrm{v} / R\right)}",
    source="ASHRAE2017",
    conditions="ideal mixture, all water as vapour",
)
def density(pressure: Values, temperature: Values, humidity_ratio: Values) -> Values:
    """Density of moist air, dry air and vapour together.

    Parameters
    ----------
    pressure : float or array [Pa]
        Absolute pressure of the mixture.
    temperature : float or array [K]
        Temperature.
    humidity_ratio : float or array [kg/kg]
        Water vapour with each kilogram of dry air.

    Returns
    -------
    float or array of the broadcast shape [kg/m^3]
        Density.

    Raises
    ------
    OutOfRangeError
        If a pressure or temperature is not above zero, or a humidity ratio is below zero.

    Notes
    -----
    Ideal mixture: about 0.04 % below the real density at the engine's surroundings. Moist air is
    lighter than dry air at equal pressure and temperature.

    Examples
    --------
    >>> round(density(95_461.0, 303.15, 0.02), 4)
    1.0841

    References
    ----------
    ASHRAE2017, ch. 1, eq. 11.
    """
    return dry_air_density(pressure, temperature, humidity_ratio) * (1 + humidity_ratio)
