"""The equations of a turbocharged engine, each in turn from the air filter to the tail pipe, with no iteration.

Two numbers are guessed, the air through the compressor and the pressure after it, and everything follows. Two sums
are then left that need not come out: the air the cylinders draw in against the air delivered, and the turbine's
power against the compressor's. `balance` finds the guesses for which they do. Heats count from ambient temperature.

Air is a perfect gas; burnt gas has a specific heat that rises with temperature and with the fuel in it, within 1.1 %
of `turbomath.air.exhaust` from 300 to 1100 K. Nothing here checks its input.
"""

from types import SimpleNamespace
from typing import Any

import numpy as np
from numpy.typing import NDArray

from turbomath.engine.turbocharged_engine import EXHAUST_GAMMA, EXHAUST_SPECIFIC_HEAT, GREATEST_FLOW_PARAMETER
from turbomath.engine.wheels import corrected_flow, speed_share
from turbomath.physics.turbine_flow import nozzle_flow_parameter
from turbomath.table.constants import AIR_GAS_CONSTANT as R
from turbomath.table.constants import AIR_HEAT_CAPACITY_RATIO
from turbomath.table.constants import AIR_SPECIFIC_HEAT as CP
from turbomath.table.kinds_of_value import Values

EXHAUST_HEAT = (931.2, 0.2082, 34.5, 0.0863)  # J/(kg K): a + b T + (c + d T) x burnt share; fitted to air.exhaust
COOL_CHARGE = 320.0  # K of the charge for which the indicated efficiency is told
_EXPONENT = (AIR_HEAT_CAPACITY_RATIO - 1) / AIR_HEAT_CAPACITY_RATIO
_SLOPE, _SOUND = (EXHAUST_GAMMA - 1) / EXHAUST_GAMMA, (EXHAUST_GAMMA + 1) / 2
_CHOKED = nozzle_flow_parameter(9.0, EXHAUST_GAMMA)


def state(engine: Any, site: Any, mass_flow: Values, pressure: Values, fuel_flow: Values) -> SimpleNamespace:
    """Return everything along the path, if the compressor passes *mass_flow* [kg/s] and delivers at *pressure* [Pa].

    *engine* holds the numbers of a `TurbochargedEngine` and its parts, *site* the ambient pressure `p0` and
    temperature `T0` and the engine speed `N`; of an engine that is not at rest, what `spool_up` keeps in store too.
    """
    s = SimpleNamespace(compressor_flow=mass_flow, p2=pressure, fuel_flow=fuel_flow)
    _compress(engine, site, s)
    _cool(engine, site, s)
    _fill(engine, site, s)
    _burn(engine, site, s)
    _expand(engine, site, s)
    return s


def imbalances(s: SimpleNamespace) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Air drawn in less air delivered, and turbine power less compressor power, each as a share."""
    powers = s.turbine_power + np.abs(s.power_needed)
    return 1 - s.air_drawn / s.air_flow, (s.turbine_power - s.power_needed) / powers


def _compress(e, site, s):
    """Filter and compressor: p1, T1, pressure ratio, efficiency, T2, power."""
    s.p1 = site.p0 - e.intake_coefficient * s.compressor_flow**2 * R * site.T0 / site.p0
    s.p1 = np.maximum(s.p1, 0.2 * site.p0)
    s.T1 = site.T0 + e.intake_warming
    s.pressure_ratio = s.p2 / s.p1
    corrected = corrected_flow(s.compressor_flow, s.p1, s.T1)
    speed = _wheel_speed(e, s.pressure_ratio)
    best = e.best_compressor_flow if _nothing(e.best_flow_lean) else e.best_compressor_flow * speed**e.best_flow_lean
    away = e.compressor_narrowness * (corrected / best - 1) ** 2 + e.compressor_fall * (speed - 1) ** 2
    away = away + e.fast_wheel_fall * np.maximum(speed - 1, 0.0) ** 2
    s.compressor_efficiency = e.best_compressor_efficiency / (1 + away)
    s.T2 = s.T1 * (1 + (s.pressure_ratio**_EXPONENT - 1) / s.compressor_efficiency)
    s.compressor_power = s.compressor_flow * CP * (s.T2 - s.T1)
    s.power_needed = s.compressor_power / e.shaft_efficiency
    if not _nothing(e.bearing_fall):  # bearings take power with the square of the speed, whatever flows
        loss = 1 / e.shaft_efficiency - 1
        s.power_needed = s.compressor_power * (1 + loss * (e.best_compressor_flow / corrected) ** e.bearing_fall)
    s.intake_heat = s.compressor_flow * CP * (s.T1 - site.T0)


def _wheel_speed(e, pressure_ratio):
    """Speed of the compressor's wheel over its best, whose square goes with the work of the ideal compressor."""
    if _nothing(e.best_flow_lean) and _nothing(e.compressor_fall) and _nothing(e.fast_wheel_fall):
        return 1.0
    return speed_share(e, pressure_ratio)


def _cool(e, site, s):
    """Leak before the aftercooler, then the aftercooler: effectiveness, T3, p3."""
    s.leak_before = _leak(e.leak_area_before_aftercooler, s.p2, s.T2, site.p0)
    s.charge_flow = np.maximum(s.compressor_flow - s.leak_before, 0.1 * s.compressor_flow)
    if e.arrangement == "none":
        s.effectiveness, s.Tm, s.T3, s.p3 = 0 * s.T2, 0 * s.T2 + site.T0, s.T2, s.p2
        return
    conductance = e.conductance * (s.charge_flow / e.reference_mass_flow) ** e.flow_exponent
    ntu = conductance / (s.charge_flow * CP)
    if e.arrangement == "jacket-water":  # so much water that it hardly warms
        s.Tm, s.effectiveness = e.jacket_water_temperature + 0 * s.T2, -np.expm1(-ntu)
    else:
        s.Tm = site.T0 + 0 * s.T2
        s.effectiveness = _crossflow(ntu, s.charge_flow, e.cooling_air_flow * site.p0 / (R * site.T0))
    s.T3 = s.T2 - s.effectiveness * (s.T2 - s.Tm)
    if not _nothing(e.held_temperature):
        s.T3 = np.where(e.held_temperature > 0, e.held_temperature, s.T3)
        s.effectiveness = (s.T2 - s.T3) / (s.T2 - s.Tm)
    s.p3 = s.p2 - e.pressure_loss_coefficient * s.charge_flow**2 * R * (s.T2 + s.T3) / 2 / s.p2
    s.p3 = np.maximum(s.p3, 0.2 * s.p2)


def _crossflow(ntu, charge_flow, air_flow):
    """Effectiveness, both sides unmixed, by the usual closed form (0.011 off at most); the charge is the smaller."""
    ratio = np.minimum(charge_flow / air_flow, 1.0)
    return -np.expm1(ntu**0.22 / ratio * np.expm1(-ratio * ntu**0.78))


def _fill(e, site, s):
    """Leak after the aftercooler, air left, and the air that the cylinders draw in at that density."""
    s.leak_after = _leak(e.leak_area_after_aftercooler, s.p3, s.T3, site.p0)
    s.air_flow = np.maximum(s.charge_flow - s.leak_after, 0.1 * s.charge_flow)
    if _in_motion(site):
        s.stored_flow = (s.p3 * site.charge_volume / (R * s.T3) - site.mass) / site.over
        s.air_flow = s.air_flow - s.stored_flow
    s.swept = e.displacement * site.N / 2  # m^3/s, four strokes
    s.cooler_heat = s.charge_flow * CP * (s.T2 - s.T3)
    s.leak_heat = CP * (s.leak_before * (s.T2 - site.T0) + s.leak_after * (s.T3 - site.T0))
    s.air_drawn = e.volumetric_efficiency * s.p3 / (R * s.T3) * s.swept
    if _in_motion(site) and not _nothing(e.least_air_fuel_ratio):
        s.fuel_flow = np.minimum(s.fuel_flow, s.air_drawn / e.least_air_fuel_ratio)


def _burn(e, site, s):
    """Heat of the fuel, and where it goes: pistons, walls, exhaust; indicated power.

    A warmer charge makes hotter gas, and more of its work is left in the walls: makers of large engines count 0.4 to
    0.6 % more fuel for 10 K more in the coolant of the charge (common practice). Without that a hot charge does better,
    as it brings more exhaust heat, more boost, and so more push on the pistons while they draw in.
    """
    s.fuel_heat = s.fuel_flow * e.fuel_lower_heating_value
    s.equivalence = e.stoichiometric * s.fuel_flow / s.air_flow
    burnt = (1 + s.equivalence**8) ** (-1 / 8)  # rich fuel finds no air; smooth, so that Newton's method can pass
    s.unburnt_heat = s.fuel_heat * (1 - burnt)
    s.share = s.equivalence * burnt
    late = 1 - 0.005 * e.timing_retard - 0.0004 * e.timing_retard**2
    efficiency = (e.best_indicated_efficiency - e.efficiency_fall * s.share**2) * late
    ideal = efficiency * s.fuel_heat * burnt
    s.indicated_power = ideal * (1 - e.warm_charge_fall * (s.T3 - COOL_CHARGE))
    s.wall_heat = e.coolant_share * s.fuel_heat * burnt
    if not _nothing(e.wall_heat_fall):
        filling = s.fuel_flow / site.N * e.rated_speed / e.rated_fuel_flow
        s.wall_heat = s.wall_heat * filling**-e.wall_heat_fall
    s.wall_heat = s.wall_heat + ideal - s.indicated_power
    s.exhaust_flow = s.air_flow + s.fuel_flow
    s.friction_power = (e.friction_at_rest + e.friction_per_speed * site.N) * s.swept
    s.heat_left = s.fuel_heat * burnt - s.indicated_power - s.wall_heat + s.air_flow * CP * (s.T3 - site.T0)


def _expand(e, site, s):
    """Exhaust manifold, turbine, wastegate and tail pipe: T4, T5, p5, p4 and the powers.

    What pumping takes goes to the coolant here, not to the gas it warms: that is below 1 % of the fuel's heat, and the
    temperature before the turbine then needs no iteration.
    """
    s.manifold_heat = 0 * s.heat_left
    if not _nothing(e.exhaust_conductance):
        s.manifold_heat = -s.heat_left * np.expm1(-e.exhaust_conductance / (s.exhaust_flow * EXHAUST_SPECIFIC_HEAT))
    heat, temperature = (s.heat_left - s.manifold_heat) / s.exhaust_flow, _temperature_of(s.share, site.T0)
    if _in_motion(site):
        s.metal_heat = _to_the_metal(site, s.exhaust_flow, temperature(heat))
        heat = heat - s.metal_heat / s.exhaust_flow
    s.T4 = temperature(heat)
    travel = np.minimum(np.maximum((s.p2 - site.p0 - e.opening_boost) / e.span, 0.0), 1.0)  # sooner than np.clip
    s.opening = np.maximum(travel**2 * (3 - 2 * travel), e.least_opening) * (e.wastegate_area > 0)
    gate, leak = e.wastegate_area * s.opening, e.exhaust_leak_area
    area = e.turbine_area + gate + leak
    s.turbine_share, s.gate_share, s.leak_share = e.turbine_area / area, gate / area, leak / area
    s.tail_flow = s.exhaust_flow * (1 - s.leak_share)
    s.T5 = temperature(heat - s.power_needed / s.tail_flow)
    s.p5 = site.p0 + e.exhaust_coefficient * s.tail_flow**2 * R * s.T5 / site.p0
    s.p4 = np.sqrt(s.p5**2 + (s.exhaust_flow / (GREATEST_FLOW_PARAMETER * area)) ** 2 * R * s.T4)
    if not _nothing(e.nozzle_share):
        flow = s.exhaust_flow * np.sqrt(R * s.T4) / (area * s.p5)
        s.p4 = s.p4 ** (1 - e.nozzle_share) * (s.p5 * _nozzle_ratio(flow)) ** e.nozzle_share
    s.pumping_power = (s.p4 - s.p3) * s.swept
    s.power = s.indicated_power - s.friction_power - s.pumping_power
    s.specific_heat = _specific_heat(s.share, s.T4)
    s.expansion_ratio = s.p4 / s.p5
    drop = -np.expm1(-R / s.specific_heat * np.log(s.expansion_ratio))
    s.turbine_flow = s.exhaust_flow * s.turbine_share
    ideal_work = s.specific_heat * s.T4 * drop
    s.turbine_efficiency = _turbine_efficiency(e, s, ideal_work)
    s.turbine_power = s.turbine_efficiency * s.turbine_flow * ideal_work


def _to_the_metal(site, flow, temperature):
    """Heat [W] that the exhaust leaves in a manifold that is cooler than it; the metal warms meanwhile."""
    capacity = flow * EXHAUST_SPECIFIC_HEAT
    taken = -capacity * np.expm1(-site.metal_conductance / capacity)
    return taken * (temperature - site.metal_temperature) / (1 + taken * site.over / site.metal_capacity)


def _in_motion(site):
    """Whether rotor, charge and metal take something up, over a time that `spool_up` steps."""
    return hasattr(site, "over")


def _nozzle_ratio(flow):
    """Expansion ratio of a nozzle from its flow x sqrt(R T) over (area x pressure behind it).

    The square of that flow is 2 gamma/(gamma - 1) z (z - 1) with z = ratio^((gamma - 1)/gamma): a quadratic. Beyond the
    speed of sound the flow goes with the pressure before the nozzle.
    """
    z = (1 + np.sqrt(1 + 4 * flow**2 * _SLOPE / 2)) / 2
    return np.where(z < _SOUND, np.minimum(z, _SOUND) ** (1 / _SLOPE), flow / _CHOKED)


def _turbine_efficiency(e, s, ideal_work):
    """Turbine efficiency: best where all exhaust drives a turbine at its best, and less where the wheels turn slowly.

    Blade speed over gas speed goes with the root of compressor work over ideal turbine work, as one shaft carries both
    wheels; it is counted from that of a wheel that is matched to all of the exhaust.
    """
    if _nothing(e.turbine_fall) and _nothing(e.blade_speed_fall):
        return e.turbine_efficiency
    slow = np.exp(e.turbine_fall * np.minimum(s.pressure_ratio - e.best_pressure_ratio, 0.0))
    matched = e.turbine_efficiency * e.shaft_efficiency * np.maximum(ideal_work, 1.0)
    speed_ratio = np.sqrt(np.clip(s.compressor_power / s.compressor_flow / matched, 0.0, 2.5)) * e.matched_speed_ratio
    fall, at_match = e.blade_speed_fall, e.blade_speed_fall * (e.matched_speed_ratio - 1) ** 2
    return e.turbine_efficiency * slow * (1 - fall * (speed_ratio - 1) ** 2) / (1 - at_match)


def _specific_heat(share, T):
    a, b, c, d = EXHAUST_HEAT
    return a + b * T + share * (c + d * T)


def _temperature_of(share, T0):
    """Return the temperature of burnt gas as a function of the heat [J/kg] above ambient that it carries.

    It is the root of a quadratic.
    """
    a, b, c, d = EXHAUST_HEAT
    slope, level = b + d * share, a + c * share
    at_ambient, square, twice = level * T0 + slope / 2 * T0**2, level**2, 2 * slope
    return lambda heat: (np.sqrt(square + twice * np.maximum(heat + at_ambient, 0.0)) - level) / slope


def _leak(area, p, T, p0):
    """Flow out of a hole [kg/s]; smooth where the pressures meet, and inwards below ambient."""
    if _nothing(area):
        return 0.0
    gap = p**2 - p0**2
    return area * gap / (gap**2 + (0.02 * p0**2) ** 2) ** 0.25 / np.sqrt(R * T)


def _nothing(number):
    """Whether a number of the engine is nought at every point, so that its sum need not be done."""
    return (isinstance(number, float) or np.ndim(number) == 0) and number == 0.0
