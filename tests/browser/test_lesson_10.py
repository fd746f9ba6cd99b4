"""Lesson 10 as a student uses it: fit a cooler, hold one thing equal, guess, go up high; by keyboard and by mouse."""

import pytest

from tests.browser.pages import (
    NARROW,
    WHOLE,
    afresh,
    button,
    choose,
    cut,
    enter,
    overlaps,
    painted,
    panel,
    slider,
    told,
)
from tests.browser.walk import (
    axe_is_content,
    box_follows,
    changed,
    keys_change_nothing,
    nothing_is_drawn_before_a_prediction,
    predict,
    predict_all,
    slider_names,
    sliders_move,
    ticket_answers_each_mistake,
    whole_panel_in_sight,
)

NAME = "10_compare_three_engines"
FITTED, GUESSES, HEIGHT, TICKET = range(4)
ANSWERS = (
    (FITTED, "it stays: the same turbine makes the same boost", "A gauge shows pressure, not air"),
    (GUESSES, "a setting of the maker: the rated boost", "The boost climbs until nothing is to spare"),
    (HEIGHT, "about 25 % less boost, like the barometer", "a gauge hardly tells them apart"),
)
SLIDERS = {FITTED: 3, GUESSES: 3, HEIGHT: 3}
EDGES = {  # what is typed into each panel, so that bars and points are at their ends
    FITTED: ("load", ("10", "110")),
    GUESSES: ("pressure ratio", ("1.2", "4.8")),
    HEIGHT: ("elevation", ("0", "10000")),
}


@pytest.fixture
def page(shared_lesson):
    return afresh(shared_lesson)


def test_nothing_is_drawn_until_a_prediction_is_entered_by_keyboard(page):
    nothing_is_drawn_before_a_prediction(page, ANSWERS)


def test_each_slider_moves_by_keyboard_and_by_mouse(page):
    predict_all(page, ANSWERS)
    found = {number: slider_names(page, number) for number in SLIDERS}
    assert {number: len(one) for number, one in found.items()} == SLIDERS
    sliders_move(page, {number: found[number] for number in (FITTED, HEIGHT)})
    for name in found[GUESSES]:
        handle = slider(page, name, GUESSES)
        handle.focus()
        for key in ("ArrowRight", "PageDown", "Home", "ArrowUp", "End"):
            changed(page, lambda key=key: page.keyboard.press(key), GUESSES)
        changed(page, lambda handle=handle: drag(page, handle), GUESSES)
        box_follows(page, name, GUESSES)


def drag(page, handle):
    """Drag a slider to the left and let it go: where guesses take long, the picture follows then."""
    at = handle.bounding_box()
    page.mouse.move(at["x"] + at["width"] / 2, at["y"] + at["height"] / 2)
    page.mouse.down()
    page.mouse.move(at["x"] + 0.35 * at["width"], at["y"] + at["height"] / 2)
    page.mouse.up()


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
    told(page, "hotter than turbines are commonly let run", HEIGHT)


def test_the_exit_ticket_names_the_mistake_and_lets_one_try_again(page):
    turns = (
        ("22 % less", "You took pressure for air", "14 % more"),
        ("the second: fuel makes the power", "Equal fuel is one way", "both, if each says what was held equal"),
        ("31 % less, like the air outside", "The cylinders fill from the manifold", "12 % less"),
    )
    ticket_answers_each_mistake(page, TICKET, turns)


def test_no_key_changes_the_notebook_and_every_control_has_a_name_and_a_focus_that_is_seen(page):
    predict_all(page, ANSWERS)
    keys_change_nothing(page, least=40)


def test_axe_finds_no_serious_problem_before_and_after_the_predictions(page):
    axe_is_content(page, ANSWERS, SLIDERS)


@pytest.mark.parametrize("number", SLIDERS, ids=["fitted", "guesses", "height"])
def test_controls_picture_and_sentence_are_in_sight_together(page, number, screenshot):
    predict(page, *ANSWERS[number][:2])
    seen = whole_panel_in_sight(page, number, slider_names(page, number))
    screenshot(page, f"{NAME}_{number}")
    assert seen


@pytest.mark.parametrize("size", [WHOLE, NARROW], ids=["whole", "200 %"])
def test_nothing_is_cut_and_no_words_of_a_picture_overlap(page, size, screenshot):
    page.set_viewport_size(size)
    predict_all(page, ANSWERS)
    zoom = "zoom" if size is NARROW else "whole"
    for turn in (0, 1):
        for system in ("US", "SI"):
            for number, (name, texts) in EDGES.items():
                panel(page, number).get_by_role("radio", name=system, exact=True).check()
                text = texts[turn] if system == "US" or number != HEIGHT else str(round(int(texts[turn]) * 0.3048))
                enter(page, name, text, number)
                panel(page, number).locator("svg").first.evaluate("node => node.scrollIntoView()")
                page.wait_for_timeout(400)
                painted(page)
                screenshot(page, f"{NAME}_{number}_{texts[turn]}_{system}_{zoom}")
            assert overlaps(page) == [], (system, turn)
            assert [cut(page, number) for number in range(TICKET + 1)] == [[]] * (TICKET + 1), (system, turn)
