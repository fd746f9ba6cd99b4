"""Limits, trends and inverses of the standard atmosphere; the numbers of print are in tests/published."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from turbomath.physics import atmosphere, charge

elevations = st.floats(-5000.0, 11_000.0)


def test_sea_level_is_the_standard_state():
    assert atmosphere.temperature(0.0) == 288.15
    assert atmosphere.pressure(0.0) == 101_325.0
    assert atmosphere.density(0.0) == pytest.approx(1.225, rel=1e-7)  # ISO 2533


def test_the_top_of_the_layer_is_as_printed():
    # USSA 1976 table 4 and ISO 2533: 216.65 K and 22632 Pa at 11 km (geopotential)
    assert atmosphere.temperature(11_000.0) == pytest.approx(216.65, rel=1e-12)
    assert atmosphere.pressure(11_000.0) == pytest.approx(22_632, abs=0.5)


@given(elevations)
def test_elevation_comes_back_from_pressure(height):
    inside = height * 0.999
    assert atmosphere.elevation(atmosphere.pressure(inside)) == pytest.approx(inside, abs=1e-6)


def test_no_elevation_outside_the_layer():
    with pytest.warns(UserWarning, match="no elevation"):
        answer = atmosphere.elevation([20_000.0, 101_325.0, 180_000.0])
    np.testing.assert_array_equal(np.isnan(answer), [True, False, True])
    assert answer[1] == 0


@given(st.floats(-5000.0, 10_990.0))
def test_higher_is_colder_thinner_and_lower_in_pressure(height):
    for function in (atmosphere.temperature, atmosphere.pressure, atmosphere.density):
        assert function(height + 10) < function(height)


@given(st.floats(100.0, 10_000.0))
def test_density_falls_more_slowly_than_pressure(height):
    assert atmosphere.density(height) / 1.225 > atmosphere.pressure(height) / 101_325


@given(elevations)
def test_density_is_that_of_the_air_there(height):
    expected = charge.density(atmosphere.pressure(height), atmosphere.temperature(height))
    assert atmosphere.density(height) == pytest.approx(expected, rel=1e-14)


@given(st.floats(-4990.0, 10_990.0))
def test_pressure_carries_the_weight_of_the_air_above(height):
    # hydrostatics: dp/dH = -rho g0, here as a central difference
    slope = (atmosphere.pressure(height + 1) - atmosphere.pressure(height - 1)) / 2
    assert slope == pytest.approx(-atmosphere.density(height) * 9.80665, rel=1e-6)


@given(st.floats(95e3, 105e3), elevations)
def test_station_pressure_keeps_the_standard_ratio(sea, height):
    assert atmosphere.station_pressure(sea, 0.0) == pytest.approx(sea, rel=1e-15)
    ratio = atmosphere.station_pressure(sea, height) / sea
    assert ratio == pytest.approx(atmosphere.pressure(height) / 101_325, rel=1e-14)


def test_the_highest_and_the_lowest_elevation_have_one_each(recwarn):
    """11,000 m is the end of the lowest layer of the standard atmosphere; USSA1976, table I: 226.32 mb."""
    assert atmosphere.pressure(11_000.0) == pytest.approx(22_632, abs=1)
    assert atmosphere.elevation(atmosphere.pressure(11_000.0)) == pytest.approx(11_000.0)
    assert atmosphere.elevation(atmosphere.pressure(-4_999.0)) == pytest.approx(-4_999.0)
    assert not recwarn.list
    with pytest.warns(UserWarning, match="belongs to no elevation"):
        assert np.isnan(atmosphere.elevation(atmosphere.pressure(11_000.0) - 1.0))
