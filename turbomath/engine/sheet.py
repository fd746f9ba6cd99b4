"""The points of a maker's sheet, or of an engine's own run, checked and as arrays: what was given, what was read."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from turbomath.engine.expected import Point
from turbomath.table.errors import OutOfRangeError
from turbomath.table.nearest import did_you_mean
from turbomath.table.quantities import possible

SITE = ("engine_speed", "ambient_pressure", "ambient_temperature")
DRIVES = ("fuel_flow", "power")
TOLD = (
    "manifold_pressure",
    "power",
    "manifold_temperature",
    "compressor_outlet_temperature",
    "turbine_inlet_temperature",
    "turbine_inlet_pressure",
    "turbine_outlet_temperature",
)
LIQUID = "medium_temperature"  # of a liquid where it enters the aftercooler, if it was read
MOST_POINTS = 200

Values = NDArray[np.float64]


@dataclass(frozen=True)
class Sheet:
    """`given` says where the engine ran, `told` what was read there; `nan` where it was not. One element a point."""

    given: dict[str, Values]
    told: dict[str, Values]
    medium: Values | None

    @property
    def drive(self) -> str:
        """What says how hard the engine works: its fuel, or its power where no fuel was read."""
        return next(name for name in DRIVES if name in self.given)

    @property
    def top(self) -> int:
        """The point at which the engine works hardest, of those with a boost if there are any."""
        work, known = self.given[self.drive], np.isfinite(self.told["manifold_pressure"])
        return int(np.argmax(np.where(known, work, 0.0) if known.any() else work))

    @property
    def boost(self) -> Values:
        """Boost [Pa] of each point; `nan` where no manifold pressure was read."""
        return self.told["manifold_pressure"] - self.given["ambient_pressure"]

    def at(self, index: Any) -> Point:
        """Return where the engine ran, at one point or at all of them."""
        given = {name: one[index] for name, one in self.given.items()}
        return Point(**given, medium_temperature=None if self.medium is None else self.medium[index])


def sheet_of(points: Sequence[Mapping[str, float]]) -> Sheet:
    """Return the `Sheet` of points; or refuse what is no list of points, and say which point lacks what."""
    if isinstance(points, str | Mapping) or not isinstance(points, Sequence) or not points:
        raise OutOfRangeError("points must be a list of dicts, one for each point of the sheet, or a run.")
    if len(points) > MOST_POINTS:
        raise OutOfRangeError(f"points must be at most {MOST_POINTS}; found {len(points)}. Leave some out.")
    names = tuple(dict.fromkeys((*SITE, *DRIVES, *TOLD, LIQUID)))
    for place, point in enumerate(points, 1):
        _check(point, place, names)
    columns = {name: _column(points, name) for name in names}
    drive = next((name for name in DRIVES if np.isfinite(columns[name]).all()), None)
    if drive is None:
        raise OutOfRangeError("every point needs fuel_flow [kg/s], or every point power [W].")
    told = {name: columns[name] for name in TOLD if name != drive}
    if not any(np.isfinite(one).any() for one in told.values()):
        raise OutOfRangeError(f"points tell nothing to fit an engine to: give some of {', '.join(told)}.")
    medium = columns[LIQUID] if np.isfinite(columns[LIQUID]).all() else None
    return Sheet({name: columns[name] for name in (*SITE, drive)}, told, medium)


def _check(point, place, names):
    """Refuse a point with a name that is not known, or without what every point needs."""
    if not isinstance(point, Mapping):
        raise OutOfRangeError(f"point {place}: found {type(point).__name__}, expected a dict of names and SI numbers.")
    for name in point:
        if name not in names:
            raise OutOfRangeError(f"point {place}: found {str(name)[:40]!r}; {did_you_mean(name, names, len(names))}")
    for name in SITE:
        if not _known(point.get(name)):
            raise OutOfRangeError(f"point {place}: {name} is not given; every point needs {', '.join(SITE)}.")


def _known(value):
    return value is not None and not (isinstance(value, float) and np.isnan(value))


def _column(points, name):
    """Return one quantity of every point, each of which must be possible; `nan` where it is not given."""
    values = [possible(name, point[name]) if _known(point.get(name)) else np.nan for point in points]
    if any(np.ndim(one) for one in values):
        raise OutOfRangeError(f"{name} must be one number in each point.")
    column = np.array([float(one) for one in values])
    if name in ("engine_speed", *DRIVES) and np.any(column <= 0):
        place = int(np.argmax(column <= 0)) + 1
        raise OutOfRangeError(f"point {place}: {name} must be above 0; found {column[place - 1]:g}.")
    return column
