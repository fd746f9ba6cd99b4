"""Homework as it prints: a class fits a staple on Letter and A4, its boxes a gloved hand, its key one page."""

import re

import pytest

from turbomath.disk import files
from turbomath.homework import bank
from turbomath.homework.course import hand_out
from turbomath.homework.course.course import Course

MILLIMETRE = 96 / 25.4  # of a CSS pixel
POINT = 96 / 72
PAPERS = {"Letter": (215.9 - 28, 279.4 - 22), "A4": (210.0 - 28, 297.0 - 22)}  # mm between the margins of a sheet
SEATS = tuple(f"A{number:02}" for number in range(1, 25))
LONG_SEATS = ("A01", "WORKSHOP-M-second-row-12", "W-1", "WORKSHOP-M-second-row-13")
MOST_PAGES, LOWEST_BOX, NARROWEST_BOX = 5, 12, 15  # of the longest shipped set; mm that a gloved hand needs
SMALLEST = {"": 11, ".large": 18}  # pt
LETTERS = """selector => Math.min(...[...document.querySelectorAll(`${selector} *`)]
  .filter(one => [...one.childNodes].some(part => part.nodeType === 3 && part.data.trim()))
  .map(one => parseFloat(getComputedStyle(one).fontSize)))"""
BOXES = """() => [...document.querySelectorAll('.blanks td')].map(one => one.getBoundingClientRect())
  .map(box => [box.height, box.width])"""
CUT = """() => [...document.querySelectorAll('.leaf *')]
  .filter(one => one.scrollWidth > one.clientWidth + 1 && one.clientWidth).map(one => one.innerText)"""


def begun(folder, name, seats=SEATS, **more):
    """The homework folder of a set, whose secret is always the same."""
    course = Course(folder)
    course.make_secret()
    course.secret_file.write_text("paper" * 8, encoding="ascii")
    (folder / "seats.csv").write_text("\n".join(seats), encoding="utf-8")
    return hand_out.write(name, folder / "seats.csv", folder, **more).course


@pytest.fixture(scope="module", params=["us", "si"])
def whole(request, tmp_path_factory):
    """The longest shipped set for a class, one seat of it in large print; also in SI."""
    folder = tmp_path_factory.mktemp("whole")
    text = (files.shipped("data") / "homework" / "whole_air_path.toml").read_text(encoding="utf-8")
    path = folder / "set.toml"
    path.write_text(text.replace('units = "us"', f'units = "{request.param}"'), encoding="utf-8")
    return begun(folder, path, large=["A02"])


@pytest.fixture
def opened(chromium):
    """Give a page of the kit as it is laid out on paper."""
    pages = []

    def at(path, paper):
        width, height = (round(size * MILLIMETRE) for size in PAPERS[paper])
        pages.append(chromium.new_page(viewport={"width": width, "height": height}))
        pages[-1].emulate_media(media="print")
        pages[-1].goto(path.as_uri())
        return pages[-1]

    yield at
    for page in pages:
        page.close()


def sheets_of_paper(page, paper):
    return len(re.findall(rb"/Type\s*/Page\b", page.pdf(format=paper)))


def leaves(page, inside=""):
    return page.locator(f"{inside} .leaf").count()


@pytest.mark.parametrize("paper", PAPERS)
def test_the_longest_set_takes_five_pages_and_no_page_runs_over(whole, opened, paper):
    for seat in SEATS:
        text = (whole.student(seat) / "sheet.html").read_text(encoding="utf-8")
        assert text.count('class="leaf"') <= MOST_PAGES, seat
    page = opened(whole.class_page, paper)
    for number in range(len(SEATS)):
        assert page.locator(".seat").nth(number).locator(".leaf").count() % 2 == 0
    assert sheets_of_paper(page, paper) == leaves(page)


@pytest.mark.parametrize("paper", PAPERS)
def test_boxes_are_large_and_letters_can_be_read(whole, opened, paper):
    page = opened(whole.class_page, paper)
    boxes = page.evaluate(BOXES)
    assert len(boxes) > 24 * 22 * 2
    assert min(height for height, _ in boxes) >= LOWEST_BOX * MILLIMETRE
    assert min(width for _, width in boxes) >= NARROWEST_BOX * MILLIMETRE
    for selector, points in SMALLEST.items():
        assert page.evaluate(LETTERS, f".seat{selector}") >= points * POINT - 0.01
    assert page.evaluate(CUT) == []
    assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")


@pytest.mark.parametrize("paper", PAPERS)
def test_the_key_of_24_seats_has_its_answers_on_one_page_and_its_steps_on_the_next(whole, opened, paper):
    page = opened(whole.key_page, paper)
    cells = page.locator(".answers section:first-child td").count()
    assert cells == 24 * (24 + 2)  # 24 answers for 24 seats, and ± before each table
    assert sheets_of_paper(page, paper) == 2
    page.evaluate("document.querySelector('.answers section:last-of-type').remove()")
    assert sheets_of_paper(page, paper) == 1


@pytest.mark.parametrize("system", ["us", "si"])
def test_every_question_of_the_bank_falls_whole_on_a_page_in_both_prints(opened, tmp_path, system):
    asked = "".join(f'[[questions]]\nquestion = "{name}"\npoints = 2.5\n' for name in bank.QUESTIONS)
    (tmp_path / "all.toml").write_text(
        f'name = "all"\ntitle = "{"A title that is long " * 5}"\nunits = "{system}"\nhints = true\n{asked}',
        encoding="utf-8",
    )
    course = begun(tmp_path, tmp_path / "all.toml", LONG_SEATS, large=LONG_SEATS[:2])
    for paper in PAPERS:
        page = opened(course.class_page, paper)
        assert sheets_of_paper(page, paper) == leaves(page)
        assert page.evaluate(CUT) == []
        assert leaves(page, ".large") > 2 * leaves(page, ".seat:not(.large)") > 0


def test_only_the_seats_that_are_open_print_their_solutions(whole, opened):
    page = opened(whole.solutions_page, "Letter")
    closed = sheets_of_paper(page, "Letter")
    page.evaluate("document.querySelectorAll('details')[3].open = true")
    one = sheets_of_paper(page, "Letter")
    assert 0 < one - closed <= 8
