"""Lines along which air is equally dense: which densities, and where each line runs through the chart."""

import math
from collections.abc import Iterator

import numpy as np
from numpy.typing import NDArray

from turbomath import units
from turbomath.panels.hot_air_is_thin.picture_equal_density import si
from turbomath.physics import charge
from turbomath.pictures.picture import Axis
from turbomath.units.rounding import NO_VALUE, fixed, rounded

MOST_LINES = 8


def ladder(barometer: float, x: Axis, y: Axis, system: str) -> list[tuple[str, float]]:
    """Return (label, density in SI) for each line: round numbers in the display unit, at most eight."""
    coldest, most = si(x, "manifold_temperature", x.low), si(y, "boost", y.high) + barometer
    unit = units.display("density", system)
    greatest = units.from_si(charge.density(most, coldest), unit, "density")
    power = 10.0 ** math.floor(math.log10(greatest / MOST_LINES))
    step = next(part * power for part in (1, 2, 4, 5, 10) if greatest / (part * power) <= MOST_LINES)
    densities = step * np.arange(1, MOST_LINES + 1)
    places = max(0, -math.floor(math.log10(step) + 1e-9))
    labels = [f"{fixed(value, places)} {unit}" for value in densities]
    return list(zip(labels, units.to_si(densities, unit, "density"), strict=True))


def lines(barometer: float, x: Axis, y: Axis, system: str) -> Iterator[tuple[str, NDArray, NDArray]]:
    """Yield (label, temperatures [K], boosts [Pa]) of each line, cut where it leaves the chart."""
    low, high = (si(y, "boost", end) for end in (y.low, y.high))
    cold, hot = (si(x, "manifold_temperature", end) for end in (x.low, x.high))
    for label, density in ladder(barometer, x, y, system):
        slope = charge.pressure(density, 1.0)  # pressure for each kelvin
        ends = np.clip([(low + barometer) / slope, (high + barometer) / slope], cold, hot)
        if ends[1] > ends[0]:
            yield label, ends, charge.pressure(density, ends) - barometer


def table(barometer: float, x: Axis, y: Axis, system: str) -> tuple[tuple[str, ...], tuple[tuple[str, ...], ...]]:
    """Return (heads, rows) of the lines as text: the boost for each density at five temperatures."""
    rungs = ladder(barometer, x, y, system)
    heads = (x.words, *(f"{label} [{y.unit}]" for label, _ in rungs))
    rows = []
    for temperature in np.linspace(x.low, x.high, 5):
        kelvin = si(x, "manifold_temperature", temperature)
        pressures = [charge.pressure(density, kelvin) - barometer for _, density in rungs]
        boosts = [float(units.from_si(pressure, y.unit, "boost")) for pressure in pressures]
        inside = (fixed(boost, 1) if y.low <= boost <= y.high else NO_VALUE for boost in boosts)
        rows.append((rounded(temperature), *inside))
    return heads, tuple(rows)
