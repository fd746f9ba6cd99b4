"""One statement for all points of a run: are the differences together more than the gauges can make of nothing?

An instrument's error is one and the same at all points, so eight points are not eight proofs, and eight chances to be
called wrong are not eight times the risk. How far the worst point of a sound run goes is drawn here: each common error
from its rectangle, the reading step of each point on its own.
"""

from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.typing import ArrayLike, NDArray

from turbomath import uncertainty
from turbomath.lab.run.channels import NUMBER_COLUMNS
from turbomath.lab.run.readings import Run

RISK = 0.05  # of sound runs, at most this share is told "does not hold"
DRAWS = 4_000
SEED = 20260312

Values = NDArray[np.float64]


@dataclass(frozen=True)
class Differences:
    """Measured less expected at several points [SI], and what may lie behind it.

    `shared` holds for each input how far its error of one standard uncertainty moves every point, with its sign;
    `own` is the standard uncertainty that each point has for itself.
    """

    value: Values
    shared: dict[str, Values]
    own: Values

    @property
    def standard_uncertainty(self) -> Values:
        """Of each point alone [SI]."""
        return np.sqrt(sum((part**2 for part in self.shared.values()), self.own**2))

    def at(self, places: ArrayLike) -> "Differences":
        """Return the differences at some of the points."""
        shared = {name: part[places] for name, part in self.shared.items()}
        return Differences(self.value[places], shared, self.own[places])


def joined(parts: list[Differences]) -> Differences:
    """Return several sets of differences as one; what they share by name moves them together."""
    names = dict.fromkeys(name for part in parts for name in part.shared)
    shared = {
        name: np.concatenate([part.shared.get(name, np.zeros_like(part.value)) for part in parts]) for name in names
    }
    value, own = (np.concatenate([getattr(part, name) for part in parts]) for name in ("value", "own"))
    return Differences(value, shared, own)


def coverage(differences: Differences) -> float:
    """Return how many standard uncertainties the worst point of a sound run stays within, but for `RISK`.

    Never below the factor that the rest of a report has.
    """
    unsure = differences.standard_uncertainty
    if not unsure.size or not (unsure > 0).all():
        return uncertainty.COVERAGE_FACTOR
    common = np.array([*differences.shared.values()]).reshape(-1, unsure.size)
    errors = _errors(len(common) + unsure.size)
    moved = errors[:, : len(common)] @ common + errors[:, len(common) :] * differences.own
    worst = np.abs(moved / unsure).max(axis=1)
    return max(uncertainty.COVERAGE_FACTOR, float(np.quantile(worst, 1 - RISK)))


def split(value: Values, shares: dict[str, Values], steps: dict[str, Values]) -> Differences:
    """Return differences with each gauge's share parted into its error and its reading step; see `step_shares`."""
    shared, own = {}, np.zeros_like(value)
    for name, share in shares.items():
        step = steps.get(name, 0.0)
        shared[name], own = share * np.sqrt(1 - step), own + share**2 * step
    return Differences(value, shared, np.sqrt(own))


def step_shares(run: Run, rows: ArrayLike) -> dict[str, Values]:
    """Return for each gauge, at some rows, the part of its variance that is the step to which it is read."""
    found = {}
    for name in NUMBER_COLUMNS:
        reading = run[name] - (run.station_pressure if name in run.gauge_columns else 0.0)
        instrument = run.bench.instrument(name)
        step, width = uncertainty.resolution_step(instrument, reading) / 2, uncertainty.accuracy(instrument, reading)
        with np.errstate(invalid="ignore"):
            found[name] = np.nan_to_num(step**2 / (step**2 + width**2))[rows]
    return found


@lru_cache(8)
def _errors(count):
    """Rectangular errors of standard deviation 1: a row for each drawn run, a column for each error."""
    return np.random.default_rng(SEED).uniform(-np.sqrt(3), np.sqrt(3), (DRAWS, count))
