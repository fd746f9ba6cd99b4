"""Two faults of the engine at once: the pairs that explain best what has changed, as if their effects added up.

They do not quite add up, so more of a change is left to the model than with one fault.
"""

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from turbomath.engine.faults.changes import FREE, Changes
from turbomath.engine.faults.naming import nearest, whitened

Values = NDArray[np.float64]

PLACES = 9  # along each path, between which the best of each pair is then sought
NOT_ADDED = 0.12  # of a change: what two faults together differ by from their sum
CLOSER_LOOK, ROUNDS = 12, 4  # pairs that are brought to their best sizes, and how often


@dataclass(frozen=True)
class Pair:
    """Two faults, how likely this pair is among all pairs, and what it leaves unexplained over the noise."""

    names: tuple[str, str]
    probability: float
    lack: float


def pairs(found: Changes) -> tuple[Pair, ...]:
    """Return the likeliest pairs, the likeliest first; that there are two faults is taken for granted."""
    free = found.change.size - found.points * (not found.settings)
    found = replace(found, noise=found.noise + np.diag((NOT_ADDED * found.change) ** 2))
    best: dict[tuple[str, str], tuple[float, float]] = {}  # Occam term, less the chi square
    for setting in found.settings or (FREE,):
        change, paths = whitened(found, setting)
        engine = [(path, effects) for path, effects in paths if path.sort != "gauge"]
        for place, other in _promising(change, [effects for _, effects in engine]):
            one, two = engine[place], engine[other]
            fit = _brought_together(change, one, two)
            names = (one[0].name, two[0].name)
            kept = best.get(names)
            best[names] = fit if kept is None or sum(fit) > sum(kept) else kept
    lack = min(-left for _, left in best.values()) / max(free, 1)
    logs = np.array([left / max(1.0, lack) / 2 + occam for occam, left in best.values()])
    chances = np.exp(logs - logs.max())
    chances /= chances.sum()
    ranked = sorted(zip(best, chances, best.values(), strict=True), key=lambda one: -one[1])
    return tuple(Pair(names, float(chance), -left / max(free, 1)) for names, chance, (_, left) in ranked)


def _promising(change, effects):
    """Return the places of the pairs that come nearest with a few sizes of each fault, the best first."""
    points = np.concatenate([_along(one) for one in effects])
    alone = (points**2).sum(axis=1) - 2 * points @ change
    together = alone[:, None] + alone[None] + 2 * points @ points.T
    count = len(effects)
    least = together.reshape(count, PLACES, count, PLACES).min(axis=(1, 3))
    first, second = np.triu_indices(count, 1)
    order = np.argsort(least[first, second])[:CLOSER_LOOK]
    return [(int(first[place]), int(second[place])) for place in order]


def _along(effects):
    """Return a path at some places, evenly over its pieces."""
    here = np.linspace(0, len(effects) - 1, PLACES)
    low = np.minimum(here.astype(int), max(len(effects) - 2, 0))
    share = (here - low)[:, None]
    return effects[low] * (1 - share) + effects[np.minimum(low + 1, len(effects) - 1)] * share


def _brought_together(change, one, two):
    """Return (Occam term, less the chi square) of a pair at its best sizes."""
    points = _along(two[1])
    begun = [nearest(*one, change - point) for point in points]
    second = points[int(np.argmin([fit.chi_square for fit in begun]))]
    for _ in range(ROUNDS):
        first = nearest(*one, change - second)
        other = nearest(*two, change - first.effect)
        second = other.effect
    return first.occam + other.occam, -other.chi_square
