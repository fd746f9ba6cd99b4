"""Naming the fault: how well each on the list explains what has changed, and how likely that makes it.

Each fault is a path of sizes. What it leaves unexplained at its best size is counted in the declared noise (chi
square); a fault that could show nearly anything pays for that (an Occam term). Nothing is accused that the noise may
have made: a sound engine is on the list too, and where even the best leaves more than the noise, the noise is widened.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from turbomath.engine.faults.changes import FREE, RACK, Changes, Path

Values = NDArray[np.float64]

SOUND = "sound"
PRIORS = {SOUND: 0.70, "engine": 0.20, "gauge": 0.10}  # shared among those of each sort
ALONE = {SOUND: 0.85, "engine": 0.10, "gauge": 0.05}  # where no run stands beside the readings, less is believed
DOUBTED = 1.5  # there a chi square counts for so much less: what stands in for an engine is never quite like it
SETTING = 0.007  # how nearly a load setting gives the same fuel, or the same power, again; common practice
UNKNOWN_FUEL = 0.3  # logarithm: where nothing but gauges says it
NOTHING_FITS = 1.6  # chi square for each free row of the best, from which nothing on the list fits


@dataclass(frozen=True)
class Named:
    """One candidate: how likely it is, and the size that fits best [SI or a share]; `sort` says what it is of."""

    name: str
    sort: str
    probability: float
    size: float
    chi_square: float


@dataclass(frozen=True)
class Diagnosis:
    """All candidates, the likeliest first. `lack` is what the best leaves over, in the noise: 1 is as it should be.

    `fits` says whether anything on the list does.
    """

    named: tuple[Named, ...]
    lack: float

    @property
    def best(self) -> Named:
        """The likeliest."""
        return self.named[0]

    @property
    def fits(self) -> bool:
        """Whether the best candidate explains the readings within their noise."""
        return self.lack <= NOTHING_FITS

    def of(self, name: str) -> float:
        """Return how likely a candidate is."""
        return next((one.probability for one in self.named if one.name == name), 0.0)


def diagnosis(found: Changes) -> Diagnosis:
    """Return how likely each fault on the list is."""
    tried = [_with_setting(found, setting) for setting in found.settings or (FREE,)]
    everything = [one for each in tried for one in each]
    free = found.change.size - found.points * (not found.settings)
    least = min(one.chi_square for one in everything)
    lack = least / max(free, 1)
    guard = max(DOUBTED if found.alone else 1.0, lack)
    weights: dict[str, float] = {}
    best: dict[str, Fit] = {}
    for one in everything:
        log = -one.chi_square / guard / 2 + one.occam
        weights[one.name] = np.logaddexp(weights.get(one.name, -np.inf), log)
        if one.name not in best or one.chi_square < best[one.name].chi_square:
            best[one.name] = one
    engine = sum(one.sort != "gauge" for one in best.values()) - 1
    gauges = max(1, len(best) - 1 - engine)
    priors = ALONE if found.alone else PRIORS
    shares = {"": priors[SOUND], "engine": priors["engine"] / engine, "gauge": priors["gauge"] / gauges}
    shares["setting"] = shares["engine"]
    logs = np.array([weight + np.log(shares[best[name].sort]) for name, weight in weights.items()])
    chances = np.exp(logs - logs.max())
    chances /= chances.sum()
    named = [
        Named(name, best[name].sort, float(chance), best[name].size, best[name].chi_square)
        for name, chance in zip(weights, chances, strict=True)
    ]
    return Diagnosis(tuple(sorted(named, key=lambda one: -one.probability)), float(lack))


@dataclass(frozen=True)
class Fit:
    """The nearest point on a path: what it leaves (chi square), what its length costs, its size and its effect."""

    name: str
    sort: str
    chi_square: float
    occam: float
    size: float
    effect: Values


def whitened(found: Changes, setting: str) -> tuple[Values, list[tuple[Path, Values]]]:
    """Return (the change, the paths), both counted in the noise, if the setting is of this sort."""
    change, noise, fuel = found.change, found.noise, found.fuel
    paths = [(path, path.effects) for path in found.paths if path.sort != "setting"]
    if setting != FREE:
        row, power = found.settings[setting]
        place = None if power is None else found.gauges.index("power") * found.points
        width = SETTING * (np.ones_like(row) if power is None else np.abs(_level(power)))
        change = np.concatenate([change, row])
        noise = np.pad(noise, (0, len(row)))
        noise[-len(row) :, -len(row) :] += np.diag(width**2)
        fuel = np.concatenate([fuel, np.diag(np.ones_like(row) if power is None else power)], axis=1)
        paths = [(path, _extended(effects, place, len(row))) for path, effects in paths]
        if setting == RACK:
            of_fuel = [path for path in found.paths if path.sort == "setting"]
            paths += [(path, _setting_effects(path, len(row))) for path in of_fuel]
    root = np.linalg.cholesky(noise + UNKNOWN_FUEL**2 * fuel.T @ fuel + 1e-12 * np.diag(np.diag(noise)))
    white = np.linalg.solve(root, np.column_stack([change, *(effects.T for _, effects in paths)]))
    left, found_paths = 1, []
    for path, effects in paths:
        found_paths.append((path, white[:, left : left + len(effects)].T))
        left += len(effects)
    return white[:, 0], found_paths


def _level(power):
    return np.maximum(np.abs(power), 1.0)  # the slope to the logarithm of the fuel is about the power


def _extended(effects, place, count):
    """Return the effects with those on the row of the setting: a governor's is the power's own."""
    more = np.zeros((len(effects), count)) if place is None else effects[:, place : place + count]
    return np.concatenate([effects, more], axis=1)


def _setting_effects(path, count):
    effects = np.concatenate([path.effects, np.zeros((len(path.effects), count))], axis=1)
    effects[:, -count:] = -np.log1p(path.sizes)[:, None]
    return effects


def _with_setting(found, setting):
    """Return a fit of each candidate, if the setting is of this sort."""
    change, paths = whitened(found, setting)
    fits = [Fit(SOUND, "", float(change @ change), 0.0, 0.0, 0.0 * change)]
    return fits + [nearest(path, effects, change) for path, effects in paths]


def nearest(path: Path, effects: Values, change: Values) -> Fit:
    """Return the fit of the nearest point on a path: its chi square, its size, and what its length costs."""
    if len(effects) == 1:
        left = change - effects[0]
        return Fit(path.name, path.sort, float(left @ left), 0.0, float(path.sizes[0]), effects[0])
    ways = np.diff(effects, axis=0)
    squares = np.maximum((ways**2).sum(axis=1), 1e-12)
    along = np.clip(((change - effects[:-1]) * ways).sum(axis=1) / squares, 0.0, 1.0)
    left = change - effects[:-1] - along[:, None] * ways
    misses = (left**2).sum(axis=1)
    place = int(np.argmin(misses))
    size = path.sizes[place] + along[place] * (path.sizes[place + 1] - path.sizes[place])
    occam = min(0.0, np.log(np.sqrt(2 * np.pi) / max(np.sqrt(squares).sum(), 1e-9)))
    return Fit(path.name, path.sort, float(misses[place]), float(occam), float(size), change - left[place])
