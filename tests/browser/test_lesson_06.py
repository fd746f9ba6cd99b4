"""Lesson 06 as a student uses it: swallow, fill, burn up to the smoke, pay for the boost; by keyboard and by mouse."""

import pytest

from tests.browser.pages import (
    NARROW,
    WHOLE,
    afresh,
    button,
    choose,
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

NAME = "06_air_fuel_and_power"
SWALLOW, FILLING, SMOKE, PAYS, TICKET = range(5)
ANSWERS = (
    (SWALLOW, "none: the same cubic feet are the same air", "34 % more: 61.3 lb/min in place of 45.8 lb/min"),
    (FILLING, "the ÷ 2 of the four-stroke was forgotten", "On the density outside it is 2.06"),
    (SMOKE, "460 hp (343 kW): half of the gain", "The air allows 520 hp in place of 400 hp"),
    (PAYS, "the crankshaft, by way of a belt", "The exhaust pays 83 hp"),
)
SLIDERS = {SWALLOW: 4, FILLING: 4, SMOKE: 4, PAYS: 4}
EDGES = {  # what is typed into each panel, so that bars and points are at their ends
    SWALLOW: ("engine speed", ("600", "2400")),
    FILLING: ("mass flow", ("0", "110")),
    SMOKE: ("smoke limit", ("16", "30")),
    PAYS: ("turbine efficiency", ("0.5", "0.85")),
}


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
    told(page, "61.3 lb/min of air, 33.9 % more than at 330 °F", SWALLOW)
    button(page, "keep this case", SWALLOW).click()
    button(page, "go to not cooled", SWALLOW).click()
    told(page, "45.8 lb/min of air, as much as at 330 °F", SWALLOW)
    panel(page, SWALLOW).get_by_text("kept: 61.3").wait_for()
    button(page, "reset", SWALLOW).click()
    panel(page, SWALLOW).get_by_text("more", exact=True).click()
    choose(page, "working cycle", "two-stroke", SWALLOW)
    told(page, "1800 times a minute", SWALLOW)
    panel(page, SWALLOW).get_by_role("radio", name="SI", exact=True).check()
    told(page, "55.6 kg/min of air", SWALLOW)
    button(page, "reset", SWALLOW).click()
    slider(page, slider_names(page, SWALLOW)[0], SWALLOW).focus()
    page.keyboard.press("t")
    panel(page, SWALLOW).get_by_role("table").first.wait_for()
    screenshot(page, f"{NAME}_table")
    told(page, "efficiency 0.87 on manifold density", FILLING)
    for case, words in (
        ("430 hp", "430 hp runs at 24.8"),
        ("435 hp", "435 hp runs at 24.0"),
        ("30 % more air", "More fuel would give 520 hp"),
    ):
        button(page, f"go to {case}", SMOKE).click()
        told(page, words, SMOKE)
    told(page, "0.6 psi under the manifold", PAYS)
    button(page, "go to worn turbine", PAYS).click()
    told(page, "10.7 psi over the manifold", PAYS)
    enter(page, "power", "600", SMOKE)
    told(page, "It smokes", SMOKE)


def test_the_exit_ticket_names_the_mistake_and_lets_one_try_again(page):
    turns = (
        ("122.5 lb (55.6 kg)", "once in two turns", "61.3 lb (27.8 kg)"),
        ("14.7", "petrol with a spark", "24.8"),
        ("0.578 lb/hp·h (351 g/kW·h)", "1.26 minutes", "0.347 lb/hp·h (211 g/kW·h)"),
        ("72 hp (54 kW), the exhaust", "32 from a difference", "83 hp (62 kW), the exhaust"),
    )
    ticket_answers_each_mistake(page, TICKET, turns)


def test_no_key_changes_the_notebook_and_every_control_has_a_name_and_a_focus_that_is_seen(page):
    predict_all(page, ANSWERS)
    keys_change_nothing(page, least=60)


def test_axe_finds_no_serious_problem_before_and_after_the_predictions(page):
    axe_is_content(page, ANSWERS, SLIDERS)


@pytest.mark.parametrize("number", SLIDERS, ids=["swallow", "filling", "smoke", "pays"])
def test_controls_picture_and_sentence_are_in_sight_together(page, number, screenshot):
    predict(page, *ANSWERS[number][:2])
    seen = whole_panel_in_sight(page, number, slider_names(page, number))
    screenshot(page, f"{NAME}_{number}")
    assert seen


@pytest.mark.parametrize("size", [WHOLE, NARROW], ids=["whole", "200 %"])
def test_nothing_is_cut_and_no_words_of_a_picture_overlap(page, size, screenshot):
    page.set_viewport_size(size)
    predict_all(page, ANSWERS)
    zoom = "zoom" if size is NARROW else "whole"
    for turn in (0, 1):
        for system in ("US", "SI"):
            for number, (name, texts) in EDGES.items():
                panel(page, number).get_by_role("radio", name=system, exact=True).check()
                enter(page, name, texts[turn], number)
                panel(page, number).locator("svg").first.evaluate("node => node.scrollIntoView()")
                page.wait_for_timeout(250)
                painted(page)
                screenshot(page, f"{NAME}_{number}_{texts[turn]}_{system}_{zoom}")
            assert overlaps(page) == [], (system, turn)
            assert [cut(page, number) for number in range(TICKET + 1)] == [[]] * (TICKET + 1), (system, turn)
