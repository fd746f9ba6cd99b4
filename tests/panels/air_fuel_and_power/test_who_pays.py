"""Lesson 06, fourth panel: the shaft in balance, and who pays for the boost."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.panels.air_fuel_and_power.opening import PAYS, set_by_lot
from tests.panels.opening import opened, outcome, readouts, shared, slid
from tests.widgets.told import tell
from turbomath.air import exhaust
from turbomath.panels.air_fuel_and_power.who_pays import CONTROLS, shaft
from turbomath.widgets.controls import at_start


def test_a_compressor_from_85_to_330_degrees_takes_83_horsepower_and_the_exhaust_pays():
    panel = opened(PAYS)
    assert "The exhaust pays 83 hp" in outcome(panel)
    assert pytest.approx((62.0, 83.2), abs=0.05) == (0.45359 * 1.00469 * 245 / 1.8, 0.45359 * 1.00469 * 245 / 1.3423)
    bars = {tuple(row[:2]): row[2] for row in panel.frame["shown"]["pictures"][0]["rows"]}
    assert bars["power", "compressor takes"] == "83 hp"
    assert bars["power", "turbine gives"] == "87 hp"
    assert bars["change of temperature", "exhaust cools by"] == "214 F°"
    assert bars["change of temperature", "air warms by"] == "245 F°"
    assert readouts(panel.frame)["compressor takes"] == "83"
    assert readouts(tell(panel, "system", system="si"))["compressor takes"] == "62"


def test_a_worn_turbine_needs_more_pressure_before_it_and_the_crankshaft_pays():
    panel = opened(PAYS)
    assert "under the manifold" in panel.frame["shown"]["sentence"]
    frame = tell(panel, "case", label="worn turbine")
    assert "10.7 psi over the manifold" in frame["shown"]["sentence"]
    assert "the crankshaft pays" in frame["shown"]["sentence"]
    assert readouts(frame)["exhaust out"] == "886"  # the same work, so the same heat


def expanded(temperature, ratio, efficiency):
    """Return the exhaust behind a turbine, by many small steps of dT/T = (γ − 1)/γ dp/p without losses."""
    left, steps = 1.0, 4000
    for _ in range(steps):
        left *= 1 - 1 / 4 * math.log(ratio) / steps
    return temperature * (1 - efficiency * (1 - left))


@given(st.data())
def test_the_shaft_is_in_balance_and_the_gas_expands_as_it_must(data):
    names = ("turbine_inlet_temperature", "turbine_efficiency", "compressor_outlet_temperature", "mass_flow")
    found, frame = set_by_lot(data, PAYS, "si", names)
    if frame["error"]:
        assert "no pressure before this turbine" in frame["error"]["words"]
        return
    hot, cold, air = found["turbine_inlet_temperature"], float(readouts(frame)["exhaust out"]), found["mass_flow"] / 60
    rise = found["compressor_outlet_temperature"] - (85 - 32) / 1.8
    assert air * 25 / 24 * 1.148 * (hot - cold) * 0.96 == pytest.approx(air * 1.00469 * rise, abs=0.56 * air * 1.148)
    rows = dict(row[:2] for row in frame["shown"]["tables"][0]["rows"])
    ratio = float(rows["expansion ratio"])
    assert cold == pytest.approx(expanded(hot + 273.15, ratio, found["turbine_efficiency"]) - 273.15, abs=2.0)
    before, after = 28.60 * 3.386389 + 1.5 * 3.386389, float(readouts(frame)["before turbine"])
    assert after == pytest.approx(before * ratio, abs=0.51 + 0.0051 * before)
    over = float(readouts(frame)["over manifold"].replace("−", "-"))
    assert over == pytest.approx(after - 28.60 * 3.386389 - 22 * 6.894757, abs=1.01)


@given(st.floats(800, 1390), st.floats(0.55, 0.8), st.floats(150, 400))
def test_hotter_exhaust_and_a_better_turbine_need_less_pressure_and_a_hotter_outlet_more(hot, efficiency, outlet):
    panel = shared(PAYS)
    tell(panel, "reset")

    def needed(**texts):
        base = {
            "turbine_inlet_temperature": f"{hot:.4f}",
            "turbine_efficiency": f"{efficiency:.5f}",
            "compressor_outlet_temperature": f"{outlet:.4f}",
        }
        frame = slid(panel, base | texts, "type")
        return 1e9 if frame["error"] else float(readouts(frame)["before turbine"])

    here = needed()
    assert needed(turbine_inlet_temperature=f"{hot + 60:.4f}") <= here
    assert needed(turbine_efficiency=f"{efficiency + 0.04:.5f}") <= here
    assert needed(compressor_outlet_temperature=f"{outlet + 20:.4f}") >= here
    assert needed(exhaust_back_pressure="4") > here or here == 1e9


def test_burnt_gas_whose_specific_heat_rises_needs_the_same_pressure():
    """The gas of CnHm burnt in dry air, NASA's polynomials: the same work at the same efficiency, within 1 %."""
    start, found = at_start(CONTROLS), shaft(at_start(CONTROLS))
    gas, hot = exhaust.choose(1.8, 24 / 14.45), start.turbine_inlet_temperature
    cooled = gas.turbine_outlet_temperature(found.before, hot, found.after, start.turbine_efficiency)
    given = start.mass_flow * 25 / 24 * (gas.enthalpy(found.before, hot) - gas.enthalpy(found.after, cooled))
    assert given == pytest.approx(found.given, rel=0.01)
    assert cooled == pytest.approx(found.cooled, abs=3.0)
