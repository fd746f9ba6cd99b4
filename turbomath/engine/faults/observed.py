"""What the gauges of one run showed, and what the balance would show on the same gauges."""

from collections.abc import Callable
from dataclasses import dataclass, replace
from types import SimpleNamespace
from typing import Any

import numpy as np
from numpy.typing import NDArray

from turbomath.engine import balance, settling
from turbomath.engine.turbocharged_engine import TurbochargedEngine
from turbomath.table.errors import unwarned

Values = NDArray[np.float64]

# Gauge -> what the balance has for it, from a state along the gas path and the barometer. Pressures count from there
GAUGES: dict[str, Callable[[SimpleNamespace, Values], Values]] = {
    "intake_restriction": lambda s, p0: p0 - s.p1,
    "compressor_inlet_temperature": lambda s, p0: s.T1,
    "compressor_outlet_pressure": lambda s, p0: s.p2 - p0,
    "compressor_outlet_temperature": lambda s, p0: s.T2,
    "cooler_pressure_loss": lambda s, p0: s.p2 - s.p3,
    "boost": lambda s, p0: s.p3 - p0,
    "manifold_temperature": lambda s, p0: s.T3,
    "turbine_inlet_temperature": lambda s, p0: s.T4,
    "turbine_inlet_pressure": lambda s, p0: s.p4 - p0,
    "turbine_outlet_temperature": lambda s, p0: s.T5,
    "exhaust_back_pressure": lambda s, p0: s.p5 - p0,
    "air_flow": lambda s, p0: s.compressor_flow,
    "power": lambda s, p0: s.power,
}
FUEL = "fuel_flow"
SITE = ("ambient_pressure", "ambient_temperature", "engine_speed")


@dataclass(frozen=True)
class Observed:
    """Readings of one run [SI], an element a point; `nan` where nothing was read.

    Attributes
    ----------
    site : dict of arrays
        The names of `SITE`, and `medium_temperature` of a liquid that cools the charge where there is one.
    read : dict of arrays
        By the names of `GAUGES`, and `fuel_flow`; pressures count from the barometer.
    unsure : dict of arrays
        Standard uncertainty of each reading, and of `ambient_pressure` and `ambient_temperature`.
    scatter : dict of arrays
        What part of it is new at each point.
    load : array
        The load that was set, as a share of full load.
    """

    site: dict[str, Values]
    read: dict[str, Values]
    unsure: dict[str, Values]
    scatter: dict[str, Values]
    load: Values

    def at(self, index: Any) -> "Observed":
        """Return only the points of an index."""
        site, read, unsure, scatter = (
            {name: one[index] for name, one in table.items()}
            for table in (self.site, self.read, self.unsure, self.scatter)
        )
        return Observed(site, read, unsure, scatter, self.load[index])

    @property
    def gauges(self) -> tuple[str, ...]:
        """The gauges that were read at every point."""
        return tuple(name for name in GAUGES if name in self.read and np.isfinite(self.read[name]).all())


def with_liquid(engine: TurbochargedEngine, site: dict[str, Values]) -> TurbochargedEngine:
    """Return the engine with the liquid that cools its charge as warm as it was read."""
    medium = site.get("medium_temperature")
    if medium is None or engine.aftercooler.arrangement != "jacket-water" or not np.isfinite(medium).all():
        return engine
    return replace(engine, aftercooler=replace(engine.aftercooler, jacket_water_temperature=medium))


@dataclass(frozen=True)
class Shown:
    """What gauges would show: `gauges` of shape (engines, gauges, points), `nan` without balance; `unknowns` of it."""

    gauges: Values
    unknowns: Values

    def only(self, rows: Any) -> Values:
        """Return some of the gauges."""
        return np.asarray(self.gauges[:, rows])


def shown(engine: TurbochargedEngine, site: dict[str, Values], fuel: Values, near: Shown | None = None) -> Shown:
    """Return what the gauges of `GAUGES` show in balance; numbers of the engine and the site may be of (engines, 1).

    The search begins *near* the answer of one engine that is much the same.
    """
    numbers = settling.numbers_of(with_liquid(engine, site))
    given = {"p0": site["ambient_pressure"], "T0": site["ambient_temperature"], "N": site["engine_speed"], "fuel": fuel}
    shape = np.broadcast_shapes((1, len(fuel.T)), *(np.shape(one) for one in (*numbers.values(), *given.values())))
    flat = {name: np.broadcast_to(one, shape).ravel() for name, one in given.items()}
    numbers = {name: np.broadcast_to(one, shape).ravel() if np.ndim(one) else one for name, one in numbers.items()}
    burnt = flat.pop("fuel")
    points = settling.Points(numbers, flat)
    start = None if near is None else np.tile(near.unknowns[:, : shape[1]], shape[0])
    with np.errstate(all="ignore"):
        unknowns, residual = settling.with_fuel(points, burnt, start)
        flow, pressure = np.exp(unknowns)
        state = points.state(flow, pressure, burnt)
        found = np.stack([read(state, flat["p0"]) for read in GAUGES.values()])
    found = np.where(residual <= settling.GOOD, found, np.nan).reshape(len(GAUGES), *shape)
    return Shown(np.moveaxis(found, 0, 1), unknowns)


@unwarned()
def fuel_for(engine: TurbochargedEngine, observed: Observed) -> Values:
    """Return the fuel flow [kg/s] of each point: as it was read, or what the engine needs for the power that was."""
    fuel = observed.read.get(FUEL)
    if fuel is not None and np.isfinite(fuel).all():
        return fuel
    site = {name: observed.site[name] for name in SITE}
    return np.asarray(balance.solve(with_liquid(engine, observed.site), **site, power=observed.read["power"]).fuel_flow)
