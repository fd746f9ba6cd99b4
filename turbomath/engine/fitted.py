"""An engine fitted to a sheet: what was freed, what is left over, and what it should do elsewhere, with its ±."""

from dataclasses import dataclass, field, replace

import numpy as np
from numpy.typing import NDArray

from turbomath.engine import limits
from turbomath.engine.expected import Point
from turbomath.engine.free_numbers import engine_with
from turbomath.engine.outputs import OUTPUTS, outputs, unsure_of
from turbomath.engine.turbocharged_engine import TurbochargedEngine
from turbomath.table.errors import unwarned

COVERAGE = 2.0  # standard uncertainties of each ±
FAR = ("drive", "engine_speed", "ambient_pressure", "ambient_temperature")

# What the shape of the model may have wrong, a standard uncertainty as a share, for each unit of the logarithm of the
# way from the nearest fitted point; tried on engines of three other models, two of them published
# (`tests/benchmarks/fits.py`). Of a pressure: of the boost.
GROWTH = {
    "manifold_pressure": 0.11,
    "turbine_inlet_pressure": 0.06,
    "power": 0.06,
    "fuel_flow": 0.06,
    "manifold_temperature": 0.008,
    "compressor_outlet_temperature": 0.015,
    "turbine_inlet_temperature": 0.03,
    "turbine_outlet_temperature": 0.03,
}

GATED = {"manifold_pressure": 2.0, "turbine_inlet_pressure": 2.0}  # times that: a gate may open between two points

Values = NDArray[np.float64]


@dataclass(frozen=True)
class Freed:
    """A number that the points could tell: where it is now, where it usually is, and the ± that is left."""

    value: float
    usual: float
    plus_or_minus: float


@dataclass(frozen=True)
class Expected:
    """What an engine should do at a point: the value and the model's own ±, SI."""

    value: Values
    plus_or_minus: Values


@dataclass(frozen=True, repr=False)
class Fit:
    """An engine of the balance fitted to a sheet.

    Attributes
    ----------
    engine : TurbochargedEngine
        The fitted engine.
    freed : dict of Freed
        The numbers that the points could tell, by name; the model's ± of each is k = 2.
    leftover : dict of arrays
        Model less sheet at each point [SI], by the names of the sheet; `nan` where the sheet says nothing.
    usual : tuple of str
        The numbers that stayed at their usual place.
    driven_by, liquid_read : str, bool
        "fuel_flow" or "power"; whether the sheet has the temperature of the liquid that cools the charge.
    points : dict of arrays
        Where the sheet's points are: `drive` [kg/s or W, as `driven_by` says], speed and weather; and the `boost` [Pa]
        that was read there, `nan` where none was.
    directions : dict of arrays
        By number, in its widths: how far each of the independent unknowns that are left moves it (one deviation).
    """

    engine: TurbochargedEngine
    freed: dict[str, Freed]
    leftover: dict[str, Values]
    usual: tuple[str, ...]
    driven_by: str
    liquid_read: bool
    points: dict[str, Values]
    directions: dict[str, Values]
    scale: float = field(default=1.0)  # how much larger what is left over is than a sheet's usual uncertainty

    def __repr__(self) -> str:
        count = len(self.points["drive"])
        return f"<Fit of {self.engine.name!r}: {count} points, {len(self.freed)} numbers freed>"

    @unwarned()
    def expected(self, point: Point) -> dict[str, Expected]:
        """Return {quantity: what the engine should do there}, boost and the columns of the sheet.

        Parameters
        ----------
        point : Point
            Where it runs; floats or arrays of one shape.

        Returns
        -------
        dict of Expected
            Values and their ± (k = 2), of the shape of the point; `nan` where the balance finds no answer. The ± grows
            away from the points that the engine was fitted to.
        """
        known = self.liquid_read or self.engine.aftercooler.arrangement != "jacket-water"
        point = point if known else replace(point, medium_temperature=None)
        given = {name: one for name, one in vars(point).items() if one is not None}
        shape = np.broadcast_shapes(*(np.shape(one) for one in given.values()))
        flat = Point(**{name: np.broadcast_to(one, shape).reshape(-1) for name, one in given.items()})
        steps = {name: np.concatenate([[0.0], one])[:, None] for name, one in self.directions.items()}
        found = outputs(engine_with(self.engine, steps), flat)
        values = {name: one[0] for name, one in found.items()}
        way = self.way(flat)
        widths = {name: self._width(name, found[name], flat, way) for name in OUTPUTS}
        values["boost"] = values["manifold_pressure"] - flat.ambient_pressure
        widths["boost"] = widths["manifold_pressure"]
        return {name: Expected(one.reshape(shape), widths[name].reshape(shape)) for name, one in values.items()}

    def way(self, point: Point) -> Values:
        """Return how far a point is from the nearest fitted one: the length of the logarithms of drive and site."""
        here = vars(point) | {"drive": self._drive(point)}
        apart = np.array([np.log(np.asarray(here[name])[:, None] / self.points[name]) for name in FAR])
        return np.asarray(np.sqrt((apart**2).sum(axis=0).min(axis=1)))

    @property
    def reach(self) -> dict[str, tuple[float, float]]:
        """The range of the fitted points, as `turbomath.engine.limits.outside` takes it."""
        return limits.around({self.driven_by if name == "drive" else name: one for name, one in self.points.items()})

    def _drive(self, point):
        """Return what the sheet is driven by, fuel or power, at a point; the other one stands for it by its share."""
        given = point.driven_by
        if self.driven_by in given:
            return given[self.driven_by]
        (name, value), engine = next(iter(given.items())), self.engine
        rated = {"fuel_flow": engine.rated_fuel_flow, "power": engine.rated_power}
        return value / rated[name] * rated[self.driven_by]

    def _width(self, name, found, point, way):
        """Return the ± of one quantity: of what is left unknown of the numbers, of the shapes, and of the sheet."""
        moved = np.nan_to_num(found[1:] - found[0])
        base = point.ambient_pressure if "pressure" in name else 0.0
        gated = GATED.get(name, 1.0) if self.engine.wastegate.area else 1.0
        shape = gated * GROWTH[name] * way * (found[0] - base)
        sheet = 0.5 * self.scale * unsure_of(name, found[0], point.ambient_pressure)
        return COVERAGE * np.sqrt((moved**2).sum(axis=0) + shape**2 + sheet**2)
