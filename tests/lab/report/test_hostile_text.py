"""Free text from a run is harmless wherever it ends up: in a spreadsheet, on a page, on a terminal, in a path.

2,000 texts are made of pieces that have harmed other programs: formulas (OWASP, CSV injection), markup (OWASP,
cross-site scripting), template marks, paths that climb, marks that turn text around (UAX #9), terminal codes.
"""

import csv
import io
import random

import pytest

from tests.lab.page_reader import Report
from turbomath.lab.reduction.reduce import reduce_run
from turbomath.lab.report.folder import folder_for, write
from turbomath.lab.report.terminal import on_terminal
from turbomath.lab.run.readings import read_run
from turbomath.paper.page import visible
from turbomath.table.errors import short

PIECES = (
    "=1+1",
    "+1",
    "-1+2",
    "@SUM(A1)",
    '=HYPERLINK("http://x.example","y")',
    "=cmd|'/c calc'!A0",
    "\t=1+1",
    " =1+1",
    "<img src=x onerror=alert(1)>",
    "</script><script>alert(1)</script>",
    "</title>",
    "<!--",
    "-->",
    "]]>",
    "<svg onload=x>",
    '"><b>',
    "' onmouseover='x",
    "&lt;b&gt;",
    "&#60;",
    "{{ 7*7 }}",
    "{% for x in y %}",
    "${7*7}",
    "javascript:x",
    "../",
    "..\\..\\",
    "/etc/passwd",
    "C:\\",
    "\u202e",
    "\u2066",
    "\u200f",
    "\x1b[2J",
    "\x07",
    "\x85",
    "\r\n",
    "\n",
    "$\\frac{",
    "é",
    "漢字",
    "😀",
    "\ufeff",
    "\u200b",
    "a",
    "7",
    ",",
    ";",
    "%",
    "°F",
)
ROWS, TEXT_COLUMNS = 400, ("point", "time", "reader", "remark", "<i>our own</i> =1+1")
TAGS = {
    "html",
    "head",
    "meta",
    "title",
    "style",
    "body",
    "div",
    "main",
    "section",
    "h1",
    "h2",
    "h3",
    "p",
    "strong",
    "span",
    "dl",
    "dt",
    "dd",
    "ul",
    "li",
    "table",
    "caption",
    "thead",
    "tbody",
    "tr",
    "th",
    "td",
    "figure",
    "figcaption",
    "img",
    "details",
    "summary",
    "br",
    "footer",
    "math",
    "mrow",
    "mi",
    "mo",
    "mn",
    "mfrac",
    "msub",
    "msup",
    "msubsup",
    "mover",
    "mtext",
    "mspace",
}


def hostile(count):
    chance = random.Random(20260312)
    return ["".join(chance.choices(PIECES, k=chance.randint(2, 6))) for _ in range(count)]


TEXTS = hostile(ROWS * len(TEXT_COLUMNS))
TITLE = '"=1+1 <img onerror=x> </title></h1>{{ 7*7 }} ../ \\u0000 \\u202E "'


@pytest.fixture(scope="module")
def folder(tmp_path_factory):
    """A run of 400 readings whose every free cell is hostile, in a folder with a hostile name."""
    run = tmp_path_factory.mktemp("runs") / "=1+1 <img onerror=x> '&amp; $(x)"
    run.mkdir()
    out = io.StringIO()
    sheet = csv.writer(out, lineterminator="\n")
    sheet.writerow(
        [*TEXT_COLUMNS, "barometer [inHg]", "ambient temperature [°F]", "boost [psi]", "manifold temperature [°F]"]
    )
    for row in range(ROWS):
        texts = TEXTS[row * len(TEXT_COLUMNS) : (row + 1) * len(TEXT_COLUMNS)]
        sheet.writerow([*texts, "29.10", "77", f"{1 + row / 20:.2f}", "120"])
    (run / "readings.csv").write_text(out.getvalue(), encoding="utf-8", newline="")
    (run / "bench.toml").write_text(f"[run]\ntitle = {TITLE}\ninvented = true\n", encoding="utf-8")
    return run


@pytest.fixture(scope="module")
def reduced(folder):
    return reduce_run(read_run(folder))


@pytest.fixture(scope="module")
def written(reduced, tmp_path_factory):
    page, table = write(reduced, tmp_path_factory.mktemp("out"), "us", [reduced])
    return page, table


def test_there_are_2000_texts_and_they_are_hostile():
    assert len(TEXTS) == 2000
    assert len(set(TEXTS)) > 1900
    assert sum(text.lstrip()[:1] in "=+-@" for text in TEXTS) > 200


def test_on_the_page_every_text_is_only_text(written, reduced):
    found = Report(written[0].read_text(encoding="utf-8"))
    assert {tag for tag, _ in found.tags} <= TAGS
    for tag, attributes in found.tags:
        assert not [name for name in attributes if name.startswith("on")]
        assert attributes.get("src", "data:").startswith("data:")
        assert tag != "meta" or attributes.get("http-equiv") != "refresh"
    cells = {}
    for table in found.tables:
        if table["caption"] == "Readings as written":
            for index, head in enumerate(table["heads"]):
                cells[head] = [row[index] for row in table["rows"]]
    for column in TEXT_COLUMNS[1:]:
        assert cells[column] == [visible(short(text, 60)) for text in reduced.run.cells[column]]


def test_the_page_shows_no_mark_that_hides_or_turns_text(written):
    text = written[0].read_text(encoding="utf-8")
    assert not set(text) & set("\x00\x07\x1b\x85\u202e\u2066\u200f")
    assert "49" not in Report(text).headings[0][1]  # {{ 7*7 }} was not worked out
    assert "{{ 7*7 }}" in Report(text).headings[0][1]


def test_in_the_spreadsheet_no_cell_is_a_formula(written):
    with written[1].open(encoding="utf-8-sig", newline="") as stream:
        head, *rows = csv.reader(stream)
    assert len(rows) == ROWS
    assert {len(row) for row in rows} == {len(head)}
    for row in rows:
        for cell in row[:2]:
            assert cell.lstrip()[:1] not in ("=", "+", "-", "@")
    assert sum(row[0].startswith("'") for row in rows) > 40


def test_on_the_terminal_no_text_moves_the_cursor(reduced):
    text = on_terminal(reduced, "us", [reduced])
    assert not set(text) & set("\x00\x07\x1b\x85\r\u202e\u2066\u200f")


def test_nothing_is_written_outside_the_folder(folder, reduced, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    out = folder_for(reduced.run)
    assert out.parent == tmp_path
    for path in write(reduced, out, "us"):
        assert path.parent == out
    assert sorted(path.name for path in tmp_path.rglob("*")) == sorted([out.name, "reduced.csv", "report.html"])
    assert sorted(path.name for path in folder.iterdir()) == ["bench.toml", "readings.csv"]
