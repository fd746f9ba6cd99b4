"""Limits, trends and inverses of compression; the numbers of print are in tests/published."""

import warnings

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from turbomath.physics import compression

pressures = st.floats(55e3, 110e3)
temperatures = st.floats(240.0, 330.0)
ratios = st.floats(1.0, 5.0)
boosted = st.floats(1.05, 5.0)
efficiencies = st.floats(0.4, 1.0)


@given(pressures, temperatures, efficiencies)
def test_no_boost_means_no_warming(p, T, eta):
    assert compression.outlet_temperature(p, T, p, eta) == T
    assert compression.specific_work(T, T) == 0


@given(pressures, temperatures, ratios)
def test_efficiency_one_is_the_ideal_compressor(p, T, ratio):
    real = compression.outlet_temperature(p, T, p * ratio, 1.0)
    assert real == pytest.approx(compression.ideal_outlet_temperature(p, T, p * ratio), rel=1e-14)


def test_a_ratio_of_two_to_the_seven_halves_doubles_the_temperature():
    # gamma = 7/5: the exponent is 2/7, so 2^3.5 doubles; asymmetric states by hand
    assert compression.ideal_outlet_temperature(1e5, 300.0, 2**3.5 * 1e5) == pytest.approx(600.0, rel=1e-14)
    assert compression.outlet_temperature(1e5, 300.0, 2**3.5 * 1e5, 0.75) == pytest.approx(700.0, rel=1e-14)
    assert compression.isentropic_efficiency(1e5, 300.0, 2**3.5 * 1e5, 700.0) == pytest.approx(0.75, rel=1e-13)
    assert compression.outlet_pressure(1e5, 300.0, 700.0, 0.75) == pytest.approx(2**3.5 * 1e5, rel=1e-13)


@given(pressures, temperatures, boosted, efficiencies)
def test_efficiency_comes_back_from_the_temperatures(p, T, ratio, eta):
    hot = compression.outlet_temperature(p, T, p * ratio, eta)
    with warnings.catch_warnings():
        warnings.simplefilter("error")
        assert compression.isentropic_efficiency(p, T, p * ratio, hot) == pytest.approx(eta, rel=1e-9)


@given(pressures, temperatures, boosted, efficiencies)
def test_outlet_pressure_comes_back_from_the_temperatures(p, T, ratio, eta):
    hot = compression.outlet_temperature(p, T, p * ratio, eta)
    assert compression.outlet_pressure(p, T, hot, eta) == pytest.approx(p * ratio, rel=1e-12)


@given(pressures, temperatures, boosted, st.floats(0.4, 0.99))
def test_a_worse_compressor_and_more_boost_both_heat_more(p, T, ratio, eta):
    here = compression.outlet_temperature(p, T, p * ratio, eta)
    assert compression.outlet_temperature(p, T, p * ratio, eta + 0.01) < here
    assert compression.outlet_temperature(p, T, p * (ratio + 0.01), eta) > here
    assert compression.outlet_temperature(p, T + 0.1, p * ratio, eta) > here
    assert compression.outlet_temperature(p * 1.01, T, p * ratio, eta) < here


@given(pressures, temperatures, boosted, efficiencies, st.floats(0.5, 2.0))
def test_only_the_pressure_ratio_counts_and_temperatures_scale(p, T, ratio, eta, scale):
    here = compression.outlet_temperature(p, T, p * ratio, eta)
    assert compression.outlet_temperature(p * scale, T, p * scale * ratio, eta) == pytest.approx(here, rel=1e-13)
    assert compression.outlet_temperature(p, T * scale, p * ratio, eta) == pytest.approx(here * scale, rel=1e-13)


@given(pressures, temperatures, boosted, boosted)
def test_two_stages_without_losses_are_one(p, T, low, high):
    between = compression.outlet_temperature(p, T, p * low, 1.0)
    staged = compression.outlet_temperature(p * low, between, p * low * high, 1.0)
    assert staged == pytest.approx(compression.outlet_temperature(p, T, p * low * high, 1.0), rel=1e-13)


@given(pressures, temperatures, st.floats(1.2, 3.0), st.floats(1.2, 3.0), st.floats(0.5, 0.95))
def test_two_equal_stages_with_losses_are_worse_than_either(p, T, low, high, eta):
    # reheat: the second stage must squeeze air that the first has warmed for nothing
    between = compression.outlet_temperature(p, T, p * low, eta)
    hot = compression.outlet_temperature(p * low, between, p * low * high, eta)
    assert compression.isentropic_efficiency(p, T, p * low * high, hot) < eta


def test_efficiency_is_undefined_where_the_air_did_not_warm():
    assert np.isnan(compression.isentropic_efficiency(1e5, 300.0, 2e5, 300.0))
    assert np.isnan(compression.isentropic_efficiency(1e5, 300.0, 1e5, 300.0))
    assert compression.isentropic_efficiency(1e5, 300.0, 1e5, 310.0) == 0


@pytest.mark.filterwarnings("ignore:.* is far below what is usual")
def test_air_that_leaves_colder_was_let_down_and_not_squeezed():
    answer = compression.outlet_pressure(1e5, 300.0, [1e-3, 290.0, 310.0], [1.0, 0.5, 0.5])
    assert answer[1] < 1e5 < answer[2]
    assert answer[0] == pytest.approx(1e5 * (1e-3 / 300) ** 3.5)


def test_work_is_three_and_a_half_gas_constants_a_kelvin():
    assert compression.specific_work(300.0, 301.0) == pytest.approx(3.5 * 287.05287, rel=1e-12)
    assert compression.specific_work(301.0, 300.0) == pytest.approx(-3.5 * 287.05287, rel=1e-12)


@given(pressures, ratios)
def test_pressure_ratio_is_outlet_over_inlet(p, ratio):
    assert compression.pressure_ratio(p, p * ratio) == pytest.approx(ratio, rel=1e-15)
