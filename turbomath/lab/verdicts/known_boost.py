"""Where a boost of this engine is known: the maker's rated point, and the points of its own earlier run."""

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from turbomath.engine.expected import START, Design, Point, engine_at
from turbomath.engine.turbocharged_engine import TurbochargedEngine
from turbomath.lab.reduction.design_here import stated_design
from turbomath.lab.reduction.fuel_and_core import fuel_flow, shaft_power
from turbomath.lab.reduction.joint import own_parts
from turbomath.lab.reduction.stations import above_zero, at_stations, gauge_readings
from turbomath.lab.run.readings import Run
from turbomath.table.errors import unwarned

MAKER, EARLIER, FITTED, MODEL = "maker", "earlier run", "fitted", "model"
DRIVES = {"fuel_flow": fuel_flow, "power": shaft_power}  # what makes the boost; fuel first, as no governor hides it
LEAST_EXPECTED = 35_000.0  # Pa; of less boost a balance says nothing
WIDTH_OF_MAKER = 0.10  # half-width of a maker's boost that states no ±, of the boost; common practice
NEW_EACH_RUN = 0.4  # of a kept gauge's error; the rest is as it was in the earlier run; common practice
THEN = "earlier "  # begins the name of a reading of the earlier run

# Stand-ins for what a bench does not state; common practice. Most of what they have wrong falls out of a ratio.
USUAL_FILLING, USUAL_EFFICIENCY, USUAL_EFFECTIVENESS, USUAL_LOSS = 0.92, 0.74, 0.78, 8_000.0

Values = NDArray[np.float64]


@dataclass(frozen=True)
class Known:
    """A boost that is known, and an engine of the balance that makes it.

    `then` gives (point, boost) from `values`, numbers by name with their standard uncertainties in `unsure`, of which
    `parts` is each point's own; see `joint.own_parts`. An array has an element for each row of the run that is judged.
    """

    drive: str
    engine: TurbochargedEngine
    values: dict[str, Values | float]
    unsure: dict[str, Values | float]
    parts: dict[str, tuple[Values, Values]]
    then: Callable[[dict], tuple[Point, Values]]
    kept_gauges: tuple[str, ...] = ()  # read both times with the same instrument, not adjusted between


def from_rated(run: Run) -> Known | None:
    """Return the maker's boost at the rated point; `None` where bench.toml or the readings do not allow it."""
    rated = run.bench.rated
    drive = drive_of_rated(run)
    if rated.boost is None or drive is None:
        return None
    stated = {"rated boost": rated.boost, f"rated {drive}": getattr(rated, drive)}
    values = {name: one.value for name, one in stated.items()}
    widths = {name: one.tolerance for name, one in stated.items()}
    widths["rated boost"] = widths["rated boost"] or WIDTH_OF_MAKER * rated.boost.value
    day = {name: getattr(rated, where) for name, where in _DAY.items()}

    def then(read):
        return Point(**day, **{drive: read[f"rated {drive}"]}), read["rated boost"]

    unsure = {name: width / np.sqrt(3) for name, width in widths.items()}
    return Known(drive, engine_at(_design(run), *then(values)), values, unsure, {}, then)


def from_earlier_run(run: Run, earlier: Run) -> Known | None:
    """Return the boost of an earlier run of the same engine, for each row at the point that ran most like it.

    `None` where the engines are not alike, or the readings do not say how hard they worked.
    """
    drive = drive_of_earlier_run(run, earlier)
    if drive is None or not same_engine(run, earlier):
        return None
    values, unsure = gauge_readings(earlier)
    points, boosts = point_and_boost(earlier, values, drive)
    rows = _most_alike(run, drive, points, boosts)
    top = int(np.nanargmax(np.where(np.isfinite(_driven(earlier, drive)), boosts, np.nan)))
    single = {name: _rows(one, top) for name, one in values.items()}

    def then(read):
        return point_and_boost(earlier, {name: read[THEN + name] for name in values}, drive)

    return Known(
        drive,
        engine_at(_design(run), *point_and_boost(earlier, single, drive)),
        {THEN + name: _rows(one, rows) for name, one in values.items()},
        {THEN + name: _rows(one, rows) for name, one in unsure.items()},
        {THEN + name: part for name, part in own_parts(earlier, rows).items()},
        then,
        _kept_gauges(run, earlier),
    )


def same_gauges(shares: dict[str, Values], kept: tuple[str, ...]) -> dict[str, Values]:
    """Return shares in which a gauge kept from the earlier run has most of its error in common with itself."""
    shares, steady = dict(shares), np.sqrt(1 - NEW_EACH_RUN**2)
    for name in kept:
        if name in shares and THEN + name in shares:
            now, then = shares[name], shares[THEN + name]
            shares[f"steady {name}"] = steady * (now + then)
            shares[name], shares[THEN + name] = NEW_EACH_RUN * now, NEW_EACH_RUN * then
    return shares


def _kept_gauges(run, earlier):
    """Return the columns read with the same instrument in both runs: one statement, one day of calibration."""
    here, there = run.bench.instruments, earlier.bench.instruments
    return tuple(name for name, one in here.items() if one.calibrated and one == there.get(name))


def same_engine(run: Run, earlier: Run) -> bool:
    """Return whether two benches are of one engine, as far as they say."""
    alike = ("displacement", "strokes", "cylinders", "aftercooler")
    return all(getattr(run.bench.engine, name) == getattr(earlier.bench.engine, name) for name in alike)


def drive_of_rated(run: Run) -> str | None:
    """Return what says in the readings and in the maker's figures how hard the engine works; `None` if nothing does."""
    return _drive(run, lambda name: getattr(run.bench.rated, name) is not None)


def drive_of_earlier_run(run: Run, earlier: Run) -> str | None:
    """Return what says in both runs how hard the engine worked; `None` if nothing does."""
    return _drive(run, lambda name: np.isfinite(_driven(earlier, name)).any())


@unwarned()
def point_and_boost(run: Run, read: dict, drive: str) -> tuple[Point, Values]:
    """Return where the engine ran and its boost, from the raw readings of each gauge."""
    at = at_stations(run, read)
    usual = START[run.bench.engine.aftercooler or "none"].aftercooler
    known = np.where(np.isnan(at.medium_temperature), usual.jacket_water_temperature, at.medium_temperature)
    medium = known if usual.arrangement == "jacket-water" else None
    point = Point(
        at.ambient_pressure,
        at.ambient_temperature,
        above_zero(read["engine_speed"]),
        **{drive: above_zero(DRIVES[drive](read))},
        medium_temperature=medium,
    )
    return point, at.manifold_pressure - at.ambient_pressure


_DAY = {
    "ambient_pressure": "barometer",
    "ambient_temperature": "ambient_temperature",
    "engine_speed": "engine_speed",
}


def _drive(run, there):
    return next((name for name in DRIVES if there(name) and np.isfinite(_driven(run, name)).any()), None)


def _driven(run, name):
    return above_zero(DRIVES[name](gauge_readings(run)[0]))


def _most_alike(run, drive, points, boosts):
    """Return for each row the row of the earlier run that is nearest in fuel (or power) and speed."""
    here, _ = point_and_boost(run, gauge_readings(run)[0], drive)
    pairs = (getattr(here, drive), points.driven_by[drive]), (here.engine_speed, points.engine_speed)
    far = sum(np.abs(np.log(now[:, None] / then[None])) for now, then in pairs) + 0 * boosts
    return np.argmin(np.where(np.isnan(far), np.inf, far), axis=1)


def _design(run):
    """Return this engine's design, with stand-ins for what bench.toml does not state."""
    engine, stated = run.bench.engine, {name: one.value for name, one in stated_design(run.bench).items()}
    cooled = engine.aftercooler != "none"
    return Design(
        engine.aftercooler,
        displacement=engine.displacement * 4 / engine.strokes,
        volumetric_efficiency=engine.volumetric_efficiency.value if engine.volumetric_efficiency else USUAL_FILLING,
        compressor_efficiency=stated.get("compressor_efficiency", USUAL_EFFICIENCY),
        effectiveness=stated.get("effectiveness", USUAL_EFFECTIVENESS) if cooled else 0.0,
        cooler_pressure_loss=stated.get("cooler_pressure_loss", USUAL_LOSS) if cooled else 0.0,
    )


def _rows(value, rows):
    return value[..., rows] if np.ndim(value) else value
