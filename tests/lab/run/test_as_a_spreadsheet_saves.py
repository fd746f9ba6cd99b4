"""What spreadsheet programs do to a sheet of readings: read as it was meant, and said. All data INVENTED."""

import csv
import io
import shutil

import numpy as np
import openpyxl
import pytest

from turbomath.disk import files
from turbomath.homework.course.sample_class import shipped as sample_class
from turbomath.lab.checks import check_run
from turbomath.lab.run import blank
from turbomath.lab.run.misread import as_meant
from turbomath.lab.run.readings import read_run
from turbomath.table.errors import RefusedFileError

RUN = "generator_air_to_air"
SHIPPED = (files.shipped("data") / RUN / "readings.csv").read_bytes()
TEXT = SHIPPED.decode("utf-8-sig")
HEAD = "point,condition,load [%],relative humidity [fraction],engine speed [rpm],boost [psi],remark\n"


def notes(run):
    return [flag for flag in check_run(run) if flag.check == 50]


def same(one, other):
    assert (one.points, one.conditions, one.columns) == (other.points, other.conditions, other.columns)
    for name in one.values:
        np.testing.assert_array_equal(one[name], other[name])


@pytest.fixture
def folder(tmp_path):
    shutil.copy(files.shipped("data") / RUN / "bench.toml", tmp_path)
    return tmp_path


@pytest.fixture
def of(folder):
    """Read a sheet of these bytes, or of this text."""

    def read(content):
        (folder / "readings.csv").write_bytes(content if isinstance(content, bytes) else content.encode())
        return read_run(folder)

    return read


def test_what_a_spreadsheet_is_to_open_says_that_it_is_utf_8(tmp_path):
    _, fresh = blank.new_run(tmp_path / "fresh")
    data = files.shipped("data")
    sheets = [fresh, *data.glob("*/readings.csv"), *sample_class().glob("*.csv")]
    assert len(sheets) >= 9
    assert [path for path in sheets if not path.read_bytes().startswith(b"\xef\xbb\xbf")] == []


@pytest.mark.parametrize("code_page", ["cp1252", "latin-1", "mac_roman", "cp850"])
@pytest.mark.parametrize("times", [1, 2])
def test_utf_8_taken_for_another_encoding_is_read_as_it_was_and_said_once(of, code_page, times):
    text = TEXT.replace("INVENTED", "INVENTED, 6 m³/h ± 0,1 à José", 1).replace("INVENTED,", "INVENTED", 1)
    text = text.replace(" ± 0,1", " ± 1")
    for _ in range(times):
        text = text.encode().decode(code_page, "replace")
        assert "\ufffd" not in text
    run = of(text)
    same(run, read_run(RUN))
    assert run.cells["remark"][0] == "INVENTED 6 m³/h ± 1 à José"
    assert run.headers["ambient_temperature"] == "ambient temperature [°F]"
    (note,) = notes(run)
    assert note.level == "note"
    assert "was read as 'ambient temperature [°F]', and 8 more cells in the same way" in note.reason
    assert "UTF-8" in note.action


def test_a_byte_order_mark_taken_for_letters_is_no_part_of_the_first_name(of):
    run = of(SHIPPED.decode("cp1252"))
    same(run, read_run(RUN))
    assert len(notes(run)) == 1


@pytest.mark.parametrize("text", ["Â", "NÃO", "señor Ångström", "«Â»", "50 °F ± 1", "naïve", "Ã", "±", "â"])
def test_a_text_in_its_own_marks_stays(text):
    assert as_meant(text) == text


def test_nothing_is_said_of_a_sheet_in_its_own_marks(of):
    assert notes(of(SHIPPED)) == []
    assert notes(of(TEXT.encode("cp1252"))) == []


@pytest.mark.parametrize("encoding", ["utf-16", "utf-16-le", "utf-16-be"])
def test_unicode_text_of_a_spreadsheet_is_read(of, encoding):
    mark = "" if encoding == "utf-16" else "\ufeff"
    same(of((mark + TEXT.replace(",", "\t")).encode(encoding)), read_run(RUN))


@pytest.mark.parametrize(
    ("cell", "load", "humidity"),
    [("25%", 0.25, 0.25), ("25 %", 0.25, 0.25), ("25\u202f%", 0.25, 0.25), ("7.5%", 0.075, 0.075), ("0%", 0.0, 0.0)],
)
def test_a_per_cent_is_one_in_a_column_of_per_cents_and_in_one_of_fractions(of, cell, load, humidity):
    run = of(f"{HEAD}1,load,{cell},{cell},1800,22,\n")
    assert run["load"][0] == pytest.approx(load, rel=1e-14)
    assert run["relative_humidity"][0] == pytest.approx(humidity, rel=1e-14)


def test_a_gauge_of_per_cents_at_its_stop_is_pegged(of):
    run = of(f"{HEAD}1,load,>110%,50%,1800,22,\n")
    assert run.at_least["load"][0] == pytest.approx(1.1)
    assert run.pegged["load"][0]


def test_a_per_cent_among_other_units_is_refused(of):
    with pytest.raises(RefusedFileError, match=r"column 'boost \[psi\]': found '22%', expected a number in psi"):
        of(f"{HEAD}1,load,25%,50%,1800,22%,\n")


def test_a_per_cent_with_a_decimal_comma(of):
    sheet = HEAD.replace(",", ";") + "1;load;7,5%;50,5 %;1800;22,5;\n"
    assert of(sheet)["load"][0] == pytest.approx(0.075)


def quoted(rows):
    page = io.StringIO()
    csv.writer(page).writerows(rows)
    return page.getvalue()


def in_book(folder, rows):
    book = openpyxl.Workbook()
    for row in rows:
        book.active.append(row)
    book.save(folder / "readings.xlsx")
    return read_run(folder)


HEADS = HEAD.strip().split(",")
WAYS = {
    "comma": lambda rows: quoted(rows),
    "semicolon": lambda rows: "".join(";".join(map(str, row)) + "\n" for row in rows),
    "tab": lambda rows: "".join("\t".join(map(str, row)) + "\n" for row in rows),
}
DOUBTFUL = [HEADS, ["1", "load", "50", "0.5", "1,800", "22", ""]]


@pytest.mark.parametrize("way", WAYS)
def test_1_800_is_a_number_where_other_cells_prove_the_decimal_mark_and_nowhere_else(of, way):
    proven = of(WAYS[way](DOUBTFUL))
    assert proven["engine_speed"][0] == pytest.approx(30.0)
    read = "'1,800' was read as 1800, since '0.5' in row 2 shows which mark is the decimal one"
    assert [note.reason for note in proven.notes] == [f"row 2, column 'engine speed [rpm]': {read}"]
    with_commas = [HEADS, ["1", "load", "50", "0,5", "1.800", "22", ""]]
    with pytest.raises(RefusedFileError, match=r"found '1\.800', .*It could be 1800 or 1,800"):
        of(WAYS[way](with_commas))
    unproven = [HEADS, ["1", "load", "50", "1", "1,800", "22", ""]]
    with pytest.raises(RefusedFileError, match="found '1,800', expected a number that can be read in one way only"):
        of(WAYS[way](unproven))


def test_in_a_workbook_numbers_prove_nothing_of_a_text(folder):
    numbers = [HEADS, [1, "load", 50, 0.5, 1800.125, 22.5, ""]]
    assert in_book(folder, numbers)["engine_speed"][0] == pytest.approx(1800.125 / 60)
    with pytest.raises(RefusedFileError, match="found '1,800', expected a number that can be read in one way only"):
        in_book(folder, [HEADS, [1, "load", 50, 0.5, "1,800", 22.5, ""]])
    assert in_book(folder, [HEADS, [1, "load", 50, 0.5, 1.25, 1.125, ""]])["load"][0] == 0.5


def test_decimal_commas_in_quotes_among_commas(of):
    run = of(quoted([HEADS, ["1", "load", "50", "0,5", "1800", "22,5", ""]]))
    assert run["relative_humidity"][0] == 0.5
