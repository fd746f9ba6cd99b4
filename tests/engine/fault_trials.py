"""Runs of the hard world put to the fault finder: sound, one fault, two, a bad gauge, or a fault that no list has."""

import time
from dataclasses import dataclass, replace

import numpy as np

from tests.engine import fault_world as hard
from tests.engine import simulated_sheet as simulated
from turbomath.engine.faults import changes, naming, reference
from turbomath.engine.faults.changes import Changes
from turbomath.engine.faults.naming import Diagnosis
from turbomath.engine.ready_engines import AIR_TO_AIR
from turbomath.engine.turbocharged_engine import Wastegate

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
    of = hard.world(seed, [any(name.startswith("wastegate") for name in names) for names in wrong])
    day, steady = hard.days(of, loads), hard.steady_errors(of)
    now = hard.days(of, loads)
    engines = hard.drifted(of) if own_run else hard.another_of_its_type(of)
    for name in dict.fromkeys(name for names in wrong for name in names if name not in hard.BAD_GAUGES):
        least, most = hard.SIZES[name] if name in hard.SIZES else (UNLISTED_SIZES[name],) * 2
        size = of.random.uniform(min(share * least, most), most, len(wrong))
        has = np.array([name in names for names in wrong])
        engines, now = hard.with_fault(engines, now, name, size * has, of.random)
    sound, true = hard.halves(
        hard.true_readings(hard.joined([whole(of.engines), whole(engines)]), hard.joined([day, now]))
    )
    sound = hard.as_read(sound, day, steady, of.random)
    shown = hard.as_read(true, now, steady if own_run else hard.steady_errors(of), of.random)
    for place, names in enumerate(wrong):
        gate = Wastegate(area=1e-4 if of.gated[place] else 0.0)
        like = replace(AIR_TO_AIR, displacement=float(of.engines.displacement[place, 0]), wastegate=gate)
        before = hard.observed(*sound, day, place, loads)
        read, weather = ({name: one[place] for name, one in table.items()} for table in shown)
        called = tuple(name for name in names if name not in hard.BAD_GAUGES)
        for sort in (name for name in names if name in hard.BAD_GAUGES):
            read, weather, name = hard.with_bad_gauge(read, weather, sort, of.random)
            called = (*called, name)
        read, weather = ({name: one[None] for name, one in table.items()} for table in (read, weather))
        seen = hard.observed(read, weather, replace(now, speed=now.speed[place][None]), 0, loads)
        yield _trial(called, seen, before, like, own_run)


def whole(engines):
    """Return engines all of whose numbers have a row for each."""
    return simulated.taken(engines, np.arange(len(engines.area)))


def _trial(names, seen, before, like, own):
    begun = time.process_time()
    engine = reference.reference_engine(before, like)
    middle = time.process_time()
    made = changes.changes(engine, seen, before, own=own)
    found = naming.diagnosis(made)
    end = time.process_time()
    return Trial(names or (naming.SOUND,), found, made, end - middle, end - begun)
