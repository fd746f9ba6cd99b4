"""The next step of a slider is worked out before it is taken: what is foreseen is what comes, and nothing changes."""

import asyncio

import pytest

from tests.panels.opening import opened
from tests.widgets.told import line, tell
from turbomath.panels.registry import LESSONS
from turbomath.widgets.ahead import Ahead
from turbomath.widgets.desk import Desk


def first_slider(panel):
    """Return the first control that is not held, None where a panel has none."""
    lines = panel.frame.get("controls", ()) if isinstance(panel.desk, Desk) else ()
    return next((one for one in lines if "position" in one and not one["held"]), None)


@pytest.mark.parametrize("name", [name for lesson in LESSONS for name in lesson.predictions])
def test_what_is_foreseen_is_what_comes_and_until_then_nothing_changes(name, tmp_path, monkeypatch):
    monkeypatch.setenv("TURBOMATH_WORK", str(tmp_path))
    panel = opened(name)
    if slider := first_slider(panel):
        tell(panel, "keep")
        before, frame = panel.desk.state(), panel.desk.frame()
        for place in panel.desk.beside(slider["name"]).values():
            seen = panel.desk.foreseen(slider["name"], place)
            assert panel.desk.state() == before
            assert panel.desk.frame() == frame
            came = tell(panel, "slide", name=slider["name"], text=place)
            assert {part: came[part] for part in ("controls", "shown")} == {
                part: seen[part] for part in ("controls", "shown")
            }
            tell(panel, "slide", name=slider["name"], text=slider["text"].replace("−", "-"))
            panel.desk.take_up(before)


def after_a_step(panel, name, turn, doing=lambda ahead: None):
    """Return what is worked out ahead in half a second after a step."""
    told = []

    async def half_a_second():
        ahead = Ahead(panel.desk, told.append)
        ahead.start(name, 1, turn)
        doing(ahead)
        await asyncio.sleep(0.5)

    asyncio.run(half_a_second())
    return told


def test_after_a_step_both_neighbours_are_told_the_same_way_first_with_the_turn_they_follow(panel):
    tell(panel, "slide", name="boost", text="20.2")
    told = after_a_step(panel, "boost", "mine 7")
    assert [(one["turn"], one["name"], float(one["text"])) for one in told] == [
        ("mine 7", "boost", 20.4),
        ("mine 7", "boost", 20.0),
    ]
    assert "20.4 psi of boost" in told[0]["shown"]["sentence"]
    assert line(told[0], "boost")["text"] == "20.4"


def test_at_the_end_of_a_slider_there_is_one_neighbour(panel):
    tell(panel, "slide", name="boost", text="40")
    assert [one["text"] for one in after_a_step(panel, "boost", "")] == ["39.8"]


def test_what_the_reader_does_comes_first(panel):
    assert after_a_step(panel, "boost", "", Ahead.stop) == []


@pytest.mark.parametrize(("text", "way"), [("20.2", 1), ("19.8", -1), ("20.4", 0), ("20", 0), ("x", 0)])
def test_a_key_goes_one_step_and_a_hand_goes_farther(panel, text, way):
    assert Ahead(panel.desk, print).heading("boost", text) == way


def test_a_case_that_cannot_be_is_not_foreseen(panel):
    assert panel.desk.foreseen("boost", "-20") is None
