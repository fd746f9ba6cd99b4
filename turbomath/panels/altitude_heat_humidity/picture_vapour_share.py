"""How much dry air vapour takes away, against the temperature outside: nothing in the cold, a few per cent in heat."""

from collections.abc import Iterable

import numpy as np
from numpy.typing import NDArray

from turbomath.pictures.picture import Axis, Picture
from turbomath.pictures.scales import axis, series, shown

MOST = 14.0  # per cent, so that the picture stands still


def picture_vapour_share(
    temperatures: NDArray,
    lines: Iterable[tuple[str, str, NDArray]],
    here: tuple[float, float],
    ends: tuple[float, float],
    system: str,
) -> Picture:
    """Return the picture.

    Parameters
    ----------
    temperatures : array [K]
        Where the lines are worked out.
    lines : sequence of (role, label, loss)
        Loss is an array, the share of dry air that vapour takes.
    here : (float, float) [K, -]
        Temperature and loss of the reader's point.
    ends : (float, float) [K]
        The temperatures that the picture reaches at least.
    system : "us" or "si"
        The units shown.
    """
    name = "ambient_temperature"
    x, (mine, loss) = shown(name, temperatures, system), (shown(name, here[0], system), np.array([100 * here[1]]))
    most = max(MOST, float(loss[0]))
    drawn = [
        series("line", role, label, x, np.where(100 * share <= most, 100 * share, np.nan))
        for role, label, share in lines
    ]
    point = series("points", "measured", "yours", mine, loss)
    return Picture(
        "Dry air that vapour takes away",
        axis(name, system, shown(name, np.array(ends), system), mine),
        Axis("dry air lost", "%", 0.0, most),
        (*drawn, point),
    )
