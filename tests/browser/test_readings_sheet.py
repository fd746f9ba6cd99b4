"""The blank readings sheet as it prints: limits on page one, whole words in the heads, boxes wide enough."""

import pytest

from turbomath.disk import files
from turbomath.lab.entry import blank_sheet

MILLIMETRE = 96 / 25.4  # of a CSS pixel
MARGINS = 30, 34  # left and right, top and bottom, as the style sheet has them
PAPERS = {"Letter": (215.9, 279.4), "A4": (210.0, 297.0)}
NARROWEST_BOX = 15  # mm, for a gloved hand


@pytest.fixture
def printed(chromium, tmp_path):
    """The sheet of a shipped run, laid out as wide as the paper leaves it."""
    pages = []

    def make(run, paper, large):
        width, height = (whole - margin for whole, margin in zip(PAPERS[paper], MARGINS, strict=True))
        path = blank_sheet.write(files.shipped("data") / run, tmp_path / f"{run}.html", large=large)
        page = chromium.new_page(viewport={"width": round(width * MILLIMETRE), "height": round(height * MILLIMETRE)})
        page.emulate_media(media="print")
        page.goto(path.as_uri())
        pages.append(page)
        return page, height * MILLIMETRE

    yield make
    for page in pages:
        page.close()


@pytest.mark.parametrize("large", [False, True])
@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("run", ["generator_air_to_air", "stand_unloaded_run_up"])
def test_page_one_holds_the_limits_and_no_box_is_narrow_or_cut(printed, run, paper, large):
    page, height = printed(run, paper, large)
    limits = page.locator("section[aria-labelledby=limits]").bounding_box()
    assert limits["y"] + limits["height"] < height
    assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")
    cut = page.evaluate(
        "[...document.querySelectorAll('th, td')].filter(e => e.scrollWidth > e.clientWidth + 1).map(e => e.innerText)"
    )
    assert cut == []
    boxes = page.locator(".grid:not(.remarks) tbody td:not(:first-child)")
    widths = boxes.evaluate_all("all => all.map(one => one.getBoundingClientRect().width)")
    assert min(widths) > NARROWEST_BOX * MILLIMETRE


@pytest.mark.parametrize("large", [False, True])
def test_each_grid_fits_on_a_page_of_its_own(printed, large):
    page, height = printed("generator_jacket_water", "Letter", large)
    tall = page.locator("section.boxes:has(.grid)").evaluate_all(
        "all => all.map(one => one.getBoundingClientRect().height)"
    )
    assert len(tall) >= 3
    assert max(tall) < height
