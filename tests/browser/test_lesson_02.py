"""Lesson 02 as a student uses it: predict, squeeze, take the ratio of °F, judge readings; by keyboard and by mouse."""

import re

import pytest

from tests.browser.pages import (
    KEYS,
    NARROW,
    WHOLE,
    afresh,
    cells,
    cut,
    focus_is_seen,
    in_sight,
    name_of,
    overlaps,
    painted,
    plain,
    pop_ups,
    serious,
)
from tests.browser.test_lesson_01 import box_follows, changed, part, predict, slider, told, typed

NAME = "02_squeezing_heats_air"
HEAT, READ, TICKET = range(3)
ANSWERS = ((HEAT, "B: 154 °F (50 °C), doubled", "240 °F. Squeezing alone makes it 195 °F"),
           (READ, "cooler: a poorer wheel does less", "Hotter: 345 °F, against 300 °F before"))  # fmt: skip
SLIDERS = {HEAT: ("pressure ratio", "compressor inlet temperature", "compressor efficiency"),
           READ: ("compressor inlet temperature", "compressor outlet temperature", "boost", "barometer")}  # fmt: skip
RUNS = ("generator_air_to_air", "generator_no_aftercooler", "stand_unloaded_run_up")


@pytest.fixture
def page(shared_lesson):
    return afresh(shared_lesson)


def predict_all(page):
    for number, option, _ in ANSWERS:
        predict(page, number, option)


def choose(page, number, label, option):
    part(page, number).get_by_label(label, exact=True).select_option(option)


def test_nothing_is_drawn_until_a_prediction_is_entered_by_keyboard(page):
    for number, option, outcome in ANSWERS:
        assert part(page, number).locator("svg").count() == 0
        assert outcome not in plain(part(page, number))
        predict(page, number, option)
        kept = part(page, number).get_by_role("group", name="your prediction and the outcome")
        assert kept.evaluate("node => node === document.activeElement")
        assert f"You predicted: {option}" in plain(kept)
        assert outcome in plain(kept)


def test_each_slider_moves_by_keyboard_and_by_mouse(page):
    predict_all(page)
    for number, names in SLIDERS.items():
        for name in names:
            handle = slider(page, number, name)
            handle.focus()
            for key in ("ArrowRight", "PageDown", "Home", "ArrowUp", "End"):
                changed(page, number, lambda key=key: page.keyboard.press(key))
            at = handle.bounding_box()
            page.mouse.move(at["x"] + at["width"] / 2, at["y"] + at["height"] / 2)
            changed(page, number, page.mouse.down)
            left = at["x"] + 0.35 * at["width"], at["y"] + at["height"] / 2
            changed(page, number, lambda left=left: page.mouse.move(*left))
            page.mouse.up()
            painted(page)
            box_follows(page, number, name)


def test_the_ratio_of_degrees_is_a_point_that_cannot_be(page, screenshot):
    predict(page, *ANSWERS[HEAT][:2])
    told(page, HEAT, "Squeezed 2.00 times at 72 %, air from 77 °F leaves at 240 °F. Without losses it would be 195 °F")
    part(page, HEAT).get_by_role("button", name="go to ratio 2.87, 80 °F").click()
    told(page, HEAT, "leaves at 336 °F")
    choose(page, HEAT, "ratio taken of", "thermometer")
    told(page, HEAT, "°F as it stands: 80 × 1.475 = 118 °F. The air leaves at 336 °F")
    assert part(page, HEAT).locator("svg text", has_text="°F ratio").count() == 1
    part(page, HEAT).evaluate("node => node.scrollIntoView()")
    painted(page)
    screenshot(page, f"{NAME}_ghost")


def test_numbers_units_the_table_and_a_kept_case(page, screenshot):
    predict(page, *ANSWERS[HEAT][:2])
    box = typed(page, HEAT, "pressure ratio", "2,5")
    told(page, HEAT, "leaves at 300 °F")
    before = part(page, HEAT).inner_text()
    part(page, HEAT).get_by_role("radio", name="SI", exact=True).check()
    told(page, HEAT, "air from 25 °C leaves at 149 °C")
    slider(page, HEAT, "pressure ratio").focus()
    page.keyboard.press("t")
    table = part(page, HEAT).get_by_role("table", name="Outlet temperature [°C]")
    assert table.get_by_role("row").nth(2).inner_text().split("\t") == ["2.0", "90", "107", "111", "116", "125", "134"]
    table.scroll_into_view_if_needed()
    screenshot(page, f"{NAME}_table")
    page.keyboard.press("t")
    part(page, HEAT).get_by_role("radio", name="US", exact=True).check()
    told(page, HEAT, "leaves at 300 °F")
    assert part(page, HEAT).inner_text() == before
    assert box.input_value() == "2,5"
    part(page, HEAT).get_by_role("button", name="keep this case").click()
    part(page, HEAT).get_by_text("kept: 300").wait_for()
    typed(page, HEAT, "compressor efficiency", "0.60")
    told(page, HEAT, "leaves at 345 °F")
    assert part(page, HEAT).locator("svg text", has_text=re.compile("^kept$")).count() == 1
    part(page, HEAT).evaluate("node => node.scrollIntoView()")
    screenshot(page, f"{NAME}_kept")
    typed(page, HEAT, "compressor efficiency", "1.2")
    part(page, HEAT).get_by_text("1.2 cannot be: compressor efficiency must be").wait_for()
    typed(page, HEAT, "pressure ratio", "5")
    part(page, HEAT).get_by_text("! Out of range: this lesson goes from 1 to 4").wait_for()
    part(page, HEAT).get_by_role("button", name="reset").click()
    told(page, HEAT, "Squeezed 2.00 times at 72 %")


def test_readings_are_judged_and_a_run_stands_on_the_chart(page, screenshot):
    predict(page, *ANSWERS[READ][:2])
    told(page, READ, "Efficiency 74 %. Believable")
    for label, share in (("go to new wheel", "72"), ("go to worn wheel", "60")):
        part(page, READ).get_by_role("button", name=label).click()
        told(page, READ, f"Efficiency {share} %")
    typed(page, READ, "compressor outlet temperature", "220")
    told(page, READ, "This cannot be. No compressor beats the ideal one")
    choose(page, READ, "readings", "generator_air_to_air")
    part(page, READ).locator("svg text", has_text="this point").wait_for()
    part(page, READ).get_by_role("button", name="set the sliders to this point").click()
    told(page, READ, "Efficiency 74 %. Believable")
    part(page, READ).evaluate("node => node.scrollIntoView()")
    painted(page)
    screenshot(page, f"{NAME}_run")
    choose(page, READ, "readings", "own")
    box = part(page, READ).get_by_role("textbox", name="folder")
    box.fill("nowhere")
    box.press("Enter")
    part(page, READ).get_by_text("nowhere: found 'no such folder'").wait_for()
    slider(page, READ, "boost").focus()
    page.keyboard.press("End")
    told(page, READ, "Efficiency")


def test_the_exit_ticket_names_the_mistake_and_lets_one_try_again(page):
    ticket = part(page, TICKET)
    for turn, (wrong, reply, right) in enumerate((("130 F° (72 C°)", "You multiplied", "250 F° (139 C°)"),
                                                  ("1.78", "gauge by barometer", "2.86"),
                                                  ("order a turbocharger", "one reading is no finding",
                                                   "look where the outlet thermometer sits, and read all "
                                                   "again"))):  # fmt: skip
        for option, words in ((wrong, reply), (right, "Right:")):
            ticket.get_by_role("radio", name=option, exact=True).check()
            page.keyboard.press("Enter")
            answer = ticket.locator(".tm-question").nth(turn)
            answer.get_by_text(words).wait_for()
            answer.get_by_role("button", name="try again").click()


def test_no_key_changes_the_notebook_and_every_control_has_a_name_and_a_focus_that_is_seen(page):
    predict_all(page)
    part(page, READ).locator("summary").first.click()
    before = cells(page)
    controls = page.locator(".tm").locator("input:visible, button:visible, summary:visible, select:visible")
    count = controls.count()
    assert count > 55
    for turn in range(count):
        control = controls.nth(turn)
        assert name_of(control), control.evaluate("node => node.outerHTML")
        assert focus_is_seen(control), name_of(control)
        for key in KEYS:
            page.keyboard.press(key)
    painted(page)
    assert cells(page) == before
    assert pop_ups(page) == 0


def test_axe_finds_no_serious_problem_before_and_after_the_predictions(page):
    assert serious(page) == []
    predict_all(page)
    choose(page, READ, "readings", RUNS[0])
    part(page, READ).locator("svg text", has_text="this point").wait_for()
    for number in (HEAT, READ):
        part(page, number).get_by_role("button", name="table").click()
    typed(page, HEAT, "pressure ratio", "5")
    told(page, HEAT, "Squeezed 5.00 times")
    assert serious(page) == []


@pytest.mark.parametrize("number", SLIDERS, ids=["heat", "readings"])
def test_controls_picture_and_sentence_are_in_sight_together(page, number, screenshot):
    predict(page, *ANSWERS[number][:2])
    panel = part(page, number)
    panel.evaluate("node => node.scrollIntoView()")
    painted(page)
    seen = [*(slider(page, number, name) for name in SLIDERS[number]), panel.locator("svg").first,
            *(panel.locator(part) for part in (".tm-sentence", ".tm-readouts")),
            panel.get_by_role("button", name="reset")]  # fmt: skip
    assert all(in_sight(page, one) for one in seen)
    screenshot(page, f"{NAME}_{number}")


@pytest.mark.parametrize("size", [WHOLE, NARROW], ids=["whole", "200 %"])
def test_nothing_is_cut_and_no_words_of_a_picture_overlap(page, size, screenshot):
    page.set_viewport_size(size)
    predict_all(page)
    zoom = "zoom" if size is NARROW else "whole"
    choose(page, HEAT, "ratio taken of", "thermometer")
    part(page, HEAT).get_by_role("button", name="keep this case").click()
    for ratio, inlet, run in (("1", "77", RUNS[0]), ("1.5", "−20", RUNS[1]), ("4", "130", RUNS[2]), ("6", "40", "")):
        choose(page, READ, "readings", run)
        for number in SLIDERS:
            typed(page, number, "compressor inlet temperature", inlet)
        typed(page, HEAT, "pressure ratio", ratio)
        told(page, HEAT, rf"as it stands: {inlet} ×")
        page.wait_for_timeout(250)
        assert overlaps(page) == [], ratio
        assert [cut(page, number) for number in range(3)] == [[]] * 3, ratio
        for number in SLIDERS:
            part(page, number).locator("svg").first.evaluate("node => node.scrollIntoView()")
            painted(page)
            screenshot(page, f"{NAME}_{number}_{ratio}_{zoom}")
