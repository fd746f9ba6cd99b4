"""Check 32: does a reading that cannot be fit another unit? The kit asks; it never converts."""

from collections import Counter, defaultdict

import numpy as np

from turbomath import units
from turbomath.errors import UnitError
from turbomath.lab.channels import NUMBER_COLUMNS
from turbomath.lab.checks.finding import spoken
from turbomath.quantities import QUANTITIES
from turbomath.unit_spellings import FAMILIES, UNITS

ASK = "Look which unit the gauge shows, and correct the head of the column or the cell."
# The units a gauge in a shop may have, likeliest first; other families are taken as listed
PRESSURES = ("kPa", "psi", "bar", "inHg", "inH2O", "hPa", "mmHg", "kgf/cm²")
TEMPERATURES = ("°C", "°F", "K")


def outside_the_sensible(look):
    """Look at every reading of a running engine: is it outside the range that an instructor meets?"""
    for column in look.run.columns:
        if column not in NUMBER_COLUMNS:
            continue
        (low, high), reading, width = QUANTITIES[column].sensible, look.run[column], look.widths(column)
        outside = (reading < low - width) | (reading > high + width)
        for row in look.running:
            if not np.isnan(reading[row]):
                yield spoken(32, row, "amber" if outside[row] else "", (column,),
                             f"{look.tell(column, row)}; no engine of this kind shows that", ASK)  # fmt: skip


def with_units(look, found, pointwise):
    """Return findings with the unit named that a reading would fit; *pointwise* gives those of another look.

    A unit fits a reading if, read in it, nothing that leans on this reading is amber or red any more.
    """
    troubles = _by_row(finding for finding in found if finding.trouble)
    options = defaultdict(list)
    for column in dict.fromkeys(name for finding in found if finding.trouble for name in finding.columns):
        rows = [row for row, here in troubles.items() if any(column in finding.columns for finding in here)]
        for unit, values in _readings_in_other_units(look, column):
            _try(look, column, unit, values, rows, pointwise, troubles, options)
    chosen = _most_alike(options)
    return [_said(look, finding, chosen.get(finding.row)) for finding in found if _wanted(finding, chosen, troubles)]


def _try(look, column, unit, values, rows, pointwise, troubles, options):
    """Note for each row how well the run would look, were this column in *unit*."""
    (low, high), slack = QUANTITIES[column].sensible, look.widths(column)
    rows = [row for row in rows if low - slack[row] <= values[row] <= high + slack[row]]
    if not rows:
        return
    there = _by_row(pointwise(look.with_values(column, values)))
    for row in rows:
        bad = [finding for finding in there[row] if finding.trouble]
        before = [finding for finding in troubles[row] if finding.row is not None]
        if len(bad) < len(before) and not any(column in finding.columns for finding in bad):
            distance = sum(finding.distance for finding in there[row])
            options[row].append((len(bad), distance, column, unit))


def _most_alike(options):
    """Return row -> (column, unit): its best fit, or one nearly as good that fits most other rows."""
    votes = Counter(min(here)[2:] for here in options.values())
    chosen = {}
    for row, here in options.items():
        fewest = min(here)[0]
        chosen[row] = max((fit for fit in here if fit[0] == fewest), key=lambda fit: (votes[fit[2:]], -fit[1]))[2:]
    return chosen


def _said(look, finding, fit):
    """Return the finding with the unit in its words, if the reading that fits is one it leans on."""
    if not finding.trouble or fit is None or fit[0] not in finding.columns:
        return finding
    column, unit = fit
    number = look.run.cells[column][finding.row].strip()
    name = QUANTITIES[column].plain_name
    others = tuple(name for name in finding.columns if name != column)
    return finding.but(columns=(column, *others), fits_unit=unit, reason=f"{finding.reason}: {name} {number} fits {unit}",
                       action=f"{ASK} {finding.action}" if finding.action != ASK else ASK)  # fmt: skip


def _wanted(finding, chosen, troubles):
    """A reading outside the sensible is worth a flag of its own only if a unit fits and no other check has it."""
    if finding.check != 32 or not finding.trouble:
        return True
    column = finding.columns[0]
    others = [other for other in troubles[finding.row] if other.check != 32 and column in other.columns]
    return chosen.get(finding.row, ("",))[0] == column and not others


def _by_row(found):
    rows = defaultdict(list)
    for finding in found:
        if finding.row is not None:
            rows[finding.row].append(finding)
    return rows


def _readings_in_other_units(look, column):
    """Yield (unit, the column's numbers read in that unit [SI, as the run keeps them])."""
    kind = QUANTITIES[column].kind if column in QUANTITIES else ""
    written = look.run.units.get(column)
    numbers = _numbers(look, column, written)
    if numbers is None:
        return
    for unit in _units(kind):
        try:
            values = _in_si(look, column, kind, numbers, unit)
        except UnitError:
            continue
        if not np.allclose(values, look.run[column], equal_nan=True):
            yield unit, values


def _numbers(look, column, written):
    """Return the numbers of a column as they were written; None if its unit is none of its own kind."""
    quantity = "boost" if column in look.run.gauge_columns else column
    try:
        return units.from_si(
            look.shown(column), written.split(" gauge")[0] if quantity != column else written, quantity
        )
    except UnitError:
        return None


def _units(kind):
    family = FAMILIES.get(kind, kind)
    if family == "temperature":
        return TEMPERATURES
    if family != "pressure":
        return [shown for shown, _, _ in UNITS.get(family, ())]
    words = {"pressure": (" gauge", " abs"), "gauge pressure": ("", " abs")}.get(kind, ("",))
    return [unit + word for word in words for unit in PRESSURES]


def _in_si(look, column, kind, numbers, unit):
    station = look.run.station_pressure
    if kind == "gauge pressure" and unit.endswith(" abs"):
        return units.to_si(numbers, unit, "manifold_pressure") - station
    if kind == "pressure" and unit.endswith(" gauge"):
        return units.to_si(numbers, unit.removesuffix(" gauge"), "boost") + station
    return units.to_si(numbers, unit, column)
