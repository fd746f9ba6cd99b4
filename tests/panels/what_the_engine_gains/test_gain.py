"""Theory on the first panel of lesson 05: the library's numbers over the whole range of every control."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.panels.opening import asked, number, same, shared, slid, unseen
from tests.panels.opening import opened as opened_panel
from tests.panels.what_the_engine_gains.opening import PSI
from tests.widgets.told import line, tell
from turbomath.engine import path
from turbomath.panels.what_the_engine_gains.gain import CONTROLS
from turbomath.physics import charge, compression, cooling

# NIST Special Publication 811 (2008), appendix B
INCH_OF_MERCURY, INCH_OF_WATER, POUND_PER_CUBIC_FOOT = 3386.389, 249.0889, 16.01846337
TO_SI = {
    "us": {
        "boost": lambda x: x * PSI,
        "barometer": lambda x: x * INCH_OF_MERCURY,
        "intake_restriction": lambda x: x * INCH_OF_WATER,
        "temperature": lambda x: (x + 459.67) / 1.8,
    },
    "si": {
        "boost": lambda x: x * 1e3,
        "barometer": lambda x: x * 1e3,
        "intake_restriction": lambda x: x * 1e3,
        "temperature": lambda x: x + 273.15,
    },
}
ALIKE = {
    "cooler_pressure_loss": "boost",
    "ambient_temperature": "temperature",
    "cooling_medium_temperature": "temperature",
}


def in_si(name, text, system):
    if name == "relative_humidity":
        return float(text) / 100
    return TO_SI[system].get(ALIKE.get(name, name), float)(float(text))


def opened():
    return opened_panel(GAIN, option=2)


GAIN = "what_the_engine_gains"


@st.composite
def settings_of_all(draw):
    system = draw(st.sampled_from(["us", "si"]))
    texts = {}
    for one in shared(GAIN, system).frame["controls"]:
        if "low" in one:
            turns = draw(st.integers(0, round((one["high"] - one["low"]) / one["step"])))
            texts[one["name"]] = f"{one['low'] + turns * one['step']:.10g}"
    return system, texts, draw(st.sampled_from(["air-to-air", "liquid", "none"]))


@given(settings_of_all())
def test_every_number_is_the_charge_path_to_its_last_digit(case):
    system, texts, kind = case
    panel = shared(GAIN, system)
    unseen(panel, "pick", name="aftercooler", key=kind)
    frame = slid(panel, texts)
    at = {name: in_si(name, text, system) for name, text in texts.items()}
    found = path.charge_path(
        ambient_pressure=at["barometer"],
        ambient_temperature=at["ambient_temperature"],
        manifold_pressure=at["barometer"] + at["boost"],
        isentropic_efficiency=at["compressor_efficiency"],
        intake_restriction=at["intake_restriction"],
        relative_humidity=at["relative_humidity"],
        effectiveness=0 if kind == "none" else at["effectiveness"],
        medium_temperature=at["cooling_medium_temperature" if kind == "liquid" else "ambient_temperature"],
        cooler_pressure_loss=0 if kind == "none" else at["cooler_pressure_loss"],
    )
    degrees = (lambda k: k * 1.8 - 459.67) if system == "us" else (lambda k: k - 273.15)
    expected = (
        100 * found.charge_gain,
        found.density_ratio,
        found.manifold_density / (POUND_PER_CUBIC_FOOT if system == "us" else 1),
        degrees(found.manifold_temperature),
        degrees(found.compressor_outlet_temperature),
    )
    shown = frame["shown"]
    assert frame["error"] is None
    assert all(same(one["text"], value) for one, value in zip(shown["readouts"], expected, strict=True))
    point = next(one for one in shown["pictures"][0]["series"] if one["kind"] == "points")
    assert point["y"] == pytest.approx([100 * found.charge_gain])
    curve = next(one for one in shown["pictures"][0]["series"] if one["kind"] == "line")
    assert np.interp(float(texts["boost"]), curve["x"], curve["y"]) == pytest.approx(point["y"][0], abs=0.5)
    assert any(same(row[-1], expected[0]) for row in shown["tables"][0]["rows"])
    assert f"{shown['readouts'][0]['text'].replace('−', '')} %" in shown["sentence"]


def test_dry_theory_is_what_the_closed_formulas_give_by_hand():
    """A second way through, formula by formula: Heywood, sections 6.2 and 6.8 (section numbers from memory)."""
    frame = opened().frame
    outside, temperature = 29.10 * INCH_OF_MERCURY, (77 + 459.67) / 1.8
    inlet, manifold = outside - 12 * INCH_OF_WATER, outside + 24 * PSI
    hot = compression.outlet_temperature(inlet, temperature, manifold + 1.5 * PSI, 0.74)
    cold = cooling.outlet_temperature(hot, temperature, 0.80)
    gain = charge.density(manifold, cold) / charge.density(outside, temperature) - 1
    assert number(frame["shown"]["readouts"][0]["text"]) == pytest.approx(100 * gain, abs=0.5)  # real air: cooler
    assert round(100 * gain) == 145
    assert "About 145 % denser" in frame["asked"][0]["outcome"]
    assert "Without an aftercooler it would be 84 %" in frame["asked"][0]["outcome"]


@pytest.mark.parametrize(("option", "wrong"), [(0, 100 * 24 / 14.3 - 100), (3, 100 * 38.3 / 14.3 - 100)])
def test_the_wrong_predictions_are_the_usual_slips(option, wrong):
    assert f"about {wrong:.0f} % denser" == asked(GAIN).options[option].words


def test_a_hot_day_takes_density_and_not_the_gain_while_a_high_place_adds_gain_and_takes_density():
    """With inlet and core at the air outside, both temperatures of the charge scale with it, so the ratio stays."""
    panel = opened()
    found = []
    for name, text in (("ambient_temperature", "77"), ("ambient_temperature", "110"), ("barometer", "24")):
        found.append([number(one["text"]) for one in tell(panel, "type", name=name, text=text)["shown"]["readouts"]])
    (gain, _, density, *_), (hot_gain, _, hot_density, *_), (high_gain, _, high_density, *_) = found
    assert hot_gain == pytest.approx(gain, abs=0.05)
    assert hot_density < density
    assert high_gain > hot_gain
    assert high_density < hot_density


@given(st.sampled_from(["boost", "effectiveness", "compressor_efficiency"]), st.integers(5, 90))
def test_more_boost_more_cooling_and_a_better_compressor_each_gain(name, turn):
    panel = shared(GAIN)
    unseen(panel, "reset")
    control = line(panel.frame, name)
    gains = []
    for place in (turn, turn + 8):
        text = f"{control['low'] + (control['high'] - control['low']) * place / 100:.10g}"
        gains.append(number(tell(panel, "slide", name=name, text=text)["shown"]["readouts"][0]["text"]))
    assert gains[0] < gains[1]


def test_at_most_four_controls_are_in_sight_and_no_range_is_typed_twice():
    assert len([one for one in CONTROLS if not one.more]) == 4
    assert {one.name for one in CONTROLS if one.more} >= {
        "relative_humidity",
        "compressor_efficiency",
        "cooler_pressure_loss",
        "intake_restriction",
    }


@pytest.mark.parametrize(
    ("name", "text", "words"),
    [
        ("boost", "-20", "below a full vacuum"),
        ("intake_restriction", "500", "more than the whole barometer"),
        ("cooler_pressure_loss", "-200", "no pressure at the compressor outlet"),
    ],
)
def test_what_cannot_be_is_said_in_words_and_the_panel_goes_on(name, text, words):
    panel = opened()
    assert words in tell(panel, "type", name=name, text=text)["error"]["words"]
    assert tell(panel, "type", name=name, text="10")["error"] is None


@pytest.mark.parametrize("text", ["5", "19.98", "20.02", "40", "137.895 kPa"])
def test_a_boost_stands_once_in_the_table_and_it_is_the_readers(text):
    shown = tell(opened(), "type", name="boost", text=text)["shown"]
    boosts, gains = ([row[column] for row in shown["tables"][0]["rows"]] for column in (0, -1))
    assert sorted(set(boosts), key=number) == boosts
    assert shown["readouts"][0]["text"] in gains


def test_a_kept_case_stands_beside_another_with_and_without_readings():
    panel = opened()
    tell(panel, "keep")
    frame = tell(panel, "run", key="generator_jacket_water")
    assert len(frame["shown"]["pictures"]) == 2
    assert any(one["label"] == "kept" for one in frame["shown"]["pictures"][0]["series"])
    tell(panel, "keep")
    frame = tell(panel, "run", key="")
    assert frame["error"] is None
    assert len(frame["shown"]["pictures"]) == 1
    assert any(one["label"] == "kept" for one in frame["shown"]["pictures"][0]["series"])
