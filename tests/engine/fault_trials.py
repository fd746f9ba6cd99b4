"""Runs of the hard world put to the fault finder: sound, one fault, two, a bad gauge, or a fault that no list has."""

import time
from dataclasses import dataclass, replace

from tests.engine import fault_world as hard
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


def trials(seed, count, wrong=(), *, share=1.0, own_run=True, loads=hard.LOADS):
    """Yield trials of so many engines that all have the same wrong with them: names of the hard world.

    *share* of the moderate size is the least that is drawn. Without an *own_run* the sound run is that of another
    engine of the type, with gauges of its own.
    """
    gated = True if any(name.startswith("wastegate") for name in wrong) else None
    of = hard.world(seed, count, gated)
    day, steady = hard.days(of, loads), hard.steady_errors(of)
    sound = hard.as_read(hard.true_readings(of.engines, day), day, steady, of.random)
    now = hard.days(of, loads)
    engines = hard.drifted(of) if own_run else hard.another_of_its_type(of)
    bad = [name for name in wrong if name in hard.BAD_GAUGES]
    for name in wrong:
        if name not in bad:
            least, most = hard.SIZES[name] if name in hard.SIZES else (UNLISTED_SIZES[name],) * 2
            size = of.random.uniform(min(share * least, most), most, count)
            engines, now = hard.with_fault(engines, now, name, size, of.random)
    gauges = steady if own_run else hard.steady_errors(of)
    shown = hard.as_read(hard.true_readings(engines, now), now, gauges, of.random)
    for place in range(count):
        gate = Wastegate(area=1e-4 if of.gated[place] else 0.0)
        like = replace(AIR_TO_AIR, displacement=float(of.engines.displacement[place, 0]), wastegate=gate)
        before = hard.observed(*sound, day, place, loads)
        read, weather = ({name: one[place] for name, one in table.items()} for table in shown)
        names = tuple(name for name in wrong if name not in bad)
        for sort in bad:
            read, weather, name = hard.with_bad_gauge(read, weather, sort, of.random)
            names = (*names, name)
        seen = hard.observed(
            {n: one[None] for n, one in read.items()},
            {n: one[None] for n, one in weather.items()},
            replace(now, speed=now.speed[place][None]),
            0,
            loads,
        )
        yield _trial(names, seen, before, like, own_run)


def _trial(names, seen, before, like, own):
    begun = time.process_time()
    engine = reference.reference_engine(before, like)
    middle = time.process_time()
    made = changes.changes(engine, seen, before, own=own)
    found = naming.diagnosis(made)
    end = time.process_time()
    return Trial(names or (naming.SOUND,), found, made, end - middle, end - begun)
