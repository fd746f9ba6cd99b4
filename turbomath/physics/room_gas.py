"""CO2 in a room: what an emptied extinguisher does to its air; for the safety part only, and never as a procedure.

Fully mixed is the kindest case. CO2 is heavier than air, so it is thicker near the floor and where it comes out. The
numbers say why people leave; they say nobody how to use CO2. Local codes and trained people decide.
"""

from turbomath.table.constants import MOLAR_GAS_CONSTANT
from turbomath.table.formulas import formula
from turbomath.table.kinds_of_value import Values

CARBON_DIOXIDE_MOLAR_MASS = 0.0440095  # kg/mol
OXYGEN_IN_DRY_AIR = 0.2095  # by volume


@formula(
    result="carbon_dioxide_share",
    equation=r"y_\mathrm{CO_2} = \frac{V}{V + V_\mathrm{room}}, \quad "
    r"V = \frac{m}{M_\mathrm{CO_2}} \frac{R_\mathrm{m} T}{p}",
    source="Heywood",
    conditions="ideal gas, fully mixed, no ventilation, what is pushed out is fresh air",
    where={
        "V": "volume of the gas let out",
        r"M_\mathrm{CO_2}": f"molar mass of carbon dioxide, {CARBON_DIOXIDE_MOLAR_MASS} kg/mol",
    },
)
def carbon_dioxide_share(gas_mass: Values, room_volume: Values, pressure: Values, temperature: Values) -> Values:
    """Share of carbon dioxide by volume in the air of a room into which an extinguisher was emptied.

    Parameters
    ----------
    gas_mass : float or array [kg]
        Carbon dioxide let out.
    room_volume : float or array [m^3]
        Free volume of the room.
    pressure : float or array [Pa]
        Air pressure in the room, absolute.
    temperature : float or array [K]
        Air temperature in the room.

    Returns
    -------
    float or array of the broadcast shape [-]
        Share by volume; 0.04 is 40,000 ppm.

    Raises
    ------
    OutOfRangeError
        If the mass is below zero, or another argument not above zero.

    Notes
    -----
    Fully mixed is the kindest case: near the floor and near the nozzle there is more. Snow from the horn that has not
    yet turned to gas comes later.

    Examples
    --------
    >>> round(carbon_dioxide_share(4.536, 50.0, 101_325.0, 293.15), 3)
    0.047

    References
    ----------
    Heywood, section 3.2, ideal gas mixtures.
    """
    volume = gas_mass / CARBON_DIOXIDE_MOLAR_MASS * MOLAR_GAS_CONSTANT * temperature / pressure
    return volume / (volume + room_volume)


@formula(
    result="oxygen_share",
    equation=r"y_\mathrm{O_2} = 0.2095 \left(1 - y_\mathrm{CO_2}\right)",
    source="Heywood",
    conditions="dry air",
)
def oxygen_share(carbon_dioxide_share: Values) -> Values:
    """Share of oxygen by volume that is left beside the carbon dioxide.

    Parameters
    ----------
    carbon_dioxide_share : float or array [-]
        Share by volume, 0 to 1.

    Returns
    -------
    float or array of the same shape [-]
        Share of oxygen by volume.

    Raises
    ------
    OutOfRangeError
        If the share is not from 0 to 1.

    Notes
    -----
    At 4 % of carbon dioxide, which is immediately dangerous, an oxygen meter still shows 20.1 %. It does not warn.

    Examples
    --------
    >>> round(oxygen_share(0.04), 3)
    0.201

    References
    ----------
    Heywood, section 3.2, ideal gas mixtures.
    """
    return OXYGEN_IN_DRY_AIR * (1 - carbon_dioxide_share)
