"""Charge density against boost without aftercooler, with a jacket-water one and with an air-to-air one."""

from collections.abc import Sequence

from numpy.typing import NDArray

from turbomath.pictures.picture import Picture, Series
from turbomath.pictures.scales import axis, series, shown

ROLES = ("hot", "measured", "cooled")


def picture_three_aftercoolers(
    names: Sequence[str],
    boosts: NDArray,
    densities: NDArray,
    here: tuple[NDArray, NDArray],
    guide: tuple[str, str],
    system: str,
    most: tuple[float, float],
) -> Picture:
    """Return the picture of three lines, a point on each, and the guide on which the points lie.

    Parameters
    ----------
    names : sequence of str
        Hottest first.
    boosts, densities : array, sequence of array [Pa, kg/m^3]
        The lines.
    here : (sequence of float, sequence of float) [Pa, kg/m^3]
        Boost and density of the points.
    guide : (str, "boost" or "density")
        What the points share, in words, and whether that is boost or density.
    system : "us" or "si"
        The units shown.
    most : (float, float) [Pa, kg/m^3]
        Boost and density that the axes reach at least, so that they stand still.
    """
    x, points_x, end_x = (shown("boost", values, system) for values in (boosts, here[0], most[0]))
    lines = [shown("manifold_density", values, system) for values in densities]
    points_y, end_y = (shown("manifold_density", values, system) for values in (here[1], most[1]))
    across, up = axis("boost", system, x, points_x, end_x), axis("manifold_density", system, *lines, points_y, end_y)
    words, shared = guide
    first = (float(points_x[0]),) * 2, (float(points_y[0]),) * 2
    ends = (first[0], (up.low, up.high)) if shared == "boost" else ((across.low, across.high), first[1])
    drawn = [series("line", role, name, x, y) for role, name, y in zip(ROLES, names, lines, strict=True)]
    marks = [
        Series("points", role, name, (float(a),), (float(b),))
        for role, name, a, b in zip(ROLES, names, points_x, points_y, strict=True)
    ]
    shared_line = Series("line", "ambient", words, *ends)
    return Picture("Charge density against boost", across, up, (shared_line, *marks, *drawn))  # the last has the label
