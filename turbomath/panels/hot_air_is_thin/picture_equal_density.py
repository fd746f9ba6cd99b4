"""Boost against temperature, with lines along which a cubic metre holds equally much air."""

import math

import numpy as np

from turbomath import units
from turbomath.physics import charge
from turbomath.pictures.picture import Picture, Series
from turbomath.pictures.scales import axis, shown
from turbomath.units.rounding import NO_VALUE, fixed, rounded

MOST_LINES = 8


def picture_equal_density(barometer, temperatures, boosts, cases, system, *, held=()):
    """Return the picture of lines of equal density, with each case as a point.

    Parameters
    ----------
    barometer : float [Pa]
        Station pressure.
    temperatures, boosts : (float, float) [K, Pa]
        Ends of the two axes; they stretch to hold every case.
    cases : sequence of (role, label, temperature, boost)
        The points, in SI; the last is the reader's own.
    system : "us" or "si"
        The units shown.
    held : sequence of "manifold_temperature" and "boost"
        What stays fixed; a line through the reader's point shows it.
    """
    x = axis(
        "manifold_temperature", system, _ends("manifold_temperature", system, temperatures, [case[2] for case in cases])
    )
    y = axis("boost", system, _ends("boost", system, boosts, [case[3] for case in cases]))
    points = tuple(
        Series(
            "points",
            role,
            label,
            *(
                tuple(map(float, shown(name, value, system)))
                for name, value in (("manifold_temperature", temperature), ("boost", boost))
            ),
        )
        for role, label, temperature, boost in cases
    )
    return Picture(
        "Lines of equal density", x, y, (*_lines(barometer, x, y, system), *_held(points[-1], x, y, held), *points)
    )


def table_equal_density(barometer, picture, system):
    """Return (heads, rows) of the lines of a picture as text: the boost for each density at five temperatures."""
    ladder = _ladder(barometer, picture.x, picture.y, system)
    heads = (picture.x.words, *(f"{label} [{picture.y.unit}]" for label, _ in ladder))
    rows = []
    for temperature in np.linspace(picture.x.low, picture.x.high, 5):
        kelvin = _si("manifold_temperature", temperature, picture.x)
        boosts = [_shown("boost", charge.pressure(density, kelvin) - barometer, system)[0] for _, density in ladder]
        inside = (fixed(boost, 1) if picture.y.low <= boost <= picture.y.high else NO_VALUE for boost in boosts)
        rows.append((rounded(temperature), *inside))
    return heads, tuple(rows)


def _ends(name, system, ends, values):
    return np.round(shown(name, [*ends, *values], system), 6)


def _ladder(barometer, x, y, system):
    """Return (label, density in SI) for each line: round numbers in the display unit, at most eight."""
    coldest, most = _si("manifold_temperature", x.low, x), _si("boost", y.high, y) + barometer
    unit = units.display("density", system)
    greatest = units.from_si(charge.density(most, coldest), unit, "density")
    power = 10.0 ** math.floor(math.log10(greatest / MOST_LINES))
    step = next(part * power for part in (1, 2, 4, 5, 10) if greatest / (part * power) <= MOST_LINES)
    shown_values = step * np.arange(1, MOST_LINES + 1)
    places = max(0, -math.floor(math.log10(step) + 1e-9))
    labels = [f"{fixed(value, places)} {unit}" for value in shown_values]
    return list(zip(labels, units.to_si(shown_values, unit, "density"), strict=True))


def _lines(barometer, x, y, system):
    """Return the lines, each cut where it leaves the picture."""
    low, high = (_si("boost", end, y) for end in (y.low, y.high))
    cold, hot = (_si("manifold_temperature", end, x) for end in (x.low, x.high))
    for label, density in _ladder(barometer, x, y, system):
        slope = charge.pressure(density, 1.0)  # pressure for each kelvin
        ends = np.clip([(low + barometer) / slope, (high + barometer) / slope], cold, hot)
        if ends[1] > ends[0]:
            yield Series(
                "line",
                "theory",
                label,
                _shown("manifold_temperature", ends, system),
                _shown("boost", charge.pressure(density, ends) - barometer, system),
            )


def _held(point, x, y, held):
    if "manifold_temperature" in held:
        yield Series("line", "ambient", "temperature held", point.x * 2, (y.low, y.high))
    if "boost" in held:
        yield Series("line", "ambient", "boost held", (x.low, x.high), point.y * 2)


def _si(name, value, axis):
    return units.to_si(value, axis.unit, name)


def _shown(name, values, system):
    return tuple(float(value) for value in shown(name, values, system))
