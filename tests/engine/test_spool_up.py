"""Boost after a step of load: nothing is lost, the stepping does not matter, it ends in the balance, and which way."""

from dataclasses import replace

import numpy as np
import pytest
from scipy import integrate

from turbomath import OutOfRangeError
from turbomath.engine import balance, wheels
from turbomath.engine.ready_engines import AIR_TO_AIR, READY
from turbomath.engine.spool_up import NO_WAY, Stores, spool_up, spool_ups
from turbomath.physics import wheel

SITE = dict(ambient_pressure=98_543.9, ambient_temperature=298.15, engine_speed=30.0)
SERIES = (
    "boost",
    "mass_flow",
    "fuel_flow",
    "air_fuel_ratio",
    "power",
    "shaft_speed",
    "turbine_inlet_temperature",
    "turbine_power",
    "compressor_power",
    "metal_temperature",
)
each_engine = pytest.mark.parametrize("engine", READY.values(), ids=READY)


def step(engine, low=0.12, high=1.0, **given):
    fuel = engine.rated_fuel_flow
    return spool_up(engine, **SITE, fuel_before=low * fuel, fuel_after=high * fuel, **given)


@pytest.fixture(scope="module")
def usual():
    return step(AIR_TO_AIR)


@each_engine
@pytest.mark.parametrize("limit", [0.0, 21.0])
def test_all_of_the_fuels_heat_is_found_again(engine, limit):
    found = step(replace(engine, least_air_fuel_ratio=limit), metal_temperature=320.0)
    spent = sum(part for name, part in found.energy.items() if name != "fuel_heat")
    assert spent == pytest.approx(found.energy["fuel_heat"], rel=1e-6)
    inertia = Stores.usual(engine).rotor_inertia
    first, last = (wheel.rotor_energy(inertia, float(found.shaft_speed[end])) for end in (0, -1))
    assert found.energy["rotor"] == pytest.approx(last - first, rel=1e-6)
    warmed = (found.metal_temperature[-1] - found.metal_temperature[0]) * Stores.usual(engine).metal_capacity
    assert found.energy["metal"] == pytest.approx(warmed, rel=1e-6)


def test_what_flowed_is_what_the_moments_add_up_to():
    """Simpson's rule by an independent library over the series, against the sums that the stepping keeps."""
    found = step(AIR_TO_AIR, steps=400)
    fuel = integrate.simpson(found.fuel_flow, x=found.time) * AIR_TO_AIR.fuel_lower_heating_value
    assert found.energy["fuel_heat"] == pytest.approx(fuel, rel=1e-4)
    assert found.energy["power"] == pytest.approx(integrate.simpson(found.power, x=found.time), rel=1e-4)
    spare = found.turbine_power - found.compressor_power / AIR_TO_AIR.shaft_efficiency
    assert found.energy["rotor"] == pytest.approx(integrate.simpson(spare, x=found.time), rel=1e-3)


@each_engine
def test_halving_the_steps_of_time_changes_nothing_by_more_than_half_a_per_cent(engine):
    for given in ({}, {"metal_temperature": 310.0}):
        coarse, fine = step(engine, **given), step(engine, **given, steps=128)
        np.testing.assert_allclose(fine.time[::2], coarse.time)
        for name in SERIES:
            np.testing.assert_allclose(getattr(fine, name)[::2], getattr(coarse, name), rtol=5e-3, err_msg=name)


@each_engine
@pytest.mark.parametrize("limit", [0.0, 26.5])
def test_it_ends_in_the_balance(engine, limit):
    engine = replace(engine, least_air_fuel_ratio=limit)
    found, fuel = step(engine, duration=9000.0, steps=120), engine.rated_fuel_flow
    rest = balance.solve(engine, **SITE, fuel_flow=fuel)
    assert found.end.boost == rest.boost
    for name in ("boost", "mass_flow", "fuel_flow", "air_fuel_ratio", "power", "turbine_power"):
        assert getattr(found, name)[-1] == pytest.approx(getattr(rest, name), rel=1e-6), name
    corrected = found.shaft_speed[-1] / np.sqrt(rest.compressor_inlet_temperature / 298.15)
    assert corrected == pytest.approx(rest.corrected_speed, rel=1e-6)
    assert found.metal_temperature[-1] == pytest.approx(rest.turbine_inlet_temperature, rel=1e-5)


def test_an_engine_at_rest_with_itself_stays_there():
    found = step(AIR_TO_AIR, 0.7, 0.7)
    for name in ("boost", "power", "shaft_speed", "turbine_inlet_temperature"):
        np.testing.assert_allclose(getattr(found, name), getattr(found, name)[0], rtol=1e-6)
    assert found.energy["rotor"] == pytest.approx(0.0, abs=1.0)


def test_the_rotor_follows_an_integrator_of_another_library_where_nothing_else_is_stored():
    """With next to no volume and metal that takes nothing, one differential equation is left, for scipy to solve."""
    stores = replace(Stores.usual(AIR_TO_AIR), charge_volume=1e-5, metal_conductance=1e-6)
    found = step(AIR_TO_AIR, stores=stores, steps=200, duration=3.0)
    spare = found.turbine_power - found.compressor_power / AIR_TO_AIR.shaft_efficiency
    energy = wheel.rotor_energy(stores.rotor_inertia, found.shaft_speed)
    rate = lambda _, held: [np.interp(held[0], energy, spare)]  # noqa: E731
    other = integrate.solve_ivp(rate, (0.0, 3.0), [energy[0]], t_eval=[0.3, 1.0, 2.0], rtol=1e-9, atol=1e-6)
    np.testing.assert_allclose(np.interp([0.3, 1.0, 2.0], found.time, energy), other.y[0], rtol=5e-3)


def test_boost_comes_within_seconds_and_smoke_comes_before_it(usual):
    assert 1.0 < usual.time_to(0.9) < 4.0  # common practice for engines of this size
    assert np.all(np.diff(usual.boost) > 0)
    assert usual.air_fuel_ratio[0] < 15 < usual.air_fuel_ratio[-1]
    assert usual.power[0] < 0.75 * usual.power[-1]
    assert usual.turbine_inlet_temperature[0] > 1.25 * usual.end.turbine_inlet_temperature
    assert usual.boost[0] == pytest.approx(usual.start.boost, rel=1e-9)
    assert usual.time_to(1.5) != usual.time_to(1.5)  # never


def test_a_heavy_rotor_a_cold_manifold_and_a_large_core_make_it_slower(usual):
    own = Stores.usual(AIR_TO_AIR)
    half = usual.time_to(0.5)
    heavy = step(AIR_TO_AIR, stores=replace(own, rotor_inertia=2 * own.rotor_inertia)).time_to(0.5)
    assert 1.6 * half < heavy < 2.2 * half
    assert step(AIR_TO_AIR, stores=replace(own, charge_volume=4 * own.charge_volume)).time_to(0.5) > 1.05 * half
    cold, hot = (step(AIR_TO_AIR, metal_temperature=one) for one in (310.0, 800.0))
    assert cold.time_to(0.5) > half > hot.time_to(0.5)
    assert cold.boost[-1] < usual.boost[-1] < hot.boost[-1] < 1.001 * usual.end.boost


def test_a_limiter_keeps_the_smoke_away_and_costs_power_at_first(usual):
    limited = step(replace(AIR_TO_AIR, least_air_fuel_ratio=20.0))
    assert limited.air_fuel_ratio.min() == pytest.approx(20.0, rel=1e-9)
    assert limited.power[0] < usual.power[0]
    assert limited.time_to(0.9) > usual.time_to(0.9)
    assert limited.boost[-1] == pytest.approx(usual.boost[-1], rel=2e-3)


def test_a_smaller_turbine_is_quicker():
    assert step(READY["air-to-air with wastegate"]).time_to(0.9) < 0.7 * step(AIR_TO_AIR).time_to(0.9)


def test_the_usual_rotor_is_of_the_size_of_rotors():
    """From memory: a truck's engine of 12.7 L in a published model has about 2e-4 kg m^2 and a wheel of 8 cm."""
    inertia = 2e-4 / 0.08**5 * float(wheels.diameter(AIR_TO_AIR)) ** 5
    assert 0.4 < float(wheels.rotor_inertia(AIR_TO_AIR)) / inertia < 2.5


def test_what_cannot_be_is_refused():
    cases = [
        ({"duration": 0.0}, "duration must be above 0"),
        ({"steps": 1}, "steps at least 2"),
        ({"high": 2.0}, "fuel_after of .* has no balance: more fuel than the stop"),
        ({"low": -0.1}, "fuel_flow must be 0 or more"),
        ({"metal_temperature": -3.0}, "temperature must be"),
    ]
    for change, text in cases:
        with pytest.raises(OutOfRangeError, match=text):
            step(AIR_TO_AIR, **change)


def test_many_at_once_are_as_one_at_a_time_and_one_that_fails_takes_no_other_along():
    own, fuel = Stores.usual(AIR_TO_AIR), AIR_TO_AIR.rated_fuel_flow
    many = {
        "least_air_fuel_ratio": (0.0, 20.0, 0.0, 25.0, 0.0, 21.0),
        "rotor_inertia": (1.0, 3.0, 0.5, 1.0, -1.0, 1.5),  # of the usual one; below nought no way is found
        "charge_volume": (1.0, 1.0, 3.0, 2.0, 1.0, 0.5),
        "metal_temperature": (np.nan, 310.0, 800.0, np.nan, 500.0, 320.0),
        "fuel_after": (1.0, 0.4, 2.0, 1.1, 1.0, 0.9),  # of the rated one; twice is beyond the stop
    }

    def given(least_air_fuel_ratio, rotor_inertia, charge_volume, metal_temperature, fuel_after):
        engine = replace(AIR_TO_AIR, least_air_fuel_ratio=least_air_fuel_ratio)
        sizes = {"rotor_inertia": rotor_inertia * own.rotor_inertia, "charge_volume": charge_volume * own.charge_volume}
        fuels = {"fuel_before": 0.12 * fuel, "fuel_after": fuel_after * fuel}
        return dict(engine=engine, **SITE, **fuels, metal_temperature=metal_temperature, stores=replace(own, **sizes))

    found = spool_ups(**given(**{name: np.array(one) for name, one in many.items()}))
    words = [str(one) for one in found if isinstance(one, OutOfRangeError)]
    assert words == [
        f"fuel_after of {2 * fuel:g} kg/s has no balance: more fuel than the stop. Ask for another.",
        NO_WAY,
    ]
    for case, got in enumerate(found):
        alone = given(**{name: one[case] for name, one in many.items()})
        if isinstance(got, OutOfRangeError):
            with pytest.raises(OutOfRangeError) as refusal:
                spool_up(**alone)
            assert str(refusal.value) == str(got)
            continue
        expected = spool_up(**alone)
        for name in ("time", *SERIES):
            np.testing.assert_allclose(getattr(got, name), getattr(expected, name), rtol=1e-9, err_msg=name)
        scale = expected.energy["fuel_heat"]
        assert got.energy == pytest.approx(expected.energy, rel=1e-9, abs=1e-9 * scale)
        assert sum(got.energy.values()) == pytest.approx(2 * scale, rel=1e-6)
        assert got.start.boost == pytest.approx(expected.start.boost, rel=1e-9)
        assert got.end.state == expected.end.state


def test_cases_stand_in_arrays_of_one_axis():
    for fuel, text in ((np.full((2, 2), 0.01), "arrays of one axis"), (np.full(3, 0.01), "must fit together")):
        with pytest.raises(OutOfRangeError, match=text):
            spool_ups(AIR_TO_AIR, **SITE, fuel_before=np.array([0.002, 0.003]), fuel_after=fuel)
