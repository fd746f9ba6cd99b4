"""Why runs of several engines burn differently for the same work, and how little of that an aftercooler explains."""

from collections.abc import Sequence

import numpy as np

from turbomath import units
from turbomath.lab.reduction.reduce import Reduced
from turbomath.lab.reduction.stations import at_stations, gauge_readings
from turbomath.lab.report import comparison
from turbomath.table import prose
from turbomath.units.rounding import fixed

_WORDS = prose.read(__file__, "consumption.toml")
NAME = "specific_fuel_consumption"
_WRITTEN = {"lb/hp·h": "{:.3f}", "g/kW·h": "{:.0f}"}
OF_CHARGE = 5e-4  # of the fuel for each kelvin of charge; makers of large engines count 4e-4 to 6e-4, common practice


def consumption_sentences(reduced: Sequence[Reduced], system: str) -> list[str]:
    """Return what is said of the runs' consumption at the shared step with the most boost; nothing where none differs.

    *reduced* holds each run's results, the one that is reported first.
    """
    steps = [step for step in comparison.steps([one.run for one in reduced]) if _known(reduced, step)]
    if not steps:
        return []
    step = max(steps, key=lambda step: reduced[0].run["boost"][step.rows[0]])
    values, widths = _burnt(reduced, step)
    low, high = int(np.argmin(values)), int(np.argmax(values))
    if values[high] - values[low] <= np.hypot(widths[low], widths[high]):
        return []
    unit, charge = units.display(NAME, system), _charge(reduced, step)
    amounts = dict(
        step=step.name,
        low=_WRITTEN[unit].format(units.from_si(float(values[low]), unit, NAME)),
        high=f"{_WRITTEN[unit].format(units.from_si(float(values[high]), unit, NAME))} {unit}",
        apart=fixed(100 * (values[high] / values[low] - 1), 0),
    )
    share = 100 * OF_CHARGE * (charge[high] - charge[low])
    if np.isfinite(share) and share > 0:
        told = _WORDS.text("charge", by=fixed(max(share, 0.1), 1), **amounts)
    else:
        told = _WORDS.text("no_charge", **amounts)
    invented = all(one.run.bench.run.invented for one in reduced)
    return [f"{told} {_WORDS.text('invented' if invented else 'read')}"]


def _known(reduced, step):
    return bool(np.isfinite(_burnt(reduced, step)).all())


def _burnt(reduced, step):
    """Return (values, ±) of the consumption of each run at a shared step."""
    pairs = [(one[NAME].value[row], one[NAME].plus_or_minus[row]) for one, row in zip(reduced, step.rows, strict=True)]
    return np.array(pairs, dtype=float).T


def _charge(reduced, step):
    """Return the temperature of each run's charge [K]: without an aftercooler that of the compressor outlet."""
    runs = [one.run for one in reduced]
    stations = [at_stations(run, gauge_readings(run)[0]).manifold_temperature for run in runs]
    return np.array([one[row] for one, row in zip(stations, step.rows, strict=True)], dtype=float)
