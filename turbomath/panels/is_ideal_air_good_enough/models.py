"""Lesson 11: one compressor and its aftercooler with four models of air, and what shop gauges know of the result."""

import itertools
from dataclasses import dataclass
from typing import Any

import numpy as np

from turbomath import air, units
from turbomath.engine import path
from turbomath.engine.through import ChargePath
from turbomath.physics import charge, compression
from turbomath.table.errors import OutOfRangeError
from turbomath.table.records import each_point
from turbomath.uncertainty import COVERAGE_FACTOR, Instrument, propagate, standard
from turbomath.units.shop import psi
from turbomath.widgets.cases import Cases, in_columns

MODELS = ("perfect", "ideal", "real", "moist")
MEANING = {"perfect": "γ = 1.4", "ideal": "ideal", "real": "real, dry", "moist": "real, wet"}
TAKEN = ("γ = 1.4", "ideal gas", "dry air")  # what each step of hand work takes the air to be
COLDEST, HOTTEST_AIR, HOTTEST, MOST_PRESSURE = 233.15, 328.15, 700.0, 900e3  # K, K, K, Pa
SPAN = psi(60.0)
BAROMETER = Instrument("aneroid", accuracy=(units.to_si(0.03, "inHg", "barometer"), "plain"))


@dataclass(frozen=True)
class Air:
    """What one model says: outlet and manifold temperature [K], dry air in the manifold [kg/m^3], water [kg/kg].

    `way` is its whole air path.
    """

    outlet: float
    manifold: float
    charge: float
    condensate: float
    way: ChargePath


def _case(controls):
    """Return what the air follows from, or refuse what no model reaches."""
    _refuse_outside(controls)
    return tuple(getattr(controls, name) for name in _ASKED)


def _airs(cases):
    """Return what the models say of each case, by the name of the model."""
    barometer, temperature, ratio, efficiency, effectiveness, humidity = in_columns(cases)
    found = {
        name: path.charge_path(
            ambient_pressure=barometer,
            ambient_temperature=temperature,
            compressor_outlet_pressure=ratio * barometer,
            isentropic_efficiency=efficiency,
            effectiveness=effectiveness,
            relative_humidity=humidity if name == "moist" else None,
            air=air.choose(name),
        )
        for name in MODELS
    }
    return [
        dict(zip(found, map(_air, ways), strict=True)) for ways in zip(*map(each_point, found.values()), strict=True)
    ]


_ASKED = (
    "barometer",
    "ambient_temperature",
    "pressure_ratio",
    "compressor_efficiency",
    "effectiveness",
    "relative_humidity",
)
airs = Cases(_case, _airs)  # for a record of controls the four answers, by the name of the model


def _air(way):
    return Air(
        way.compressor_outlet_temperature,
        way.manifold_temperature,
        way.manifold_dry_air_density,
        way.condensate,
        way,
    )


def _refuse_outside(controls):
    inlet, ratio = controls.ambient_temperature, controls.pressure_ratio
    if ratio < 1:
        raise OutOfRangeError("nothing is squeezed below a pressure ratio of 1. Set 1 or more.")
    if not COLDEST - 1e-6 <= inlet <= HOTTEST_AIR:
        raise OutOfRangeError(
            "the air outside is taken from −40 to 131 °F (−40 to 55 °C) here. Set a temperature between."
        )
    if ratio * controls.barometer - controls.barometer > SPAN:
        raise OutOfRangeError("the boost gauge ends at 60 psi (414 kPa). Set a smaller pressure ratio.")
    hot = compression.outlet_temperature(1.0, inlet, ratio, controls.compressor_efficiency)
    if hot > HOTTEST or ratio * controls.barometer > MOST_PRESSURE:
        raise OutOfRangeError("air so hot is beyond these models. Set a smaller ratio or a better compressor.")


def apart(found: dict[str, Air]) -> tuple[tuple[float, ...], tuple[float, ...]]:
    """Return how far each thing that hand work takes puts the outlet off [K], and the charge as a share of itself."""
    pairs = [(found[first], found[second]) for first, second in itertools.pairwise(MODELS)]
    outlet = tuple(one.outlet - other.outlet for one, other in pairs)
    return outlet, tuple((one.charge - other.charge) / found["moist"].charge for one, other in pairs)


def gauges(controls: Any, found: Air) -> tuple[float, float]:
    """Return the ± of the outlet thermometer [K], and that of the charge density read from gauges, as a share."""
    thermometer = Instrument("thermocouple", thermocouple=("K", controls.thermocouple))
    gauge = Instrument("bourdon", (0.0, SPAN), controls.grade)
    read = {
        "barometer": controls.barometer,
        "boost": (controls.pressure_ratio - 1) * controls.barometer,
        "manifold_temperature": found.manifold,
    }
    instruments = {"barometer": BAROMETER, "boost": gauge, "manifold_temperature": thermometer}
    sure = {name: standard(one, read[name]) for name, one in instruments.items()}
    density = propagate(_density, read, sure)["result"]
    return COVERAGE_FACTOR * standard(thermometer, found.outlet), float(density.plus_or_minus / np.abs(density.value))


def _density(barometer, boost, manifold_temperature):
    return charge.density(barometer + boost, manifold_temperature)
