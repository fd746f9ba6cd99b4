"""The line on which a compressor worked: corrected air flow against pressure ratio, through the points of some runs.

The gauges of each run err on their own, and each of them the same at all its points. What the runs only assume, such as
a volumetric efficiency, is one error for all points of all runs: it moves the whole line and no more runs make it less.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from turbomath.lab.reduction.joint import own_parts
from turbomath.lab.reduction.metered_air import SPEED_DENSITY
from turbomath.lab.reduction.reduce import Reduced, reduce_run
from turbomath.lab.reduction.smooth_line import Points, SmoothLine, smooth_line
from turbomath.lab.run.channels import NUMBER_COLUMNS
from turbomath.uncertainty import Estimate

SAME_SPEED = 0.05  # of the engine's speed: points closer than that are of one speed
FEWEST_OF_ONE_SPEED = 3
ASSUMED = "volumetric_efficiency"

Values = NDArray[np.float64]


@dataclass(frozen=True, eq=False)
class CompressorLine:
    """The points of some runs [SI], and the line through those of one engine speed.

    `of` holds for each point (number of its run, row); `fitted` says which points the line is laid through, `off` which
    of those it does not fit, `worst` which it fits least; `engine_speed` is that of the line, `nan` where the points
    have many. `measured` says whether an air meter gave every flow; where none did, `assumed` is how far the volumetric
    efficiency that stands in for it may be off, as a share (k = 2).
    """

    of: tuple[tuple[int, int], ...]
    flow: Estimate
    pressure_ratio: Estimate
    efficiency: Estimate
    fitted: NDArray[np.bool_]
    off: NDArray[np.bool_]
    worst: NDArray[np.bool_]
    engine_speed: float
    measured: bool
    assumed: float
    line: SmoothLine


def compressor_line(reduced: Sequence[Reduced]) -> CompressorLine | None:
    """Return the line of runs of one engine, or None where their points do not make one."""
    reduced = [one if one["pressure_ratio"].shares else reduce_run(one.run, air=one.air) for one in reduced]
    of = [(number, row) for number, one in enumerate(reduced) for row in _rows(one)]
    if not of:
        return None
    names = ("flow", "pressure_ratio", "efficiency")
    flow, ratio, efficiency = (_joined(reduced, of, name) for name in names)
    speeds = np.array([reduced[number].run["engine_speed"][row] for number, row in of])
    fitted = _of_one_speed(speeds)
    points = Points(
        flow.value[fitted],
        ratio.value[fitted],
        {name: share[fitted] for name, share in flow.shares.items()},
        {name: share[fitted] for name, share in ratio.shares.items()},
        _parts(reduced, [of[at] for at in np.flatnonzero(fitted)]),
    )
    line = smooth_line(points)
    if line is None:
        return None
    distance = np.zeros(len(of))
    distance[fitted] = np.abs(line.distance)
    known = speeds[fitted & np.isfinite(speeds)]
    one_speed = known.size and np.ptp(known) <= SAME_SPEED * known.max()
    return CompressorLine(
        tuple(of),
        flow,
        ratio,
        efficiency,
        fitted,
        distance > 1,
        distance == distance.max(),
        float(np.median(known)) if one_speed else np.nan,
        all(one.sources["air_flow"] and SPEED_DENSITY not in one.sources["air_flow"] for one in reduced),
        float(2 * np.max(np.abs(flow.shares.get((ASSUMED,), 0.0 * flow.value)) / flow.value)),
        line,
    )


def _rows(one: Reduced):
    known = np.isfinite(one.compressor_flow.value) & np.isfinite(one["pressure_ratio"].value)
    return np.flatnonzero(known & np.isfinite(one["pressure_ratio"].standard_uncertainty))


def _estimate(one: Reduced, name: str) -> Estimate:
    found = {"flow": one.compressor_flow, "efficiency": one["compressor_efficiency"]}
    return found.get(name, one["pressure_ratio"])


def _key(number: int, name: str) -> tuple[str, ...]:
    """Return what an error is called: a gauge is that of its run, what is assumed or stated is that of all."""
    return (name, str(number)) if name in NUMBER_COLUMNS and name != ASSUMED else (name,)


def _joined(reduced, of, name) -> Estimate:
    """Return one quantity at the points of all runs, with the share of each error at each of them."""
    shares: dict[tuple[str, ...], Values] = {}
    value, unsure = np.zeros(len(of)), np.zeros(len(of))
    for at, (number, row) in enumerate(of):
        found: Any = _estimate(reduced[number], name)
        value[at], unsure[at] = found.value[row], found.standard_uncertainty[row]
        for one, share in found.shares.items():
            shares.setdefault(_key(number, one), np.zeros(len(of)))[at] = np.nan_to_num(
                np.broadcast_to(share, np.shape(found.value))[row]
            )
    return Estimate(value, unsure, shares)


def _parts(reduced, of):
    """Return the parts of each gauge's error that each point has alone, by the name of the error."""
    found: dict[tuple[str, ...], tuple[Values, Values]] = {}
    for number, one in enumerate(reduced):
        here = [at for at, (run, _) in enumerate(of) if run == number]
        for name, parts in own_parts(one.run, [of[at][1] for at in here]).items():
            spread = found[_key(number, name)] = (np.zeros(len(of)), np.zeros(len(of)))
            for whole, part in zip(spread, parts, strict=True):
                whole[here] = part
    return found


def _of_one_speed(speeds: Values) -> NDArray[np.bool_]:
    """Return the most points that have one engine speed, or all where there are few such or no speed was read."""
    close = np.abs(speeds[:, None] - speeds) <= SAME_SPEED * np.maximum(speeds[:, None], speeds)
    best = close[int(np.argmax(close.sum(axis=1)))]
    return best if best.sum() >= FEWEST_OF_ONE_SPEED else np.ones(len(speeds), dtype=bool)
