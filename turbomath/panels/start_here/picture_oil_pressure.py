"""Oil pressure against engine speed, with the least that the maker asks at each idle speed."""

from collections.abc import Sequence

from numpy.typing import NDArray

from turbomath.pictures.picture import Picture
from turbomath.pictures.scales import axis, series, shown


def picture_oil_pressure(
    speed: NDArray,
    readings: Sequence[tuple[str, str, NDArray]],
    least: Sequence[tuple[str, tuple[float, float], float]],
    system: str,
) -> Picture:
    """Return the picture of oil pressure over engine speed.

    Parameters
    ----------
    speed : array [rev/s]
        Of every reading.
    readings : sequence of (role, label, array [Pa])
        Oil pressure, `nan` where it was not read; the arrays are as long as `speed`.
    least : sequence of (label, (low, high) [rev/s], pressure [Pa])
        The maker's least, over the speeds at which it holds.
    system : "us" or "si"
        The units shown.
    """
    across = shown("engine_speed", speed, system)
    up = [(role, label, shown("oil_pressure", values, system)) for role, label, values in readings]
    points = [series("points", role, label, across, values) for role, label, values in up]
    lines = [
        series("line", "theory", label, shown("engine_speed", ends, system), shown("oil_pressure", [low, low], system))
        for label, ends, low in least
    ]
    x = axis("engine_speed", system, across, *(one.x for one in lines))
    y = axis("oil_pressure", system, *(1.05 * values for _, _, values in up), *(one.y for one in lines))
    return Picture("Oil pressure over engine speed", x, y, (*lines, *points))
