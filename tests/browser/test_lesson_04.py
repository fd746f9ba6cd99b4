"""Lesson 04 as a student uses it: predict, cool back, heat by water, stop the fan; by keyboard and by mouse."""

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

NAME = "04_cooling_it_back"
BACK, LIGHT, COLD, LIMITS, TICKET = range(5)
ANSWERS = ((BACK, "67 °F (19 °C)", "129 °F. The greatest possible drop is 259 F°"),
           (LIGHT, "it cools it, as its name says", "Hotter: 183 °F"),
           (COLD, "both the same", "140 °F against −4 °F"),
           (LIMITS, "yes: twice the core, twice the cooling", "No. With the fan off the medium limits"))  # fmt: skip
SLIDERS = {BACK: 4, LIGHT: 4, COLD: 4, LIMITS: 3}


@pytest.fixture
def page(shared_lesson):
    return afresh(shared_lesson)


def predict_all(page):
    for number, option, _ in ANSWERS:
        predict(page, number, option)


def names(page, number):
    handles = part(page, number).locator("input[type=range]:visible")
    return [name_of(handles.nth(turn)) for turn in range(handles.count())]


def test_nothing_is_drawn_until_a_prediction_is_entered_by_keyboard(page):
    for number, option, outcome in ANSWERS:
        assert part(page, number).locator("svg").count() == 0
        assert outcome not in plain(part(page, number))
        predict(page, number, option)
        kept = part(page, number).get_by_role("group", name="your prediction and the outcome")
        assert f"You predicted: {option}" in plain(kept)
        assert outcome in plain(kept)


def test_each_slider_moves_by_keyboard_and_by_mouse(page):
    predict_all(page)
    for number, count in SLIDERS.items():
        found = names(page, number)
        assert len(found) == count
        for name in found:
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


def test_the_specimens_units_and_the_table(page, screenshot):
    predict_all(page)
    told(page, BACK, "336 °F becomes 129 °F")
    part(page, BACK).get_by_role("button", name="keep this case").click()
    part(page, BACK).get_by_role("button", name="go to hot day, 104 °F").click()
    told(page, BACK, "352 °F becomes 158 °F")
    part(page, BACK).get_by_text("kept: 129").wait_for()
    part(page, BACK).get_by_role("radio", name="SI", exact=True).check()
    told(page, BACK, "178 °C becomes 70 °C")
    slider(page, BACK, names(page, BACK)[0]).focus()
    page.keyboard.press("t")
    part(page, BACK).get_by_role("table").first.wait_for()
    screenshot(page, f"{NAME}_table")
    page.keyboard.press("t")
    typed(page, BACK, names(page, BACK)[0], "1")
    told(page, BACK, "no aftercooler does it")
    part(page, BACK).get_by_role("button", name="reset").click()
    told(page, LIGHT, "the water heats it to 183 °F")
    told(page, COLD, "to 140 °F")
    part(page, LIMITS).get_by_role("button", name="go to fan off").click()
    told(page, LIMITS, "The cooling air limits")


def test_the_exit_ticket_names_the_mistake_and_lets_one_try_again(page):
    ticket = part(page, TICKET)
    for turn, (wrong, reply, right) in enumerate((("0.61", "thermometer's number", "0.80"),
                                                  ("0.43", "air of the shop", "0.75"),
                                                  ("a very good core", "Nothing cools below",
                                                   "a temperature was read wrong; I look at the core face "
                                                   "first"))):  # fmt: skip
        question = ticket.locator(".tm-question").nth(turn)
        for option, words in ((wrong, reply), (right, "Right:")):
            question.get_by_role("radio", name=option, exact=True).check()
            page.keyboard.press("Enter")
            question.get_by_text(words).wait_for()
            question.get_by_role("button", name="try again").click()


def test_no_key_changes_the_notebook_and_every_control_has_a_name_and_a_focus_that_is_seen(page):
    predict_all(page)
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
    for number in SLIDERS:
        part(page, number).get_by_role("button", name="table").click()
    assert serious(page) == []


@pytest.mark.parametrize("number", SLIDERS, ids=["back", "light", "cold", "limits"])
def test_controls_picture_and_sentence_are_in_sight_together(page, number, screenshot):
    predict(page, *ANSWERS[number][:2])
    panel = part(page, number)
    panel.evaluate("node => node.scrollIntoView()")
    painted(page)
    screenshot(page, f"{NAME}_{number}")
    seen = [*(slider(page, number, name) for name in names(page, number)), panel.locator("svg").first,
            *(panel.locator(part) for part in (".tm-sentence", ".tm-readouts")),
            panel.get_by_role("button", name="reset")]  # fmt: skip
    assert all(in_sight(page, one) for one in seen)


@pytest.mark.parametrize("size", [WHOLE, NARROW], ids=["whole", "200 %"])
def test_nothing_is_cut_and_no_words_of_a_picture_overlap(page, size, screenshot):
    page.set_viewport_size(size)
    predict_all(page)
    zoom = "zoom" if size is NARROW else "whole"
    outlet = names(page, BACK)[1]
    for system, hot in (("US", "336"), ("US", "−40"), ("SI", "230"), ("SI", "−20")):
        for number in (BACK, LIGHT, COLD):
            part(page, number).get_by_role("radio", name=system, exact=True).check()
            typed(page, number, outlet, hot)
        told(page, BACK, f"{hot} °")
        page.wait_for_timeout(250)
        for number in SLIDERS:
            part(page, number).locator("svg").first.evaluate("node => node.scrollIntoView()")
            painted(page)
            screenshot(page, f"{NAME}_{number}_{hot}_{zoom}")
        assert overlaps(page) == [], hot
        assert [cut(page, number) for number in range(5)] == [[]] * 5, hot
