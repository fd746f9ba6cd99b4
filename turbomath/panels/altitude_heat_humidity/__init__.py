"""Lesson 07: altitude, heat, humidity."""

from __future__ import annotations

from typing import TYPE_CHECKING

from turbomath.widgets.lesson import lesson

if TYPE_CHECKING:
    from turbomath.widgets.panel import Panel, Ticket


def panel_same_manifold_pressure() -> Panel:
    """Return the live panel of the same manifold pressure in thinner air."""
    from turbomath.panels.altitude_heat_humidity import same_pressure

    return same_pressure.panel()


def panel_same_pressure_ratio() -> Panel:
    """Return the live panel of the same pressure ratio in thinner air."""
    from turbomath.panels.altitude_heat_humidity import same_ratio

    return same_ratio.panel()


def panel_damp_day() -> Panel:
    """Return the live panel of a damp day."""
    from turbomath.panels.altitude_heat_humidity import damp_day

    return damp_day.panel()


def panel_corrected_power() -> Panel:
    """Return the live panel of corrected power."""
    from turbomath.panels.altitude_heat_humidity import corrected_power

    return corrected_power.panel()


def ticket_altitude_heat_humidity() -> Ticket:
    """Return the exit ticket."""
    return LESSON.exit_ticket()


LESSON = lesson(
    __file__, panel_same_manifold_pressure, panel_same_pressure_ratio, panel_damp_day, panel_corrected_power
)
