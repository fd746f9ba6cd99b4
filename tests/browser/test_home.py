"""The home page and the ways between lessons, as a reader takes them."""

import re
import shutil

import pytest

from tests.browser.pages import in_sight, live, panel, plain, settled
from turbomath.disk import files
from turbomath.panels.registry import LESSONS

NAME = "03_hot_air_is_thin"


@pytest.fixture(autouse=True)
def nothing_done(classroom):
    shutil.rmtree(classroom.work / ".turbomath" / "kept", ignore_errors=True)


@pytest.fixture
def home(open_address, classroom):
    yield open_address(f"{classroom.address}/turbomath?token={classroom.token}")
    classroom.end_sessions()


def row(page, title):
    return page.locator(".lessons li", has=page.get_by_role("link", name=title, exact=True))


def answer(page, number, name):
    here = panel(page, number)
    here.get_by_role("radio").first.check()
    here.get_by_role("button", name=name).first.click()
    here.get_by_role("button", name="try again").first.wait_for()


def test_the_home_page_has_every_lesson_with_its_question_and_time(home, screenshot):
    rows = home.locator(".lessons li").all_inner_texts()
    told = [one for one in rows if "box of air" not in one and "91_" not in one]
    assert len(told) == len(LESSONS)
    for one, words in zip(LESSONS, told, strict=True):
        assert one.heading in words
        assert one.question in words
        assert re.search(r"\d+ minutes|three hours|As long as you like", words)
    screenshot(home, "home")


def test_it_says_what_is_done_and_where_to_go_on_and_can_begin_again(home, classroom):
    assert home.locator(".on").inner_text() == "Go on: 00 Start here"
    row(home, "Hot air is thin").get_by_role("link", name="Hot air is thin").click()
    live(home)
    assert home.url.endswith(f"/doc/tree/{NAME}.ipynb")
    panel(home).get_by_role("button", name="this is my prediction").click()  # nothing chosen: that is no answer
    settled(home)
    answer(home, 0, "this is my prediction")
    page = home.context.new_page()
    page.goto(f"{classroom.address}/turbomath")
    assert page.locator(".on").inner_text() == "Go on: 03 Hot air is thin"
    assert row(page, "Hot air is thin").locator(".state").inner_text() == "begun, 1 answered"
    answer(home, 1, "check")
    page.reload()
    assert row(page, "Hot air is thin").locator(".state").inner_text() == "done"
    assert page.locator(".on").inner_text() == "Go on: 00 Start here"
    page.get_by_role("button", name="begin again").click()
    page.wait_for_load_state()
    assert row(page, "Hot air is thin").locator(".state").inner_text() == ""
    assert list((classroom.work / ".turbomath" / "kept").iterdir()) == []


def test_from_a_lesson_one_goes_to_the_next_to_the_one_before_and_home(home):
    row(home, "Hot air is thin").get_by_role("link", name="Hot air is thin").click()
    live(home)
    home.get_by_role("link", name="the next lesson: 04_cooling_it_back").click()
    home.wait_for_url("**/04_cooling_it_back.ipynb")
    live(home)
    home.get_by_role("link", name="the lesson before: 03_hot_air_is_thin").click()
    home.wait_for_url(f"**/{NAME}.ipynb")
    live(home)
    home.get_by_role("link", name="all lessons").click()
    home.get_by_role("heading", name="Turbocharging").wait_for()


def test_the_browsers_back_leads_from_a_lesson_to_where_one_was(home):
    row(home, "Hot air is thin").get_by_role("link", name="Hot air is thin").click()
    live(home)
    home.go_back()
    home.get_by_role("heading", name="Turbocharging").wait_for(timeout=10_000)


def test_the_teaching_notes_open_from_the_lesson_and_from_home(home):
    row(home, "Hot air is thin").get_by_role("link", name="teaching notes").click()
    title = (files.shipped("lessons") / "teaching_notes" / f"{NAME}.md").read_text(encoding="utf-8").splitlines()[0]
    assert plain(home.get_by_role("heading", level=1)) == title.removeprefix("# ")
    home.get_by_role("link", name="the lesson").click()
    live(home)
    home.locator("summary", has_text="About this lesson").click()
    link = home.get_by_role("link", name="teaching notes")
    assert home.request.get(link.evaluate("one => one.href")).ok  # as in a new tab
    with home.expect_popup() as opened:
        link.click()
    assert plain(opened.value.get_by_role("heading", level=1)) == title.removeprefix("# ")


def test_a_lesson_opens_on_its_question_with_the_prediction_and_the_place_of_the_picture_in_sight(home):
    row(home, "Hot air is thin").get_by_role("link", name="Hot air is thin").click()
    live(home)
    panel(home).wait_for()
    seen = (".jp-MarkdownOutput strong >> nth=0", ".tm-question .tm-main >> nth=0", ".tm-closed >> nth=0")
    assert [in_sight(home, home.locator(place)) for place in seen] == [True, True, True]


def test_a_page_that_is_none_is_refused_and_nothing_is_told_without_the_token(classroom):
    for page in ("open/99_none", "notes/99_none", "notes/..%2FREADME", "open/..%2F03_hot_air_is_thin"):
        assert classroom.ask(f"/turbomath/{page}")[0] == 404
    for page in ("", "/open/03_hot_air_is_thin", "/notes/03_hot_air_is_thin"):
        assert b"Hot air is thin" not in classroom.ask(f"/turbomath{page}", token="")[1]
