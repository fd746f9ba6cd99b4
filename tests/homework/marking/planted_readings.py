"""More wrong answers in plain shop arithmetic: pressures and temperatures of every other question.

As in planted_slips: (question, numbers of the sheet -> answer in the unit asked for, codes that name it truly). A
slip that only one system of units knows gives None in the other.
"""

from tests.homework.shop import SI, US, X


def _in(system, number):
    """Return a slip for one system of units only."""
    return lambda k, n: number(k, n) if k is system else None


def _abs(k, n):
    return n.barometer * k.mercury


def _up(k, temperature):
    return temperature + k.zero


def _ideal(k, inlet, ratio, zero=None):
    zero = k.zero if zero is None else zero
    return (inlet + zero) * ratio**X - zero


def _stage(k, inlet, ratio, efficiency, zero=None):
    return inlet + (_ideal(k, inlet, ratio, zero) - inlet) / efficiency


def _rise(k, n, zero=None):
    return _ideal(k, n.compressor_inlet_temperature, n.pressure_ratio, zero) - n.compressor_inlet_temperature


def _real_rise(n):
    return n.compressor_outlet_temperature - n.compressor_inlet_temperature


def _cooled(n, hot, medium=None):
    return hot - n.effectiveness * (hot - (n.cooling_medium_temperature if medium is None else medium))


def _both_stages(k, n, stage, cool=True):
    first = stage(n.compressor_inlet_temperature, n.first_ratio)
    return stage(_cooled(n, first) if cool else first, n.second_ratio)


def _hot_day(k, n, rise):
    return _cooled(n, n.compressor_inlet_temperature + rise)


def _ratio(k, above, below, absolute=True):
    return _up(k, above) / _up(k, below) if absolute else above / below


def _band(n):
    return 0.02 if 0.25 < n.boost / n.span < 0.75 else 0.03


def _after_turbine(k, n):
    return _abs(k, n) + n.exhaust_back_pressure * k.mercury


def _drop(n):
    return n.compressor_outlet_temperature - n.manifold_temperature


def _most(n, medium="cooling_medium_temperature"):
    return n.compressor_outlet_temperature - getattr(n, medium)


PRESSURES = (
    ("manifold_pressure_from_boost", _in(US, lambda k, n: n.barometer + n.boost), "M9"),
    ("boost_in_another_unit", lambda k, n: n.boost / (0.491 if k is US else 0.1333), "M14"),
    ("boost_in_another_unit", lambda k, n: n.boost * (0.0361 if k is US else 0.00981), "M9"),
    ("restriction_in_another_unit", lambda k, n: n.intake_restriction / (0.0361 if k is US else 0.00981), "M14"),
    ("restriction_in_another_unit", lambda k, n: n.intake_restriction * (0.491 if k is US else 0.1333), "M9"),
    ("back_pressure_in_another_unit", lambda k, n: n.exhaust_back_pressure / (13.6 if k is US else 0.1333), "M14"),
    ("compressor_inlet_pressure", _in(US, lambda k, n: (n.barometer - n.intake_restriction) * 0.491), "M9"),
    ("pressure_ratio", lambda k, n: n.boost / _abs(k, n), "M1"),
    ("station_pressure", lambda k, n: n.sea_level_pressure, "M2"),
    ("station_pressure", lambda k, n: n.sea_level_pressure / n.standard_ratio, "M14"),
    ("gauge_error", lambda k, n: 100 * _band(n), "M13"),
    ("gauge_error", lambda k, n: 100 * (0.05 - _band(n)) * n.span / n.boost, "M13"),
    ("boost_for_same_pressure_ratio", lambda k, n: n.boost, "M1"),
    ("boost_for_same_pressure_ratio", lambda k, n: (n.boost / n.sea_level_pressure + k.mercury) * n.barometer, "M1"),
    ("boost_for_same_manifold_pressure", lambda k, n: n.boost, "M4"),
    (
        "boost_for_same_manifold_pressure",
        lambda k, n: n.boost - (n.sea_level_pressure - n.barometer) * k.mercury,
        "M14",
    ),
    ("boost_for_same_manifold_pressure", lambda k, n: n.boost + n.sea_level_pressure * k.mercury, "M1"),
    ("full_load_restriction", lambda k, n: n.no_load, "M16"),
    ("full_load_restriction", lambda k, n: n.no_load / n.factor, "M14"),
    ("pressure_loss_at_another_flow", lambda k, n: n.cooler_pressure_loss * n.flow_b / n.flow_a, "M15"),
    ("pressure_loss_at_another_flow", lambda k, n: n.cooler_pressure_loss * (n.flow_a / n.flow_b) ** 2, "M14"),
    ("leak_down", lambda k, n: n.end, "M16"),
    ("leak_down", lambda k, n: 100 * (1 - n.end / n.start), "M14"),
    ("two_gauges_for_one_difference", lambda k, n: n.band / 100 * n.first_span, "M18"),
    ("two_gauges_for_one_difference", lambda k, n: n.band / 100 * (n.first_span + n.second_span), "M13"),
    ("two_gauges_for_one_difference", lambda k, n: n.band / 100 * n.difference, "M13"),
    (
        "mean_of_repeats",
        lambda k, n: (n.first_reading + n.second_reading + n.third_reading + n.bad_reading) / 4,
        "M18",
    ),
    ("expansion_ratio", lambda k, n: n.turbine_inlet_boost / (n.exhaust_back_pressure * k.mercury), "M1"),
    ("expansion_ratio", lambda k, n: n.turbine_inlet_boost / _after_turbine(k, n), "M1"),
    ("expansion_ratio", lambda k, n: (n.turbine_inlet_boost + _abs(k, n)) / _abs(k, n), "M6"),
    ("expansion_ratio", lambda k, n: _after_turbine(k, n) / (n.turbine_inlet_boost + _abs(k, n)), "M14"),
)
TEMPERATURES = (
    ("absolute_temperature", lambda k, n: n.temperature + (273 if k is US else 460), "M3"),
    ("absolute_temperature", lambda k, n: n.temperature - k.zero, "M3"),
    ("absolute_temperature", lambda k, n: n.temperature - 32 + k.zero, "M10"),
    (
        "temperature_drop_on_the_other_scale",
        lambda k, n: (n.temperature_drop - 32) / 1.8 if k is US else n.temperature_drop * 1.8 + 32,
        "M10",
    ),
    (
        "temperature_drop_on_the_other_scale",
        lambda k, n: n.temperature_drop * 1.8 if k is US else n.temperature_drop / 1.8,
        "M14",
    ),
    ("outlet_temperature", lambda k, n: n.compressor_inlet_temperature + _rise(k, n) * n.compressor_efficiency, "M6"),
    ("compressor_efficiency", lambda k, n: _rise(k, n, 0) / _real_rise(n), "M3"),
    (
        "compressor_efficiency",
        lambda k, n: _up(k, n.compressor_inlet_temperature) * ((n.pressure_ratio - 1) ** X - 1) / _real_rise(n),
        "M1",
    ),
    (
        "compressor_efficiency",
        lambda k, n: _up(k, n.compressor_inlet_temperature) * (n.pressure_ratio**0.4 - 1) / _real_rise(n),
        "M15",
    ),
    (
        "highest_pressure_ratio",
        lambda k, n: (1 + n.compressor_efficiency * _real_rise(n) / n.compressor_inlet_temperature) ** 3.5,
        "M3",
    ),
    (
        "highest_pressure_ratio",
        lambda k, n: (1 + _real_rise(n) / _up(k, n.compressor_inlet_temperature) / n.compressor_efficiency) ** 3.5,
        "M6",
    ),
    (
        "highest_pressure_ratio",
        lambda k, n: (1 + n.compressor_efficiency * _real_rise(n) / _up(k, n.compressor_inlet_temperature)) ** X,
        "M15",
    ),
    ("hotter_by_a_worn_compressor", lambda k, n: _rise(k, n) * (n.worn_efficiency - n.compressor_efficiency), "M6"),
    (
        "hotter_by_a_worn_compressor",
        lambda k, n: (
            (n.compressor_inlet_temperature + _rise(k, n) / n.compressor_efficiency)
            * (n.compressor_efficiency / n.worn_efficiency - 1)
        ),
        "M3",
    ),
    (
        "two_stages",
        lambda k, n: _both_stages(k, n, lambda t, r: _stage(k, t, r, n.compressor_efficiency), cool=False),
        "M8",
    ),
    (
        "two_stages",
        lambda k, n: _both_stages(k, n, lambda t, r: t + (_ideal(k, t, r) - t) * n.compressor_efficiency),
        "M6",
    ),
    ("two_stages", lambda k, n: _both_stages(k, n, lambda t, r: _stage(k, t, r, n.compressor_efficiency, 0)), "M3"),
    ("two_stages", lambda k, n: _both_stages(k, n, lambda t, r: _ideal(k, t, r)), "M6"),
    ("thermocouple_tolerance", lambda k, n: n.least * (1.8 if k is US else 1), "M13"),
    ("thermocouple_tolerance", lambda k, n: n.share / 100 * _up(k, n.temperature), "M3"),
    ("thermocouple_tolerance", _in(US, lambda k, n: n.share / 100 * n.temperature), "M13"),
    ("thermocouple_tolerance", _in(US, lambda k, n: n.share / 100 * (n.temperature - 32) + 32), "M10"),
    ("effectiveness_air_to_air", lambda k, n: _drop(n) / n.compressor_outlet_temperature, "M5"),
    ("effectiveness_air_to_air", lambda k, n: n.manifold_temperature / n.compressor_outlet_temperature, "M5"),
    ("effectiveness_jacket_water", lambda k, n: _drop(n) / _most(n, "ambient_temperature"), "M12"),
    ("effectiveness_jacket_water", lambda k, n: _drop(n) / _most(n, "cooling_medium_outlet_temperature"), "M12"),
    ("hot_day", lambda k, n: _hot_day(k, n, _rise(k, n, 0) / n.compressor_efficiency), "M3"),
    ("hot_day", lambda k, n: _hot_day(k, n, _rise(k, n) * n.compressor_efficiency), "M6"),
    ("hot_day", lambda k, n: _hot_day(k, n, _rise(k, n)), "M6"),
    (
        "hot_day",
        lambda k, n: _cooled(
            n,
            n.compressor_inlet_temperature + _rise(k, n) / n.compressor_efficiency,
            n.compressor_inlet_temperature,
        ),
        "M12",
    ),
    ("jacket_water_or_air", lambda k, n: n.jacket_temperature / n.air_temperature, "M3"),
    ("jacket_water_or_air", lambda k, n: _ratio(k, n.air_temperature, n.jacket_temperature), "M14"),
    ("rise_over_core_air", _in(US, lambda k, n: n.manifold_temperature - n.cooling_medium_temperature - 32), "M10"),
    ("coolant_temperature_rise", _in(US, lambda k, n: n.heat_rejected / (n.cooling_medium_flow * 8.33)), "M9"),
    ("coolant_temperature_rise", _in(SI, lambda k, n: n.heat_rejected / (n.cooling_medium_flow / 60 * 4.19)), "M9"),
    ("uncertainty_of_effectiveness", lambda k, n: 2 * n.half_width / _most(n), "M13"),
)
