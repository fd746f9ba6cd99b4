"""Check 33: water in a cold aftercooler. No error of reading, but worth knowing."""

from collections.abc import Iterable

import numpy as np

from turbomath.lab.checks.finding import Finding, spoken
from turbomath.lab.checks.look import Look


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
