"""What the gauges of one run showed, and what the balance would show on the same gauges."""

from dataclasses import dataclass, replace
from typing import Any

import numpy as np
from numpy.typing import NDArray

from turbomath.engine import balance
from turbomath.engine.turbocharged_engine import TurbochargedEngine
from turbomath.table.errors import unwarned

Values = NDArray[np.float64]

# Gauge -> its field of the balance. A pressure counts from the barometer, as a gauge does.
GAUGES = {
    "intake_restriction": "intake_restriction",
    "compressor_inlet_temperature": "compressor_inlet_temperature",
    "compressor_outlet_pressure": "compressor_outlet_pressure",
    "compressor_outlet_temperature": "compressor_outlet_temperature",
    "cooler_pressure_loss": "cooler_pressure_loss",
    "boost": "boost",
    "manifold_temperature": "manifold_temperature",
    "turbine_inlet_temperature": "turbine_inlet_temperature",
    "turbine_inlet_pressure": "turbine_inlet_pressure",
    "turbine_outlet_temperature": "turbine_outlet_temperature",
    "exhaust_back_pressure": "exhaust_back_pressure",
    "air_flow": "compressor_mass_flow",
    "power": "power",
}
ABSOLUTE = ("compressor_outlet_pressure", "turbine_inlet_pressure")
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
        parts = ({name: one[index] for name, one in table.items()} for table in (self.site, self.read))
        widths = ({name: one[index] for name, one in table.items()} for table in (self.unsure, self.scatter))
        return Observed(*parts, *widths, self.load[index])

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


@unwarned()
def shown(engine: TurbochargedEngine, site: dict[str, Values], fuel: Values) -> Values:
    """Return what the gauges of `GAUGES` show in balance, shape (engines, gauges, points); `nan` where there is none.

    Numbers of the engine may be of shape (engines, 1), and so may those of the site.
    """
    settled = balance.solve(with_liquid(engine, site), **{name: site[name] for name in SITE}, fuel_flow=fuel)
    pressure = settled.ambient_pressure
    found = [
        getattr(settled, field) - (pressure if name in ABSOLUTE else 0.0) for name, field in GAUGES.items()
    ]
    found = np.stack([np.where(settled.converged, one, np.nan) for one in found], axis=-2)
    return found if found.ndim == 3 else found[None]


@unwarned()
def fuel_for(engine: TurbochargedEngine, observed: Observed) -> Values:
    """Return the fuel flow [kg/s] of each point: as it was read, or what the engine needs for the power that was."""
    fuel = observed.read.get(FUEL)
    if fuel is not None and np.isfinite(fuel).all():
        return fuel
    site = {name: observed.site[name] for name in SITE}
    return np.asarray(
        balance.solve(with_liquid(engine, observed.site), **site, power=observed.read["power"]).fuel_flow
    )
