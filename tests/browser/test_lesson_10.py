"""Lesson 10 as a student uses it: fit a cooler, hold one thing equal, guess, go up high; by keyboard and by mouse."""

import pytest

from tests.browser.pages import afresh, button, choose, enter, painted, panel, settled, slider, told
from tests.browser.walk import Walk, changed, predict_all, slider_names

NAME = "10_compare_three_engines"
FITTED, GUESSES, HEIGHT = range(3)
ANSWERS = (
    (FITTED, "it stays: the same turbine makes the same boost", "A gauge shows pressure, not air"),
    (GUESSES, "a setting of the maker: the rated boost", "The boost climbs until nothing is to spare"),
    (HEIGHT, "about 25 % less boost, like the barometer", "a gauge hardly tells them apart"),
)
EDGES = {  # what is typed into each panel, so that bars and points are at their ends
    FITTED: ("load", ("10", "110")),
    GUESSES: ("pressure ratio", ("1.2", "4.8")),
    HEIGHT: ("elevation", ("0", "10000")),
}


def ends(page):
    for turn in (0, 1):
        for system in ("US", "SI"):
            for number, (name, texts) in EDGES.items():
                panel(page, number).get_by_role("radio", name=system, exact=True).check()
                text = texts[turn] if system == "US" or number != HEIGHT else str(round(int(texts[turn]) * 0.3048))
                enter(page, name, text, number)
            settled(page)
            yield f"end {turn} {system}"


WALK = Walk(
    answers=ANSWERS,
    sliders={
        FITTED: ["load", "ambient temperature", "elevation"],
        GUESSES: ["pressure ratio", "fuel flow", "ambient temperature"],
        HEIGHT: ["elevation", "fuel flow", "ambient temperature"],
    },
    turns=(
        ("20 % less", "You took pressure for air", "16 % more"),
        ("the second: fuel makes the power", "Equal fuel is one way", "both, if each says what was held equal"),
        ("31 % less, like the air outside", "The cylinders fill from the manifold", "12 % less"),
    ),
    controls=40,
    ends=ends,
)


@pytest.fixture
def page(shared_lesson):
    return afresh(shared_lesson)


def test_each_thing_held_equal_is_said_and_units_and_the_table_follow(page, screenshot):
    predict_all(page, ANSWERS)
    told(page, "Held equal: fuel and turbine", FITTED)
    for option, words in (
        ("air, with one turbine", "Held equal: air and turbine"),
        ("boost, with one turbine", "Held equal: boost and turbine"),
        ("fuel and boost: a turbine found for each", "a turbine is found for each"),
        ("nothing: each its own turbine and rating", "no difference belongs to the aftercooler"),
        ("fuel, with one turbine", "and the engine draws"),
    ):
        choose(page, "held equal", option, FITTED)
        told(page, words, FITTED)
        screenshot(page, f"{NAME}_held_{option.split(',')[0].split(':')[0]}")
    button(page, "keep this case", FITTED).click()
    panel(page, FITTED).get_by_text("kept: +1").wait_for()
    changed(page, lambda: button(page, "go to quarter load", FITTED).click(), FITTED)
    panel(page, FITTED).get_by_role("radio", name="SI", exact=True).check()
    told(page, "kPa", FITTED)
    slider(page, slider_names(page, FITTED)[0], FITTED).focus()
    page.keyboard.press("t")
    panel(page, FITTED).get_by_role("table").first.wait_for()
    painted(page)
    screenshot(page, f"{NAME}_table")


def test_a_load_that_cannot_be_carried_is_said_as_such(page, screenshot):
    predict_all(page, ANSWERS)
    enter(page, "load", "110", FITTED)
    choose(page, "held equal", "air, with one turbine", FITTED)
    told(page, "cannot be brought there: its fuel stop comes first", FITTED)
    screenshot(page, f"{NAME}_cannot")
    enter(page, "load", "200", FITTED)
    panel(page, FITTED).get_by_text("the air-to-air engine cannot carry 200 % of its rated power").first.wait_for()


def test_guesses_close_in_and_a_guess_too_high_falls_short(page, screenshot):
    predict_all(page, ANSWERS)
    told(page, "to spare: it speeds up", GUESSES)
    enter(page, "pressure ratio", "4", GUESSES)
    told(page, "short: it slows down", GUESSES)
    slider(page, slider_names(page, GUESSES)[0], GUESSES).focus()
    page.keyboard.press("t")
    panel(page, GUESSES).get_by_role("table").first.wait_for()
    painted(page)
    screenshot(page, f"{NAME}_guesses_table")
    choose(page, "aftercooler", "no aftercooler", HEIGHT)
    told(page, "The exhaust would be too hot", HEIGHT)
