"""Lesson 08: live lab."""

from __future__ import annotations

from typing import TYPE_CHECKING

from turbomath.widgets.lesson import lesson

if TYPE_CHECKING:
    from turbomath.widgets.panel import Panel, Ticket


def panel_live_lab() -> Panel:
    """Return the live panel of a run that is entered at the engine."""
    from turbomath.panels.live_lab import lab

    return lab.panel()


def ticket_live_lab() -> Ticket:
    """Return the exit ticket."""
    return LESSON.exit_ticket()


LESSON = lesson(__file__, panel_live_lab)
