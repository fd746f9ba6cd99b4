"""Lesson 02: squeezing heats air."""

from __future__ import annotations

from typing import TYPE_CHECKING

from turbomath.widgets.lesson import lesson

if TYPE_CHECKING:
    from turbomath.widgets.panel import Panel, Ticket


def panel_squeezing_heats_air() -> Panel:
    """Return the live panel of the heat of compression."""
    from turbomath.panels.squeezing_heats_air import ideal_and_real

    return ideal_and_real.panel()


def panel_compressor_efficiency() -> Panel:
    """Return the live panel of compressor efficiency from readings."""
    from turbomath.panels.squeezing_heats_air import from_readings

    return from_readings.panel()


def ticket_squeezing_heats_air() -> Ticket:
    """Return the exit ticket."""
    return LESSON.exit_ticket()


LESSON = lesson(__file__, panel_squeezing_heats_air, panel_compressor_efficiency)
