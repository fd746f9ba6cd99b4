"""A panel is recorded as it answers: a few states of each sort, set here by its own messages."""

import random

import pytest

from tests.pocket.unpacked import plain, unpacked
from turbomath.handouts.lesson_page import made
from turbomath.panels.registry import LESSONS
from turbomath.pocket import page, plan, record
from turbomath.pocket.told import told
from turbomath.widgets.controls import Choice
from turbomath.widgets.desk import Desk
from turbomath.widgets.steps import reached

MOST = 30
MADE = [(one, name) for one in LESSONS if one.predictions for name in page.panel_names(one)]
QUICK = ("panel_gauge_and_absolute", "panel_cooler_trade", "panel_the_wheel", "panel_hot_air_is_thin")


@pytest.fixture
def few(monkeypatch):
    """Record the start, every case, and some other states drawn by lot."""
    every = plan.Plan.places

    def places(self):
        bases = [plan.Place(one, plan.NO_READINGS, self.at(one, base)) for one in plan.SYSTEMS for base in self.bases]
        return list(dict.fromkeys([*bases, *random.Random(1).sample(every(self), MOST)]))

    monkeypatch.setattr(plan.Plan, "places", places)


@pytest.mark.parametrize(("lesson", "name"), [one for one in MADE if one[1] in QUICK], ids=QUICK)
def test_each_recorded_state_is_what_the_panel_answers_there(few, lesson, name):
    found = record.recorded(made(lesson, name))
    head, frame = unpacked(found["packed"])
    desk = made(lesson, name).desk
    assert head["count"] > MOST
    for turn in range(head["count"]):
        got = frame(turn)
        system, _, *at = got["at"]
        desk.switch(plan.SYSTEMS[system])
        desk.held = set()
        for one, place in zip(head["systems"][desk.system], at, strict=True):
            if "options" in one:
                desk.pick(one["name"], one["options"][place][0])
            else:
                desk.slide(one["name"], repr(one["positions"][place]))
                line = next(each for each in desk.frame()["controls"] if each["name"] == one["name"])
                assert (line["text"], line["words"]) == (one["texts"][place], one["words"][place])
        desk.held = set(desk.controls)
        expected = plain(told(desk.printed(desk.system)))
        assert got["error"] == ""
        for words in ("sentence", "readouts", "tables", "own"):
            assert got["shown"][0][words] == expected[words]
        for drawn, pictures in zip(got["shown"][0]["pictures"], expected["pictures"], strict=True):
            assert [one["label"] for one in drawn["series"]] == [one["label"] for one in pictures["series"]]


def test_what_answers_free_text_has_a_screen_of_its_own_or_remembers_is_not_recorded(few):
    wanted = {"trainer", "panel_live_lab", "panel_job_1"}
    assert {name for lesson, name in MADE if name in wanted if not record.recorded(made(lesson, name))} == wanted


def test_a_ticket_is_recorded_with_the_reply_to_each_option():
    found = record.recorded_panel("hot_air_is_thin", "ticket_hot_air_is_thin")
    first = found["questions"][0]
    assert first["replies"]["20 psi"].startswith("That is gauge pressure")
    assert [words for words, right in zip(first["replies"], first["right"], strict=True) if right] == ["34.2 psi"]
    assert "choose one answer" in first["unanswered"].lower()


@pytest.mark.long
@pytest.mark.parametrize(("lesson", "name"), MADE, ids=[name for _, name in MADE])
def test_every_step_beside_a_panel_is_reached_somewhere_in_what_is_recorded(lesson, name):
    desk = made(lesson, name).desk
    if not isinstance(desk, Desk) or desk.remembers:
        return
    made_plan = plan.Plan(desk)
    places = [one for one in made_plan.places() if one.chosen == plan.NO_READINGS]
    left = [record.of_place(one) for one in desk.sheet.steps]
    for place in places:
        record.stand(desk, made_plan, place)
        left = [one for one in left if not reached(one, desk, "")]
    assert [one.words for one in left] == []


def test_a_choice_is_recorded_with_every_slider_in_sight():
    lesson, name = next(one for one in MADE if one[1] == "panel_cooling_it_back")
    found = plan.Plan(made(lesson, name).desk)
    choices = [turn for turn, one in enumerate(found.controls) if isinstance(one, Choice)]
    start = found.at("us", found.bases[0])
    moved = [{turn for turn, at in enumerate(place.at) if at != start[turn]} for place in found.places()]
    for turn, one in enumerate(found.controls):
        if not one.more and turn not in choices:
            assert {choices[0], turn} in moved
