"""Lesson 01: gauge and absolute."""

from __future__ import annotations

from typing import TYPE_CHECKING

from turbomath.widgets.lesson import lesson

if TYPE_CHECKING:
    from turbomath.widgets.panel import Panel, Ticket


def panel_gauge_and_absolute() -> Panel:
    """Return the live panel of one gauge reading in two places."""
    from turbomath.panels.gauge_and_absolute import two_places

    return two_places.panel()


def panel_bench_barometer() -> Panel:
    """Return the live panel of the weather report and the barometer on the bench."""
    from turbomath.panels.gauge_and_absolute import weather_report

    return weather_report.panel()


def panel_pressure_ratio() -> Panel:
    """Return the live panel of the pressure ratio."""
    from turbomath.panels.gauge_and_absolute import ratio

    return ratio.panel()


def ticket_gauge_and_absolute() -> Ticket:
    """Return the exit ticket."""
    return LESSON.exit_ticket()


LESSON = lesson(__file__, panel_gauge_and_absolute, panel_bench_barometer, panel_pressure_ratio)
