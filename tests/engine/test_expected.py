"""A known boost carried to another day: by its own point, against the balance, and against another model of engines."""

from dataclasses import replace

import numpy as np
import pytest

from tests.lab.verdicts import simulated_engine, simulated_run
from turbomath.engine import balance
from turbomath.engine.expected import Design, Point, boost_of, carried_boost, engine_at
from turbomath.engine.ready_engines import AIR_TO_AIR, JACKET_WATER

PSI = 6894.757
DAY = dict(ambient_pressure=98_544.0, ambient_temperature=298.15)
SIZES = {
    "the one of the kit": (Design("air-to-air", 0.012, 0.92, 0.74, 0.80, 10_342.0), 30.0, 0.0165, 24 * PSI),
    "small and quick": (Design("air-to-air", 0.0045, 0.90, 0.70, 0.75, 6_000.0), 43.0, 0.0085, 20 * PSI),
    "large and slow": (Design("jacket-water", 0.170, 0.88, 0.76, 0.70, 9_000.0), 15.0, 0.105, 22 * PSI),
    "cooled by its own water": (Design("separate-circuit", 0.018, 0.92, 0.75, 0.78, 8_000.0), 25.0, 0.020, 26 * PSI),
    "not cooled": (Design("none", 0.010, 0.92, 0.72), 35.0, 0.011, 15 * PSI),
}


@pytest.mark.parametrize("name", SIZES)
def test_an_engine_of_any_size_makes_the_boost_that_is_known(name):
    design, speed, fuel, boost = SIZES[name]
    point = Point(**DAY, engine_speed=speed, fuel_flow=fuel)
    assert boost_of(engine_at(design, point, boost), point) == pytest.approx(boost, rel=1e-4)


def test_it_has_the_design_at_that_point():
    design, speed, fuel, boost = SIZES["the one of the kit"]
    point = Point(**DAY, engine_speed=speed, fuel_flow=fuel)
    settled = balance.solve(engine_at(design, point, boost), **DAY, engine_speed=speed, fuel_flow=fuel)
    assert settled.effectiveness == pytest.approx(0.80, abs=0.012)  # the usual rule for crossflow is 0.011 off
    assert settled.cooler_pressure_loss == pytest.approx(10_342.0, rel=0.03)
    assert settled.compressor_efficiency == pytest.approx(0.74, abs=0.005)


def test_power_will_do_where_no_fuel_is_known():
    design, speed, _, boost = SIZES["the one of the kit"]
    point = Point(**DAY, engine_speed=speed, power=291e3)
    assert boost_of(engine_at(design, point, boost), point) == pytest.approx(boost, rel=1e-4)


@pytest.mark.parametrize("name", SIZES)
def test_its_pipes_are_of_its_size(name):
    design, speed, fuel, boost = SIZES[name]
    engine = engine_at(design, Point(**DAY, engine_speed=speed, fuel_flow=fuel), boost)
    settled = balance.solve(engine, **DAY, engine_speed=speed, fuel_flow=fuel)
    assert 1_200 < settled.intake_restriction < 4_500  # Pa: 5 to 18 inH2O, a filter fit to use; common practice


def test_a_load_above_the_rated_one_is_followed_and_an_impossible_one_is_a_gap():
    design, speed, _, boost = SIZES["the one of the kit"]
    engine = engine_at(design, Point(**DAY, engine_speed=speed, power=291e3), boost)
    more, all_too_much = boost_of(engine, Point(**DAY, engine_speed=speed, power=np.array([1.4, 6.0]) * 291e3))
    assert more > 1.2 * boost
    assert np.isnan(all_too_much)


def test_a_boost_carried_nowhere_is_itself():
    design, speed, fuel, boost = SIZES["small and quick"]
    point = Point(**DAY, engine_speed=speed, fuel_flow=fuel)
    assert carried_boost(engine_at(design, point, boost), boost, point, point) == pytest.approx(boost)


def test_a_boost_no_turbine_gives_is_met_as_nearly_as_can_be():
    design, speed, fuel, _ = SIZES["the one of the kit"]
    point = Point(**DAY, engine_speed=speed, fuel_flow=fuel / 6)
    made = boost_of(engine_at(design, point, 40 * PSI), point)
    assert np.isfinite(made)
    assert made < 30 * PSI


def test_where_no_turbine_carries_the_load_there_is_a_gap_and_no_error():
    point = Point(**DAY, engine_speed=35.0, power=182_500.0)
    engine = engine_at(Design("jacket-water", 0.00524, 0.92, 0.74, 1.0, 41_369.0), point, 6_800.0)
    assert np.isnan(boost_of(engine, point))
    assert np.isnan(carried_boost(engine, 6_800.0, point, point))


def test_warmer_jacket_water_is_carried_too():
    design, speed, fuel, boost = SIZES["large and slow"]
    then, now = (Point(**DAY, engine_speed=speed, fuel_flow=fuel, medium_temperature=one) for one in (340.0, 365.0))
    carried = carried_boost(engine_at(design, then, boost), boost, then, now)
    assert 1.002 < carried / boost < 1.1  # hotter charge, hotter exhaust: a little more boost


@pytest.mark.parametrize("engine", [AIR_TO_AIR, JACKET_WATER], ids=lambda one: one.name)
def test_on_an_engine_of_the_balance_it_carries_as_the_balance_does(engine):
    then = dict(**DAY, engine_speed=30.0)
    now = dict(ambient_pressure=np.array([98e3, 84e3, 101e3]), ambient_temperature=np.array([280.0, 298.0, 310.0]))
    fuel = engine.rated_fuel_flow * np.array([0.95, 1.0, 0.9])
    known = balance.solve(engine, **then, fuel_flow=engine.rated_fuel_flow)
    true = balance.solve(engine, **now, engine_speed=30.0, fuel_flow=fuel).boost
    design = Design(engine.aftercooler.arrangement, 0.012, 0.92, 0.74, known.effectiveness, known.cooler_pressure_loss)
    point = Point(**then, fuel_flow=engine.rated_fuel_flow)
    like = engine_at(design, point, known.boost)
    carried = carried_boost(like, known.boost, point, Point(**now, engine_speed=30.0, fuel_flow=fuel))
    assert carried == pytest.approx(true, rel=0.005)


def test_on_engines_of_another_model_it_carries_most_of_the_way():
    """No equation or constant of the kit stands behind these engines; at full load, over weather, site and fuel."""
    random = np.random.default_rng(3)
    engines = replace(simulated_engine.draw(random, 40), gate=0.0)
    engines = simulated_engine.rated(engines, random.uniform(25, 31, (40, 1)))
    site = random.uniform(86e3, 101e3, (40, 1))
    then, now = (simulated_run.days(random, engines, site) for _ in range(2))
    known, true = (simulated_engine.settled(engines, day)[:, -1] - day.pressure[:, -1] for day in (then, now))
    carried = np.array([_carried(engines, place, known[place], then, now) for place in range(40)])
    sound = np.isfinite(true)
    left, before = np.abs(carried / true - 1)[sound], np.abs(known / true - 1)[sound]
    assert sound.sum() > 25
    assert np.quantile(left, 0.95) < 0.035
    assert np.mean(left) < 0.5 * np.mean(before)


def _carried(engines, place, boost, then, now):
    values = {
        name: float(np.broadcast_to(one, (40, 1))[place, 0]) for name, one in vars(engines).items() if name in _OWN
    }
    kind = str(engines.arrangement[place, 0])
    design = Design(
        kind, values["displacement"], values["filling"], values["efficiency"], values["effectiveness"], values["loss"]
    )
    points = [_point(day, place, kind) for day in (then, now)]
    return carried_boost(engine_at(design, points[0], boost), boost, *points)


_OWN = ("displacement", "filling", "efficiency", "effectiveness", "loss")


def _point(day, place, kind):
    pressure, temperature, speed, fuel, water = (float(one[place, -1]) for one in vars(day).values())
    return Point(pressure, temperature, speed, fuel, medium_temperature=water if kind == "jacket-water" else None)
