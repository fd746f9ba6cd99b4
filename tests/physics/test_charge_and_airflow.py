"""Density, its gain, and the air an engine draws; the numbers of print are in tests/published."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from turbomath.physics import airflow, charge

pressures = st.floats(50e3, 600e3)
temperatures = st.floats(230.0, 550.0)
densities = st.floats(0.6, 6.0)
displacements = st.floats(0.005, 0.017)
speeds = st.floats(8.0, 42.0)
fillings = st.floats(0.8, 1.0)


@given(pressures, temperatures)
def test_pressure_comes_back_from_density(p, T):
    assert charge.pressure(charge.density(p, T), T) == pytest.approx(p, rel=1e-14)


@given(pressures, temperatures)
def test_twice_the_pressure_holds_twice_the_air_and_twice_the_temperature_half(p, T):
    here = charge.density(p, T)
    assert charge.density(2 * p, T) == pytest.approx(2 * here, rel=1e-14)
    assert charge.density(p, 2 * T) == pytest.approx(here / 2, rel=1e-14)


def test_sea_level_on_a_standard_day_is_1_225():
    # ISO 2533 defines these together: 101325 Pa, 288.15 K, 1.225 kg/m3
    assert charge.density(101_325.0, 288.15) == pytest.approx(1.225, rel=1e-7)


@given(pressures, temperatures)
def test_nothing_changed_gains_nothing(p, T):
    assert charge.density_gain(p, T, p, T) == pytest.approx(0, abs=1e-15)


@given(pressures, temperatures, pressures, temperatures)
def test_gain_is_the_ratio_of_densities_less_one(p1, T1, p2, T2):
    ratio = charge.density(p2, T2) / charge.density(p1, T1)
    assert charge.density_gain(p1, T1, p2, T2) == pytest.approx(ratio - 1, rel=1e-12, abs=1e-14)


@given(pressures, temperatures, pressures, temperatures, pressures, temperatures)
def test_gains_along_a_path_multiply_and_do_not_add(p1, T1, p2, T2, p3, T3):
    first, second = charge.density_gain(p1, T1, p2, T2), charge.density_gain(p2, T2, p3, T3)
    whole = charge.density_gain(p1, T1, p3, T3)
    assert (1 + first) * (1 + second) == pytest.approx(1 + whole, rel=1e-12)


def test_density_gain_by_hand():
    # half again the pressure, 20 % hotter: 1.5 / 1.2 - 1
    assert charge.density_gain(1e5, 300.0, 1.5e5, 360.0) == pytest.approx(0.25, rel=1e-12)


def test_mass_flow_by_hand():
    # 2 kg/m3 x 0.012 m3 x 30 rev/s x 0.9, every second turn
    assert airflow.mass_flow(2.0, 0.012, 30.0, 0.9) == pytest.approx(0.324, rel=1e-14)
    assert airflow.mass_flow(2.0, 0.012, 30.0, 0.9, strokes=4) == pytest.approx(0.324, rel=1e-14)
    assert airflow.mass_flow(2.0, 0.012, 30.0, 0.9, 2) == pytest.approx(0.648, rel=1e-14)
    assert airflow.volumetric_efficiency(0.324, 2.0, 0.012, 30.0) == pytest.approx(0.9, rel=1e-14)
    assert airflow.volumetric_efficiency(0.648, 2.0, 0.012, 30.0, strokes=2) == pytest.approx(0.9, rel=1e-14)
    assert airflow.volume_flow(0.324, 1.2) == pytest.approx(0.27, rel=1e-14)


@given(densities, displacements, speeds, fillings, st.sampled_from([2, 4]))
def test_volumetric_efficiency_comes_back_from_the_flow(rho, volume, speed, filling, strokes):
    flow = airflow.mass_flow(rho, volume, speed, filling, strokes)
    assert airflow.volumetric_efficiency(flow, rho, volume, speed, strokes) == pytest.approx(filling, rel=1e-13)


@given(densities, displacements, speeds, fillings)
def test_a_two_stroke_draws_twice_as_often(rho, volume, speed, filling):
    four = airflow.mass_flow(rho, volume, speed, filling)
    assert airflow.mass_flow(rho, volume, speed, filling, strokes=2) == pytest.approx(2 * four, rel=1e-15)


@given(densities, displacements, speeds, fillings)
def test_each_factor_of_the_flow_counts_once(rho, volume, speed, filling):
    here = 2 * airflow.mass_flow(rho, volume, speed, filling)
    assert airflow.mass_flow(2 * rho, volume, speed, filling) == pytest.approx(here, rel=1e-14)
    assert airflow.mass_flow(rho, 2 * volume, speed, filling) == pytest.approx(here, rel=1e-14)
    assert airflow.mass_flow(rho, volume, 2 * speed, filling) == pytest.approx(here, rel=1e-14)
    assert airflow.mass_flow(rho, volume, speed, 2 * filling) == pytest.approx(here, rel=1e-14)


@given(st.floats(0.0, 1.0), densities)
def test_volume_times_density_is_mass(flow, rho):
    assert airflow.volume_flow(flow, rho) * rho == pytest.approx(flow, rel=1e-14)


def test_an_engine_that_stands_still():
    assert airflow.mass_flow(2.0, 0.012, 0.0, 0.9) == 0
    assert np.isnan(airflow.volumetric_efficiency(0.0, 2.0, 0.012, 0.0))
    answer = airflow.volumetric_efficiency(0.324, 2.0, 0.012, [0.0, 30.0])
    assert np.isnan(answer[0])
    assert answer[1] == pytest.approx(0.9)
