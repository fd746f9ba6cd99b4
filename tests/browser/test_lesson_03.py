"""Lesson 03 as a student uses it: predict, move, type, compare, read the table; by keyboard, mouse, after a crash."""

import re

import pytest

from tests.browser.pages import (
    KEYS,
    NAMED,
    NARROW,
    cells,
    cut,
    in_sight,
    leaving,
    live,
    overlaps,
    plain,
    pop_ups,
    serious,
)

NAME = "03_hot_air_is_thin"
RANGES = ("boost", "manifold temperature")


@pytest.fixture
def page(open_lesson):
    page = open_lesson(NAME)
    panel(page).wait_for()
    return page


def panel(page):
    return page.locator(".tm").first


def predict(page, option="A: 20 psi"):
    """Enter a prediction by keyboard, let everything go, and wait for the picture."""
    panel(page).get_by_role("radio", name=option).focus()
    page.keyboard.press("Space")
    page.keyboard.press("Enter")
    panel(page).get_by_role("img", name="Lines of equal density").wait_for()


def let_go(page):
    panel(page).get_by_role("checkbox", name="hold manifold temperature").uncheck()
    slider(page, "manifold temperature").wait_for()


def slider(page, name):
    return panel(page).get_by_role("slider", name=name, exact=True)


def box(page, name):
    return panel(page).get_by_role("textbox", name=f"{name}, number")


def told(page, pattern):
    """Wait until the sentence in words matches."""
    words = re.compile(pattern.replace(" ", r"\s"))  # some spaces hold a number to its unit
    panel(page).get_by_role("status").filter(has_text=words).wait_for(timeout=10_000)


def test_nothing_is_drawn_until_a_prediction_is_entered_by_keyboard(page):
    assert panel(page).locator("svg").count() == 0
    assert "B holds more" not in panel(page).inner_text()
    main = panel(page).get_by_role("button", name="this is my prediction")
    main.focus()
    page.keyboard.press("Enter")
    panel(page).get_by_text("Choose one answer first").wait_for()
    assert panel(page).locator("svg").count() == 0
    predict(page)
    kept = panel(page).get_by_role("group", name="your prediction and the outcome")
    assert kept.evaluate("node => node === document.activeElement")
    assert "You predicted: A: 20 psi" in plain(kept)
    assert "B holds more: 0.1360 lb/ft³, against 0.1215 lb/ft³ in A" in plain(kept)
    told(page, "as much as A, 10.6 % less than B")
    kept.get_by_role("button", name="try again").click()
    main.wait_for()
    assert not panel(page).locator("svg").first.is_visible()


def test_each_slider_moves_by_keyboard(page):
    predict(page)
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
            before = panel(page).get_by_role("status").inner_text()
            page.keyboard.press(key)
            page.wait_for_function(
                "([node, old]) => node.innerText !== old",
                arg=[panel(page).get_by_role("status").element_handle(), before],
            )
            slack = arrow if "Page" in key else 0.0
            assert float(number.input_value()) == pytest.approx(value, abs=slack + 1e-9), key
            assert handle.evaluate("node => node === document.activeElement")


def test_each_slider_moves_by_mouse_and_the_picture_follows(page):
    predict(page)
    let_go(page)
    point = panel(page).locator("svg").first.locator(".tm-points.tm-role-measured")
    for name in RANGES:
        handle = slider(page, name)
        handle.scroll_into_view_if_needed()
        at, seen = handle.bounding_box(), set()
        page.mouse.move(at["x"] + at["width"] / 2, at["y"] + at["height"] / 2)
        page.mouse.down()
        for step in range(12):
            page.mouse.move(at["x"] + at["width"] * (0.5 + step / 30), at["y"] + at["height"] / 2)
            page.wait_for_timeout(60)
            seen.add(point.get_attribute("d"))
        page.mouse.up()
        assert len(seen) >= 7, "the picture did not follow"
        page.wait_for_timeout(300)
        assert float(box(page, name).input_value()) == pytest.approx(float(handle.input_value()))


def test_numbers_are_typed_with_a_decimal_comma_and_out_of_range_is_said_in_words(page):
    predict(page)
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
    predict(page)
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
    predict(page)
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
    predict(page)
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


def test_no_key_changes_the_notebook_whatever_control_has_the_focus(page):
    predict(page)
    let_go(page)
    before = cells(page)
    controls = page.locator(".tm").locator("input:visible, button:visible, summary:visible, [tabindex]:visible")
    count = controls.count()
    assert count > 20
    for turn in range(count):
        controls.nth(turn).focus()
        for key in KEYS:
            page.keyboard.press(key)
    panel(page).locator("svg").first.click()
    for key in KEYS:
        page.keyboard.press(key)
    page.wait_for_timeout(700)  # the notebook waits for a second letter
    assert cells(page) == before
    assert pop_ups(page) == 0
    assert panel(page).is_visible()


def test_every_control_has_a_name_and_a_focus_that_is_seen(page):
    predict(page)
    let_go(page)
    controls = page.locator(".tm").locator("input:visible, button:visible, summary:visible")
    for turn in range(controls.count()):
        control = controls.nth(turn)
        name = control.evaluate(NAMED)
        assert name.strip(), control.evaluate("node => node.outerHTML")
        control.focus()
        page.keyboard.press("Shift")  # the last doing was by keyboard, so the focus is shown
        style = control.evaluate("node => getComputedStyle(node).outline")
        assert "solid" in style, name
        assert float(re.search(r"([\d.]+)px", style)[1]) >= 2, name
    for name in RANGES:
        assert slider(page, name).get_attribute("aria-valuetext")


def test_axe_finds_no_serious_problem_before_and_after_the_prediction(page):
    assert serious(page) == []
    predict(page)
    page.keyboard.press("t")
    box(page, "boost").fill("90")
    box(page, "boost").press("Enter")
    told(page, "90.0 psi")
    assert serious(page) == []


def test_an_error_is_words_in_the_panel_which_stays_usable(page, screenshot):
    predict(page)
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
    predict(page)
    kernels = classroom.kernels()
    for kernel in kernels:
        kernel.suspend()
    try:
        slider(page, "boost").focus()
        page.keyboard.press("End")
        panel(page).get_by_text("Python does not answer").wait_for(timeout=10_000)
    finally:
        for kernel in kernels:
            kernel.resume()
    told(page, "At 40.0 psi")
    assert not panel(page).get_by_text("Python does not answer").is_visible()


def test_when_python_crashes_the_lesson_comes_back_live(page, classroom):
    predict(page)
    panel(page).evaluate("node => { node.dataset.old = 'yes' }")
    classroom.kill_kernels()
    page.locator(".tm:not([data-old])").first.wait_for(timeout=60_000)
    live(page)
    predict(page, "B: 15 psi")
    slider(page, "boost").focus()
    page.keyboard.press("End")
    told(page, "At 40.0 psi")


def test_the_exit_ticket_names_the_mistake_and_lets_one_try_again(page):
    ticket = page.locator(".tm").nth(1)
    ticket.get_by_role("radio", name="20 psi", exact=True).check()
    ticket.get_by_role("button", name="check").first.click()
    ticket.get_by_text("That is gauge pressure").wait_for()
    ticket.get_by_role("button", name="try again").click()
    ticket.get_by_role("radio", name="34.2 psi").check()
    ticket.get_by_role("button", name="check").first.click()
    ticket.get_by_text("34.2 psi absolute").wait_for()


def test_controls_picture_and_sentence_are_in_sight_together(page, requests, screenshot):
    predict(page)
    let_go(page)
    for name, value in (("boost", "12"), ("manifold temperature", "120")):
        box(page, name).fill(value)
        box(page, name).press("Enter")
    told(page, "At 12.0 psi of boost and 120 °F.*0.4 % more than A")
    panel(page).focus()
    panel(page).evaluate("node => node.scrollIntoView()")
    page.wait_for_timeout(300)
    parts = [
        slider(page, "boost"),
        panel(page).locator("svg").first,
        panel(page).locator("svg").nth(1),
        panel(page).get_by_role("status"),
        panel(page).get_by_role("button", name="reset"),
    ]
    assert [in_sight(page, part) for part in parts] == [True] * 5
    assert leaving(requests) == []
    assert pop_ups(page) == 0
    screenshot(page, NAME)


@pytest.mark.parametrize("size", [{}, NARROW], ids=["whole", "200 %"])
def test_nothing_is_cut_and_no_words_of_the_picture_overlap(open_lesson, size, screenshot):
    page = open_lesson(NAME, **size)
    predict(page)
    let_go(page)
    panel(page).get_by_role("button", name="keep this case").click()
    cases = (("start", 20, 300), ("dense", 39, 60), ("thin", 1, 390), ("beyond", 90, -20))
    for label, psi, fahrenheit in cases:
        for name, value in (("boost", psi), ("manifold temperature", fahrenheit)):
            box(page, name).fill(str(value))
            box(page, name).press("Enter")
        told(page, rf"At {psi}.0 psi of boost and {str(fahrenheit).replace('-', '−')} °F")
        assert cut(page) == [], label
        assert overlaps(page) == [], label
        panel(page).locator("svg").first.scroll_into_view_if_needed()
        screenshot(page, f"{NAME}_{label}_{'zoom' if size else 'whole'}")
    panel(page).evaluate("node => node.scrollIntoView()")
    screenshot(page, f"{NAME}_top_{'zoom' if size else 'whole'}")
