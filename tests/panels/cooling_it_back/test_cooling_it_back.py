"""Lesson 04: how far an aftercooler cools back, when it heats, and what limits it."""

import json
from types import SimpleNamespace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.panels.opening import opened, outcome, places_of, readouts, same, shared, slid, words
from tests.widgets.told import line, tell
from turbomath.panels.cooling_it_back import LESSON, what_limits
from turbomath.panels.cooling_it_back.picture_temperature_bars import picture_temperature_bars
from turbomath.physics import exchanger

BACK, LIGHT, COLD, LIMITS = "cooling_it_back", "light_load", "cold_morning", "what_limits"
WORDS = words("cooling_it_back")


# The specimens: (T2 − T3) ÷ (T2 − Tm), Kays and London (1984), chapter 2; the numbers by hand


def test_at_080_air_of_77_degrees_brings_336_to_129():
    panel = opened(BACK)
    assert outcome(panel) == "129 °F. The greatest possible drop is 259 F°; 80 % of it is 207 F°."
    assert readouts(panel.frame)["air-to-air"] == "129"
    assert pytest.approx((129, 67, 269), abs=0.5) == (336 - 0.8 * 259, 336 * 0.2, 336 * 0.8)
    tell(panel, "system", system="si")
    assert outcome(panel) == "54 °C. The greatest possible drop is 144 C°; 80 % of it is 115 C°."


def test_a_hot_day_brings_352_to_158():
    panel = opened(BACK)
    frame = tell(panel, "case", label="hot day, 104 °F")
    assert "352 °F becomes 158 °F" in frame["shown"]["sentence"]
    hot = 569.67 * (1 + (2.6 ** (2 / 7) - 1) / 0.74) - 459.67  # Heywood (1988), section 6.8
    assert (hot, hot - 0.78 * (hot - 104)) == pytest.approx((352, 158.4), abs=0.5)


def test_water_of_190_degrees_heats_a_charge_of_160():
    panel = opened(LIGHT)
    assert outcome(panel).startswith("Hotter: 183 °F")  # 160 + 0.75 × 30 = 182.5
    assert "colder than the water: the water heats it to 183 °F" in panel.frame["shown"]["sentence"]
    assert "takes" in tell(panel, "case", label="full load")["shown"]["sentence"]


def test_on_a_cold_morning_the_jacket_water_keeps_the_charge_warm():
    panel = opened(COLD)
    assert "140 °F against −4 °F" in outcome(panel)
    found = readouts(panel.frame)
    assert (found["by water"], found["air-to-air"]) == ("140", "−4")
    assert "condense and freeze" in outcome(panel)


def test_an_effectiveness_of_1_is_called_impossible():
    frame = tell(opened(BACK), "type", name="effectiveness", text="1")
    assert "no aftercooler does it" in frame["shown"]["sentence"]
    assert "Out of range" in line(frame, "effectiveness")["fault"]
    frame = tell(opened(BACK), "type", name="effectiveness", text="1.2")
    assert "cannot be" in line(frame, "effectiveness")["fault"]


def test_the_per_cent_of_the_thermometer_changes_with_the_scale():
    panel = opened(BACK)
    fahrenheit = readouts(panel.frame)["drop over °F"]
    celsius = readouts(tell(panel, "system", system="si"))["drop over °C"]
    assert (fahrenheit, celsius) == ("62", "68")
    assert pytest.approx((0.62, 0.68), abs=0.005) == (207.2 / 336, 115.1 / 168.9)


def test_a_separate_circuit_has_its_name_on_the_bars():
    frame = tell(opened(BACK), "pick", name="water", key="separate circuit")
    assert "separate circuit: compressor outlet 336 °F" in frame["shown"]["pictures"][0]["alt"]


def test_with_the_fan_off_the_medium_limits_and_no_core_passes_it():
    panel = opened(LIMITS)
    assert "The core limits" in panel.frame["shown"]["sentence"]
    frame = tell(panel, "case", label="fan off")
    assert "The cooling air limits" in frame["shown"]["sentence"]
    limit = float(readouts(frame)["limit"])
    assert limit == pytest.approx(0.15 * 1900 / 465, abs=5e-4)
    before = float(readouts(frame)["exact"])
    grown = readouts(tell(panel, "type", name="conductance", text="20000"))
    assert before < float(grown["exact"]) <= limit


# Every number is the library's


NAMES = ("effectiveness", "compressor_outlet_temperature", "core_face_temperature", "engine_coolant_temperature")


@given(st.data())
def test_every_temperature_is_drop_over_greatest_drop(data):
    panel = shared(BACK, data.draw(st.sampled_from(["us", "si"])))
    texts = [data.draw(places_of(panel, name)) for name in NAMES]
    frame = slid(panel, dict(zip(NAMES, texts, strict=True)))
    json.dumps(frame, allow_nan=False)
    share, hot, air, water = map(float, texts)  # the equation holds in °F and in °C alike
    found = readouts(frame)
    assert same(found["air-to-air"], hot - share * (hot - air))
    assert same(found["by water"], hot - share * (hot - water))
    assert same(found["its drop"], share * (hot - air))
    assert same(found["greatest drop"], hot - air)
    rows = frame["shown"]["pictures"][0]["rows"]
    for text, value in zip(rows[2][1:], (hot, hot - share * (hot - air), air), strict=True):
        assert same(text, value)


@given(st.data())
def test_every_effectiveness_is_the_librarys(data):
    panel, names = shared(LIMITS, "si"), ("medium_flow_ratio", "charge_flow_ratio", "conductance")
    texts = {name: data.draw(places_of(panel, name)) for name in names}
    found, frame = {name: float(text) for name, text in texts.items()}, slid(panel, texts)
    charge, medium = 465 * found["charge_flow_ratio"], 1900 * found["medium_flow_ratio"]
    core = exchanger.conductance_at_flows(
        found["conductance"], found["charge_flow_ratio"], found["medium_flow_ratio"], 0.5
    )
    exact = exchanger.effectiveness_from_conductance(core, charge, medium, "crossflow, both unmixed")
    shown = readouts(frame)
    assert same(shown["exact"], exact)
    assert same(shown["limit"], min(1, medium / charge))
    assert exact <= min(1, medium / charge)
    assert abs(float(shown["usual rule"]) - exact) < 0.012


def test_the_exact_effectiveness_is_that_of_a_march_over_the_core():
    found = float(readouts(opened(LIMITS, "si").frame)["exact"])
    assert found == pytest.approx(1 - left(1100 / 465, 465 / 1900), abs=6e-4)


def left(units, ratio):
    """Return the charge temperature left, by marching over a fine grid: no series, no closed form."""
    cells = 120
    step, side = units / cells, ratio * units / cells
    charge = np.ones(cells)
    for _ in range(cells):  # along the charge
        medium = 0.0
        for turn in range(cells):
            mean = (charge[turn] - medium) / (1 + step / 2 + side / 2)
            charge[turn] -= step * mean
            medium += side * mean
    return charge.mean()


@given(st.floats(0.05, 1.4), st.floats(0.3, 1.4), st.floats(200, 2900))
def test_more_cooling_air_and_more_core_are_more_effective_and_more_charge_is_less(medium, charge, core):
    def exact(medium, charge, core):
        record = SimpleNamespace(medium_flow_ratio=medium, charge_flow_ratio=charge, conductance=core)
        return what_limits.effectivenesses(record, medium)[0]

    here = exact(medium, charge, core)
    assert exact(medium + 0.05, charge, core) > here
    assert exact(medium, charge, core * 1.05) > here
    assert exact(medium, charge + 0.05, core) < here


# What cannot be, and what is kept


# The words of the lesson


def test_the_worked_numbers_are_true():
    for sum_, value in (
        ("336 − 77 = 259", 259),
        ("0.80 × 259 = 207", 207.2),
        ("336 − 207 = **129", 129),
        ("0.80 × 143.9 = 115.1", 115.12),
        ("168.9 − 115.1 = **53.8", 53.8),
        ("351.7 − 0.78 × 247.7 = **158", 158.49),
        ("160 + 22.5 = **182.5", 182.5),
        ("60 − 0.80 × 80 = **−4", -4),
        ("60 + 0.80 × 100 = **140", 140),
        ("200 ÷ 250 = **0.80", 0.8),
    ):
        assert sum_ in WORDS
        assert same(sum_.split("= ")[-1].strip("*"), value), sum_
    assert pytest.approx((0.61, 0.67), abs=0.006) == (200 / 330, 112 / 166)


def test_the_numbers_of_the_ticket_are_true():
    first = (200 / 330, 130 / 330, 200 / 250, 50 / 250)
    second = (109 / (331 - 77), 109 / (331 - 185), 109 / (331 - 192), 109 / 331)
    for question, values in zip(LESSON.ticket, (first, second), strict=False):
        assert [f"{value:.2f}" for value in values] == [one.words for one in question.options[:4]]


def test_the_pitfalls_of_the_trade_are_named():
    for said in ("at the core face", "coolant **in**", "An effectiveness of 1", "no per cent of temperature drop"):
        assert said in WORDS


def test_a_manifold_that_was_not_cooled_has_the_colour_of_hot_air():
    groups = (("none", (450.0, 450.0, None)), ("water", (340.0, 355.0, 360.0)), ("air", (450.0, 330.0, 300.0)))
    drawn = picture_temperature_bars("Bars", groups, "si", ends=(250.0, 500.0)).series
    assert [one.role for one in drawn if one.kind == "band" and one.label == "manifold"] == ["hot", "hot", "cooled"]
