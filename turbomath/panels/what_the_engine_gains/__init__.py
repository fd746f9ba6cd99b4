"""Lesson 05: what the engine gains."""

from __future__ import annotations

from typing import TYPE_CHECKING

from turbomath.widgets.lesson import lesson

if TYPE_CHECKING:
    from turbomath.widgets.panel import Panel, Ticket


def panel_what_the_engine_gains() -> Panel:
    """Return the live panel of theory beside the gauges."""
    from turbomath.panels.what_the_engine_gains import gain

    return gain.panel()


def panel_three_aftercoolers() -> Panel:
    """Return the live panel of three aftercoolers side by side."""
    from turbomath.panels.what_the_engine_gains import three_aftercoolers

    return three_aftercoolers.panel()


def panel_cooler_trade() -> Panel:
    """Return the live panel of the aftercooler's trade, heat against pressure."""
    from turbomath.panels.what_the_engine_gains import cooler_trade

    return cooler_trade.panel()


def panel_lost_boost() -> Panel:
    """Return the live panel of an engine that has lost boost, and what its report says."""
    from turbomath.panels.what_the_engine_gains import lost_boost

    return lost_boost.panel()


def ticket_what_the_engine_gains() -> Ticket:
    """Return the exit ticket."""
    return LESSON.exit_ticket()


LESSON = lesson(
    __file__,
    panel_what_the_engine_gains,
    panel_three_aftercoolers,
    panel_cooler_trade,
    panel_lost_boost,
)
