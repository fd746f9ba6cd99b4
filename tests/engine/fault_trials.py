"""Runs of the hard world put to the fault finder: sound, one fault, two, a bad gauge, or a fault that no list has."""

import time
from dataclasses import dataclass, replace

import numpy as np

from tests.engine import fault_world as hard
from turbomath.engine import free_numbers
from turbomath.engine.faults import changes, naming, reference
from turbomath.engine.faults.changes import Changes
from turbomath.engine.faults.naming import Diagnosis
from turbomath.engine.fitting import fit
from turbomath.engine.ready_engines import AIR_TO_AIR
from turbomath.engine.turbocharged_engine import Wastegate

UNLISTED_SIZES = {"low filling": 0.12, "dead cylinder": 1 / 6, "friction": 0.40, "late cam": 0.08}
OF_A_SORT = 0.25  # of the usual widths: engines of one make and type, common practice


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

    *share* of the moderate size is the least that is drawn. Without an own run the engine is fitted to the sheet of a
    sound engine of its type, whose numbers are those of this one within their scatter.
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
    shown = hard.as_read(hard.true_readings(engines, now), now, steady, of.random)
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
        yield _trial(names, seen, before if own_run else None, like, hard.sheet(of, day, place))


def _trial(names, seen, before, like, sheet):
    begun = time.process_time()
    if before is None:
        fitted = fit(sheet, engine=like)
        engine = fitted.engine
        numbers = fitted.freed
        ways = {name: OF_A_SORT * row for name, row in zip(numbers, np.eye(len(numbers)), strict=True)}
        ways = {name: one for name, one in ways.items() if float(free_numbers.number(engine, name)) != 0.0}
    else:
        engine, ways = reference.reference_engine(before, like), None
    middle = time.process_time()
    made = changes.changes(engine, seen, before, ways)
    found = naming.diagnosis(made)
    end = time.process_time()
    return Trial(names or (naming.SOUND,), found, made, end - middle, end - begun)
