"""Lesson 07 as a student uses it: predict, climb, hold one thing, damp air, correct once; by keyboard and by mouse."""

import pytest

from tests.browser.pages import (
    afresh,
    box,
    choose,
    enter,
    painted,
    panel,
    plain,
    settled,
    slider,
    told,
)
from tests.browser.walk import Walk, predict, predict_all

NAME = "07_altitude_heat_humidity"
SAME, RATIO, DAMP, POWER = range(4)
ANSWERS = (
    (SAME, "25.0 psi (172 kPa): pressure is pressure", "27.6 psi: the boost makes up what the barometer lost"),
    (RATIO, "27.6 psi (190 kPa)", "20.6 psi: the same ratio of a smaller barometer"),
    (DAMP, "70 % less", "3.4 % less: the vapour is 0.98 inHg of 28.61 inHg"),
    (POWER, "405 hp (302 kW): multiply", "390 hp. Its controls kept the power"),
)
PANELS = (SAME, RATIO, DAMP, POWER)
HOLD = "same in both"


def unfold(page):
    for number in (SAME, POWER):
        panel(page, number).locator("summary").first.click()


def ends(page):
    for system, boost, heat in (("US", "25", "90"), ("US", "0", "−30"), ("SI", "300", "50"), ("SI", "5", "−34")):
        for number in PANELS:
            panel(page, number).get_by_role("radio", name=system, exact=True).check()
            enter(page, "ambient temperature", heat, number)
        for number in (SAME, RATIO):
            enter(page, "boost", boost, number)
        told(page, "psi abs" if system == "US" else "kPa abs", SAME)
        settled(page)
        yield f"{system} {boost}"


WALK = Walk(
    answers=ANSWERS,
    sliders={
        SAME: ["elevation", "ambient temperature", "boost"],
        RATIO: ["elevation", "ambient temperature", "boost"],
        DAMP: ["ambient temperature", "relative humidity", "barometer"],
        POWER: ["barometer", "ambient temperature", "relative humidity"],
    },
    turns=(
        ("1.77", "takes absolute pressures", "2.77"),
        ("20.28 inHg", "needed none", "24.64 inHg"),
        ("21.4 % more", "does not start at zero heat", "14.6 % less"),
    ),
    controls=80,
    unfold=unfold,
    ends=ends,
)


@pytest.fixture
def page(shared_lesson):
    return afresh(shared_lesson)


def test_what_is_held_decides_what_the_gauge_shows(page, screenshot):
    predict(page, *ANSWERS[SAME][:2])
    told(page, "At 5280 ft, 39.7 psi abs takes 27.6 psi on the gauge: pressure ratio 3.28, .* 370 °F. Past", SAME)
    choose(page, HOLD, "gauge boost", SAME)
    told(page, "25.0 psi on the gauge is 37.1 psi abs: pressure ratio 3.07, and 7.7 % less dry air", SAME)
    choose(page, HOLD, "pressure ratio", SAME)
    told(page, "the pressure ratio of 2.70 leaves 20.6 psi on the gauge, and 17.7 % less", SAME)
    panel(page, SAME).get_by_role("button", name="go to the worked engine").click()
    told(page, "the pressure ratio of 2.82 leaves 19.3 psi", SAME)
    panel(page, SAME).evaluate("node => node.scrollIntoView()")
    painted(page)
    screenshot(page, f"{NAME}_worked")


def test_numbers_units_the_table_and_a_kept_case(page, screenshot):
    predict(page, *ANSWERS[SAME][:2])
    enter(page, "elevation", "3550", SAME)
    told(page, "At 3550 ft", SAME)
    before = panel(page, SAME).inner_text()
    panel(page, SAME).get_by_role("radio", name="SI", exact=True).check()
    told(page, "At 1082 m, 273.7 kPa abs takes", SAME)
    panel(page, SAME).get_by_role("radio", name="US", exact=True).check()
    told(page, "At 3550 ft", SAME)
    assert panel(page, SAME).inner_text() == before
    panel(page, SAME).get_by_role("button", name="keep this case").click()
    enter(page, "elevation", "12000", SAME)
    panel(page, SAME).get_by_text("! Out of range: this lesson goes from 0 to 10000 ft.").wait_for()
    panel(page, SAME).get_by_text("kept: 26.8").wait_for()
    enter(page, "boost", "-20", SAME)
    panel(page, SAME).get_by_role("alert").filter(has_text="below a full vacuum").wait_for()
    panel(page, SAME).get_by_role("button", name="reset").click()
    told(page, "takes 27.6 psi", SAME)
    assert box(page, "elevation", SAME).input_value() == "5280"
    slider(page, "elevation", SAME).focus()
    page.keyboard.press("t")
    table = panel(page, SAME).get_by_role("table", name="Sea level beside your site")
    table.wait_for()
    assert "pressure ratio\t2.70\t3.28\t21.5 %" in plain(table)
    table.scroll_into_view_if_needed()
    screenshot(page, f"{NAME}_table")


def test_damp_air_and_corrected_power(page, screenshot):
    predict_all(page, ANSWERS)
    told(page, "Vapour is 0.98 inHg of the 28.61 inHg: 3.4 % less dry air", DAMP)
    panel(page, DAMP).get_by_role("button", name="keep this case").click()
    panel(page, DAMP).get_by_role("button", name="go to 95 °F").click()
    told(page, "5.0 % less dry air", DAMP)
    panel(page, DAMP).get_by_text("kept: −3.4").wait_for()
    panel(page, DAMP).evaluate("node => node.scrollIntoView()")
    painted(page)
    screenshot(page, f"{NAME}_kept")
    told(page, "390 hp measured here is 405 hp by ISO 1585, 400 hp by SAE J1349", POWER)
    enter(page, "barometer", "20", POWER)
    told(page, "ISO 1585: the dry pressure is outside 80 to 110 kPa: the standard does not correct so far", POWER)
    choose(page, "fuel is set", "holds", POWER)
    told(page, "there is nothing to correct", POWER)
    slider(page, "barometer", POWER).focus()
    page.keyboard.press("t")
    table = panel(page, POWER).get_by_role("table", name="Three standards on this day")
    assert "The dry pressure is outside 80 to 110 kPa" in plain(table)
    table.scroll_into_view_if_needed()
    screenshot(page, f"{NAME}_limits")
