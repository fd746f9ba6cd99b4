"""Boost against temperature, with lines along which a cubic metre holds equally much air."""

from collections.abc import Collection, Iterable, Sequence

import numpy as np

from turbomath import units
from turbomath.pictures.picture import Axis, Picture, Series
from turbomath.pictures.scales import axis, shown


def axes(
    temperatures: tuple[float, float],
    boosts: tuple[float, float],
    cases: Sequence[tuple[str, str, float, float]],
    system: str,
) -> tuple[Axis, Axis]:
    """Return the two axes of the chart: those ends [K, Pa], stretched to hold every case."""
    hot, high = ([case[place] for case in cases] for place in (2, 3))
    return _axis("manifold_temperature", system, temperatures, hot), _axis("boost", system, boosts, high)


def picture_equal_density(
    x: Axis,
    y: Axis,
    lines: Iterable[tuple[str, Iterable[float], Iterable[float]]],
    cases: Sequence[tuple[str, str, float, float]],
    system: str,
    *,
    held: Collection[str] = (),
) -> Picture:
    """Return the picture of lines of equal density, with each case as a point.

    Parameters
    ----------
    x, y : Axis
        Temperature and boost.
    lines : sequence of (label, temperatures, boosts)
        In SI, cut where they leave the picture.
    cases : sequence of (role, label, temperature, boost)
        The points, in SI; the last is the reader's own.
    system : "us" or "si"
        The units shown.
    held : sequence of "manifold_temperature" and "boost"
        What stays fixed; a line through the reader's point shows it.
    """
    drawn = [Series("line", "theory", label, *_place(hot, boost, system)) for label, hot, boost in lines]
    points = [Series("points", role, label, *_place(hot, boost, system)) for role, label, hot, boost in cases]
    return Picture("Lines of equal density", x, y, (*drawn, *_held(points[-1], x, y, held), *points))


def si(axis_: Axis, name: str, values: float) -> float:
    """Return a place on an axis as SI."""
    return units.to_si(values, axis_.unit, name)


def _axis(name, system, ends, values):
    return axis(name, system, np.round(shown(name, [*ends, *values], system), 6))


def _place(temperature, boost, system):
    pairs = (("manifold_temperature", temperature), ("boost", boost))
    return (tuple(map(float, shown(name, value, system))) for name, value in pairs)


def _held(point, x, y, held):
    if "manifold_temperature" in held:
        yield Series("line", "ambient", "temperature held", point.x * 2, (y.low, y.high))
    if "boost" in held:
        yield Series("line", "ambient", "boost held", (x.low, x.high), point.y * 2)
