"""Lesson 07, second panel: the compressor at its limit. The pressure ratio stays; gauge and air fall."""

import functools

from turbomath.panels.altitude_heat_humidity import LESSON
from turbomath.panels.altitude_heat_humidity.same_pressure import (
    CASES,
    RATIO,
    answer,
    both,
    controls_from,
    gauge,
    places,
)
from turbomath.units.rounding import fixed
from turbomath.units.shown import words
from turbomath.widgets.controls import at_start
from turbomath.widgets.panel import Panel


def panel() -> Panel:
    """Return the live panel of the same pressure ratio in thinner air."""
    return Panel(
        LESSON.words["same_pressure_ratio"].sheet(controls_from(RATIO), answer, _outcome, CASES, together=both.together)
    )


@functools.cache
def _outcome(system):
    sea, site = places(at_start(controls_from(RATIO)), system)
    share = fixed(100 * (1 - site.manifold_dry_air_density / sea.manifold_dry_air_density), 1)
    return {"boost": words("boost", gauge(site), system), "less": share}
