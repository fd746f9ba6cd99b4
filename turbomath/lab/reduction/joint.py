"""One statement for all points of a run: are the differences together more than the gauges can make of nothing?

An instrument's error is one and the same at all points, so eight points are not eight proofs, and eight chances to be
called wrong are not eight times the risk. How far the worst point of a sound run goes is drawn here: each common error
from its rectangle; the reading step and the unsteadiness of each point on their own.
"""

from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.typing import ArrayLike, NDArray

from turbomath import uncertainty
from turbomath.lab.run.channels import NUMBER_COLUMNS
from turbomath.lab.run.readings import Run

RISK = 0.05  # at most this share of sound runs is told "does not hold"
DRAWN_RISK = 0.03  # of the drawn runs; the rest is left for what no drawing knows
DRAWS = 4_000
SEED = 20260312

# No engine is quite steady: a half-width for each point alone; common practice
UNSTEADY_TEMPERATURE = 1.0  # K
UNSTEADY_SHARE = 0.005
SLOW = ("compressor_inlet_temperature", "compressor_outlet_temperature", "manifold_temperature")
PULSING = ("boost", "compressor_outlet_pressure", "fuel_flow", "power", "torque")

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


def joined(parts: list[Differences]) -> Differences:
    """Return several sets of differences as one; what they share by name moves them together."""
    names = dict.fromkeys(name for part in parts for name in part.shared)
    shared = {
        name: np.concatenate([part.shared.get(name, np.zeros_like(part.value)) for part in parts]) for name in names
    }
    value, own = (np.concatenate([getattr(part, name) for part in parts]) for name in ("value", "own"))
    return Differences(value, shared, own)


def coverage(differences: Differences) -> float:
    """Return how many standard uncertainties the worst point of a sound run stays within, but for `DRAWN_RISK`.

    Never below the factor that the rest of a report has.
    """
    unsure = differences.standard_uncertainty
    if not unsure.size or not (unsure > 0).all():
        return uncertainty.COVERAGE_FACTOR
    common = np.array([*differences.shared.values()]).reshape(-1, unsure.size)
    errors = drawn_errors(len(common) + unsure.size)
    moved = errors[:, : len(common)] @ common + errors[:, len(common) :] * differences.own
    worst = np.abs(moved / unsure).max(axis=1)
    return max(uncertainty.COVERAGE_FACTOR, float(np.quantile(worst, 1 - DRAWN_RISK)))


def split(value: Values, shares: dict[str, Values], parts: dict[str, tuple[Values, Values]]) -> Differences:
    """Return differences with each gauge's share parted into what all points have in common and what each has alone.

    *parts* are those of `own_parts`.
    """
    shared, own = {}, np.zeros_like(value)
    for name, share in shares.items():
        step, unsteady = parts.get(name, (0.0, 0.0))
        shared[name], own = share * np.sqrt(1 - step), own + share**2 * (step + unsteady)
    return Differences(value, shared, np.sqrt(own))


def own_parts(run: Run, rows: ArrayLike) -> dict[str, tuple[Values, Values]]:
    """Return for each gauge, at some rows, (part of its variance that is the reading step, unsteadiness over it)."""
    found = {}
    for name in NUMBER_COLUMNS:
        reading = run[name] - (run.station_pressure if name in run.gauge_columns else 0.0)
        instrument = run.bench.instrument(name)
        step, width = uncertainty.resolution_step(instrument, reading) / 2, uncertainty.accuracy(instrument, reading)
        whole = step**2 + width**2
        with np.errstate(invalid="ignore", divide="ignore"):
            parts = step**2 / whole, _unsteady(name, reading) ** 2 / whole
        found[name] = tuple(np.nan_to_num(part, posinf=0.0)[rows] for part in parts)
    return found


def _unsteady(name, reading):
    """Return how far a reading may be from its steady value, a half-width."""
    if name in SLOW:
        return UNSTEADY_TEMPERATURE + 0 * reading
    return UNSTEADY_SHARE * reading if name in PULSING else 0 * reading


@lru_cache(8)
def drawn_errors(count: int) -> NDArray[np.float64]:
    """Return rectangular errors of standard deviation 1: a row for each drawn run, a column for each error."""
    return np.random.default_rng(SEED).uniform(-np.sqrt(3), np.sqrt(3), (DRAWS, count))
