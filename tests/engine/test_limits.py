"""What a balance says where it goes past its machines or outside its fit, and fuel held back for want of air."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.engine import published_engines as published
from turbomath.engine import balance, limits, wheels
from turbomath.engine.expected import Point
from turbomath.engine.fitting import fit
from turbomath.engine.ready_engines import AIR_TO_AIR, NOT_AFTERCOOLED, READY
from turbomath.engine.turbocharged_engine import Aftercooler
from turbomath.paper import limits_told
from turbomath.physics import atmosphere, compressor_work, correction, wheel

SITE = dict(ambient_pressure=98_543.9, ambient_temperature=298.15, engine_speed=30.0)
each_engine = pytest.mark.parametrize("engine", READY.values(), ids=READY)


def names(found):
    return [one.name for one in found]


@each_engine
def test_an_engine_at_its_rating_passes_no_limit_and_is_inside_its_fit(engine):
    b = balance.solve(engine, **SITE, fuel_flow=engine.rated_fuel_flow * np.linspace(0.1, 1.1, 11))
    assert limits.passed(engine, b) == ()
    assert limits.outside(limits.tried(engine, "fuel_flow"), b) == ()
    assert limits_told.passed_words((), "us") == limits_told.outside_words((), "us") == ""


def test_three_times_the_fuel_is_refused_and_even_with_a_stop_that_far_out_it_is_not_passed_in_silence():
    tripled = dict(**SITE, fuel_flow=3 * AIR_TO_AIR.rated_fuel_flow)
    assert balance.solve(AIR_TO_AIR, **tripled).state == "more fuel than the stop"
    engine = replace(AIR_TO_AIR, fuel_stop=3.0)
    b = balance.solve(engine, **tripled)
    assert {"overspeed", "hot", "smoke"} <= set(names(limits.passed(engine, b)))
    (load,) = limits.outside(limits.tried(engine, "fuel_flow"), b)
    assert (load.quantity, load.below) == ("fuel_flow", False)
    assert load.share == pytest.approx(3 / 1.1 - 1, rel=1e-9)


def test_the_wheel_is_that_of_the_checked_formulas():
    for engine in READY.values():
        b = balance.solve(engine, **SITE, power=engine.rated_power)
        work = compressor_work.specific_work(b.compressor_inlet_temperature, b.compressor_outlet_temperature)
        more = b.corrected_mass_flow / engine.best_compressor_flow * wheels.rim_at_best(engine) / b.tip_speed - 1
        coefficient = float(wheels.WORK_COEFFICIENT * (1 - wheels.FALL_WITH_FLOW * more))
        assert b.tip_speed == pytest.approx(wheel.tip_speed(work, coefficient), rel=1e-9)
        turns = wheel.shaft_speed(b.tip_speed, float(wheels.diameter(engine)))
        corrected = correction.corrected_speed(turns, b.compressor_inlet_temperature, reference_temperature=298.15)
        assert b.corrected_speed == pytest.approx(corrected, rel=1e-9)
        flow = correction.corrected_mass_flow(
            b.compressor_mass_flow,
            b.compressor_inlet_pressure,
            b.compressor_inlet_temperature,
            reference_pressure=1e5,
            reference_temperature=298.15,
        )
        assert b.corrected_mass_flow == pytest.approx(flow, rel=1e-9)
        assert 60_000 < 60 * b.corrected_speed < 120_000  # common practice for engines of this size


@pytest.mark.parametrize("model", [published.GeneratorSet, published.Truck])
def test_the_flow_at_which_usual_maps_end_lies_between_two_that_were_published(model):
    """The published compressors at speeds of load: flow where nothing is squeezed over flow where they are best."""
    ratios = np.linspace(1.001, 5.0, 3000)
    for speed in np.linspace(0.62, 0.9, 5) * model.speeds_of_wheel[1]:
        flow, efficiency = model.compressor(speed, ratios)
        flowing = flow > 0.02
        best = np.argmax(np.where(flowing, efficiency, -9.0))
        assert 1.5 < flow[flowing].max() / flow[best] < 2.2
    assert 1.5 < wheels.GREATEST_SHARE < 2.2


def test_a_compressor_does_less_well_at_a_high_pressure_ratio_between_two_that_were_published():
    best, at_four = [], []
    for model, speeds in ((published.GeneratorSet, (7500, 14_200)), (published.Truck, (7700, 12_900))):
        ridge = []
        for speed in np.linspace(*speeds, 60):
            ratios = np.linspace(1.2, 5.0, 2000)
            flow, efficiency = model.compressor(float(speed), ratios)
            top = np.argmax(np.where(flow > 0.02, efficiency, -9.0))
            ridge.append((ratios[top], efficiency[top]))
        ridge = np.array(ridge)
        best.append(ridge[:, 1].max())
        at_four.append(np.interp(4.1, *ridge.T))
    fall = np.array(best) - at_four
    share = wheels.speed_share(AIR_TO_AIR, 4.1)
    ours = AIR_TO_AIR.best_compressor_efficiency
    ours -= ours / (1 + AIR_TO_AIR.fast_wheel_fall * (share - 1) ** 2)
    assert fall.min() < ours < fall.max()


def test_a_starved_compressor_surges_and_one_that_is_asked_for_too_much_is_choked():
    starved = balance.solve(replace(AIR_TO_AIR, best_compressor_flow=0.9), **SITE, power=AIR_TO_AIR.rated_power)
    (one,) = limits.passed(replace(AIR_TO_AIR, best_compressor_flow=0.9), starved)
    assert (one.name, one.below) == ("surge", True)
    small = replace(AIR_TO_AIR, best_compressor_flow=0.26)
    (one,) = limits.passed(small, balance.solve(small, **SITE, power=AIR_TO_AIR.rated_power))
    assert (one.name, one.below) == ("choke", False)
    told = limits_told.passed_words((one,), "us")
    assert told.startswith("The compressor would be choked: ")
    assert "common practice" in told


def test_weather_speed_and_load_outside_the_fit_are_told_with_how_far_in_both_systems():
    b = balance.solve(
        AIR_TO_AIR,
        ambient_pressure=atmosphere.pressure(4000.0),
        ambient_temperature=323.15,
        engine_speed=24.0,
        fuel_flow=0.9 * AIR_TO_AIR.rated_fuel_flow,
    )
    found = limits.outside(limits.tried(AIR_TO_AIR, "fuel_flow"), b)
    assert names(found) == ["engine_speed", "ambient_pressure", "ambient_temperature"]
    si, us = (limits_told.outside_words(found, system) for system in ("si", "us"))
    assert "ambient temperature 50 °C, 5 C° above 45 °C" in si
    assert "ambient temperature 122 °F, 9 F° above 113 °F" in us
    assert "engine speed 1440 rpm, 16 % below 1710 rpm" in us
    assert "not how far" in us


def test_of_many_points_the_one_that_is_furthest_out_is_told():
    engine = replace(AIR_TO_AIR, fuel_stop=3.0)
    b = balance.solve(engine, **SITE, fuel_flow=engine.rated_fuel_flow * np.array([1.0, 2.0, 1.5, np.nan]))
    (one,) = limits.outside(limits.tried(engine, "fuel_flow"), b)
    assert one.value == pytest.approx(2 * engine.rated_fuel_flow)


def test_a_fit_knows_the_range_of_its_points():
    day = dict(engine_speed=30.0, ambient_pressure=98_544.0, ambient_temperature=298.15)
    points = [
        dict(**day, fuel_flow=share * 0.0165, power=power, manifold_pressure=pressure)
        for share, power, pressure in ((1.0, 291e3, 264e3), (0.6, 170e3, 185e3))
    ]
    reach = fit(points).reach
    assert reach["fuel_flow"] == pytest.approx((0.95 * 0.6 * 0.0165, 1.05 * 0.0165))
    there = Point(98_544.0, 298.15, np.array([30.0, 20.0]), fuel_flow=np.array([0.0165, 0.0165 * 0.3]))
    assert names(limits.outside(reach, there)) == ["engine_speed", "fuel_flow"]
    assert limits.outside(reach, Point(98_544.0, 299.0, 30.2, fuel_flow=0.0167)) == ()


# Fuel that is held back for want of air


@given(st.sampled_from(sorted(READY)), st.floats(0.0, 3000.0), st.floats(253.15, 318.15), st.floats(0.3, 1.25))
def test_a_limiter_gives_the_fuel_there_is_air_for_and_no_more(name, elevation, temperature, load):
    engine, site = READY[name], dict(ambient_pressure=atmosphere.pressure(elevation), engine_speed=30.0)
    site["ambient_temperature"] = temperature
    free = balance.solve(engine, **site, fuel_flow=load * engine.rated_fuel_flow)
    limited = replace(engine, least_air_fuel_ratio=26.0)
    b = balance.solve(limited, **site, fuel_flow=load * engine.rated_fuel_flow)
    assert b.converged
    if free.air_fuel_ratio >= 26.0:
        assert (b.state, b.carried) == ("solved", True)
        assert b.boost == pytest.approx(free.boost, rel=1e-9)
    else:
        assert (b.state, b.carried) == ("fuel held back for want of air", False)
        assert b.air_fuel_ratio == pytest.approx(26.0, rel=1e-8)
        assert b.fuel_flow < free.fuel_flow
        assert b.power < free.power
        again = balance.solve(engine, **site, fuel_flow=b.fuel_flow)
        assert again.boost == pytest.approx(b.boost, rel=1e-7)


def test_a_load_that_the_limiter_has_no_air_for_is_not_carried():
    engine = replace(NOT_AFTERCOOLED, least_air_fuel_ratio=22.5)
    b = balance.solve(engine, **SITE, power=np.array([100e3, 215e3]))
    assert b.state.tolist() == ["solved", "cannot carry this load"]
    assert b.air_fuel_ratio[1] == pytest.approx(22.5, rel=1e-8)
    assert b.power[1] < 215e3


def test_an_engine_without_its_aftercooler_is_told_to_be_hot_and_short_of_air_on_a_hot_day_up_high():
    bare = replace(AIR_TO_AIR, aftercooler=Aftercooler())
    b = balance.solve(
        bare,
        ambient_pressure=atmosphere.pressure(2400.0),
        ambient_temperature=313.15,
        engine_speed=30.0,
        fuel_flow=AIR_TO_AIR.rated_fuel_flow,
    )
    assert "hot" in names(limits.passed(bare, b))
    assert limits.passed(bare, b, limits.Limits(600.0, 1400.0, 15.0)) == ()  # the maker's go before
