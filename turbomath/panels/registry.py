"""The lessons in their order. Each is read from its own folder; its panels are loaded when they are asked for."""

from __future__ import annotations

from dataclasses import replace

from turbomath.panels import (
    air_fuel_and_power,
    altitude_heat_humidity,
    compare_three_engines,
    cooling_it_back,
    find_the_fault,
    gauge_and_absolute,
    homework,
    hot_air_is_thin,
    is_ideal_air_good_enough,
    live_lab,
    squeezing_heats_air,
    start_here,
    what_the_engine_gains,
)
from turbomath.widgets.lesson import Lesson


def _in_order(*lessons: Lesson) -> tuple[Lesson, ...]:
    """Return the lessons, each with the names of its neighbours."""
    names = ["", *(one.name for one in lessons), ""]
    return tuple(
        replace(one, previous=before, next=after) for one, before, after in zip(lessons, names, names[2:], strict=False)
    )


LESSONS = _in_order(
    start_here.LESSON,
    gauge_and_absolute.LESSON,
    squeezing_heats_air.LESSON,
    hot_air_is_thin.LESSON,
    cooling_it_back.LESSON,
    what_the_engine_gains.LESSON,
    air_fuel_and_power.LESSON,
    altitude_heat_humidity.LESSON,
    live_lab.LESSON,
    find_the_fault.LESSON,
    compare_three_engines.LESSON,
    is_ideal_air_good_enough.LESSON,
    homework.LESSON,
)
