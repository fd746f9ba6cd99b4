"""Effectiveness and transfer units against the `ht` library, and the trends of an aftercooler in use."""

import ht
import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from turbomath import OutOfRangeError, RangeWarning
from turbomath.physics import cooling, crossflow, exchanger

NAMES = {  # arrangement: what ht calls it
    "counterflow": "counterflow",
    "parallel flow": "parallel",
    "crossflow, both unmixed": "crossflow",
    "crossflow, Cmin mixed": "crossflow, mixed Cmin",
    "crossflow, Cmax mixed": "crossflow, mixed Cmax",
}
CROSSFLOW = "crossflow, both unmixed"
AIR, FAN_AIR = 420.0, 1100.0  # W/K, charge and cooling air of a healthy aftercooler
each_arrangement = pytest.mark.parametrize("arrangement", exchanger.ARRANGEMENTS)
units = st.floats(0.02, 8.0)
ratios = st.floats(0.0, 1.0)
rates = st.floats(50.0, 2000.0)


def test_effectiveness_is_that_of_ht_to_twelve_figures():
    for arrangement in exchanger.ARRANGEMENTS:
        ntu, ratio = np.meshgrid(np.linspace(0.05, 9.95, 34), np.linspace(0.01, 1.0, 12))
        reference = np.vectorize(ht.effectiveness_from_NTU)(ntu, ratio, subtype=NAMES[arrangement])
        np.testing.assert_allclose(exchanger.effectiveness(ntu, ratio, arrangement), reference, rtol=1e-12, atol=0)


def test_the_exact_series_keeps_its_figures_where_little_heat_passes():
    # for few transfer units N - (1 + C) N^2 / 2 + (1 + 3 C + C^2) N^3 / 6 - ..., from the series' first terms
    N, C = 1e-4, 0.37
    expected = N - (1 + C) * N**2 / 2 + (1 + 3 * C + C**2) * N**3 / 6
    assert crossflow.effectiveness(N, C) == pytest.approx(expected, rel=1e-11)


@each_arrangement
@given(ntu=units, ratio=ratios)
def test_transfer_units_come_back_from_effectiveness(arrangement, ntu, ratio):
    found = exchanger.ntu(exchanger.effectiveness(ntu, ratio, arrangement), ratio, arrangement)
    further = exchanger.effectiveness(ntu * 1.0001, ratio, arrangement) - exchanger.effectiveness(
        ntu, ratio, arrangement
    )
    if further > 1e-9:  # on the flat end of a curve many sizes have one effectiveness
        assert found == pytest.approx(ntu, rel=1e-5)


@given(units, ratios)
def test_counterflow_beats_crossflow_beats_parallel_flow(ntu, ratio):
    best, unmixed, least, most, worst = (
        exchanger.effectiveness(ntu, ratio, name)
        for name in ("counterflow", CROSSFLOW, "crossflow, Cmax mixed", "crossflow, Cmin mixed", "parallel flow")
    )
    assert best >= unmixed - 1e-12
    assert unmixed >= max(least, most) - 1e-12
    assert min(least, most) >= worst - 1e-12


@each_arrangement
@given(ntu=units, ratio=st.floats(0.0, 0.99))
def test_a_larger_core_and_a_lower_ratio_never_harm(arrangement, ntu, ratio):
    here = exchanger.effectiveness(ntu, ratio, arrangement)
    assert exchanger.effectiveness(ntu * 1.1, ratio, arrangement) >= here - 1e-14
    assert exchanger.effectiveness(ntu, ratio + 0.01, arrangement) <= here + 1e-14
    assert 0 < here < 1


def test_without_a_second_limit_every_arrangement_is_a_boiler():
    for arrangement in exchanger.ARRANGEMENTS:
        np.testing.assert_allclose(
            exchanger.effectiveness([0.0, 0.4, 2.5], 0.0, arrangement),
            1 - np.exp([0.0, -0.4, -2.5]),
            rtol=1e-14,
            atol=0,
        )


def test_some_arrangements_never_pass_a_limit():
    for arrangement, ratio, greatest in [
        ("parallel flow", 0.6, 0.625),
        ("crossflow, Cmin mixed", 0.7, 0.760349),
        ("crossflow, Cmax mixed", 0.7, 0.719164),
    ]:
        assert exchanger.effectiveness(80.0, ratio, arrangement) == pytest.approx(greatest, abs=1e-6)
        with pytest.warns(RangeWarning, match="no heat exchanger of this arrangement"):
            assert np.isnan(exchanger.ntu(greatest + 0.01, ratio, arrangement))


def test_a_perfect_exchanger_has_no_size():
    with pytest.warns(RangeWarning, match="so effective"):
        answer = exchanger.ntu([1.0, 0.8], 0.9, CROSSFLOW)
    assert np.isnan(answer[0])
    assert answer[1] == pytest.approx(exchanger.ntu(0.8, 0.9, CROSSFLOW), rel=1e-12)


def test_a_hundred_transfer_units_are_the_end_of_the_series():
    assert 0.94 < crossflow.effectiveness(100.0, 1.0) < 0.95
    with pytest.warns(RangeWarning, match="more than 100 transfer units"):
        answer = crossflow.effectiveness([100.1, 3.0], 1.0)
    np.testing.assert_array_equal(np.isnan(answer), [True, False])


def test_an_unknown_arrangement_is_refused_with_the_five_listed():
    for function, arguments in ((exchanger.effectiveness, (1.0, 0.5)), (exchanger.ntu, (0.5, 0.5))):
        with pytest.raises(OutOfRangeError, match="one of 'counterflow', 'parallel flow', 'crossflow, both unmixed'"):
            function(*arguments, "shell and tube")


def test_the_usual_rule_is_off_by_no_more_than_its_docstring_says():
    ntu, ratio = np.meshgrid(np.linspace(0.05, 6.0, 120), np.linspace(0.05, 1.0, 39))
    error = exchanger.approximate_effectiveness(ntu, ratio) - crossflow.effectiveness(ntu, ratio)
    assert -0.0111 < error.min() < -0.0109
    assert 0.0088 < error.max() < 0.0092
    lowest, highest = (np.unravel_index(place, error.shape) for place in (error.argmin(), error.argmax()))
    assert (ntu[lowest], ratio[lowest]) == (pytest.approx(0.55, abs=0.1), 1.0)
    assert (ntu[highest], ratio[highest]) == (pytest.approx(3.0, abs=0.3), pytest.approx(0.4, abs=0.06))


@given(st.floats(100.0, 3000.0), rates, rates)
def test_conductance_comes_back_from_the_readings_it_makes(conductance, charge, medium):
    effectiveness = exchanger.effectiveness_from_conductance(conductance, charge, medium, CROSSFLOW)
    out = cooling.outlet_temperature(440.0, 303.0, effectiveness)
    smaller = min(charge, medium)
    if conductance / smaller < 6:  # larger ones differ in the last figures of a thermometer only
        found = exchanger.conductance(440.0, out, 303.0, charge, medium, CROSSFLOW)
        assert found == pytest.approx(conductance, rel=1e-6)


def test_readings_that_cannot_be_give_no_conductance():
    with pytest.warns(RangeWarning, match="outside 0 to 1"):
        assert np.isnan(exchanger.conductance(440.0, 300.0, 303.0, AIR, FAN_AIR, CROSSFLOW))
    assert np.isnan(
        exchanger.conductance(440.0, 360.0, 303.0, AIR, 150.0, CROSSFLOW)
    )  # more heat than the medium takes


def test_a_medium_that_did_not_take_the_heat_has_no_capacity_rate():
    cold, none, hot = exchanger.medium_capacity_rate(AIR, 440.0, 330.0, 303.0, [302.0, 303.0, 345.0])
    assert np.isnan([cold, none]).all()
    assert hot * 42 == pytest.approx(AIR * 110, rel=1e-12)


def test_more_heat_than_the_medium_can_carry_is_told():
    with pytest.warns(RangeWarning, match="could not carry so much heat"):
        assert exchanger.core_effectiveness(0.9, 500.0, 300.0) == pytest.approx(1.5)


@given(st.floats(0.02, 0.9))
def test_with_the_fan_off_charge_effectiveness_falls_and_the_cooling_air_limits(share):
    core = exchanger.conductance_at_flows(1500.0, 1.0, share, 0.5)
    healthy = exchanger.effectiveness_from_conductance(1500.0, AIR, FAN_AIR, CROSSFLOW)
    starved = exchanger.effectiveness_from_conductance(core, AIR, share * FAN_AIR, CROSSFLOW)
    assert starved < healthy
    if share * FAN_AIR < AIR:  # now the cooling air has the smaller capacity rate: no core can do better than its share
        assert starved <= share * FAN_AIR / AIR
        huge = exchanger.effectiveness_from_conductance(60 * share * FAN_AIR, AIR, share * FAN_AIR, CROSSFLOW)
        assert huge < share * FAN_AIR / AIR


def test_the_shop_effectiveness_is_the_exchanger_s_only_while_the_charge_has_the_smaller_rate():
    assert exchanger.charge_effectiveness(0.8, 400.0, 900.0) == 0.8
    assert exchanger.charge_effectiveness(0.8, 400.0, 100.0) == pytest.approx(0.2)


@given(st.floats(0.3, 3.0), st.floats(1.02, 2.0))
def test_more_charge_through_the_same_core_makes_it_less_effective_but_carries_more_heat(flow, more):
    def effectiveness(times):
        core = exchanger.conductance_at_flows(1500.0, times, 1.0, 0.5)
        return exchanger.effectiveness_from_conductance(core, times * AIR, FAN_AIR, CROSSFLOW)

    few, many = effectiveness(flow), effectiveness(flow * more)
    assert many < few
    assert many * flow * more > few * flow


@given(st.floats(0.05, 2.0))
def test_dirt_makes_a_core_worse_and_none_changes_nothing(dirt):
    dirty = exchanger.fouled_conductance(1500.0, dirt)
    clean, fouled = (exchanger.effectiveness_from_conductance(one, AIR, FAN_AIR, CROSSFLOW) for one in (1500.0, dirty))
    assert fouled < clean
    assert exchanger.fouled_conductance(1500.0, 0.0) == 1500.0


def test_films_in_a_row_by_hand():
    # flow of both sides doubled: 1/(0.4 x 2^-0.8 + 0.6 x 2^-0.6)
    assert exchanger.conductance_at_flows(1000.0, 2.0, 2.0, 0.4) == pytest.approx(
        1000 / (0.4 * 0.574349 + 0.6 * 0.659754), rel=1e-6
    )
    assert exchanger.conductance_at_flows(1000.0, 1.0, 1.0, 0.4) == pytest.approx(1000.0)


def test_pressure_loss_goes_with_flow_squared_over_density():
    assert exchanger.pressure_loss_at_flow(9000.0, 2.0, 1.0) == 36_000.0
    assert exchanger.pressure_loss_at_flow(9000.0, 1.0, 0.75) == pytest.approx(12_000.0)


@given(st.floats(280.0, 355.0), st.floats(356.0, 380.0), st.floats(0.3, 0.95))
def test_jacket_water_heats_the_charge_of_a_light_load(outlet, water, effectiveness):
    manifold = cooling.outlet_temperature(outlet, water, effectiveness)
    assert outlet < manifold < water
    assert cooling.specific_heat_rejected(outlet, manifold) < 0


def test_what_does_not_cool_has_no_transfer_units():
    # by definition: no area, no heat (Incropera, section 11.4)
    ratios = np.array([0.0, 0.3, 1.0])
    for arrangement in exchanger.ARRANGEMENTS:
        assert exchanger.ntu(0.0, ratios, arrangement).tolist() == [0.0, 0.0, 0.0], arrangement
        assert exchanger.effectiveness(0.0, ratios, arrangement) == pytest.approx(0.0, abs=1e-15), arrangement


def test_what_is_not_known_gives_no_number_and_no_warning(recwarn):
    for arrangement in exchanger.ARRANGEMENTS:
        for unknown in ((np.nan, 0.5), (0.5, np.nan), (np.nan, np.nan)):
            assert np.isnan(exchanger.ntu(*unknown, arrangement)), (arrangement, unknown)
            assert np.isnan(exchanger.effectiveness(*unknown, arrangement)), (arrangement, unknown)
    assert not recwarn.list
