"""How sure a change between two runs is: gauges, steadiness, weather, the engine's own drift, and the model.

Of a gauge's standard uncertainty some is new at each point, some is new in each run, and the rest stays as it was and
falls out between two runs of one engine. The shares are common practice; no single published source.
"""

import numpy as np
from numpy.typing import NDArray

from turbomath.engine.faults.observed import FUEL, Observed

Values = NDArray[np.float64]

NEW_EACH_RUN = 0.4  # of a gauge's standard uncertainty: its zero, and again its scale
STEADY = 0.87  # what stays; with no earlier run it counts in full
OF_THE_MODEL = 0.07  # of a change: what the model has wrong of it
PLACE = 0.5  # K by which the air at the intake differs from the thermometer, run by run
STRUCTURE = 0.02  # share of a reading at which shape of loads another engine differs, with no run of its own


def by_point(slopes: Values) -> Values:
    """Return what each point's own unknown does to all rows, of shape (points, rows); *slopes* of (rows, points)."""
    gauges, points = slopes.shape
    found = np.zeros((points, gauges, points))
    found[np.arange(points), :, np.arange(points)] = slopes.T
    return found.reshape(points, -1)


def noise(
    gauges: tuple[str, ...],
    now: Observed,
    before: Observed | None,
    change: Values,
    slopes: dict[str, Values],
    moved: Values,
    own: bool,
) -> Values:
    """Return the covariance of all rows: gauges x points, then the logarithm of the fuel at each point.

    What a gauge is always off falls out only where the run before is the engine's *own*, with the same gauges.
    """
    count = change.shape[1]
    each = np.zeros((len(gauges) + 1, count))
    each[:-1] = (OF_THE_MODEL * change) ** 2
    shared = [_with_row(one) for one in moved]
    for run in (now, before):
        if run is None:
            continue
        for place, name in enumerate(gauges):
            each[place] += run.scatter[name] ** 2
            shared += _of_a_run(place, run.read[name], run.unsure[name], each.shape, own)
        if FUEL in run.read:
            each[-1] += (run.scatter[FUEL] / run.read[FUEL]) ** 2
            level = np.ones_like(run.read[FUEL])
            shared += _of_a_run(len(gauges), level, run.unsure[FUEL] / run.read[FUEL], each.shape, own)
        else:
            each[-1] += 1.0  # nothing was read: the power says it
        weather = NEW_EACH_RUN if own else 1.0
        pressure, warm = (weather * np.max(run.unsure[f"ambient_{name}"]) for name in ("pressure", "temperature"))
        shared += [_with_row(pressure * slopes["pressure"]), _with_row(np.hypot(warm, PLACE) * slopes["warm"])]
    if before is None:
        shared += [one for place, name in enumerate(gauges) for one in _alone(place, name, now, each.shape)]
    factors = np.array([one.ravel() for one in shared])
    return np.diag(each.ravel()) + factors.T @ factors


def _of_a_run(place, read, unsure, shape, own):
    """Return a zero and a scale that are new in this run, and what is always off where it does not fall out."""
    zero, scale = np.zeros((2, *shape))
    width = NEW_EACH_RUN * np.max(unsure)
    zero[place] = width
    scale[place] = width * read / np.max(np.abs(read)) if np.any(read) else 0.0
    if own:
        return [zero, scale]
    steady = np.zeros(shape)
    steady[place] = STEADY * unsure
    return [zero, scale, steady]


def _alone(place, name, now, shape):
    """Return what counts where there is no run to set beside: the shapes of another engine over the loads."""
    more, less = np.zeros((2, *shape))
    lean = np.linspace(-1.0, 1.0, shape[1])
    more[place] = STRUCTURE * level(name, now) * lean
    less[place] = STRUCTURE * level(name, now) * (1.5 * lean**2 - 0.5)
    return [more, less]


def level(name: str, run: Observed) -> float:
    """Return what the model's shapes count in: the highest reading of a gauge, of a temperature over the room's."""
    read = run.read[name]
    return float(np.max(np.abs(read - run.site["ambient_temperature"] if "temperature" in name else read)))


def _with_row(slopes):
    return np.concatenate([slopes, np.zeros((1, slopes.shape[1]))])
