"""Limits, trends and inverses of cooling; the numbers of print are in tests/published."""

import warnings

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from turbomath.physics import charge, compression, cooling

hot = st.floats(340.0, 520.0)
medium = st.floats(250.0, 380.0)
fractions = st.floats(0.0, 1.0)
pressures = st.floats(120e3, 500e3)


@given(hot, medium)
def test_effectiveness_zero_changes_nothing_and_one_reaches_the_medium(T, T_medium):
    assert cooling.outlet_temperature(T, T_medium, 0.0) == T
    assert cooling.outlet_temperature(T, T_medium, 1.0) == pytest.approx(T_medium, rel=1e-15)


@given(hot, medium, fractions)
def test_the_outlet_lies_between_charge_and_medium(T, T_medium, effectiveness):
    out = cooling.outlet_temperature(T, T_medium, effectiveness)
    assert min(T, T_medium) - 1e-9 <= out <= max(T, T_medium) + 1e-9


@given(hot, medium, st.floats(0.0, 1.0))
def test_effectiveness_comes_back_from_the_temperatures(T, T_medium, effectiveness):
    assume(abs(T - T_medium) > 1)
    out = cooling.outlet_temperature(T, T_medium, effectiveness)
    with warnings.catch_warnings():
        warnings.simplefilter("error")
        assert cooling.effectiveness(T, out, T_medium) == pytest.approx(effectiveness, rel=1e-9, abs=1e-12)


@given(hot, st.floats(250.0, 335.0), st.floats(0.0, 0.98))
def test_a_better_aftercooler_and_a_colder_medium_both_cool_more(T, T_medium, effectiveness):
    here = cooling.outlet_temperature(T, T_medium, effectiveness)
    assert cooling.outlet_temperature(T, T_medium, effectiveness + 0.01) < here
    assert cooling.outlet_temperature(T, T_medium - 1, effectiveness + 0.01) < here
    assert cooling.outlet_temperature(T + 1, T_medium, effectiveness) > here


def test_a_hand_worked_aftercooler():
    # 450 K in, 300 K medium, 3/5 of the way: 450 - 0.6 x 150 = 360
    assert cooling.outlet_temperature(450.0, 300.0, 0.6) == pytest.approx(360.0, rel=1e-15)
    assert cooling.effectiveness(450.0, 360.0, 300.0) == pytest.approx(0.6, rel=1e-15)
    assert cooling.break_even_pressure_loss(250e3, 450.0, 360.0) == pytest.approx(50e3, rel=1e-12)


def test_effectiveness_is_undefined_where_there_is_nothing_to_cool():
    answer = cooling.effectiveness([300.0, 400.0], [300.0, 320.0], 300.0)
    assert np.isnan(answer[0])
    assert answer[1] == pytest.approx(0.8)
    assert np.isnan(cooling.effectiveness(300.0, 290.0, 300.0))


def test_a_hot_medium_heats_the_charge():
    assert cooling.outlet_temperature(340.0, 360.0, 0.5) == pytest.approx(350.0)
    assert cooling.effectiveness(340.0, 350.0, 360.0) == pytest.approx(0.5)
    assert cooling.break_even_pressure_loss(2e5, 340.0, 350.0) < 0
    assert cooling.specific_heat_rejected(340.0, 350.0) < 0


@given(pressures, hot, st.floats(280.0, 339.0))
def test_at_the_break_even_loss_the_charge_leaves_as_dense_as_it_came(p, T, out):
    loss = cooling.break_even_pressure_loss(p, T, out)
    assert 0 < loss < p
    assert charge.density_gain(p, T, p - loss, out) == pytest.approx(0.0, abs=1e-12)
    assert charge.density_gain(p, T, p - 0.9 * loss, out) > 0
    assert charge.density_gain(p, T, p - 1.1 * loss, out) < 0


@given(hot, st.floats(280.0, 339.0))
def test_heat_rejected_is_the_work_that_would_warm_it_again(T, out):
    assert cooling.specific_heat_rejected(T, out) == pytest.approx(compression.specific_work(out, T), rel=1e-15)
    assert cooling.specific_heat_rejected(T, T) == 0


def test_heat_rejected_for_one_kelvin():
    assert cooling.specific_heat_rejected(301.0, 300.0) == pytest.approx(3.5 * 287.05287, rel=1e-12)
