"""Do the two ends of the shaft agree? Power that the compressor takes against power that the exhaust gives up.

The air flow hardly counts: compressor and turbine pass the same air, so an air flow that is off moves both powers.
"""

from collections.abc import Mapping

from numpy.typing import NDArray

from turbomath.lab.reduction.against_design import Comparison, comparison, enough_boost
from turbomath.lab.reduction.shaft import CLOSING
from turbomath.lab.run.readings import Run
from turbomath.uncertainty import Estimate

COARSE = 0.30  # a ± of the ratio from which the readings say nothing of the shaft
USUAL = "usual"


def closing(run: Run, found: Mapping[str, Estimate], boost: NDArray) -> Comparison | None:
    """Return the shaft power ratio against the usual one, at the rows where these readings can tell; None for no row.

    *found* are the results of a run from one propagation, *boost* [Pa] is that of each row.
    """
    ratio = found[CLOSING]
    rows = enough_boost(boost) & (ratio.plus_or_minus < COARSE)
    return comparison(run, CLOSING, ratio, found[f"usual_{CLOSING}"], rows, source=USUAL)
