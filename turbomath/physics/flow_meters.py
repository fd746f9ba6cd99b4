"""Air flow from a drop of pressure: an orifice plate, or a laminar-flow element."""

import numpy as np

from turbomath.physics.orifice import discharge_coefficient, expansibility_factor
from turbomath.table.constants import AIR_HEAT_CAPACITY_RATIO
from turbomath.table.errors import unwarned
from turbomath.table.formulas import defined, formula
from turbomath.table.kinds_of_value import Values

SUTHERLAND_FACTOR = 1.458e-6  # kg/(s m K^0.5)
SUTHERLAND_TEMPERATURE = 110.4  # K
_ROUNDS = 15  # each leaves less than a sixth of the error of the one before
_SLOWEST = 2e3  # Reynolds number, far below what the standard covers; slower, its coefficient runs away


@formula(
    result="dynamic_viscosity",
    equation=r"\mu = b \, \frac{T^{3/2}}{T + S}, \quad b = 1.458 \; 10^{-6}, \quad S = 110.4",
    source="USSA1976",
    conditions="dry air at ordinary pressures; in Pa s and K",
    where={"b": "factor of Sutherland [kg/(s m K^0.5)]", "S": "temperature of Sutherland [K]"},
)
def air_viscosity(temperature: Values) -> Values:
    """How hard air is to shear, by the law of Sutherland.

    Parameters
    ----------
    temperature : float or array [K]
        Temperature of the air.

    Returns
    -------
    float or array of the same shape [Pa s]
        Dynamic viscosity.

    Raises
    ------
    OutOfRangeError
        If a temperature is not above zero.

    Notes
    -----
    Pressure hardly matters. Warm moist air is up to 1 % less viscous than dry air.

    Examples
    --------
    >>> round(air_viscosity(298.15) * 1e6, 2)
    18.37

    References
    ----------
    USSA1976, eq. 51.
    """
    return SUTHERLAND_FACTOR * temperature**1.5 / (temperature + SUTHERLAND_TEMPERATURE)


@formula(
    result="reynolds_number",
    equation=r"\mathrm{Re} = \frac{\dot m}{A} \frac{D}{\mu}, \quad A = \frac{\pi}{4} D^2",
    source="ISO5167-2",
    conditions="round pipe, full of the flow",
    where={"A": "area of the pipe", r"\pi": "3.14159"},
)
def pipe_reynolds_number(mass_flow: Values, pipe_diameter: Values, dynamic_viscosity: Values) -> Values:
    """Reynolds number of the flow in a pipe.

    Parameters
    ----------
    mass_flow : float or array [kg/s]
        Flow through the pipe.
    pipe_diameter : float or array [m]
        Inside diameter of the pipe.
    dynamic_viscosity : float or array [Pa s]
        Of the air, see `air_viscosity`.

    Returns
    -------
    float or array of the broadcast shape [-]
        Reynolds number; `nan` without flow.

    Raises
    ------
    OutOfRangeError
        If a flow is below zero, or a diameter or viscosity not above zero.

    Notes
    -----
    Above some 4,000 the flow is turbulent, as an orifice needs it.

    Examples
    --------
    >>> round(pipe_reynolds_number(0.45, 0.15, 1.837e-5))
    207932

    References
    ----------
    ISO5167-2, section 4.
    """
    return defined(mass_flow > 0, 4 * mass_flow / (np.pi * pipe_diameter * dynamic_viscosity))


@formula(
    result="mass_flow",
    equation=r"\dot m = C(\beta, \mathrm{Re}) \, \varepsilon_\mathrm{gas}\left(\beta, \Delta p_\mathrm{meter} / p,"
    r" \gamma\right) \, \frac{\pi}{4} d_\mathrm{bore}^2"
    r" \sqrt{\frac{2 \, \Delta p_\mathrm{meter} \, \rho}{1 - \beta^4}},"
    r" \quad \beta = \frac{d_\mathrm{bore}}{D}, \quad \mathrm{Re} = \frac{4 \dot m}{\pi D \mu}",
    source="ISO5167-2",
    conditions="all of the air before the plate; coefficient and flow are found together",
    where={
        "C": "discharge_coefficient",
        r"\beta": "diameter_ratio",
        r"\varepsilon_\mathrm{gas}": "expansibility_factor",
        r"\mathrm{Re}": "reynolds_number",
        r"\pi": "3.14159",
    },
)
def orifice_mass_flow(
    air_meter_pressure_drop: Values,
    pressure: Values,
    density: Values,
    dynamic_viscosity: Values,
    pipe_diameter: Values,
    bore_diameter: Values,
    tappings: str = "corner",
    heat_capacity_ratio: Values = AIR_HEAT_CAPACITY_RATIO,
) -> Values:
    """Mass flow through an orifice plate.

    Parameters
    ----------
    air_meter_pressure_drop : float or array [Pa]
        Drop between the tappings.
    pressure : float or array [Pa]
        Absolute pressure before the plate.
    density : float or array [kg/m^3]
        Density of the air before the plate.
    dynamic_viscosity : float or array [Pa s]
        Of the air, see `air_viscosity`.
    pipe_diameter : float or array [m]
        Inside diameter of the pipe before the plate.
    bore_diameter : float or array [m]
        Diameter of the hole.
    tappings : str
        Where the drop is taken: "corner", "D and D/2" or "flange".
    heat_capacity_ratio : float or array [-]
        Of the gas, 1.4 for air.

    Returns
    -------
    float or array of the broadcast shape [kg/s]
        Mass flow; `nan` where the drop is not above zero, or the bore not smaller than the pipe.

    Raises
    ------
    OutOfRangeError
        If an argument but the drop is not above zero, or the tappings are none of those listed.

    Notes
    -----
    Outside the limits of the standard there is a `RangeWarning`.

    Examples
    --------
    >>> round(orifice_mass_flow(2_000.0, 98_000.0, 1.14, 1.837e-5, 0.15, 0.09, "flange"), 4)
    0.279

    References
    ----------
    ISO5167-2, section 5.3.
    """
    ratio, drop = bore_diameter / pipe_diameter, defined(air_meter_pressure_drop > 0, air_meter_pressure_drop)
    ratio = defined(ratio < 1, ratio)
    expansion = expansibility_factor(drop, pressure, ratio, heat_capacity_ratio)
    without = expansion * np.pi / 4 * bore_diameter**2 * np.sqrt(2 * drop * density / (1 - ratio**4))
    coefficient = 0.6
    with unwarned():
        for _ in range(_ROUNDS):
            reynolds = pipe_reynolds_number(coefficient * without, pipe_diameter, dynamic_viscosity)
            reynolds = np.maximum(reynolds, _SLOWEST)
            coefficient = discharge_coefficient(ratio, reynolds, pipe_diameter, tappings)
    return discharge_coefficient(ratio, reynolds, pipe_diameter, tappings) * without


@formula(
    result="volume_flow",
    equation=r"\dot V = K_\mathrm{laminar} \, \Delta p_\mathrm{meter} \, \frac{\mu(T_\mathrm{ref})}{\mu(T)},"
    r" \quad \mu(T) = b \, \frac{T^{3/2}}{T + S}",
    source="CommonPractice",
    conditions="laminar flow; volume at the pressure and temperature before the element",
    where={r"\mu": "dynamic_viscosity", "b": "factor of Sutherland", "S": "110.4 K"},
)
def laminar_volume_flow(
    air_meter_pressure_drop: Values, temperature: Values, laminar_flow_constant: Values, reference_temperature: Values
) -> Values:
    """Volume of air through a laminar-flow element, by the maker's constant.

    Parameters
    ----------
    air_meter_pressure_drop : float or array [Pa]
        Drop across the element.
    temperature : float or array [K]
        Temperature of the air before the element.
    laminar_flow_constant : float or array [m^3/(s Pa)]
        Volume flow for each unit of drop, from the maker's sheet.
    reference_temperature : float or array [K]
        Temperature of the air for which the constant holds.

    Returns
    -------
    float or array of the broadcast shape [m^3/s]
        Volume flow; `nan` where the drop is not above zero.

    Raises
    ------
    OutOfRangeError
        If a temperature or the constant is not above zero.

    Notes
    -----
    In narrow passages the drop grows with the flow itself, not with its square, and with viscosity (Hagen-Poiseuille).

    Examples
    --------
    >>> round(laminar_volume_flow(1_500.0, 310.0, 2.4e-4, 294.26), 4)
    0.3459

    References
    ----------
    CommonPractice, section of makers' sheets; USSA1976, eq. 51.
    """
    thinner = air_viscosity(reference_temperature) / air_viscosity(temperature)
    return defined(air_meter_pressure_drop > 0, laminar_flow_constant * air_meter_pressure_drop * thinner)
