"""Many simulated engines, sound or with one thing wrong, each judged against its maker and its own earlier run."""

from collections import Counter
from dataclasses import replace

import numpy as np

from tests.lab.verdicts import simulated_engine as simulated
from tests.lab.verdicts import simulated_run
from tests.lab.verdicts.simulated_engine import Day
from turbomath.lab import verdicts
from turbomath.lab.reduction import reduce

LOST_BOOST = ("slack wastegate", "worn turbine", "leak")


def answers(count, wrong="nothing", *, seed=20260312, grade=None, earlier=True, rated=True):
    """Return the `Verdicts` of *count* engines that have *wrong* since their earlier run."""
    random = np.random.default_rng(seed)
    engines, site = simulated.draw(random, count), random.uniform(86e3, 101e3, (count, 1))
    then, now = simulated_run.days(random, engines, site), simulated_run.days(random, engines, site)
    before = simulated_run.truth(engines, then)
    today = simulated_run.truth(with_fault(engines, now, wrong), now)
    return [
        _judged(random, _row(vars(engines), place), _row(before, place), _row(today, place), grade, earlier, rated)
        for place in range(count)
    ]


def share(found, question, answer=verdicts.FAILS):
    """Return the share of verdicts with an answer to a question."""
    return Counter(getattr(one, question).answer for one in found)[answer] / len(found)


def _row(values, place):
    return {name: value[place] if np.ndim(value) else value for name, value in values.items()}


def _judged(random, engine, before, today, grade, earlier, rated):
    """Return the verdicts of one engine; its gauges are kept, or sent to be set right in between."""
    gauges, kept = simulated_run.shop(random, grade), random.uniform() < 0.5
    later = simulated_run.shop(random, gauges.grade, gauges if kept else None)
    later = replace(later, thermocouples=gauges.thermocouples)
    stated = simulated_run.bench(random, engine, gauges, rated=rated)
    now = stated if kept else replace(stated, instruments=_set_right(stated.instruments))
    run = simulated_run.run_of(now, simulated_run.readings(random, today, later))
    first = simulated_run.run_of(stated, simulated_run.readings(random, before, gauges), "the first run")
    return verdicts.judge_run(reduce.reduce_run(run), first if earlier else None)


def _set_right(instruments):
    return {name: replace(one, calibrated="2026-02-01") for name, one in instruments.items()}


def with_fault(engine, day, wrong):
    """Return the engine with one thing wrong."""
    if wrong in LOST_BOOST:
        top = Day(*(value[:, -1:] for value in vars(day).values()))
        return simulated.lost(engine, top, 0.15, wrong)
    if wrong == "compressor":
        return replace(engine, efficiency=engine.efficiency - 0.08)
    if wrong == "aftercooler":
        return replace(engine, effectiveness=engine.effectiveness - 0.10)
    return engine
