"""Lesson 11: is ideal air good enough?"""

from __future__ import annotations

from typing import TYPE_CHECKING

from turbomath.widgets.lesson import lesson

if TYPE_CHECKING:
    from turbomath.widgets.panel import Panel, Ticket


def panel_is_ideal_air_good_enough() -> Panel:
    """Return the live panel of four models of air beside the gauges."""
    from turbomath.panels.is_ideal_air_good_enough import models_beside

    return models_beside.panel()


def ticket_is_ideal_air_good_enough() -> Ticket:
    """Return the exit ticket."""
    return LESSON.exit_ticket()


LESSON = lesson(__file__, panel_is_ideal_air_good_enough)
