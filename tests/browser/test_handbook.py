"""The handbook and the formula sheet as they print: two pages, nothing cut, nothing too small, nothing fetched."""

import re

import pytest

from turbomath.handbook import book, sheet

MILLIMETRE = 96 / 25.4  # of a CSS pixel
POINT = 96 / 72
PAPERS = {"Letter": (215.9, 279.4), "A4": (210.0, 297.0)}
MARGINS = {"handbook": (30, 34 + 9), "sheet": (28, 28)}  # mm: left and right, top and bottom with the running head
SMALLEST = 9 * POINT
PAGE = re.compile(rb"/Type\s*/Page\b(?!s)")


@pytest.fixture(scope="module")
def places(tmp_path_factory):
    """The two pages, made once."""
    folder = tmp_path_factory.mktemp("handbook")
    return {"handbook": book.write(folder), "sheet": sheet.write(folder)}


@pytest.fixture(scope="module")
def opened(chromium, places):
    """Each page as it is printed, as wide as a paper leaves it."""
    pages = []

    def make(name, paper):
        width, height = (whole - margin for whole, margin in zip(PAPERS[paper], MARGINS[name], strict=True))
        page = chromium.new_page(viewport={"width": round(width * MILLIMETRE), "height": round(height * MILLIMETRE)})
        page.emulate_media(media="print")
        page.asked = []
        page.on("request", lambda request: page.asked.append(request.url))
        page.goto(places[name].as_uri())
        pages.append(page)
        return page, height * MILLIMETRE

    yield make
    for page in pages:
        page.close()


@pytest.mark.parametrize("paper", PAPERS)
def test_the_sheet_prints_on_exactly_two_pages(opened, paper):
    page, _ = opened("sheet", paper)
    assert len(PAGE.findall(page.pdf(format=paper))) == 2


@pytest.mark.parametrize("paper", PAPERS)
def test_no_word_of_the_sheet_is_smaller_than_nine_points(opened, paper):
    page, _ = opened("sheet", paper)
    sizes = page.locator("main :is(h2, p, caption, th, td)").evaluate_all(
        "all => all.filter(one => one.offsetParent).map(one => parseFloat(getComputedStyle(one).fontSize))"
    )
    assert len(sizes) > 100
    assert min(sizes) >= SMALLEST - 0.01
    letters = page.locator("main p > math").evaluate_all(
        "all => all.map(one => parseFloat(getComputedStyle(one).fontSize))"
    )
    assert min(letters) >= SMALLEST - 0.01


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("name", ["handbook", "sheet"])
def test_nothing_is_wider_than_the_paper(opened, name, paper):
    page, _ = opened(name, paper)
    assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")
    cut = page.evaluate(
        "[...document.querySelectorAll('math, td, th, p, h3')]"
        ".filter(one => one.getBoundingClientRect().right > innerWidth + 1).map(one => one.textContent.slice(0, 60))"
    )
    assert cut == []


def test_a_formula_stays_with_its_letters_and_fits_on_a_page(opened):
    page, height = opened("handbook", "Letter")
    heads = page.locator("article .head").evaluate_all(
        "all => all.map(one => [getComputedStyle(one).breakInside, one.getBoundingClientRect().height,"
        " one.querySelectorAll('h3, .statement math, table').length])"
    )
    assert len(heads) >= 93
    assert {style for style, _, _ in heads} == {"avoid"}
    assert max(tall for _, tall, _ in heads) < height
    assert min(parts for _, _, parts in heads) >= 3


def test_the_handbook_prints_with_its_pages_numbered(opened):
    page, _ = opened("handbook", "A4")
    pages = len(PAGE.findall(page.pdf(format="A4")))
    assert 60 < pages < 130


def test_nothing_is_fetched(opened, places):
    for name, place in places.items():
        page, _ = opened(name, "Letter")
        assert page.asked == [place.as_uri()]
