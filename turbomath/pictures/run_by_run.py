"""One quantity of several runs of one engine, run after run, each with its ±."""

from collections.abc import Sequence

import numpy as np
from numpy.typing import ArrayLike, NDArray

from turbomath.pictures.picture import Axis, Picture
from turbomath.pictures.scales import axis, series, shown
from turbomath.table.quantities import QUANTITIES


def picture_run_by_run(
    quantity: str, values: Sequence[float] | NDArray, plus_or_minus: ArrayLike, system: str, *, title: str, label: str
) -> Picture:
    """Return the picture of points with bars over the number of the run, and their mean as a line.

    Parameters
    ----------
    quantity : str
        A name of the table of quantities, such as "effectiveness".
    values, plus_or_minus : array [SI]
        One element for each run, in their order; gaps are `nan`.
    system : "us" or "si"
        The units shown.
    title, label : str
        What the picture shows, and what one point is, such as "group".
    """
    numbers = np.arange(1.0, len(values) + 1.0)
    y, width = (shown(quantity, np.asarray(one, dtype=float), system) for one in (values, plus_or_minus))
    ends = np.concatenate([y + width, y - width])
    found = ends[np.isfinite(ends)]
    upright = axis(quantity, system, ends, label=QUANTITIES[quantity].plain_name, from_zero=False)
    mean = np.full_like(y, np.nanmean(y)) if found.size else y
    return Picture(
        title,
        Axis(label, "", 0.0, max(len(values) + 1.0, 5.0)),
        upright,
        (series("line", "theory", "mean", numbers, mean), series("points", "measured", label, numbers, y, width)),
    )
