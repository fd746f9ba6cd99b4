"""What a reader types at the engine is harmless wherever it ends up, and comes back to the letter from the journal.

2,000 texts from pieces that have harmed other programs: formulas (OWASP, CSV injection), markup (OWASP, cross-site
scripting), template marks, paths that climb, marks that turn text around (UAX #9), terminal codes, half letters.
"""

import csv
import random
import unicodedata

import openpyxl
import pytest

from tests.lab.page_reader import Report
from turbomath.lab.entry.entry import Entry
from turbomath.lab.entry.entry_journal import EntryJournal
from turbomath.lab.entry.entry_run import EntryRun
from turbomath.lab.report.folder import write
from turbomath.lab.run.readings import read_run
from turbomath.table.errors import short

PIECES = (
    "=1+1",
    "+1+",
    "-1+2",
    "@SUM(A1)",
    '=HYPERLINK("http://x.example","y")',
    "=cmd|'/c calc'!A0",
    "\t=1+1",
    "\r=1",
    "<img src=x onerror=alert(1)>",
    "</td></table><script>alert(1)</script>",
    "<!--",
    "]]>",
    '"><b>',
    "&lt;b&gt;",
    "{{ 7*7 }}",
    "{% for x in y %}",
    "${7*7}",
    "../../x",
    "..\\..\\x",
    "/etc/passwd",
    "C:\\x",
    "NUL",
    "\u202e",
    "\u2066",
    "\x1b[2J",
    "\x00",
    "\x07",
    "\x85",
    "\r\n",
    "\n",
    "\ud800",
    "é",
    "漢字",
    "😀",
    "\ufeff",
    "\u200b",
    ",",
    ";",
    '"',
    "'",
    "7",
    "°F",
)
ROWS, TEXTS_A_ROW = 200, 10
TAGS_THAT_RUN = {"script", "iframe", "object", "embed", "form", "input", "link", "base", "a", "svg", "b"}
FREE = ("time", "reader", "remark")


def hostile(count):
    chance = random.Random(20260312)
    return ["".join(chance.choices(PIECES, k=chance.randint(2, 6))) for _ in range(count)]


TEXTS = hostile(ROWS * TEXTS_A_ROW)


def entries():
    """Every text in a place where a reader may type: words, the reader, a remark on a cell, what should be a number."""
    texts = iter(TEXTS)
    for number in range(ROWS):
        row = f"{1 + number // 2}{'AB'[number % 2]}"
        yield Entry(row, "time", next(texts), "", next(texts))
        yield Entry(row, "remark", next(texts), "", next(texts))
        yield Entry(row, "boost", next(texts), "psi", next(texts), next(texts))
        yield Entry(row, "ambient_temperature", "77", "°F", next(texts), next(texts))
        yield Entry(row, "barometer", "29.10", "inHg", "", next(texts))


@pytest.fixture(scope="module")
def entered(tmp_path_factory):
    folder = tmp_path_factory.mktemp("runs") / "=1+1 <img onerror=x> '&amp; $(x)"
    folder.mkdir()
    (folder / "bench.toml").write_text('[run]\ntitle = "=1+1 <b>"\ninvented = true\n', encoding="utf-8")
    first = EntryRun(folder, ["load"] * (ROWS // 2))
    assert first.enter("1A", "load", "50", look=False).saved
    kept = EntryJournal(folder)
    for one in entries():
        kept.append(one)
    return EntryRun(folder)


@pytest.fixture(scope="module")
def rows(entered):
    written = entered.write()
    assert written.saved is True
    with written.path.open(encoding="utf-8-sig", newline="") as stream:
        return list(csv.reader(stream))


def test_there_are_2000_texts_and_every_one_comes_back_to_the_letter(entered):
    there = [text for one in entered.entries[1:] for text in (one.text, one.reader, one.remark)]
    assert len(TEXTS) == 2_000
    assert sum(text.lstrip()[:1] in tuple("=+-@") for text in TEXTS) > 300
    assert [text for text in there if text in set(TEXTS)] == TEXTS


def test_no_cell_of_readings_is_a_formula_or_hides_a_mark(rows):
    head, *cells = rows
    assert len(cells) == ROWS
    for row in cells:
        assert len(row) == len(head)
        for name, cell in zip(head, row, strict=True):
            assert not {unicodedata.category(mark) for mark in cell} & {"Cc", "Cs", "Cn"}
            assert not set(cell) & set("\u202e\u2066")
            if "[" in name and cell:
                float(cell.lstrip(">").rstrip("+"))  # what stands under a gauge is a number
            else:
                assert cell.lstrip("\ufeff\u200b\ufffd ")[:1] not in tuple("=+-@"), cell


def test_readings_are_read_again_with_every_row_and_its_words(entered, rows):
    run = read_run(entered.folder)
    assert len(run) == ROWS
    head, *cells = rows
    for name in FREE:
        at = head.index(name)
        assert run.cells[name] == tuple(row[at] for row in cells)
    assert all("left out, as typed" in text for text in run.cells["remark"][:10])


def test_no_text_names_a_file(entered, rows):
    names = sorted(path.name for path in entered.folder.iterdir())
    assert names == ["bench.toml", "readings.csv", "readings.journal"]
    assert [path.name for path in entered.folder.parent.iterdir()] == [entered.folder.name]


def test_page_and_workbook_of_the_report_hold_text_only(entered, rows, tmp_path):
    page, table, book = write(entered.results().reduced, tmp_path / "out", "us", xlsx=True)
    found = Report(page.read_text(encoding="utf-8"))
    assert not {tag for tag, _ in found.tags} & TAGS_THAT_RUN
    assert not [name for _, attributes in found.tags for name in attributes if name.startswith("on")]
    remarks = [
        row[one["heads"].index("remark")]
        for one in found.tables
        if one["caption"].startswith("Readings as written") and "remark" in one["heads"]
        for row in one["rows"]
    ]
    assert remarks == [short(row[-1], 60) for row in rows[1:]]
    for path in (table, book):
        assert path.parent == tmp_path / "out"
    sheet = openpyxl.load_workbook(book).active
    assert {cell.data_type for line in sheet.iter_rows() for cell in line} <= {"s", "n"}


def test_what_is_said_of_a_hostile_cell_is_one_line_without_a_mark_that_moves(entered):
    for row in ("1A", "7B", "50A", "100B"):
        (flag,) = entered.flags(row, "boost")
        assert flag.level == "red"
        assert (flag.reason + flag.action).isprintable()
        assert entered.undo(name=entered.history(row, "boost")[0].name).sentence.isprintable()
