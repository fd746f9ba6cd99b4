"""Homework: practice, and the sheet of an assignment."""

from __future__ import annotations

from typing import TYPE_CHECKING

from turbomath.widgets.lesson import lesson

if TYPE_CHECKING:
    from turbomath.widgets.panel import Panel


def panel_homework() -> Panel:
    """Return the live panel of practice: any question, fresh numbers, an answer to each try."""
    from turbomath.panels.homework import practice

    return practice.panel()


def panel_sheet() -> Panel:
    """Return the live panel of an assignment's sheet."""
    from turbomath.panels.homework import sheet

    return sheet.panel()


LESSON = lesson(__file__, panel_homework, panel_sheet)
