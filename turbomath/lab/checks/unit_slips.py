"""Check 32: does a reading that cannot be fit another unit? The kit asks; it never converts."""

from collections import Counter, defaultdict
from collections.abc import Callable, Iterable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from turbomath.lab.checks.finding import Finding, spoken
from turbomath.lab.checks.look import Look
from turbomath.lab.checks.other_units import readings_in_other_units
from turbomath.lab.checks.size import sensible
from turbomath.lab.run.channels import NUMBER_COLUMNS
from turbomath.table.quantities import QUANTITIES

ASK = "Look which unit the gauge shows, and correct the head of the column or the cell."
MOST_ROWS_TRIED = 100
MOST = 0.9  # of like rows: a head with the wrong unit spoils all of its column
SENSIBLE = 32
MILD = (6, 7)  # amber of an efficiency, or of a charge that a hot engine warms: a slip would make them impossible
FORBIDDEN = 40  # its laws leave much room, so nearly any other reading would fit some unit: only the first is asked
SWAPS = (
    ("compressor_outlet_temperature", "manifold_temperature"),
    ("compressor_inlet_temperature", "compressor_outlet_temperature"),
    ("compressor_outlet_pressure", "boost"),
    ("turbine_inlet_temperature", "turbine_outlet_temperature"),
    ("turbine_inlet_pressure", "exhaust_back_pressure"),
)


def outside_the_sensible(look: Look) -> Iterable[Finding]:
    """Look at every reading of a running engine: is it outside the range that an instructor meets?"""
    for column in look.run.columns:
        if column not in NUMBER_COLUMNS:
            continue
        (low, high), reading, width = sensible(look, column), look.run[column], look.widths(column)
        outside = (reading < low - width) | (reading > high + width)
        for row in look.running:
            if not np.isnan(reading[row]):
                yield spoken(
                    SENSIBLE,
                    row,
                    "amber" if outside[row] else "",
                    (column,),
                    f"{look.tell(column, row)}; no engine of this kind shows that",
                    ASK,
                )


def explained(look: Look, found: list[Finding], pointwise: Callable[[Look], list[Finding]]) -> list[Finding]:
    """Return findings with the slip named that would explain them: another unit, or two columns swapped.

    A slip explains a row if, with it put right, none of the findings that lean on those readings is left, nor any
    that leans on a reading in common with them. *pointwise* gives the findings of another look.
    """
    troubles = _by_row(finding for finding in found if finding.trouble)
    settled = {finding.row for finding in found if finding.settled}
    to_explain = {row: here for row, here in troubles.items() if row not in settled and _gross(here)}
    options = _options(look, found, pointwise, to_explain)
    chosen = _believed(look, _usual(_most_alike(options), to_explain), pointwise)
    return [_said(look, finding, chosen.get(finding.row)) for finding in found if _wanted(finding, chosen, troubles)]


def _gross(found):
    """Whether a slip may be behind it."""
    return any(finding.level == "red" or finding.check not in MILD for finding in found)


def _options(look, found, pointwise, to_explain):
    """Return row -> fits. Of a long sheet only some rows try every slip; the others try those that explained these."""
    options, step = defaultdict(list), -(-len(to_explain) // MOST_ROWS_TRIED)
    some = dict(list(to_explain.items())[:: step or 1])
    for slips in _slips(look, found):
        _try(look, slips, pointwise, some, options)
        if all(any(fit.left == 0 for fit in options[row]) for row in some):
            break
    others = {row: here for row, here in to_explain.items() if row not in some}
    helpful = {id(fit.slip): fit.slip for fits in options.values() for fit in fits if fit.left == 0}
    _try(look, list(helpful.values()), pointwise, others, options)
    return options


@dataclass(frozen=True)
class Slip:
    """What may have happened to `column`: its numbers are in `unit`, or they belong to another column."""

    column: str
    unit: str
    swapped_with: str
    values: dict[str, NDArray]


@dataclass(frozen=True)
class Fit:
    """How well a row would look with a slip put right: troubles left, and the distance from a typical engine."""

    left: int
    distance: float
    slip: Slip


def _slips(look, found):
    """Yield lists of slips: the swaps, then the units of each column, the one with most troubles first."""
    yield [_swap(look, one, other) for one, other in SWAPS if look.run.has(one) and look.run.has(other)]
    counts = Counter(name for finding in found if finding.trouble for name in finding.columns)
    for column, _ in counts.most_common():
        yield [Slip(column, unit, "", {column: values}) for unit, values in readings_in_other_units(look, column)]


def _swap(look, one, other):
    return Slip(one, "", other, {one: look.kept(one, look.shown(other)), other: look.kept(other, look.shown(one))})


def _try(look, slips, pointwise, troubles, options):
    """Note for each row how well the run would look, were each of these slips put right: all in one look."""
    pairs = [(slip, row) for slip in slips for row in troubles if _may_explain(look, slip, row, troubles[row])]
    columns = {name for slip, _ in pairs for name in slip.values}
    values = {name: np.array([slip.values.get(name, look.run[name])[row] for slip, row in pairs]) for name in columns}
    there = _by_row(pointwise(look.with_values(values, [row for _, row in pairs])) if pairs else ())
    for place, (slip, row) in enumerate(pairs):
        left = [finding for finding in there[place] if finding.trouble]
        touched = {name for finding in _leaning(troubles[row], slip.values) for name in finding.columns}
        if len(left) < len(troubles[row]) and not _leaning(left, touched):
            options[row].append(Fit(len(left), sum(finding.distance for finding in there[place]), slip))


def _leaning(found, columns):
    return [finding for finding in found if any(name in columns for name in finding.columns)]


def _may_explain(look, slip, row, troubles):
    """Return whether the slip is about readings in trouble and makes them sensible."""

    def fits(column, value):
        (low, high), slack = sensible(look, column), look.widths(column)[row]
        return low[row] - slack <= value <= high[row] + slack

    leaning = _leaning(troubles, slip.values)
    leaning = [finding for finding in leaning if finding.check != FORBIDDEN or finding.columns[0] == slip.column]
    return bool(leaning) and all(fits(column, values[row]) for column, values in slip.values.items())


def _most_alike(options):
    """Return row -> slip: its best fit, or one that leaves no more trouble and explains more of the other rows."""

    def best(fits):
        return min(fits, key=lambda fit: (fit.left, fit.distance))

    options = {row: fits for row, fits in options.items() if fits}
    votes = Counter(_name(best(fits).slip) for fits in options.values())
    chosen = {}
    for row, fits in options.items():
        equals = [fit for fit in fits if fit.left == best(fits).left]
        chosen[row] = max(equals, key=lambda fit: (votes[_name(fit.slip)], -fit.distance)).slip
    return chosen


def _usual(chosen, troubles):
    """Return of row -> slip those that explain more than *MOST* of the rows with such trouble in those readings."""
    kept = {}
    for row, slip in chosen.items():
        checks = {finding.check for finding in _leaning(troubles[row], slip.values)}
        alike = [
            other for other, here in troubles.items() if checks & {one.check for one in _leaning(here, slip.values)}
        ]
        same = [other for other in alike if other in chosen and _name(chosen[other]) == _name(slip)]
        if len(same) > MOST * len(alike):
            kept[row] = slip
    return kept


def _believed(look, chosen, pointwise):
    """Leave out a swap of several rows if it would spoil more of the others: two probes are swapped at all of them."""
    swaps = {slip.column: slip for slip in chosen.values() if slip.swapped_with}
    for column, slip in swaps.items():
        swapped = [row for row, one in chosen.items() if one.column == column and one.swapped_with]
        others = [
            row for row in look.running if row not in swapped and all(look.is_read(name, row) for name in slip.values)
        ]
        others = others[:MOST_ROWS_TRIED]
        values = {name: one[others] for name, one in slip.values.items()}
        there = _by_row(pointwise(look.with_values(values, others)) if len(swapped) > 1 and others else ())
        spoilt = [here for here in there.values() if any(one.trouble for one in _leaning(here, slip.values))]
        if len(spoilt) > len(swapped):
            chosen = {row: one for row, one in chosen.items() if row not in swapped}
    return chosen


def _name(slip):
    return slip.column, slip.unit


def _said(look, finding, slip):
    """Return the finding with the slip in its words, if it leans on a reading that the slip is about."""
    if not finding.trouble or slip is None or not _leaning([finding], slip.values):
        return finding
    if slip.swapped_with:
        one, other = (QUANTITIES[name].plain_name for name in (slip.column, slip.swapped_with))
        return finding.but(reason=f"{finding.reason}: {one} and {other} look swapped")
    return fitting(look, finding, slip.column, slip.unit)


def fitting(look: Look, finding: Finding, column: str, unit: str) -> Finding:
    """Return the finding with the unit named that the reading of *column* would fit."""
    number = look.run.cells[column][finding.row].strip()
    others = tuple(other for other in finding.columns if other != column)
    action = finding.action if finding.stop else ASK
    reason = f"{finding.reason}: {QUANTITIES[column].plain_name} {number} fits {unit}"
    return finding.but(columns=(column, *others), fits_unit=unit, reason=reason, action=action)


def _wanted(finding, chosen, troubles):
    """A reading outside the sensible is worth a flag of its own only if a unit fits and no other check has it."""
    if finding.check != SENSIBLE or not finding.trouble:
        return True
    column, slip = finding.columns[0], chosen.get(finding.row)
    others = [other for other in troubles[finding.row] if other.check != SENSIBLE and column in other.columns]
    return slip is not None and slip.unit and slip.column == column and not others


def _by_row(found):
    rows = defaultdict(list)
    for finding in found:
        if finding.row is not None:
            rows[finding.row].append(finding)
    return rows
