"""Lesson 06: from the swallow to pounds of air, and from air and fuel to power."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.panels.air_fuel_and_power.opening import FILLING, SMOKE, SWALLOW, set_by_lot
from tests.panels.opening import asked, opened, outcome, readouts, same, shared, typed
from tests.widgets.told import tell

# The specimens. The sums of the shop by hand: ideal gas with 144/53.35, four-stroke ÷ 2; Heywood (1988), chapter 2


def test_the_same_swallow_holds_a_third_more_when_330_becomes_130():
    panel = opened(SWALLOW)
    assert outcome(panel).startswith("34 % more: 61.3 lb/min in place of 45.8 lb/min")
    assert pytest.approx(1.339, abs=5e-4) == (330 + 459.67) / (130 + 459.67)
    pounds = 144 / 53.35 * (28.60 * 0.49115 + 22.0) / 589.67
    cubic_feet = 12.7 / 28.316847 * 0.92 * 900
    assert (pounds, cubic_feet, pounds * cubic_feet) == pytest.approx((0.1650, 371.3, 61.3), rel=1e-3)
    found = readouts(panel.frame)
    assert (found["density"], found["swallowed"], found["air"]) == ("0.1650", "371", "61.3")
    drawn = {row[0]: row[3] for row in panel.frame["shown"]["engines"][0]["rows"]}
    assert drawn == {"air outside": "85", "manifold": "130"}
    si = readouts(tell(panel, "system", system="si"))
    assert (si["density"], si["swallowed"], si["air"], si["outside"]) == ("2.643", "10.5", "27.8", "24.9")


def test_the_same_air_is_880_cubic_feet_outside():
    assert readouts(opened(SWALLOW).frame)["outside"] == "880"
    assert pytest.approx(880, abs=1) == 61.3 / (2.70 * 28.60 * 0.4912 / (85 + 460))


def test_the_wrong_options_of_the_swallow_are_the_slips_they_name():
    texts = [one.words for one in asked(SWALLOW).options]
    for text, value in (("25 %", 1 - 590 / 790), ("61 %", 200 / 330), ("154 %", 330 / 130 - 1)):
        assert any(one.startswith(text) for one in texts)
        assert same(text.split()[0], 100 * value)
    assert pytest.approx((67, 204), abs=0.5) == (100 * (165.6 - 54.4) / 165.6, 100 * (165.6 / 54.4 - 1))


def test_the_table_of_slips_holds_the_usual_ones():
    made = dict(opened(SWALLOW).frame["shown"]["tables"][1]["rows"])
    assert made["filled in every turn (a four-stroke does in every second)"] == "122.5"
    assert made["density outside in place of the manifold's"] == "25.8"
    assert pytest.approx((122.5, 25.8), abs=0.06) == (2 * 61.27, 61.27 * 1.115 / 2.643)


def test_a_two_stroke_fills_in_every_turn():
    frame = tell(opened(SWALLOW), "pick", name="cycle", key="two-stroke")
    assert "1800 times a minute" in frame["shown"]["sentence"]
    assert readouts(frame)["air"] == "122.5"


def test_58_pounds_a_minute_are_087_on_manifold_density_and_206_per_cent_on_that_outside():
    found = readouts(opened(FILLING).frame)
    assert (found["full"], found["on manifold density"], found["on density outside"]) == ("66.6", "0.87", "2.06")
    assert "look at the flow" not in opened(FILLING).frame["shown"]["sentence"]
    assert pytest.approx((0.87, 2.06), abs=6e-3) == (58 / (61.27 / 0.92), 58 / (61.27 / 0.92 * 1.115 / 2.643))


def test_430_horsepower_burn_148_pounds_an_hour_at_an_air_fuel_ratio_of_248():
    frame = tell(opened(SMOKE), "case", label="430 hp")
    found = readouts(frame)
    assert (found["fuel"], found["air-fuel ratio"]) == ("148", "24.8")
    assert pytest.approx((148.35, 24.79), abs=0.01) == (430 * 0.345, 61.3 * 60 / (430 * 0.345))
    assert "above the smoke limit used here, 24" in frame["shown"]["sentence"]
    assert readouts(tell(opened(SMOKE, "si"), "case", label="430 hp"))["fuel"] == "67.3"


def test_60_pounds_a_minute_at_24_allow_435_horsepower():
    frame = tell(opened(SMOKE), "case", label="435 hp")
    assert readouts(frame)["air allows"] == "435"
    assert "at the smoke limit used here" in frame["shown"]["sentence"]
    assert pytest.approx(434.8, abs=0.05) == 60 * 60 / 24 / 0.345


def test_30_per_cent_more_air_allow_520_horsepower_and_give_400():
    panel = opened(SMOKE)
    assert "520 hp in place of 400 hp" in outcome(panel)
    assert "maker's rating" in outcome(panel)
    frame = tell(panel, "case", label="30 % more air")
    found = readouts(frame)
    assert (found["air allows"], found["air-fuel ratio"]) == ("520", "31.2")
    assert frame["shown"]["sentence"].startswith("400 hp")
    assert readouts(tell(panel, "type", name="power", text="520"))["air-fuel ratio"] == "24.0"


def test_too_little_air_smokes_and_the_setting_is_called_common_practice():
    panel = opened(SMOKE)
    frame = typed(panel, power="450")
    assert "It smokes" in frame["shown"]["sentence"]
    assert "common practice, not a specification" in frame["shown"]["pictures"][0]["title"]
    assert "above the smoke limit" in typed(panel, smoke_limit="19")["shown"]["sentence"]
    limits = {row[0]: row[1:] for row in panel.frame["shown"]["tables"][1]["rows"]}
    assert limits["19.0"] == (str(round(400 * 24 / 19)), "smoke is seen")


# Worked examples of textbooks, typed into the panels


def test_gupta_example_15_1_is_134_per_cent_on_ambient_density():
    """Gupta, example 15.1, p. 474: 101.3 kPa and 288 K, pressure ratio 1.6, 343.9 K, filled to the brim: 134 %."""
    frame = typed(
        opened(FILLING, "si"),
        barometer="101.3",
        ambient_temperature="14.85",
        boost="60.78",
        manifold_temperature="70.75",
        displacement="3",
        engine_speed="1800",
        mass_flow=f"{60 * 0.073876:.5f}",
    )
    found = readouts(frame)
    assert (found["on density outside"], found["on manifold density"]) == ("1.34", "1.00")


def test_mathur_and_sharma_example_18_6_burns_54_kilograms_an_hour():
    """Mathur and Sharma, example 18.6, p. 378: 15.9 kW, 5.4 kg/h, 339.6 g/kW·h, 31 of air to 1 of fuel."""
    frame = typed(
        opened(SMOKE, "si"),
        mass_flow=f"{31 * 5.4 / 60:.4f}",
        power="15.9",
        specific_fuel_consumption="339.6",
        smoke_limit="31",
    )
    found = readouts(frame)
    assert (found["fuel"], found["air-fuel ratio"], found["air allows"]) == ("5.4", "31.0", "16")


def test_mathur_and_sharma_example_18_8_has_an_air_fuel_ratio_of_21():
    """Mathur and Sharma, example 18.8, p. 388: 66 kW, 0.235 kg/kW·h, 0.0902 kg/s of air; worked out 20.95."""
    frame = typed(opened(SMOKE, "si"), mass_flow="5.41216", power="66", specific_fuel_consumption="235")
    assert float(readouts(frame)["air-fuel ratio"]) == pytest.approx(20.95, abs=0.06)


# Every number is that of the sums


@given(st.data())
def test_every_flow_is_density_times_swallow(data):
    names = ("manifold_temperature", "boost", "engine_speed", "displacement", "volumetric_efficiency")
    found, frame = set_by_lot(data, SWALLOW, "si", names)
    density = (28.60 * 3.386389 + found["boost"]) / (0.28705287 * (found["manifold_temperature"] + 273.15))
    swallow = found["displacement"] / 1000 * found["engine_speed"] / 2 * found["volumetric_efficiency"]
    shown = readouts(frame)
    assert float(shown["density"]) == pytest.approx(density, abs=6e-4)
    assert float(shown["swallowed"]) == pytest.approx(swallow, abs=0.051)
    assert float(shown["air"]) == pytest.approx(density * swallow, rel=2e-4, abs=0.051)
    outside = 28.60 * 3.386389 / (0.28705287 * (29.4444 + 273.15))
    assert float(shown["outside"]) == pytest.approx(density * swallow / outside, rel=2e-4, abs=0.051)


@given(st.data())
def test_every_power_is_air_over_ratio_and_consumption(data):
    names = ("mass_flow", "power", "specific_fuel_consumption", "smoke_limit")
    found, frame = set_by_lot(data, SMOKE, "us", names)
    burnt = found["power"] * found["specific_fuel_consumption"]
    if frame["error"]:
        assert not 5 <= 60 * found["mass_flow"] / burnt <= 200
        return
    shown = readouts(frame)
    allowed = 60 * found["mass_flow"] / found["smoke_limit"] / found["specific_fuel_consumption"]
    assert same(shown["fuel"], burnt)
    ratio = 60 * found["mass_flow"] / burnt
    assert same(shown["air-fuel ratio"], ratio)
    assert same(shown["air allows"], allowed)
    if abs(ratio - found["smoke_limit"]) > 0.06:
        assert ("It smokes" in frame["shown"]["sentence"]) == (ratio < found["smoke_limit"])


@given(st.floats(50, 390), st.floats(0, 38), st.floats(700, 2300))
def test_cooler_and_more_boost_is_more_air_and_speed_changes_both_volumes_alike(hot, boost, speed):
    panel = shared(SWALLOW)
    tell(panel, "reset")

    def found(**texts):
        return {name: float(text) for name, text in readouts(typed(panel, **texts)).items()}

    here = found(manifold_temperature=f"{hot:.3f}", boost=f"{boost:.3f}", engine_speed=f"{speed:.3f}")
    cooler, turned = found(manifold_temperature=f"{hot - 10:.3f}"), found(engine_speed=f"{2 * speed:.3f}")
    assert cooler["density"] > here["density"]
    assert cooler["air"] >= here["air"]  # one decimal may not tell them apart
    assert cooler["swallowed"] == here["swallowed"]
    assert turned["air"] == pytest.approx(2 * cooler["air"], abs=0.2)
    assert found(boost=f"{boost + 2:.3f}")["density"] > turned["density"]
