"""Lesson 09: find the fault."""

from __future__ import annotations

from typing import TYPE_CHECKING

from turbomath.widgets.lesson import lesson

if TYPE_CHECKING:
    from turbomath.widgets.panel import Panel, Ticket


def panel_job_1() -> Panel:
    """Return the live panel of the first job ticket."""
    return _job("job_1")


def panel_job_2() -> Panel:
    """Return the live panel of the second job ticket."""
    return _job("job_2")


def panel_job_3() -> Panel:
    """Return the live panel of the third job ticket."""
    return _job("job_3")


def panel_job_4() -> Panel:
    """Return the live panel of the fourth job ticket."""
    return _job("job_4")


def panel_job_5() -> Panel:
    """Return the live panel of the fifth job ticket."""
    return _job("job_5")


def panel_job_6() -> Panel:
    """Return the live panel of the sixth job ticket."""
    return _job("job_6")


def ticket_find_the_fault() -> Ticket:
    """Return the exit ticket."""
    return LESSON.exit_ticket()


def _job(name):
    from turbomath.panels.find_the_fault import job

    return job.panel(name)


LESSON = lesson(__file__, panel_job_1, panel_job_2, panel_job_3, panel_job_4, panel_job_5, panel_job_6)
