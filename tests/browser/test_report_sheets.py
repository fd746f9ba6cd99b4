"""A report as it prints: the answer on the first sheet, at most six sheets, on Letter and A4."""

import re
import shutil

import pytest

from turbomath.disk import files
from turbomath.lab.reduction.reduce import reduce_run
from turbomath.lab.report.folder import write
from turbomath.lab.run.readings import read_run

MILLIMETRE = 96 / 25.4  # of a CSS pixel
PAPERS = {"Letter": (215.9 - 30, 279.4 - 22), "A4": (210.0 - 30, 297.0 - 22)}  # mm between the margins of the report
SHIPPED = ("generator_air_to_air", "generator_jacket_water", "generator_no_aftercooler", "stand_unloaded_run_up")
MOST_SHEETS, OF_FINDINGS = 6, 1  # red and amber findings take one more
OF_RECORD = 2  # sheets that a whole run-up record takes
FROM_THE_TOP = """selectors => selectors.map((one) => {
  const box = document.querySelector(one).getBoundingClientRect();
  return { one, high: box.height, end: box.bottom + scrollY };
})"""
LAST = "document.querySelector('main').lastElementChild.getAttribute('aria-labelledby')"


def halved(folder):
    """The shipped run with half its boost, and a limit that it passes: the longest sentences."""
    shutil.copytree(files.shipped("data") / SHIPPED[0], folder)
    head, *rows = [line.split(",") for line in (folder / "readings.csv").read_text(encoding="utf-8-sig").splitlines()]
    for row in rows:
        row[head.index("boost [psi]")] = f"{float(row[head.index('boost [psi]')]) / 2:g}"
    text = "\n".join(",".join(row) for row in (head, *rows))
    (folder / "readings.csv").write_text(text, encoding="utf-8")
    bench = (folder / "bench.toml").read_text(encoding="utf-8")
    (folder / "bench.toml").write_text(bench.replace('boost = "..30 psi"', 'boost = "..10 psi"'), encoding="utf-8")
    return folder


@pytest.fixture(scope="module")
def reports(tmp_path_factory):
    """The report of each shipped run, and of one with half its boost."""
    folder = tmp_path_factory.mktemp("reports")
    runs = {name: name for name in SHIPPED} | {"halved": halved(folder / "halved")}
    return {name: write(reduce_run(read_run(run)), folder / f"{name}-report", "us")[0] for name, run in runs.items()}


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("name", [*SHIPPED, "halved"])
def test_the_answer_stands_on_the_first_sheet_and_all_on_six(chromium, reports, name, paper):
    width, height = (size * MILLIMETRE for size in PAPERS[paper])
    page = chromium.new_page(viewport={"width": round(width), "height": round(height)})
    page.emulate_media(media="print")
    page.goto(reports[name].as_uri())
    first = [".cautions", ".sentence", ".verdict:last-child", ".gain img", ".gain > .wide table"]
    for part in page.evaluate(FROM_THE_TOP, first):
        assert part["high"] > 0
        assert part["end"] < height, (part["one"], part["end"] / MILLIMETRE)
    assert page.evaluate(LAST) == "cautions"  # the full text is where the short one sends the reader
    assert page.locator(".cautions").last.evaluate("one => getComputedStyle(one).breakInside") == "avoid"
    sheets = len(re.findall(rb"/Type\s*/Page\b", page.pdf(format=paper)))
    more = (name == "halved") * OF_FINDINGS + page.locator("section.run-up").count() * OF_RECORD
    assert 1 < sheets <= MOST_SHEETS + more
    page.close()
