"""The density of the air outside, after the compressor and in the manifold, against boost."""

from numpy.typing import ArrayLike

from turbomath.pictures.picture import Picture
from turbomath.pictures.scales import WithWidth, axis, series, shown


def picture_densities(
    boost: ArrayLike,
    ambient: WithWidth,
    compressor_outlet: WithWidth,
    manifold: WithWidth,
    system: str,
) -> Picture:
    """Return the picture of three densities, each with its bars.

    Parameters
    ----------
    boost : array [Pa]
        As the gauge shows it.
    ambient, compressor_outlet, manifold : (array, array) [kg/m^3]
        Density and its ± at each place.
    system : "us" or "si"
        The units shown.
    """
    x = shown("boost", boost, system)
    places = (
        ("ambient", "air outside", ambient),
        ("hot", "compressor outlet", compressor_outlet),
        ("cooled", "manifold", manifold),
    )
    drawn, ends = [], []
    for role, label, (density, plus_or_minus) in places:
        y, width = (shown("density", values, system) for values in (density, plus_or_minus))
        drawn += [series("line", role, label, x, y), series("points", role, label, x, y, width)]
        ends += [y + width, y - width]
    return Picture(
        "Density along the path of the charge",
        axis("boost", system, x),
        axis("density", system, *ends),
        tuple(one for one in drawn if one.x),
    )
