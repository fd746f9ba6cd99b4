"""Lesson 10: what is held equal is equal, and which way the three engines then differ."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.panels.compare_three_engines.opening import HERE, balances
from turbomath.engine import balance
from turbomath.engine.ready_engines import AIR_TO_AIR, READY
from turbomath.panels.compare_three_engines import up_high
from turbomath.panels.compare_three_engines.held import AIR, AIR_FLOW, BOOST, FUEL, OWN, REMATCHED, place, three
from turbomath.physics import atmosphere
from turbomath.widgets.controls import at_start

elevations, temperatures = st.floats(0.0, 3000.0), st.floats(255.0, 318.0)


# What is held equal is equal


@given(elevations, temperatures, st.floats(0.1, 1.1))
def test_equal_fuel_is_the_fuel_that_carries_the_load_with_air_to_air(elevation, temperature, load):
    bare, watered, cooled = balances(FUEL, load, elevation, temperature)
    assert cooled.power == pytest.approx(load * 291e3, rel=1e-6)
    assert bare.fuel_flow == watered.fuel_flow == cooled.fuel_flow


@given(elevations, temperatures, st.floats(0.1, 1.0), st.sampled_from([AIR_FLOW, BOOST, REMATCHED]))
def test_equal_air_and_equal_boost_are_equal_by_a_balance_solved_afresh(elevation, temperature, load, held):
    engines = three(held, load, elevation, temperature)
    guide = engines[AIR][1]
    for engine, one in engines.values():
        if one is None:
            assert held == AIR_FLOW  # its fuel stop comes first
            continue
        again = balance.solve(
            engine,
            ambient_pressure=atmosphere.pressure(elevation),
            ambient_temperature=temperature,
            engine_speed=30.0,
            fuel_flow=one.fuel_flow,
        )
        name = "mass_flow" if held == AIR_FLOW else "boost"
        assert getattr(again, name) == pytest.approx(getattr(guide, name), rel=2e-6)
        if held == REMATCHED:
            assert one.fuel_flow == guide.fuel_flow
        else:
            assert engine.turbine_area == AIR_TO_AIR.turbine_area


def test_with_nothing_held_each_engine_carries_its_own_rating():
    for (name, (engine, one)), power in zip(three(OWN, 1.0, HERE, 298.15).items(), (190e3, 248e3, 291e3), strict=True):
        assert engine is READY[name]
        assert one.power == pytest.approx(power, rel=1e-6)


@pytest.mark.parametrize("root", [0.3, 1.0, 2.999, 3.0, 0.25])
def test_a_place_is_found_to_many_digits(root):
    assert place(lambda x: x**3, root**3, 0.25, 3.0) == pytest.approx(root, rel=3e-6)
    assert place(lambda x: -np.exp(x), -np.exp(root), 0.25, 3.0) == pytest.approx(root, rel=3e-6)


def test_a_place_that_is_nowhere_is_none():
    assert place(lambda x: x, 4.0, 0.0, 3.0) is None
    assert place(lambda x: x + np.nan, 1.0, 0.0, 3.0) is None


# Directions: facts of this model over its domain, and those of the trade (Watson and Janota, from memory)


@given(elevations, temperatures, st.floats(0.3, 1.1))
def test_at_equal_fuel_air_to_air_has_least_boost_most_air_and_the_coolest_exhaust(elevation, temperature, load):
    bare, watered, cooled = balances(FUEL, load, elevation, temperature)
    assert cooled.boost < watered.boost < bare.boost
    assert cooled.mass_flow > max(bare.mass_flow, watered.mass_flow)
    assert cooled.turbine_inlet_temperature < min(bare.turbine_inlet_temperature, watered.turbine_inlet_temperature)
    assert cooled.pressure_ratio < min(bare.pressure_ratio, watered.pressure_ratio)


@given(elevations, temperatures, st.floats(0.1, 1.0))
def test_at_equal_air_no_aftercooler_needs_more_boost_fuel_and_heat(elevation, temperature, load):
    bare, _, cooled = balances(AIR_FLOW, load, elevation, temperature)
    if bare is None:
        return
    assert bare.boost > cooled.boost
    assert bare.fuel_flow > cooled.fuel_flow
    assert bare.turbine_inlet_temperature > cooled.turbine_inlet_temperature


@given(elevations, temperatures, st.floats(0.5, 1.1))
def test_at_equal_boost_the_coolest_charge_is_the_most_air(elevation, temperature, load):
    found = balances(BOOST, load, elevation, temperature)
    densities = [one.mass_flow * one.manifold_temperature for one in found]
    assert densities == pytest.approx(densities[:1] * 3, rel=1e-5)  # the same pressure in each manifold
    assert found[2].mass_flow > max(found[0].mass_flow, found[1].mass_flow)


def test_the_turbine_that_keeps_the_boost_without_a_cooler_is_wider_and_stands_in_hotter_exhaust():
    engines = three(REMATCHED, 1.0, HERE, 298.15)
    areas = [engine.turbine_area for engine, _ in engines.values()]
    heats = [one.turbine_inlet_temperature for _, one in engines.values()]
    assert areas == sorted(areas, reverse=True)
    assert heats == sorted(heats, reverse=True)


def test_at_quarter_load_jacket_water_heats_the_charge_and_takes_air():
    bare, watered, _ = balances(FUEL, 0.25)
    assert watered.manifold_temperature > watered.compressor_outlet_temperature
    assert watered.mass_flow < bare.mass_flow
    bare, watered, _ = balances(FUEL, 1.0)
    assert watered.mass_flow > bare.mass_flow


@given(temperatures, st.floats(0.75, 1.0))
def test_up_high_the_gauge_hardly_moves_and_air_falls(temperature, share):
    record = at_start(up_high.CONTROLS)._replace(
        elevation=3048.0, ambient_temperature=temperature, fuel_flow=share * AIR_TO_AIR.rated_fuel_flow
    )
    found = up_high.settled(record)
    sea, high = found[0.0], found[3048.0]
    assert abs(high["boost"] / sea["boost"] - 1) < 0.1
    assert 0.80 < high["mass_flow"] / sea["mass_flow"] < 0.92
    assert high["pressure_ratio"] > sea["pressure_ratio"] + 0.4
    assert high["turbine_inlet_temperature"] > sea["turbine_inlet_temperature"] + 40
