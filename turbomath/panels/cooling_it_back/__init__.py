"""Lesson 04: cooling it back."""

from __future__ import annotations

from typing import TYPE_CHECKING

from turbomath.widgets.lesson import lesson

if TYPE_CHECKING:
    from turbomath.widgets.panel import Panel, Ticket


def panel_cooling_it_back() -> Panel:
    """Return the live panel of the aftercooler at load."""
    from turbomath.panels.cooling_it_back import how_far_back

    return how_far_back.panel()


def panel_light_load() -> Panel:
    """Return the live panel of the charge at light load."""
    from turbomath.panels.cooling_it_back import warming

    return warming.panel_light_load()


def panel_cold_morning() -> Panel:
    """Return the live panel of the charge on a cold morning."""
    from turbomath.panels.cooling_it_back import warming

    return warming.panel_cold_morning()


def panel_what_limits() -> Panel:
    """Return the live panel of what limits effectiveness."""
    from turbomath.panels.cooling_it_back import what_limits

    return what_limits.panel()


def ticket_cooling_it_back() -> Ticket:
    """Return the exit ticket."""
    return LESSON.exit_ticket()


LESSON = lesson(__file__, panel_cooling_it_back, panel_light_load, panel_cold_morning, panel_what_limits)
