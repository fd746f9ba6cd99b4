"""Workbooks: what a spreadsheet saves is read to the last digit; what could run, fetch or swamp is refused whole."""

import csv
import datetime
import io
import random
import re
import shutil
import zipfile

import numpy as np
import openpyxl
import pytest

from turbomath.disk import files
from turbomath.lab.reduction.reduce import reduce_run
from turbomath.lab.report import tables
from turbomath.lab.run import packed, readings, workbook
from turbomath.table.errors import RefusedFileError

RUN = "generator_air_to_air"
SHEET = "xl/worksheets/sheet1.xml"


@pytest.fixture
def folder(tmp_path):
    shutil.copy(files.shipped("data") / RUN / "bench.toml", tmp_path)
    return tmp_path


def rows_of(run):
    """The cells of a shipped run as a spreadsheet holds them: numbers as numbers."""
    with (files.shipped("data") / run / "readings.csv").open(encoding="utf-8-sig", newline="") as stream:
        return [[_value(text) for text in row] for row in csv.reader(stream)]


def _value(text):
    try:
        return float(text)
    except ValueError:
        return text or None


def saved(folder, rows, change=lambda book, sheet: None):
    book = openpyxl.Workbook()
    for row in rows:
        book.active.append(row)
    change(book, book.active)
    book.save(folder / "readings.xlsx")
    return folder


def repacked(path, change):
    """Write a workbook again with *change* made to its parts, a dict of name -> bytes."""
    with zipfile.ZipFile(path) as packed:
        parts = {name: packed.read(name) for name in packed.namelist()}
    change(parts)
    with zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as packed:
        for name, content in parts.items():
            packed.writestr(name, content)


def same(one, other):
    assert (one.points, one.conditions, one.columns) == (other.points, other.conditions, other.columns)
    for name in one.values:
        np.testing.assert_array_equal(one[name], other[name])


@pytest.mark.parametrize("run", files.shipped_runs())
def test_a_workbook_gives_the_readings_of_the_same_csv(tmp_path, run):
    shutil.copy(files.shipped("data") / run / "bench.toml", tmp_path)
    found = readings.read_run(saved(tmp_path, rows_of(run)))
    same(found, readings.read_run(run))
    assert found.file == "readings.xlsx"


def test_times_per_cents_and_texts_read_as_a_person_would_write_them(folder):
    head = ["point", "time", "load [%]", "barometer [inHg]", "ambient temperature [°F]", "boost [psi]", "remark"]
    first = [1, datetime.time(10, 5), 0.57, 29.1, 77, ">60", "=not a formula"]
    second = ["2b", datetime.time(10, 20, 30), 0.075, 29.100000000000001, 77.25, 22, True]

    def change(book, sheet):
        sheet["C2"].number_format = sheet["C3"].number_format = "0.0%"
        sheet["G2"].data_type = "s"

    saved(folder, [head, first, second], change)
    sheet = workbook.read_workbook(folder / "readings.xlsx")
    assert sheet.rows[0][1] == ("1", "10:05", "57%", "29.1", "77", ">60", "=not a formula")
    assert sheet.rows[1][1] == ("2b", "10:20:30", "7.5%", "29.1", "77.25", "22", "TRUE")


def test_the_sheet_named_readings_is_taken_among_several_and_none_is_guessed(folder):
    def change(book, sheet):
        book.create_sheet("notes").append(["x"])

    with pytest.raises(RefusedFileError, match="found 'the sheets Sheet, notes', expected one sheet, or one named"):
        readings.read_run(saved(folder, rows_of(RUN), change))

    def named(book, sheet):
        change(book, sheet)
        sheet.title = "Readings"

    same(readings.read_run(saved(folder, rows_of(RUN), named)), readings.read_run(RUN))


def test_a_sheet_that_lies_about_its_size_is_read_whole(folder):
    path = saved(folder, rows_of(RUN)) / "readings.xlsx"

    def change(parts):
        parts[SHEET] = re.sub(rb'(<dimension ref="A1:)[A-Z]+[0-9]+', rb"\1B2", parts[SHEET])
        assert b'ref="A1:B2"' in parts[SHEET]

    repacked(path, change)
    same(readings.read_run(folder), readings.read_run(RUN))


def with_part(name, content):
    return lambda parts: parts.update({name: content})


def in_part(name, old, new):
    def change(parts):
        assert old in parts[name]
        parts[name] = parts[name].replace(old, new)

    return change


DOCTYPE = b'<!DOCTYPE x [<!ENTITY a "aaaa"><!ENTITY b SYSTEM "file:///etc/passwd">]>'
PARTS = {
    "macros": (with_part("xl/vbaProject.bin", b"x"), "macros"),
    "a link to another file": (with_part("xl/externalLinks/externalLink1.xml", b"<x/>"), "links to other files"),
    "a document type": (in_part(SHEET, b"<worksheet", DOCTYPE + b"<worksheet"), "a document type"),
    "a document type in another part": (in_part("docProps/core.xml", b"<cp:", DOCTYPE + b"<cp:"), "document type"),
    "UTF-16": (lambda parts: parts.update({SHEET: parts[SHEET].decode().encode("utf-16")}), "a document type"),
    "too many parts": (lambda parts: parts.update({f"x{n}.txt": b"" for n in range(300)}), "parts"),
    "no sheet": (lambda parts: parts.pop(SHEET), "the sheets none"),
    "half a sheet": (lambda parts: parts.update({SHEET: parts[SHEET][:-400]}), "a broken workbook"),
    "no workbook": (lambda parts: parts.pop("xl/workbook.xml"), "a broken workbook"),
    "a text number that is not there": (
        in_part(SHEET, b't="inlineStr"><is><t>point</t></is>', b't="s"><v>9999</v>'),
        "a broken workbook",
    ),
    "a row beyond the last": (in_part(SHEET, b'<row r="2"', b'<row r="99999999999"'), "more rows"),
    "a column beyond the last": (in_part(SHEET, b'r="B2"', b'r="ZZZZ2"'), "a broken workbook"),
}


@pytest.mark.parametrize("what", PARTS)
def test_what_could_run_fetch_or_break_is_refused_in_one_sentence(folder, what):
    change, words = PARTS[what]
    repacked(saved(folder, rows_of(RUN)) / "readings.xlsx", change)
    with pytest.raises(RefusedFileError) as refused:
        readings.read_run(folder)
    assert words in str(refused.value)
    assert "\n" not in str(refused.value)


CELLS = {
    "a formula": ("C2", "=1+1", "column 'C': found 'the formula =1+1'"),
    "a formula that runs": ("C2", '=HYPERLINK("http://x","y")', "the formula"),
    "an error": ("C2", "#DIV/0!", "found '#DIV/0!'"),
    "a date for a number": ("E3", datetime.datetime(2026, 3, 4), "found '2026-03-04'"),
    "true for a number": ("E3", True, "found 'TRUE'"),
    "a far cell": ("ZZ3", "here", "expected 23 cells"),
    "text for a number": ("E3", "lots", "found 'lots'"),
}


@pytest.mark.parametrize("what", CELLS)
def test_a_cell_that_is_no_reading_is_refused_with_its_place(folder, what):
    where, value, words = CELLS[what]
    with pytest.raises(RefusedFileError) as refused:
        readings.read_run(saved(folder, rows_of(RUN), lambda book, sheet: sheet.__setitem__(where, value)))
    assert words in str(refused.value)
    assert f"row {where[-1]}" in str(refused.value)


def test_formatted_blank_cells_far_out_do_not_matter(folder):
    def change(book, sheet):
        sheet["XFD1048576"].number_format = "0.00"

    same(readings.read_run(saved(folder, rows_of(RUN), change)), readings.read_run(RUN))


def test_a_small_file_that_unpacks_to_300_megabytes_is_refused_before_it_is_unpacked(folder, monkeypatch):
    path = folder / "readings.xlsx"
    with zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as packed, packed.open(SHEET, "w") as part:
        for _ in range(300):
            part.write(bytes(1_000_000))
    assert path.stat().st_size < 400_000
    monkeypatch.setattr(zipfile.ZipFile, "read", lambda *_: pytest.fail("it was unpacked"))
    with pytest.raises(RefusedFileError, match="unpacks to more"):
        readings.read_run(folder)


def test_a_large_file_and_too_many_rows_are_refused(folder):
    with (folder / "readings.xlsx").open("wb") as stream:
        stream.truncate(packed.MOST_BYTES + 1)
    with pytest.raises(RefusedFileError, match="a larger file"):
        readings.read_run(folder)
    with pytest.raises(RefusedFileError, match="at most 5,000 readings"):
        readings.read_run(saved(folder, [["boost [psi]"], *[["24"]] * 5_003]))


@pytest.mark.parametrize(
    "content", [b"", b"PK\x03\x04", b"point,boost [psi]\n1,22\n", b"\xd0\xcf\x11\xe0" + bytes(600)]
)
def test_what_is_no_workbook_is_refused(folder, content):
    (folder / "readings.xlsx").write_bytes(content)
    with pytest.raises(RefusedFileError, match="a broken workbook"):
        readings.read_run(folder)


@pytest.mark.parametrize("books", [pytest.param(500, marks=pytest.mark.long), 90])
def test_of_hundreds_of_damaged_workbooks_each_is_refused_or_read_exactly(folder, books):
    path, chance, read = saved(folder, rows_of(RUN)) / "readings.xlsx", random.Random(20261126), 0
    whole, right = path.read_bytes(), readings.read_run(RUN)
    for turn in range(books):
        broken = bytearray(whole)
        if turn % 3 == 0:
            del broken[chance.randrange(len(broken)) :]
        else:
            for _ in range(chance.choice((1, 3, 30))):
                broken[chance.randrange(len(broken))] = chance.randrange(256)
        path.write_bytes(broken)
        try:
            found = readings.read_run(folder)
        except RefusedFileError:
            continue
        same(found, right)
        read += 1
    assert read < books / 2
    assert read or books < 500  # a book holds the time at which it was saved: of few, all may be refused


def test_a_folder_in_place_of_the_workbook_is_refused(folder):
    (folder / "readings.xlsx").mkdir()
    with pytest.raises(RefusedFileError, match="no plain file"):
        readings.read_run(folder)


def test_two_files_of_readings_are_not_chosen_between(folder):
    saved(folder, rows_of(RUN))
    shutil.copy(files.shipped("data") / RUN / "readings.csv", folder)
    with pytest.raises(RefusedFileError, match="expected one file of readings"):
        readings.read_run(folder)


def test_results_go_out_as_numbers_and_texts_and_no_text_is_a_formula(folder):
    rows = rows_of(RUN)
    rows[2][0] = "\t=HYPERLINK(1)"

    def change(book, sheet):
        sheet["A3"].data_type = "s"

    reduced = reduce_run(readings.read_run(saved(folder, rows, change)))
    wanted = tables.reduced_rows(reduced, "si")
    out = workbook.workbook(wanted, "reduced", ("point", "condition", "agree"))
    sheet = openpyxl.load_workbook(io.BytesIO(out)).active
    for texts, cells in zip(wanted, sheet.iter_rows(), strict=True):
        for text, cell in zip(texts, cells, strict=True):
            assert cell.data_type in ("s", "inlineStr", "n")
            assert cell.value == (None if text == "" else float(text) if cell.data_type == "n" else text)
    assert sheet["A3"].value == "'=HYPERLINK(1)"
    assert sheet["C9"].data_type == "n"


@pytest.mark.parametrize("text", ["=1+1", '=HYPERLINK("http://x")', "#DIV/0!", "+1", "-1", "@x", "<b>"])
def test_a_text_goes_out_as_that_text_whoever_calls(text):
    out = workbook.workbook([["point", text], [text, "12.5"]], "any", ("point",))
    (head, heading), (cell, number) = openpyxl.load_workbook(io.BytesIO(out)).active.iter_rows()
    for one in (heading, cell):
        assert one.data_type in ("s", "inlineStr")
        assert one.value == text
    assert (head.value, number.value) == ("point", 12.5)
