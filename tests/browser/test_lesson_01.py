"""Lesson 01 as a student uses it: predict, stack pressures, take the wrong barometer; by keyboard and by mouse."""

import pytest

from tests.browser.pages import (
    afresh,
    box,
    enter,
    painted,
    panel,
    plain,
    settled,
    slider,
    told,
)
from tests.browser.walk import Walk, predict, predict_all

NAME = "01_gauge_and_absolute"
PLACES, REPORT, RATIO = range(3)
ANSWERS = (
    (PLACES, "yes: 25 psi is 25 psi", "37.1 psi abs up there, 39.7 psi abs at sea level"),
    (REPORT, "30.05 inHg (101.8 kPa), as reported", "26.39 inHg. The rule of thumb"),
    (RATIO, "1.68", "2.87: 39.8 psi abs over 13.9 psi abs"),
)


def unfold(page):
    panel(page, PLACES).locator("summary").first.click()
    enter(page, "boost", "90", PLACES)
    told(page, "90.0 psi on the gauge", PLACES)


def ends(page):
    panel(page, PLACES).get_by_role("combobox", name="barometer taken").select_option(label="sea-level-corrected")
    for system in ("US", "SI"):
        for number in (PLACES, REPORT, RATIO):
            panel(page, number).get_by_role("radio", name=system, exact=True).check()
        for boost in ("25", "1", "0", "300"):
            for number in (PLACES, REPORT, RATIO):
                enter(page, "boost", boost, number)
            settled(page)
            yield f"{system}_{boost}"


WALK = Walk(
    answers=ANSWERS,
    sliders={
        PLACES: ["elevation", "boost", "intake restriction"],
        REPORT: ["sea level pressure", "elevation", "boost"],
        RATIO: ["boost", "barometer", "intake restriction", "cooler pressure loss"],
    },
    turns=(
        ("neither: average them", "have no average", "both"),
        ("38.7 psi", "corrected to sea level", "36.1 psi"),
        ("14.48 psi", "take it off", "13.62 psi"),
    ),
    controls=55,
    unfold=unfold,
    ends=ends,
)


@pytest.fixture
def page(shared_lesson):
    return afresh(shared_lesson)


def test_the_wrong_barometer_shows_its_error(page, screenshot):
    predict(page, *ANSWERS[PLACES][:2])
    told(page, "At 5280 ft with 25.0 psi on the gauge, the manifold holds 37.1 psi abs: 6.5 % less", PLACES)
    panel(page, PLACES).get_by_role("combobox", name="barometer taken").select_option(label="sea-level-corrected")
    told(page, "29.92 inHg makes it 39.7 psi abs. The manifold holds 37.1 psi abs: 2.6 psi too high, or 7.0 %", PLACES)
    assert panel(page, PLACES).locator("svg text", has_text="2.6 psi too high").count() == 1
    panel(page, PLACES).evaluate("node => node.scrollIntoView()")
    painted(page)
    screenshot(page, f"{NAME}_error")
    enter(page, "elevation", "0", PLACES)
    told(page, "no error", PLACES)


def test_numbers_units_the_table_and_a_kept_case(page, screenshot):
    predict(page, *ANSWERS[PLACES][:2])
    enter(page, "boost", "17,3", PLACES)
    told(page, "17.3 psi on the gauge", PLACES)
    before = panel(page, PLACES).inner_text()
    panel(page, PLACES).get_by_role("radio", name="SI", exact=True).check()
    told(page, "At 1609 m with 119.3 kPa on the gauge.*202.7 kPa abs", PLACES)
    panel(page, PLACES).get_by_role("radio", name="US", exact=True).check()
    told(page, "17.3 psi on the gauge", PLACES)
    assert panel(page, PLACES).inner_text() == before
    assert box(page, "boost", PLACES).input_value() == "17,3"
    panel(page, PLACES).get_by_role("button", name="keep this case").click()
    panel(page, PLACES).get_by_text("kept: 29.4").wait_for()
    enter(page, "boost", "90", PLACES)
    panel(page, PLACES).get_by_text("! Out of range: this lesson goes from 0 to 40 psi.").wait_for()
    enter(page, "boost", "-30", PLACES)
    panel(page, PLACES).get_by_role("alert").filter(has_text="below a full vacuum").wait_for()
    panel(page, PLACES).get_by_role("button", name="reset").click()
    told(page, "25.0 psi on the gauge", PLACES)
    slider(page, "boost", PLACES).focus()
    page.keyboard.press("t")
    table = panel(page, PLACES).get_by_role("table", name="Absolute pressure, counted from vacuum")
    table.wait_for()
    assert "barometer 12.1 + boost 25.0\t37.1" in plain(table.get_by_role("row").nth(2))
    table.scroll_into_view_if_needed()
    screenshot(page, f"{NAME}_table")


def test_the_weather_report_and_the_pressure_ratio(page):
    predict_all(page, ANSWERS)
    told(page, "30.05 inHg in the report, 3550 ft up: the bench reads 26.39 inHg. The rule of thumb says 26.50", REPORT)
    enter(page, "elevation", "5280", REPORT)
    panel(page, REPORT).locator(".tm-readouts").get_by_text("21.5").wait_for()
    told(page, "pressure ratio 2.87. Boost ÷ barometer is 1.68", RATIO)
    enter(page, "intake restriction", "0", RATIO)
    told(page, "pressure ratio 2.78", RATIO)
    slider(page, "boost", RATIO).focus()
    page.keyboard.press("t")
    table = panel(page, RATIO).get_by_role("table", name="What was divided by what")
    assert "boost ÷ barometer\t1.68" in plain(table)
