"""How far each gauge has moved from its zero between the start and the end of a run: said, never corrected."""

from dataclasses import dataclass
from pathlib import Path

import numpy as np

from turbomath.lab.checks.flags import Flag
from turbomath.lab.checks.instruments import PRESSURE_KINDS
from turbomath.lab.reduction.stations import ENGINE_OFF
from turbomath.lab.run.channels import NUMBER_COLUMNS
from turbomath.lab.run.readings import Run, as_run
from turbomath.table.quantities import QUANTITIES
from turbomath.uncertainty import accuracy, resolution_step

CHECK = 2  # the zeros
ACTION = "Zero or swap the gauge, and take the points read since the start with care: read the last one again."


@dataclass(frozen=True)
class Drift:
    """One gauge with the engine off, before and after [SI, as the gauge shows it].

    `allowed` is what two readings of a gauge that has not moved may differ by: one step of its scale, or its accuracy
    where no step is stated. `flag` is None where it moved no further than that.
    """

    column: str
    before: float
    after: float
    allowed: float
    flag: Flag | None

    @property
    def moved(self) -> float:
        """After less before."""
        return self.after - self.before

    @property
    def steady(self) -> bool:
        """Whether it moved no further than allowed."""
        return self.flag is None


def drifts(run: Run | Path | str) -> tuple[Drift, ...]:
    """Return the `Drift` of each pressure gauge that was read with the engine off before and after.

    Parameters
    ----------
    run : Run, its folder, or the name of a shipped run
        What `turbomath.lab.run.readings.read_run` gives or takes, with rows "zero" and "zero after"; of several the
        last counts.

    Returns
    -------
    tuple of Drift
        In the order of the columns. Amber beyond one step of the scale, red beyond that and the gauge's accuracy
        (common practice). Thermometers have no place here: an engine that has run is warm.
    """
    run = as_run(run)
    before, after = (_last(run, condition) for condition in ENGINE_OFF)
    gauges = [name for name in run.columns if name in NUMBER_COLUMNS and QUANTITIES[name].kind in PRESSURE_KINDS]
    if before is None or after is None:
        return ()
    found = (_drift(run, column, before, after) for column in gauges)
    return tuple(one for one in found if not np.isnan(one.moved))


def _last(run, condition):
    return max((row for row, one in enumerate(run.conditions) if one == condition), default=None)


def _drift(run, column, before, after):
    shown = run[column] - run.station_pressure if QUANTITIES[column].kind == "pressure" else run[column]
    first, last = float(shown[before]), float(shown[after])
    instrument, moved = run.bench.instrument(column), abs(last - first) * (1 - 1e-9)
    step, width = float(resolution_step(instrument, last)), float(accuracy(instrument, last))
    allowed = step or width
    level = "red" if moved > step + width else "amber" if moved > allowed else ""
    return Drift(column, first, last, allowed, _flag(run, column, before, after, level) if level else None)


def _flag(run, column, before, after, level):
    unit, cells = run.units[column], run.cells[column]
    allowed = "its step and its accuracy allow" if level == "red" else "two readings of a sound gauge differ by"
    reason = (
        f"{QUANTITIES[column].plain_name} {cells[after].strip()} {unit} with the engine off at the end, "
        f"{cells[before].strip()} {unit} at the start; the gauge has moved by more than {allowed}"
    )
    return Flag(level, run.points[after], column, CHECK, reason, ACTION)
