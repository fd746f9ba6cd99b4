"""Boost against what it should be: by the maker's figure, by the engine's own earlier run, or by a model.

The balance carries a known boost to today's fuel, speed, barometer and air. What the carrying itself may have wrong is
a share of the way it goes, so that a sound engine on another day is not called wrong.
"""

from collections.abc import Callable
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from turbomath import uncertainty
from turbomath.engine.expected import START, Point, carried_boost
from turbomath.engine.limits import Past, outside, tried_from
from turbomath.lab.reduction.against_design import Comparison
from turbomath.lab.reduction.joint import own_parts, split
from turbomath.lab.reduction.stations import gauge_readings
from turbomath.lab.run.readings import Run
from turbomath.lab.verdicts.fitted_boost import drive_of_fit, fitted_comparison, fitted_to
from turbomath.lab.verdicts.known_boost import (
    EARLIER,
    FITTED,
    LEAST_EXPECTED,
    MAKER,
    MODEL,
    Known,
    drive_of_rated,
    from_earlier_run,
    from_rated,
    point_and_boost,
    same_gauges,
)
from turbomath.lab.verdicts.verdict import Judged
from turbomath.table.errors import unwarned

BOOST = "boost"

# Half-widths; common practice
RETURNING = 0.02  # of the boost: the same engine on another day
CARRYING = 0.3  # of the boost and of the way to today: the logarithm of fuel, speed, barometer and air temperature
KEEPING = 0.7  # of the change of boost, which a wastegate or other control may keep from coming
LEAST_OF_MODEL, MODEL_AT_NO_FUEL = 0.15, 1.3  # of the boost; tried on makers' own figures at part load

NEAR_RATED = {"driven": 0.10, "speed": 0.03}  # a point this near is the rated point
NEAR_EARLIER = {"driven": 0.25, "speed": 0.05}  # an earlier point this near tells of this one


def comparisons(run: Run, earlier: Run | None = None) -> tuple[Comparison, ...]:
    """Return the boost of this run against each expectation there is, the most trusted first.

    The engine that bench.toml names as fitted speaks at every point, with its own ±. Without one, a model speaks, but
    only where neither the maker nor the earlier run does.
    """
    if run.bench.engine.aftercooler not in START or run.bench.engine.displacement is None:
        return ()
    rated, own = from_rated(run), fitted_to(run)
    before = None if earlier is None else from_earlier_run(run, earlier)
    found: list[Comparison | None] = []
    told = np.zeros(len(run), dtype=bool)
    for source, known, limits in ((MAKER, rated, NEAR_RATED), (EARLIER, before, NEAR_EARLIER)):
        if known is not None:
            near = _near(run, known, limits)
            told = told | near
            found.append(_comparison(run, known, near, source))
    if own is not None:
        found.append(fitted_comparison(run, own))
    elif rated is not None:
        found.append(_comparison(run, rated, ~told, MODEL))
    return tuple(one for one in found if one is not None)


def outside_of_models(run: Run, found: Judged) -> dict[str, tuple[Past, ...]]:
    """Return {source: what of the points it speaks of lies outside the range that this model was fitted to}."""
    own, rated, sources = fitted_to(run), run.bench.rated, {one.source for one in found.points}
    reaches = {}
    if FITTED in sources and own is not None:
        reaches[FITTED] = own.reach, drive_of_fit(run, own)
    drive = drive_of_rated(run)
    if MODEL in sources and drive is not None and rated.engine_speed is not None:
        reaches[MODEL] = tried_from(rated.engine_speed, drive, getattr(rated, drive).value), drive
    return {source: _outside(run, found, source, *reach) for source, reach in reaches.items()}


def _outside(run, found, source, reach, drive):
    rows = np.array([one.row for one in found.points if one.source == source])
    here, _ = point_and_boost(run, gauge_readings(run)[0], drive)
    return outside(reach, Point(**{name: None if one is None else one[rows] for name, one in vars(here).items()}))


def _near(run: Run, known: Known, limits: dict[str, float]) -> NDArray[np.bool_]:
    """Return for each row whether the engine runs near enough to where its boost is known."""
    here, _ = point_and_boost(run, gauge_readings(run)[0], known.drive)
    there, _ = known.then(known.values)
    driven = here.driven_by[known.drive] / there.driven_by[known.drive]
    return (np.abs(driven - 1) <= limits["driven"]) & (
        np.abs(here.engine_speed / there.engine_speed - 1) <= limits["speed"]
    )


def _comparison(run: Run, known: Known, judged: NDArray[np.bool_], source: str) -> Comparison | None:
    """Return boost against the boost known, carried to each of the rows; `None` where there is nothing to compare."""
    (values, unsure), rule = gauge_readings(run), f"carrying: {source}"
    values, unsure = values | known.values | {rule: 0.0}, unsure | known.unsure | {rule: 1 / np.sqrt(3)}
    rows = np.flatnonzero(judged)
    if not rows.size:
        return None
    values, unsure = ({name: _at(one, rows) for name, one in part.items()} for part in (values, unsure))
    with unwarned():
        found = uncertainty.signed_shares(_both(run, known, rule, _WIDTHS[source]), values, unsure)
    (boost, _), (value, shares) = found["boost"], found["difference"]
    kept = np.isfinite(value) & np.isfinite(sum(shares.values())) & (boost - value >= LEAST_EXPECTED)
    if not kept.any():
        return None
    parts = own_parts(run, rows) | {name: tuple(_at(one, rows) for one in part) for name, part in known.parts.items()}
    shares = same_gauges({name: part[kept] for name, part in shares.items()}, known.kept_gauges)
    parts = {name: tuple(one[kept] for one in part) for name, part in parts.items()}
    return Comparison(BOOST, source, rows[kept], boost[kept], (boost - value)[kept], split(value[kept], shares, parts))


def _both(run: Run, known: Known, rule: str, width: Callable) -> Callable:
    """Return a function of the readings of now and then: the boost, and how far it is from what it should be."""

    def function(**read):
        now, boost = point_and_boost(run, read, known.drive)
        then, boost_then = known.then(read)
        if then.medium_temperature is None:
            then = replace(then, medium_temperature=now.medium_temperature)
        carried = carried_boost(known.engine, boost_then, then, now)
        return {
            "boost": boost,
            "difference": boost - carried * (1 + read[rule] * width(now, then, known.drive, boost_then / carried)),
        }

    return function


def _width_of_carrying(now, then, drive, kept):
    """Return the half-width of what a boost may have wrong on its way from then to now, as a share of it."""
    names = (drive, "engine_speed", "ambient_pressure", "ambient_temperature")
    ways = [np.log(getattr(now, name) / getattr(then, name)) for name in names]
    return RETURNING + np.hypot(CARRYING * np.sqrt(sum(way**2 for way in ways)), KEEPING * (1 - kept))


def _width_of_model(now, then, drive, _kept):
    return np.maximum(LEAST_OF_MODEL, MODEL_AT_NO_FUEL * (1 - getattr(now, drive) / getattr(then, drive)))


_WIDTHS = {MAKER: _width_of_carrying, EARLIER: _width_of_carrying, MODEL: _width_of_model}


def _at(value, rows):
    return value[..., rows] if np.ndim(value) else value
