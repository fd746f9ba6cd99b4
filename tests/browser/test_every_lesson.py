"""What every lesson has to pass in the browser, on one page each; a lesson's own walk is in the file of its number."""

from importlib import import_module
from pathlib import Path

import pytest

from tests.browser.pages import (
    PHONE,
    afresh,
    button,
    cut,
    fits,
    in_sight,
    on_one_screen,
    overlaps,
    panel,
    parted,
    pop_ups,
    sentence,
    serious,
    settled,
    shifted,
    sized,
    slider,
)
from tests.browser.walk import (
    box_follows,
    changed,
    keys_change_nothing,
    nothing_is_drawn_before_a_prediction,
    predict_all,
    press_at,
    sliders_move,
    ticket_answers_each_mistake,
    whole_panel_in_sight,
)
from tests.lessons import lessons

OWN = [import_module(f"tests.browser.{path.stem}") for path in sorted(Path(__file__).parent.glob("test_*.py"))]
WALKS = {module.NAME: module.WALK for module in OWN if hasattr(module, "WALK")}

each_lesson = pytest.mark.parametrize("shared_lesson", WALKS, indirect=True, scope="module")


@pytest.fixture
def name(request):
    return request.node.callspec.params["shared_lesson"]


@pytest.fixture
def walk(name):
    return WALKS[name]


@pytest.fixture
def page(shared_lesson):
    return afresh(shared_lesson)


@pytest.fixture
def opened(page, walk):
    """Return the page with every prediction entered and all that waits behind "more" in sight."""
    predict_all(page, walk.answers)
    walk.unfold(page)
    return page


@each_lesson
def test_it_opens_at_its_top_and_draws_nothing_before_a_prediction(shared_lesson, walk):
    panel(shared_lesson).wait_for()
    settled(shared_lesson)
    assert shifted(shared_lesson) <= 0.1
    page = afresh(shared_lesson)
    assert in_sight(page, page.get_by_role("heading", level=1))
    assert sentence(page) == ""
    assert pop_ups(page) == 0
    nothing_is_drawn_before_a_prediction(page, walk.answers)
    words = ".jp-RenderedMarkdown :is(p, li, td):not(:has(code))"
    assert parted(page.locator(f".tm legend, .tm .tm-option, {words}")) == []
    for number, names in walk.sliders.items():
        assert whole_panel_in_sight(page, number, names), number


@each_lesson
def test_each_slider_moves_by_keyboard_and_by_mouse(page, walk):
    predict_all(page, walk.answers)
    sliders_move(page, walk.sliders)


@each_lesson
def test_the_exit_ticket_names_each_mistake_and_lets_one_try_again(page, walk):
    ticket_answers_each_mistake(page, walk.turns)


@each_lesson
def test_no_key_changes_the_notebook_and_every_control_has_a_name_and_a_focus_that_is_seen(opened, walk):
    keys_change_nothing(opened, walk.controls)


@each_lesson
def test_axe_finds_no_serious_problem_before_and_after_the_predictions(page, walk):
    assert serious(page) == []
    predict_all(page, walk.answers)
    walk.unfold(page)
    for number in walk.sliders:
        button(page, "table", number).click()
        panel(page, number).get_by_role("table").first.wait_for()
    assert serious(page) == []


@each_lesson
def test_nothing_is_cut_and_no_words_of_a_picture_overlap(opened, name, walk, pictured):
    fits(opened, name, pictured)
    for case in walk.ends(opened):
        fits(opened, f"{name}_{case}", pictured)


@each_lesson
def test_on_a_phone_the_picture_and_its_slider_share_a_screen_and_nothing_is_cut(opened, name, walk, screenshot):
    sized(opened, PHONE)
    if walk.sliders:
        number, names = next(iter(walk.sliders.items()))
        handle = slider(opened, names[0], number)
        assert on_one_screen(opened, handle, panel(opened, number).locator("figure").first)
        changed(opened, lambda: press_at(opened, handle, 0.15), number)
        box_follows(opened, names[0], number)
        screenshot(opened, f"{name}_phone")
    assert [words for number in range(opened.locator(".tm").count()) for words in cut(opened, number) if words] == []
    assert overlaps(opened) == []


def test_no_lesson_is_forgotten():
    assert set(WALKS) == set(lessons())
