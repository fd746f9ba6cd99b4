"""Boost against that of the engine which bench.toml names: one fitted to a maker's sheet, or to an earlier run.

It says what the boost should be at every point, and its own ± of it, which grows away from the points it was fitted to.
"""

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from turbomath import uncertainty
from turbomath.engine.expected import Point, boost_of
from turbomath.engine.fitted import COVERAGE, Fit
from turbomath.lab.reduction.against_design import Comparison
from turbomath.lab.reduction.joint import own_parts, split
from turbomath.lab.reduction.stations import gauge_readings
from turbomath.lab.run.engine_file import FittedEngine, read_engine
from turbomath.lab.run.readings import Run
from turbomath.lab.verdicts.known_boost import DRIVES, FITTED, LEAST_EXPECTED, point_and_boost
from turbomath.table.errors import TurbomathError, short, unwarned

_RULE = f"model: {FITTED}"
SAME_SIZE = 0.01  # of the displacement


def engine_file(run: Run) -> FittedEngine | None:
    """Return the fitted engine that bench.toml names; `None` where it names none.

    Raises
    ------
    TurbomathError
        If the file is not there or not whole, or its engine is not of this size or aftercooler.
    """
    if run.bench.engine.model is None:
        return None
    path = Path(run.folder) / run.bench.engine.model
    found, stated = read_engine(path), run.bench.engine
    size = (stated.displacement or np.nan) * 4 / stated.strokes
    if abs(found.fit.engine.displacement / size - 1) > SAME_SIZE:
        raise TurbomathError(
            f"{short(path)}: found an engine of another displacement than bench.toml states. "
            "Fit one to this engine's own sheet, or take the line model out of bench.toml."
        )
    return found


def fitted_to(run: Run) -> Fit | None:
    """Return the fit that this run can be judged by; `None` where there is none, or it was fitted to this very run."""
    found = engine_file(run)
    return None if found is None or _is_of(run, found.fit) else found.fit


def _is_of(run: Run, fit: Fit) -> bool:
    """Return whether every point that the engine was fitted to is a point of this run, with its boost."""
    here, boost = point_and_boost(run, gauge_readings(run)[0], fit.driven_by)
    there = vars(here) | {"drive": here.driven_by[fit.driven_by], "boost": boost}
    alike = [np.isclose(there[name][:, None], one, rtol=1e-6, equal_nan=True) for name, one in fit.points.items()]
    return bool(np.all(alike, axis=0).any(axis=0).all())


def drive_of_fit(run: Run, fit: Fit) -> str | None:
    """Return what says how hard the engine worked: what the fit was driven by, or else the other, if it was read."""
    ways, values = sorted(DRIVES, key=lambda name: name != fit.driven_by), gauge_readings(run)[0]
    return next((name for name in ways if np.isfinite(DRIVES[name](values)).any()), None)


def fitted_comparison(run: Run, fit: Fit) -> Comparison | None:
    """Return boost against the fitted engine's; `None` where there is nothing to compare."""
    (values, unsure), drive = gauge_readings(run), drive_of_fit(run, fit)
    if drive is None:
        return None
    here, _ = point_and_boost(run, values, drive)
    widths = fit.expected(here)["boost"].plus_or_minus / COVERAGE
    values, unsure = values | {_RULE: 0.0}, unsure | {_RULE: 1.0}
    with unwarned():
        found = uncertainty.signed_shares(_both(run, fit, drive, widths), values, unsure)
    (boost, _), (off, shares) = found["boost"], found["difference"]
    rows = np.flatnonzero(np.isfinite(off + sum(shares.values())) & (boost - off >= LEAST_EXPECTED))
    if not rows.size:
        return None
    kept = {name: share[rows] for name, share in shares.items()}
    differences = split(off[rows], kept, own_parts(run, rows))
    return Comparison("boost", FITTED, rows, boost[rows], (boost - off)[rows], differences)


def _both(run: Run, fit: Fit, drive: str, widths: NDArray[np.float64]) -> Callable:
    """Return a function of the readings: the boost, and how far it is from the fitted engine's."""

    def function(**read):
        here, boost = point_and_boost(run, read, drive)
        should = boost_of(fit.engine, _known(fit, here)) + read[_RULE] * widths
        return {"boost": boost, "difference": boost - should}

    return function


def _known(fit: Fit, point: Point) -> Point:
    """Return the point without a liquid's temperature that the fit did not know of."""
    return point if fit.liquid_read else replace(point, medium_temperature=None)
