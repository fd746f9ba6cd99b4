"""Fuel burnt: weighed, worked out, for each unit of work, and in each working cycle."""

from turbomath.table.formulas import choice, defined, formula
from turbomath.table.kinds_of_value import Values

_CYCLES_PER_TURN = {2: 1.0, 4: 0.5}  # strokes of a working cycle -> cycles for each turn of the crankshaft


@formula(
    result="fuel_flow",
    equation=r"\dot m_\mathrm{fuel} = P b",
    source="Heywood",
    conditions="power and specific consumption at the crankshaft",
)
def fuel_flow(power: Values, specific_fuel_consumption: Values) -> Values:
    """Fuel that an engine burns at a power.

    Parameters
    ----------
    power : float or array [W]
        Power at the crankshaft.
    specific_fuel_consumption : float or array [kg/J]
        Fuel burnt for each unit of work at the crankshaft.

    Returns
    -------
    float or array of the broadcast shape [kg/s]
        Fuel flow.

    Raises
    ------
    OutOfRangeError
        If a specific fuel consumption is below zero.

    Notes
    -----
    1 lb/(hp h) is 608.3 g/(kW h).

    Examples
    --------
    >>> round(3600 * fuel_flow(320_651.0, 5.8293e-8), 2)
    67.29

    References
    ----------
    Heywood, section 2.8, eq. 2.22.
    """
    return power * specific_fuel_consumption


@formula(
    result="fuel_flow",
    equation=r"\dot m_\mathrm{fuel} = \frac{m_\mathrm{fuel}}{t_\mathrm{fuel}}",
    source="CommonPractice",
    conditions="steady load while the fuel is weighed",
)
def weighed_fuel_flow(fuel_mass: Values, fuel_time: Values) -> Values:
    """Fuel flow from a scale and a stopwatch.

    Parameters
    ----------
    fuel_mass : float or array [kg]
        Fuel weighed out of the can.
    fuel_time : float or array [s]
        Time in which it was burnt.

    Returns
    -------
    float or array of the broadcast shape [kg/s]
        Fuel flow; `nan` for no time at all.

    Raises
    ------
    OutOfRangeError
        If a mass or a time is below zero.

    Notes
    -----
    What returns from the injectors must run back into the same can.

    Examples
    --------
    >>> round(3600 * weighed_fuel_flow(2.268, 126.0), 2)
    64.8

    References
    ----------
    CommonPractice, section on weighing fuel.
    """
    return defined(fuel_time > 0, fuel_mass / fuel_time)


@formula(
    result="specific_fuel_consumption",
    equation=r"b = \frac{\dot m_\mathrm{fuel}}{P}",
    source="Heywood",
    conditions="fuel and power over the same time",
)
def specific_consumption(fuel_flow: Values, power: Values) -> Values:
    """Fuel burnt for each unit of work at the crankshaft.

    Parameters
    ----------
    fuel_flow : float or array [kg/s]
        Fuel burnt.
    power : float or array [W]
        Power at the crankshaft.

    Returns
    -------
    float or array of the broadcast shape [kg/J]
        Specific fuel consumption; `nan` where the engine gives no power.

    Raises
    ------
    OutOfRangeError
        If a fuel flow is below zero.

    Notes
    -----
    3.6e9 times this number is g/(kW h).

    Examples
    --------
    >>> round(3.6e9 * specific_consumption(0.018, 307_228.0), 1)
    210.9

    References
    ----------
    Heywood, section 2.8, eq. 2.22.
    """
    return defined(power > 0, fuel_flow / power)


@formula(
    result="fuel_delivery",
    equation=r"q_\mathrm{fuel} = \frac{\dot m_\mathrm{fuel} \, n_\mathrm{strokes}}{2 \, V_\mathrm{d} \, N}",
    source="ISO1585",
    conditions="all cylinders together",
)
def fuel_delivery(fuel_flow: Values, displacement: Values, engine_speed: Values, strokes: int = 4) -> Values:
    """Fuel in a working cycle for each cubic metre of displacement, as power correction takes it.

    Parameters
    ----------
    fuel_flow : float or array [kg/s]
        Fuel burnt.
    displacement : float or array [m^3]
        Volume swept by all pistons.
    engine_speed : float or array [rev/s]
        Turns of the crankshaft.
    strokes : int [-]
        Strokes of one working cycle, 2 or 4.

    Returns
    -------
    float or array of the broadcast shape [kg/m^3]
        Fuel delivery; the standard prints it in mg for each litre and cycle, a thousand times this number.

    Raises
    ------
    OutOfRangeError
        If a displacement is not above zero, a flow or speed is below zero, or the strokes are
        neither 2 nor 4.

    Notes
    -----
    `nan` for an engine that stands still.

    Examples
    --------
    >>> round(1000 * fuel_delivery(0.0513, 0.045, 20.0), 1)
    114.0

    References
    ----------
    ISO1585, section 6; MathurSharma, ch. 27.
    """
    cycles = engine_speed * choice("strokes", strokes, _CYCLES_PER_TURN)
    return defined(cycles > 0, fuel_flow / (displacement * cycles))
