"""How the balance is found: Newton's method on all points at once, and a bracket for the few that it misses.

The unknowns are logarithms: air through the compressor, pressure after it and, where a load is given, the fuel.
"""

from dataclasses import fields
from types import SimpleNamespace
from typing import Any

import numpy as np
from numpy.typing import NDArray

from turbomath.engine import gas_path, newton
from turbomath.engine.turbocharged_engine import TurbochargedEngine
from turbomath.physics.combustion_air import stoichiometric_air_fuel_ratio
from turbomath.table.constants import AIR_GAS_CONSTANT

BLOCK = 4096  # points that stay in the processor's cache
GOOD = 1e-9  # the largest scaled residual of a point that counts as solved
_LOWEST, _HIGHEST = 0.6, 8.0  # pressure after the compressor over ambient, between which the bracket looks
_USUAL_SHARE = 0.7  # logarithm of the most that could flow over what does, for a start


def numbers_of(engine: TurbochargedEngine) -> dict[str, Any]:
    """Return the numbers of an engine, of its aftercooler and of its wastegate, in one record by name."""
    own = {one.name: getattr(engine, one.name) for one in fields(engine)}
    cooler, gate = own.pop("aftercooler"), own.pop("wastegate")
    numbers = own | {one.name: getattr(cooler, one.name) for one in fields(cooler)}
    numbers |= {"wastegate_area": gate.area, "opening_boost": gate.opening_boost, "span": gate.span}
    numbers["least_opening"] = gate.least_opening
    numbers["stoichiometric"] = stoichiometric_air_fuel_ratio(engine.hydrogen_carbon_ratio)
    numbers["greatest_fuel_flow"] = engine.greatest_fuel_flow
    return {name: plain(one) for name, one in numbers.items()}


def plain(number: Any) -> Any:
    """Return a word as it is, a single number as a float, which is faster than an array of one, others as an array."""
    if isinstance(number, str):
        return number
    return np.asarray(number, dtype=float) if np.ndim(number) else float(number)


class Points:
    """Engines at their sites, one for each point: numbers that are the same for all stay single."""

    def __init__(self, engine: dict[str, Any], site: dict[str, Any]) -> None:
        self.engine, self.site = SimpleNamespace(**engine), SimpleNamespace(**site)

    def at(self, index: Any) -> "Points":
        """Return only the points of an index."""
        return Points(taken(vars(self.engine), index), taken(vars(self.site), index))

    def state(self, flow: Any, pressure: Any, fuel: Any) -> SimpleNamespace:
        """Return the state along the gas path; see `gas_path.state`."""
        return gas_path.state(self.engine, self.site, flow, pressure, fuel)


def taken(numbers: dict[str, Any], index: Any) -> dict[str, Any]:
    """Return the numbers of the points of an index; single ones stay as they are."""
    return {name: one[index] if isinstance(one, np.ndarray) else one for name, one in numbers.items()}


def settle(points: Points, fuel: Any, load: Any) -> tuple[SimpleNamespace, Any, Any]:
    """Return (state along the gas path, residual, whether the load is carried) of each of the points.

    Exactly one of *fuel* and *load* is given, an array with one value for each point. A limiter that holds back fuel
    for want of air leaves the load, or the fuel, not carried.
    """
    if load is None:
        unknowns, residual = with_fuel(points, fuel)
        carried = np.ones(fuel.shape, dtype=bool)
    else:
        unknowns, residual, fuel, carried = with_load(points, load)
    flow, pressure = np.exp(unknowns[:2])
    state = points.state(flow, pressure, fuel)
    if not np.any(points.engine.least_air_fuel_ratio):
        return state, residual, carried
    short = np.flatnonzero(state.air_flow < points.engine.least_air_fuel_ratio * fuel * (1 - GOOD))
    if short.size:
        fuel, carried = np.array(fuel), carried.copy()
        held = with_limiter(points.at(short), fuel[short], unknowns[:2, short])
        unknowns[:2, short], residual[short], fuel[short] = held
        carried[short] = False
    flow, pressure = np.exp(unknowns[:2])
    return points.state(flow, pressure, fuel), residual, carried


def with_limiter(points: Points, fuel: Any, start: Any) -> tuple[Any, Any, Any]:
    """Return (unknowns, residual, fuel flow) where a limiter gives as much fuel as there is air for, less than *fuel*.

    More fuel brings more air, but never as much more: so there is one such fuel, and halving finds what Newton misses.
    """

    def function(unknowns, index):
        here, burnt = points.at(index), np.exp(unknowns[2])
        state = here.state(*np.exp(unknowns[:2]), burnt)
        return np.stack([*gas_path.imbalances(state), _to_spare(here, state, burnt)])

    found, residual = newton.roots(function, np.concatenate([start, np.log(fuel)[None]]))
    missed = np.flatnonzero(residual > GOOD)
    if missed.size:
        found[:, missed], residual[missed] = _limiter_by_halving(points.at(missed), fuel[missed])
    return found[:2], residual, np.exp(found[2])


def _limiter_by_halving(points, fuel):
    def spare(log_fuel):
        burnt = np.exp(log_fuel)
        unknowns, _ = with_fuel(points, burnt)
        return _to_spare(points, points.state(*np.exp(unknowns), burnt), burnt)

    held = newton.bracketed(spare, np.log(fuel) - 6, np.log(fuel), steps=48)
    unknowns, residual = with_fuel(points, np.exp(held))
    return np.concatenate([unknowns, held[None]]), residual


def _to_spare(points, state, fuel):
    """Logarithm of the air there is over the air that the limiter wants for this fuel."""
    return np.log(state.air_flow / (points.engine.least_air_fuel_ratio * fuel))


def with_fuel(points: Points, fuel: Any, start: Any = None) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Return (logarithms of flow and pressure, residual) for a given fuel flow."""

    def function(unknowns, index):
        state = points.at(index).state(*np.exp(unknowns), fuel[index])
        return np.stack(gas_path.imbalances(state))

    unknowns, residual = newton.roots(function, first_guess(points, fuel) if start is None else start)
    missed = np.flatnonzero(residual > GOOD)
    if missed.size:
        again = bracketed(points.at(missed), fuel[missed])
        again, left = newton.roots(lambda at, index: function(at, missed[index]), again)
        better = left < residual[missed]
        unknowns[:, missed[better]], residual[missed[better]] = again[:, better], left[better]
    return unknowns, residual


def first_guess(points: Points, fuel: Any) -> NDArray[np.float64]:
    """Return a start for Newton's method: boost in proportion to the fuel of each cylinder filling."""
    e, site = points.engine, points.site
    filling = fuel / (e.displacement * site.N / 2)
    rated = e.rated_fuel_flow / (e.displacement * e.rated_speed / 2)
    pressure = site.p0 * (1.05 + 1.6 * (filling / rated) ** 1.1)
    warm = site.T0 + (40.0 if e.arrangement == "air-to-air" else 90.0)
    flow = e.volumetric_efficiency * pressure / (AIR_GAS_CONSTANT * warm) * e.displacement * site.N / 2
    return np.log(np.stack(np.broadcast_arrays(flow, pressure)))


def bracketed(points: Points, fuel: Any, halvings: int = 24) -> NDArray[np.float64]:
    """Guess a boost, find its flow, compare turbine and compressor power, and close in from both sides."""
    site = points.site
    log_p0 = np.log(site.p0) + 0 * fuel

    def excess(log_pressure):
        state = points.state(np.exp(flow_at(points, log_pressure, fuel)), np.exp(log_pressure), fuel)
        return state.turbine_power - state.power_needed

    pressure = newton.bracketed(excess, log_p0 + np.log(_LOWEST), log_p0 + np.log(_HIGHEST), steps=halvings)
    return np.stack([flow_at(points, pressure, fuel), pressure])


def flow_at(points: Points, log_pressure: NDArray[np.float64], fuel: Any, halvings: int = 30) -> NDArray[np.float64]:
    """Return the logarithm of the compressor flow at which the cylinders draw in what is delivered.

    Newton's method finds it at once, nearly everywhere; what it misses is halved out of a bracket.
    """
    e, site, pressure = points.engine, points.site, np.exp(log_pressure)
    most = 2 * e.volumetric_efficiency * pressure / (AIR_GAS_CONSTANT * site.T0) * e.displacement * site.N / 2
    holes = e.leak_area_before_aftercooler + e.leak_area_after_aftercooler
    most = most + holes * pressure / np.sqrt(AIR_GAS_CONSTANT * site.T0)
    high = np.log(most)
    low, fuel = high - 5, fuel + 0 * high

    def share(log_flow, index):
        state = points.at(index).state(np.exp(log_flow[0]), pressure[index], fuel[index])
        return np.log(state.air_drawn / state.air_flow)[None]

    flow, residual = newton.roots(share, (high - _USUAL_SHARE)[None])
    flow = flow[0]
    missed = np.flatnonzero(~((residual <= GOOD) & (low < flow) & (flow < high)))
    if missed.size:
        here, at, burnt = points.at(missed), pressure[missed], fuel[missed]

        def short(log_flow):
            state = here.state(np.exp(log_flow), at, burnt)
            return state.air_drawn - state.air_flow

        flow[missed] = newton.bracketed(short, low[missed], high[missed], steps=halvings)
    return flow


def with_load(points: Points, load: Any) -> tuple[Any, Any, Any, Any]:
    """Return (unknowns, residual, fuel flow, whether the load is carried) for a given power."""
    e = points.engine

    def function(unknowns, index):
        here, fuel = points.at(index), np.exp(unknowns[2])
        state = here.state(*np.exp(unknowns[:2]), fuel)
        return np.stack([*gas_path.imbalances(state), (state.power - load[index]) / here.engine.rated_power])

    fuel = e.rated_fuel_flow * (0.1 + 0.9 * load / e.rated_power) * _speed_share(points)
    start = np.concatenate([first_guess(points, fuel), np.log(fuel)[None]])
    unknowns, residual = newton.roots(function, start)
    stop = e.greatest_fuel_flow + 0 * load
    fuel, carried = np.exp(unknowns[2]), np.ones(load.shape, dtype=bool)
    doubtful = np.flatnonzero(~((residual <= GOOD) & (fuel <= stop)))
    if doubtful.size:
        again, left, flow, ok = _between_nothing_and_the_stop(points.at(doubtful), load[doubtful], stop[doubtful])
        unknowns[:2, doubtful], residual[doubtful], fuel[doubtful], carried[doubtful] = again, left, flow, ok
    return unknowns, residual, fuel, carried


def _speed_share(points):
    """Fuel of an idling engine falls with its speed; a start for Newton's method, no more."""
    return np.clip(points.site.N / points.engine.rated_speed, 0.2, 1.5)


def _between_nothing_and_the_stop(points, load, stop):
    """Return (unknowns, residual, fuel, carried) by a bracket on the fuel; at the stop where that is too little."""
    unknowns, residual = with_fuel(points, stop)
    carried = points.state(*np.exp(unknowns), stop).power >= load
    low, high = np.log(stop) - 6, np.log(stop)
    for _ in range(48):
        middle = np.where(carried, (low + high) / 2, high)
        unknowns, residual = with_fuel(points, np.exp(middle), unknowns)
        short = points.state(*np.exp(unknowns), np.exp(middle)).power < load
        low, high = np.where(short & carried, middle, low), np.where(short | ~carried, high, middle)
    return unknowns, residual, np.exp(middle), carried
