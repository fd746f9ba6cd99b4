"""How boost comes after a step of load: the rotor is a flywheel, pipes and aftercooler fill, the manifold warms.

Three stores stand between two balances: energy in the rotor, air between compressor and cylinders, heat in the metal
before the turbine. Everything else follows at once, by the same equations as in `gas_path`; where nothing is stored any
more, it is the balance. The engine's speed is held, as by a heavy flywheel.
Time is stepped in `shaft`, many cases side by side.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from turbomath.engine import balance, gas_path, settling, wheels
from turbomath.engine.shaft import Shaft
from turbomath.engine.turbocharged_engine import TurbochargedEngine
from turbomath.table.errors import OutOfRangeError
from turbomath.table.formulas import check_shapes
from turbomath.table.kinds_of_value import Values
from turbomath.table.quantities import possible
from turbomath.table.records import each_point

STEPS = 64
VOLUME_OF_SIZE = 2.5  # aftercooler, pipes and manifold over the displacement; common practice
METAL_MASS_OF_FLOW, IRON = 60.0, 500.0  # kg for each kg/s of the compressor's best flow (from memory); J/(kg K)
METAL_UNITS = 0.1  # units of heat transfer at that flow: 0.10 and 0.12 in two published models, see `free_numbers`
NO_WAY = "no way from one balance to the other was found. Ask for a smaller step of fuel."
_SHORT_FIRST = 2.0


@dataclass(frozen=True)
class Stores:
    """What takes something up: usual sizes of an engine, common practice and from memory. Each may be an array."""

    rotor_inertia: Values  # kg m^2
    charge_volume: Values  # m^3, from the compressor to the cylinders
    metal_capacity: Values  # J/K, manifold and turbine housing
    metal_conductance: Values  # W/K, from the exhaust to them

    @classmethod
    def usual(cls, engine: TurbochargedEngine) -> "Stores":
        """Return the stores that are usual for the size of an engine."""
        flow, rotor = engine.best_compressor_flow, settling.plain(wheels.rotor_inertia(engine))
        metal = METAL_UNITS * flow * gas_path.EXHAUST_SPECIFIC_HEAT
        return cls(rotor, VOLUME_OF_SIZE * engine.displacement, METAL_MASS_OF_FLOW * flow * IRON, metal)


@dataclass(frozen=True)
class SpoolUp:
    """What happens after a step, one element a moment; SI, by the names of the table.

    `time` begins at 0, when more fuel is asked for. `energy` holds what flowed from then to the end [J]: of the fuel,
    and where it went; its parts add up to `fuel_heat`. `end` is the balance it comes to, `start` the one it left.
    """

    time: NDArray[np.float64]
    boost: NDArray[np.float64]
    mass_flow: NDArray[np.float64]
    fuel_flow: NDArray[np.float64]
    air_fuel_ratio: NDArray[np.float64]
    power: NDArray[np.float64]
    shaft_speed: NDArray[np.float64]
    turbine_inlet_temperature: NDArray[np.float64]
    turbine_power: NDArray[np.float64]
    compressor_power: NDArray[np.float64]
    metal_temperature: NDArray[np.float64]
    energy: dict[str, float]
    start: balance.Balance
    end: balance.Balance

    def time_to(self, share: float, name: str = "boost") -> float:
        """Return the time [s] to a share of the way from the first balance to the last; `nan` if it is not reached."""
        first, last = getattr(self.start, name), getattr(self.end, name)
        way = (getattr(self, name) - first) / (last - first)
        there = np.flatnonzero(way >= share)
        if not there.size:
            return float("nan")
        after = max(int(there[0]), 1)
        return float(np.interp(share, way[after - 1 : after + 1], self.time[after - 1 : after + 1]))


def spool_up(
    engine: TurbochargedEngine,
    *,
    ambient_pressure: float,
    ambient_temperature: float,
    engine_speed: float,
    fuel_before: float,
    fuel_after: float,
    duration: float = 8.0,
    metal_temperature: float | None = None,
    stores: Stores | None = None,
    steps: int = STEPS,
) -> SpoolUp:
    """What an engine does when more fuel is asked for at once.

    Parameters
    ----------
    engine : TurbochargedEngine
        With single numbers; its `least_air_fuel_ratio` holds fuel back until there is air for it.
    ambient_pressure, ambient_temperature, engine_speed : float [Pa], [K], [rev/s]
        The site, and the speed that is held.
    fuel_before, fuel_after : float [kg/s]
        What was burnt until now, and what is asked for from now on.
    duration : float [s]
        How long to look.
    metal_temperature : float, optional [K]
        Of manifold and turbine housing at the step; if not given, as warm as the exhaust of the balance before it.
    stores : Stores, optional
        Usual ones if not given.
    steps : int
        How many steps of time, short ones first.

    Returns
    -------
    SpoolUp

    Raises
    ------
    OutOfRangeError
        For impossible input, or where one of the two balances is not found.

    Examples
    --------
    >>> from turbomath.engine.ready_engines import AIR_TO_AIR
    >>> step = spool_up(AIR_TO_AIR, ambient_pressure=98_544.0, ambient_temperature=298.15, engine_speed=30.0,
    ...                 fuel_before=0.0020, fuel_after=0.0165)
    >>> 1.0 < step.time_to(0.9) < 5.0
    True
    """
    (found,) = spool_ups(
        engine,
        ambient_pressure=ambient_pressure,
        ambient_temperature=ambient_temperature,
        engine_speed=engine_speed,
        fuel_before=fuel_before,
        fuel_after=fuel_after,
        duration=duration,
        metal_temperature=metal_temperature,
        stores=stores,
        steps=steps,
    )
    if isinstance(found, OutOfRangeError):
        raise found
    return found


def spool_ups(
    engine: TurbochargedEngine,
    *,
    ambient_pressure: Values,
    ambient_temperature: Values,
    engine_speed: Values,
    fuel_before: Values,
    fuel_after: Values,
    duration: float = 8.0,
    metal_temperature: Values | None = None,
    stores: Stores | None = None,
    steps: int = STEPS,
) -> list[SpoolUp | OutOfRangeError]:
    """What `spool_up` tells, of many cases side by side: a hundred take little longer than one.

    Parameters
    ----------
    engine : TurbochargedEngine
        As for `spool_up`; each of its numbers may be an array with one element for each case.
    ambient_pressure, ambient_temperature, engine_speed : float or array [Pa], [K], [rev/s]
        The site, and the speed that is held.
    fuel_before, fuel_after : float or array [kg/s]
        What was burnt until now, and what is asked for from now on.
    duration : float [s]
        How long to look, the same for all.
    metal_temperature : float or array, optional [K]
        As for `spool_up`; where it is `nan`, as warm as the exhaust of the balance before the step.
    stores : Stores, optional
        As for `spool_up`; each of its numbers may be an array.
    steps : int
        How many steps of time, the same for all.

    Returns
    -------
    list of SpoolUp or OutOfRangeError
        One for each case; where a balance or the way to it is not found, the error that `spool_up` raises.

    Raises
    ------
    OutOfRangeError
        For impossible input.
    """
    if not (0 < duration < np.inf and steps >= 2):
        raise OutOfRangeError(f"duration must be above 0 [s] and steps at least 2; found {duration:g} and {steps:g}.")
    site = dict(ambient_pressure=ambient_pressure, ambient_temperature=ambient_temperature, engine_speed=engine_speed)
    site = {name: possible(name, one) for name, one in site.items()}
    fuels = {"fuel_before": possible("fuel_flow", fuel_before), "fuel_after": possible("fuel_flow", fuel_after)}
    warm = possible("temperature", np.nan if metal_temperature is None else metal_temperature)
    numbers, kept = settling.numbers_of(engine), vars(stores or Stores.usual(engine))
    shape = check_shapes({**numbers, **site, **fuels, **kept, "metal_temperature": warm}) or (1,)
    if len(shape) > 1:
        raise OutOfRangeError(f"give one element for each case, in arrays of one axis; found the shape {shape}.")
    balances = [each_point(balance.solve(engine, **site, fuel_flow=fuel)) for fuel in fuels.values()]
    starts, ends = (found * (shape[0] // len(found)) for found in balances)  # one balance may serve for all
    times = duration * np.linspace(0.0, 1.0, steps + 1) ** _SHORT_FIRST
    shaft = Shaft(numbers, site, kept, fuels["fuel_after"], shape)
    shaft.lost |= [not one.converged for one in ends]
    series, energy = shaft.run(times, starts, warm)
    found: list[SpoolUp | OutOfRangeError] = []
    for case, (start, end) in enumerate(zip(starts, ends, strict=True)):
        if not (start.converged and end.converged):
            found.append(_unsettled(fuels, shape, case, start, end))
        elif shaft.lost[case]:
            found.append(OutOfRangeError(NO_WAY))
        else:
            own = {name: one[:, case].copy() for name, one in series.items()}
            spent = {name: float(one[case]) for name, one in energy.items()}
            found.append(SpoolUp(time=times, **own, energy=spent, start=start, end=end))
    return found


def _unsettled(fuels, shape, case, start, end):
    name, one = ("fuel_before", start) if not start.converged else ("fuel_after", end)
    fuel = np.broadcast_to(fuels[name], shape)[case]
    return OutOfRangeError(f"{name} of {fuel:g} kg/s has no balance: {one.state}. Ask for another.")
