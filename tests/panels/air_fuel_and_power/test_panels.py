"""Lesson 06: what its panels say of what cannot be, what they keep, and their pictures."""

import pytest

from tests.panels.air_fuel_and_power.opening import FILLING, PAYS, SMOKE, SWALLOW
from tests.panels.opening import opened, typed
from tests.widgets.told import tell
from turbomath.pictures.lying_bars import Bar, Group, picture_lying_bars

# What cannot be, and what is kept


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


@pytest.mark.parametrize("system", ["us", "si"])
def test_the_smoke_chart_says_in_words_where_smoke_is_seen(system):
    assert "Shaded under 24" in opened(SMOKE, system).frame["shown"]["pictures"][0]["alt"]


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
