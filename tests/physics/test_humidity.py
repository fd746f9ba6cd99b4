"""Limits, trends and inverses of moist air; the numbers of print are in tests/published."""

import warnings

import numpy as np
import pytest
from CoolProp.HumidAirProp import HAPropsSI
from hypothesis import given
from hypothesis import strategies as st

from turbomath.physics import charge, humidity
from turbomath.table.constants import VAPOUR_MASS_RATIO, WATER_MOLAR_MASS

pressures = st.floats(60e3, 400e3)
temperatures = st.floats(250.0, 325.0)
shares = st.floats(0.01, 1.0)
moist = st.floats(1e-3, 0.04)


def murphy_koop(T):
    """Murphy and Koop (2005), Q. J. R. Meteorol. Soc. 131, eq. 10: water from 123 to 332 K, supercooled included."""
    return np.exp(
        54.842763
        - 6763.22 / T
        - 4.210 * np.log(T)
        + 0.000367 * T
        + np.tanh(0.0415 * (T - 218.8)) * (53.878 - 1331.22 / T - 9.44523 * np.log(T) + 0.014025 * T)
    )


def cipm_saturation(T):
    """CIPM-2007 (Picard et al. 2008), appendix A1.1: saturation pressure near room temperature."""
    return np.exp(1.2378847e-5 * T**2 - 1.9121316e-2 * T + 33.93711047 - 6343.1645 / T)


def test_supercooled_water_is_as_close_as_the_docstring_says():
    T = np.linspace(233.15, 273.15, 401)
    error = np.abs(humidity.saturation_pressure(T) / murphy_koop(T) - 1)
    assert error.max() < 0.0024
    assert error[T > 238].max() < 0.0006
    with pytest.warns(UserWarning, match=r"233\.15"):
        assert 0.014 < humidity.saturation_pressure(223.15) / murphy_koop(223.15) - 1 < 0.016


def test_room_temperature_agrees_with_the_metrologists():
    T = np.linspace(288.15, 308.15, 21)
    np.testing.assert_allclose(humidity.saturation_pressure(T), cipm_saturation(T), rtol=5e-5)


def test_water_and_ice_meet_at_the_triple_point():
    # IAPWS: 273.16 K, 611.657 Pa
    assert humidity.saturation_pressure(273.16, over="ice") == pytest.approx(611.657, rel=1e-12)
    assert humidity.saturation_pressure(273.16, over="water") == pytest.approx(611.657, rel=1e-5)
    assert humidity.saturation_pressure(263.15, over="ice") < humidity.saturation_pressure(263.15)


def test_there_is_no_water_above_the_critical_point_and_no_ice_above_freezing():
    assert humidity.saturation_pressure(647.096) == pytest.approx(22.064e6, rel=1e-6)  # IAPWS: 22.064 MPa
    with pytest.warns(UserWarning, match="outside"):
        assert np.isnan(humidity.saturation_pressure(647.1))
    with pytest.warns(UserWarning, match="outside"):
        assert np.isnan(humidity.saturation_pressure(273.17, over="ice"))
    with pytest.warns(UserWarning, match="outside"):
        assert np.isnan(humidity.saturation_temperature(22.07e6))


def test_the_ends_of_the_equation_belong_to_it(recwarn):
    """IAPWS-IF97 reaches to 22.064 MPa; the kit's own lower end is 233.15 K."""
    for T in (233.15, 647.096):
        assert humidity.saturation_temperature(humidity.saturation_pressure(T)) == pytest.approx(T, rel=1e-8)
    assert not recwarn.list


@given(st.floats(233.15, 640.0))
def test_saturation_temperature_comes_back_from_pressure(T):
    back = humidity.saturation_temperature(humidity.saturation_pressure(T) * (1 + 1e-12))
    assert back == pytest.approx(T, rel=1e-8)


@given(st.floats(233.15, 640.0))
def test_warmer_water_has_more_vapour(T):
    assert humidity.saturation_pressure(T + 0.1) > humidity.saturation_pressure(T)


@given(pressures, temperatures, shares)
def test_relative_humidity_comes_back_from_the_ratio(p, T, share):
    ratio = humidity.humidity_ratio(p, T, share)
    with warnings.catch_warnings():
        warnings.simplefilter("error")
        assert humidity.relative_humidity(p, T, ratio) == pytest.approx(share, rel=1e-12)
    assert humidity.vapour_pressure(p, ratio) == pytest.approx(share * humidity.saturation_pressure(T), rel=1e-12)


@given(pressures, temperatures)
def test_saturated_air_is_at_its_dew_point(p, T):
    assert humidity.dew_point(p, humidity.humidity_ratio(p, T, 1.0)) == pytest.approx(T, rel=1e-9)


@given(pressures, temperatures, st.floats(0.2, 0.98))
def test_more_boost_more_heat_and_more_water_do_what_they_should(p, T, share):
    ratio = humidity.humidity_ratio(p, T, share)
    assert humidity.humidity_ratio(p * 1.1, T, share) < ratio
    assert humidity.humidity_ratio(p, T + 1, share) > ratio
    assert humidity.humidity_ratio(p, T, share + 0.01) > ratio
    assert humidity.dew_point(p * 1.1, ratio) > humidity.dew_point(p, ratio)
    assert humidity.relative_humidity(p, T + 1, ratio) < share
    assert humidity.density(p, T, ratio) < charge.density(p, T)


def test_vapour_weighs_five_eighths_of_air():
    assert WATER_MOLAR_MASS == 0.01801528  # CIPM-2007
    assert pytest.approx(0.621945, rel=5e-5) == VAPOUR_MASS_RATIO  # ASHRAE 2017, ch. 1


def test_dry_air_is_the_limit_of_no_water():
    assert humidity.humidity_ratio(1e5, 300.0, 0.0) == 0
    assert humidity.vapour_pressure(1e5, 0.0) == 0
    assert humidity.relative_humidity(1e5, 300.0, 0.0) == 0
    assert humidity.gas_constant(0.0) == 287.05287
    assert humidity.density(1e5, 300.0, 0.0) == pytest.approx(charge.density(1e5, 300.0), rel=1e-15)
    assert humidity.dry_air_density(1e5, 300.0, 0.0) == pytest.approx(charge.density(1e5, 300.0), rel=1e-15)
    assert np.isnan(humidity.dew_point(1e5, 0.0))
    np.testing.assert_array_equal(np.isnan(humidity.dew_point(1e5, [0.0, 0.01])), [True, False])


def test_steam_that_fills_the_whole_pressure_leaves_no_air():
    # water boils at 100 C and 101.4 kPa (IAPWS-IF97)
    assert np.isnan(humidity.humidity_ratio(101_325.0, 373.15, 1.0))
    assert humidity.humidity_ratio(101_500.0, 373.15, 1.0) > 500
    assert humidity.condensate(101_325.0, 373.15, 5.0) == 0
    assert humidity.condensate(101_325.0, 400.0, 5.0) == 0


@given(pressures, temperatures, moist)
def test_the_parts_make_the_whole(p, T, ratio):
    dry, whole = humidity.dry_air_density(p, T, ratio), humidity.density(p, T, ratio)
    assert whole == pytest.approx(dry * (1 + ratio), rel=1e-14)
    assert whole == pytest.approx(p / (humidity.gas_constant(ratio) * T), rel=1e-13)
    assert dry == pytest.approx(charge.density(p - humidity.vapour_pressure(p, ratio), T), rel=1e-13)


@given(pressures, temperatures, moist)
def test_water_is_either_vapour_or_condensate(p, T, ratio):
    left = ratio - humidity.condensate(p, T, ratio)
    assert left <= humidity.humidity_ratio(p, T, 1.0) * (1 + 1e-12)
    forms = humidity.condensate(p, T, ratio) > 0
    assert forms == (humidity.dew_point(p, ratio) > T)


def test_condensate_by_hand():
    # air at 100 kPa with psat(293.15 K) = 2339.2 Pa holds 0.62197 x 2339.2 / 97660.8 = 0.014898
    assert humidity.condensate(1e5, 293.15, 0.020) == pytest.approx(0.020 - 0.014898, abs=1e-6)
    assert humidity.condensate(1e5, 293.15, 0.0148) == 0
    np.testing.assert_allclose(humidity.condensate(1e5, [293.15, 310.0], 0.020), [0.005102, 0.0], atol=1e-6)


def test_condensate_keeps_missing_readings_missing():
    assert np.isnan(humidity.condensate(1e5, 293.15, np.nan))
    assert np.isnan(humidity.condensate(1e5, np.nan, 0.02))


@given(st.floats(70e3, 105e3), st.floats(275.0, 320.0))
def test_a_wet_thermometer_that_reads_no_lower_stands_in_saturated_air(p, T):
    with warnings.catch_warnings():
        warnings.simplefilter("error")
        assert humidity.relative_humidity_from_wet_bulb(p, T, T) == pytest.approx(1.0, rel=1e-12)


@given(st.floats(70e3, 105e3), st.floats(290.0, 320.0), st.floats(0.5, 5.0))
def test_a_lower_wet_thermometer_means_drier_air(p, T, drop):
    here = humidity.relative_humidity_from_wet_bulb(p, T, T - drop)
    assert 0 < here < 1
    assert humidity.relative_humidity_from_wet_bulb(p, T, T - drop - 0.1) < here


def test_wet_thermometer_against_the_handbook_equation_worked_by_others():
    # ASHRAE 2017 ch. 1 eq. 33 at 30 C, 25 C wet, 95461 Pa: 0.0192281274 kg/kg (a public test set of that equation)
    share = humidity.relative_humidity_from_wet_bulb(95_461.0, 303.15, 298.15)
    assert humidity.humidity_ratio(95_461.0, 303.15, share) == pytest.approx(0.0192281274, rel=4e-4)


FROZEN = [(-5.0, -6.0), (-2.0, -5.0), (2.0, -2.0), (5.0, -1.0), (-10.0, -12.0), (-20.0, -20.5)]


@pytest.mark.parametrize(("dry", "wet"), FROZEN)
def test_a_frozen_wick_against_an_outside_library(dry, wet):
    # CoolProp 8 takes ice on the wick too: its W leans on saturation over ice and on the enthalpy of ice. Real moist
    # air holds about 0.5 % more there (enhancement factor), and the handbook's numbers are rounded: 1.5 %
    here = humidity.relative_humidity_from_wet_bulb(101_325.0, dry + 273.15, wet + 273.15)
    outside = HAPropsSI("W", "T", dry + 273.15, "P", 101_325.0, "Twb", wet + 273.15)
    assert humidity.humidity_ratio(101_325.0, dry + 273.15, here) == pytest.approx(outside, rel=0.015)


@pytest.mark.parametrize(("dry", "wet"), FROZEN)
def test_a_frozen_wick_by_the_handbooks_equation(dry, wet):
    # ASHRAE Handbook of Fundamentals 2017, ch. 1, eq. 35, with temperatures in degrees Celsius
    vapour = humidity.saturation_pressure(wet + 273.15, over="ice")
    most = VAPOUR_MASS_RATIO * vapour / (101_325.0 - vapour)
    ratio = ((2830 - 0.24 * wet) * most - 1.006 * (dry - wet)) / (2830 + 1.86 * dry - 2.1 * wet)
    here = humidity.relative_humidity_from_wet_bulb(101_325.0, dry + 273.15, wet + 273.15)
    assert humidity.humidity_ratio(101_325.0, dry + 273.15, here) == pytest.approx(ratio, rel=1e-6)


def test_relative_humidity_is_over_water_below_freezing_too():
    # saturated over ice at -10 C: 259.90 Pa (ASHRAE 2017, ch. 1, table 3); over liquid water: Murphy and Koop
    share = 259.90 / murphy_koop(263.15)
    assert humidity.relative_humidity_from_wet_bulb(1e5, 263.15, 263.15) == pytest.approx(share, rel=1e-3)


def test_wet_and_frozen_wick_differ_by_the_heat_of_melting_just_at_freezing():
    # 2 C dry: ice takes 2830 kJ/kg where water takes 2501, so the same thermometers mean moister air over ice
    frozen, wet = humidity.relative_humidity_from_wet_bulb(1e5, 275.15, np.array([273.14999, 273.15]))
    most = VAPOUR_MASS_RATIO * 611.2 / (1e5 - 611.2)
    per_degree = 1.006 * 2 * (1 / 2501 - 1 / 2830) / most
    assert frozen - wet == pytest.approx(per_degree * 0.866, rel=0.05)  # psat(0 C) / psat(2 C)
