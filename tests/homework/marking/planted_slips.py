"""Kinds of wrong answers in plain shop arithmetic: slips that the marker should know, and numbers that are none.

Each is (question, numbers of the sheet -> answer in the unit asked for, codes that name it truly); the others
have none. The sums are written from what a student does with a pocket calculator, not from the code.
"""

from types import SimpleNamespace as Numbers

from tests.homework.marking import planted_air, planted_readings
from tests.homework.shop import SI, US, X
from tests.variants_made import NUMERIC


def _abs(k, n):
    return n.barometer * k.mercury


def _sea(k):
    return 14.7 if k is US else 101.3


def _p1(k, n, sign=-1, baro=None):
    return (_abs(k, n) if baro is None else baro) + sign * n.intake_restriction * k.water


def _ideal(k, n, exponent=X, zero=None):
    zero = k.zero if zero is None else zero
    return (n.compressor_inlet_temperature + zero) * n.pressure_ratio**exponent - zero


def _hot(k, n, exponent=X, zero=None):
    inlet = n.compressor_inlet_temperature
    return inlet + (_ideal(k, n, exponent, zero) - inlet) / n.compressor_efficiency


def _p2(k, n, loss=1):
    return _abs(k, n) + n.boost + loss * n.cooler_pressure_loss


def _rho3(k, n, p=None, zero=None):
    return k.rho(_abs(k, n) + n.boost if p is None else p, n.manifold_temperature + (k.zero if zero is None else zero))


def _gain(k, n, p3, p2, zero=None):
    zero = k.zero if zero is None else zero
    return p3 / p2 * (n.compressor_outlet_temperature + zero) / (n.manifold_temperature + zero)


def _drop(n):
    return n.compressor_outlet_temperature - n.manifold_temperature


def _most(n, medium="cooling_medium_temperature"):
    return n.compressor_outlet_temperature - getattr(n, medium)


def _swept(k, n):
    return n.displacement / (1728 if k is US else 1000) * n.engine_speed / 2


def _cool(n):
    return n.compressor_outlet_temperature - n.effectiveness * _most(n)


def _flow_heat(k, n, off=0.0):
    return n.mass_flow * k.cp * (_drop(n) - off) * k.heat


def _flow_work(k, n, off=0.0):
    return n.mass_flow * k.cp * (n.compressor_outlet_temperature - n.compressor_inlet_temperature - off) * k.power


LISTED = (
    ("manifold_pressure_from_boost", lambda k, n: n.boost, "M1"),
    ("manifold_pressure_from_boost", lambda k, n: _sea(k) + n.boost, "M2"),
    ("compressor_inlet_pressure", lambda k, n: _p1(k, n, 1), "M7"),
    ("compressor_inlet_pressure", lambda k, n: _abs(k, n), "M7"),
    ("compressor_outlet_pressure", lambda k, n: _p2(k, n, 0), "M8"),
    ("compressor_outlet_pressure", lambda k, n: _p2(k, n, -1), "M8"),
    ("compressor_outlet_pressure", lambda k, n: n.boost + n.cooler_pressure_loss, "M1"),
    ("compressor_outlet_pressure", lambda k, n: _sea(k) + n.boost + n.cooler_pressure_loss, "M2"),
    ("pressure_ratio", lambda k, n: _p1(k, n) / _p2(k, n), "M14"),
    ("pressure_ratio", lambda k, n: _p2(k, n, 0) / _p1(k, n), "M8"),
    ("pressure_ratio", lambda k, n: _p2(k, n, -1) / _p1(k, n), "M8"),
    ("pressure_ratio", lambda k, n: _p2(k, n) / _p1(k, n, 1), "M7"),
    ("pressure_ratio", lambda k, n: _p2(k, n) / _p1(k, n, 0), "M7"),
    ("pressure_ratio", lambda k, n: _p2(k, n, 0) / _p1(k, n, 0), "M7 M8"),
    ("pressure_ratio", lambda k, n: (_sea(k) + n.boost + n.cooler_pressure_loss) / _p1(k, n, -1, _sea(k)), "M2"),
    ("boost_from_scan_tool", lambda k, n: n.manifold_pressure + _abs(k, n), "M14"),
    ("boost_from_scan_tool", lambda k, n: n.manifold_pressure - _sea(k), "M2"),
    ("ideal_outlet_temperature", lambda k, n: _ideal(k, n, 0.4), "M15"),
    ("ideal_outlet_temperature", lambda k, n: _ideal(k, n, 0.714), "M15"),
    ("ideal_outlet_temperature", lambda k, n: _ideal(k, n, 0.3 / 1.3), "M15"),
    ("ideal_outlet_temperature", lambda k, n: _ideal(k, n, zero=0), "M3"),
    ("ideal_outlet_temperature", lambda k, n: _ideal(k, n) - n.compressor_inlet_temperature, "M16"),
    ("outlet_temperature", lambda k, n: _ideal(k, n), "M6"),
    ("outlet_temperature", lambda k, n: _hot(k, n, 0.4), "M15"),
    ("outlet_temperature", lambda k, n: _hot(k, n, 0.3 / 1.3), "M15"),
    ("outlet_temperature", lambda k, n: _hot(k, n) - n.compressor_inlet_temperature, "M16"),
    ("outlet_temperature", lambda k, n: _hot(k, n, zero=0), "M3"),
    (
        "compressor_efficiency",
        lambda k, n: (
            (n.compressor_outlet_temperature - n.compressor_inlet_temperature)
            / (_ideal(k, n) - n.compressor_inlet_temperature)
        ),
        "M14",
    ),
    ("ambient_density", lambda k, n: k.rho(_sea(k), n.ambient_temperature + k.zero), "M2"),
    ("ambient_density", lambda k, n: k.rho(_abs(k, n), n.ambient_temperature), "M3"),
    ("manifold_density", lambda k, n: _rho3(k, n, _sea(k) + n.boost), "M2"),
    ("manifold_density", lambda k, n: _rho3(k, n, n.boost), "M1"),
    ("manifold_density", lambda k, n: _rho3(k, n, zero=0), "M3"),
    (
        "aftercooling_density_gain",
        lambda k, n: 100 * _gain(k, n, _abs(k, n) + n.boost, _abs(k, n) + n.compressor_outlet_boost),
        "M14",
    ),
    ("aftercooling_density_gain", lambda k, n: 100 * (_gain(k, n, 1, 1) - 1), "M8"),
    ("effectiveness_air_to_air", lambda k, n: _most(n) / _drop(n), "M14"),
    ("effectiveness_air_to_air", lambda k, n: 1 - _drop(n) / _most(n), "M5"),
    ("effectiveness_air_to_air", lambda k, n: _drop(n) / _most(n, "compressor_inlet_temperature"), "M12"),
    ("effectiveness_jacket_water", lambda k, n: _most(n) / _drop(n), "M14"),
    ("effectiveness_jacket_water", lambda k, n: 1 - _drop(n) / _most(n), "M5"),
    ("manifold_temperature", lambda k, n: n.effectiveness * n.compressor_outlet_temperature, "M5"),
    ("manifold_temperature", lambda k, n: n.compressor_outlet_temperature * (1 - n.effectiveness), "M5"),
    (
        "manifold_temperature",
        lambda k, n: n.cooling_medium_temperature + n.effectiveness * _most(n),
        "M5",
    ),
    ("mass_flow", lambda k, n: n.manifold_density * _swept(k, n), "M16"),
    ("mass_flow", lambda k, n: 2 * n.manifold_density * _swept(k, n) * n.volumetric_efficiency, "M11"),
    ("mass_flow", lambda k, n: n.ambient_density * _swept(k, n) * n.volumetric_efficiency, "M16"),
    ("heat_rejected", lambda k, n: _flow_heat(k, n) * 60, "M9"),
    ("heat_rejected", lambda k, n: _flow_heat(k, n) / 60, "M9"),
    ("compressor_power", lambda k, n: _flow_work(k, n) * 60, "M9"),
    ("fuel_rate", lambda k, n: n.power / n.specific_fuel_consumption, "M14"),
    ("power_the_air_allows", lambda k, n: n.power_before * n.density_before / n.density_after, "M14"),
    ("rise_over_core_air", lambda k, n: n.manifold_temperature - n.compressor_inlet_temperature, "M12"),
    *planted_readings.PRESSURES,
    *planted_readings.TEMPERATURES,
    *planted_air.AIR,
    *planted_air.FLOWS,
)
_OFF = (1.1, 0.9, 1.37, 0.63, 1.17, 1.22)  # what no list can know: about so many times the right answer
SPREAD = 0.03  # to both sides of that, or a few numbers would meet a slip by the round numbers of a gauge
# half of them for each question, in turn, so that there are about as many kinds as of slips on the list
UNLISTED = tuple((name, times) for place, name in enumerate(NUMERIC) for times in _OFF[place % 2 :: 2])
SHOPS = {"us": US, "si": SI}


def numbers(variant: object) -> Numbers:
    """Return the numbers of a sheet without their units."""
    return Numbers(**{name: float(one.text.replace("−", "-")) for name, one in variant.givens.items()})
