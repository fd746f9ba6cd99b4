"""What a report has for its reader, and the records that stand a year later. All runs are INVENTED."""

import csv
import hashlib
import re
import shutil

import pytest

from tests.command_line import process, turbomath
from turbomath import OutOfRangeError, __version__
from turbomath.disk import files
from turbomath.disk.journal import Journal
from turbomath.lab.reduction.reduce import reduce_run
from turbomath.lab.report import for_whom, records
from turbomath.lab.report.folder import write
from turbomath.lab.run.readings import read_run
from turbomath.table import constants
from turbomath.table.errors import TurbomathError

AIR, NONE = "generator_air_to_air", "generator_no_aftercooler"
HOSTILE = ('=HYPERLINK("http://x")', "<script>alert(1)</script>", "../../etc/passwd", "+1+1", "@SUM(A1)", "-2+3|cmd")


@pytest.fixture(scope="module")
def reduced():
    return reduce_run(read_run(AIR))


@pytest.fixture
def shop(tmp_path):
    """Return a folder with two runs, one of them a term down, and one folder that cannot be read."""
    for name, run in (("term 1/air é", AIR), ("none", NONE), ("broken", AIR)):
        shutil.copytree(files.shipped("data") / run, tmp_path / name)
    (tmp_path / "broken" / "readings.csv").write_text("point,boost [psi]\n1,many\n", encoding="utf-8")
    return tmp_path


def page(reduced, folder, reader):
    return write(reduced, folder, "us", reader=reader)[0].read_text(encoding="utf-8")


@pytest.mark.usefixtures("one_way")
def test_a_student_finds_boxes_to_write_in_and_one_point_worked_in_full(reduced, tmp_path):
    text = page(reduced, tmp_path, "student")
    for head, _ in for_whom.BOXES:
        assert f"<h3>{head}</h3>" in text
    assert text.count('class="working"') == len(for_whom.BOXES)
    assert "Point 7, worked by hand" in text
    assert text.index("Write the first box before you look") < text.index("Measured and theoretical gain")
    assert "Rubric" not in text


@pytest.mark.usefixtures("one_way")
def test_an_instructor_finds_rubric_sign_off_and_the_room(reduced, tmp_path):
    text = page(reduced, tmp_path, "instructor")
    assert "Rubric for the lab report" in text
    assert sum(points for _, points in for_whom.RUBRIC) == 100
    for word in ("performed", "observed", "simulated", "seat codes, no names"):
        assert word in text
    assert re.search(r"10 lb in 1,770 ft³</th><td>4\.7 %</td><td>20\.0 %", text)
    assert "no procedure" in text
    assert "40,000 ppm" in text
    assert 'class="working"' not in text
    plain = text.replace("\xa0", " ")
    # by hand: 63.2 lb/min at 775 °F and 29.09 + 2.3 inHg, R = 287.05 J/(kg K); 8.3145 J/(mol K), 44.01 g/mol
    kelvin, pascal, cubic_foot = (775 + 459.67) / 1.8, (29.09 + 2.3) * 3386.389, 0.3048**3
    hose = float(re.search(r"has to carry (\d+) cfm at 775 °F \(63\.2 lb/min\)", plain)[1])
    assert hose == pytest.approx(63.2 * 0.45359237 * 287.05 * kelvin / pascal / cubic_foot, rel=0.005)
    drawn_in, seconds = re.search(r"draws in ([\d.]+) cfm.* in (\d+) seconds", plain).groups()
    gas = 10 * 0.45359237 / 0.04401 * 8.3145 * 298.15 / (29.09 * 3386.389)
    assert float(seconds) == pytest.approx(gas / (float(drawn_in) * cubic_foot / 60), abs=0.5)


@pytest.mark.usefixtures("one_way")
def test_a_plain_report_has_neither(reduced, tmp_path):
    text = page(reduced, tmp_path, "")
    assert "In your own words" not in text
    assert "For the instructor" not in text
    with pytest.raises(OutOfRangeError, match="reader"):
        page(reduced, tmp_path, "parent")


@pytest.mark.usefixtures("one_way")
def test_a_report_says_from_which_files_it_was_made(shop):
    folder = shop / "term 1" / "air é"
    Journal(folder / "readings.journal").append({"note": "anything"})
    text = page(reduce_run(read_run(folder)), shop / "out", "")
    for name in ("bench.toml", "readings.csv", "readings.journal"):
        assert f"{name} {hashlib.sha256((folder / name).read_bytes()).hexdigest()[:16]}" in text
    assert f"turbomath {__version__}" in text
    assert f"edition {constants.EDITION}" in text


def test_a_faulty_gauge_lists_the_runs_it_touched_and_no_others(shop):
    touched, unread, _ = records.note_instrument(shop, "Cooler pressure loss", "reads 0.4 psi high")
    assert touched == ["term 1/air é"], "the engine without aftercooler has no such gauge"
    assert len(unread) == 1
    assert "found 'many'" in unread[0]
    touched, _, (journal, table) = records.note_instrument(shop, "boost", "pointer bent")
    assert touched == ["none", "term 1/air é"]
    assert [one["instrument"] for one in Journal(journal).read()[0]] == ["cooler_pressure_loss", "boost"]
    rows = list(csv.DictReader(table.open(encoding="utf-8-sig", newline="")))
    assert len(rows) == 3
    assert rows[0]["calibrated"] == "2025-11-03"
    assert rows[0]["points"].startswith("0, 1, 2")


@pytest.mark.parametrize(
    ("instrument", "note", "words"),
    [
        ("bost", "bent", "--instrument"),
        ("boost", "  ", "--note"),
        ("turbine outlet pressure", "x", "--instrument"),
        ("air volume flow", "x", "no run with a reading"),
    ],
)
def test_a_note_that_says_nothing_or_touches_nothing_is_refused_and_nothing_is_written(shop, instrument, note, words):
    with pytest.raises(TurbomathError, match=words):
        records.note_instrument(shop, instrument, note)
    assert not (shop / records.NOTES).exists()


@pytest.mark.parametrize("note", HOSTILE)
def test_a_note_is_harmless_in_a_spreadsheet_and_whole_in_the_journal(shop, note):
    _, _, (journal, table) = records.note_instrument(shop, "boost", note)
    assert Journal(journal).read()[0][0]["note"] == note
    for row in csv.DictReader(table.open(encoding="utf-8-sig", newline="")):
        assert not row["note"].startswith(("=", "+", "-", "@"))
        assert row["note"].removeprefix("'") == note


@pytest.mark.usefixtures("one_way")
def test_the_command_line(shop):
    def run(*words):
        return turbomath(*words, cwd=shop)

    done = run("report", "none", "--for", "instructor", "--out", "made")
    assert done.returncode == 0, done.stderr
    assert "Rubric" in (shop / "made" / "report.html").read_text(encoding="utf-8")
    assert run("report", "none", "--for", "parent").returncode == 2
    done = run("instrument-note", ".", "--instrument", "boost", "--note", "reads high")
    assert "Read with it: none, term 1/air é" in done.stdout
    done = run("instrument-note", "nowhere", "--instrument", "boost", "--note", "reads high")
    assert (done.returncode, done.stdout) == (1, "")
    assert len(done.stderr.strip().splitlines()) == 1


@pytest.mark.process
def test_readings_that_cannot_be_bring_no_python_warning_to_the_screen(shop):
    sheet = shop / "none" / "readings.csv"
    hot = sheet.read_text(encoding="utf-8").replace("1800,29.09,77,", "1800,29.09,770,")
    assert hot.count("29.09,770,") == 6
    sheet.write_text(hot, encoding="utf-8")
    for more in ((), ("--for", "student"), ("--work", "7")):
        done = process("report", "none", *more, cwd=shop)
        assert (done.returncode, done.stderr) == (0, "")
