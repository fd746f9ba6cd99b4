"""What the fault finder says with only some of the gauges read and some tests made, and the cheapest way to the fault.

A simulation: a test shows what the fault is, and the finder trusts it as far as `next_test` does.
"""

import itertools
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cache

import numpy as np

from turbomath.engine.faults import naming
from turbomath.engine.faults.naming import SOUND, Diagnosis, Named
from turbomath.lab.faults.held_against import Beside, beside
from turbomath.lab.faults.next_test import FALSE_ALARM, FINDS, TESTS, ShopTest
from turbomath.lab.run.readings import as_run
from turbomath.table.errors import unwarned

FEW = 2  # readings after which one may be fooled
NAMED = 0.99  # chance from which a fault counts as found


@dataclass(frozen=True)
class Way:
    """A way to the fault: the gauges read, a test or none, its minutes, and how likely the fault is after it."""

    gauges: tuple[str, ...]
    test: ShopTest | None
    minutes: int
    probability: float


@cache
def held_beside(run: str, earlier: str) -> Beside:
    """Return a shipped run beside an earlier one, by their names."""
    return beside(as_run(run), as_run(earlier))


@cache
def fault_of(run: str, earlier: str) -> Named:
    """Return the fault that all gauges of a run together name."""
    return naming.diagnosis(held_beside(run, earlier).changes).best


def shows(test: ShopTest, run: str, earlier: str) -> bool:
    """Return whether a test shows the fault of a run."""
    return test.of(fault_of(run, earlier))


@cache
@unwarned()
def by_gauges(run: str, earlier: str, gauges: frozenset[str]) -> Diagnosis:
    """Return how likely each fault is when only these gauges, and the fuel, are read."""
    return naming.diagnosis(held_beside(run, earlier).changes.only(sorted(gauges)))


def in_part(run: str, earlier: str, gauges: frozenset[str], tests: Sequence[ShopTest] = ()) -> Diagnosis:
    """Return the same after some tests of the shop as well."""
    found = by_gauges(run, earlier, gauges)
    chances = np.array([one.probability for one in found.named])
    for test in tests:
        there = np.array([FINDS if test.of(one) else FALSE_ALARM for one in found.named])
        chances = chances * (there if shows(test, run, earlier) else 1 - there)
    chances = chances / chances.sum()
    named = [replace(one, probability=float(chance)) for one, chance in zip(found.named, chances, strict=True)]
    return Diagnosis(tuple(sorted(named, key=lambda one: -one.probability)), found.lack)


def cheapest(run: str, earlier: str, minutes: Mapping[str, int], given: frozenset[str]) -> Way | None:
    """Return the cheapest way that names the fault: some readings and at most one test.

    Parameters
    ----------
    run, earlier : str
        The shipped runs.
    minutes : dict of str to int [min]
        What each reading costs.
    given : set of str
        The gauges that cost nothing.

    Returns
    -------
    Way or None
        None where no way names it for certain enough.
    """
    fault = fault_of(run, earlier).name
    ways = [
        (sum(minutes[one] for one in gauges) + (test.minutes if test else 0), gauges, test)
        for count in range(len(minutes) + 1)
        for gauges in itertools.combinations(minutes, count)
        for test in (None, *TESTS)
    ]
    for cost, gauges, test in sorted(ways, key=lambda one: (one[0], len(one[1]) + (one[2] is not None))):
        found = in_part(run, earlier, given | set(gauges), (test,) if test else ())
        if found.best.name == fault and found.best.probability > NAMED:
            return Way(gauges, test, cost, found.best.probability)
    return None


def fooled(run: str, earlier: str, readings: Sequence[str], given: frozenset[str]) -> tuple[tuple[str, ...], Named]:
    """Return the one or two readings after which another fault looks likeliest, and that fault."""
    fault, worst = fault_of(run, earlier).name, []
    for count in range(1, FEW + 1):
        for gauges in itertools.combinations(readings, count):
            others = [
                one for one in by_gauges(run, earlier, given | set(gauges)).named if one.name not in (fault, SOUND)
            ]
            worst.append((gauges, others[0]))
    return max(worst, key=lambda one: one[1].probability)
