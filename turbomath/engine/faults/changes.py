"""From two runs to what has changed: readings less what another day and another fuel flow would change in them.

Every row of a change is a gauge at a point. Behind the gauges stand the fuel, whose row is a logarithm, and what the
setting says: that at one load setting the fuel is as it was (a rack, a throttle), or that the power is (a governor).
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from turbomath.engine.faults import spread
from turbomath.engine.faults.engine_faults import FUEL_FAULTS, EngineFault, engines_with, faults_of
from turbomath.engine.faults.gauge_faults import MOST_SCALE, SCALE, gauge_faults, of_both_signs
from turbomath.engine.faults.observed import FUEL, GAUGES, Observed, fuel_for, shown
from turbomath.engine.free_numbers import ALL, SHARE, engine_with, number
from turbomath.engine.turbocharged_engine import TurbochargedEngine

Values = NDArray[np.float64]

RACK, GOVERNOR, FREE = "rack", "governor", "free"
NO_ANSWER = 1e9  # far from any reading
SAME_LOAD = 0.015  # of full load: two settings that count as one
# Share by which each number of a sound engine moves from run to run, and by which two of one make and type are apart;
# common practice
DRIFT = dict.fromkeys(
    (
        "turbine_area",
        "turbine_efficiency",
        "best_compressor_efficiency",
        "volumetric_efficiency",
        "best_indicated_efficiency",
        "coolant_share",
        "intake_coefficient",
        "exhaust_coefficient",
        "conductance",
        "pressure_loss_coefficient",
    ),
    0.003,
)
SCATTER = DRIFT | {
    "turbine_area": 0.01,
    "turbine_efficiency": 0.015,
    "best_compressor_efficiency": 0.01,
    "volumetric_efficiency": 0.01,
    "best_indicated_efficiency": 0.007,
    "coolant_share": 0.02,
    "intake_coefficient": 0.05,
    "exhaust_coefficient": 0.05,
    "conductance": 0.03,
    "pressure_loss_coefficient": 0.05,
}
STEP_PRESSURE, STEP_WARM, STEP_FUEL = 0.005, 2.0, 0.01  # for slopes: share, K, logarithm
NEAR = 0.1  # of an unknown's width, for its slope where it is wide


@dataclass(frozen=True)
class Path:
    """What one fault does: `effects` of shape (sizes, rows) at each of its `sizes`, straight between two."""

    name: str
    sort: str  # "engine", "setting" or "gauge"
    sizes: Values
    effects: Values


@dataclass(frozen=True)
class Changes:
    """What has changed, how sure that is, and what each fault would change, in rows (gauges x points, then fuel).

    `settings` holds for a rack and for a governor the row that the setting adds: its change, and for a governor the
    response of the power to the logarithm of the fuel. `fuel` is the response of every row to that of each point.
    `alone` says that no run stands beside the readings.
    """

    gauges: tuple[str, ...]
    points: int
    change: Values
    noise: Values
    fuel: Values
    settings: dict[str, tuple[Values, Values | None]]
    paths: tuple[Path, ...]
    alone: bool = False

    def only(self, gauges: Sequence[str]) -> "Changes":
        """Return the change as some of its gauges show it; the fuel and the setting are known as before."""
        kept = [name for name in self.gauges if name in gauges]
        rows = [self.gauges.index(name) for name in kept] + [len(self.gauges)]
        at = (np.array(rows)[:, None] * self.points + np.arange(self.points)).ravel()
        settings = {name: one for name, one in self.settings.items() if one[1] is None or "power" in kept}
        paths = tuple(replace(one, effects=one.effects[:, at]) for one in self.paths)
        noise = self.noise[np.ix_(at, at)]
        rest = (self.change[at], noise, self.fuel[:, at], settings, paths, self.alone)
        return Changes(tuple(kept), self.points, *rest)


def changes(
    engine: TurbochargedEngine,
    now: Observed,
    before: Observed | None,
    ways: dict[str, Values] | None = None,
    *,
    own: bool = True,
    steps: Values | None = None,
) -> Changes:
    """Return what has changed from *before* to *now*, or from the engine itself where there was no run before.

    Parameters
    ----------
    engine : TurbochargedEngine
        The sound engine.
    now, before : Observed
        Of as many points, each beside the one that ran most like it.
    ways : dict of arrays, optional
        By number of the engine, in widths of `free_numbers`: how far each of its unknowns moves it. If not given, how
        far an engine drifts from one run to the next, or two of one make and type are apart.
    own : bool
        Whether the run before is of this very engine and its gauges, or else of another of its make and type.
    steps : array, optional
        How far the engine was moved from where it should be to be near the readings, in each of the *ways*.
    """
    own = own and before is not None
    ways = ways or unknowns_of(engine, DRIFT if own else SCATTER)
    gauges = tuple(name for name in now.gauges if before is None or name in before.gauges)
    rows = [list(GAUGES).index(name) for name in gauges]
    faults = faults_of(engine)
    fuel = fuel_for(engine, now)
    sound, slopes, moved, faulty = _solved(engine, now, fuel, ways, faults, rows, 1.0 if steps is None else NEAR)
    read = np.stack([now.read[name] for name in gauges])
    change, then, fuel_then = read - sound, sound, fuel
    if before is not None:
        fuel_then = fuel_for(engine, before)
        then = shown(engine, before.site, fuel_then).only(rows)[0]
        change = change - (np.stack([before.read[name] for name in gauges]) - then)
    if steps is not None:
        change = change + np.tensordot(steps, moved, axes=1)
    noise = spread.noise(gauges, now, before, change, slopes, moved, own)
    settings = _settings(gauges, now, before, own, (sound, then), (fuel, fuel_then), slopes)
    paths = [_engine_path(fault, effects) for fault, effects in zip(faults, faulty - sound, strict=True)]
    paths += _gauge_paths(gauges, now, read, slopes)
    if settings:
        paths += [_setting_path(name, sizes, read.size + len(fuel)) for name, sizes in FUEL_FAULTS.items()]
    none = np.zeros((1, len(fuel)))
    by_fuel = spread.by_point(np.concatenate([slopes["fuel"], none + 1.0]))
    change = np.concatenate([change, none]).ravel()
    return Changes(gauges, len(fuel), change, noise, by_fuel, settings, tuple(paths), before is None)


def _settings(gauges, now, before, own, sound, fuel, slopes):
    """Return the rows that a rack or a governor adds; nothing where it is not known that the setting was the same."""
    if not own or not _one_setting(now, before):
        return {}
    found: dict[str, tuple[Values, Values | None]] = {RACK: (np.log(fuel[1]) - np.log(fuel[0]), None)}
    if "power" in gauges:
        power = gauges.index("power")
        found[GOVERNOR] = (sound[1][power] - sound[0][power], slopes["fuel"][power])
    return found


def _gauge_paths(gauges, now, read, slopes):
    """Yield the faults of the gauges, and of the fuel meter."""
    unsure = np.stack([now.unsure[name] for name in gauges])
    for one in gauge_faults(gauges, read, unsure, now.site["ambient_temperature"], slopes["warm"]):
        yield Path(one.name, "gauge", one.sizes, _with_fuel(one.effects))
    if FUEL in now.read:
        yield from _fuel_meter(len(gauges), read.shape[1], now.unsure[FUEL] / now.read[FUEL])


def _solved(engine, now, fuel, ways, faults, rows, share):
    """Return (sound gauges, slopes, the unknown ways of the engine, the faulty gauges), all from two solutions."""
    pressure, warm, burnt = np.zeros((3, 4, 1))
    pressure[1], warm[2], burnt[3] = STEP_PRESSURE, STEP_WARM, STEP_FUEL
    site = now.site | {
        "ambient_pressure": now.site["ambient_pressure"] * (1 + pressure),
        "ambient_temperature": now.site["ambient_temperature"] + warm,
    }
    first = shown(engine, site, fuel * np.exp(burnt))
    near = first.only(rows)
    sound = near[0]
    steps = (STEP_PRESSURE * now.site["ambient_pressure"], STEP_WARM, STEP_FUEL)
    slopes = {
        name: (one - sound) / step
        for name, one, step in zip(("pressure", "warm", "fuel"), near[1:], steps, strict=True)
    }
    trial = engine_with(engine, {name: share * one[:, None] for name, one in ways.items()})
    moved = np.nan_to_num(shown(trial, now.site, fuel, first).only(rows) - sound) / share
    faulty = shown(engines_with(engine, faults), now.site, fuel, first).only(rows)
    return sound, slopes, moved, faulty.reshape(len(faults), -1, *sound.shape)


def unknowns_of(engine: TurbochargedEngine, shares: dict[str, float]) -> dict[str, Values]:
    """Return how far each number of an engine may be from where it is, one after the other, in its widths."""
    cooled = engine.aftercooler.arrangement != "none"
    names = [name for name in shares if cooled or ALL[name].part != "aftercooler"]
    steps = [
        shares[name] / ALL[name].width * (1.0 if ALL[name].by == SHARE else number(engine, name)) for name in names
    ]
    return dict(zip(names, np.diag(np.array(steps, dtype=float)), strict=True))


def _one_setting(now, before):
    apart = np.abs(now.load - before.load)
    return bool(np.all(apart <= SAME_LOAD)) and FUEL in now.read and FUEL in before.read


def _engine_path(fault: EngineFault, effects):
    """Return the path of a fault; it ends before a size at which the balance finds no answer."""
    known = np.isfinite(effects).all(axis=(1, 2))
    last = max(1, len(known) if known.all() else int(np.argmin(known)))
    return Path(fault.name, "engine", fault.sizes[:last], _with_fuel(np.nan_to_num(effects[:last], nan=NO_ANSWER)))


def _fuel_meter(gauges, count, unsure):
    """Yield the faults of the fuel meter, whose row is a logarithm."""
    for sizes in of_both_signs(float(np.max(unsure)), MOST_SCALE):
        effects = np.zeros((2, gauges + 1, count))
        effects[:, -1] = np.log1p(sizes)[:, None]
        yield Path(f"{SCALE}: {FUEL}", "gauge", sizes, effects.reshape(2, -1))


def _setting_path(name, sizes, rows):
    """Return a fault of the fuel at one setting; its effect is in the row of the setting, which `naming` adds."""
    return Path(name, "setting", np.array(sizes), np.zeros((2, rows)))


def _with_fuel(effects):
    return np.concatenate([effects, np.zeros((len(effects), 1, effects.shape[2]))], axis=1).reshape(len(effects), -1)
