"""The results as texts: each with its ±, or why there is none; and all of them as reduced.csv."""

import csv
import io
from collections.abc import Iterable
from typing import Any

import numpy as np
from numpy.typing import NDArray

from turbomath import units
from turbomath.disk.files import cell
from turbomath.lab.reduction.reduce import Reduced
from turbomath.lab.reduction.results import CANNOT_TELL as NOT_TOLD
from turbomath.lab.reduction.results import LEANS_ON_EFFICIENCY, untold
from turbomath.lab.reduction.shares import GAINS
from turbomath.table.quantities import QUANTITIES
from turbomath.uncertainty import Estimate
from turbomath.units.rounding import decimals, fixed, with_plus_or_minus
from turbomath.units.shown import width_unit

# A ± from which a machine cannot be judged: as much as parts a good compressor from a worn one (common practice)
CANNOT_JUDGE = {"compressor_efficiency": 0.10, "effectiveness": 0.10}
CANNOT_TELL = "cannot tell"
NONE = "none"  # nothing at all, and no gauge error would make it something


def reduced_csv(reduced: Reduced, system: str, more: Iterable[list[str]] = ()) -> str:
    """Return the text of reduced.csv: every result with its ± in the units of *system*, "us" or "si".

    *more* are the head and the rows of further columns.
    """
    out = io.StringIO()
    csv.writer(out, lineterminator="\r\n").writerows(reduced_rows(reduced, system, more))
    return "\ufeff" + out.getvalue()


def reduced_rows(reduced: Reduced, system: str, more: Iterable[list[str]] = ()) -> list[list[str]]:
    """Return the head and a row for each reading, as texts that no spreadsheet runs, to six figures."""
    shown = {name: shown_in(reduced, name, system) for name in reduced.estimates}
    rows = [["point", "condition", *(head for name in shown for head in _heads(name, system)), "agree"]]
    for row, point in enumerate(reduced.run.points):
        figures = [six_figures(column[row]) for pair in shown.values() for column in pair]
        rows.append([cell(point), cell(reduced.run.conditions[row]), *figures, reduced.agree[row]])
    for row, cells in zip(rows, more, strict=False):
        row[-1:-1] = cells
    return rows


def judged_rows(reduced: Reduced) -> list[int]:
    """Return the rows in which the engine ran and of which anything could be worked out."""
    known = [np.broadcast_to(np.isfinite(one.value), len(reduced.run)) for one in reduced.estimates.values()]
    return [int(row) for row in np.flatnonzero(np.any(known, axis=0))]


def shown_in(reduced: Reduced, name: str, system: str) -> tuple[Any, Any]:
    """Return (values, ±) of a result in the display unit of *system*."""
    return in_units(reduced[name], name, system)


def in_units(estimate: Estimate, name: str, system: str) -> tuple[Any, Any]:
    """Return (values, ±) of an estimate of a quantity in the display unit of *system*."""
    unit = units.display(name, system)
    width_quantity, unit_of_width = width_unit(name, system)
    return (
        units.from_si(estimate.value, unit, name),
        units.from_si(estimate.plus_or_minus, unit_of_width, width_quantity),
    )


def result_texts(reduced: Reduced, name: str, rows: Iterable[int], system: str) -> list[str]:
    """Return "value ± width" of a result for each row, "cannot tell" where the ± says nothing of the machine."""
    values, widths = shown_in(reduced, name, system)
    unsure, beside = cannot_judge(reduced, name), _beside(reduced, system) if name in GAINS else {}
    nothing = (values == 0) & (widths == 0)
    return [
        CANNOT_TELL
        if unsure[row]
        else NONE
        if nothing[row]
        else beside.get(row, {}).get(name) or with_plus_or_minus(values[row], widths[row])
        for row in rows
    ]


def _beside(reduced, system):
    """Return row -> the texts of the three gains: to one place, at which the difference is that of its parts."""
    shown = [shown_in(reduced, name, system) for name in GAINS]
    found = {}
    for row in range(len(reduced.run)):
        numbers, widths = ([float(part[row]) for part in parts] for parts in zip(*shown, strict=True))
        if np.isfinite([*numbers, *widths]).all() and min(widths) > 0:
            numbers, places = _that_add_up(numbers, max(decimals(width) for width in widths))
            pairs = zip(numbers, widths, strict=True)
            texts = [f"{fixed(number, places)} ± {fixed(width, places)}" for number, width in pairs]
            found[row] = dict(zip(GAINS, texts, strict=True))
    return found


def _that_add_up(numbers, places):
    """Return measured, theory and difference, and the place at which the three add up when rounded.

    That is *places* or one more; failing both, the difference is rounded with its parts.
    """
    for place in (places, places + 1):
        measured, theoretical, difference = (round(number, place) for number in numbers)
        if round(measured - theoretical - difference, place) == 0:
            return numbers, place
    measured, theoretical = (round(number, places) for number in numbers[:2])
    return (measured, theoretical, measured - theoretical), places


def cannot_judge(reduced: Reduced, name: str) -> NDArray:
    """Return for each row whether these gauges are too coarse to judge the machine."""
    estimate = reduced[name]
    if name in LEANS_ON_EFFICIENCY:
        can_be = reduced.missing.get(name, NOT_TOLD) == NOT_TOLD
        return can_be & untold(reduced["compressor_efficiency"])
    return np.isfinite(estimate.value) & (estimate.plus_or_minus >= CANNOT_JUDGE.get(name, np.inf))


def _heads(name, system):
    plain_name = QUANTITIES[name].plain_name
    return f"{plain_name} [{units.display(name, system)}]", f"{plain_name} ± [{width_unit(name, system)[1]}]"


def six_figures(value: float) -> str:
    """Return a number as text to six significant figures; "" for none."""
    if not np.isfinite(value):
        return ""
    return np.format_float_positional(value, precision=6, fractional=False, trim="-")
