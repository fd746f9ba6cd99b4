"""Lesson 06: air, fuel and power."""

from __future__ import annotations

from typing import TYPE_CHECKING

from turbomath.widgets.lesson import lesson

if TYPE_CHECKING:
    from turbomath.widgets.panel import Panel, Ticket


def panel_air_fuel_and_power() -> Panel:
    """Return the live panel of the air that an engine swallows."""
    from turbomath.panels.air_fuel_and_power import swallow

    return swallow.panel()


def panel_filling() -> Panel:
    """Return the live panel of volumetric efficiency."""
    from turbomath.panels.air_fuel_and_power import filling

    return filling.panel()


def panel_smoke_limit() -> Panel:
    """Return the live panel of fuel, power and the smoke limit."""
    from turbomath.panels.air_fuel_and_power import smoke_limit

    return smoke_limit.panel()


def panel_who_pays() -> Panel:
    """Return the live panel of the turbine and the shaft."""
    from turbomath.panels.air_fuel_and_power import who_pays

    return who_pays.panel()


def panel_the_wheel() -> Panel:
    """Return the live panel of what drives the wheel."""
    from turbomath.panels.air_fuel_and_power import the_wheel

    return the_wheel.panel()


def panel_boost_in_time() -> Panel:
    """Return the live panel of the boost that comes after a step of fuel."""
    from turbomath.panels.air_fuel_and_power import boost_in_time

    return boost_in_time.panel()


def ticket_air_fuel_and_power() -> Ticket:
    """Return the exit ticket."""
    return LESSON.exit_ticket()


LESSON = lesson(
    __file__,
    panel_air_fuel_and_power,
    panel_filling,
    panel_smoke_limit,
    panel_who_pays,
    panel_the_wheel,
    panel_boost_in_time,
)
