"""Lesson 05: three aftercoolers, what a pressure loss leaves, the exit ticket, and the numbers the lesson prints."""

import re

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.panels.opening import asked, number, opened, outcome, same, shared, slid, unseen, words
from tests.panels.what_the_engine_gains.opening import PSI
from tests.widgets.told import line, tell
from turbomath.lab.report.sentences import WORN_COMPRESSOR
from turbomath.panels.what_the_engine_gains import LESSON, three_aftercoolers
from turbomath.physics import charge, cooling

INHG = 3386.389
THREE, TRADE = "three_aftercoolers", "cooler_trade"
TEXT = words("what_the_engine_gains")


def kelvin(fahrenheit):
    return (fahrenheit + 459.67) / 1.8


def rows(frame, which=0):
    return {row[0]: row[1:] for row in frame["shown"]["tables"][which]["rows"]}


def test_the_reference_case_is_that_of_the_shop_tables():
    """Worked by hand with gamma 7/5 and T2 = T1 + (T2s − T1)/eta (Heywood, section 6.8, number from memory)."""
    found = rows(opened(THREE).frame)
    barometer, inlet = 29.10 * INHG, 29.10 * INHG - 12 * 249.0889
    for name, loss, effectiveness, medium in (
        ("no aftercooler", 0, 0, 77),
        ("jacket-water", 0.8, 0.75, 185),
        ("air-to-air", 1.5, 0.80, 77),
    ):
        ratio = (barometer + (24 + loss) * PSI) / inlet
        hot = kelvin(80) * (1 + (ratio ** (2 / 7) - 1) / 0.74)
        cold = hot - effectiveness * (hot - kelvin(medium))
        texts = found[name]
        assert same(texts[1], ratio)
        assert same(texts[2], hot * 1.8 - 459.67)
        assert same(texts[3], cold * 1.8 - 459.67)
        assert same(texts[4], (barometer + 24 * PSI) / (287.05287 * cold) / 16.01846337)
        assert same(texts[8], ratio * inlet * (1 - cold / hot) / PSI)
    assert [found[name][2] for name in three_aftercoolers.NAMES] == ["326", "331", "336"]
    assert [found[name][3] for name in three_aftercoolers.NAMES] == ["326", "222", "129"]


def test_at_equal_boost_the_air_to_air_one_gets_a_third_more():
    frame = opened(THREE).frame
    assert [one["text"] for one in frame["shown"]["readouts"]] == ["24.0", "24.0", "24.0", "33.4", "30.2"]
    assert "15.3 % more air with jacket-water and 33.4 % more air with air-to-air" in frame["shown"]["sentence"]


@given(st.sampled_from(["air", "density"]), st.integers(10, 190), st.integers(20, 90), st.integers(10, 95))
def test_equal_air_and_equal_density_are_equal(equal, boost, outside, efficiency):
    panel, texts = shared(THREE), {}
    unseen(panel, "pick", name="equal", key=equal)
    for name, share in (
        ("boost", boost / 200),
        ("ambient_temperature", outside / 100),
        ("compressor_efficiency", efficiency / 100),
    ):
        at = line(panel.frame, name)
        texts[name] = f"{at['low'] + share * (at['high'] - at['low']):.9g}"
    frame = slid(panel, texts)
    record = panel._desk.record()
    found = three_aftercoolers.charges(record, three_aftercoolers.boosts(record)).manifold_density
    assert found == pytest.approx(np.full(3, found[0]), rel=1e-9)
    kept = 0 if equal == "air" else 2
    assert three_aftercoolers.boosts(record)[kept] == pytest.approx(record.boost, rel=1e-9)
    points = [one["y"][0] for one in frame["shown"]["pictures"][0]["series"] if one["kind"] == "points"]
    guide = next(one for one in frame["shown"]["pictures"][0]["series"] if one["role"] == "ambient")
    assert points == pytest.approx([guide["y"][0]] * 3)
    assert frame["shown"]["readouts"][3]["text"] == "0.0"


def test_the_gauge_falls_for_the_same_air_and_must_rise_without_an_aftercooler():
    panel = opened(THREE)
    texts = [one["text"] for one in tell(panel, "pick", name="equal", key="air")["shown"]["readouts"]][:3]
    assert texts[0] == "24.0"
    assert number(texts[0]) > number(texts[1]) > number(texts[2])
    assert f"from 24.0 psi to {texts[2]} psi" in outcome(panel)
    texts = [one["text"] for one in tell(panel, "pick", name="equal", key="density")["shown"]["readouts"]][:3]
    assert texts[2] == "24.0"
    assert number(texts[0]) > number(texts[1]) > number(texts[2])


def test_a_worn_compressor_makes_the_aftercooling_gain_look_better_and_the_charge_worse():
    panel = opened(THREE)
    healthy = rows(panel.frame)["air-to-air"]
    worn = rows(tell(panel, "type", name="compressor_efficiency", text="0.60"))["air-to-air"]
    assert (healthy[6], worn[6]) == ("30.2", "37.2")
    assert (healthy[5], worn[5]) == ("144.3", "139.4")
    assert "from 30.2 to 37.2 %" in TEXT
    assert "from 144.3 to 139.4 %" in TEXT
    assert WORN_COMPRESSOR.split(":")[0] in TEXT.replace("*", "").replace(". A worn compressor", ": a worn compressor")


def specimen():
    """23.8 psi at the compressor, 330 to 130 °F, 1.8 psi lost, 28.6 inHg: the lesson's own example, INVENTED."""
    before = 28.6 * INHG + 23.8 * PSI
    return before, before - 1.8 * PSI, kelvin(330), kelvin(130)


def test_the_specimens_of_the_lesson_are_the_librarys():
    before, after, hot, cold = specimen()
    assert 100 * charge.density_gain(before, hot, after, cold) == pytest.approx(27.5, abs=0.05)
    assert 100 * charge.density_gain(before, hot, before, cold) == pytest.approx(33.9, abs=0.05)
    assert cooling.break_even_pressure_loss(before, hot, cold) / PSI == pytest.approx(9.6, abs=0.05)
    same_air = charge.pressure(charge.density(after, hot), cold) - 28.6 * INHG
    uncooled = charge.pressure(charge.density(after, cold), hot) - 28.6 * INHG
    assert (after - 28.6 * INHG) / PSI == pytest.approx(22.0, abs=0.05)
    assert same_air / PSI == pytest.approx(12.9, abs=0.05)
    assert uncooled / PSI == pytest.approx(34.2, abs=0.05)
    heat = 60 * 0.45359237 / 60 * cooling.specific_heat_rejected(hot, cold)
    assert heat == pytest.approx(50.7e3, rel=2e-3)
    assert heat / 1055.056 * 60 == pytest.approx(2880, rel=5e-4)  # NIST SP 811: 1 Btu (IT) = 1055.056 J


@pytest.mark.parametrize(
    ("system", "texts"),
    [("us", ["27.5", "9.6", "2880", "12.9", "34.2"]), ("si", ["27.5", "66.1", "50.6", "88.7", "236.0"])],
)
def test_the_third_panel_opens_with_the_specimens(system, texts):
    frame = tell(opened(TRADE), "system", system=system)
    assert [one["text"] for one in frame["shown"]["readouts"]] == texts
    assert "33.9 % more air" in frame["shown"]["sentence"]
    assert "27.5 % is left" in frame["shown"]["sentence"]


@given(st.tuples(*[st.integers(0, 100)] * 4))
def test_every_number_of_the_trade_is_the_librarys(shares):
    panel, texts = shared(TRADE), {}
    names = (
        "compressor_outlet_pressure",
        "compressor_outlet_temperature",
        "manifold_temperature",
        "cooler_pressure_loss",
    )
    at = []
    for name, share in zip(names, shares, strict=True):
        one = line(panel.frame, name)
        text = f"{one['low'] + share / 100 * (one['high'] - one['low']):.9g}"
        texts[name] = text
        at.append(kelvin(float(text)) if "temperature" in name else float(text) * PSI)
    frame = slid(panel, texts)
    before, hot, cold, loss = at
    barometer = 28.6 * INHG
    left = charge.density_gain(before, hot, before - loss, cold)
    cooled, uncooled = ((before - loss) * ratio - barometer for ratio in (cold / hot, hot / cold))
    expected = (
        100 * left,
        cooling.break_even_pressure_loss(before, hot, cold) / PSI,
        cooling.specific_heat_rejected(hot, cold) * 0.45359237 / 1055.056 * 60,
        cooled / PSI,
        uncooled / PSI,
    )
    assert frame["error"] is None
    for readout, value in zip(frame["shown"]["readouts"], expected, strict=True):
        assert same(readout["text"], value), readout
    gained = charge.density_gain(before, hot, before, cold) > 0
    assert ("nothing is left" in frame["shown"]["sentence"]) == (gained and left <= 0)


def test_a_loss_at_break_even_leaves_nothing():
    panel = opened(TRADE)
    even = panel.frame["shown"]["readouts"][1]["text"]
    there = tell(panel, "type", name="cooler_pressure_loss", text=even)["shown"]
    assert abs(number(there["readouts"][0]["text"])) < 0.2
    last = tell(panel, "type", name="cooler_pressure_loss", text="12")["shown"]
    assert last["readouts"][0]["text"].startswith("−")
    assert "nothing is left" in last["sentence"]
    refused = tell(panel, "type", name="cooler_pressure_loss", text="90")["error"]["words"]
    assert "more than the whole pressure" in refused


def test_the_ticket_and_the_predictions_meet_the_mistakes_of_this_lesson():
    questions = (*LESSON.ticket, asked(THREE), asked(TRADE))
    codes = {option.mistake for question in questions for option in question.options}
    assert {"M4", "M8", "M14"} <= codes


def test_the_numbers_on_the_ticket_are_true():
    assert pytest.approx(1.275, abs=5e-4) == 1.339 * 0.952
    assert pytest.approx(29.1) == 33.9 - 4.8
    assert pytest.approx(40.6, abs=0.06) == 100 * (1.339 / 0.952 - 1)
    assert pytest.approx(0.048, abs=5e-4) == 1.8 / (23.8 + 14.05)
    assert pytest.approx(0.18, abs=0.005) == 1 - 18 / 22


SUMS = re.findall(r"\| ([\d.]+(?: [+−×÷] [\d.]+)+) = \**([\d.,]*\d)", TEXT)


@pytest.mark.parametrize("sum_", SUMS, ids=lambda one: one[0])
def test_the_sums_in_the_worked_tables_are_right(sum_):
    written, result = sum_[0], sum_[1].replace(",", "")
    steps = written.replace("−", "-").split(" ")
    value = float(steps[0])
    for sign, figure in zip(steps[1::2], steps[2::2], strict=True):
        value = {
            "+": value + float(figure),
            "-": value - float(figure),
            "×": value * float(figure),
            "÷": value / float(figure),
        }[sign]
    assert value == pytest.approx(float(result), abs=0.51 * 10 ** -len(result.partition(".")[2]))


def test_the_worked_tables_hold_every_specimen():
    for bold in (
        "**33.9 % denser**",
        "**27.5 % denser**",
        "**9.6 psi**",
        "**12.9 psi**",
        "**34.2 psi**",
        "**2,880 Btu/min**",
        "**50.7 kW**",
    ):
        assert bold in TEXT
    assert pytest.approx(9.6, abs=0.05) == 37.85 * (1 - 590 / 790)
    assert pytest.approx(66.2, abs=0.05) == 261.0 * (1 - 327.4 / 438.6)
    assert pytest.approx(50.7, abs=0.05) == 0.4536 * 1.005 * (165.6 - 54.4)
    assert len(SUMS) >= 16
