"""What several parts of a report ask for, worked out once for each run."""

import functools
from collections.abc import Sequence

from turbomath.lab import checks
from turbomath.lab.checks.flags import Flag
from turbomath.lab.faults.held_against import Found
from turbomath.lab.reduction.reduce import Reduced
from turbomath.lab.report import faults_shown, verdicts_shown
from turbomath.lab.report.compressor_line_shown import LineShown, line_shown
from turbomath.lab.verdicts import Verdicts

KEPT = 2  # runs whose answers are kept at hand


@functools.lru_cache(maxsize=KEPT)
def flags(reduced: Reduced) -> tuple[Flag, ...]:
    """Return what the checks find in a reduced run."""
    return tuple(checks.check_run(reduced.run, reduced))


def verdicts(reduced: Reduced, baselines: Sequence[Reduced], system: str) -> Verdicts:
    """Return the three verdicts of a run; see `verdicts_shown.verdicts`."""
    return _verdicts(reduced, tuple(baselines), system)


@functools.lru_cache(maxsize=KEPT)
def _verdicts(reduced, baselines, system):
    return verdicts_shown.verdicts(reduced, baselines, system, flags(reduced))


def faults(reduced: Reduced, baselines: Sequence[Reduced]) -> Found | None:
    """Return what faults would show the run; see `faults_shown.faults_found`."""
    return _faults(reduced, tuple(baselines))


@functools.lru_cache(maxsize=KEPT)
def _faults(reduced, baselines):
    return faults_shown.faults_found(reduced, baselines)


@functools.lru_cache(maxsize=KEPT)
def line(reduced: Reduced, system: str) -> LineShown | None:
    """Return the line on which the compressor of a run worked; see `compressor_line_shown.line_shown`."""
    return line_shown((reduced,), system)
