"""The turbine between its limits, and worked examples followed from end to end; table rows are in check_values.csv."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from turbomath import RangeWarning
from turbomath.physics import compression, turbine

temperatures = st.floats(400.0, 1100.0)
ratios = st.floats(1.001, 4.0)
efficiencies = st.floats(0.4, 1.0)
gammas = st.floats(1.25, 1.42)


def test_a_textbook_turbocharger_pays_for_its_compressor():
    # Cengel and Boles, problem on the turbocharger of an engine (8th ed., 7-214; 5 % lost in the shaft, exhaust
    # 0.02 kg/s from 450 to 400 C, air 0.018 kg/s from 70 C, 95 to 135 kPa). Answers from memory: 126.1 C, 0.642.
    power = turbine.power(0.02, 723.15, 673.15, 1063.0)
    work = turbine.compressor_power(power, 0.95) / 0.018
    outlet = 343.15 + work / 1008.0
    assert outlet - 273.15 == pytest.approx(
        126.1, abs=0.6
    )  # the solution's own specific heats are not known to a digit
    assert compression.isentropic_efficiency(95e3, 343.15, 135e3, outlet) == pytest.approx(0.642, abs=0.01)


def test_a_textbook_turbine_gives_most_of_its_work_to_the_compressor():
    # Saravanamuttoo, example 2.1: printed net work 136.8 kJ/kg; compressor 288 K, ratio 4, efficiency 0.85
    outlet = turbine.outlet_temperature(1100.0, 3.8 / 1.04, 0.87, 4 / 3)
    work = turbine.specific_work(1100.0, outlet, 1148.0)
    needed = 1005.0 * (compression.outlet_temperature(1e5, 288.0, 4e5, 0.85) - 288.0) / 0.99
    assert work - needed == pytest.approx(136_800.0, abs=60.0)
    assert needed / work == pytest.approx(0.550, abs=0.001)


def test_the_critical_ratio_of_exhaust_is_below_that_of_air():
    assert turbine.critical_expansion_ratio(1.34) < turbine.critical_expansion_ratio(1.4)


@given(temperatures, ratios, efficiencies, gammas)
def test_efficiency_undoes_outlet_temperature(inlet, ratio, efficiency, gamma):
    outlet = turbine.outlet_temperature(inlet, ratio, efficiency, gamma)
    assert turbine.efficiency(inlet, outlet, ratio, gamma) == pytest.approx(efficiency, rel=1e-9)


@given(temperatures, ratios, efficiencies, gammas, st.floats(1000.0, 1250.0))
def test_expansion_ratio_undoes_work(inlet, ratio, efficiency, gamma, specific_heat):
    outlet = turbine.outlet_temperature(inlet, ratio, efficiency, gamma)
    work = turbine.specific_work(inlet, outlet, specific_heat)
    assert turbine.expansion_ratio(inlet, work, efficiency, specific_heat, gamma) == pytest.approx(ratio, rel=1e-9)


@given(temperatures, ratios, efficiencies, gammas)
def test_more_ratio_or_efficiency_cools_more_and_never_below_the_ideal(inlet, ratio, efficiency, gamma):
    outlet = turbine.outlet_temperature(inlet, ratio, efficiency, gamma)
    assert turbine.outlet_temperature(inlet, ratio * 1.1, efficiency, gamma) < outlet < inlet
    assert turbine.outlet_temperature(inlet, ratio, 1.0, gamma) <= outlet


@given(ratios, gammas)
def test_the_nozzle_chokes_at_the_critical_ratio_and_nowhere_before(ratio, gamma):
    critical = turbine.critical_expansion_ratio(gamma)
    choked = turbine.nozzle_flow_parameter(critical, gamma)
    flow = turbine.nozzle_flow_parameter(ratio, gamma)
    assert flow <= choked * (1 + 1e-12)
    if ratio > critical:
        assert flow == pytest.approx(choked, rel=1e-12)
    elif ratio < critical * 0.99:
        assert turbine.nozzle_flow_parameter(ratio * 1.005, gamma) > flow


def test_choked_flow_is_the_closed_form_of_the_textbooks():
    # Heywood, app. C: sqrt(gamma) (2/(gamma+1))^((gamma+1)/(2(gamma-1)))
    for gamma in (1.25, 1.3, 1.34, 1.4):
        closed = np.sqrt(gamma) * (2 / (gamma + 1)) ** ((gamma + 1) / (2 * (gamma - 1)))
        assert turbine.nozzle_flow_parameter(3.7, gamma) == pytest.approx(closed, rel=1e-12)


def test_the_stated_error_of_the_ellipse_against_the_nozzle():
    for ratio, more in [(2.0, 0.040), (1.7, 0.107), (1.1, 0.296), (3.0, -0.045)]:
        nozzle, ellipse = turbine.nozzle_flow_parameter(ratio, 1.34), turbine.ellipse_flow_parameter(ratio, 2.3, 1.34)
        assert nozzle / ellipse - 1 == pytest.approx(more, abs=0.001)


@given(ratios, st.floats(1.5, 3.0), gammas)
def test_the_ellipse_agrees_with_the_nozzle_where_it_is_fitted_and_always_rises(ratio, fitted, gamma):
    nozzle = turbine.nozzle_flow_parameter(fitted, gamma)
    assert turbine.ellipse_flow_parameter(fitted, fitted, gamma) == pytest.approx(nozzle, rel=1e-12)
    rising = turbine.ellipse_flow_parameter([ratio, ratio * 1.01], fitted, gamma)
    assert rising[1] > rising[0]


def test_no_pressure_difference_gives_no_work_and_no_flow():
    assert turbine.outlet_temperature(900.0, 1.0, 0.7, 1.34) == 900.0
    assert turbine.nozzle_flow_parameter(1.0, 1.34) == turbine.ellipse_flow_parameter(1.0, 2.3, 1.34) == 0.0
    assert turbine.expansion_ratio(900.0, 0.0, 0.7, 1130.0, 1.34) == 1.0
    assert np.isnan(turbine.efficiency(900.0, 890.0, 1.0, 1.34))


def test_what_cannot_be_is_nan_and_what_is_odd_is_warned_of():
    assert np.isnan(turbine.expansion_ratio(500.0, 4e5, 0.7, 1130.0, 1.34))  # no pressure gives so much
    with pytest.warns(RangeWarning, match="expansion ratio is below 1"):
        assert turbine.outlet_temperature(900.0, 0.9, 0.7, 1.34) > 900.0
    with pytest.warns(RangeWarning, match="turbine efficiency .* outside 0 to 1"):
        turbine.efficiency(900.0, 600.0, 2.0, 1.34)
