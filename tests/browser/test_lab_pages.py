"""The pages of the lab as they print on Letter and A4: nothing is wider than the paper, no box is torn in two."""

import shutil

import pytest

from turbomath.disk import files
from turbomath.lab.reduction.reduce import reduce_run
from turbomath.lab.report.folder import write
from turbomath.lab.run.readings import read_run
from turbomath.lab.several import pool, trend

MILLIMETRE = 96 / 25.4  # of a CSS pixel
WIDTHS = {"Letter": 215.9 - 30, "A4": 210.0 - 30}  # mm between the margins of the style sheet
RUN = "generator_air_to_air"
WIDE_BOX = 100  # mm


@pytest.fixture(scope="module")
def pages(tmp_path_factory):
    """The four pages, made once: a student's and an instructor's report, a pool and a trend of three runs."""
    folder, reduced = tmp_path_factory.mktemp("pages"), []
    for number in range(1, 4):
        shutil.copytree(files.shipped("data") / RUN, folder / f"group {number} with a rather long name")
        bench = folder / f"group {number} with a rather long name" / "bench.toml"
        text = bench.read_text(encoding="utf-8").replace("date = 2026-03-12", f"date = 2026-0{number}-12")
        bench.write_text(text, encoding="utf-8")
        reduced.append(reduce_run(read_run(bench.parent)))
    made = {who: write(reduced[0], folder / who, "us", reader=who)[0] for who in ("student", "instructor")}
    made |= {name: room.write(reduced, folder / name, "us")[1][0] for name, room in (("pool", pool), ("trend", trend))}
    return made


@pytest.mark.parametrize("paper", WIDTHS)
@pytest.mark.parametrize("name", ["student", "instructor", "pool", "trend"])
def test_a_page_fits_its_paper(chromium, pages, name, paper):
    page = chromium.new_page(viewport={"width": round(WIDTHS[paper] * MILLIMETRE), "height": 900})
    page.emulate_media(media="print")
    page.goto(pages[name].as_uri())
    assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")
    cut = page.evaluate(
        "[...document.querySelectorAll('th, td')].filter(e => e.scrollWidth > e.clientWidth + 1).map(e => e.innerText)"
    )
    assert cut == []
    boxes = page.locator(".working").evaluate_all("all => all.map(one => one.getBoundingClientRect().width)")
    assert len(boxes) == (5 if name == "student" else 0)
    assert all(width > WIDE_BOX * MILLIMETRE for width in boxes)
    assert page.pdf(format=paper)[:4] == b"%PDF"
    page.close()
