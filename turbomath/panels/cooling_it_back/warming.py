"""Lesson 04, second and third panel: jacket water that heats the charge, at light load and on a cold morning."""

from turbomath.panels.cooling_it_back import LESSON
from turbomath.panels.cooling_it_back.how_far_back import (
    COLD_MORNING,
    LIGHT_LOAD,
    QUESTION,
    answer,
    case,
    controls_from,
)
from turbomath.physics import cooling
from turbomath.units.shop import fahrenheit
from turbomath.units.shown import words
from turbomath.widgets.panel import Panel


def panel_light_load() -> Panel:
    """Return the live panel of the charge at light load."""
    cases = {"light_load": case(*LIGHT_LOAD), "full_load": case(*QUESTION)}
    return Panel(LESSON.words["light_load"].sheet(controls_from(*LIGHT_LOAD), answer, _warmed, cases))


def panel_cold_morning() -> Panel:
    """Return the live panel of the charge on a cold morning."""
    cases = {"cold_morning": case(*COLD_MORNING)}
    return Panel(LESSON.words["cold_morning"].sheet(controls_from(*COLD_MORNING), answer, _cold, cases))


def _behind(hot, medium, effectiveness, system):
    behind = cooling.outlet_temperature(fahrenheit(hot), fahrenheit(medium), effectiveness)
    return words("manifold_temperature", behind, system)


def _warmed(system):
    hot, _, water, share = LIGHT_LOAD
    return {"behind": _behind(hot, water, share, system)}


def _cold(system):
    hot, air, water, share = COLD_MORNING
    wet, dry = (_behind(hot, medium, share, system) for medium in (water, air))
    return {"wet": wet, "dry": dry}
