"""On which line a compressor worked: its points with their ± both ways, and its efficiency at each of them."""

import dataclasses
from collections.abc import Mapping

import numpy as np
from numpy.typing import NDArray

from turbomath import units
from turbomath.pictures.picture import Picture, Series
from turbomath.pictures.scales import WithWidth, axis, series, shown

Values = NDArray[np.float64]
FLOW, RATIO, EFFICIENCY = "corrected_mass_flow", "pressure_ratio", "compressor_efficiency"
FLOW_WORDS = "corrected air flow"
POINTS, OFF, OTHER = "points", "off the line", "at another speed"
ROLES = {POINTS: "measured", OFF: "hot", OTHER: "ambient"}


def picture_compressor_line(
    points: Mapping[str, tuple[WithWidth, WithWidth]], line: tuple[Values, WithWidth], system: str
) -> Picture:
    """Return the picture of pressure ratio against corrected air flow: the line with its ± behind its points.

    Parameters
    ----------
    points : dict
        Which sort of points, a key of `ROLES` -> ((flow, ±), (pressure ratio, ±)) [SI].
    line : (array, (array, array)) [SI]
        Flow along the line, and the pressure ratio there with its ±.
    system : "us" or "si"
        The units shown.
    """
    along, ratio, width = shown(FLOW, line[0], system), *(np.asarray(one) for one in line[1])
    drawn = [_points(name, *pair, RATIO, system) for name, pair in points.items()]
    return Picture(
        "Pressure ratio of the compressor against its corrected air flow",
        _flow_axis([*drawn], along, system),
        axis(RATIO, system, ratio - width, ratio + width, *((*one.low, *one.high) for one in drawn), from_zero=False),
        (
            series("band", "theory", "the line ±", along, ratio, width),
            series("line", "theory", "the line", along, ratio),
            *drawn,
        ),
    )


def picture_efficiency(points: Mapping[str, tuple[WithWidth, WithWidth]], system: str) -> Picture:
    """Return the picture of compressor efficiency against corrected air flow; `points` as for the line."""
    drawn = [_points(name, *pair, EFFICIENCY, system) for name, pair in points.items()]
    return Picture(
        "Efficiency of the compressor against its corrected air flow",
        _flow_axis(drawn, np.array([]), system),
        axis(EFFICIENCY, system, *((*one.low, *one.high) for one in drawn), from_zero=False),
        tuple(drawn),
    )


def _flow_axis(drawn, along, system):
    ends = ((*one.left, *one.right) for one in drawn)
    return axis(FLOW, system, along, *ends, label=FLOW_WORDS, from_zero=False)


def _points(name, flow, other, quantity, system) -> Series:
    """Return points with bars both ways, in the order of the flow."""
    x, y = shown(FLOW, flow[0], system), shown(quantity, other[0], system)
    across = np.atleast_1d(units.from_si(flow[1], units.display(FLOW, system), FLOW))
    upwards = np.atleast_1d(units.from_si(other[1], units.display(quantity, system), quantity))
    found = series("points", ROLES[name], name, x, y, upwards)
    widths = series("points", ROLES[name], name, x, across + 0 * y, upwards).y  # in the same order
    left, right = (tuple(a + sign * b for a, b in zip(found.x, widths, strict=True)) for sign in (-1, 1))
    return dataclasses.replace(found, left=left, right=right)
