"""Broken, odd and hostile readings: read whole and right, or refused with file, row, column, found and expected.

All data INVENTED. The strict reading of a damaged file below is written here from RFC 4180 alone and
uses nothing of the kit.
"""

import hashlib
import random
import re
import time
import tomllib

import numpy as np
import pytest

from turbomath.lab.run.bench import read_bench
from turbomath.lab.run.readings import read_run
from turbomath.table.errors import RefusedFileError, short

PLAIN = "point,condition,barometer [inHg],boost [psi],remark\n1,load,29.10,24.5,steady\n2,load,29.08,9.5,\n"


def changed(old, new, text=PLAIN):
    assert old in text
    return text.replace(old, new, 1)


def attempt(read, path):
    """Return (what was read, None) or (None, the refusal); any other exception is a failure."""
    try:
        return read(path), None
    except RefusedFileError as refusal:
        return None, refusal


def header(text):
    return f"point,{text},boost [psi]\n1,5,24.5\n"


# (name, content, row, column, what was found, words of what was expected)
BROKEN = [
    ("letters", changed("24.5", "twenty"), 2, "boost [psi]", "twenty", "a number in psi"),
    ("letter O for nought", changed("29.10", "29.1O"), 2, "barometer [inHg]", "29.1O", "a number in inHg"),
    ("unit in the cell", changed("9.5", "9.5 psi"), 3, "boost [psi]", "9.5 psi", "a number in psi"),
    ("two numbers", changed("9.5", "9.5/9.6"), 3, "boost [psi]", "9.5/9.6", "a number in psi"),
    ("infinity", changed("9.5", "inf"), 3, "boost [psi]", "inf", "a number in psi"),
    ("nan", changed("9.5", "nan"), 3, "boost [psi]", "nan", "a number in psi"),
    ("hexadecimal", changed("9.5", "0x1F"), 3, "boost [psi]", "0x1F", "a number in psi"),
    ("underscore", changed("9.5", "9_5"), 3, "boost [psi]", "9_5", "a number in psi"),
    ("formula", changed("9.5", "=9+0.5"), 3, "boost [psi]", "=9+0.5", "a number in psi"),
    ("spreadsheet error", changed("9.5", "#DIV/0!"), 3, "boost [psi]", "#DIV/0!", "a number in psi"),
    ("figures of another script", changed("9.5", "٩٫٥"), 3, "boost [psi]", "٩٫٥", "a number in psi"),
    ("at most", changed("9.5", "<9.5"), 3, "boost [psi]", "<9.5", "a number in psi"),
    ("pegged twice", changed("9.5", ">9.5+"), 3, "boost [psi]", ">9.5+", "a number in psi"),
    ("pegged at nothing", changed("9.5", ">"), 3, "boost [psi]", ">", "a number in psi"),
    ("lone plus", changed("9.5", "+"), 3, "boost [psi]", "+", "a number in psi"),
    ("date", changed("9.5", "9-May"), 3, "boost [psi]", "9-May", "a number in psi"),
    ("endless number", changed("9.5", "9" * 60), 3, "boost [psi]", "9" * 39 + "…", "a number in psi"),
    ("decimal comma among points", changed("24.5", '"24,5"'), 2, "boost [psi]", "24,5", "the same decimal mark"),
    ("slip in a name", changed("boost", "bost"), 1, "bost [psi]", "bost [psi]", "'boost', the nearest"),
    (
        "slip in a long name",
        header("compresor outlet temperature [°F]"),
        1,
        "compresor outlet temperature [°F]",
        "compresor outlet temperature [°F]",
        "'compressor outlet temperature', the nearest",
    ),
    (
        "word left out",
        header("coolant temperature [°F]"),
        1,
        "coolant temperature [°F]",
        "coolant temperature [°F]",
        "'engine coolant temperature', the nearest",
    ),
    (
        "word cut short",
        header("turbine outlet temp [°F]"),
        1,
        "turbine outlet temp [°F]",
        "turbine outlet temp [°F]",
        "'turbine outlet temperature', the nearest",
    ),
    ("slip in a text name", changed("condition", "conditon"), 1, "conditon", "conditon", "'condition', the nearest"),
    ("two of one name", header("Boost [kPa]"), 1, "boost [psi]", "boost [psi]", "'Boost [kPa]' has it too"),
    (
        "two unknown of one name",
        "smoke [%],Smoke [-],boost [psi]\n1,5,24.5\n",
        1,
        "Smoke [-]",
        "Smoke [-]",
        "each name once",
    ),
    ("endless name", changed("boost", "b" * 300), 1, None, "b" * 39 + "…", "a name of at most 200 letters"),
    ("no unit", changed("boost [psi]", "boost"), 1, "boost", "boost", "psi, kPa"),
    ("empty unit", changed("[psi]", "[]"), 1, "boost []", "boost []", "psi, kPa"),
    ("unknown unit", changed("[psi]", "[smoots]"), 1, "boost [smoots]", "smoots", "psi, kPa"),
    ("unit of the wrong kind", changed("[psi]", "[°F]"), 1, "boost [°F]", "°F", "psi, kPa"),
    ("absolute boost", changed("[psi]", "[psi abs]"), 1, "boost [psi abs]", "psi abs", "psi, kPa"),
    ("gauge barometer", changed("[inHg]", "[inHg gauge]"), 1, "barometer [inHg gauge]", "inHg gauge", "inHg"),
    (
        "pressure without gauge or absolute",
        header("manifold pressure [kPa]"),
        1,
        "manifold pressure [kPa]",
        "kPa",
        "gauge or abs",
    ),
    (
        "no brackets, and not gauge or absolute",
        header("manifold pressure kPa"),
        1,
        "manifold pressure kPa",
        "kPa",
        "gauge or abs",
    ),
    (
        "gauge restriction",
        header("intake restriction [inH2O gauge]"),
        1,
        "intake restriction [inH2O gauge]",
        "inH2O gauge",
        "inH2O",
    ),
    ("volume of fuel without density", header("fuel flow [L/h]"), 1, "fuel flow [L/h]", "L/h", "fuel_density"),
    ("unit row with an unknown unit", "point,boost\n,smoots\n1,24.5\n", 2, "boost", "smoots", "psi, kPa"),
    ("unit row without a unit", "point,boost,barometer\n,psi,\n1,24.5,29.1\n", 1, "boost", "boost", "psi, kPa"),
    ("short row", changed("2,load,29.08,9.5,", "2,load,29.08,9.5"), 3, None, "4 cells", "5 cells"),
    ("cut file", PLAIN[:-9], 3, None, "3 cells", "5 cells"),
    ("long row", changed("steady", "steady,9"), 2, None, "6 cells", "5 cells"),
    ("comma in a text", changed("steady", "steady, hot"), 2, None, "6 cells", "5 cells"),
    ("nameless column", "point,,boost [psi]\n1,,24.5\n2,7,9.5\n", 3, None, "7", "a name above this cell"),
    ("open quote", changed("steady", '"steady'), 2, None, '1,load,29.10,24.5,"steady', "quotes in pairs"),
    ("text behind a quote", changed("steady", '"steady"x'), 2, None, '1,load,29.10,24.5,"steady"x', "quotes in pairs"),
    (
        "endless cell",
        changed("steady", "x" * 200_000),
        2,
        None,
        "1,load,29.10,24.5," + "x" * 21 + "…",
        "a sensible length",
    ),
    ("two separators", changed("point,", "point;"), None, None, None, "one separator"),
    ("NUL", changed("steady", "ste\0dy"), 2, None, "1,load,29.10,24.5,ste dy", "without NUL"),
    ("unknown condition", changed("load", "idling"), 2, "condition", "idling", "zero, low idle, high idle"),
    (
        "slip in a condition",
        changed("load", "lod").replace("cond", "Cond"),
        2,
        "Condition",
        "lod",
        "the nearest is 'load'",
    ),
    ("pressure below vacuum", changed("29.08", "-29.08"), 3, "barometer [inHg]", "-29.08", "above 0"),
    ("no pressure at all", changed("29.08", "0"), 3, "barometer [inHg]", "0", "above 0"),
    (
        "below absolute zero",
        header("manifold temperature [°F]").replace(",5,", ",-460,"),
        2,
        "manifold temperature [°F]",
        "-460",
        "above 0 K",
    ),
    (
        "gauge below vacuum",
        changed("boost [psi]", "manifold pressure [psi gauge]").replace(",9.5", ",-14.9"),
        3,
        "manifold pressure [psi gauge]",
        "-14.9",
        "above 0",
    ),
    (
        "two decimal marks",
        "point;boost [psi];barometer [inHg]\n1;24,5;29.10\n",
        2,
        "barometer [inHg]",
        "29.10",
        "as in row 2, column 'boost [psi]'",
    ),
    (
        "comma of either meaning",
        "point;engine speed [rpm]\n1;1,800\n",
        2,
        "engine speed [rpm]",
        "1,800",
        "one way only",
    ),
    (
        "point of either meaning",
        "point;engine speed [rpm]\n1;1.800\n",
        2,
        "engine speed [rpm]",
        "1.800",
        "one way only",
    ),
    (
        "thousands among decimal commas",
        "point;engine speed [rpm];boost [psi]\n1;1.800;24,5\n",
        2,
        "engine speed [rpm]",
        "1.800",
        "a number in rpm",
    ),
    ("empty", "", None, None, "an empty file", "a header row"),
    ("blank", "\n\n ,,\n", None, None, "an empty file", "a header row"),
    ("header only", PLAIN.splitlines()[0], 1, None, "no readings", "a row for each reading"),
    ("header and units only", "point,boost\n,psi\n", 1, None, "no readings", "a row for each reading"),
    ("no column of the kit", "a,b\n1,2\n", 1, None, "a b", "a column of the kit"),
    ("texts only", "point,remark\n1,2\n", 1, None, "point remark", "a column of the kit"),
    ("a page of the web", "<!DOCTYPE html>\n<html></html>\n", 1, None, "<!DOCTYPE html>", "a column of the kit"),
    ("too many rows", "boost [psi]\n" + "1\n" * 5001, 1, None, "5001 readings", "at most 5,000"),
    ("far too many rows", "boost [psi]\n" + "1\n" * 9000, 5003, None, "more rows", "at most 5,000"),
    (
        "too many columns",
        "boost [psi]," + ",".join(f"c{n}" for n in range(200)) + "\n" + "1," * 200 + "1\n",
        1,
        None,
        "201 columns",
        "at most 200",
    ),
    ("too many bytes", "boost [psi]\n" + "\n" * 40_000_000, None, None, "a larger file", "at most 40,000,000 bytes"),
    ("half of UTF-16", PLAIN.encode("utf-16")[:-1], None, None, "half a letter of UTF-16", "the whole file"),
    ("UTF-16 without mark", PLAIN.encode("utf-16-le"), 1, None, None, "without NUL"),
    ("a workbook", b"PK\x03\x04rest", None, None, "a workbook (XLSX)", "plain text"),
    ("an old workbook", b"\xd0\xcf\x11\xe0rest", None, None, "a workbook (XLS)", "plain text"),
    (
        "broken UTF-8",
        PLAIN.replace("steady", "77 °F é ").encode().replace(b"\xc3\xa9", b"\xa9"),
        2,
        None,
        None,
        "one encoding",
    ),
    (
        "broken UTF-8 behind its mark",
        b"\xef\xbb\xbf" + changed("steady", "x").encode().replace(b"x", b"\xe9"),
        2,
        None,
        None,
        "one encoding",
    ),
    ("no encoding", PLAIN.encode().replace(b"steady", b"st\x81dy"), 2, None, None, "one encoding"),
]


@pytest.mark.parametrize(
    ("content", "row", "column", "found", "expected"), [case[1:] for case in BROKEN], ids=[case[0] for case in BROKEN]
)
def test_a_broken_file_is_refused_at_the_very_cell(run_folder, content, row, column, found, expected):
    folder = run_folder(content, "")
    with pytest.raises(RefusedFileError) as caught:
        read_run(folder)
    error = caught.value
    assert (error.file, error.row, error.column) == (str(folder / "readings.csv"), row, column)
    assert found is None or error.found == found
    assert expected in error.expected
    assert len(error.found) <= 40
    place = error.file + (f", row {row}" if row else "") + (f", column '{short(column)}'" if column else "")
    assert str(error) == f"{place}: found {error.found!r}, expected {error.expected}. {error.action}"
    assert "\n" not in str(error)
    assert error.action.endswith(".")


def test_both_spellings_are_offered_where_gauge_or_absolute_is_missing(run_folder):
    with pytest.raises(RefusedFileError, match=r"'kPa gauge'.*'kPa abs'"):
        read_run(run_folder(header("manifold pressure [kPa]")))


def test_a_sheet_as_long_and_as_wide_as_allowed_is_read(run_folder):
    names = ["boost [psi]"] + [f"c{number}" for number in range(199)]
    run = read_run(run_folder(",".join(names) + "\n" + ("24.5," + "," * 198 + "\n") * 5000))
    assert (len(run), len(run.unknown_columns)) == (5000, 199)


def test_two_files_of_readings_are_refused(run_folder):
    folder = run_folder()
    (folder / "readings.xlsx").write_bytes(b"x")
    with pytest.raises(RefusedFileError, match="expected one file of readings"):
        read_run(folder)


@pytest.mark.parametrize("name", ["readings.csv", "bench.toml"])
def test_a_folder_without_one_of_its_files_is_refused(run_folder, name):
    folder = run_folder()
    (folder / name).unlink()
    with pytest.raises(RefusedFileError, match=f"expected a file named {name}") as caught:
        read_run(folder)
    assert caught.value.file == str(folder / name)


def test_a_sea_level_barometer_without_elevation_refuses_the_run(run_folder):
    with pytest.raises(RefusedFileError, match=r"\[site\] elevation"):
        read_run(run_folder(PLAIN, '[site]\nbarometer = "sea-level"\n'))


def test_a_hostile_header_costs_no_time(run_folder):
    started = time.perf_counter()
    sheet, blanks = ",boost [psi]\n1,2\n", " " * 100_000
    for content in (
        '"' * 120_000,
        "a" * 130_000 + sheet,
        "[" * 100_000 + sheet,
        "a (" * 40_000,
        "_ " * 60_000 + "F\n1\n",
        f"boost [psi],x\n>{blanks}x,2\n",
        f"a{blanks}b" + sheet,
        f"a [{blanks}b" + sheet,
        "a [b]" * 20_000 + sheet,
        f"boost [psi],x\n{blanks}+{blanks}x,2\n",
        "boost;x\n" + "1,234;2\n" * 4000,
    ):
        _, refusal = attempt(read_run, run_folder(content))
        assert refusal is None or len(str(refusal)) < 500
    assert time.perf_counter() - started < 5


# Random damage


def strict_cells(raw):
    """Return (header, [(row, cells)]) by RFC 4180, blank rows left out; None where the text is not sound."""
    raw = raw.removeprefix(b"\xef\xbb\xbf")
    try:
        text = raw.decode("utf-8")
    except UnicodeDecodeError:
        text = raw.decode("cp1252")
    separator = separator_of(text)
    records, record, cell, state = [], [], "", "start"
    marks = re.findall(r"\r\n|.", text, re.DOTALL)
    for mark in marks if not marks or marks[-1][-1] in "\r\n" else [*marks, "\n"]:
        ends_row = mark[-1] in "\r\n"
        if state == "quoted":
            state, cell = ("closing", cell) if mark == '"' else (state, cell + mark)
        elif state == "closing" and mark == '"':
            state, cell = "quoted", cell + mark
        elif mark == separator or ends_row:
            record, cell, state = [*record, cell], "", "start"
            if ends_row:
                records, record = [*records, record], []
        elif state == "closing":
            return None
        elif state == "start" and mark == '"':
            state = "quoted"
        else:
            state, cell = "bare", cell + mark
    if state != "start":
        return None
    filled = [(row, cells) for row, cells in enumerate(records, 1) if "".join(cells).strip()]
    return (filled[0][1], filled[1:]) if filled else None


def separator_of(text):
    inside, seen = False, ""
    for mark in text.lstrip("\n\r ,;\t"):
        inside ^= mark == '"'
        if not inside and mark in "\r\n":
            break
        if not inside and mark in ",;\t":
            seen = seen if mark in seen else seen + mark
    return seen[:1] or ","


def damaged(raw, chance):
    """Return the bytes with one to three random injuries."""
    for _ in range(chance.randint(1, 3)):
        at, size = chance.randrange(len(raw)), chance.randint(1, 60)
        lines = raw.split(b"\n")
        kind = chance.randrange(9)
        if kind == 0:
            raw = raw[:at] + bytes([raw[at] ^ 1 << chance.randrange(8)]) + raw[at + 1 :]
        elif kind == 1:
            raw = raw[:at] + raw[at + size :]
        elif kind == 2:
            raw = raw[:at] + raw[at : at + size] * 2 + raw[at + size :]
        elif kind == 3:
            raw = raw[:at]
        elif kind == 4:
            raw = raw[:at] + chance.choice([b",", b";", b"\t", b'"', b"\n", b"\r", b"\0", b"\xff", b"."]) + raw[at:]
        elif kind == 5:
            one, other = sorted(chance.choices(range(len(lines)), k=2))
            lines[one], lines[other] = lines[other], lines[one]
            raw = b"\n".join(lines)
        elif kind == 6:
            cells = re.split(rb"([,;\t\n])", raw)
            one, other = (2 * chance.randrange((len(cells) + 1) // 2) for _ in range(2))
            cells[one], cells[other] = cells[other], cells[one]
            raw = b"".join(cells)
        elif kind == 7:
            raw = raw[:at] + bytes(chance.randrange(256) for _ in range(size % 5 + 1)) + raw[at:]
        else:
            del lines[chance.randrange(len(lines))]
            raw = b"\n".join(lines)
        raw = raw or b"\n"
    return raw


SIZES = {("boost", "psi"): 6894.757293, ("engine_speed", "rpm"): 1 / 60, ("barometer", "inHg"): 3386.38864}


def assert_same(run, raw):
    """Hold a run against the strict reading of its bytes, cell by cell, and three columns number by number."""
    header, rows = strict_cells(raw)
    named = [index for index, name in enumerate(header) if name.strip()]
    assert sorted(run.headers.values()) == sorted(header[index].strip() for index in named)
    if run.rows[0] != rows[0][0]:  # a row of units was taken up
        assert not any(re.search(r"\d{2}|^\d$", cell) for cell in rows[0][1])
        rows = rows[1:]
    assert [row for row, _ in rows] == list(run.rows)
    for column, text in run.headers.items():
        index = next(index for index in named if header[index].strip() == text)
        assert tuple(cells[index] for _, cells in rows) == run.cells[column]
        size = SIZES.get((column, run.units[column]))
        for cell, value in zip(run.cells[column], run[column], strict=True) if size else ():
            if re.fullmatch(r"-?\d+(\.\d{1,2})?", cell.strip()):
                assert value == pytest.approx(float(cell) * size, rel=1e-6)
            if not re.search(r"\d", cell):
                assert np.isnan(value)


def assert_speaks_of(refusal, path):
    assert refusal.file == str(path)
    assert refusal.found is not None
    assert refusal.expected
    assert refusal.action
    assert "\n" not in str(refusal)


@pytest.mark.parametrize("files", [pytest.param(6_000, marks=pytest.mark.long), 450])
def test_thousands_of_damaged_files_are_read_right_or_refused(run_folder, readings_text, files):
    comma = re.sub(r"(\d)\.(\d)", r"\1,\2", readings_text.replace(",", ";"))
    originals = [text.encode() for text in (readings_text, comma, readings_text.replace(",", "\t"))]
    chance, read, refused, spent = random.Random(20260312), 0, 0, 0.0
    for number in range(files):
        raw = damaged(originals[number % 3], chance)
        folder = run_folder(raw)
        before = hashlib.sha256(raw).hexdigest()
        started = time.process_time()
        run, refusal = attempt(read_run, folder)
        spent += time.process_time() - started
        if refusal:
            refused += 1
            assert_speaks_of(refusal, folder / "readings.csv")
        else:
            read += 1
            assert_same(run, raw)
        assert hashlib.sha256((folder / "readings.csv").read_bytes()).hexdigest() == before
        assert sorted(path.name for path in folder.iterdir()) == ["bench.toml", "readings.csv"]
    assert read > 0.05 * files
    assert refused > 0.5 * files
    assert spent / files < 0.05, "seconds of the processor for a file"


@pytest.mark.parametrize("benches", [pytest.param(2_000, marks=pytest.mark.long), 300])
def test_thousands_of_damaged_benches_are_read_right_or_refused(tmp_path, bench_text, benches):
    chance, path = random.Random(7), tmp_path / "bench.toml"
    for _ in range(benches):
        raw = damaged(bench_text.encode(), chance)
        path.write_bytes(raw)
        bench, refusal = attempt(read_bench, path)
        if refusal:
            assert_speaks_of(refusal, path)
        else:
            content = tomllib.loads(raw.decode("utf-8", "replace"))
            assert bench.stated == {f"{table}.{key}" for table, keys in content.items() for key in keys}
            assert set(bench.limits) == set(content.get("limits", {}))
