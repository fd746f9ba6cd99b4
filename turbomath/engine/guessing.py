"""The balance found as by hand: guess a pressure, find the air that flows, compare turbine and compressor, guess again.

Each `Guess` is a line of a worked page. The computer's way, in `settling`, comes to the same numbers in fewer steps.
"""

from dataclasses import dataclass

import numpy as np

from turbomath.engine import settling
from turbomath.engine.turbocharged_engine import TurbochargedEngine
from turbomath.table.errors import OutOfRangeError
from turbomath.table.kinds_of_value import Values
from turbomath.table.quantities import possible

MORE, LESS, BALANCED = (
    "the turbine has power to spare: guess higher",
    "the turbine falls short: guess lower",
    "balanced",
)


@dataclass(frozen=True)
class Guess:
    """One guess of the pressure after the compressor, and what follows from it; SI, by the names of the table."""

    compressor_outlet_pressure: float
    boost: float
    mass_flow: float
    compressor_outlet_temperature: float
    manifold_temperature: float
    turbine_inlet_temperature: float
    expansion_ratio: float
    compressor_power: float
    turbine_power: float
    power_to_spare: float  # W at the compressor: what the shaft brings, less what the compressor takes
    verdict: str


def steps(
    engine: TurbochargedEngine,
    *,
    ambient_pressure: float,
    ambient_temperature: float,
    engine_speed: float,
    fuel_flow: float,
    first_guess: float = 2.0,
    closeness: float = 0.005,
) -> tuple[Guess, ...]:
    """Guess after guess until turbine and compressor agree.

    Parameters
    ----------
    engine : TurbochargedEngine
        With single numbers.
    ambient_pressure, ambient_temperature, engine_speed, fuel_flow : float [Pa], [K], [rev/s], [kg/s]
        The site and what the engine is given.
    first_guess : float [-]
        Pressure after the compressor over ambient, above 1 and below 5.
    closeness : float [-]
        Share of the compressor's power by which the turbine's may differ.

    Returns
    -------
    tuple of Guess
        The last is balanced to *closeness*.

    Raises
    ------
    OutOfRangeError
        For impossible input, or a first guess outside 1 to 5.

    Examples
    --------
    >>> from turbomath.engine.ready_engines import AIR_TO_AIR
    >>> worked = steps(AIR_TO_AIR, ambient_pressure=98_544.0, ambient_temperature=298.15, engine_speed=30.0,
    ...                fuel_flow=0.0165)
    >>> [round(guess.boost / 6894.757, 1) for guess in worked][:4], worked[-1].verdict
    ([13.2, 33.8, 23.5, 28.7], 'balanced')
    """
    (worked,) = steps_of_many(
        engine,
        ambient_pressure=ambient_pressure,
        ambient_temperature=ambient_temperature,
        engine_speed=engine_speed,
        fuel_flow=fuel_flow,
        first_guess=first_guess,
        closeness=closeness,
    )
    return worked


def steps_of_many(
    engine: TurbochargedEngine,
    *,
    ambient_pressure: Values,
    ambient_temperature: Values,
    engine_speed: Values,
    fuel_flow: Values,
    first_guess: Values = 2.0,
    closeness: float = 0.005,
) -> list[tuple[Guess, ...]]:
    """What `steps` tells, of many cases side by side.

    Parameters
    ----------
    engine : TurbochargedEngine
        With single numbers.
    ambient_pressure, ambient_temperature, engine_speed, fuel_flow : float or array [Pa], [K], [rev/s], [kg/s]
        The sites and what the engine is given; arrays have one element for each case.
    first_guess : float or array [-]
        As for `steps`.
    closeness : float [-]
        As for `steps`.

    Returns
    -------
    list of tuples of Guess
        The guesses of each case.

    Raises
    ------
    OutOfRangeError
        For impossible input, or a first guess outside 1 to 5.
    """
    first = np.atleast_1d(first_guess)
    if (outside := first[~((first > 1) & (first < _HIGHEST))]).size:
        raise OutOfRangeError(f"first_guess must be between 1 and {_HIGHEST:g} [-]; found {outside[0]:g}.")
    given = dict(
        ambient_pressure=ambient_pressure,
        ambient_temperature=ambient_temperature,
        engine_speed=engine_speed,
        fuel_flow=fuel_flow,
    )
    checked = [possible(name, value) for name, value in given.items()]
    p0, T0, N, fuel, ratio = (np.array(one) for one in np.broadcast_arrays(*checked, first))
    points = settling.Points(settling.numbers_of(engine), dict(p0=p0, T0=T0, N=N))
    low, high, left = np.ones(p0.shape), np.full(p0.shape, _HIGHEST), np.arange(p0.size)
    worked: list[list[Guess]] = [[] for _ in left]
    for _ in range(_MOST):
        told = _guesses(points.at(left), (ratio * p0)[left], fuel[left], closeness)
        for case, one in zip(left, told, strict=True):
            worked[case].append(one)
            low[case], high[case] = (ratio[case], high[case]) if one.verdict == MORE else (low[case], ratio[case])
        ratio = (low + high) / 2
        left = left[[one.verdict != BALANCED for one in told]]
        if not left.size:
            break
    return [tuple(one) for one in worked]


_HIGHEST, _MOST = 5.0, 30


def _guesses(points, pressure, fuel, closeness):
    """Follow the gas path at guessed pressures, with the air that then flows."""
    with np.errstate(all="ignore"):
        flow = np.exp(settling.flow_at(points, np.log(pressure), fuel))
        s = points.state(flow, pressure, fuel)
    spare = points.engine.shaft_efficiency * s.turbine_power - s.compressor_power
    balanced = np.abs(spare) < closeness * s.compressor_power
    verdicts = np.where(balanced, BALANCED, np.where(spare > 0, MORE, LESS)).tolist()
    numbers = (
        s.p2,
        s.p3 - points.site.p0,
        s.air_flow,
        s.T2,
        s.T3,
        s.T4,
        s.expansion_ratio,
        s.compressor_power,
        s.turbine_power,
        spare,
    )
    rows = zip(*(one.tolist() for one in numbers), verdicts, strict=True)
    return [Guess(*row) for row in rows]
