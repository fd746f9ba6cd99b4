"""How boost comes after a step of load: the rotor is a flywheel, pipes and aftercooler fill, the manifold warms.

Three stores stand between two balances: energy in the rotor, air between compressor and cylinders, heat in the metal
before the turbine. Everything else follows at once, by the same equations as in `gas_path`; where nothing is stored any
more, it is the balance. The engine's speed is held, as by a heavy flywheel.

Time is stepped by a Runge-Kutta method of two implicit stages, of second order, which damps what is fast (R. Alexander,
SIAM J. Numer. Anal. 14 (1977), 1006; from memory). Stores are its unknowns, so no energy is lost in the stepping.
"""

from dataclasses import dataclass
from types import SimpleNamespace
from typing import Any

import numpy as np
from numpy.typing import NDArray

from turbomath.engine import balance, gas_path, newton, settling, wheels
from turbomath.engine.turbocharged_engine import TurbochargedEngine
from turbomath.table.constants import AIR_GAS_CONSTANT
from turbomath.table.constants import AIR_SPECIFIC_HEAT as CP
from turbomath.table.errors import OutOfRangeError
from turbomath.table.quantities import possible

STEPS = 64
VOLUME_OF_SIZE = 2.5  # aftercooler, pipes and manifold over the displacement; common practice
METAL_MASS_OF_FLOW, IRON = 60.0, 500.0  # kg for each kg/s of the compressor's best flow (from memory); J/(kg K)
METAL_UNITS = 0.1  # units of heat transfer at that flow: 0.10 and 0.12 in two published models, see `free_numbers`
_GAMMA, _SHORT_FIRST = 1 - np.sqrt(0.5), 2.0
_PARTS = ("power", "coolant_heat", "heat_rejected", "exhaust_heat", "leak_heat", "unburnt_heat")


@dataclass(frozen=True)
class Stores:
    """What takes something up: usual sizes of an engine, common practice and from memory."""

    rotor_inertia: float  # kg m^2
    charge_volume: float  # m^3, from the compressor to the cylinders
    metal_capacity: float  # J/K, manifold and turbine housing
    metal_conductance: float  # W/K, from the exhaust to them

    @classmethod
    def usual(cls, engine: TurbochargedEngine) -> "Stores":
        """Return the stores that are usual for the size of an engine."""
        flow = float(engine.best_compressor_flow)
        metal = METAL_UNITS * flow * gas_path.EXHAUST_SPECIFIC_HEAT
        volume = VOLUME_OF_SIZE * float(engine.displacement)
        return cls(float(wheels.rotor_inertia(engine)), volume, METAL_MASS_OF_FLOW * flow * IRON, metal)


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
    if not (0 < duration < np.inf and steps >= 2):
        raise OutOfRangeError(f"duration must be above 0 [s] and steps at least 2; found {duration:g} and {steps:g}.")
    site = dict(ambient_pressure=ambient_pressure, ambient_temperature=ambient_temperature, engine_speed=engine_speed)
    site = {name: float(possible(name, one)) for name, one in site.items()}
    start, end = (_settled(engine, site, name, fuel) for name, fuel in _asked(fuel_before, fuel_after))
    stores = stores or Stores.usual(engine)
    warm = start.turbine_inlet_temperature if metal_temperature is None else metal_temperature
    shaft = _Shaft(engine, site, stores, float(fuel_after))
    times = duration * np.linspace(0.0, 1.0, steps + 1) ** _SHORT_FIRST
    return shaft.run(times, start, end, float(possible("temperature", warm)))


def _asked(before, after):
    return (("fuel_before", before), ("fuel_after", after))


def _settled(engine, site, name, fuel):
    found = balance.solve(engine, **site, fuel_flow=fuel)
    if not found.converged:
        raise OutOfRangeError(f"{name} of {fuel:g} kg/s has no balance: {found.state}. Ask for another.")
    return found


class _Shaft:
    """The engine between two balances: what is stored, and what a step of time makes of it."""

    def __init__(self, engine, site, stores, fuel):
        self.numbers, self.stores = settling.numbers_of(engine), stores
        self.site = dict(zip(("p0", "T0", "N"), (np.array([one]) for one in site.values()), strict=True))
        self.fuel, self.diameter = np.array([fuel]), float(wheels.diameter(engine))
        self.names = SimpleNamespace(**self.numbers)

    def run(self, times, start, end, warm):
        """Return the `SpoolUp` at these times."""
        unknowns = np.log(np.array([[start.compressor_mass_flow], [start.compressor_outlet_pressure]]))
        mass = self.stores.charge_volume * start.manifold_pressure / (AIR_GAS_CONSTANT * start.manifold_temperature)
        speed = wheels.tip_speed(
            self.names, start.compressor_power / start.compressor_mass_flow, start.corrected_mass_flow
        )
        kept = np.array([self._rotor_energy(speed), mass, self.stores.metal_capacity * warm])
        first = self._begun(unknowns, kept)
        told, energy = [self._told(first, kept)], dict.fromkeys(("fuel_heat", *_PARTS, "rotor", "charge", "metal"), 0.0)
        for step in np.diff(times):
            s, rates, unknowns = self._stage(kept, _GAMMA * step, unknowns)
            later = kept + (1 - _GAMMA) * step * rates
            t, more, unknowns = self._stage(later, _GAMMA * step, unknowns)
            kept = later + _GAMMA * step * more
            for one, share in ((s, 1 - _GAMMA), (t, _GAMMA)):
                for name, rate in self._powers(one).items():
                    energy[name] += share * step * rate
            told.append(self._told(t, kept))
        series = {name: np.array([one[name] for one in told]) for name in told[0]}
        return SpoolUp(time=times, **series, energy=energy, start=start, end=end)

    def _stage(self, kept, over, guess):
        """Return (state, rates of what is stored, unknowns) after *over* seconds of an implicit step from *kept*."""
        points = self._points(kept, over)

        def function(unknowns, _):  # there is one point, which serves for each of its slopes
            s = points.state(*np.exp(unknowns), self.fuel)
            gained = over * (s.turbine_power - s.power_needed)
            scale = kept[0] + over * (s.turbine_power + np.abs(s.power_needed))
            return np.stack(
                [(s.air_flow - s.air_drawn) / s.charge_flow, (self._energy_of(s) - kept[0] - gained) / scale]
            )

        unknowns, residual = newton.roots(function, guess)
        if not residual[0] <= settling.GOOD:
            raise OutOfRangeError("no way from one balance to the other was found. Ask for a smaller step of fuel.")
        s = points.state(*np.exp(unknowns), self.fuel)
        rates = [s.turbine_power - s.power_needed, s.stored_flow, s.metal_heat]
        return s, np.array([float(one[0]) for one in rates]), unknowns

    def _begun(self, unknowns, kept):
        """Return the state in the moment of the step: the air is as it was, and more fuel is asked for."""
        return self._points(kept, 1e-9).state(*np.exp(unknowns), self.fuel)

    def _points(self, kept, over):
        stored = dict(
            over=over,
            mass=kept[1],
            volume=self.stores.charge_volume,
            metal_temperature=kept[2] / self.stores.metal_capacity,
            metal_capacity=self.stores.metal_capacity,
            metal_conductance=self.stores.metal_conductance,
        )
        return settling.Points(self.numbers, self.site | stored)

    def _energy_of(self, s):
        flow = wheels.corrected_flow(s.compressor_flow, s.p1, s.T1)
        return self._rotor_energy(wheels.tip_speed(self.names, s.compressor_power / s.compressor_flow, flow))

    def _rotor_energy(self, tip_speed):
        return self.stores.rotor_inertia / 2 * (2 * tip_speed / self.diameter) ** 2

    def _powers(self, s: Any) -> dict[str, float]:
        """Where the fuel's heat goes in this moment [W], as in `balance`, and what is stored of it."""
        found = {name: one for name, one in balance.heats(s).items() if name in ("fuel_heat", *_PARTS)}
        found["exhaust_heat"] = found["exhaust_heat"] + s.power_needed - s.turbine_power - s.metal_heat
        found |= dict(power=s.power, rotor=s.turbine_power - s.power_needed, metal=s.metal_heat)
        found["charge"] = s.stored_flow * CP * (s.T3 - self.site["T0"])
        return {name: float(one[0]) for name, one in found.items()}

    def _told(self, s, kept):
        found = dict(
            boost=s.p3 - self.site["p0"],
            mass_flow=s.air_drawn,
            fuel_flow=s.fuel_flow,
            air_fuel_ratio=s.air_drawn / s.fuel_flow,
            power=s.power,
            turbine_inlet_temperature=s.T4,
            turbine_power=s.turbine_power,
            compressor_power=s.compressor_power,
        )
        turns = np.sqrt(2 * kept[0] / self.stores.rotor_inertia) / (2 * np.pi)
        plain = {name: float(one[0]) for name, one in found.items()}
        return plain | {"shaft_speed": turns, "metal_temperature": kept[2] / self.stores.metal_capacity}
