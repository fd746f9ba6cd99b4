"""How far each pressure gauge moved between the zero before the run and the zero after it."""

from dataclasses import dataclass

import numpy as np

from turbomath.lab.channels import NUMBER_COLUMNS
from turbomath.lab.checks.instruments import PRESSURE_KINDS
from turbomath.quantities import QUANTITIES
from turbomath.uncertainty import tolerance


@dataclass(frozen=True)
class Drift:
    """One gauge [Pa]: its zeros before and after, as it showed them, how far it moved, and what is allowed.

    `allowed` is the tolerance of the instrument at zero, once for each of the two readings.
    """

    column: str
    before: float
    after: float
    moved: float
    allowed: float

    @property
    def steady(self):
        """Whether it moved no further than the instrument allows."""
        return abs(self.moved) <= self.allowed * (1 + 1e-9)


def drifts(run):
    """Return the `Drift` of each pressure gauge that was read before and after, in the order of the sheet.

    Parameters
    ----------
    run : Run
        From `turbomath.lab.readings.read_run`; its rows "zero" and "zero after" are used, the first and the last.
    """
    before, after = (_rows(run, condition) for condition in ("zero", "zero after"))
    if not before or not after:
        return ()
    found = []
    for column in run.columns:
        if column not in NUMBER_COLUMNS or QUANTITIES[column].kind not in PRESSURE_KINDS:
            continue
        shown = run[column] - run.station_pressure if column in run.gauge_columns else run[column]
        first, last = float(shown[before[0]]), float(shown[after[-1]])
        if np.isfinite(last - first):
            allowed = 2 * float(tolerance(run.bench.instrument(column), 0.0))
            found.append(Drift(column, first, last, last - first, allowed))
    return tuple(found)


def _rows(run, condition):
    return [row for row, one in enumerate(run.conditions) if one == condition]
