"""More wrong answers in plain shop arithmetic: density, flow, fuel and power of every other question.

As in planted_readings.
"""

from tests.homework.shop import SI, US


def _in(system, number):
    """Return a slip for one system of units only."""
    return lambda k, n: number(k, n) if k is system else None


def _abs(k, n):
    return n.barometer * k.mercury


def _sea(k):
    return 14.7 if k is US else 101.3


def _up(k, temperature):
    return temperature + k.zero


def _real_rise(n):
    return n.compressor_outlet_temperature - n.compressor_inlet_temperature


def _ratio(k, above, below, absolute=True):
    return _up(k, above) / _up(k, below) if absolute else above / below


def _p2(k, n, gauge=False):
    return n.compressor_outlet_boost + (0 if gauge else _abs(k, n))


def _p3(k, n):
    return n.boost + _abs(k, n)


def _manifolds(k, n, barometer=True, absolute=True):
    more = _abs(k, n) if barometer else 0
    return (n.boost_b + more) / (n.boost_a + more) * _ratio(k, n.temperature_a, n.temperature_b, absolute)


def _hot_over_cool(k, n, absolute=True):
    return _ratio(k, n.compressor_outlet_temperature, n.manifold_temperature, absolute)


def _fouled(n, effectiveness):
    return n.compressor_outlet_temperature - effectiveness * (
        n.compressor_outlet_temperature - n.cooling_medium_temperature
    )


def _air_lost(k, n, absolute=True):
    return _ratio(k, _fouled(n, n.clean_effectiveness), _fouled(n, n.fouled_effectiveness), absolute)


def _swept(k, n):
    return n.displacement / (1728 if k is US else 1000) * n.engine_speed / 2


def _exhaust_heat(k, n, fuel=1 / 60, cp=None):
    cp = cp or (0.275 if k is US else 1.15)
    return (n.mass_flow + n.fuel_flow * fuel) * cp * (n.turbine_inlet_temperature - n.turbine_outlet_temperature)


def _work(k, n, more=0.0):
    return n.mass_flow * k.cp * (_real_rise(n) + more)


def _map(k, n, warmth, pressure=1):
    return n.mass_flow * warmth**0.5 / (n.inlet_pressure / n.reference_pressure) ** pressure


def _day(k, n):
    return _ratio(k, n.compressor_inlet_temperature, n.reference_temperature)


def _drop(n):
    return n.compressor_outlet_temperature - n.manifold_temperature


def _per_cent(share):
    return 100 * (share - 1)


AIR = (
    ("density_in_another_unit", lambda k, n: n.density / (0.0624 if k is US else 16.02), "M9"),
    ("density_in_another_unit", lambda k, n: n.density * (2.205 if k is US else 0.4536), "M9"),
    (
        "compressor_outlet_density",
        lambda k, n: k.rho(_p2(k, n, gauge=True), _up(k, n.compressor_outlet_temperature)),
        "M1",
    ),
    ("compressor_outlet_density", lambda k, n: k.rho(_p2(k, n), n.compressor_outlet_temperature), "M3"),
    (
        "compressor_outlet_density",
        lambda k, n: k.rho(n.compressor_outlet_boost + _sea(k), _up(k, n.compressor_outlet_temperature)),
        "M2",
    ),
    (
        "manifold_density",
        lambda k, n: k.rho(_p3(k, n) + n.cooler_pressure_loss, _up(k, n.manifold_temperature)),
        "M8",
    ),
    ("ambient_density", _in(US, lambda k, n: k.rho(n.barometer, _up(k, n.ambient_temperature))), "M9"),
    (
        "aftercooling_density_gain",
        lambda k, n: _per_cent(_p3(k, n) / _p2(k, n) * _hot_over_cool(k, n, absolute=False)),
        "M3",
    ),
    ("aftercooling_density_gain", lambda k, n: _per_cent(_p2(k, n) / _p3(k, n) / _hot_over_cool(k, n)), "M14"),
    (
        "aftercooling_density_gain",
        lambda k, n: _per_cent(n.boost / n.compressor_outlet_boost * _hot_over_cool(k, n)),
        "M1",
    ),
    ("which_manifold_holds_more", lambda k, n: _per_cent(n.boost_b / n.boost_a), "M4"),
    ("which_manifold_holds_more", lambda k, n: _per_cent(_manifolds(k, n, absolute=False)), "M3"),
    ("which_manifold_holds_more", lambda k, n: _per_cent(_manifolds(k, n, barometer=False)), "M1"),
    ("which_manifold_holds_more", lambda k, n: _per_cent(1 / _manifolds(k, n)), "M14"),
    ("uncooled_boost_for_same_density", lambda k, n: n.boost, "M4"),
    ("uncooled_boost_for_same_density", lambda k, n: _p3(k, n) * _hot_over_cool(k, n), "M1"),
    ("uncooled_boost_for_same_density", lambda k, n: n.boost * _hot_over_cool(k, n), "M1"),
    (
        "uncooled_boost_for_same_density",
        lambda k, n: _p3(k, n) * _hot_over_cool(k, n, absolute=False) - _abs(k, n),
        "M3",
    ),
    ("cooled_boost_for_same_density", lambda k, n: n.boost, "M4"),
    ("cooled_boost_for_same_density", lambda k, n: _p3(k, n) / _hot_over_cool(k, n), "M1"),
    ("cooled_boost_for_same_density", lambda k, n: n.boost / _hot_over_cool(k, n), "M1"),
    (
        "cooled_boost_for_same_density",
        lambda k, n: _p3(k, n) / _hot_over_cool(k, n, absolute=False) - _abs(k, n),
        "M3",
    ),
    ("break_even_pressure_loss", lambda k, n: _p2(k, n) * (1 - 1 / _hot_over_cool(k, n, absolute=False)), "M3"),
    ("break_even_pressure_loss", lambda k, n: _p2(k, n, gauge=True) * (1 - 1 / _hot_over_cool(k, n)), "M1"),
    ("break_even_pressure_loss", lambda k, n: _p2(k, n) * (_hot_over_cool(k, n) - 1), "M14"),
    (
        "air_lost_in_a_hotter_manifold",
        lambda k, n: 100 * (1 - _ratio(k, n.temperature_now, n.temperature_before)),
        "M14",
    ),
    (
        "air_lost_in_a_hotter_manifold",
        lambda k, n: 100 * (1 - _ratio(k, n.temperature_before, n.temperature_now)),
        "M14",
    ),
    (
        "air_lost_in_a_hotter_manifold",
        lambda k, n: _per_cent(n.temperature_before / n.temperature_now),
        "M3",
    ),
    ("air_lost_to_fouling", lambda k, n: 100 * (1 - 1 / _air_lost(k, n)), "M14"),
    ("air_lost_to_fouling", lambda k, n: 100 * (1 - _air_lost(k, n)), "M14"),
    ("air_lost_to_fouling", lambda k, n: _per_cent(_air_lost(k, n, absolute=False)), "M3"),
    ("air_lost_to_fouling", lambda k, n: _per_cent(n.fouled_effectiveness / n.clean_effectiveness), "M14"),
    ("dry_air_lost_to_humidity", lambda k, n: n.relative_humidity, "M16"),
    ("dry_air_lost_to_humidity", lambda k, n: 100 * n.saturation_pressure / n.barometer, "M16"),
    (
        "dry_air_lost_to_humidity",
        lambda k, n: 62.2 / (n.barometer / (n.relative_humidity / 100 * n.saturation_pressure) - 1),
        "M16",
    ),
)
FLOWS = (
    ("heat_rejected", _in(US, lambda k, n: n.mass_flow * 0.24 * (_drop(n) - 32)), "M10"),
    ("mass_flow", _in(US, lambda k, n: 12 * n.manifold_density * _swept(k, n) * n.volumetric_efficiency), "M9"),
    ("mass_flow", _in(SI, lambda k, n: n.manifold_density * _swept(k, n) * n.volumetric_efficiency / 60), "M9"),
    ("volume_flow_at_ambient", lambda k, n: n.mass_flow / n.manifold_density, "M16"),
    ("volume_flow_at_ambient", lambda k, n: n.mass_flow * n.ambient_density, "M14"),
    ("volumetric_efficiency", lambda k, n: n.mass_flow / (n.ambient_density * _swept(k, n)), "M16"),
    ("volumetric_efficiency", lambda k, n: n.mass_flow / (n.manifold_density * 2 * _swept(k, n)), "M11"),
    ("power_the_air_allows", lambda k, n: n.power_before * n.boost_after / n.boost_before, "M4"),
    ("power_the_air_allows", lambda k, n: n.power_before * (1 + n.density_after / n.density_before) / 2, "M14"),
    ("compressor_power", _in(US, lambda k, n: _work(k, n, -32) * k.power), "M10"),
    ("compressor_power", _in(SI, lambda k, n: _work(k, n, 273) * k.power), "M3"),
    ("turbine_power", lambda k, n: _exhaust_heat(k, n, cp=k.cp) * k.power, "M16"),
    ("turbine_power", lambda k, n: _exhaust_heat(k, n, fuel=0) * k.power, "M16"),
    ("turbine_power", lambda k, n: _exhaust_heat(k, n, fuel=1) * k.power, "M9"),
    ("closing_the_shaft", lambda k, n: _work(k, n) / _exhaust_heat(k, n, cp=k.cp), "M16"),
    ("closing_the_shaft", lambda k, n: _work(k, n) / _exhaust_heat(k, n, fuel=0), "M16"),
    ("closing_the_shaft", lambda k, n: _exhaust_heat(k, n) / _work(k, n), "M14"),
    ("air_fuel_ratio", lambda k, n: n.mass_flow / n.fuel_flow, "M9"),
    ("fuel_rate", _in(SI, lambda k, n: n.power * n.specific_fuel_consumption), "M9"),
    ("fuel_rate", _in(US, lambda k, n: 0.7457 * n.power * n.specific_fuel_consumption), "M9"),
    (
        "consumption_from_weighed_fuel",
        lambda k, n: n.fuel_mass / n.fuel_time * 60 / n.power * (1 if k is US else 1000),
        "M9",
    ),
    (
        "power_at_the_smoke_limit",
        lambda k, n: n.mass_flow * 60 / 14.7 / (n.specific_fuel_consumption / (1 if k is US else 1000)),
        "M17",
    ),
    (
        "power_at_the_smoke_limit",
        lambda k, n: n.mass_flow / n.air_fuel_ratio / (n.specific_fuel_consumption / (1 if k is US else 1000)),
        "M9",
    ),
    ("power_from_torque", lambda k, n: n.torque * n.engine_speed / (9549 if k is US else 5252), "M9"),
    (
        "flow_on_the_map",
        lambda k, n: _map(k, n, n.compressor_inlet_temperature / n.reference_temperature),
        "M3",
    ),
    ("flow_on_the_map", lambda k, n: _map(k, n, 1 / _day(k, n), -1), "M14"),
    ("flow_on_the_map", lambda k, n: _map(k, n, _day(k, n), -1), "M14"),
)
