"""The same aftercooler at other flows and with dirt in it: its conductance (UA) and its pressure loss."""

from turbomath.table.formulas import formula
from turbomath.table.kinds_of_value import Values

# How a film's conductance grows with its flow
_IN_TUBES = 0.8  # turbulent flow in tubes and channels
_ACROSS_FINS = 0.6  # air across rows of tubes and fins


@formula(
    result="conductance",
    equation=r"UA_\mathrm{now} = \frac{UA}{s_\mathrm{charge} \, r_\mathrm{charge}^{-0.8} + \left(1 -"
    r" s_\mathrm{charge}\right) r_\mathrm{medium}^{-0.6}}",
    source="Incropera",
    conditions="turbulent flow in the tubes, air across the fins, thin walls",
    where={
        r"UA_\mathrm{now}": "conductance at these flows",
    },
)
def conductance_at_flows(
    conductance: Values, charge_flow_ratio: Values, medium_flow_ratio: Values, charge_side_share: Values
) -> Values:
    """Conductance (UA) of the same core at other flows.

    Parameters
    ----------
    conductance : float or array [W/K]
        Conductance at the known point.
    charge_flow_ratio : float or array [-]
        Mass flow of the charge over that of the known point.
    medium_flow_ratio : float or array [-]
        Flow of the cooling medium over that of the known point.
    charge_side_share : float or array [-]
        Share of the core's thermal resistance on the charge side at the known point, 0 to 1; about half
        for air on both sides, about 0.9 for water on the other (common practice).

    Returns
    -------
    float or array of the broadcast shape [W/K]
        Conductance now.

    Raises
    ------
    OutOfRangeError
        If a conductance or a flow ratio is not above zero, or the share outside 0 to 1.

    Notes
    -----
    Each film conducts as its flow to the power 0.8 in tubes, 0.6 across fins; films in a row add their
    resistances. The rule is for changes of a few times, not for still air.

    Examples
    --------
    >>> round(conductance_at_flows(1000.0, 0.5, 1.0, 0.5))
    730

    References
    ----------
    Incropera, ch. 8, eq. 8.60, and ch. 7, eq. 7.58.
    """
    charge_side = charge_side_share * charge_flow_ratio**-_IN_TUBES
    return conductance / (charge_side + (1 - charge_side_share) * medium_flow_ratio**-_ACROSS_FINS)


@formula(
    result="conductance",
    equation=r"UA_\mathrm{dirty} = \frac{UA}{1 + f_\mathrm{dirt}}",
    source="Incropera",
    conditions="dirt as one more resistance in a row",
    where={
        r"UA_\mathrm{dirty}": "conductance with the dirt",
    },
)
def fouled_conductance(conductance: Values, fouling_ratio: Values) -> Values:
    """Conductance (UA) of a core with dirt on it.

    Parameters
    ----------
    conductance : float or array [W/K]
        Conductance of the clean core.
    fouling_ratio : float or array [-]
        Thermal resistance of the dirt over that of the clean core, 0 or more.

    Returns
    -------
    float or array of the broadcast shape [W/K]
        Conductance with the dirt.

    Raises
    ------
    OutOfRangeError
        If a conductance is not above zero or a fouling ratio below zero.

    Notes
    -----
    Dirt also blocks the way of the air: then the flow of the medium falls too.

    Examples
    --------
    >>> fouled_conductance(1000.0, 0.25)
    800.0

    References
    ----------
    Incropera, ch. 11, section 11.2.
    """
    return conductance / (1 + fouling_ratio)


@formula(
    result="cooler_pressure_loss",
    equation=r"\Delta p_\mathrm{now} = \Delta p_\mathrm{cooler} \, \frac{r_\mathrm{charge}^2}{r_\rho}",
    source="KaysLondon",
    conditions="turbulent flow, friction factor unchanged",
    where={
        r"\Delta p_\mathrm{now}": "pressure loss at this flow",
    },
)
def pressure_loss_at_flow(
    cooler_pressure_loss: Values, charge_flow_ratio: Values, charge_density_ratio: Values
) -> Values:
    """Pressure loss of the same core at another flow and density of the charge.

    Parameters
    ----------
    cooler_pressure_loss : float or array [Pa]
        Pressure loss at the known point.
    charge_flow_ratio : float or array [-]
        Mass flow of the charge over that of the known point.
    charge_density_ratio : float or array [-]
        Mean density in the core over that of the known point.

    Returns
    -------
    float or array of the broadcast shape [Pa]
        Pressure loss now.

    Raises
    ------
    OutOfRangeError
        If a ratio is not above zero.

    Notes
    -----
    Twice the flow loses four times the pressure. Real cores come a little lower: their friction factor
    falls with flow.

    Examples
    --------
    >>> round(pressure_loss_at_flow(12_411.0, 0.7, 1.0))
    6081

    References
    ----------
    KaysLondon, ch. 2, eq. 2-26a.
    """
    return cooler_pressure_loss * charge_flow_ratio**2 / charge_density_ratio
