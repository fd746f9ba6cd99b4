"""Lesson 05 as a student uses it: predict, move, pick a run, compare aftercoolers; by keyboard and by mouse."""

import shutil

import pytest

from tests.browser.lesson_05 import AIR, ANSWERS, COST, GAUGES, JACKET, LOST, THREE, VERDICT, predict_in, read, unfold
from tests.browser.pages import (
    afresh,
    at_top,
    box,
    button,
    choose,
    enter,
    fits,
    in_sight,
    otherwise,
    panel,
    pop_ups,
    readouts,
    said,
    serious,
    settled,
    slider,
    tab_to,
    told,
)
from tests.browser.walk import Walk, predict_all
from tests.panels.what_the_engine_gains.opening import RUNS, hotter
from turbomath.disk import files

NAME = "05_what_the_engine_gains"
SLIDERS = ("boost", "ambient temperature", "barometer", "effectiveness")


def ends(page):
    for equal, words in (("air", "Less boost"), ("density", "must show"), ("boost", "in all three")):
        choose(page, "compare at", equal, THREE)
        told(page, words, THREE)
        yield f"equal {equal}"
    for psi in ("2", "40"):
        enter(page, "boost", psi, THREE)
        told(page, f"{psi}.0 psi", THREE)
        yield f"{psi} psi"
    for figure, words in (("maker", "The boost is too low"), ("none", "Nothing here says")):
        choose(page, "beside the readings", figure, LOST)
        told(page, words, LOST)
        yield f"lost boost, {figure}"


WALK = Walk(
    answers=ANSWERS,
    sliders={
        GAUGES: list(SLIDERS),
        THREE: ["boost", "ambient temperature", "compressor efficiency"],
        COST: [
            "compressor outlet pressure",
            "compressor outlet temperature",
            "manifold temperature",
            "cooler pressure loss",
        ],
    },
    turns=(
        (
            "find the lost boost: less boost is less air",
            "Boost is not air flow",
            "work out the density before and after",
        ),
    ),
    controls=60,
    unfold=unfold,
    ends=ends,
)


@pytest.fixture
def page(shared_lesson):
    return afresh(shared_lesson)


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
    assert serious(page) == []
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
    first.get_by_role("table").first.wait_for()
    choose(page, "readings", AIR)
    told(page, "Point 7.*They agree: the difference, −1 ± 5 %, is no more than the gauges can make")
    choose(page, "readings", JACKET)
    told(page, "Point 7, .*measured 110 ± 4 %")
    choose(page, "point", "1")
    told(page, "With so little boost, these gauges cannot tell whether they agree")
    assert readouts(page)[3] == "cannot tell"


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
    if name != "ambient temperature":  # a hot day moves the gain by less than the line is thick
        assert theory_drawn(page) != drawn


def theory_drawn(page):
    """Return the form of the sliders' line and that of their point."""
    picture = panel(page).locator("svg").nth(1)  # the chart, below the engine
    return [picture.locator(form).first.get_attribute("d") for form in (".tm-line", ".tm-points")]


def test_three_aftercoolers_at_equal_boost_equal_air_and_equal_density(page, screenshot):
    predict_in(page, THREE)
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
    predict_in(page, COST)
    assert readouts(page, COST) == ["27.5", "9.6", "2880", "12.9", "34.2"]
    enter(page, "cooler pressure loss", "9.7", COST)
    told(page, "nothing is left, and more is lost. A loss of 9.6 psi would take it all", COST)
    at_top(page, COST)
    screenshot(page, f"{NAME}_cost")


def test_the_exit_ticket_is_answered_by_mouse(page):
    ticket = page.locator(".tm").last
    ticket.get_by_role("radio", name="29.1 %").check()
    ticket.get_by_role("button", name="check").nth(1).click()
    ticket.get_by_text("multiply 1.339 by 0.952").wait_for()
    ticket.get_by_role("button", name="try again").click()
    ticket.get_by_role("radio", name="27.5 %").check()
    ticket.get_by_role("button", name="check").nth(1).click()
    ticket.get_by_text("1.339 × 0.952 = 1.275").wait_for()


@pytest.mark.parametrize("system", ["US", "SI"])
def test_controls_pictures_sentence_and_readings_are_in_sight_together(page, screenshot, system):
    predict_in(page)
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
        said(page),
        first.locator(".tm-readouts"),
        first.get_by_role("button", name="reset"),
    ]
    assert [in_sight(page, one) for one in parts] == [True] * len(parts)
    assert pop_ups(page) == 0
    screenshot(page, NAME if system == "US" else f"{NAME}_SI")


def test_no_run_cuts_or_overlaps_words(page, own, pictured):
    hotter(own("hot_run"), 60)
    predict_all(page, ANSWERS)
    unfold(page)
    for system, barometer in (("SI", r"\d kPa"), ("US", "psi")):
        for number in (GAUGES, THREE, COST):
            panel(page, number).get_by_role("radio", name=system, exact=True).check()
            told(page, barometer, number)
        for folder in (*RUNS, "hot_run"):
            read(page, folder)
            told(page, f"Point .*{VERDICT}")
            settled(page)
            fits(page, f"{NAME}_{folder}_{system}", pictured)
