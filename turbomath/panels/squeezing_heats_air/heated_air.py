"""How hot air leaves a compressor: at one pressure ratio, and along the chart of lesson 02."""

from collections.abc import Sequence
from typing import Any

from numpy.typing import ArrayLike

from turbomath.panels.squeezing_heats_air.picture_temperature_rise import (
    TemperatureRise,
    picture_temperature_rise,
    ratios_shown,
)
from turbomath.physics import compression
from turbomath.table.kinds_of_value import Values

BAND = (0.80, 0.60)  # compressor efficiency: usual of truck compressors (common practice)


def outlet(pressure_ratio: Values, inlet_temperature: float, efficiency: float | None = None) -> Any:
    """Return the outlet temperature [K] at a pressure ratio; the ideal one without an efficiency."""
    if efficiency is None:
        return compression.ideal_outlet_temperature(1.0, inlet_temperature, pressure_ratio)
    return compression.outlet_temperature(1.0, inlet_temperature, pressure_ratio, efficiency)


def chart(
    inlet_temperature: float, points: Sequence[tuple[str, str, ArrayLike, ArrayLike]], system: str, *, height: int = 0
) -> TemperatureRise:
    """Return the chart of outlet temperature against pressure ratio, with points on it."""
    ratios = ratios_shown(points)
    outlets = tuple(outlet(ratios, inlet_temperature, efficiency) for efficiency in (None, *BAND))
    return picture_temperature_rise(inlet_temperature, ratios, outlets, points, system, height=height)
