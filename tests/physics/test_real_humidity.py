"""Water in real air against the handbook's tables, a virial model, and its own limits."""

import warnings

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from turbomath import OutOfRangeError
from turbomath.physics import humidity, real_humidity
from turbomath.physics.water import saturation_pressure

# ASHRAE Fundamentals 2017, ch. 1 table 2 (101.325 kPa, the model of RP-1485): °C, kg/kg
ASHRAE_TABLE_2 = [
    (-50, 0.0000243),
    (-20, 0.0006373),
    (-5, 0.0024863),
    (5, 0.005425),
    (25, 0.020173),
    (50, 0.086863),
    (85, 0.838105),
]
HALF_A_DIGIT = 2.5e-3  # of the coldest row, 0.0000243


def test_saturated_air_carries_what_the_handbook_prints():
    for celsius, printed in ASHRAE_TABLE_2:
        over = "ice" if celsius < 0 else "water"
        two_fits_of_the_factor = HALF_A_DIGIT if celsius == -50 else 4e-4
        here = real_humidity.humidity_ratio(101_325.0, celsius + 273.15, 1.0, over=over)
        assert here == pytest.approx(printed, rel=two_fits_of_the_factor)


def test_the_dew_point_of_the_printed_humidity_is_the_printed_temperature():
    for celsius, printed in ASHRAE_TABLE_2[3:]:
        assert real_humidity.dew_point(101_325.0, printed) == pytest.approx(celsius + 273.15, abs=0.006)


# CIPM-2007 (Picard et al. 2008): f = 1.00062 + 3.14e-8 p + 5.6e-7 t^2, for 60-110 kPa and 15-27 °C
@given(st.floats(60e3, 110e3), st.floats(15.0, 27.0))
def test_the_factor_is_that_of_the_weighing_room(pressure, celsius):
    weighing_room = 1.00062 + 3.14e-8 * pressure + 5.6e-7 * celsius**2
    assert real_humidity.enhancement_factor(pressure, celsius + 273.15) == pytest.approx(weighing_room, abs=1.5e-4)


# CoolProp 8.0.0, humid air (the virial model of Herrmann et al. 2009): kPa, K, factor over water
VIRIAL_MODEL = [
    (60.0, 283.15, 1.002717),
    (101.325, 298.15, 1.004284),
    (101.325, 333.15, 1.005828),
    (300.0, 283.15, 1.010557),
    (300.0, 313.15, 1.010031),
    (300.0, 353.15, 1.012375),
    (600.0, 298.15, 1.018726),
    (600.0, 372.0, 1.020803),
    (600.0, 413.15, 1.016635),
    (900.0, 283.15, 1.030507),
    (900.0, 353.15, 1.025238),
    (900.0, 430.0, 1.020857),
]


def test_the_factor_stays_near_the_virial_model_under_boost_and_above_its_hundred_degrees():
    for kilopascal, temperature, factor in VIRIAL_MODEL:
        assert real_humidity.enhancement_factor(1e3 * kilopascal, temperature) == pytest.approx(factor, abs=0.0015)


@given(st.floats(60e3, 900e3), st.floats(234.0, 430.0))
def test_the_dew_point_of_saturated_air_is_its_temperature(pressure, temperature):
    if saturation_pressure(temperature) > 0.9 * pressure:
        return
    ratio = real_humidity.humidity_ratio(pressure, temperature, 1.0)
    assert real_humidity.dew_point(pressure, ratio) == pytest.approx(temperature, abs=1e-7)
    assert real_humidity.relative_humidity(pressure, temperature, ratio) == pytest.approx(1.0, rel=1e-12)
    assert real_humidity.condensate(pressure, temperature, 1.25 * ratio) == pytest.approx(0.25 * ratio, rel=1e-9)
    assert real_humidity.condensate(pressure, temperature, 0.999 * ratio) == 0


@given(st.floats(60e3, 900e3), st.floats(274.0, 330.0), st.floats(0.01, 1.0))
def test_real_air_carries_a_little_more_than_the_ideal_mixture(pressure, temperature, share):
    real = real_humidity.humidity_ratio(pressure, temperature, share)
    ideal = humidity.humidity_ratio(pressure, temperature, share)
    assert 1.001 < real / ideal < 1.08
    assert real_humidity.relative_humidity(pressure, temperature, real) == pytest.approx(share, rel=1e-12)


def test_over_ice_the_air_carries_less_than_over_water_that_is_as_cold():
    cold = np.array([240.0, 255.0, 270.0])
    water, ice = (real_humidity.humidity_ratio(98e3, cold, 1.0, over=over) for over in ("water", "ice"))
    np.testing.assert_array_less(ice, water)
    ratios = water / ice
    assert np.all(np.diff(ratios) < 0)  # they meet at the triple point


def test_where_water_boils_there_is_no_limit():
    assert np.isnan(real_humidity.enhancement_factor(101_325.0, 374.0))
    assert np.isnan(real_humidity.humidity_ratio(101_325.0, 400.0, 1.0))
    assert real_humidity.relative_humidity(101_325.0, 400.0, 5.0) == 0
    assert real_humidity.condensate(101_325.0, [374.0, 600.0, 900.0], 5.0).tolist() == [0, 0, 0]


def test_an_unknown_surface_is_refused_with_the_valid_ones():
    with pytest.raises(OutOfRangeError, match="'water', 'ice'"):
        real_humidity.humidity_ratio(101_325.0, 263.0, 1.0, over="snow")


def test_dry_air_has_no_dew_point_and_missing_readings_stay_missing():
    with warnings.catch_warnings():
        warnings.simplefilter("error")
        answer = real_humidity.dew_point(1e5, [0.0, np.nan, 0.01])
    np.testing.assert_array_equal(np.isnan(answer), [True, True, False])
    assert np.isnan(real_humidity.condensate(1e5, np.nan, 0.02))
    with pytest.warns(UserWarning, match="233.15"):
        real_humidity.dew_point(1e5, 1e-6)
