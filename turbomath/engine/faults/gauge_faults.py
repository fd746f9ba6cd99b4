"""Faults of the instruments: what each adds to its own gauge, in the readings of one run."""

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Values = NDArray[np.float64]

ZERO, SCALE, WRONG_TYPE, PORT, SWAPPED, IN_THE_SUN = "zero", "scale", "wrong type", "port", "swapped", "in the sun"
LEAST_OFF, MOST_ZERO = 2.5, 15.0  # standard uncertainties of the gauge: less is no fault
MOST_SCALE = 0.4  # share of the reading
PORTS = ((-0.15, -0.7), (0.15, 3.0))  # share of the restriction that a tap at a wrong place takes off or adds
LEAST_SUN = 3.0  # K
SUN = 20.0  # K that the sun can add to a thermometer, common practice
# What a meter shows over what is true, from its cold end, where type K and J change places: NIST Monograph 175, from
# memory; 0.73 to 0.79 and 1.29 to 1.35 between 100 and 600 °C
TYPES = {"low": (0.72, 0.80), "high": (1.27, 1.36)}
SWAPS = (
    ("boost", "compressor_outlet_pressure"),
    ("manifold_temperature", "compressor_outlet_temperature"),
    ("turbine_inlet_temperature", "turbine_outlet_temperature"),
)
NO_ZERO = ("power", "fuel_flow", "air_flow")  # these meters are read at rest; their zero is looked at there


@dataclass(frozen=True)
class GaugeFault:
    """One fault of one gauge; `effects` of shape (sizes, gauges, points) is what it adds. Sizes in SI or shares."""

    sort: str
    gauge: str
    sizes: Values
    effects: Values

    @property
    def name(self) -> str:
        """The sort and the gauge, as one name."""
        return f"{self.sort}: {self.gauge}"


def gauge_faults(
    gauges: tuple[str, ...], read: Values, unsure: Values, ambient: Values, warmer: Values | None
) -> Iterator[GaugeFault]:
    """Yield the faults of the gauges that were read.

    Parameters
    ----------
    gauges : tuple of str
        In the order of the rows.
    read, unsure : arrays of shape (gauges, points)
        Readings and their standard uncertainties.
    ambient : array of shape (points,) [K]
        Where the cold end of a thermocouple is.
    warmer : array of shape (gauges, points), optional
        What the engine's own gauges would show more for each kelvin of a warmer day.
    """
    for place, name in enumerate(gauges):
        for sort, gauge, sizes, added in _of_one(name, read[place], unsure[place], ambient):
            effects = np.zeros((len(sizes), *read.shape))
            effects[:, place] = added
            yield GaugeFault(sort, gauge, sizes, effects)
    for one, other in SWAPS:
        if one in gauges and other in gauges:
            first, second = gauges.index(one), gauges.index(other)
            effects = np.zeros((1, *read.shape))
            effects[0, first] = read[first] - read[second]
            effects[0, second] = -effects[0, first]
            yield GaugeFault(SWAPPED, f"{one} {other}", np.array([1.0]), effects)
    if warmer is not None:
        sizes = np.array([LEAST_SUN, SUN])
        yield GaugeFault(IN_THE_SUN, "ambient_temperature", sizes, -sizes[:, None, None] * warmer)


def _of_one(name, read, unsure, ambient):
    """Yield (sort, gauge, sizes, what is added to its readings)."""
    if "temperature" in name:
        hotter = read - ambient
        for way, shares in TYPES.items():
            share = np.array(shares)
            yield WRONG_TYPE, f"{name} {way}", share, (1 - 1 / share)[:, None] * hotter
    elif name == "intake_restriction":
        for ends in PORTS:
            yield PORT, name, np.array(ends), _scaled(np.array(ends), read)
    else:
        top = max(float(np.max(np.abs(read))), 1e-9)
        for ends in of_both_signs(float(np.max(unsure)) / top, MOST_SCALE):
            yield SCALE, name, ends, _scaled(ends, read)
    if name not in NO_ZERO:
        for ends in of_both_signs(float(np.max(unsure)), MOST_ZERO * float(np.max(unsure))):
            yield ZERO, name, ends, np.broadcast_to(ends[:, None], (2, len(read)))


def of_both_signs(unsure: float, most: float) -> Iterator[Values]:
    """Yield (least, most) of what is wrong, too high and too low; *unsure* is what a sound gauge may be off."""
    least = LEAST_OFF * unsure
    most = max(most, 2 * least)
    yield np.array([least, most])
    yield np.array([-least, -min(most, 0.8)]) if most < 1 else np.array([-least, -most])


def _scaled(shares, read):
    """Return what a gauge that reads so many shares too much has added to what it shows."""
    return (shares / (1 + shares))[:, None] * read
