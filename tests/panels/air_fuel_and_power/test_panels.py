"""Lesson 06: what its panels say of what cannot be, what they keep, and their pictures."""

import json

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.panels.air_fuel_and_power.opening import (
    CODES,
    FILLING,
    PANELS,
    PAYS,
    SMOKE,
    SWALLOW,
    opened,
    typed,
)
from tests.widgets.told import tell
from turbomath.panels.air_fuel_and_power import filling, same_swallow, smoke_limit, who_pays
from turbomath.pictures.lying_bars import Bar, Group, picture_lying_bars
from turbomath.pictures.printed import svg
from turbomath.widgets.controls import at_start

each_panel = pytest.mark.parametrize("of", PANELS.values(), ids=PANELS)
each_system = pytest.mark.parametrize("system", ["us", "si"])


# What cannot be, and what is kept


@each_panel
@settings(max_examples=25, deadline=None)
@given(st.data())
def test_whatever_is_typed_there_is_an_answer_or_a_sentence(of, data):
    panel = opened(of, data.draw(st.sampled_from(["us", "si"])))
    for name in [one["name"] for one in panel.frame["controls"] if "options" not in one]:
        text = data.draw(st.one_of(st.text(max_size=30), st.floats(-1e7, 1e7).map("{:.6g}".format), st.just("0")))
        frame = tell(panel, "type", name=name, text=text)
        json.dumps(frame, allow_nan=False)
        assert frame["notice"] == ""
        assert frame["error"] is None or "the lesson's own sums failed" not in frame["error"]["words"]


def test_what_no_engine_does_gets_a_sentence_that_says_what_to_do():
    assert "below a full vacuum" in tell(opened(SWALLOW), "type", name="boost", text="-20")["error"]["words"]
    assert "no diesel runs so" in tell(opened(SMOKE), "type", name="mass_flow", text="2")["error"]["words"]
    assert "Set both above zero" in tell(opened(SMOKE), "type", name="power", text="0")["error"]["words"]
    assert (
        "Set a hotter outlet"
        in tell(opened(PAYS), "type", name="compressor_outlet_temperature", text="40")["error"]["words"]
    )
    typed(panel := opened(PAYS), turbine_inlet_temperature="300")
    assert "hotter exhaust" in tell(panel, "type", name="turbine_efficiency", text="0.3")["error"]["words"]
    standing = tell(opened(FILLING), "type", name="engine_speed", text="0")["shown"]
    assert "stands still" in standing["sentence"]
    assert "can hardly be" in tell(opened(FILLING), "type", name="mass_flow", text="116")["shown"]["sentence"]
    assert "look at the flow" in tell(opened(FILLING), "type", name="mass_flow", text="40")["shown"]["sentence"]


@each_panel
def test_nothing_of_the_outcome_is_there_before_a_prediction(of):
    panel, question = of
    made = panel()
    for say, words in (("keep", {}), ("answer", {"text": ""})):
        sent = json.dumps([made.opening, tell(made, say, **words)], ensure_ascii=False)
        assert made.frame["shown"] is None
        assert not any(one.reply in sent for one in question.options)


@each_panel
def test_a_case_is_kept_reset_comes_back_and_units_change_nothing(of):
    panel = opened(of)
    before = panel.frame["shown"]
    first = panel.frame["controls"][0]
    tell(panel, "keep")
    frame = tell(panel, "type", name=first["name"], text=str(float(first["text"]) * 1.1))
    assert [one["kept"] for one in frame["shown"]["readouts"]] == [one["text"] for one in before["readouts"]]
    tell(panel, "system", system="si")
    tell(panel, "system", system="us")
    assert panel.frame["shown"] == frame["shown"]
    assert tell(panel, "reset")["shown"] == before


@each_panel
def test_one_prediction_is_right_and_wrong_ones_name_a_mistake(of):
    *options, last = of[1].options
    assert last.words == "something else"
    assert sum(one.right for one in options) == 1
    assert all(one.mistake in CODES | {""} for one in options if not one.right)


@each_system
def test_the_pictures_print_and_say_in_words_what_they_show(system):
    modules = (same_swallow, filling, who_pays, smoke_limit)
    for module in modules:
        for picture in module.answer(at_start(module.CONTROLS), system).pictures:
            assert "<svg" in svg(picture)
            assert "nan" not in picture.alt
    assert "Shaded under 24" in picture.alt


def test_the_line_of_the_smoke_chart_is_air_over_ratio_and_consumption_and_meets_the_point():
    picture = opened(SMOKE).frame["shown"]["pictures"][0]
    drawn = {(one["label"], one["kind"]): one for one in picture["series"]}
    line_of_air, point = drawn["this air", "line"], drawn["yours", "points"]
    for ratio, power in zip(line_of_air["x"], line_of_air["y"], strict=True):
        assert ratio * power * 0.345 / 60 == pytest.approx(400 * 0.345 * 24 / 60)
    assert (point["x"], point["y"]) == (pytest.approx([24.0]), pytest.approx([400.0]))
    assert drawn["smoke limit", "band"]["x"][-1] == drawn["smoke limit", "line"]["x"][0] == 24.0
    assert drawn["no air over", "line"]["x"][0] == pytest.approx(14.5, abs=0.1)  # Heywood (1988), table D.4


def test_lying_bars_start_at_zero_and_are_as_long_as_their_numbers():
    bars = (Bar("hot", "long", 30.0, "30"), Bar("cooled", "short", 10.0, "10"), Bar("ambient", "none", 0.0, "0"))
    for most, longest in ((60.0, 0.25), (20.0, 0.5)):
        drawn = picture_lying_bars("Bars", (Group("air", "lb/min", most, bars),))
        ends = {one.label: one.x for one in drawn.series if one.kind == "band"}
        assert {x[0] for x in ends.values()} == {0.30}
        assert [ends[name][1] - 0.30 for name in ("long", "short", "none")] == pytest.approx(
            [longest, longest / 3, 0.0]
        )
    assert drawn.rows == (("air", "long", "30 lb/min"), ("air", "short", "10 lb/min"), ("air", "none", "0 lb/min"))
    assert "air, short: 10 lb/min." in drawn.alt
