"""Workbooks of the open standard (ODS): read to the last digit; what could run, fetch or swamp is refused whole.

The files are written here from ISO/IEC 26300 alone, part by part, and by nothing of the kit. All data INVENTED.
"""

import random
import re
import shutil
import zipfile
from xml.sax.saxutils import escape

import pytest

from tests.lab.run.test_as_a_spreadsheet_saves import notes, same
from tests.lab.run.test_workbook import rows_of, saved
from turbomath.disk import files
from turbomath.lab.run import packed
from turbomath.lab.run.opendocument import read_opendocument
from turbomath.lab.run.readings import read_run
from turbomath.table.errors import RefusedFileError

RUN = "generator_air_to_air"
SPACES = "".join(
    f' xmlns:{name}="urn:oasis:names:tc:opendocument:xmlns:{what}:1.0"'
    for name, what in (("office", "office"), ("table", "table"), ("text", "text"), ("style", "style"))
)
CALC = ' xmlns:calcext="urn:org:documentfoundation:names:experimental:calc:xmlns:calcext:1.0"'
MANIFEST = (
    '<manifest:manifest xmlns:manifest="urn:oasis:names:tc:opendocument:xmlns:manifest:1.0"><manifest:file-entry '
    'manifest:full-path="/" manifest:media-type="application/vnd.oasis.opendocument.spreadsheet"/></manifest:manifest>'
)
HIDDEN_STYLE = (
    '<office:automatic-styles><style:style style:name="ta1" style:family="table"><style:table-properties '
    'table:display="false"/></style:style></office:automatic-styles>'
)


def cell(value):
    if isinstance(value, float):
        number = f'office:value-type="float" office:value="{value!r}"'
        return f"<table:table-cell {number}><text:p>?</text:p></table:table-cell>"
    if value is None:
        return "<table:table-cell/>"
    return value if value.startswith("<table") else of_text(value)


def of_text(text):
    return f'<table:table-cell office:value-type="string"><text:p>{escape(text)}</text:p></table:table-cell>'


def row(cells, more=""):
    return f"<table:table-row{more}>{''.join(map(cell, cells))}</table:table-row>"


def sheet(rows, name="Sheet1", columns=""):
    lines = "".join(one if isinstance(one, str) else row(one) for one in rows)
    return f'<table:table table:name="{name}" table:style-name="ta1">{columns}{lines}</table:table>'


def content(*sheets, styles=""):
    return (
        f'<?xml version="1.0" encoding="UTF-8"?><office:document-content{SPACES}{CALC} office:version="1.3">{styles}'
        f"<office:body><office:spreadsheet>{''.join(sheets)}</office:spreadsheet></office:body></office:document-content>"
    )


@pytest.fixture
def of(tmp_path):
    """Write an ODS file of these sheets and more parts, beside the bench of the shipped run; return the folder."""

    def write(*sheets, styles="", parts=()):
        shutil.copy(files.shipped("data") / RUN / "bench.toml", tmp_path)
        with zipfile.ZipFile(tmp_path / "readings.ods", "w", zipfile.ZIP_DEFLATED) as out:
            out.writestr("mimetype", "application/vnd.oasis.opendocument.spreadsheet", zipfile.ZIP_STORED)
            out.writestr("content.xml", content(*sheets, styles=styles))
            out.writestr("META-INF/manifest.xml", MANIFEST)
            for name, text in parts:
                out.writestr(name, text)
        return tmp_path

    return write


@pytest.mark.parametrize("run", files.shipped_runs())
def test_an_open_document_gives_the_readings_of_the_same_csv(of, run):
    folder = of(sheet(rows_of(run)))
    shutil.copy(files.shipped("data") / run / "bench.toml", folder)
    found = read_run(folder)
    same(found, read_run(run))
    assert found.file == "readings.ods"
    assert notes(found) == []


def test_every_kind_of_cell_reads_as_a_person_would_write_it(of):
    cells = [
        '<table:table-cell office:value-type="percentage" office:value="0.57"><text:p>57 %</text:p></table:table-cell>',
        '<table:table-cell office:value-type="time" office:time-value="PT08H05M00S"/>',
        '<table:table-cell office:value-type="time" office:time-value="PT10H20M30S"/>',
        '<table:table-cell office:value-type="date" office:date-value="2026-03-12"/>',
        '<table:table-cell office:value-type="date" office:date-value="2026-03-12T08:05:00"/>',
        '<table:table-cell office:value-type="boolean" office:boolean-value="true"/>',
        '<table:table-cell office:value-type="currency" office:value="1E-3"/>',
        "<table:table-cell><office:annotation><text:p>a comment</text:p></office:annotation>"
        "<text:p>two<text:s text:c='2'/>words</text:p><text:p>and more</text:p></table:table-cell>",
        29.100000000000001,
    ]
    folder = of(sheet([[f"c{number}" for number in range(len(cells))], cells]))
    assert read_opendocument(folder / "readings.ods").rows[0][1] == (
        *("57%", "08:05", "10:20:30", "2026-03-12", "2026-03-12 08:05", "TRUE", "0.001"),
        *("two  words\nand more", "29.1"),
    )


def test_what_is_said_to_be_repeated_is_repeated(of):
    rest = "<table:table-cell table:number-columns-repeated='16384'/>"  # some programs count them from the first
    head = row(["boost [psi]", "load [%]", rest])
    blank = "<table:table-row table:number-rows-repeated='3'><table:table-cell/></table:table-row>"
    twins = row(["<table:table-cell office:value-type='float' office:value='22' table:number-columns-repeated='2'/>"])
    thrice = twins.replace("<table:table-row", "<table:table-row table:number-rows-repeated='3'", 1)
    last = "<table:table-row table:number-rows-repeated='1048569'><table:table-cell/></table:table-row>"
    run = read_run(of(sheet([head, blank, thrice, last])))
    assert run.rows == (5, 6, 7)
    assert run["load"] == pytest.approx([0.22] * 3)


def test_the_sheet_named_readings_is_taken_and_a_hidden_one_is_said(of):
    rows = rows_of(RUN)
    run = read_run(of(sheet(rows, " Readings"), sheet([["x"]], "notes"), styles=HIDDEN_STYLE))
    same(run, read_run(RUN))
    (note,) = notes(run)
    assert "the hidden sheet ' Readings' was read like the rest" in note.reason
    with pytest.raises(RefusedFileError, match="found 'the sheets a, b', expected one sheet, or one named"):
        read_run(of(sheet(rows, "a"), sheet(rows, "b")))


def test_hidden_rows_and_columns_are_read_and_said(of):
    rows = [row(cells, " table:visibility='filter'" * (at in (3, 4))) for at, cells in enumerate(rows_of(RUN), 1)]
    rows.append(row([None], " table:visibility='collapse'"))
    columns = (
        '<table:table-column table:number-columns-repeated="6"/><table:table-column table:visibility="collapse"/>'
        '<table:table-column table:number-columns-repeated="16"/>'
        '<table:table-column table:number-columns-repeated="16361" table:visibility="collapse"/>'
    )
    run = read_run(of(sheet(rows, columns=columns)))
    same(run, read_run(RUN))
    assert [flag.reason for flag in notes(run)] == [
        "In readings.ods the hidden rows 3, 4 were read like the rest.",
        "In readings.ods the hidden column G was read like the rest.",
    ]


def test_hidden_rows_columns_and_sheets_of_the_other_kind_of_workbook_are_said_too(tmp_path):
    shutil.copy(files.shipped("data") / RUN / "bench.toml", tmp_path)

    def change(book, page):
        page.row_dimensions[3].hidden = page.column_dimensions["G"].hidden = True
        page.column_dimensions["AZ"].hidden = page.row_dimensions[40].hidden = True
        page.title = "readings"
        book.create_sheet("old").sheet_state = "hidden"

    run = read_run(saved(tmp_path, rows_of(RUN), change))
    same(run, read_run(RUN))
    assert [flag.reason for flag in notes(run)] == [
        "In readings.xlsx the hidden row 3 was read like the rest.",
        "In readings.xlsx the hidden column G was read like the rest.",
    ]


CELLS = {
    "a formula": ('<table:table-cell table:formula="of:=1+1" office:value-type="float" office:value="2"/>', "=1+1"),
    "an error": (
        '<table:table-cell office:value-type="string" calcext:value-type="error"><text:p>#DIV/0!</text:p>'
        "</table:table-cell>",
        "#DIV/0!",
    ),
    "a word": ("lots", "lots"),
    "not finite": ('<table:table-cell office:value-type="float" office:value="inf"/>', "inf"),
}


@pytest.mark.parametrize("what", CELLS)
def test_a_cell_that_is_no_reading_is_refused_with_its_place(of, what):
    made, found = CELLS[what]
    rows = rows_of(RUN)
    rows[1][4] = made
    with pytest.raises(RefusedFileError) as refused:
        read_run(of(sheet(rows)))
    assert re.search(rf"row 2, column '(E|barometer \[inHg\])': found '[^']*{re.escape(found)}", str(refused.value))


PARTS = {
    "macros": (("Basic/script-lc.xml", "<x/>"), "macros"),
    "scripts": (("Scripts/python/x.py", "x"), "macros"),
    "a password": (("META-INF/more.xml", "<manifest:encryption-data/>"), "a password"),
    "a link to another file": (("more.xml", "<table:table-source/>"), "links to other files"),
    "a document type": (("styles.xml", '<!DOCTYPE x [<!ENTITY a "b">]><x/>'), "a document type"),
}


@pytest.mark.parametrize("what", PARTS)
def test_what_could_run_or_fetch_is_refused_in_one_sentence(of, what):
    part, words = PARTS[what]
    with pytest.raises(RefusedFileError, match=words) as refused:
        read_run(of(sheet(rows_of(RUN)), parts=[part]))
    assert "\n" not in str(refused.value)


def test_too_much_is_refused_before_it_is_made(of):
    rows = [["boost [psi]"], row([22.0], " table:number-rows-repeated='1000000'")]
    with pytest.raises(RefusedFileError, match="at most 5,000 readings"):
        read_run(of(sheet(rows)))
    wide = cell(22.0).replace("<table:table-cell", "<table:table-cell table:number-columns-repeated='2000000000'")
    with pytest.raises(RefusedFileError, match="at most 16,384"):
        read_run(of(sheet([["boost [psi]"], [wide]])))
    blank = "".join(f"<table:table-row office:x='{number % 9973}'/>" for number in range(100_001))
    with pytest.raises(RefusedFileError, match="found 'more rows'"):
        read_run(of(sheet([["boost [psi]"], blank])))
    folder = of(sheet(rows))
    (folder / "readings.ods").write_bytes(bytes(packed.MOST_BYTES + 1))
    with pytest.raises(RefusedFileError, match="a larger file"):
        read_run(folder)


@pytest.mark.parametrize("books", [pytest.param(500, marks=pytest.mark.long), 60])
@pytest.mark.parametrize("compression", [zipfile.ZIP_DEFLATED, zipfile.ZIP_LZMA, zipfile.ZIP_BZIP2])
def test_of_damaged_books_of_both_kinds_each_is_refused_or_read_exactly(of, books, compression):
    folder, chance, right, read = of(sheet(rows_of(RUN))), random.Random(20261125), read_run(RUN), 0
    saved(folder, rows_of(RUN))
    wholes = {name: _packed_by(folder / name, compression) for name in ("readings.ods", "readings.xlsx")}
    for turn in range(books):
        name = sorted(wholes)[turn % 2]
        other = sorted(wholes)[1 - turn % 2]
        (folder / other).unlink(missing_ok=True)
        broken = bytearray(wholes[name])
        for _ in range(chance.choice((0, 1, 1, 3))):
            broken[chance.randrange(len(broken))] = chance.randrange(256)
        (folder / name).write_bytes(broken)
        try:
            found = read_run(folder)
        except RefusedFileError:
            continue
        same(found, right)
        read += 1
    assert 0 < read < books


def _packed_by(path, compression):
    with zipfile.ZipFile(path) as whole:
        parts = {name: whole.read(name) for name in whole.namelist()}
    with zipfile.ZipFile(path, "w", compression) as out:
        for name, text in parts.items():
            out.writestr(name, text)
    return path.read_bytes()
