"""The small sums on instruments: how far off a gauge or a thermometer may be, and readings that repeat."""

import numpy as np

from turbomath import uncertainty
from turbomath.table.constants import ZERO_CELSIUS
from turbomath.table.kinds_of_value import Values
from turbomath.working.sums import sum_formula

LOSS, SHARE = "cooler_pressure_loss", "density_gain"


@sum_formula(
    SHARE,
    r"s_\mathrm{band} = \mathrm{band}(p_\mathrm{boost} / p_\mathrm{span})",
    "grade B: 3 % of span in the lowest and the highest quarter, 2 % in the middle half",
    "ASMEB40.100",
    result=(r"s_\mathrm{band}", SHARE),
    span=(r"p_\mathrm{span}", "boost"),
)
def grade_b_band(boost: Values, span: Values) -> Values:
    """Band of a grade B gauge at a reading, as a fraction of its span."""
    place = np.asarray(boost, dtype=float) / span
    return uncertainty.accuracy(uncertainty.Instrument(span=(0.0, 1.0), grade="B"), place)


@sum_formula(
    LOSS,
    r"a = s_\mathrm{band} \, p_\mathrm{span}",
    "",
    "ASMEB40.100",
    result=("a", LOSS),
    band=(r"s_\mathrm{band}", SHARE),
    span=(r"p_\mathrm{span}", "boost"),
)
def band_of_span(band: Values, span: Values) -> Values:
    """Half-width [Pa] of a gauge."""
    return band * span


@sum_formula(SHARE, r"s = \frac{a}{p_\mathrm{boost}}", "", result=("s", SHARE), half_width=("a", LOSS))
def share_of_reading(half_width: Values, boost: Values) -> Values:
    """Half-width as a fraction of the reading."""
    return half_width / boost


@sum_formula(
    LOSS,
    r"a = \sqrt{a_\mathrm{A}^2 + a_\mathrm{B}^2}",
    "independent errors",
    "GUM",
    result=("a", LOSS),
    first=(r"a_\mathrm{A}", LOSS),
    second=(r"a_\mathrm{B}", LOSS),
)
def together(first: Values, second: Values) -> Values:
    """Half-width [Pa] of a difference of two gauges."""
    return np.hypot(first, second)


@sum_formula(
    "temperature_rise",
    r"a = \max\left(a_\mathrm{least}, s \, \left(T - T_\mathrm{ice}\right)\right)",
    "the per cent are of the reading in °C",
    "ASTME230",
    result=("a", "temperature_rise"),
    least=(r"a_\mathrm{least}", "temperature_rise"),
    share=("s", SHARE),
)
def thermocouple_tolerance(temperature: Values, least: Values, share: Values) -> Values:
    """Half-width [K] of a thermocouple: the greater of a fixed amount and a share of the reading in °C."""
    return np.maximum(least, share * (temperature - ZERO_CELSIUS))


@sum_formula(
    "effectiveness",
    r"a_\varepsilon = \frac{a \sqrt{(1 - \varepsilon)^2 + 1 + \varepsilon^2}}"
    r"{T_\mathrm{in} - T_\mathrm{medium}}",
    "three thermometers with one tolerance, independent errors",
    "GUM",
    result=(r"a_\varepsilon", "effectiveness"),
    half_width=("a", "temperature_rise"),
)
def effectiveness_half_width(
    effectiveness: Values, inlet_temperature: Values, medium_temperature: Values, half_width: Values
) -> Values:
    """Half-width of an effectiveness: each thermometer's own part, added as the root of their squares."""
    parts = np.sqrt((1 - effectiveness) ** 2 + 1 + effectiveness**2)
    return half_width * parts / (inlet_temperature - medium_temperature)


@sum_formula(
    "boost",
    r"p_\mathrm{mean} = \frac{p_\mathrm{A} + p_\mathrm{B} + p_\mathrm{C}}{3}",
    "readings of one steady state",
    result=(r"p_\mathrm{mean}", "boost"),
    first=(r"p_\mathrm{A}", "boost"),
    second=(r"p_\mathrm{B}", "boost"),
    third=(r"p_\mathrm{C}", "boost"),
)
def mean_of_three(first: Values, second: Values, third: Values) -> Values:
    """Mean [Pa] of three readings."""
    return (first + second + third) / 3


@sum_formula(
    LOSS,
    r"a = \frac{\max\left(p_\mathrm{A}, p_\mathrm{B}, p_\mathrm{C}\right) - \min\left(p_\mathrm{A}, "
    r"p_\mathrm{B}, p_\mathrm{C}\right)}{2}",
    "readings of one steady state",
    result=("a", LOSS),
    first=(r"p_\mathrm{A}", "boost"),
    second=(r"p_\mathrm{B}", "boost"),
    third=(r"p_\mathrm{C}", "boost"),
)
def half_range(first: Values, second: Values, third: Values) -> Values:
    """Half the distance [Pa] from the lowest to the highest of three readings."""
    readings = np.array([first, second, third], dtype=float)
    return (readings.max(axis=0) - readings.min(axis=0)) / 2
