"""Boost from the balance of turbine and compressor: what a turbocharged engine settles at, for a fuel flow or a load.

The equations are in `gas_path`, the engines in `turbocharged_engine`, and a way to follow by hand in `guessing`.
"""

from dataclasses import dataclass, fields
from types import SimpleNamespace

import numpy as np
from numpy.typing import NDArray

from turbomath.engine import settling, wheels
from turbomath.engine.turbocharged_engine import TurbochargedEngine
from turbomath.table.errors import OutOfRangeError
from turbomath.table.formulas import check_shapes
from turbomath.table.kinds_of_value import Values
from turbomath.table.quantities import possible
from turbomath.table.records import Record
from turbomath.table.unusual import warn_of_unusual

STAND_INS = {
    "ambient_pressure": 1e5,
    "ambient_temperature": 300.0,
    "engine_speed": 30.0,
    "fuel_flow": 0.01,
    "power": 1e5,
}  # for missing readings while the others are worked out
ROUNDING = 1e-9  # of the fuel at the stop
IDLE = 1.0  # W; no consumption for each unit of work is given below it
SOLVED, TOO_MUCH, UNSOLVED = "solved", "cannot carry this load", "not solved"
BEYOND_STOP, HELD_BACK = "more fuel than the stop", "fuel held back for want of air"


@dataclass(frozen=True, repr=False)
class Balance(Record):
    """The engine at rest with itself. Each field but the last four is a quantity of the table, of the broadcast shape.

    `state` is "solved"; "cannot carry this load" (the record then is the engine at its fuel stop, or with the fuel that
    its limiter has air for); "fuel held back for want of air" (of the fuel asked for, the limiter gives what there is
    air for); "not solved"; or "more fuel than the stop", which no engine burns: nothing is told of it but its site.
    `carried` is whether the load, or the fuel, is all there;
    `converged` is whether the balances close, to `residual`, the largest share by which one does not.
    """

    HEADLINE = ("power", "boost", "turbine_inlet_temperature", "state")

    ambient_pressure: Values
    ambient_temperature: Values
    engine_speed: Values
    compressor_inlet_pressure: Values
    compressor_inlet_temperature: Values
    compressor_outlet_pressure: Values
    compressor_outlet_temperature: Values
    manifold_pressure: Values
    manifold_temperature: Values
    medium_temperature: Values
    boost: Values
    intake_restriction: Values
    cooler_pressure_loss: Values
    effectiveness: Values
    pressure_ratio: Values
    compressor_efficiency: Values
    corrected_mass_flow: Values
    tip_speed: Values
    corrected_speed: Values
    density_ratio: Values
    compressor_mass_flow: Values
    leak_mass_flow: Values
    mass_flow: Values
    fuel_flow: Values
    air_fuel_ratio: Values
    excess_air_ratio: Values
    power: Values
    torque: Values
    specific_fuel_consumption: Values
    turbine_inlet_pressure: Values
    turbine_inlet_temperature: Values
    turbine_outlet_pressure: Values
    turbine_outlet_temperature: Values
    exhaust_back_pressure: Values
    expansion_ratio: Values
    exhaust_mass_flow: Values
    wastegate_mass_flow: Values
    wastegate_opening: Values
    compressor_power: Values
    turbine_power: Values
    fuel_heat: Values
    coolant_heat: Values
    heat_rejected: Values
    exhaust_heat: Values
    leak_heat: Values
    unburnt_heat: Values
    friction_power: Values
    state: str | np.ndarray
    carried: bool | np.ndarray
    converged: bool | np.ndarray
    residual: Values


def solve(
    engine: TurbochargedEngine,
    *,
    ambient_pressure: Values,
    ambient_temperature: Values,
    engine_speed: Values,
    fuel_flow: Values | None = None,
    power: Values | None = None,
) -> Balance:
    """Where turbine and compressor, air drawn in and air delivered, fuel and load are in balance.

    Parameters
    ----------
    engine : TurbochargedEngine
        From `turbocharged_engine`; its numbers may be arrays too.
    ambient_pressure, ambient_temperature : float or array [Pa], [K]
        Station barometer and air temperature at the engine.
    engine_speed : float or array [rev/s]
        Of the crankshaft.
    fuel_flow, power : float or array [kg/s], [W]
        Exactly one of the two: the fuel given, or the load put on the crankshaft.

    Returns
    -------
    Balance
        The settled engine. A load that the fuel at the stop cannot carry is a `state`, not an error.

    Raises
    ------
    OutOfRangeError
        For impossible input, naming the argument.

    Examples
    --------
    >>> from turbomath.engine.ready_engines import AIR_TO_AIR
    >>> rated = solve(AIR_TO_AIR, ambient_pressure=98_544.0, ambient_temperature=298.15, engine_speed=30.0,
    ...               power=291e3)
    >>> round(rated.boost / 6894.757, 1), rated.state
    (24.0, 'solved')
    """
    if (fuel_flow is None) == (power is None):
        raise OutOfRangeError("give exactly one of fuel_flow and power.")
    asked = dict(
        ambient_pressure=ambient_pressure,
        ambient_temperature=ambient_temperature,
        engine_speed=engine_speed,
        fuel_flow=fuel_flow,
        power=power,
    )
    given = {name: possible(name, value) for name, value in asked.items() if value is not None}
    if power is not None and np.any(given["power"] < 0):
        raise OutOfRangeError("power must be 0 or more [W]: this engine is not driven from outside.")
    if np.any(given["engine_speed"] == 0):
        raise OutOfRangeError("engine_speed must be above 0 [rev/s]: an engine at rest has no balance.")
    warn_of_unusual("solve", given)
    numbers = settling.numbers_of(engine)
    shape = np.broadcast_shapes(check_shapes(given), *(np.shape(one) for one in numbers.values()))
    with np.errstate(all="ignore"):
        return _whole([_settled(piece) for piece in _pieces(numbers, given, shape)], shape)


def _pieces(engine, given, shape):
    """Yield (engine, given) for pieces that stay in the processor's cache; what is single stays single."""
    flat = {name: np.broadcast_to(one, shape).reshape(-1) for name, one in given.items()}
    engine = {name: np.broadcast_to(one, shape).reshape(-1) if np.ndim(one) else one for name, one in engine.items()}
    for start in range(0, max(1, int(np.prod(shape))), settling.BLOCK):
        piece = slice(start, start + settling.BLOCK)
        yield settling.taken(engine, piece), {name: one[piece] for name, one in flat.items()}


def _settled(piece):
    """The fields of the record, for one piece."""
    engine, given = piece
    beyond = given.get("fuel_flow", 0.0) > engine["greatest_fuel_flow"] * (1 + ROUNDING)
    sound = np.isfinite(sum(given.values())) & ~beyond  # a missing reading leaves a gap, and spoils nothing else
    used = {name: np.where(sound, one, STAND_INS[name]) for name, one in given.items()}
    site = {"p0": used["ambient_pressure"], "T0": used["ambient_temperature"], "N": used["engine_speed"]}
    points = settling.Points(engine, site)
    s, residual, carried = settling.settle(points, used.get("fuel_flow"), used.get("power"))
    residual = np.where(sound, residual, np.nan)
    converged = residual <= settling.GOOD
    short = TOO_MUCH if "power" in given else HELD_BACK
    state = np.where(converged, np.where(carried, SOLVED, short), np.where(beyond, BEYOND_STOP, UNSOLVED))
    found = _along_the_path(points.site, s) | _wheel(points.engine, s) | heats(s)
    found = {name: np.where(converged, one, np.nan) for name, one in found.items()}
    return _site(given) | found | dict(state=state, carried=carried, converged=converged, residual=residual)


def _site(given):
    """The site as it was given, one value for each point."""
    return {name: given[name] for name in ("ambient_pressure", "ambient_temperature", "engine_speed")}


def _along_the_path(site, s):
    """Pressures, temperatures and flows by the names of the table."""
    return dict(
        compressor_inlet_pressure=s.p1,
        compressor_inlet_temperature=s.T1,
        compressor_outlet_pressure=s.p2,
        compressor_outlet_temperature=s.T2,
        manifold_pressure=s.p3,
        manifold_temperature=s.T3,
        medium_temperature=s.Tm,
        boost=s.p3 - site.p0,
        intake_restriction=site.p0 - s.p1,
        cooler_pressure_loss=s.p2 - s.p3,
        effectiveness=s.effectiveness,
        pressure_ratio=s.pressure_ratio,
        compressor_efficiency=s.compressor_efficiency,
        density_ratio=(s.p3 / s.T3) / (site.p0 / site.T0),
        compressor_mass_flow=s.compressor_flow,
        leak_mass_flow=s.leak_before + s.leak_after,
        mass_flow=s.air_flow,
        fuel_flow=s.fuel_flow,
        air_fuel_ratio=s.air_flow / s.fuel_flow,
        excess_air_ratio=1 / s.equivalence,
        power=s.power,
        torque=s.power / (2 * np.pi * site.N),
        specific_fuel_consumption=np.where(s.power > IDLE, s.fuel_flow / s.power, np.nan),
        turbine_inlet_pressure=s.p4,
        turbine_inlet_temperature=s.T4,
        turbine_outlet_pressure=s.p5,
        turbine_outlet_temperature=s.T5,
        exhaust_back_pressure=s.p5 - site.p0,
        expansion_ratio=s.expansion_ratio,
        exhaust_mass_flow=s.turbine_flow,
        wastegate_mass_flow=s.exhaust_flow * s.gate_share,
        wastegate_opening=s.opening,
        compressor_power=s.compressor_power,
        turbine_power=s.turbine_power,
    )


def _wheel(engine, s):
    """What the compressor's wheel does, by the usual work and size of such wheels; flow and speed as maps have them."""
    flow = wheels.corrected_flow(s.compressor_flow, s.p1, s.T1)
    tip_speed = wheels.tip_speed(engine, s.compressor_power / s.compressor_flow, flow)
    turns = tip_speed / (np.pi * wheels.diameter(engine))
    return dict(
        corrected_mass_flow=flow,
        tip_speed=tip_speed,
        corrected_speed=turns / np.sqrt(s.T1 / wheels.MAP_TEMPERATURE),
    )


def heats(s: SimpleNamespace) -> dict[str, NDArray[np.float64]]:
    """Where the fuel's heat goes; the shares add up to it."""
    bearings = s.power_needed - s.compressor_power
    return dict(
        fuel_heat=s.fuel_heat,
        coolant_heat=s.wall_heat + s.manifold_heat + s.friction_power + s.pumping_power + bearings - s.intake_heat,
        heat_rejected=s.cooler_heat,
        exhaust_heat=s.heat_left - s.manifold_heat - s.power_needed,
        leak_heat=s.leak_heat,
        unburnt_heat=s.unburnt_heat,
        friction_power=s.friction_power,
    )


def _whole(pieces, shape):
    """The record of all pieces, in the shape that was asked for."""
    joined = {}
    for one in fields(Balance):
        values = np.concatenate([np.asarray(piece[one.name]) for piece in pieces]).reshape(shape)
        joined[one.name] = values if shape else values.item()
    return Balance(**joined)
