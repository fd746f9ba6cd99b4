"""The papers of a lesson as they print, on Letter and on A4: how many sheets, and nothing that is cut off."""

import re

import pytest

from turbomath.handouts import written

WIDTH = round((210 - 30) * 96 / 25.4)  # px of a CSS inch, between the margins of A4
SHEETS = {"": (6, 9), "-cards": (1, 1), "-substitute": (1, 1)}  # from, to


@pytest.fixture(scope="module")
def papers(tmp_path_factory):
    """The papers of every lesson: name -> path."""
    return {path.stem: path for path in written.write(written.lessons_asked(None), tmp_path_factory.mktemp("papers"))}


def sheets(page, path, paper):
    page.goto(path.as_uri())
    return len(re.findall(rb"/Type\s*/Page\b", page.pdf(format=paper)))


@pytest.mark.parametrize("paper", ["Letter", "A4"])
def test_a_lesson_prints_whole_and_a_substitute_teaches_every_one_from_a_single_sheet(chromium, papers, paper):
    page = chromium.new_page()
    for ending, (fewest, most) in SHEETS.items():
        assert fewest <= sheets(page, papers[f"03_hot_air_is_thin{ending}"], paper) <= most, ending
    counts = {name: sheets(page, path, paper) for name, path in papers.items() if name.endswith("-substitute")}
    assert len(counts) > 9
    assert set(counts.values()) == {1}, counts
    page.close()


def test_the_answers_begin_on_another_sheet_and_nothing_is_too_wide_for_the_paper(chromium, papers):
    """Too wide a table would make the whole print small."""
    page = chromium.new_page(viewport={"width": WIDTH, "height": 900})
    page.emulate_media(media="print")
    for name, path in papers.items():
        page.goto(path.as_uri())
        assert page.evaluate("document.documentElement.scrollWidth") <= WIDTH, name
    page.goto(papers["03_hot_air_is_thin"].as_uri())
    assert page.locator(".predict .question").count() == 1
    assert page.locator(".then").evaluate("one => getComputedStyle(one).breakBefore") == "page"
    page.close()
