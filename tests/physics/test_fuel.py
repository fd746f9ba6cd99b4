"""Limits, trends and hand-worked numbers of fuel, air and power; the numbers of print are in tests/published."""

import math
import warnings

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from turbomath import OutOfRangeError
from turbomath.physics import fuel

powers = st.floats(1e3, 6e5)
consumptions = st.floats(4.5e-8, 1.2e-7)


def test_pure_carbon_and_methane_by_their_atoms():
    # one O2 (31.998) for each carbon, two for methane, with 3.7733 x 28.16 of the rest of air to each
    air = 31.998 + 3.7733 * 28.16
    assert fuel.stoichiometric_air_fuel_ratio(1e-9) == pytest.approx(air / 12.011, rel=1e-6)
    assert fuel.stoichiometric_air_fuel_ratio(4.0) == pytest.approx(2 * air / (12.011 + 4.032), rel=1e-9)


def test_the_fuels_of_heywoods_table():
    for ratio, printed in [(1.8, 14.5), (1.7, 14.4), (1.87, 14.6)]:
        # Heywood, table D.4: light diesel, heavy diesel, gasoline; from memory of the print
        assert fuel.stoichiometric_air_fuel_ratio(ratio) == pytest.approx(printed, abs=0.06)


@given(st.floats(0.5, 3.9))
def test_more_hydrogen_needs_more_air(ratio):
    assert fuel.stoichiometric_air_fuel_ratio(ratio + 0.1) > fuel.stoichiometric_air_fuel_ratio(ratio)


@given(powers, consumptions)
def test_consumption_comes_back_from_the_fuel_it_makes(power, consumption):
    burnt = fuel.fuel_flow(power, consumption)
    assert fuel.specific_consumption(burnt, power) == pytest.approx(consumption, rel=1e-12)


@given(st.floats(0.02, 1.0), st.floats(15.0, 90.0), consumptions)
def test_the_power_that_air_allows_burns_that_air(air, ratio, consumption):
    power = fuel.power_potential(air, ratio, consumption)
    assert fuel.air_fuel_ratio(air, fuel.fuel_flow(power, consumption)) == pytest.approx(ratio, rel=1e-12)


@given(st.floats(0.02, 1.0), st.floats(15.0, 90.0), consumptions, st.floats(1.01, 1.5))
def test_power_follows_air_at_equal_ratio_and_consumption(air, ratio, consumption, more):
    here = fuel.power_potential(air, ratio, consumption)
    assert fuel.power_potential(more * air, ratio, consumption) == pytest.approx(more * here, rel=1e-12)
    assert fuel.power_potential(air, more * ratio, consumption) < here
    assert fuel.power_potential(air, ratio, more * consumption) < here


def test_power_in_the_units_of_the_shop():
    # 5,252 lbf ft at 1 rpm is one horsepower of 550 ft lbf/s; 9,549 N m at 1 rpm is one kilowatt
    assert fuel.power(5252.113 * 1.3558179, 1 / 60) == pytest.approx(745.69987, rel=1e-6)
    assert fuel.power(9549.297, 1 / 60) == pytest.approx(1000.0, rel=1e-6)
    assert fuel.power(-120.0, 20.0) == pytest.approx(-2 * math.pi * 2400)  # the engine is being turned


def test_a_pound_for_each_horsepower_hour():
    # NIST SP 811, B.8: 1 lb/(hp h) is 1.689659E-07 kg/J
    flow = fuel.weighed_fuel_flow(0.45359237, 3600.0)
    assert fuel.specific_consumption(flow, 745.69987) == pytest.approx(1.689659e-7, abs=5e-14)


def test_efficiency_and_heating_value_by_hand():
    # 200 g/(kW h) of 42.5 MJ/kg: 3.6/(0.2 x 42.5)
    assert fuel.thermal_efficiency(0.2 / 3.6e6 * 1e5, 1e5, 42.5e6) == pytest.approx(3.6 / 8.5, rel=1e-12)
    assert fuel.DIESEL_LOWER_HEATING_VALUE < fuel.DIESEL_HIGHER_HEATING_VALUE


def test_a_two_stroke_engine_has_twice_the_cycles():
    four = fuel.fuel_delivery(0.02, 0.012, 30.0)
    assert four == pytest.approx(0.02 / (0.012 * 15))
    assert fuel.fuel_delivery(0.02, 0.012, 30.0, 2) == pytest.approx(four / 2)
    with pytest.raises(OutOfRangeError, match="strokes must be one of 2, 4"):
        fuel.fuel_delivery(0.02, 0.012, 30.0, 3)


def test_what_nothing_divides_is_missing_not_infinite():
    with warnings.catch_warnings():
        warnings.simplefilter("error")
        answers = [
            fuel.air_fuel_ratio([0.3, 0.3], [0.0, 0.01]),
            fuel.specific_consumption(0.01, [0.0, 1e5]),
            fuel.specific_consumption(0.01, [-10.0, 1e5]),
            fuel.weighed_fuel_flow(1.0, [0.0, 60.0]),
            fuel.thermal_efficiency([0.0, 0.01], 1.5e5, 42.5e6),
            fuel.power_potential(0.3, 20.0, [0.0, 6e-8]),
            fuel.fuel_delivery(0.01, 0.012, [0.0, 30.0]),
        ]
    for answer in answers:
        np.testing.assert_array_equal(np.isnan(answer), [True, False])
