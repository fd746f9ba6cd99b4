"""Where no run stands beside the readings: an engine that is only known to be one of many.

Each of its numbers may be as far from its usual place as is usual in the trade, or as a fit to a sheet has left it. It
is brought to the readings within that, so that the slopes are those of an engine much like this one; how far it was
moved stays in the change, and the width of every number in its noise. A reading that is far off does not pull it along.
"""

from dataclasses import dataclass
from functools import partial

import numpy as np

from turbomath.engine import free_numbers, least_squares, start
from turbomath.engine.faults import reference, spread
from turbomath.engine.faults.changes import SCATTER, Changes, Values, changes, unknowns_of
from turbomath.engine.faults.observed import GAUGES, Observed, fuel_for, shown
from turbomath.engine.fitted import Fit
from turbomath.engine.free_numbers import engine_with
from turbomath.engine.sheet import sheet_of
from turbomath.engine.turbocharged_engine import TurbochargedEngine

FAR = 4.0  # standard deviations beyond which a reading pulls no harder
_MISSED = 30.0


@dataclass(frozen=True)
class StandIn:
    """An engine, and by number, in its widths, how far each of its independent unknowns moves it."""

    engine: TurbochargedEngine
    ways: dict[str, Values]


def usual(seen: Observed, like: TurbochargedEngine) -> StandIn:
    """Return the usual engine of the size, the parts and the boost at its hardest point; it may be any of the trade."""
    sheet = sheet_of([reference.point(seen, place) for place in range(len(seen.load))])
    begun = start.starting_engine(sheet, like)
    names = list(free_numbers.ENGINE_NUMBERS)
    names += free_numbers.COOLER_NUMBERS if begun.aftercooler.arrangement != "none" else ()
    names += free_numbers.GATE_NUMBERS if begun.wastegate.area else ()
    return StandIn(begun, dict(zip(names, np.eye(len(names)), strict=True)))


def fitted(fit: Fit) -> StandIn:
    """Return the engine of a sheet: unknown is what its fit has left, and by how much two engines of a type differ."""
    left, apart = fit.directions, unknowns_of(fit.engine, SCATTER)
    none = [np.zeros(len(next(iter(one.values())))) for one in (left, apart)]
    names = dict.fromkeys([*left, *apart])
    return StandIn(
        fit.engine, {name: np.concatenate([left.get(name, none[0]), apart.get(name, none[1])]) for name in names}
    )


def changes_from(stand_in: StandIn, seen: Observed) -> Changes:
    """Return what the readings differ by from those of a stand-in, and what each fault would change."""
    engine, fuel = stand_in.engine, fuel_for(stand_in.engine, seen)
    near = shown(engine, seen.site, fuel)
    count = len(next(iter(stand_in.ways.values())))
    steps = least_squares.least(partial(_misses, stand_in, seen, fuel, near), count).steps
    moved = engine_with(engine, {name: float(steps @ way) for name, way in stand_in.ways.items()})
    return changes(moved, seen, None, stand_in.ways, steps=steps)


def _misses(stand_in, seen, fuel, near, steps):
    """Return model less reading over its width, none much beyond `FAR`; a row for each trial."""
    trial = {name: (steps @ way)[:, None] for name, way in stand_in.ways.items()}
    found = shown(engine_with(stand_in.engine, trial), seen.site, fuel, near)
    read, unsure, scatter = (
        np.stack([table[name] for name in seen.gauges]) for table in (seen.read, seen.unsure, seen.scatter)
    )
    shapes = spread.STRUCTURE * np.array([[spread.level(name, seen)] for name in seen.gauges])
    widths = np.sqrt(unsure**2 + scatter**2 + shapes**2)
    misses = (found.only([list(GAUGES).index(name) for name in seen.gauges]) - read) / widths
    misses = np.nan_to_num(misses, nan=_MISSED).reshape(len(steps), -1)
    return misses / np.sqrt(1 + (misses / FAR) ** 2)
