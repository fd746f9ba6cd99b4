"""Lesson 05 as a student uses it: predict, move, pick a run, compare aftercoolers; by keyboard and by mouse."""

import shutil

import pytest

from tests.browser.lesson_05 import AIR, COST, GAUGES, JACKET, THREE, TICKET, VERDICT, open_all, predict, read
from tests.browser.pages import (
    KEYS,
    NARROW,
    PATIENCE,
    WHOLE,
    afresh,
    at_top,
    box,
    button,
    cells,
    choose,
    cut,
    enter,
    focus_is_seen,
    in_sight,
    live,
    name_of,
    otherwise,
    overlaps,
    painted,
    panel,
    plain,
    pop_ups,
    readouts,
    said,
    serious,
    slider,
    tab_to,
    told,
)
from tests.panels.what_the_engine_gains.opening import RUNS, hotter
from turbomath.disk import files

NAME = "05_what_the_engine_gains"
SLIDERS = ("boost", "ambient temperature", "barometer", "effectiveness")


@pytest.fixture
def page(shared_lesson):
    return afresh(shared_lesson)


def test_nothing_is_drawn_until_a_prediction_is_entered_by_keyboard(page):
    for number, option, outcome in (
        (GAUGES, "about 68 %", "About 145 % denser"),
        (THREE, "it rises", "It falls, here from"),
        (COST, "no: less boost", "Yes: 27.5 % more air is left of 33.9 %"),
    ):
        assert panel(page, number).locator("svg").count() == 0
        assert outcome not in plain(panel(page, number))
        predict(page, number, option)
        kept = panel(page, number).get_by_role("group", name="your prediction and the outcome")
        assert kept.evaluate("node => node === document.activeElement")
        assert outcome in plain(kept)


def test_the_first_panel_is_walked_by_keyboard_alone(page, own, screenshot):
    shutil.copytree(files.shipped("data") / AIR, own("mine"))
    press, first = page.keyboard.press, panel(page)
    first.focus()
    tab_to(first.get_by_role("radio").first)
    press("ArrowDown")
    press("Enter")
    told(page, "At 24.0 psi of boost, theory says")
    for name in SLIDERS:
        tab_to(slider(page, name))
        for key in ("Home", "PageUp", "ArrowRight", "ArrowUp"):
            before = said(page).inner_text()
            press(key)
            otherwise(said(page), before)
    tab_to(first.locator("summary").first)
    press("Enter")
    tab_to(first.get_by_label("aftercooler", exact=True))
    before = said(page).inner_text()
    page.keyboard.type("none")
    otherwise(said(page), before)
    tab_to(first.get_by_role("radio", name="US", exact=True))
    press("ArrowRight")
    told(page, "kPa of boost.*kg/m³")
    press("ArrowLeft")
    told(page, "psi of boost.*lb/ft³")
    tab_to(button(page, "reset"))
    press("Enter")
    told(page, "At 24.0 psi of boost, theory says.*144.8 % denser")
    tab_to(button(page, "table"))
    press("Enter")
    table = first.get_by_role("table", name="Theory, as the sliders are set")
    table.wait_for()
    press("t")
    table.wait_for(state="hidden")
    readings, point = (first.get_by_label(label, exact=True) for label in ("readings", "point"))
    tab_to(readings)
    for _ in RUNS:
        press("ArrowDown")
        title = readings.locator("option:checked").inner_text()
        first.locator(".tm-notes").filter(has_text=title).wait_for()
        told(page, f"Point .*{VERDICT}")
    press("ArrowDown")
    press("Tab")
    page.keyboard.type("nowhere")
    press("Enter")
    first.get_by_text("nowhere: found 'no such folder', expected a run folder").wait_for()
    at_top(page)
    screenshot(page, f"{NAME}_refused")
    press("Control+a")
    page.keyboard.type("mine")
    press("Enter")
    told(page, "Point 7.*They agree")
    tab_to(point, "Shift+Tab")
    press("ArrowUp")
    told(page, "Point 6")
    tab_to(button(page, "make the report"))
    press("Space")
    first.get_by_role("link", name="open the report").wait_for()


def test_the_first_panel_is_walked_by_mouse(page):
    first = panel(page)
    first.get_by_text("about 84 % denser").click()
    button(page, "this is my prediction").click()
    told(page, "At 24.0 psi of boost, theory says")
    for name in SLIDERS:
        drag(page, name)
    first.get_by_text("more", exact=True).click()
    drag(page, "compressor efficiency")
    first.get_by_text("SI", exact=True).click()
    told(page, "kPa of boost.*kg/m³")
    first.get_by_text("US", exact=True).click()
    button(page, "reset").click()
    told(page, "At 24.0 psi of boost, theory says.*144.8 % denser")
    button(page, "table").click()
    first.get_by_role("table").wait_for()
    choose(page, "readings", AIR)
    told(page, "Point 7.*They agree: the difference, −1 ± 4 %, is within its own ±")
    choose(page, "readings", JACKET)
    told(page, "Point 7, .*measured 110 ± 4 %")
    choose(page, "point", "1")
    told(page, "They do not agree: the difference.*is more than its own ±. (Furthest from its design|No machine)")
    assert readouts(page)[3] == "no"


def drag(page, name):
    """Drag a slider to the left; its number, the sentence and the picture follow."""
    handle, before, drawn = slider(page, name), said(page).inner_text(), theory_drawn(page)
    handle.scroll_into_view_if_needed()
    at = handle.bounding_box()
    level = at["y"] + at["height"] / 2
    page.mouse.move(at["x"] + 0.5 * at["width"], level)
    page.mouse.down()
    page.mouse.move(at["x"] + 0.3 * at["width"], level, steps=6)
    page.mouse.up()
    page.wait_for_function(
        "([box, range]) => Number(box.value.replace('−', '-')) === Number(range.value)",
        arg=[box(page, name).element_handle(), handle.element_handle()],
    )
    otherwise(said(page), before)
    assert theory_drawn(page) != drawn


def theory_drawn(page):
    """Return the form of the sliders' line and that of their point."""
    picture = panel(page).locator("svg").first
    return [picture.locator(form).first.get_attribute("d") for form in (".tm-line", ".tm-points")]


def test_three_aftercoolers_at_equal_boost_equal_air_and_equal_density(page, screenshot):
    predict(page, THREE, "it stays")
    told(page, "15.3 % more air with jacket-water and 33.4 % more air with air-to-air", THREE)
    assert readouts(page, THREE)[:3] == ["24.0"] * 3
    at_top(page, THREE)
    screenshot(page, f"{NAME}_equal_boost")
    choose(page, "compare at", "air", THREE)
    told(page, "18.4 psi with jacket-water and 13.6 psi with air-to-air.*Less boost, the same air", THREE)
    choose(page, "compare at", "density", THREE)
    told(page, "30.8 psi with jacket-water, and 45.4 psi without", THREE)
    screenshot(page, f"{NAME}_equal_density")
    choose(page, "compare at", "boost", THREE)
    enter(page, "compressor efficiency", "0,60", THREE)
    panel(page, THREE).locator(".tm-readouts b").get_by_text("37.2").wait_for()
    slider(page, "boost", THREE).focus()
    page.keyboard.press("t")
    table = panel(page, THREE).get_by_role("table", name="The three engines in numbers")
    assert "139.4" in table.get_by_role("row").nth(3).inner_text()


def test_the_trade_and_its_break_even(page, screenshot):
    predict(page, COST, "about 34 %")
    assert readouts(page, COST) == ["27.5", "9.6", "2880", "12.9", "34.2"]
    enter(page, "cooler pressure loss", "9.7", COST)
    told(page, "nothing is left, and more is lost. A loss of 9.6 psi would take it all", COST)
    at_top(page, COST)
    screenshot(page, f"{NAME}_cost")


def test_the_exit_ticket_names_the_mistake_and_lets_one_try_again(page):
    ticket = panel(page, TICKET)
    ticket.get_by_role("radio", name="29.1 %").check()
    ticket.get_by_role("button", name="check").nth(1).click()
    ticket.get_by_text("multiply 1.339 by 0.952").wait_for()
    ticket.get_by_role("button", name="try again").click()
    ticket.get_by_role("radio", name="27.5 %").check()
    ticket.get_by_role("button", name="check").nth(1).click()
    ticket.get_by_text("1.339 × 0.952 = 1.275").wait_for()


def test_every_control_has_a_name_a_focus_that_is_seen_and_leaves_the_notebook_alone(page):
    open_all(page)
    before = cells(page)
    controls = page.locator(".tm").locator("input:visible, button:visible, summary:visible, select:visible, a:visible")
    count, kinds = controls.count(), set()
    assert count > 60
    for turn in range(count):
        control = controls.nth(turn % controls.count())  # a letter in a list may pick another run
        kind = control.evaluate("node => `${node.tagName} ${node.type}`")
        assert name_of(control), control.evaluate("node => node.outerHTML")
        assert focus_is_seen(control), name_of(control)
        for key in KEYS[:1] if kind in kinds else KEYS:
            page.keyboard.press(key)
        kinds.add(kind)
    painted(page)
    assert cells(page) == before
    assert pop_ups(page) == 0


def test_axe_finds_no_serious_problem_before_and_after(page):
    assert serious(page) == []
    open_all(page)
    read(page, "nowhere")
    panel(page).get_by_text("no such folder").wait_for()
    page.keyboard.press("Tab")
    for number in (GAUGES, THREE, COST):
        button(page, "table", number).click()
    assert serious(page) == []


@pytest.mark.parametrize("system", ["US", "SI"])
def test_controls_pictures_sentence_and_readings_are_in_sight_together(page, screenshot, system):
    predict(page)
    first = panel(page)
    first.get_by_role("radio", name=system, exact=True).check()
    choose(page, "readings", AIR)
    told(page, {"US": "24.0 psi.*They agree", "SI": "165.5 kPa.*They agree"}[system])
    first.focus()
    at_top(page)
    parts = [
        *(slider(page, name) for name in SLIDERS),
        first.get_by_label("readings", exact=True),
        first.locator("svg").first,
        first.locator("svg").nth(1),
        said(page),
        first.locator(".tm-readouts"),
        first.get_by_role("button", name="reset"),
    ]
    assert [in_sight(page, one) for one in parts] == [True] * len(parts)
    assert pop_ups(page) == 0
    screenshot(page, NAME if system == "US" else f"{NAME}_SI")


@pytest.mark.parametrize("size", [WHOLE, NARROW], ids=["whole", "200 %"])
def test_nothing_is_cut_and_no_words_of_the_pictures_overlap(page, own, size, screenshot):
    hotter(own("hot_run"), 60)
    page.set_viewport_size(size)
    zoom = "zoom" if size is NARROW else "whole"
    open_all(page)
    for system, barometer in (("SI", r"\d kPa"), ("US", "psi")):
        for number in (GAUGES, THREE, COST):
            panel(page, number).get_by_role("radio", name=system, exact=True).check()
            told(page, barometer, number)
        for folder in (*RUNS, "hot_run"):
            read(page, folder)
            told(page, f"Point .*{VERDICT}")
            fits(page, f"{folder}, {system}")
            panel(page).locator(".tm-readings").evaluate("node => node.scrollIntoView()")
            screenshot(page, f"{NAME}_{folder}_{zoom}_{system}")
    for equal, words in (("air", "Less boost"), ("density", "must show"), ("boost", "in all three")):
        choose(page, "compare at", equal, THREE)
        told(page, words, THREE)
        fits(page, equal)
        panel(page, THREE).locator("svg").first.scroll_into_view_if_needed()
        screenshot(page, f"{NAME}_equal_{equal}_{zoom}")
    for psi in ("2", "40"):
        enter(page, "boost", psi, THREE)
        told(page, f"{psi}.0 psi", THREE)
        fits(page, psi)
    panel(page, COST).locator("svg").first.scroll_into_view_if_needed()
    screenshot(page, f"{NAME}_cost_{zoom}")


def fits(page, case):
    """Nothing is cut in any panel and no words of a picture lie on each other."""
    painted(page)
    assert [cut(page, number) for number in (GAUGES, THREE, COST, TICKET)] == [[]] * 4, case
    assert overlaps(page) == [], case


def test_when_python_is_gone_the_lesson_comes_back(page, classroom):
    predict(page)
    panel(page).evaluate("node => { node.dataset.old = 'yes' }")
    classroom.kill_kernels()
    page.locator(".tm:not([data-old])").first.wait_for(timeout=PATIENCE)
    live(page)
    predict(page)
    choose(page, "readings", AIR)
    told(page, "They agree")
