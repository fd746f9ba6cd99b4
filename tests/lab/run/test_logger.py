"""What loggers write is read as it stands, by what [logger] says once, or refused with its place. All files INVENTED.

The habits are those of real loggers' files: lines before the head, a row of units, marker rows, decimal comma,
separators at the end of lines, numbers that mean none, a torn last line. What a file holds is told here by hand.
"""

import csv
import io
import random

import numpy as np
import pytest

from tests.lab.damage import damaged
from tests.lab.run.logged import log
from turbomath import units
from turbomath.lab.run.bench import read_bench
from turbomath.lab.run.logger import Logger
from turbomath.lab.run.logger_file import read_log
from turbomath.lab.run.readings import read_run
from turbomath.table.errors import RefusedFileError

BOOST = {"time": ("time", "s"), "boost": ("Boost", "psi"), "oil_pressure": ("Oil", "psi")}
SECONDS = (
    "Session: 4,,,,,\ntime,rpm,EGT,Oil,Boost,\n(sec),(RPM),(degC),(PSI),(PSI),\n"
    "0.000,1798,402,48.0,11.9,\n0.082,1801,402,48.1,12.0,\n"
)
SCAN = (
    "Scan;Time;101 (C);Alarm 101;102 (C);Alarm 102\n1;26/03/2026 10:41:07:250;24,96;0;-9,9E+37;1\n"
    "2;26/03/2026 10:41:10:250;118,42;0;63,10;0\n"
)
TITLED = (
    '"Title: stand 2",\n"#","Date Time, GMT-06:00","Temp, °F (ser 1)","Abs Pres, kPa (ser 1)","Stopped"\n'
    "1,2026-03-26T10:41:07-06:00,77.09,98.55,\n2,2026-03-26T10:41:08-06:00,,,Logged\n"
)


@pytest.fixture
def read(tmp_path):
    def sheet(text, logger):
        (tmp_path / "log.csv").write_bytes(text.encode() if isinstance(text, str) else text)
        return read_log(tmp_path / "log.csv", logger)

    return sheet


def test_a_preamble_a_row_of_units_and_separators_at_the_end_are_no_readings(read):
    found = read(SECONDS, Logger(BOOST))
    assert found.header == ("time [s]", "boost [psi]", "oil pressure [psi]")
    assert found.rows == ((4, ("0.000", "11.9", "48.0")), (5, ("0.082", "12.0", "48.1")))
    assert found.notes == ()


def test_a_decimal_comma_and_a_number_that_means_none(read):
    columns = {"ambient_temperature": ("101 (C)", "°C"), "manifold_temperature": ("102 (C)", "°C")}
    found = read(SCAN, Logger(columns, ","))
    assert [cells for _, cells in found.rows] == [("24.96", ""), ("118.42", "63.10")]
    assert "1 cells hold a number by which a logger means none" in found.notes[0].reason


def test_quoted_heads_with_commas_and_marker_rows(read):
    columns = {"time": ("Date Time, GMT-06:00", ""), "barometer": ("Abs Pres, kPa (ser 1)", "kPa")}
    found = read(TITLED, Logger(columns))
    assert [cells for _, cells in found.rows] == [
        ("2026-03-26T10:41:07-06:00", "98.55"),
        ("2026-03-26T10:41:08-06:00", ""),
    ]


@pytest.mark.parametrize("encode", [str.encode, lambda text: text.encode("cp1252"), lambda text: text.encode("utf-16")])
@pytest.mark.parametrize("end", ["\n", "\r\n", "\r"])
def test_line_ends_and_encodings(read, encode, end):
    columns = {"ambient_temperature": ("Temp, °F (ser 1)", "°F")}
    assert read(encode(TITLED.replace("\n", end)), Logger(columns)).rows[0][1] == ("77.09",)


GLUED = "time,P2,T3\n0 s,14.5psi,77°F\n1,15 PSI,78 degF\n2,,79\n"
GLUED_COLUMNS = {"time": ("time", "s"), "boost": ("P2", "psi"), "manifold_temperature": ("T3", "°F")}


def test_a_unit_behind_a_number_is_the_columns_or_refused(read):
    rows = [("0", "14.5", "77"), ("1", "15", "78"), ("2", "", "79")]
    assert [cells for _, cells in read(GLUED, Logger(GLUED_COLUMNS)).rows] == rows
    comma = GLUED.replace(",", ";").replace("14.5", "14,5")
    assert [cells for _, cells in read(comma, Logger(GLUED_COLUMNS, ",")).rows] == rows
    blanks = "time P2 T3\n0   14.5psi  77°F\n1 15PSI 78degF\n"
    assert [cells for _, cells in read(blanks, Logger(GLUED_COLUMNS, ".", "blanks")).rows] == rows[:2]
    gauge = Logger({"compressor_outlet_pressure": ("P2", "psi gauge")})
    assert read(GLUED, gauge).rows[0][1] == ("14.5",)
    for text, logger in (
        (GLUED.replace("15 PSI", "103kPa"), Logger(GLUED_COLUMNS)),
        (GLUED.replace("78 degF", "25C"), Logger(GLUED_COLUMNS)),
        (GLUED.replace("15 PSI", "15 psia"), gauge),
        (SECONDS.replace("11.9", "11.9 volts"), Logger(BOOST)),
        (SECONDS.replace("(PSI),(PSI)", "(PSI),(kPa)"), Logger(BOOST)),  # in a row of units
    ):
        with pytest.raises(RefusedFileError, match="One of the two is wrong") as refusal:
            read(text, logger)
        assert "row " in str(refusal.value)
        assert len(str(refusal.value).splitlines()) == 1


def test_a_torn_last_line_is_left_out_and_said(read):
    found = read(SECONDS + "0.164,1802,402,48.2,12", Logger(BOOST))
    assert len(found.rows) == 2
    assert "not ended" in found.notes[0].reason


def test_a_row_that_lost_a_cell_is_left_out_by_its_number_and_never_shifted(read):
    found = read(SECONDS + "0.164,1802,48.2,12.1\n0.246,1802,402,48.2,12.1,\n", Logger(BOOST))
    assert [row for row, _ in found.rows] == [4, 5, 7]
    assert "row 6 had 4 cells for 6 heads" in found.notes[0].reason


@pytest.mark.parametrize(
    ("text", "columns", "words"),
    [
        (SECONDS, {"boost": ("Boost pressure", "psi")}, "a row with the heads Boost pressure"),
        ("a,b\n1,2\n", {}, "a row with names of the kit"),
        (SECONDS.replace("Oil", "Boost"), BOOST | {"oil_pressure": ("rpm", "psi")}, "two columns of that name"),
        ("time,rpm,EGT,Oil,Boost\n", BOOST, "no rows below the head"),
    ],
)
def test_what_cannot_be_known_is_asked_in_one_sentence(read, text, columns, words):
    with pytest.raises(RefusedFileError) as refusal:
        read(text, Logger(columns))
    assert words in str(refusal.value)
    assert "\n" not in str(refusal.value)


TABLE = '[logger]\ndecimal = ","\nmissing = ["OPEN"]\n[logger.columns]\nboost = { head = "P2", unit = "psi" }\n'


def test_the_table_of_the_bench_is_read_and_each_slip_is_refused(tmp_path):
    path = tmp_path / "bench.toml"
    path.write_text(TABLE, encoding="utf-8")
    assert read_bench(path).logger == Logger({"boost": ("P2", "psi")}, ",", "", ("OPEN",))
    for old, new, words in (
        ('","', '";"', 'one of ".", ","'),
        ("boost =", "bost =", "the nearest is 'boost'"),
        (', unit = "psi"', "", "unit as well"),
        ("head =", "hed =", "the nearest is 'head'"),
        ('["OPEN"]', '"OPEN"', "a list of texts"),
    ):
        path.write_text(TABLE.replace(old, new, 1), encoding="utf-8")
        with pytest.raises(RefusedFileError) as refusal:
            read_bench(path)
        assert words in str(refusal.value)


@pytest.fixture(scope="module")
def strange():
    """A log of five loads held, in another's names, units and marks; the same as readings.csv has it."""
    text, _ = log(1500, 2.0)
    rows = list(csv.reader(io.StringIO(text)))
    lines = ["stand 2;INVENTED", "n;" + ";".join(f"K{turn}" for turn in range(len(rows[0])))]
    lines += [";".join([str(turn), *(cell.replace(".", ",") for cell in row)]) for turn, row in enumerate(rows[1:])]
    heads = {name.split(" [")[0].replace(" ", "_"): name.split("[")[1].strip("]") for name in rows[0]}
    columns = "".join(
        f'{name} = {{ head = "K{turn}", unit = "{unit}" }}\n' for turn, (name, unit) in enumerate(heads.items())
    )
    return text, "\n".join(lines) + "\n", f'[logger]\ndecimal = ","\n[logger.columns]\n{columns}'


def test_a_log_in_anothers_names_gives_the_points_of_the_same_readings_csv(strange, run_folder, bench_text, tmp_path):
    ours, theirs, table = strange
    plain = read_run(run_folder(ours, bench_text))
    (tmp_path / "log of today.csv").write_text(theirs, encoding="utf-8")
    found = read_run(run_folder(ours, bench_text + table), tmp_path / "log of today.csv")
    assert found.name == "log of today"
    assert found.bench.run.invented
    for name in ("boost", "manifold_temperature", "barometer"):
        assert found[name] == pytest.approx(plain[name], rel=1e-12)
    some = read_run(run_folder(ours, bench_text + table), tmp_path / "log of today.csv", [2, 4])
    assert some.points == ("2", "4")
    assert some["boost"] == pytest.approx(plain["boost"][[1, 3]], rel=1e-12)
    with pytest.raises(RefusedFileError, match="numbers from 1 to 5"):
        read_run(run_folder(ours, bench_text + table), tmp_path / "log of today.csv", [9])


@pytest.mark.parametrize("trials", [300, pytest.param(3_000, marks=pytest.mark.long)])
def test_a_damaged_log_is_read_as_it_stands_or_refused(read, trials):
    """Each number that is read stands in the file, in its own row, below the head of its column; split here by hand."""
    whole = "".join(f"{turn},1800,402,{48 + turn % 5}.5,{11 + turn % 7}.25,\n" for turn in range(20))
    whole, chance, seen = ("Session: 4,,,,,\ntime,rpm,EGT,Oil,Boost,\n" + whole).encode(), random.Random(22), 0
    for _ in range(trials):
        raw = damaged(whole, chance)
        try:
            found = read(raw, Logger(BOOST))
        except RefusedFileError:
            continue
        seen += 1
        lines = raw.decode("utf-8", "replace").replace("\r\n", "\n").replace("\r", "\n").replace("\0", "").split("\n")
        heads = [cell.strip().casefold() for cell in lines[found.place.row - 1].split(",")]
        for row, read_cells in found.rows:
            if raw.isascii() and '"' not in lines[row - 1] + lines[found.place.row - 1]:
                cells = [cell.strip() for cell in lines[row - 1].split(",")]
                there = [cells[heads.index(head)] for head in ("time", "boost", "oil")]
                assert [one for one in read_cells if one] == [one for one in there if one not in ("", "-", "--")]
    assert seen > trials / 2


@pytest.mark.parametrize(
    ("cells", "seconds"),
    [
        (["2026-03-26T10:41:07-06:00", "2026-03-26T16:41:08Z"], [0, 1]),
        (["2026-03-26 23:59:59,5", "2026-03-27 00:00:00,5"], [0, 1]),
        (["10:41:07:250", "10:41:08:250"], [38467.25, 38468.25]),
        (["23:59:59", "00:00:01"], [86399, 86401]),
        (["11:59:59 AM", "12:00:01 pm", "1:00:00 p.m."], [43199, 43201, 46800]),
        (["11:59:59PM", "12:00:01AM"], [86399, 86401]),
        (["03/26/26 10:41:07 AM", "03/26/26 10:41:08 AM"], [38467, 38468]),
        (["26.03.2026 23:59:59", "27.03.2026 00:00:01", "29.03.2026 00:00:02"], [86399, 86401, 172802]),
        (["26-Mar-2026, 10:41:07", "27-Mar-2026, 10:41:08"], [38467, 124868]),
    ],
)
def test_time_stamps_with_and_without_zone_and_past_midnight(cells, seconds):
    from turbomath.lab.run.log_time import seconds as read_time

    assert np.allclose(read_time(cells, ""), seconds)
    assert read_time([*cells, "noon"], "") is None
    for odd in (["13:00:00 PM"], ["0:10:00 AM"], ["10:41:07 AM", "10:41:08"], ["26/03/2026 23:59", "26/03/2026 00:01"]):
        assert read_time(odd, "") is None, odd
    assert read_time(["2026-03-26T10:41:07-06:00", "2026-03-26T10:41:08"], "") is None, "which hour is meant"


def test_gauge_and_absolute_are_said_in_the_unit_and_asked_for(run_folder, bench_text, strange, tmp_path):
    ours, theirs, table = strange
    (tmp_path / "log.csv").write_text(theirs, encoding="utf-8")
    said = table.replace('boost = { head = "K6", unit = "psi" }', 'manifold_pressure = { head = "K6", unit = "psi" }')
    with pytest.raises(RefusedFileError, match="psi gauge"):
        read_run(run_folder(ours, bench_text + said), tmp_path / "log.csv")
    gauge = said.replace('"K6", unit = "psi"', '"K6", unit = "psi gauge"')
    found = read_run(run_folder(ours, bench_text + gauge), tmp_path / "log.csv")
    boost = units.from_si(found["manifold_pressure"] - found.station_pressure, "psi", "boost")
    assert boost[3] == pytest.approx(24.0, abs=0.05)
