"""Lesson 11 as a student uses it: predict, dry the air, squeeze harder, freeze it; by keyboard and by mouse."""

import pytest

from tests.browser.pages import (
    afresh,
    at_top,
    button,
    choose,
    enter,
    panel,
    readouts,
    settled,
    slider,
    told,
)
from tests.browser.walk import Walk, predict_all

NAME = "11_is_ideal_air_good_enough"
AIR = 0
ANSWERS = ((AIR, "γ = 1.4: hot air takes more heat than that", "The water: left out, the dry air is 3.5 % too much"),)
CASES = {
    "wet day": "“dry air” is most off, 3.54 % too much, more than the ± 1.8 %",
    "dry day": "“γ = 1.4” is most off, 0.06 % too little, within the ± 1.8 %",
    "hard squeeze": "5.7 F° too hot, more than the ± 4.6 F°",
    "deep cold": "“ideal gas” is most off, 0.46 % too little, within the ± 2.1 %",
}


def unfold(page):
    panel(page).locator("summary").first.click()


def ends(page):
    for system, inlet, ratio in (("US", "80", "3"), ("US", "−40", "5"), ("SI", "50", "1"), ("SI", "50", "4")):
        panel(page).get_by_role("radio", name=system, exact=True).check()
        enter(page, "ambient temperature", inlet)
        enter(page, "pressure ratio", ratio)
        told(page, "Charge: ")
        settled(page)
        yield f"{inlet} {ratio}"


WALK = Walk(
    answers=ANSWERS,
    sliders={AIR: ["ambient temperature", "pressure ratio", "relative humidity", "compressor efficiency"]},
    turns=(
        ("2.2 %", "water by weight", "about 3.5 %"),
        ("that air is no ideal gas", "within the ±", "nothing: the two agree as far as I can tell"),
        ("where the charge is hottest", "slow and close", "in deep cold, at high boost, behind a good aftercooler"),
    ),
    controls=30,
    unfold=unfold,
    ends=ends,
)


@pytest.fixture
def page(shared_lesson):
    return afresh(shared_lesson)


def test_the_cases_the_gauges_units_and_the_table(page, screenshot):
    predict_all(page, ANSWERS)
    button(page, "keep this case").click()
    for label, words in CASES.items():
        panel(page).get_by_role("button", name=f"go to {label}", exact=True).click()
        told(page, words)
        at_top(page)
        screenshot(page, f"{NAME}_{label.replace(', ', '_').replace(' ', '_')}")
    panel(page).get_by_text("kept: 346").wait_for()
    panel(page).get_by_role("button", name="go to wet day", exact=True).click()
    told(page, "3.54 % too much")
    panel(page).locator("summary").first.click()
    for grade, words in (("B", r"more than the ± 3\.2 %"), ("2A", r"more than the ± 1\.1 %")):
        choose(page, "boost gauge, 0 to 60 psi (414 kPa)", grade)
        told(page, words)
    panel(page).get_by_role("radio", name="SI", exact=True).check()
    told(page, "1.0 C° too hot, within the ± 2.5 C°")
    assert readouts(page)[0].startswith("174")
    slider(page, "relative humidity").focus()
    page.keyboard.press("t")
    table = panel(page).get_by_role("table", name="Four models of air").first
    table.wait_for()
    table.scroll_into_view_if_needed()
    screenshot(page, f"{NAME}_table")
    page.keyboard.press("t")
    enter(page, "pressure ratio", "7")
    panel(page).get_by_role("alert").filter(has_text="the boost gauge ends at 60 psi").wait_for()
    button(page, "reset").click()
    told(page, "3.54 % too much, more than the ± 1.8 %")
