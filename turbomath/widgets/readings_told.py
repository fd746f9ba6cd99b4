"""What a lesson says of one reading of a run: the figures of its report, whether they agree, and why."""

from typing import Any

import numpy as np

from turbomath import uncertainty, units
from turbomath.lab.reduction.against_design import CANNOT_TELL
from turbomath.lab.reduction.reduce import Reduced
from turbomath.lab.report import tables
from turbomath.lab.report.sentences import AIR_WORDS
from turbomath.table.errors import short
from turbomath.table.quantities import QUANTITIES
from turbomath.units.rounding import fixed, with_plus_or_minus
from turbomath.widgets.answers import Readout, Table
from turbomath.widgets.run_desk import Chosen

LABELS = {
    "measured_charge_gain": "measured",
    "theoretical_charge_gain": "theory, readings",
    "charge_gain_difference": "difference",
}
AGREE = {"yes": "yes", "no": "no", CANNOT_TELL: CANNOT_TELL, "": CANNOT_TELL}


def readouts(chosen: Chosen, system: str) -> tuple[Readout, ...]:
    """Return the read-outs of one reading, each as its report prints it."""
    reduced, row = chosen.readings.reduced, chosen.row
    if row is None:
        return (Readout("agree?", AGREE[""], ""),)
    found = [
        Readout(label, tables.result_texts(reduced, name, [row], system)[0], "%") for name, label in LABELS.items()
    ]
    return (*found, Readout("agree?", AGREE[reduced.agree[row]], ""))


def sentence(chosen: Chosen, system: str) -> str:
    """Return in words whether measured and theory agree at this reading, and what stands furthest from its design."""
    reduced, row, run = chosen.readings.reduced, chosen.row, chosen.readings.run
    if row is None:
        return f"No reading can be judged: {_missing(reduced)}."
    measured, theory, difference = (text(reduced, name, row, system) for name in LABELS)
    boost = f", {_boost(chosen, row, system)}" if np.isfinite(chosen.readings.boost[row]) else ""
    place = f"Point {short(run.points[row], 24)}{boost}"
    if not reduced.agree[row]:
        return f"{place}: measured and theory cannot be compared. {_missing(reduced).capitalize()}."
    begin = f"{place}: measured {measured}, theory {theory}."
    if reduced.agree[row] == CANNOT_TELL:
        return f"{begin} With so little boost, these gauges cannot tell whether they agree."
    if reduced.agree[row] == "yes":
        return f"{begin} They agree: the difference, {difference}, is no more than the gauges can make of nothing."
    apart = f"They do not agree: the difference, {difference}, is more than the gauges can make of nothing."
    return f"{begin} {apart} {furthest(chosen, system)}"


def furthest(chosen: Chosen, system: str) -> str:
    """Name what lies furthest from its design at this flow, counted in ±, or say that nothing does."""
    reduced, row = chosen.readings.reduced, chosen.row
    found = []
    for name, design in reduced.design.items():
        apart = uncertainty.difference(reduced[name], design)
        if np.isfinite(apart.value[row]) and not tables.cannot_judge(reduced, name)[row]:
            found.append((abs(apart.value[row]) / apart.plus_or_minus[row], name, design))
    far = [one for one in found if one[0] > 1]
    if not far:
        return "No machine alone is further from its design than the gauges allow."
    _, name, design = max(far, key=lambda one: one[0])
    value, width = tables.in_units(design, name, system)
    unit = units.display(name, system).removesuffix("-")
    expected = f"{with_plus_or_minus(value[row], width[row])} {unit}".strip()
    measured = f"{QUANTITIES[name].plain_name} {text(reduced, name, row, system)}"
    return f"Furthest from its design: {measured}, where {expected} is expected."


def table(chosen: Chosen, system: str) -> Table:
    """Return every reading of the run as the report has it."""
    found = chosen.readings
    columns = [tables.result_texts(found.reduced, name, found.rows, system) for name in LABELS]
    rows = [
        (
            short(found.run.points[row], 24),
            found.run.conditions[row],
            _boost(chosen, row, system).split(" ")[0],
            *texts,
            AGREE[found.reduced.agree[row]],
        )
        for row, *texts in zip(found.rows, *columns, strict=True)
    ]
    heads = (
        "point",
        "condition",
        f"boost [{units.display('boost', system)}]",
        "measured charge gain [%]",
        "theory [%]",
        "difference [%]",
        "agree",
    )
    return Table(f"{found.title()}: as in its report, with {AIR_WORDS[found.reduced.air]}", heads, tuple(rows))


def text(reduced: Reduced, name: str, row: Any, system: str) -> str:
    """Return one result with its ± and its unit."""
    unit = units.display(name, system).removesuffix("-")
    return f"{tables.result_texts(reduced, name, [row], system)[0]} {unit}".strip()


def _boost(chosen, row, system):
    unit = units.display("boost", system)
    return f"{fixed(units.from_si(chosen.readings.boost[row], unit, 'boost'), 1)} {unit}"


def _missing(reduced):
    return reduced.missing.get("charge_gain_difference", "a reading that it needs is missing at this point")
