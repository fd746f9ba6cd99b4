"""Several groups' readings of one engine as one run for the fault finder, and how much surer that makes it.

Only what is new at each reading gets less, by the square root of the number of groups, and only as far as the groups
agree. What a gauge is off, in a run or always, is taken as one gauge's, whoever read it.
"""

from collections.abc import Sequence

import numpy as np

from turbomath.engine.faults.changes import SAME_LOAD
from turbomath.engine.faults.observed import FUEL, Observed
from turbomath.table.errors import TurbomathError

FEWEST = 2  # loads that all groups read


def pooled(groups: Sequence[Observed]) -> Observed:
    """Return the mean of what the groups read at each load that all of them have; one group as it is.

    Raises
    ------
    TurbomathError
        If they share too few loads, or have read neither all fuel flow nor all power.
    """
    if len(groups) == 1:
        return groups[0]
    groups = [one.at(places) for one, places in zip(groups, _shared(groups), strict=True)]
    every = [set(one.read) for one in groups]
    names = [name for name in groups[0].read if all(name in read for read in every)]
    if FUEL not in names and "power" not in names:
        raise TurbomathError(
            "The groups' runs: found fuel flow in some and power in others, expected one of them in all. Without it "
            "nobody knows whether the engine worked as hard."
        )
    site = {name: _mean(groups, "site", name) for name in groups[0].site if all(name in one.site for one in groups)}
    read = {name: _mean(groups, "read", name) for name in names}
    unsure = {name: _mean(groups, "unsure", name) for name in groups[0].unsure if name in read or name in site}
    scatter = {name: _scatter(groups, name) for name in names}
    return Observed(site, read, unsure, scatter, groups[0].load)


def _shared(groups):
    """Return for each group the places of the loads that all have, in the order of the first."""
    first, *others = groups
    rows = []
    for place, load in enumerate(first.load):
        near = [int(np.argmin(apart)) if np.min(apart) <= SAME_LOAD else None for apart in _apart(load, others)]
        if None not in near:
            rows.append((place, *near))
    if len(rows) < FEWEST:
        raise TurbomathError(
            f"The groups' runs: found {len(rows)} loads that all have read, expected {FEWEST} or more. Read the same "
            "loads in every group, and write them into load."
        )
    return list(np.array(rows).T)


def _apart(load, others):
    return [np.nan_to_num(np.abs(one.load - load), nan=np.inf) for one in others]


def _mean(groups, table, name):
    return np.mean([getattr(one, table)[name] for one in groups], axis=0)


def _scatter(groups, name):
    """Return what is new at each mean: what is declared, or what the groups differ by if that is more."""
    stated = np.sqrt(np.mean([one.scatter[name] ** 2 for one in groups], axis=0))
    differ = np.sqrt(np.mean(np.var([one.read[name] for one in groups], axis=0, ddof=1)))
    return np.maximum(stated, differ) / np.sqrt(len(groups))
