"""Lesson 06, fifth panel: hotter exhaust, and a choked outlet, before and behind the same turbine."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.panels.air_fuel_and_power.opening import set_by_lot
from tests.panels.opening import opened, outcome, readouts
from tests.widgets.told import tell
from turbomath.panels.air_fuel_and_power import the_wheel, who_pays
from turbomath.widgets.controls import at_start

WHEEL = "the_wheel"
PSI, MERCURY, POUND = 6894.757, 3386.389, 0.45359237 / 60


def by_hand(hot, back, air=60.0, efficiency=0.70):
    """Return (psi before, psi after, hp to the compressor): °F, inHg, lb/min; the ellipse law of Stodola.

    The turbine is the one that needs an expansion ratio of 2.40 for 83 hp (Saravanamuttoo, section 2.2: 1,148, 4/3).
    """
    after = (28.60 + back) * MERCURY / PSI
    start, mass = (28.60 + 1.5) * MERCURY / PSI, air * 25 / 24 * POUND
    narrow = start**2 * (2.398**2 - 1) / ((62.5 * POUND) ** 2 * (1100 + 459.67))
    before = math.sqrt(after**2 + narrow * mass**2 * (hot + 459.67))
    drop = efficiency * (hot + 459.67) / 1.8 * (1 - (after / before) ** 0.25)
    return before, after, 0.96 * mass * 1148 * drop / 745.7


def test_it_begins_where_the_panel_before_it_ends():
    start, before = at_start(the_wheel.CONTROLS), who_pays.shaft(at_start(who_pays.CONTROLS))
    found = the_wheel.wheel(start)
    assert found.given == pytest.approx(before.given)
    assert found.before == pytest.approx(before.before)
    assert found.warmed == pytest.approx(at_start(who_pays.CONTROLS).compressor_outlet_temperature)


@pytest.mark.parametrize(("case", "hot", "back"), [("100 F° hotter", 1200, 1.5), ("outlet choked", 1100, 8.0)])
def test_the_cases_are_what_the_textbook_makes_of_them(case, hot, back):
    frame = tell(opened(WHEEL), "case", label=case)
    before, after, power = by_hand(hot, back)
    bars = {tuple(row[:2]): row[2] for row in frame["shown"]["pictures"][0]["rows"]}
    assert float(readouts(frame)["compressor can take"]) == pytest.approx(power, abs=0.6)
    assert float(readouts(frame)["expansion ratio"]) == pytest.approx(before / after, abs=0.003)
    assert float(bars["exhaust, absolute pressure", "before the turbine"].split()[0]) == pytest.approx(before, abs=0.06)


def test_a_hundred_degrees_are_about_a_tenth_and_the_right_option_says_so():
    panel = opened(WHEEL, option=2)
    assert panel.frame["asked"][0]["reply"].startswith("Now choke the outlet")
    assert "91 hp in place of 83 hp" in outcome(panel)
    assert "choked to 8.00 inHg it is 70 hp" in outcome(panel)
    assert "9 % more than before" in tell(panel, "case", label="100 F° hotter")["shown"]["sentence"]
    assert "16 % less than before" in tell(panel, "case", label="outlet choked")["shown"]["sentence"]


def test_the_engine_is_drawn_first_with_the_power_through_its_shaft():
    frame = tell(opened(WHEEL), "case", label="100 F° hotter")
    (engine,) = frame["shown"]["engines"]
    texts = [one["text"] for one in engine["wide"]["words"]]
    assert "91 hp" in texts
    assert "1200 °F" in texts
    assert "Through the shaft: 91 hp." in engine["alt"]


@given(st.data())
def test_any_turbine_gives_what_the_gas_loses(data):
    names = ("turbine_inlet_temperature", "exhaust_back_pressure", "turbine_efficiency", "mass_flow")
    found, frame = set_by_lot(data, WHEEL, "us", names)
    given_hp = by_hand(*(found[name] for name in (names[0], names[1], names[3], names[2])))[2]
    assert float(readouts(frame)["compressor can take"]) == pytest.approx(given_hp, rel=5e-3, abs=0.6)


@given(st.floats(700.0, 1000.0), st.floats(0.0, 40e3), st.floats(1.0, 60.0), st.floats(100.0, 10e3))
def test_hotter_exhaust_never_gives_less_and_a_choked_outlet_never_more(hot, back, hotter, choked):
    start = at_start(the_wheel.CONTROLS)._replace(turbine_inlet_temperature=hot, exhaust_back_pressure=back)
    plain = the_wheel.wheel(start)
    assert the_wheel.wheel(start._replace(turbine_inlet_temperature=hot + hotter)).taken > plain.taken
    assert the_wheel.wheel(start._replace(exhaust_back_pressure=back + choked)).taken < plain.taken


def test_a_wheel_too_fast_and_an_exhaust_too_hot_are_told():
    panel = opened("the_wheel")
    assert "limit" not in panel.frame["shown"]["sentence"]
    hot = tell(panel, "type", name="turbine_inlet_temperature", text="1400")["shown"]["sentence"]
    assert "The exhaust would be too hot: 1400 °F before the turbine, 20 F° over the usual limit of 1380 °F." in hot
    fast = tell(panel, "type", name="mass_flow", text="80")["shown"]["sentence"]
    assert "The compressor wheel would turn too fast: its rim runs at" in fast  # sqrt(cp x rise / 0.75) over 530 m/s
