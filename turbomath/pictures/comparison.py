"""Two or three runs side by side: one quantity against another, each run with its bars."""

from collections.abc import Sequence

from numpy.typing import ArrayLike, NDArray

from turbomath.pictures.picture import Picture, Series
from turbomath.pictures.scales import axis, series, shown
from turbomath.table.quantities import QUANTITIES


def picture_comparison(
    against: str, quantity: str, runs: Sequence[tuple[str, str, ArrayLike, ArrayLike, ArrayLike]], system: str
) -> Picture:
    """Return the picture of one quantity of several runs.

    Parameters
    ----------
    against, quantity : str
        Names of the table of quantities, such as "boost" and "manifold_density".
    runs : sequence of (role, label, x, y, plus_or_minus)
        One for each run; arrays in SI.
    system : "us" or "si"
        The units shown.
    """
    drawn: list[Series] = []
    ends: list[NDArray] = []
    xs: list[NDArray] = []
    for role, label, x, y, plus_or_minus in runs:
        x, y, width = shown(against, x, system), shown(quantity, y, system), shown(quantity, plus_or_minus, system)
        drawn += [series("line", role, label, x, y), series("points", role, label, x, y, width)]
        xs, ends = [*xs, x], [*ends, y + width, y - width]
    names = (QUANTITIES[name].plain_name for name in (quantity, against))
    title = " against ".join(names).capitalize() + f", {len(runs)} runs"
    return Picture(
        title, axis(against, system, *xs), axis(quantity, system, *ends), tuple(one for one in drawn if one.x)
    )
