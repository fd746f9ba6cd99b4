"""Lesson 02 as a student uses it: predict, squeeze, take the ratio of °F, judge readings; by keyboard and by mouse."""

import re

import pytest

from tests.browser.pages import (
    NARROW,
    WHOLE,
    afresh,
    box,
    choose,
    cut,
    enter,
    overlaps,
    painted,
    panel,
    serious,
    slider,
    told,
)
from tests.browser.walk import (
    keys_change_nothing,
    nothing_is_drawn_before_a_prediction,
    predict,
    predict_all,
    sliders_move,
    ticket_answers_each_mistake,
    whole_panel_in_sight,
)

NAME = "02_squeezing_heats_air"
HEAT, READ, TICKET = range(3)
ANSWERS = (
    (HEAT, "B: 154 °F (50 °C), doubled", "240 °F. Squeezing alone makes it 195 °F"),
    (READ, "cooler: a poorer wheel does less", "Hotter: 345 °F, against 300 °F before"),
)
SLIDERS = {
    HEAT: ("pressure ratio", "compressor inlet temperature", "compressor efficiency"),
    READ: ("compressor inlet temperature", "compressor outlet temperature", "boost", "barometer"),
}
RUNS = ("generator_air_to_air", "generator_no_aftercooler", "stand_unloaded_run_up")


@pytest.fixture
def page(shared_lesson):
    return afresh(shared_lesson)


def test_nothing_is_drawn_until_a_prediction_is_entered_by_keyboard(page):
    nothing_is_drawn_before_a_prediction(page, ANSWERS)


def test_each_slider_moves_by_keyboard_and_by_mouse(page):
    predict_all(page, ANSWERS)
    sliders_move(page, SLIDERS)


def test_the_ratio_of_degrees_is_a_point_that_cannot_be(page, screenshot):
    predict(page, *ANSWERS[HEAT][:2])
    told(page, "Squeezed 2.00 times at 72 %, air from 77 °F leaves at 240 °F. Without losses it would be 195 °F", HEAT)
    panel(page, HEAT).get_by_role("button", name="go to ratio 2.87, 80 °F").click()
    told(page, "leaves at 336 °F", HEAT)
    choose(page, "ratio taken of", "thermometer", HEAT)
    told(page, "°F as it stands: 80 × 1.475 = 118 °F. The air leaves at 336 °F", HEAT)
    assert panel(page, HEAT).locator("svg text", has_text="°F ratio").count() == 1
    panel(page, HEAT).evaluate("node => node.scrollIntoView()")
    painted(page)
    screenshot(page, f"{NAME}_ghost")


def test_numbers_units_the_table_and_a_kept_case(page, screenshot):
    predict(page, *ANSWERS[HEAT][:2])
    enter(page, "pressure ratio", "2,5", HEAT)
    told(page, "leaves at 300 °F", HEAT)
    before = panel(page, HEAT).inner_text()
    panel(page, HEAT).get_by_role("radio", name="SI", exact=True).check()
    told(page, "air from 25 °C leaves at 149 °C", HEAT)
    slider(page, "pressure ratio", HEAT).focus()
    page.keyboard.press("t")
    table = panel(page, HEAT).get_by_role("table", name="Outlet temperature [°C]")
    assert table.get_by_role("row").nth(2).inner_text().split("\t") == ["2.0", "90", "107", "111", "116", "125", "134"]
    table.scroll_into_view_if_needed()
    screenshot(page, f"{NAME}_table")
    page.keyboard.press("t")
    panel(page, HEAT).get_by_role("radio", name="US", exact=True).check()
    told(page, "leaves at 300 °F", HEAT)
    assert panel(page, HEAT).inner_text() == before
    assert box(page, "pressure ratio", HEAT).input_value() == "2,5"
    panel(page, HEAT).get_by_role("button", name="keep this case").click()
    panel(page, HEAT).get_by_text("kept: 300").wait_for()
    enter(page, "compressor efficiency", "0.60", HEAT)
    told(page, "leaves at 345 °F", HEAT)
    assert panel(page, HEAT).locator("svg text", has_text=re.compile("^kept$")).count() == 1
    panel(page, HEAT).evaluate("node => node.scrollIntoView()")
    screenshot(page, f"{NAME}_kept")
    enter(page, "compressor efficiency", "1.2", HEAT)
    panel(page, HEAT).get_by_text("1.2 cannot be: compressor efficiency must be").wait_for()
    enter(page, "pressure ratio", "5", HEAT)
    panel(page, HEAT).get_by_text("! Out of range: this lesson goes from 1 to 4").wait_for()
    panel(page, HEAT).get_by_role("button", name="reset").click()
    told(page, "Squeezed 2.00 times at 72 %", HEAT)


def test_readings_are_judged_and_a_run_stands_on_the_chart(page, screenshot):
    predict(page, *ANSWERS[READ][:2])
    told(page, "Efficiency 74 %. Believable", READ)
    for label, share in (("go to new wheel", "72"), ("go to worn wheel", "60")):
        panel(page, READ).get_by_role("button", name=label).click()
        told(page, f"Efficiency {share} %", READ)
    enter(page, "compressor outlet temperature", "220", READ)
    told(page, "This cannot be. No compressor beats the ideal one", READ)
    choose(page, "readings", "generator_air_to_air", READ)
    panel(page, READ).locator("svg text", has_text="this point").wait_for()
    panel(page, READ).get_by_role("button", name="set the sliders to this point").click()
    told(page, "Efficiency 74 %. Believable", READ)
    panel(page, READ).evaluate("node => node.scrollIntoView()")
    painted(page)
    screenshot(page, f"{NAME}_run")
    choose(page, "readings", "own", READ)
    box = panel(page, READ).get_by_role("textbox", name="folder")
    box.fill("nowhere")
    box.press("Enter")
    panel(page, READ).get_by_text("nowhere: found 'no such folder'").wait_for()
    slider(page, "boost", READ).focus()
    page.keyboard.press("End")
    told(page, "Efficiency", READ)


def test_the_exit_ticket_names_the_mistake_and_lets_one_try_again(page):
    turns = (
        ("130 F° (72 C°)", "You multiplied", "250 F° (139 C°)"),
        ("1.78", "gauge by barometer", "2.86"),
        (
            "order a turbocharger",
            "one reading is no finding",
            "look where the outlet thermometer sits, and read all again",
        ),
    )
    ticket_answers_each_mistake(page, TICKET, turns)


def test_no_key_changes_the_notebook_and_every_control_has_a_name_and_a_focus_that_is_seen(page):
    predict_all(page, ANSWERS)
    panel(page, READ).locator("summary").first.click()
    keys_change_nothing(page, least=55)


def test_axe_finds_no_serious_problem_before_and_after_the_predictions(page):
    assert serious(page) == []
    predict_all(page, ANSWERS)
    choose(page, "readings", RUNS[0], READ)
    panel(page, READ).locator("svg text", has_text="this point").wait_for()
    for number in (HEAT, READ):
        panel(page, number).get_by_role("button", name="table").click()
    enter(page, "pressure ratio", "5", HEAT)
    told(page, "Squeezed 5.00 times", HEAT)
    assert serious(page) == []


@pytest.mark.parametrize("number", SLIDERS, ids=["heat", "readings"])
def test_controls_picture_and_sentence_are_in_sight_together(page, number, screenshot):
    predict(page, *ANSWERS[number][:2])
    assert whole_panel_in_sight(page, number, SLIDERS[number])
    screenshot(page, f"{NAME}_{number}")


@pytest.mark.parametrize("size", [WHOLE, NARROW], ids=["whole", "200 %"])
def test_nothing_is_cut_and_no_words_of_a_picture_overlap(page, size, screenshot):
    page.set_viewport_size(size)
    predict_all(page, ANSWERS)
    zoom = "zoom" if size is NARROW else "whole"
    choose(page, "ratio taken of", "thermometer", HEAT)
    panel(page, HEAT).get_by_role("button", name="keep this case").click()
    for ratio, inlet, run in (("1", "77", RUNS[0]), ("1.5", "−20", RUNS[1]), ("4", "130", RUNS[2]), ("6", "40", "")):
        choose(page, "readings", run, READ)
        for number in SLIDERS:
            enter(page, "compressor inlet temperature", inlet, number)
        enter(page, "pressure ratio", ratio, HEAT)
        told(page, rf"as it stands: {inlet} ×", HEAT)
        page.wait_for_timeout(250)
        assert overlaps(page) == [], ratio
        assert [cut(page, number) for number in range(3)] == [[]] * 3, ratio
        for number in SLIDERS:
            panel(page, number).locator("svg").first.evaluate("node => node.scrollIntoView()")
            painted(page)
            screenshot(page, f"{NAME}_{number}_{ratio}_{zoom}")
