"""Lesson 04 as a student uses it: predict, cool back, heat by water, stop the fan; by keyboard and by mouse."""

import pytest

from tests.browser.pages import afresh, enter, panel, settled, slider, told
from tests.browser.walk import Walk, predict_all, slider_names

NAME = "04_cooling_it_back"
BACK, LIGHT, COLD, LIMITS = range(4)
ANSWERS = (
    (BACK, "67 °F (19 °C)", "129 °F. The greatest possible drop is 259 F°"),
    (LIGHT, "it cools it, as its name says", "Hotter: 183 °F"),
    (COLD, "both the same", "140 °F against −4 °F"),
    (LIMITS, "yes: twice the core, twice the cooling", "No. With the fan off the medium limits"),
)
COOLER = ["effectiveness", "compressor outlet temperature", "core face temperature", "engine coolant temperature"]


def ends(page):
    for system, hot in (("US", "336"), ("US", "−40"), ("SI", "230"), ("SI", "−20")):
        for number in (BACK, LIGHT, COLD):
            panel(page, number).get_by_role("radio", name=system, exact=True).check()
            enter(page, "compressor outlet temperature", hot, number)
        told(page, f"{hot} °", BACK)
        settled(page)
        yield f"{hot} {system}"


WALK = Walk(
    answers=ANSWERS,
    sliders={
        BACK: COOLER,
        LIGHT: COOLER,
        COLD: COOLER,
        LIMITS: ["medium flow ratio", "charge flow ratio", "conductance"],
    },
    turns=(
        ("0.61", "thermometer's number", "0.80"),
        ("0.43", "air of the shop", "0.75"),
        ("a very good core", "Nothing cools below", "a temperature was read wrong; I look at the core face first"),
    ),
    controls=55,
    ends=ends,
)


@pytest.fixture
def page(shared_lesson):
    return afresh(shared_lesson)


def test_the_specimens_units_and_the_table(page, screenshot):
    predict_all(page, ANSWERS)
    told(page, "336 °F becomes 129 °F", BACK)
    panel(page, BACK).get_by_role("button", name="keep this case").click()
    panel(page, BACK).get_by_role("button", name="go to hot day, 104 °F").click()
    told(page, "352 °F becomes 158 °F", BACK)
    panel(page, BACK).get_by_text("kept: 129").wait_for()
    panel(page, BACK).get_by_role("radio", name="SI", exact=True).check()
    told(page, "178 °C becomes 70 °C", BACK)
    slider(page, slider_names(page, BACK)[0], BACK).focus()
    page.keyboard.press("t")
    panel(page, BACK).get_by_role("table").first.wait_for()
    screenshot(page, f"{NAME}_table")
    page.keyboard.press("t")
    enter(page, slider_names(page, BACK)[0], "1", BACK)
    told(page, "no aftercooler does it", BACK)
    panel(page, BACK).get_by_role("button", name="reset").click()
    told(page, "the water heats it to 183 °F", LIGHT)
    told(page, "to 140 °F", COLD)
    panel(page, LIMITS).get_by_role("button", name="go to fan off").click()
    told(page, "The cooling air limits", LIMITS)
