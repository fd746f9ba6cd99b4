"""Runs of the hard world put to the fault finder: sound, one fault, two, a bad gauge, or a fault that no list has."""

import time
from dataclasses import dataclass, replace

import numpy as np

from tests.engine import fault_world as hard
from tests.engine import simulated_sheet as simulated
from turbomath.engine.faults import changes, naming, reference, stand_in
from turbomath.engine.faults.changes import Changes
from turbomath.engine.faults.naming import Diagnosis
from turbomath.engine.fitting import fit
from turbomath.engine.ready_engines import AIR_TO_AIR
from turbomath.engine.turbocharged_engine import Wastegate
from turbomath.table.errors import OutOfRangeError

SHEET = np.array([0.25, 0.5, 0.75, 1.0])  # the loads of a maker's sheet, what stands on it, and its errors
ON_SHEET = (
    "manifold_pressure",
    "power",
    "manifold_temperature",
    "compressor_outlet_temperature",
    "turbine_inlet_temperature",
)
SHEET_ERROR = 0.008
UNLISTED_SIZES = {"low filling": 0.12, "dead cylinder": 1 / 6, "friction": 0.40, "late cam": 0.08}


@dataclass(frozen=True)
class Trial:
    """What was wrong, and what was found; `seconds` of the processor, without and with the search for the engine."""

    wrong: tuple[str, ...]
    found: Diagnosis
    changes: Changes
    seconds: float
    with_engine: float


def trials(seed, wrong, *, share=1.0, own_run=True, loads=hard.LOADS):
    """Yield a trial for each of *wrong*: the names of the hard world that are wrong with one engine, none if sound.

    *share* of the moderate size is the least that is drawn. Without an *own_run* the sound run is that of another
    engine of the type, with gauges of its own.
    """
    of = world_of(seed, wrong)
    day, steady = hard.days(of, loads), hard.steady_errors(of)
    now = hard.days(of, loads)
    engines, now = faulty(of, hard.drifted(of) if own_run else hard.another_of_its_type(of), now, wrong, share)
    sound, true = hard.halves(
        hard.true_readings(hard.joined([whole(of.engines), whole(engines)]), hard.joined([day, now]))
    )
    sound = hard.as_read(sound, day, steady, of.random)
    shown = hard.as_read(true, now, steady if own_run else hard.steady_errors(of), of.random)
    for place, names in enumerate(wrong):
        before = hard.observed(*sound, day, place, loads)
        called, seen = _seen(of, shown, now, place, names, loads)
        yield _beside(called, seen, before, like(of, place), own_run)


def alone(seed, wrong, *, share=1.0, fitted=False, loads=hard.LOADS):
    """Yield a trial for each of *wrong* with no run beside it: against a ready engine, or one *fitted* to a sheet.

    The maker's sheet is of the type, not of this engine; its figures have small errors of their own. Where the fit
    refuses a sheet there is no engine to stand in, and no trial.
    """
    of = world_of(seed, wrong)
    engines, now = faulty(of, hard.another_of_its_type(of), hard.days(of, loads), wrong, share)
    shown = hard.as_read(hard.true_readings(whole(engines), now), now, hard.steady_errors(of), of.random)
    sheets = _sheets(of) if fitted else [None] * len(wrong)
    for place, names in enumerate(wrong):
        called, seen = _seen(of, shown, now, place, names, loads)
        known = None
        if fitted:
            try:
                known = stand_in.fitted(fit(sheets[place], engine=like(of, place)))
            except OutOfRangeError as refusal:
                print(f"    {' '.join(called)}: no trial, its sheet is refused: {refusal}")
                continue
        yield _alone(called, seen, known or stand_in.usual(seen, like(of, place)))


def world_of(seed, wrong):
    """Return a world with a gate for each engine whose gate is wrong."""
    return hard.world(seed, [any(name.startswith("wastegate") for name in names) for names in wrong])


def like(of, place):
    """Return what is known of an engine beforehand: its size, its aftercooler, and that it has a gate."""
    gate = Wastegate(area=1e-4 if of.gated[place] else 0.0)
    return replace(AIR_TO_AIR, displacement=float(of.engines.displacement[place, 0]), wastegate=gate)


def faulty(of, engines, now, wrong, share):
    """Return (engines, days) with the faults of *wrong*, each of *share* of its moderate size or more."""
    for name in dict.fromkeys(name for names in wrong for name in names if name not in hard.BAD_GAUGES):
        least, most = hard.SIZES[name] if name in hard.SIZES else (UNLISTED_SIZES[name],) * 2
        size = of.random.uniform(min(share * least, most), most, len(wrong))
        has = np.array([name in names for names in wrong])
        engines, now = hard.with_fault(engines, now, name, size * has, of.random)
    return engines, now


def _seen(of, shown, now, place, names, loads):
    """Return (what is wrong, as the list names it; the readings of one engine), with a bad gauge if one is wrong."""
    read, weather = ({name: one[place] for name, one in table.items()} for table in shown)
    called = tuple(name for name in names if name not in hard.BAD_GAUGES)
    for sort in (name for name in names if name in hard.BAD_GAUGES):
        read, weather, name = hard.with_bad_gauge(read, weather, sort, of.random)
        called = (*called, name)
    read, weather = ({name: one[None] for name, one in table.items()} for table in (read, weather))
    seen = hard.observed(read, weather, replace(now, speed=now.speed[place][None]), 0, loads)
    return called or (naming.SOUND,), seen


def whole(engines):
    """Return engines all of whose numbers have a row for each."""
    return simulated.taken(engines, np.arange(len(engines.area)))


def _sheets(of):
    """Return the points of a maker's sheet of each engine, as a fit takes them."""
    pressure, warm = simulated.MAKER
    fuel = of.engines.fuel * SHEET
    day = simulated.Day(0 * fuel + pressure, 0 * fuel + warm, of.engines.speed + 0 * fuel, fuel)
    true = simulated.settled(whole(of.engines), day)
    said = {}
    for name in ON_SHEET:
        error = of.random.normal(size=fuel.shape)
        base = pressure if "pressure" in name else 0.0
        warmer = 2.0 * error if "temperature" in name else (true[name] - base) * SHEET_ERROR * error
        said[name] = true[name] + warmer
    given = {"engine_speed": day.speed, "fuel_flow": fuel}
    given |= {"ambient_pressure": day.pressure, "ambient_temperature": day.temperature}
    return [
        [{name: float(one[place, turn]) for name, one in (given | said).items()} for turn in range(len(SHEET))]
        for place in range(len(of))
    ]


def _alone(names, seen, known):
    begun = time.process_time()
    made = stand_in.changes_from(known, seen)
    found = naming.diagnosis(made)
    seconds = time.process_time() - begun
    return Trial(names, found, made, seconds, seconds)


def _beside(names, seen, before, like, own):
    begun = time.process_time()
    engine = reference.reference_engine(before, like)
    middle = time.process_time()
    made = changes.changes(engine, seen, before, own=own)
    found = naming.diagnosis(made)
    end = time.process_time()
    return Trial(names, found, made, end - middle, end - begun)
