"""What an open barometer reads against elevation: by the standard atmosphere, by the rule of thumb, as reported."""

import math

import numpy as np
from numpy.typing import NDArray

from turbomath import units
from turbomath.pictures.picture import Axis, Picture, Series
from turbomath.pictures.scales import axis, series, shown

_STEP = {"us": 2.0, "si": 10.0}


def picture_bench_barometer(
    elevations: NDArray, station: NDArray, rule: NDArray, report: float, here: tuple[float, float], system: str
) -> Picture:
    """Return the picture of three lines and the reader's point.

    Parameters
    ----------
    elevations, station, rule : array [m, Pa, Pa]
        The lines: what the barometer reads, and what the rule of thumb says.
    report : float [Pa]
        The reading corrected to sea level.
    here : (float, float) [m, Pa]
        The reader's elevation and barometer.
    system : "us" or "si"
        The units shown.
    """
    x, mine = shown("elevation", elevations, system), shown("elevation", here[0], system)
    law, thumb, told, own = (shown("barometer", values, system) for values in (station, rule, report, here[1]))
    across = axis("elevation", system, x, mine)
    return Picture(
        "Barometer against elevation",
        across,
        _upright(system, law, thumb, told, own),
        (
            Series("line", "measured", "report, as it is", (across.low, across.high), (float(told[0]),) * 2),
            series("line", "ambient", "on the bench", x, law),
            series("line", "theory", "rule of thumb", x, thumb),
            series("points", "measured", "on your bench", mine, own),
        ),
    )


def _upright(system, *values):
    """Return an axis that does not begin at zero: all barometers of the earth lie far above it."""
    found, step = np.concatenate(values), _STEP[system]
    return Axis(
        "barometer",
        units.display("barometer", system),
        step * math.floor(found.min() / step),
        step * math.ceil(found.max() / step + 0.5),
    )
