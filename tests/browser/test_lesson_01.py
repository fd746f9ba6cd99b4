"""Lesson 01 as a student uses it: predict, stack pressures, take the wrong barometer; by keyboard and by mouse."""

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

NAME = "01_gauge_and_absolute"
PLACES, REPORT, RATIO, TICKET = range(4)
ANSWERS = ((PLACES, "yes: 25 psi is 25 psi", "37.1 psi abs up there, 39.7 psi abs at sea level"),
           (REPORT, "30.05 inHg (101.8 kPa), as reported", "26.39 inHg. The rule of thumb"),
           (RATIO, "1.68", "2.87: 39.8 psi abs over 13.9 psi abs"))  # fmt: skip
SLIDERS = {PLACES: ("elevation", "boost", "intake restriction"), REPORT: ("sea level pressure", "elevation", "boost"),
           RATIO: ("boost", "barometer", "intake restriction", "cooler pressure loss")}  # fmt: skip


@pytest.fixture
def page(shared_lesson):
    return afresh(shared_lesson)


def part(page, number):
    return page.locator(".tm").nth(number)


def predict(page, number, option):
    """Enter a prediction by keyboard and wait for the picture."""
    part(page, number).get_by_role("radio", name=option, exact=True).focus()
    page.keyboard.press("Space")
    page.keyboard.press("Enter")
    part(page, number).locator("svg").first.wait_for()


def predict_all(page):
    for number, option, _ in ANSWERS:
        predict(page, number, option)


def told(page, number, pattern):
    """Wait until the sentence in words matches."""
    words = re.compile(pattern.replace(" ", r"\s"))
    part(page, number).locator(".tm-sentence").filter(has_text=words).wait_for(timeout=15_000)


def slider(page, number, name):
    return part(page, number).get_by_role("slider", name=name, exact=True)


def typed(page, number, name, text):
    """Type a number, press Enter, and return its box."""
    box = part(page, number).get_by_role("textbox", name=f"{name}, number")
    box.fill(text)
    box.press("Enter")
    return box


def box_follows(page, number, name):
    """Wait until the number box shows where the slider stands, to its printed digits."""
    box = part(page, number).get_by_role("textbox", name=f"{name}, number")
    nodes = [slider(page, number, name).element_handle(), box.element_handle()]
    page.wait_for_function("([slider, box]) => Math.abs(slider.value - box.value.replace('−', '-')) <= 0.05", arg=nodes)


def changed(page, number, do):
    """Do something and wait until the page of this panel shows something else."""
    right = part(page, number).locator(".tm-right")
    before = right.inner_html()
    do()
    page.wait_for_function("([node, old]) => node.innerHTML !== old", arg=[right.element_handle(), before])


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
            changed(
                page, number, lambda at=at: page.mouse.move(at["x"] + 0.35 * at["width"], at["y"] + at["height"] / 2)
            )
            page.mouse.up()
            painted(page)
            box_follows(page, number, name)


def test_the_wrong_barometer_shows_its_error(page, screenshot):
    predict(page, *ANSWERS[PLACES][:2])
    told(page, PLACES, "At 5280 ft with 25.0 psi on the gauge, the manifold holds 37.1 psi abs: 6.5 % less")
    part(page, PLACES).get_by_role("combobox", name="barometer taken").select_option(label="sea-level-corrected")
    told(page, PLACES, "29.92 inHg makes it 39.7 psi abs. The manifold holds 37.1 psi abs: 2.6 psi too high, or 7.0 %")
    assert part(page, PLACES).locator("svg text", has_text="2.6 psi too high").count() == 1
    part(page, PLACES).evaluate("node => node.scrollIntoView()")
    painted(page)
    screenshot(page, f"{NAME}_error")
    typed(page, PLACES, "elevation", "0")
    told(page, PLACES, "no error")


def test_numbers_units_the_table_and_a_kept_case(page, screenshot):
    predict(page, *ANSWERS[PLACES][:2])
    box = typed(page, PLACES, "boost", "17,3")
    told(page, PLACES, "17.3 psi on the gauge")
    before = part(page, PLACES).inner_text()
    part(page, PLACES).get_by_role("radio", name="SI", exact=True).check()
    told(page, PLACES, "At 1609 m with 119.3 kPa on the gauge.*202.7 kPa abs")
    part(page, PLACES).get_by_role("radio", name="US", exact=True).check()
    told(page, PLACES, "17.3 psi on the gauge")
    assert part(page, PLACES).inner_text() == before
    assert box.input_value() == "17,3"
    part(page, PLACES).get_by_role("button", name="keep this case").click()
    part(page, PLACES).get_by_text("kept: 29.4").wait_for()
    typed(page, PLACES, "boost", "90")
    part(page, PLACES).get_by_text("! Out of range: this lesson goes from 0 to 40 psi.").wait_for()
    typed(page, PLACES, "boost", "-30")
    part(page, PLACES).get_by_role("alert").filter(has_text="below a full vacuum").wait_for()
    part(page, PLACES).get_by_role("button", name="reset").click()
    told(page, PLACES, "25.0 psi on the gauge")
    slider(page, PLACES, "boost").focus()
    page.keyboard.press("t")
    table = part(page, PLACES).get_by_role("table", name="Absolute pressure, counted from vacuum")
    table.wait_for()
    assert "barometer 12.1 + boost 25.0\t37.1" in plain(table.get_by_role("row").nth(2))
    table.scroll_into_view_if_needed()
    screenshot(page, f"{NAME}_table")


def test_the_weather_report_and_the_pressure_ratio(page):
    predict_all(page)
    told(page, REPORT, "30.05 inHg in the report, 3550 ft up: the bench reads 26.39 inHg. The rule of thumb says 26.50")
    typed(page, REPORT, "elevation", "5280")
    part(page, REPORT).locator(".tm-readouts").get_by_text("21.5").wait_for()
    told(page, RATIO, "pressure ratio 2.87. Boost ÷ barometer is 1.68")
    typed(page, RATIO, "intake restriction", "0")
    told(page, RATIO, "pressure ratio 2.78")
    slider(page, RATIO, "boost").focus()
    page.keyboard.press("t")
    table = part(page, RATIO).get_by_role("table", name="What was divided by what")
    assert "boost ÷ barometer\t1.68" in plain(table)


def test_the_exit_ticket_names_the_mistake_and_lets_one_try_again(page):
    ticket = part(page, TICKET)
    for turn, (wrong, reply, right) in enumerate((("neither: average them", "have no average", "both"),
                                                  ("38.7 psi", "corrected to sea level", "36.1 psi"),
                                                  ("14.48 psi", "take it off", "13.62 psi"))):  # fmt: skip
        for option, words in ((wrong, reply), (right, "Right:")):
            ticket.get_by_role("radio", name=option, exact=True).check()
            page.keyboard.press("Enter")
            answer = ticket.locator(".tm-question").nth(turn)
            answer.get_by_text(words).wait_for()
            answer.get_by_role("button", name="try again").click()


def test_no_key_changes_the_notebook_and_every_control_has_a_name_and_a_focus_that_is_seen(page):
    predict_all(page)
    part(page, PLACES).locator("summary").first.click()
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
    for number in (PLACES, REPORT, RATIO):
        part(page, number).get_by_role("button", name="table").click()
    typed(page, PLACES, "boost", "90")
    told(page, PLACES, "90.0 psi on the gauge")
    assert serious(page) == []


@pytest.mark.parametrize("number", SLIDERS, ids=["places", "report", "ratio"])
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
    part(page, PLACES).get_by_role("combobox", name="barometer taken").select_option(label="sea-level-corrected")
    for system in ("US", "SI"):
        for number in SLIDERS:
            part(page, number).get_by_role("radio", name=system, exact=True).check()
        for boost in ("25", "1", "0", "300"):
            for number in SLIDERS:
                typed(page, number, "boost", boost)
            told(page, RATIO, "Boost ÷ barometer")
            page.wait_for_timeout(250)
            assert overlaps(page) == [], (system, boost)
            assert [cut(page, number) for number in range(4)] == [[]] * 4, (system, boost)
        for number in SLIDERS:
            part(page, number).locator("svg").first.evaluate("node => node.scrollIntoView()")
            painted(page)
            screenshot(page, f"{NAME}_{number}_{system}_{zoom}")
