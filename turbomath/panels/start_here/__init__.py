"""Lesson 00: start here."""

from __future__ import annotations

from typing import TYPE_CHECKING

from turbomath.widgets.lesson import lesson

if TYPE_CHECKING:
    from turbomath.widgets.panel import Figure, Panel, Ticket


def panel_start_here() -> Panel:
    """Return the live panel of one gauge, one reading, and how sure it is."""
    from turbomath.panels.start_here import reading_a_gauge

    return reading_a_gauge.panel()


def panel_run_up() -> Panel:
    """Return the live panel of a run-up against its limits."""
    from turbomath.panels.start_here import run_up

    return run_up.panel()


def figure_stations() -> Figure:
    """Return the drawing of the four stations."""
    from turbomath.panels.start_here import stations_and_words

    return stations_and_words.figure()


def trainer() -> Ticket:
    """Return the boxes in which readings are typed."""
    from turbomath.panels.start_here import typing_trainer

    return typing_trainer.trainer()


def ticket_stations() -> Ticket:
    """Return two questions that send the student along the path."""
    from turbomath.widgets.panel import Ticket

    return Ticket(LESSON.tickets["stations"], title="Where are you?")


def ticket_start_here() -> Ticket:
    """Return the exit ticket."""
    return LESSON.exit_ticket()


LESSON = lesson(__file__, panel_start_here, panel_run_up)
