"""Checks of water: 33, a cold aftercooler, which is no error of reading; 37, two thermometers that cannot be."""

from collections.abc import Iterable

import numpy as np

from turbomath.lab.checks.finding import Finding, spoken
from turbomath.lab.checks.look import Look
from turbomath.lab.reduction.stations import impossible_wet_bulb

SWAPPED = "Check whether the two are swapped, and that the wick is wet; the report takes the air as dry."


def dew_point(look: Look) -> Iterable[Finding]:
    """33: the charge is colder than its dew point at manifold pressure, so water forms."""
    columns = look.present("manifold_temperature", "relative_humidity", "wet_bulb_temperature", "boost")
    if look.bench.engine.aftercooler == "none":
        return
    dew, charge = look.value("dew_point"), look.at.manifold_temperature
    width = (look.result_width("dew_point") ** 2 + look.widths("manifold_temperature") ** 2) ** 0.5
    known = look.at.humidity_known & ~np.isnan(dew - charge)
    for row in [row for row in look.steady if known[row]]:
        if charge[row] >= dew[row] - width[row]:
            yield spoken(33, row, "", columns)
            continue
        reason = (
            f"{look.tell('manifold_temperature', row)} is below the dew point there, "
            f"{look.amount(dew[row], '°F', 'dew_point', 'manifold_temperature')}; water forms in the aftercooler"
        )
        yield spoken(
            33,
            row,
            "amber",
            columns,
            reason,
            "This is weather, no slip of reading: drain the aftercooler and its pipes.",
        )


def wet_bulb(look: Look) -> Iterable[Finding]:
    """37: a wet thermometer never reads above the dry one, nor lower than the driest air makes it."""
    columns, wrong = look.present("wet_bulb_temperature", "ambient_temperature"), impossible_wet_bulb(look.run)
    for row in look.running:
        if look.is_read("wet_bulb_temperature", row):
            above = look.run["wet_bulb_temperature"][row] > look.run["ambient_temperature"][row]
            what = "above the dry thermometer" if above else "lower than the driest air would make it"
            reason = f"{look.told(row, *columns)}: the wet thermometer reads {what}, so no humidity comes of it"
            yield spoken(37, row, "amber" if wrong[row] else "", columns, reason, SWAPPED)
