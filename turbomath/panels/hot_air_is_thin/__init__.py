"""Lesson 03: hot air is thin."""

from __future__ import annotations

from typing import TYPE_CHECKING

from turbomath.widgets.lesson import lesson

if TYPE_CHECKING:
    from turbomath.widgets.panel import Panel, Ticket


def panel_hot_air_is_thin() -> Panel:
    """Return the live panel of two manifolds and yours."""
    from turbomath.panels.hot_air_is_thin import two_manifolds

    return two_manifolds.panel()


def ticket_hot_air_is_thin() -> Ticket:
    """Return the exit ticket."""
    return LESSON.exit_ticket()


LESSON = lesson(__file__, panel_hot_air_is_thin)
