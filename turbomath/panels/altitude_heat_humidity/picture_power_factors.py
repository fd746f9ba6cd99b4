"""Factors of power against the barometer: two that bring a measured power to a standard day, one that takes it away."""

from collections.abc import Iterable, Sequence

import numpy as np
from numpy.typing import NDArray

from turbomath import units
from turbomath.pictures.picture import Axis, Picture
from turbomath.pictures.scales import series, shown

LOW, HIGH = 0.6, 1.2


def picture_power_factors(
    barometers: NDArray, lines: Iterable[tuple[str, str, NDArray]], here: tuple[float, Sequence[float]], system: str
) -> Picture:
    """Return the picture.

    Parameters
    ----------
    barometers : array [Pa]
        Where the lines are worked out.
    lines : sequence of (role, label, factor)
        Factor is an array, `nan` where the standard does not go; its line ends there.
    here : (float, sequence of float) [Pa, -]
        The reader's barometer and the factors there.
    system : "us" or "si"
        The units shown.
    """
    x = shown("barometer", barometers, system)
    factors = np.array(here[1], dtype=float)
    low, high = min([LOW, *factors]), max([HIGH, *factors])
    drawn = [
        series("line", role, label, x, np.where((low <= factor) & (factor <= high), factor, np.nan))
        for role, label, factor in lines
    ]
    mine = np.full(factors.shape, shown("barometer", here[0], system)[0])
    ends = [*x, *mine]
    return Picture(
        "Factor on the power, against the station barometer",
        Axis("barometer", units.display("barometer", system), float(min(ends)), float(max(ends))),
        Axis("factor", "", low, high),
        (*drawn, series("points", "measured", "yours", mine, factors)),
    )
