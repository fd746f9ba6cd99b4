"""Air for the fuel: how much a fuel needs, and how much power the air of an engine would allow."""

from turbomath.table.formulas import defined, formula
from turbomath.table.kinds_of_value import Values

_CARBON, _HYDROGEN, _OXYGEN = 12.011, 1.008, 31.998  # g/mol, oxygen as the molecule
_NITROGEN_PER_OXYGEN, _NITROGEN = 3.7733, 28.16  # mol per mol, and g/mol of all that is not oxygen in air


@formula(
    result="stoichiometric_air_fuel_ratio",
    equation=r"\mathrm{AFR}_\mathrm{st} = \left(1 + \frac{y}{4}\right) \frac{138.25}{12.011 + 1.008 \, y}",
    source="Heywood",
    conditions="fuel of carbon and hydrogen only, dry air",
)
def stoichiometric_air_fuel_ratio(hydrogen_carbon_ratio: Values) -> Values:
    """Air that burns a kilogram of fuel with nothing left over.

    Parameters
    ----------
    hydrogen_carbon_ratio : float or array [-]
        Hydrogen atoms in the fuel for each carbon atom; about 1.8 for diesel.

    Returns
    -------
    float or array of the same shape [-]
        Stoichiometric air-fuel ratio, by mass.

    Raises
    ------
    OutOfRangeError
        If a ratio is not above zero.

    Notes
    -----
    The 138.25 is a mole of oxygen, 31.998, with the 3.7733 moles of 28.16 that come with it in air. A fuel
    with oxygen in it, such as biodiesel, needs less air than this.

    Examples
    --------
    >>> round(stoichiometric_air_fuel_ratio(1.8), 2)
    14.5

    References
    ----------
    Heywood, section 3.4, eq. 3.6.
    """
    air = _OXYGEN + _NITROGEN_PER_OXYGEN * _NITROGEN
    return (1 + hydrogen_carbon_ratio / 4) * air / (_CARBON + _HYDROGEN * hydrogen_carbon_ratio)


@formula(
    result="air_fuel_ratio",
    equation=r"\mathrm{AFR} = \frac{\dot m}{\dot m_\mathrm{fuel}}",
    source="Heywood",
    conditions="dry air and fuel over the same time",
)
def air_fuel_ratio(mass_flow: Values, fuel_flow: Values) -> Values:
    """Kilograms of air with each kilogram of fuel.

    Parameters
    ----------
    mass_flow : float or array [kg/s]
        Air drawn in by the engine.
    fuel_flow : float or array [kg/s]
        Fuel burnt.

    Returns
    -------
    float or array of the broadcast shape [-]
        Air-fuel ratio; `nan` without fuel.

    Raises
    ------
    OutOfRangeError
        If a flow is below zero.

    Notes
    -----
    Count dry air: water vapour burns nothing.

    Examples
    --------
    >>> round(air_fuel_ratio(0.4634, 0.018648), 2)
    24.85

    References
    ----------
    Heywood, section 2.9.
    """
    return defined(fuel_flow > 0, mass_flow / fuel_flow)


@formula(
    result="excess_air_ratio",
    equation=r"\lambda = \frac{\mathrm{AFR}}{\mathrm{AFR}_\mathrm{st}}",
    source="Heywood",
    conditions="both ratios by mass",
)
def excess_air_ratio(air_fuel_ratio: Values, stoichiometric_air_fuel_ratio: Values) -> Values:
    """Air-fuel ratio over the one that leaves nothing over.

    Parameters
    ----------
    air_fuel_ratio : float or array [-]
        Kilograms of air with each kilogram of fuel.
    stoichiometric_air_fuel_ratio : float or array [-]
        Air that burns a kilogram of this fuel with nothing left over.

    Returns
    -------
    float or array of the broadcast shape [-]
        Excess air ratio.

    Raises
    ------
    OutOfRangeError
        If a ratio is not above zero.

    Notes
    -----
    A ratio of 1.6 is 60 % of air to spare. Its inverse is the fuel-air equivalence ratio.

    Examples
    --------
    >>> round(excess_air_ratio(24.8, 14.5), 2)
    1.71

    References
    ----------
    Heywood, section 3.4.
    """
    return air_fuel_ratio / stoichiometric_air_fuel_ratio


@formula(
    result="power_potential",
    equation=r"P_\mathrm{air} = \frac{\dot m}{\mathrm{AFR} \; b}",
    source="Heywood",
    conditions="all the fuel that this air-fuel ratio leaves room for is burnt",
)
def power_potential(mass_flow: Values, air_fuel_ratio: Values, specific_fuel_consumption: Values) -> Values:
    """Power that a flow of air allows at a given air-fuel ratio.

    Parameters
    ----------
    mass_flow : float or array [kg/s]
        Air drawn in by the engine.
    air_fuel_ratio : float or array [-]
        Kilograms of air with each kilogram of fuel; at the smoke limit about 19 (common practice).
    specific_fuel_consumption : float or array [kg/J]
        Fuel burnt for each unit of work at the crankshaft.

    Returns
    -------
    float or array of the broadcast shape [W]
        Power that the air allows; `nan` where no fuel is used.

    Raises
    ------
    OutOfRangeError
        If a flow or consumption is below zero, or an air-fuel ratio not above zero.

    Notes
    -----
    What the air allows, not what the engine stands: cylinder pressure, heat and shaft speed set their
    own limits, and the maker's rating is below them all.

    Examples
    --------
    >>> round(power_potential(0.45359, 24.0, 5.8293e-8))
    324217

    References
    ----------
    Heywood, section 2.14, eq. 2.39.
    """
    fuel = air_fuel_ratio * specific_fuel_consumption
    return defined(fuel > 0, mass_flow / fuel)
