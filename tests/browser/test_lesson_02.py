"""Lesson 02 as a student uses it: predict, squeeze, take the ratio of °F, judge readings; by keyboard and by mouse."""

import re

import pytest

from tests.browser.pages import afresh, box, button, choose, enter, painted, panel, settled, slider, told
from tests.browser.walk import Walk, predict

NAME = "02_squeezing_heats_air"
HEAT, READ = range(2)
ANSWERS = (
    (HEAT, "B: 154 °F (50 °C), doubled", "240 °F. Squeezing alone makes it 195 °F"),
    (READ, "cooler: a poorer wheel does less", "Hotter: 345 °F, against 300 °F before"),
)
RUNS = ("generator_air_to_air", "generator_no_aftercooler", "stand_unloaded_run_up")


def unfold(page):
    panel(page, READ).locator("summary").first.click()
    choose(page, "readings", RUNS[0], READ)
    panel(page, READ).locator("svg text", has_text="this point").wait_for()
    enter(page, "pressure ratio", "5", HEAT)
    told(page, "Squeezed 5.00 times", HEAT)


def ends(page):
    choose(page, "ratio taken of", "thermometer", HEAT)
    button(page, "keep this case", HEAT).click()
    for ratio, inlet, run in (("1", "77", RUNS[0]), ("1.5", "−20", RUNS[1]), ("4", "130", RUNS[2]), ("6", "40", "")):
        choose(page, "readings", run, READ)
        for number in (HEAT, READ):
            enter(page, "compressor inlet temperature", inlet, number)
        enter(page, "pressure ratio", ratio, HEAT)
        told(page, rf"as it stands: {inlet} ×", HEAT)
        settled(page)
        yield f"ratio {ratio}"


WALK = Walk(
    answers=ANSWERS,
    sliders={
        HEAT: ["pressure ratio", "compressor inlet temperature", "compressor efficiency"],
        READ: ["compressor inlet temperature", "compressor outlet temperature", "boost", "barometer"],
    },
    turns=(
        ("130 F° (72 C°)", "You multiplied", "250 F° (139 C°)"),
        ("1.78", "gauge by barometer", "2.86"),
        (
            "order a turbocharger",
            "one reading is no finding",
            "look where the outlet thermometer sits, and read all again",
        ),
    ),
    controls=40,
    unfold=unfold,
    ends=ends,
)


@pytest.fixture
def page(shared_lesson):
    return afresh(shared_lesson)


def test_the_ratio_of_degrees_is_a_point_that_cannot_be(page, screenshot):
    predict(page, *ANSWERS[HEAT][:2])
    told(page, "Squeezed 2.00 times at 72 %, air from 77 °F leaves at 240 °F. Without losses it would be 195 °F", HEAT)
    panel(page, HEAT).get_by_role("button", name="go to ratio 2.87, 80 °F").click()
    told(page, "leaves at 336 °F", HEAT)
    choose(page, "ratio taken of", "thermometer", HEAT)
    told(page, "°F as it stands: 80 × 1.475 = 118 °F. The air leaves at 336 °F", HEAT)
    assert panel(page, HEAT).locator("svg text", has_text="°F ratio").count() == 1
    panel(page, HEAT).evaluate("node => node.scrollIntoView()")
    painted(page)
    screenshot(page, f"{NAME}_ghost")


def test_numbers_units_the_table_and_a_kept_case(page, screenshot):
    predict(page, *ANSWERS[HEAT][:2])
    enter(page, "pressure ratio", "2,5", HEAT)
    told(page, "leaves at 300 °F", HEAT)
    before = panel(page, HEAT).inner_text()
    panel(page, HEAT).get_by_role("radio", name="SI", exact=True).check()
    told(page, "air from 25 °C leaves at 149 °C", HEAT)
    slider(page, "pressure ratio", HEAT).focus()
    page.keyboard.press("t")
    table = panel(page, HEAT).get_by_role("table", name="Outlet temperature [°C]")
    assert table.get_by_role("row").nth(2).inner_text().split("\t") == ["2.0", "90", "107", "111", "116", "125", "134"]
    table.scroll_into_view_if_needed()
    screenshot(page, f"{NAME}_table")
    page.keyboard.press("t")
    panel(page, HEAT).get_by_role("radio", name="US", exact=True).check()
    told(page, "leaves at 300 °F", HEAT)
    assert panel(page, HEAT).inner_text() == before
    assert box(page, "pressure ratio", HEAT).input_value() == "2,5"
    panel(page, HEAT).get_by_role("button", name="keep this case").click()
    panel(page, HEAT).get_by_text("kept: 300").wait_for()
    enter(page, "compressor efficiency", "0.60", HEAT)
    told(page, "leaves at 345 °F", HEAT)
    assert panel(page, HEAT).locator("svg text", has_text=re.compile("^kept$")).count() == 1
    panel(page, HEAT).evaluate("node => node.scrollIntoView()")
    screenshot(page, f"{NAME}_kept")
    enter(page, "compressor efficiency", "1.2", HEAT)
    panel(page, HEAT).get_by_text("1.2 cannot be: compressor efficiency must be").wait_for()
    enter(page, "pressure ratio", "5", HEAT)
    panel(page, HEAT).get_by_text("! Out of range: this lesson goes from 1 to 4").wait_for()
    panel(page, HEAT).get_by_role("button", name="reset").click()
    told(page, "Squeezed 2.00 times at 72 %", HEAT)


def test_readings_are_judged_and_a_run_stands_on_the_chart(page, screenshot):
    predict(page, *ANSWERS[READ][:2])
    told(page, "Efficiency 74 %. Believable", READ)
    for label, share in (("go to new wheel", "72"), ("go to worn wheel", "60")):
        panel(page, READ).get_by_role("button", name=label).click()
        told(page, f"Efficiency {share} %", READ)
    enter(page, "compressor outlet temperature", "220", READ)
    told(page, "This cannot be. No compressor beats the ideal one", READ)
    choose(page, "readings", "generator_air_to_air", READ)
    panel(page, READ).locator("svg text", has_text="this point").wait_for()
    panel(page, READ).get_by_role("button", name="set the sliders to this point").click()
    told(page, "Efficiency 74 %. Believable", READ)
    panel(page, READ).evaluate("node => node.scrollIntoView()")
    painted(page)
    screenshot(page, f"{NAME}_run")
    choose(page, "readings", "own", READ)
    box = panel(page, READ).get_by_role("textbox", name="folder")
    box.fill("nowhere")
    box.press("Enter")
    panel(page, READ).get_by_text("nowhere: found 'no such folder'").wait_for()
    slider(page, "boost", READ).focus()
    page.keyboard.press("End")
    told(page, "Efficiency", READ)
