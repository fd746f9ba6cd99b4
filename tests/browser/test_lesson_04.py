"""Lesson 04 as a student uses it: predict, cool back, heat by water, stop the fan; by keyboard and by mouse."""

import pytest

from tests.browser.pages import (
    NARROW,
    WHOLE,
    afresh,
    cut,
    enter,
    overlaps,
    painted,
    panel,
    slider,
    told,
)
from tests.browser.walk import (
    axe_is_content,
    keys_change_nothing,
    nothing_is_drawn_before_a_prediction,
    predict,
    predict_all,
    slider_names,
    sliders_move,
    ticket_answers_each_mistake,
    whole_panel_in_sight,
)

NAME = "04_cooling_it_back"
BACK, LIGHT, COLD, LIMITS, TICKET = range(5)
ANSWERS = (
    (BACK, "67 °F (19 °C)", "129 °F. The greatest possible drop is 259 F°"),
    (LIGHT, "it cools it, as its name says", "Hotter: 183 °F"),
    (COLD, "both the same", "140 °F against −4 °F"),
    (LIMITS, "yes: twice the core, twice the cooling", "No. With the fan off the medium limits"),
)
SLIDERS = {BACK: 4, LIGHT: 4, COLD: 4, LIMITS: 3}


@pytest.fixture
def page(shared_lesson):
    return afresh(shared_lesson)


def test_nothing_is_drawn_until_a_prediction_is_entered_by_keyboard(page):
    nothing_is_drawn_before_a_prediction(page, ANSWERS)


def test_each_slider_moves_by_keyboard_and_by_mouse(page):
    predict_all(page, ANSWERS)
    found = {number: slider_names(page, number) for number in SLIDERS}
    assert {number: len(one) for number, one in found.items()} == SLIDERS
    sliders_move(page, found)


def test_the_specimens_units_and_the_table(page, screenshot):
    predict_all(page, ANSWERS)
    told(page, "336 °F becomes 129 °F", BACK)
    panel(page, BACK).get_by_role("button", name="keep this case").click()
    panel(page, BACK).get_by_role("button", name="go to hot day, 104 °F").click()
    told(page, "352 °F becomes 158 °F", BACK)
    panel(page, BACK).get_by_text("kept: 129").wait_for()
    panel(page, BACK).get_by_role("radio", name="SI", exact=True).check()
    told(page, "178 °C becomes 70 °C", BACK)
    slider(page, slider_names(page, BACK)[0], BACK).focus()
    page.keyboard.press("t")
    panel(page, BACK).get_by_role("table").first.wait_for()
    screenshot(page, f"{NAME}_table")
    page.keyboard.press("t")
    enter(page, slider_names(page, BACK)[0], "1", BACK)
    told(page, "no aftercooler does it", BACK)
    panel(page, BACK).get_by_role("button", name="reset").click()
    told(page, "the water heats it to 183 °F", LIGHT)
    told(page, "to 140 °F", COLD)
    panel(page, LIMITS).get_by_role("button", name="go to fan off").click()
    told(page, "The cooling air limits", LIMITS)


def test_the_exit_ticket_names_the_mistake_and_lets_one_try_again(page):
    turns = (
        ("0.61", "thermometer's number", "0.80"),
        ("0.43", "air of the shop", "0.75"),
        ("a very good core", "Nothing cools below", "a temperature was read wrong; I look at the core face first"),
    )
    ticket_answers_each_mistake(page, TICKET, turns)


def test_no_key_changes_the_notebook_and_every_control_has_a_name_and_a_focus_that_is_seen(page):
    predict_all(page, ANSWERS)
    keys_change_nothing(page, least=55)


def test_axe_finds_no_serious_problem_before_and_after_the_predictions(page):
    axe_is_content(page, ANSWERS, SLIDERS)


@pytest.mark.parametrize("number", SLIDERS, ids=["back", "light", "cold", "limits"])
def test_controls_picture_and_sentence_are_in_sight_together(page, number, screenshot):
    predict(page, *ANSWERS[number][:2])
    assert whole_panel_in_sight(page, number, slider_names(page, number))
    screenshot(page, f"{NAME}_{number}")


@pytest.mark.parametrize("size", [WHOLE, NARROW], ids=["whole", "200 %"])
def test_nothing_is_cut_and_no_words_of_a_picture_overlap(page, size, screenshot):
    page.set_viewport_size(size)
    predict_all(page, ANSWERS)
    zoom = "zoom" if size is NARROW else "whole"
    outlet = slider_names(page, BACK)[1]
    for system, hot in (("US", "336"), ("US", "−40"), ("SI", "230"), ("SI", "−20")):
        for number in (BACK, LIGHT, COLD):
            panel(page, number).get_by_role("radio", name=system, exact=True).check()
            enter(page, outlet, hot, number)
        told(page, f"{hot} °", BACK)
        page.wait_for_timeout(250)
        for number in SLIDERS:
            panel(page, number).locator("svg").first.evaluate("node => node.scrollIntoView()")
            painted(page)
            screenshot(page, f"{NAME}_{number}_{hot}_{zoom}")
        assert overlaps(page) == [], hot
        assert [cut(page, number) for number in range(5)] == [[]] * 5, hot
