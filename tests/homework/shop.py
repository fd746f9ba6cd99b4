"""Every question of the bank once more, in plain shop arithmetic with shop constants, apart from the kit's formulas.

The constants are those of the trade (common practice): 460 and 273 for absolute temperature, 0.491 psi to the inHg,
0.0361 psi to the inH2O, 0.286 for the exponent of air, 2.70 psi ft3/(lb R) and 0.287 kJ/(kg K) for density, 0.24
Btu/(lb F) and 1.005 kJ/(kg K) for heat. The sums are written down from the textbooks' equations (Heywood, section
6.8; Kays and London, ch. 2), not from the code.
"""

import math
from types import SimpleNamespace

US = SimpleNamespace(
    zero=460,
    mercury=0.491,
    water=0.0361,
    rho=lambda p, t: 2.70 * p / t,
    press=lambda r, t: r * t / 2.70,
    cp=0.24,
    power=1 / 42.4,
    heat=1.0,
)
SI = SimpleNamespace(
    zero=273,
    mercury=1.0,
    water=1.0,
    rho=lambda p, t: p / (0.287 * t),
    press=lambda r, t: r * 0.287 * t,
    cp=1.005,
    power=1 / 60,
    heat=1 / 60,
)
X = 0.286


def _ideal(k, inlet, ratio):
    return (inlet + k.zero) * ratio**X - k.zero


def _real(k, inlet, ratio, efficiency):
    return inlet + (_ideal(k, inlet, ratio) - inlet) / efficiency


def _cooled(hot, medium, effectiveness):
    return hot - effectiveness * (hot - medium)


def _two_stages(k, n):
    first = _real(k, n.compressor_inlet_temperature, n.first_ratio, n.compressor_efficiency)
    between = _cooled(first, n.cooling_medium_temperature, n.effectiveness)
    return _real(k, between, n.second_ratio, n.compressor_efficiency)


def _turbine(k, n):
    """Heat that the exhaust gives up in a minute; its specific heat 0.275 Btu/(lb F), 1.15 kJ/(kg K)."""
    drop = n.turbine_inlet_temperature - n.turbine_outlet_temperature
    return (n.mass_flow + n.fuel_flow / 60) * (0.275 if k is US else 1.15) * drop


def _p1(k, n):
    return n.barometer * k.mercury - n.intake_restriction * k.water


def _p3(k, n):
    return n.barometer * k.mercury + n.boost


def _p2(k, n):
    return n.barometer * k.mercury + n.compressor_outlet_boost


def _effectiveness(n):
    return (n.compressor_outlet_temperature - n.manifold_temperature) / (
        n.compressor_outlet_temperature - n.cooling_medium_temperature
    )


def _change(k, before, after):
    return 100 * ((before + k.zero) / (after + k.zero) - 1)


def _hot_day(k, n):
    hot = _real(k, n.compressor_inlet_temperature, n.pressure_ratio, n.compressor_efficiency)
    return _cooled(hot, n.cooling_medium_temperature, n.effectiveness)


def _fouling(k, n):
    temperatures = [
        _cooled(n.compressor_outlet_temperature, n.cooling_medium_temperature, one)
        for one in (n.clean_effectiveness, n.fouled_effectiveness)
    ]
    return _change(k, *temperatures)


def _gauge(n):
    share = 0.02 if 0.25 < n.boost / n.span < 0.75 else 0.03
    return share * n.span


def _volume_a_minute(k, n):
    return n.displacement / (1728 if k is US else 1000) * n.engine_speed / 2


def _b_over_a(k, n):
    a, b = (
        k.rho(n.barometer * k.mercury + boost, t + k.zero)
        for boost, t in ((n.boost_a, n.temperature_a), (n.boost_b, n.temperature_b))
    )
    return 100 * (b / a - 1)


def _boost_for(k, n, before, after):
    wanted = k.rho(_p3(k, n), before + k.zero)
    return k.press(wanted, after + k.zero) - n.barometer * k.mercury


def _rises(k, n):
    return _ideal(k, n.compressor_inlet_temperature, n.pressure_ratio) - n.compressor_inlet_temperature


def _highest(k, n):
    rise = (n.compressor_outlet_temperature - n.compressor_inlet_temperature) / (
        n.compressor_inlet_temperature + k.zero
    )
    return (1 + n.compressor_efficiency * rise) ** (1 / X)


def _celsius(k, temperature):
    return (temperature - 32) / 1.8 if k is US else temperature


# name -> the answer in the unit asked for, from the numbers on the sheet
SHOP = {
    "manifold_pressure_from_boost": _p3,
    "boost_from_scan_tool": lambda k, n: n.manifold_pressure - n.barometer * k.mercury,
    "boost_in_another_unit": lambda k, n: n.boost * (0.491 if k is US else 0.1333),
    "restriction_in_another_unit": lambda k, n: n.intake_restriction * (0.0361 if k is US else 0.00981),
    "compressor_inlet_pressure": _p1,
    "compressor_outlet_pressure": lambda k, n: n.barometer * k.mercury + n.boost + n.cooler_pressure_loss,
    "pressure_ratio": lambda k, n: (_p3(k, n) + n.cooler_pressure_loss) / _p1(k, n),
    "station_pressure": lambda k, n: n.sea_level_pressure * n.standard_ratio,
    "gauge_error": lambda k, n: 100 * _gauge(n) / n.boost,
    "boost_for_same_pressure_ratio": lambda k, n: n.boost * n.barometer / n.sea_level_pressure,
    "boost_for_same_manifold_pressure": lambda k, n: n.boost + (n.sea_level_pressure - n.barometer) * k.mercury,
    "full_load_restriction": lambda k, n: n.no_load * n.factor,
    "back_pressure_in_another_unit": lambda k, n: n.exhaust_back_pressure * (13.6 if k is US else 0.1333),
    "absolute_temperature": lambda k, n: n.temperature + k.zero,
    "temperature_drop_on_the_other_scale": lambda k, n: (
        n.temperature_drop / 1.8 if k is US else n.temperature_drop * 1.8
    ),
    "ideal_outlet_temperature": lambda k, n: _ideal(k, n.compressor_inlet_temperature, n.pressure_ratio),
    "outlet_temperature": lambda k, n: _real(
        k, n.compressor_inlet_temperature, n.pressure_ratio, n.compressor_efficiency
    ),
    "compressor_efficiency": lambda k, n: (
        _rises(k, n) / (n.compressor_outlet_temperature - n.compressor_inlet_temperature)
    ),
    "highest_pressure_ratio": _highest,
    "hotter_by_a_worn_compressor": lambda k, n: _rises(k, n) * (1 / n.worn_efficiency - 1 / n.compressor_efficiency),
    "two_stages": _two_stages,
    "thermocouple_tolerance": lambda k, n: (
        max(n.least, n.share / 100 * _celsius(k, n.temperature)) * (1.8 if k is US else 1)
    ),
    "ambient_density": lambda k, n: k.rho(n.barometer * k.mercury, n.ambient_temperature + k.zero),
    "compressor_outlet_density": lambda k, n: k.rho(_p2(k, n), n.compressor_outlet_temperature + k.zero),
    "manifold_density": lambda k, n: k.rho(_p3(k, n), n.manifold_temperature + k.zero),
    "aftercooling_density_gain": lambda k, n: (
        100
        * (_p3(k, n) / _p2(k, n) * (n.compressor_outlet_temperature + k.zero) / (n.manifold_temperature + k.zero) - 1)
    ),
    "which_manifold_holds_more": _b_over_a,
    "uncooled_boost_for_same_density": lambda k, n: _boost_for(
        k, n, n.manifold_temperature, n.compressor_outlet_temperature
    ),
    "cooled_boost_for_same_density": lambda k, n: _boost_for(
        k, n, n.compressor_outlet_temperature, n.manifold_temperature
    ),
    "break_even_pressure_loss": lambda k, n: (
        _p2(k, n) * (1 - (n.manifold_temperature + k.zero) / (n.compressor_outlet_temperature + k.zero))
    ),
    "air_lost_in_a_hotter_manifold": lambda k, n: _change(k, n.temperature_before, n.temperature_now),
    "dry_air_lost_to_humidity": lambda k, n: n.relative_humidity * n.saturation_pressure / n.barometer,
    "density_in_another_unit": lambda k, n: n.density * 0.0624 if k is US else n.density * 16.02,
    "effectiveness_air_to_air": lambda k, n: _effectiveness(n),
    "effectiveness_jacket_water": lambda k, n: _effectiveness(n),
    "manifold_temperature": lambda k, n: _cooled(
        n.compressor_outlet_temperature, n.cooling_medium_temperature, n.effectiveness
    ),
    "hot_day": _hot_day,
    "jacket_water_or_air": lambda k, n: (n.jacket_temperature + k.zero) / (n.air_temperature + k.zero),
    "rise_over_core_air": lambda k, n: n.manifold_temperature - n.cooling_medium_temperature,
    "heat_rejected": lambda k, n: (
        n.mass_flow * k.cp * (n.compressor_outlet_temperature - n.manifold_temperature) * k.heat
    ),
    "coolant_temperature_rise": lambda k, n: (
        n.heat_rejected
        / (n.cooling_medium_flow * 0.1337 * 65.5 * 0.86 if k is US else n.cooling_medium_flow / 60e3 * 1050 * 3.6)
    ),
    "pressure_loss_at_another_flow": lambda k, n: n.cooler_pressure_loss * (n.flow_b / n.flow_a) ** 2,
    "leak_down": lambda k, n: n.start - n.end,
    "two_gauges_for_one_difference": lambda k, n: n.band / 100 * math.sqrt(n.first_span**2 + n.second_span**2),
    "air_lost_to_fouling": _fouling,
    "mass_flow": lambda k, n: n.manifold_density * _volume_a_minute(k, n) * n.volumetric_efficiency,
    "volume_flow_at_ambient": lambda k, n: n.mass_flow / n.ambient_density,
    "volumetric_efficiency": lambda k, n: n.mass_flow / (n.manifold_density * _volume_a_minute(k, n)),
    "power_the_air_allows": lambda k, n: n.power_before * n.density_after / n.density_before,
    "compressor_power": lambda k, n: (
        n.mass_flow * k.cp * (n.compressor_outlet_temperature - n.compressor_inlet_temperature) * k.power
    ),
    "expansion_ratio": lambda k, n: (
        (n.barometer * k.mercury + n.turbine_inlet_boost) / ((n.barometer + n.exhaust_back_pressure) * k.mercury)
    ),
    "turbine_power": lambda k, n: _turbine(k, n) * k.power,
    "closing_the_shaft": lambda k, n: (
        n.mass_flow * k.cp * (n.compressor_outlet_temperature - n.compressor_inlet_temperature) / _turbine(k, n)
    ),
    "air_fuel_ratio": lambda k, n: n.mass_flow * 60 / n.fuel_flow,
    "fuel_rate": lambda k, n: n.power * n.specific_fuel_consumption / (1 if k is US else 1000),
    "consumption_from_weighed_fuel": lambda k, n: n.fuel_mass / n.fuel_time * 3600 / n.power * (1 if k is US else 1000),
    "power_at_the_smoke_limit": lambda k, n: (
        n.mass_flow * 60 / n.air_fuel_ratio / (n.specific_fuel_consumption / (1 if k is US else 1000))
    ),
    "power_from_torque": lambda k, n: n.torque * n.engine_speed / (5252 if k is US else 9549),
    "flow_on_the_map": lambda k, n: (
        n.mass_flow
        * math.sqrt((n.compressor_inlet_temperature + k.zero) / (n.reference_temperature + k.zero))
        / (n.inlet_pressure / n.reference_pressure)
    ),
    "mean_of_repeats": lambda k, n: (n.first_reading + n.second_reading + n.third_reading) / 3,
    "uncertainty_of_effectiveness": lambda k, n: (
        n.half_width
        * math.sqrt((1 - _effectiveness(n)) ** 2 + 1 + _effectiveness(n) ** 2)
        / (n.compressor_outlet_temperature - n.cooling_medium_temperature)
    ),
}
