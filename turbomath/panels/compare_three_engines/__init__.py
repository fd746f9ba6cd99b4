"""Lesson 10: compare three engines."""

from __future__ import annotations

from typing import TYPE_CHECKING

from turbomath.widgets.lesson import lesson

if TYPE_CHECKING:
    from turbomath.widgets.panel import Panel, Ticket


def panel_compare_three_engines() -> Panel:
    """Return the live panel of three aftercoolers on the engine balance."""
    from turbomath.panels.compare_three_engines import fitted_cooler

    return fitted_cooler.panel()


def panel_closing_in() -> Panel:
    """Return the live panel of guesses that close in on the boost."""
    from turbomath.panels.compare_three_engines import guesses

    return guesses.panel()


def panel_up_high() -> Panel:
    """Return the live panel of one engine at sea level and up high."""
    from turbomath.panels.compare_three_engines import up_high

    return up_high.panel()


def ticket_compare_three_engines() -> Ticket:
    """Return the exit ticket."""
    return LESSON.exit_ticket()


LESSON = lesson(__file__, panel_compare_three_engines, panel_closing_in, panel_up_high)
