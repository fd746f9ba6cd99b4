"""The shaft between two balances: what rotor, charge and metal keep, stepped in time, many cases side by side.

Time is stepped by a Runge-Kutta method of two implicit stages, of second order, which damps what is fast (R. Alexander,
SIAM J. Numer. Anal. 14 (1977), 1006; from memory). Stores are its unknowns, so no energy is lost in the stepping.
"""

from collections.abc import Sequence
from types import SimpleNamespace
from typing import Any

import numpy as np
from numpy.typing import NDArray

from turbomath.engine import balance, newton, settling, wheels
from turbomath.table.constants import AIR_GAS_CONSTANT
from turbomath.table.constants import AIR_SPECIFIC_HEAT as CP
from turbomath.table.kinds_of_value import Values

_GAMMA, _AT_ONCE = 1 - np.sqrt(0.5), 1e-9
_PARTS = ("fuel_heat", "power", "coolant_heat", "heat_rejected", "exhaust_heat", "leak_heat", "unburnt_heat")
_STORES = ("rotor", "charge", "metal")
_BEGUN = ("compressor_mass_flow", "compressor_outlet_pressure", "manifold_pressure", "manifold_temperature")
_BEGUN += ("compressor_power", "corrected_mass_flow", "turbine_inlet_temperature")
Columns = dict[str, NDArray[np.float64]]


class Shaft:
    """Engines that are given more fuel, one for each case of an array of one axis; SI.

    `lost` are the cases for which no way was found: what is told of them means nothing, and the others are as they
    would be without them.
    """

    def __init__(
        self, engine: dict[str, Any], site: dict[str, Any], stores: dict[str, Any], fuel: Values, shape: tuple[int, ...]
    ) -> None:
        names = {"ambient_pressure": "p0", "ambient_temperature": "T0", "engine_speed": "N"}
        site = {names[name]: one for name, one in site.items()} | stores | {"fuel": np.broadcast_to(fuel, shape)}
        self.engine, self.site, self.lost = _spread(engine, shape), _spread(site, shape), np.zeros(shape, dtype=bool)
        self.site["diameter"] = settling.plain(wheels.diameter(SimpleNamespace(**self.engine)))

    def run(
        self, times: NDArray[np.float64], starts: Sequence[balance.Balance], warm: Values
    ) -> tuple[Columns, Columns]:
        """Return (series, energies) by name: each moment a row and each case a column; what flowed in all that time.

        *starts* are the balances at the first of *times*, with `nan` for one that is lost; *warm* is the metal [K],
        `nan` where it is as warm as the exhaust.
        """
        self.lost |= [not one.converged for one in starts]
        with np.errstate(all="ignore"):
            kept, unknowns = self._begun(starts, warm)
            told = [self._told(_state(self._points(kept, _AT_ONCE), unknowns), kept)]
            energy = dict.fromkeys((*_PARTS, *_STORES), np.zeros(self.lost.shape))
            for step in np.diff(times):
                if self.lost.all():
                    break
                s, rates, unknowns = self._stage(kept, _GAMMA * step, unknowns)
                later = kept + (1 - _GAMMA) * step * rates
                t, more, unknowns = self._stage(later, _GAMMA * step, unknowns)
                kept = later + _GAMMA * step * more
                for one, share in ((s, 1 - _GAMMA), (t, _GAMMA)):
                    for name, rate in self._powers(one).items():
                        energy[name] = energy[name] + share * step * rate
                told.append(self._told(t, kept))
        return {name: np.array([one[name] for one in told]) for name in told[0]}, energy

    def _begun(self, starts, warm):
        """Return (what is stored, unknowns) in the moment of the step: the air is as it was before."""
        start = SimpleNamespace(**{name: np.array([getattr(one, name) for one in starts]) for name in _BEGUN})
        mass = self.site["charge_volume"] * start.manifold_pressure / (AIR_GAS_CONSTANT * start.manifold_temperature)
        work = start.compressor_power / start.compressor_mass_flow
        speed = wheels.tip_speed(SimpleNamespace(**self.engine), work, start.corrected_mass_flow)
        warm = np.where(np.isnan(warm), start.turbine_inlet_temperature, warm)
        kept = [_rotor_energy(SimpleNamespace(**self.site), speed), mass, self.site["metal_capacity"] * warm]
        return np.array(kept), np.log(np.array([start.compressor_mass_flow, start.compressor_outlet_pressure]))

    def _stage(self, kept, over, guess):
        """Return (state, rates of what is stored, unknowns) after *over* seconds of an implicit step from *kept*."""
        points, going = self._points(kept, over), np.flatnonzero(~self.lost)

        def function(unknowns, index):
            here = points.at(going[index]) if self.lost.size > 1 else points  # one serves for each of its slopes
            return _misses(here, _state(here, unknowns))

        unknowns = guess.copy()
        unknowns[:, going], residual = newton.roots(function, guess[:, going])
        self.lost[going[~(residual <= settling.GOOD)]] = True
        s = _state(points, unknowns)
        return s, np.array([s.turbine_power - s.power_needed, s.stored_flow, s.metal_heat]), unknowns

    def _points(self, kept, over):
        rotor, mass, metal = kept
        stored = dict(over=over, rotor_energy=rotor, mass=mass, metal_temperature=metal / self.site["metal_capacity"])
        return settling.Points(self.engine, self.site | stored)

    def _powers(self, s):
        """Where the fuel's heat goes in this moment [W], as in `balance`, and what is stored of it."""
        found = {name: one for name, one in balance.heats(s).items() if name in _PARTS}
        found["exhaust_heat"] = found["exhaust_heat"] + s.power_needed - s.turbine_power - s.metal_heat
        found |= dict(power=s.power, rotor=s.turbine_power - s.power_needed, metal=s.metal_heat)
        return found | {"charge": s.stored_flow * CP * (s.T3 - self.site["T0"])}

    def _told(self, s, kept):
        return dict(
            boost=s.p3 - self.site["p0"],
            mass_flow=s.air_drawn,
            fuel_flow=s.fuel_flow,
            air_fuel_ratio=s.air_drawn / s.fuel_flow,
            power=s.power,
            turbine_inlet_temperature=s.T4,
            turbine_power=s.turbine_power,
            compressor_power=s.compressor_power,
            shaft_speed=np.sqrt(2 * kept[0] / self.site["rotor_inertia"]) / (2 * np.pi),
            metal_temperature=kept[2] / self.site["metal_capacity"],
        )


def _spread(numbers, shape):
    """Arrays with one element for each case; single numbers stay single."""
    return {name: np.broadcast_to(one, shape) if np.ndim(one) else one for name, one in numbers.items()}


def _state(points, unknowns):
    return points.state(*np.exp(unknowns), points.site.fuel)


def _misses(points, s):
    """Air and the rotor's energy that are not where they should be after the step, each as a share."""
    site = points.site
    gained = site.over * (s.turbine_power - s.power_needed)
    scale = site.rotor_energy + site.over * (s.turbine_power + np.abs(s.power_needed))
    flow = wheels.corrected_flow(s.compressor_flow, s.p1, s.T1)
    speed = wheels.tip_speed(points.engine, s.compressor_power / s.compressor_flow, flow)
    energy = (_rotor_energy(site, speed) - site.rotor_energy - gained) / scale
    return np.stack([(s.air_flow - s.air_drawn) / s.charge_flow, energy])


def _rotor_energy(site, tip_speed):
    return site.rotor_inertia / 2 * (2 * tip_speed / site.diameter) ** 2
