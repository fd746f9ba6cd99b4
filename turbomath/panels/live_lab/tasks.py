"""When the steps of the live lab are done: predicates of the run that is open and of what it came to."""

from collections.abc import Callable
from typing import Any

from turbomath.lab.entry.entry_run import EntryRun
from turbomath.lab.entry.grid import PASSES
from turbomath.lab.reduction.stations import ENGINE_OFF


def _entered(run: EntryRun, is_meant: Callable[[Any], bool]) -> bool:
    """Return whether a number stands in a row that is meant."""
    rows = {row.key for row in run.grid.rows if is_meant(row)}
    numbers = {one.name for one in run.grid.columns if one.unit}
    return any(row in rows and column in numbers and text.strip() for (row, column), text in run.texts.items())


JUDGES: dict[str, Callable[[Any], bool]] = {
    "zeros": lambda desk: _entered(desk.entries, lambda row: row.condition == ENGINE_OFF[0]),
    "a_point": lambda desk: bool(desk.readings and desk.readings.rows),
    "second_pass": lambda desk: _entered(desk.entries, lambda row: row.reading_pass == PASSES[1]),
    "zeros_after": lambda desk: _entered(desk.entries, lambda row: row.condition == ENGINE_OFF[1]),
    "report": lambda desk: desk.written is not None,
}
