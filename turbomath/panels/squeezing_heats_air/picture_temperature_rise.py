"""How hot air leaves a compressor against pressure ratio: without losses, in the usual band, and as it was read."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike

from turbomath.pictures.picture import Axis, Picture, Series
from turbomath.pictures.scales import axis, shown
from turbomath.units.rounding import fixed

MOST_RATIO = 4.0
HOTTEST = 570.0  # K, where the upright axis ends at least
SAMPLES = 41
OUTLET = "compressor_outlet_temperature"


@dataclass(frozen=True)
class TemperatureRise(Picture):
    """A chart of a stated height on the screen."""

    height: int = 0


def ratios_shown(points: Sequence[tuple[str, str, ArrayLike, ArrayLike]]) -> np.ndarray:
    """Return the pressure ratios along the chart, wide enough for all points that are known."""
    known = [_known(ratio, hot)[0] for _, _, ratio, hot in points]
    across = np.concatenate([np.array([1.0, MOST_RATIO]), *known])
    return np.linspace(float(np.floor(10 * across.min()) / 10), float(np.ceil(2 * across.max()) / 2), SAMPLES)


def picture_temperature_rise(
    inlet_temperature: float,
    ratios: np.ndarray,
    outlets: tuple[np.ndarray, np.ndarray, np.ndarray],
    points: Sequence[tuple[str, str, ArrayLike, ArrayLike]],
    system: str,
    *,
    height: int = 0,
) -> TemperatureRise:
    """Return the picture of the ideal line, the band between two efficiencies, and points.

    Parameters
    ----------
    inlet_temperature : float [K]
        Of the line and the band.
    ratios : array [-]
        Pressure ratios along the chart.
    outlets : three arrays [K]
        Outlet temperature at each: ideal, and with the better and the poorer of the two efficiencies.
    points : sequence of (role, label, array, array) [-, K]
        Pressure ratio and outlet temperature.
    system : "us" or "si"
        The units shown.
    height : int, optional
        On the screen, in px.
    """
    marked = [(role, label, *_known(ratio, hot)) for role, label, ratio, hot in points]
    marked = [(role, label, ratio, shown(OUTLET, hot, system)) for role, label, ratio, hot in marked]
    x = Axis("pressure ratio", "", float(ratios[0]), float(ratios[-1]))
    ideal, cool, warm = (shown(OUTLET, one, system) for one in outlets)
    up = axis(
        OUTLET, system, warm, shown(OUTLET, HOTTEST, system), *(hot for *_, hot in marked), label="outlet temperature"
    )
    band = Series("band", "hot", "60 to 80 %", *map(_plain, (ratios, (cool + warm) / 2, cool, warm)))
    line = Series("line", "theory", "ideal", _plain(ratios), _plain(ideal))
    dots = (Series("points", role, label, _plain(ratio), _plain(hot)) for role, label, ratio, hot in marked)
    entering = fixed(float(shown(OUTLET, inlet_temperature, system)[0]), 0)
    title = f"Outlet temperature against pressure ratio; line and band for air from {entering} {up.unit}"
    return TemperatureRise(title, x, up, (band, line, *dots), height=height)


def _known(ratio, hot):
    ratio, hot = np.atleast_1d(ratio), np.atleast_1d(hot)
    known = np.isfinite(ratio) & np.isfinite(hot)
    return ratio[known], hot[known]


def _plain(array):
    return tuple(map(float, array))
