"""Polytropic efficiency: limits, trends and the ways back; the numbers of print are in tests/published."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from turbomath import RangeWarning
from turbomath.physics import compression, polytropic

ratios = st.floats(1.05, 5.0)
efficiencies = st.floats(0.4, 0.95)


@given(ratios, efficiencies)
def test_isentropic_efficiency_lies_below_the_polytropic(ratio, efficiency):
    shown = polytropic.isentropic_efficiency(ratio, efficiency)
    assert shown < efficiency
    assert polytropic.isentropic_efficiency(ratio * 1.1, efficiency) < shown


@given(ratios, efficiencies)
def test_efficiency_comes_back_from_the_outlet(ratio, efficiency):
    out = polytropic.outlet_temperature(98e3, 300.0, 98e3 * ratio, efficiency)
    assert polytropic.polytropic_efficiency(98e3, 300.0, 98e3 * ratio, out) == pytest.approx(efficiency, rel=1e-9)
    same = polytropic.isentropic_efficiency(ratio, efficiency)
    assert compression.outlet_temperature(98e3, 300.0, 98e3 * ratio, same) == pytest.approx(out, rel=1e-9)


@given(st.floats(1.05, 2.5), st.floats(1.05, 2.0), efficiencies)
def test_two_compressors_in_a_row_are_one(first, second, efficiency):
    between = polytropic.outlet_temperature(1e5, 300.0, 1e5 * first, efficiency)
    two = polytropic.outlet_temperature(1e5 * first, between, 1e5 * first * second, efficiency)
    assert two == pytest.approx(polytropic.outlet_temperature(1e5, 300.0, 1e5 * first * second, efficiency), rel=1e-12)


def test_without_compression_both_efficiencies_are_one_and_the_same():
    np.testing.assert_allclose(polytropic.isentropic_efficiency([1.0, 1 + 1e-9], 0.7), 0.7, rtol=1e-8)


def test_a_perfect_compressor_is_perfect_both_ways():
    assert polytropic.isentropic_efficiency(4.0, 1.0) == pytest.approx(1.0, rel=1e-14)
    assert polytropic.outlet_temperature(1e5, 300.0, 4e5, 1.0) == pytest.approx(300 * 4 ** (2 / 7), rel=1e-12)


def test_odd_readings_warn():
    with pytest.warns(RangeWarning, match="polytropic efficiency .* outside 0 to 1"):
        assert polytropic.polytropic_efficiency(1e5, 300.0, 4e5, 400.0) > 1
    with pytest.warns(RangeWarning, match="gauge against absolute"):
        polytropic.outlet_temperature(1e5, 300.0, 0.9e5, 0.8)
    assert np.isnan(polytropic.polytropic_efficiency(1e5, 300.0, 1.2e5, 300.0))


def test_power_is_work_times_flow():
    assert compression.power(0.3, 300.0, 410.0) == pytest.approx(0.3 * compression.specific_work(300.0, 410.0))
    assert compression.power(0.0, 300.0, 410.0) == 0
