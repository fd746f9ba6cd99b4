"""Theory for any setting, as a line of charge gain against boost, and beside it the readings of a run."""

from dataclasses import dataclass, fields
from typing import Any

import numpy as np
from numpy.typing import NDArray

from turbomath.pictures.charge_gain import picture_difference
from turbomath.pictures.picture import Picture
from turbomath.pictures.scales import axis, series, shown

SLIDERS, MEASURED, THEORY = "sliders", "measured", "theory, readings"
SLIGHT = -6.0  # %: what lies so little below zero needs no room of its own


@dataclass(frozen=True)
class LowPicture(Picture):
    """A picture of a stated height on the screen, so that two have room above each other."""

    height: int = 0


@dataclass(frozen=True, eq=False)
class RunGains:
    """What a run gives to draw: boost [Pa], the measured gain, its ±, its theory, and the point that is looked at."""

    boost: np.ndarray
    measured: np.ndarray
    plus_or_minus: np.ndarray
    theoretical: np.ndarray
    difference: np.ndarray
    difference_plus_or_minus: np.ndarray
    row: int | None
    name: str


def pictures_gain_beside_gauges(
    curve: tuple[NDArray, Any],
    here: tuple[float, Any],
    role: str,
    system: str,
    *,
    run: RunGains | None = None,
    most: tuple[float, float] = (0.0, 0.0),
) -> tuple[Picture, ...]:
    """Return the picture of the sliders' line and point; and of a run its dots with bars, and the differences.

    Parameters
    ----------
    curve, here : (array, array), (float, float) [Pa, -]
        Boost and gain along the line, and where the boost slider stands.
    role : "hot" or "cooled"
        What the charge of the sliders is.
    system : "us" or "si"
        The units shown.
    run : RunGains, optional
        The readings beside it.
    most : (float, float) [Pa, -]
        Boost and gain that the axes reach at least, so that they stand still.
    """
    line, point = _pair(*curve, system), _pair(np.atleast_1d(here[0]), np.atleast_1d(here[1]), system)
    drawn = [series("points", role, SLIDERS, *point), series("line", role, SLIDERS, *line)]  # the label is the line's
    ends_x, ends_y = [line[0], point[0]], [line[1], point[1]]
    if run is not None:
        more, x, y = _of_run(run, system)
        drawn, ends_x, ends_y = [*drawn, *more], [*ends_x, x], [*ends_y, *y]
    top_x, top_y = _pair(np.atleast_1d(most[0]), np.atleast_1d(most[1]), system)
    ends_y = [np.where((values > SLIGHT) & (values < 0), 0.0, values) for values in ends_y]
    across, up = axis("boost", system, *ends_x, top_x), axis("charge_gain", system, *ends_y, top_y)
    picture = Picture("Charge gain against boost", across, up, tuple(one for one in drawn if one.x))
    if run is None:
        return (picture,)
    apart = picture_difference(run.boost, run.difference, run.difference_plus_or_minus, system)
    return _low(picture, 262), _low(apart, 150)


def _low(picture, height):
    return LowPicture(**{one.name: getattr(picture, one.name) for one in fields(picture)}, height=height)


def _of_run(run, system):
    x, y = _pair(run.boost, run.measured, system)
    width, theory = (shown("charge_gain", values, system) for values in (run.plus_or_minus, run.theoretical))
    looked_at = np.arange(len(x)) == (-1 if run.row is None else run.row)
    parts = [series("line", "theory", THEORY, x, theory)]
    parts += [
        series("points", "measured", label, x[which], y[which], width[which])
        for label, which in ((MEASURED, ~looked_at), (run.name, looked_at))
    ]
    return parts, x, (y + width, y - width, theory)


def _pair(boost, gain, system):
    return shown("boost", boost, system), shown("charge_gain", gain, system)
