"""Lesson 03 as a student uses it: predict, move, type, compare, read the table; by keyboard, mouse, after a crash."""

import re

import pytest

from tests.browser.pages import (
    KEYS,
    afresh,
    box,
    cells,
    enter,
    live,
    panel,
    plain,
    pop_ups,
    settled,
    slider,
    told,
)
from tests.browser.walk import KEPT, Walk, keys_change_nothing, predict, whole_panel_in_sight

NAME = "03_hot_air_is_thin"
RANGES = ["boost", "manifold temperature"]
A, B = "A: 20 psi (138 kPa) of boost, 300 °F (149 °C)", "B: 15 psi (103 kPa) of boost, 120 °F (49 °C)"


def let_go(page):
    panel(page).get_by_role("checkbox", name="hold manifold temperature").uncheck()
    slider(page, "manifold temperature").wait_for()


def unfold(page):
    let_go(page)
    enter(page, "boost", "90")
    told(page, "90.0 psi")


def ends(page):
    panel(page).get_by_role("button", name="keep this case").click()
    for psi, fahrenheit in (("20", "300"), ("39", "60"), ("1", "390"), ("90", "−20")):
        enter(page, "boost", psi)
        enter(page, "manifold temperature", fahrenheit)
        told(page, rf"At {psi}.0 psi of boost and {fahrenheit} °F")
        settled(page)
        yield f"{psi} psi"


WALK = Walk(
    answers=((0, A, "B holds more: 0.1360 lb/ft³, against 0.1215 lb/ft³ in A"),),
    sliders={0: ["boost"]},  # the other is held at the start
    turns=(("20 psi", "That is gauge pressure", "34.2 psi"),),
    controls=20,
    unfold=unfold,
    ends=ends,
)


@pytest.fixture
def page(shared_lesson):
    return afresh(shared_lesson)


def test_a_prediction_left_empty_is_asked_for_and_one_can_try_again(page):
    assert panel(page).locator("svg").count() == 0
    assert "B holds more" not in panel(page).inner_text()
    main = panel(page).get_by_role("button", name="this is my prediction")
    main.focus()
    page.keyboard.press("Enter")
    panel(page).get_by_text("Choose one answer first").wait_for()
    assert panel(page).locator("svg").count() == 0
    predict(page, 0, A)
    kept = panel(page).get_by_role("group", name=KEPT)
    assert kept.evaluate("node => node === document.activeElement")
    assert f"You predicted: {A}" in plain(kept)
    assert "B holds more: 0.1360 lb/ft³, against 0.1215 lb/ft³ in A" in plain(kept)
    told(page, "as much as A, 10.6 % less than B")
    kept.get_by_role("button", name="try again").click()
    main.wait_for()
    assert not panel(page).locator("svg").first.is_visible()


def test_each_slider_moves_by_keyboard(page):
    predict(page, 0, A)
    let_go(page)
    for name, start, arrow, jump, home, end in (
        ("boost", 20.0, 0.2, 4.0, 0.0, 40.0),
        ("manifold temperature", 300.0, 2.0, 34.0, 50.0, 392.0),
    ):
        handle, number = slider(page, name), box(page, name)
        handle.focus()
        for key, value in (
            ("ArrowRight", start + arrow),
            ("ArrowUp", start + 2 * arrow),
            ("ArrowLeft", start + arrow),
            ("ArrowDown", start),
            ("PageUp", start + jump),
            ("PageDown", start),
            ("End", end),
            ("Home", home),
        ):
            before = panel(page).locator(".tm-sentence").inner_text()
            page.keyboard.press(key)
            page.wait_for_function(
                "([node, old]) => node.innerText !== old",
                arg=[panel(page).locator(".tm-sentence").element_handle(), before],
            )
            slack = arrow if "Page" in key else 0.0
            assert float(number.input_value()) == pytest.approx(value, abs=slack + 1e-9), key
            assert handle.evaluate("node => node === document.activeElement")
        assert handle.get_attribute("aria-valuetext")


def test_each_slider_moves_by_mouse_and_the_picture_follows(page):
    predict(page, 0, A)
    let_go(page)
    picture = panel(page).locator("svg").nth(2).element_handle()  # the chart, below the two engines
    point = "picture.querySelector('.tm-points.tm-role-measured').getAttribute('d')"
    for name in RANGES:
        handle = slider(page, name)
        handle.scroll_into_view_if_needed()
        at = handle.bounding_box()
        page.mouse.move(at["x"] + at["width"] / 2, at["y"] + at["height"] / 2)
        page.mouse.down()
        for step in range(1, 8):
            drawn = page.evaluate(f"picture => {point}", picture)
            page.mouse.move(at["x"] + at["width"] * (0.5 + step / 20), at["y"] + at["height"] / 2)
            page.wait_for_function(f"([picture, old]) => {point} !== old", arg=[picture, drawn])
        page.mouse.up()
        settled(page)
        assert float(box(page, name).input_value()) == pytest.approx(float(handle.input_value()))


def test_numbers_are_typed_with_a_decimal_comma_and_out_of_range_is_said_in_words(page):
    predict(page, 0, A)
    number = box(page, "boost")
    number.fill("12,5")
    number.press("Enter")
    told(page, "At 12.5 psi of boost")
    assert number.input_value() == "12,5"
    number.fill("80")
    number.press("Tab")
    told(page, "At 80.0 psi of boost")
    panel(page).get_by_text("! Out of range: this lesson goes from 0 to 40 psi.").wait_for()
    assert number.input_value() == "80"
    number.fill("lots")
    number.press("Enter")
    panel(page).get_by_text("The panel still shows 80.0 psi.").wait_for()
    assert number.get_attribute("aria-invalid") is not None


def test_units_switch_there_and_back_without_a_change(page):
    predict(page, 0, A)
    box(page, "boost").fill("17,3")
    box(page, "boost").press("Enter")
    told(page, "17.3 psi")
    before = panel(page).inner_text()
    for _ in range(3):
        panel(page).get_by_role("radio", name="SI", exact=True).check()
        told(page, "119.3 kPa.*149 °C.*kg of air")
        panel(page).get_by_role("radio", name="US", exact=True).check()
        told(page, "17.3 psi.*300 °F.*lb of air")
    assert panel(page).inner_text() == before
    assert box(page, "boost").input_value() == "17,3"


def test_one_key_shows_the_table_twin_and_one_hides_it(page, screenshot):
    predict(page, 0, A)
    slider(page, "boost").focus()
    table = panel(page).get_by_role("table", name="The same in numbers")
    assert not table.is_visible()
    page.keyboard.press("t")
    table.wait_for()
    heads = table.get_by_role("columnheader").all_inner_texts()
    assert heads[4].replace("\xa0", " ") == "density [lb/ft³]"
    assert table.get_by_role("row").nth(2).inner_text().split("\t")[-1] == "0.1360"
    table.scroll_into_view_if_needed()
    screenshot(page, f"{NAME}_table")
    page.keyboard.press("t")
    table.wait_for(state="hidden")
    button = panel(page).get_by_role("button", name="table")
    button.focus()
    page.keyboard.press("Enter")
    table.wait_for()
    assert button.get_attribute("aria-expanded") == "true"
    box(page, "boost").focus()
    page.keyboard.press("t")
    assert table.is_visible(), "in a text box t is a letter"


def test_a_case_is_kept_compared_dropped_and_all_is_reset(page, screenshot):
    predict(page, 0, A)
    panel(page).get_by_role("button", name="keep this case").click()
    panel(page).get_by_text("kept: 0.1215").wait_for()
    let_go(page)
    panel(page).get_by_role("button", name="go to B").click()
    told(page, "as much as B")
    assert panel(page).locator("svg text", has_text=re.compile("^kept$")).count() == 1
    screenshot(page, f"{NAME}_kept")
    panel(page).get_by_role("button", name="drop the kept case").click()
    panel(page).get_by_text("kept: 0.1215").wait_for(state="detached")
    panel(page).get_by_role("button", name="reset").click()
    told(page, "At 20.0 psi of boost and 300 °F")
    assert panel(page).get_by_text("held at 300 °F").is_visible()


def test_none_of_the_keys_changes_the_notebook_whatever_control_has_the_focus(page):
    predict(page, 0, A)
    let_go(page)
    keys_change_nothing(page, least=20, every=True)
    before = cells(page)
    panel(page).locator("svg").first.click()
    for key in KEYS:
        page.keyboard.press(key)
    settled(page)
    assert cells(page) == before
    assert pop_ups(page) == 0
    assert panel(page).is_visible()


def test_an_error_is_words_in_the_panel_which_stays_usable(page, screenshot):
    predict(page, 0, A)
    box(page, "boost").fill("-30")
    box(page, "boost").press("Enter")
    alert = panel(page).get_by_role("alert").filter(has_text="below a full vacuum")
    alert.wait_for()
    screenshot(page, f"{NAME}_error")
    panel(page).get_by_text("for the instructor").click()
    assert "OutOfRangeError" in panel(page).locator("pre").inner_text()
    box(page, "boost").fill("10")
    box(page, "boost").press("Enter")
    told(page, "At 10.0 psi")
    assert not alert.is_visible()


def test_when_python_does_not_answer_the_panel_says_so_until_it_does(page, classroom):
    predict(page, 0, A)
    kernels = classroom.kernels()
    for kernel in kernels:
        kernel.suspend()
    try:
        slider(page, "boost").focus()
        page.keyboard.press("End")
        panel(page).get_by_text("Python does not answer").wait_for()
    finally:
        for kernel in kernels:
            kernel.resume()
    told(page, "At 40.0 psi")
    assert not panel(page).get_by_text("Python does not answer").is_visible()


def test_the_next_step_of_a_slider_is_drawn_before_python_answers(page, classroom):
    predict(page, 0, A)
    slider(page, "boost").focus()
    page.keyboard.press("ArrowRight")
    told(page, "At 20.2 psi")
    page.wait_for_timeout(1000)  # in which the next steps are worked out
    kernels = classroom.kernels()
    for kernel in kernels:
        kernel.suspend()
    try:
        page.keyboard.press("ArrowRight")
        told(page, "At 20.4 psi")
        assert box(page, "boost").input_value() == "20.4"
        page.keyboard.press("ArrowRight")  # nothing is known of this one
    finally:
        for kernel in kernels:
            kernel.resume()
    told(page, "At 20.6 psi")


def test_when_python_crashes_the_lesson_comes_back_live(page, classroom):
    predict(page, 0, A)
    panel(page).evaluate("node => { node.dataset.old = 'yes' }")
    classroom.kill_kernels()
    page.wait_for_function("() => document.querySelector('.tm') && !document.querySelector('.tm').dataset.old")
    live(page)
    settled(page)
    assert f"You predicted: {A}" in plain(panel(page))
    slider(page, "boost").focus()
    page.keyboard.press("End")
    told(page, "At 40.0 psi")


def test_the_exit_ticket_is_answered_by_mouse(page):
    ticket = page.locator(".tm").nth(1)
    ticket.get_by_role("radio", name="20 psi", exact=True).check()
    ticket.get_by_role("button", name="check").first.click()
    ticket.get_by_text("That is gauge pressure").wait_for()
    ticket.get_by_role("button", name="try again").click()
    ticket.get_by_role("radio", name="34.2 psi").check()
    ticket.get_by_role("button", name="check").first.click()
    ticket.get_by_text("34.2 psi absolute").wait_for()


def test_both_pictures_are_in_sight_with_the_controls_and_the_sentence(page, screenshot):
    predict(page, 0, A)
    let_go(page)
    for name, value in (("boost", "12"), ("manifold temperature", "120")):
        enter(page, name, value)
    told(page, "At 12.0 psi of boost and 120 °F.*0.4 % more than A")
    assert whole_panel_in_sight(page, 0, RANGES, panel(page).locator("svg").nth(1))
    screenshot(page, NAME)
