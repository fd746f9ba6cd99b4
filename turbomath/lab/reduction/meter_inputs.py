"""What bench.toml states of an air meter, as further inputs of a run beside its gauges, each with its ±."""

import numpy as np

from turbomath.lab.run.air_meter import LAMINAR, ORIFICE, AirMeter
from turbomath.lab.run.amounts import Stated

# Half-widths where none is stated, as a share of the value
PIPE, BORE = 0.004, 0.001  # the most that ISO 5167-1 allows
CONSTANT = 0.01  # of a laminar-flow element with its maker's sheet; common practice
# Whole multiples of the uncertainty (k = 2) that the standard gives its two factors
FACTORS = "orifice_factors"
_HALF = Stated(0.0, np.sqrt(3) / 2)  # a standard uncertainty of one half of it


def stated(meter: AirMeter) -> dict[str, Stated]:
    """Return the numbers of the meter by their names among the readings; none of them without a meter."""
    if meter.kind == ORIFICE:
        sizes = {"pipe_diameter": (meter.pipe_diameter, PIPE), "bore_diameter": (meter.bore_diameter, BORE)}
        return {name: _with_width(*one) for name, one in sizes.items()} | {FACTORS: _HALF}
    return {"laminar_flow_constant": _with_width(meter.constant, CONSTANT)} if meter.kind == LAMINAR else {}


def _with_width(found, usual):
    return Stated(found.value, found.tolerance or usual * found.value)
