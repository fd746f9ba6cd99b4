"""How hot air leaves a compressor against pressure ratio: without losses, in the usual band, and as it was read."""

from dataclasses import dataclass

import numpy as np

from turbomath.physics import compression
from turbomath.pictures.picture import Axis, Picture, Series
from turbomath.pictures.scales import axis, shown
from turbomath.units.rounding import fixed

BAND = (0.80, 0.60)  # compressor efficiency: usual of truck compressors (common practice)
MOST_RATIO = 4.0
HOTTEST = 570.0  # K, where the upright axis ends at least
SAMPLES = 41
OUTLET = "compressor_outlet_temperature"


@dataclass(frozen=True)
class TemperatureRise(Picture):
    """A chart of a stated height on the screen."""

    height: int = 0


def outlet(pressure_ratio, inlet_temperature, efficiency=None):
    """Return the outlet temperature [K] at a pressure ratio; the ideal one without an efficiency."""
    if efficiency is None:
        return compression.ideal_outlet_temperature(1.0, inlet_temperature, pressure_ratio)
    return compression.outlet_temperature(1.0, inlet_temperature, pressure_ratio, efficiency)


def picture_temperature_rise(inlet_temperature, points, system, *, height=0):
    """Return the picture of the ideal line, the band between two efficiencies, and points.

    Parameters
    ----------
    inlet_temperature : float [K]
        Of the line and the band.
    points : sequence of (role, label, array, array) [-, K]
        Pressure ratio and outlet temperature.
    system : "us" or "si"
        The units shown.
    height : int, optional
        On the screen, in px.
    """
    marked = [(role, label, *_known(ratio, system, hot)) for role, label, ratio, hot in points]
    across = np.concatenate([np.array([1.0, MOST_RATIO]), *(ratio for _, _, ratio, _ in marked)])
    x = Axis("pressure ratio", "", float(np.floor(10 * across.min()) / 10), float(np.ceil(2 * across.max()) / 2))
    ratio = np.linspace(x.low, x.high, SAMPLES)
    ideal, cool, warm = (
        shown(OUTLET, outlet(ratio, inlet_temperature, efficiency), system) for efficiency in (None, *BAND)
    )
    up = axis(
        OUTLET, system, warm, shown(OUTLET, HOTTEST, system), *(hot for *_, hot in marked), label="outlet temperature"
    )
    band = Series("band", "hot", "60 to 80 %", *map(_plain, (ratio, (cool + warm) / 2, cool, warm)))
    line = Series("line", "theory", "ideal", _plain(ratio), _plain(ideal))
    dots = (Series("points", role, label, _plain(ratio), _plain(hot)) for role, label, ratio, hot in marked)
    entering = fixed(float(shown(OUTLET, inlet_temperature, system)[0]), 0)
    title = f"Outlet temperature against pressure ratio; line and band for air from {entering} {up.unit}"
    return TemperatureRise(title, x, up, (band, line, *dots), height=height)


def _known(ratio, system, hot):
    ratio, hot = np.atleast_1d(ratio), shown(OUTLET, hot, system)
    known = np.isfinite(ratio) & np.isfinite(hot)
    return ratio[known], hot[known]


def _plain(array):
    return tuple(map(float, array))
