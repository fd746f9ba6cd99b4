"""Boost and air-fuel ratio against time after a step of fuel: where it settles, and where smoke is seen."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from turbomath.pictures.picture import Axis, Picture, Series
from turbomath.pictures.scales import axis, series, shown

BOOST, RATIO = "boost", "air-fuel ratio"
SETTLES, SMOKE = "once it is hot", "smoke is seen"  # as long as "air-fuel ratio": both charts have one scale
LEANEST = 40.0  # air-fuel ratio that the chart reaches at least


@dataclass(frozen=True)
class InTime(Picture):
    """A chart of a stated height on the screen, so that two of them stand above each other, and what its marks say."""

    height: int = 205
    marks: str = ""

    @property
    def alt(self) -> str:
        """The lines in words, and the marks."""
        return f"{super().alt} {self.marks}".strip()

    @property
    def _told(self):
        return tuple(one for one in super()._told if one.kind != "band")


def picture_boost_in_time(time: NDArray, boost: NDArray, settles: float, system: str, most: float) -> InTime:
    """Return the picture of boost [Pa] against time [s], and of the boost that it settles at.

    *most* is a boost [Pa] that the upright axis reaches at least, so that it stands still.
    """
    values, end = shown("boost", boost, system), shown("boost", settles, system)
    lines = (
        Series("line", "theory", SETTLES, (0.0, float(time[-1])), (float(end[0]),) * 2),
        series("line", "measured", BOOST, time, values),
    )
    up = axis("boost", system, values, end, shown("boost", most, system))
    return InTime("Boost after the step; dashed: minutes later, when the manifold is hot", _across(time), up, lines)


def picture_ratio_in_time(time: NDArray, ratio: NDArray, smoke: float) -> InTime:
    """Return the picture of the air-fuel ratio against time [s], shaded under the ratio at which smoke is seen."""
    ends = (0.0, float(time[-1]))
    band = Series("band", "hot", SMOKE, ends, (smoke,) * 2, (0.0,) * 2, (smoke,) * 2)
    line = series("line", "cooled", RATIO, time, ratio)
    most = 10 * np.ceil(max(LEANEST, float(ratio.max())) / 10)
    up = Axis(RATIO, "", 0.0, most)
    title = "Air for each pound or kilogram of fuel; shaded: smoke is seen (common practice)"
    return InTime(title, _across(time), up, (band, line), marks=f"Shaded under {smoke:g}: {SMOKE}.")


def _across(time):
    return Axis("time", "s", 0.0, float(time[-1]))
