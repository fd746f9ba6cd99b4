"""The real command line in a process of its own: what it prints, what it writes, how it refuses."""

import csv
import json
import shutil
import subprocess
import sys

import pytest

from turbomath import __version__
from turbomath.disk import files

RUN = "generator_air_to_air"


def turbomath(*arguments, cwd):
    command = [sys.executable, "-m", "turbomath", *arguments]
    return subprocess.run(command, capture_output=True, encoding="utf-8", cwd=cwd, timeout=120)


@pytest.fixture
def own_run(tmp_path):
    """A copy of a shipped run with one text replaced in readings.csv or bench.toml."""

    def make(file, old, new):
        folder = tmp_path / "own run"
        shutil.copytree(files.shipped("data") / RUN, folder, dirs_exist_ok=True)
        text = (folder / file).read_text(encoding="utf-8")
        assert old in text
        (folder / file).write_text(text.replace(old, new, 1), encoding="utf-8")
        return folder

    return make


def test_report_prints_measured_theoretical_and_difference_for_each_load_step(tmp_path):
    done = turbomath("report", RUN, cwd=tmp_path)
    assert done.returncode == 0, done.stderr
    assert done.stderr == ""
    assert "INVENTED" in done.stdout
    assert done.stdout.index("limit was passed") < done.stdout.index("Charge gain")
    rows = [line.split() for line in done.stdout.splitlines() if line.split()[1:2] == ["load"]]
    assert len(rows) == 6
    assert all(row.count("±") == 3 and row[-1] == "yes" for row in rows)


def test_report_writes_reduced_csv_for_a_spreadsheet(tmp_path):
    turbomath("report", RUN, cwd=tmp_path)
    path = tmp_path / f"{RUN}-report" / "reduced.csv"
    assert path.read_bytes().startswith(b"\xef\xbb\xbf")
    with path.open(encoding="utf-8-sig", newline="") as stream:
        head, *rows = csv.reader(stream)
    assert head[:4] == ["point", "condition", "pressure ratio [-]", "pressure ratio ± [-]"]
    assert head[-1] == "agree"
    for wanted in (
        "measured charge gain [%]",
        "theoretical charge gain ± [%]",
        "charge gain difference [%]",
        "ideal outlet temperature ± [F°]",
        "manifold density [lb/ft³]",
        "air flow [lb/min]",
    ):
        assert wanted in head
    assert len(rows) == 9
    assert set(rows[0][2:]) == {""}  # the engine was off
    full_load = dict(zip(head, rows[7], strict=True))
    assert float(full_load["measured charge gain [%]"]) == pytest.approx(
        144, abs=5
    )  # reference case 144.3, INVENTED gauges
    assert full_load["agree"] == "yes"


def test_si_units_show_the_same_case(tmp_path):
    for system in ("us", "si"):
        assert turbomath("report", RUN, "--units", system, "--out", system, cwd=tmp_path).returncode == 0

    def column(system, name):
        with (tmp_path / system / "reduced.csv").open(encoding="utf-8-sig", newline="") as stream:
            return [float(row[name]) for row in csv.DictReader(stream) if row[name]]

    pairs = zip(column("us", "ambient density [lb/ft³]"), column("si", "ambient density [kg/m³]"), strict=True)
    assert all(us * 16.01846 == pytest.approx(si, rel=1e-5) for us, si in pairs)  # NIST SP 811, B.8
    pairs = zip(
        column("us", "ideal outlet temperature ± [F°]"), column("si", "ideal outlet temperature ± [K]"), strict=True
    )
    assert all(us / 1.8 == pytest.approx(si, rel=1e-5) for us, si in pairs)


@pytest.mark.parametrize(
    ("file", "old", "new", "said"),
    [
        ("readings.csv", "boost [psi]", "boost [furlong]", ["readings.csv, row 1, column 'boost [furlong]'", "psi"]),
        ("readings.csv", "boost [psi]", "boost [°F]", ["row 1, column 'boost [°F]'", "psi"]),
        ("readings.csv", ",24.0,", ",twenty,", ["row 9, column 'boost [psi]': found 'twenty'", "a number"]),
        (
            "readings.csv",
            "boost [psi]",
            "compressor outlet pressure [psi]",
            ["row 1, column 'compressor outlet pressure [psi]'", "psi gauge", "psi abs"],
        ),
        ("readings.csv", "boost [psi]", "bost [psi]", ["row 1, column 'bost [psi]'", "boost"]),
        ("bench.toml", "displacement", "displacment", ["bench.toml", "displacment", "displacement"]),
    ],
)
def test_a_bad_file_is_refused_in_one_sentence(own_run, tmp_path, file, old, new, said):
    folder = own_run(file, old, new)
    before = {path.name: path.read_bytes() for path in folder.iterdir()}
    done = turbomath("report", str(folder), cwd=tmp_path)
    assert done.returncode == 1
    assert done.stdout == ""
    assert len(done.stderr.splitlines()) == 1
    for words in ("found", "expected", *said):
        assert words in done.stderr
    assert {path.name: path.read_bytes() for path in folder.iterdir()} == before
    assert not list(tmp_path.glob("*-report"))


def test_a_missing_folder_is_refused_with_the_shipped_runs(tmp_path):
    done = turbomath("report", "generator_air_to_ar", cwd=tmp_path)
    assert done.returncode == 1
    assert len(done.stderr.splitlines()) == 1
    assert "generator_air_to_ar" in done.stderr
    assert f"'{RUN}'" in done.stderr


def test_a_report_never_goes_inside_the_run(own_run, tmp_path):
    folder = own_run("bench.toml", "Generator", "Another generator")
    done = turbomath("report", str(folder), "--out", str(folder / "report"), cwd=tmp_path)
    assert done.returncode == 1
    assert "--out" in done.stderr
    assert sorted(path.name for path in folder.iterdir()) == ["bench.toml", "readings.csv"]


def test_a_folder_that_cannot_be_written_is_refused_in_one_sentence(tmp_path):
    (tmp_path / "taken").write_text("a file", encoding="utf-8")
    done = turbomath("report", RUN, "--out", str(tmp_path / "taken"), cwd=tmp_path)
    assert done.returncode == 1
    assert len(done.stderr.splitlines()) == 1
    assert (tmp_path / "taken").read_text(encoding="utf-8") == "a file"


def test_wrong_usage_is_two_and_help_lists_what_works(tmp_path):
    assert turbomath("report", cwd=tmp_path).returncode == 2
    assert turbomath("reprot", RUN, cwd=tmp_path).returncode == 2
    shown = turbomath("--help", cwd=tmp_path)
    assert shown.returncode == 0
    assert "report" in shown.stdout
    for command in ("report", "check", "new", "lessons", "homework", "self-check"):
        assert command in shown.stdout
    assert "offline-kit" not in shown.stdout  # nothing is listed before it works
    assert turbomath("--version", cwd=tmp_path).stdout.strip() == f"turbomath {__version__}"


def test_new_makes_a_folder_that_asks_for_readings(tmp_path):
    assert turbomath("new", "Prüf lauf", "--aftercooler", "none", cwd=tmp_path).returncode == 0
    done = turbomath("report", "Prüf lauf", cwd=tmp_path)
    assert done.returncode == 1
    assert "no readings" in done.stderr
    assert turbomath("new", "Prüf lauf", cwd=tmp_path).returncode == 1


def test_self_check_passes_here(tmp_path):
    done = turbomath("self-check", "--json", cwd=tmp_path)
    assert done.returncode == 0, done.stdout
    found = json.loads(done.stdout)
    assert found["version"] == __version__
    assert found["passed"]
    assert all(set(check) == {"name", "passed", "detail"} for check in found["checks"])


def test_sheet_writes_a_blank_page_beside_where_you_are_and_refuses_in_one_sentence(tmp_path):
    done = turbomath("sheet", RUN, cwd=tmp_path)
    assert done.returncode == 0, done.stderr
    assert "Stop at once for" in (tmp_path / f"{RUN}-sheet.html").read_text(encoding="utf-8")
    refused = turbomath("sheet", "nowhere", cwd=tmp_path)
    assert (refused.returncode, refused.stdout) == (1, "")
    assert refused.stderr.count("\n") == 1
    assert "found 'no such folder'" in refused.stderr


def test_homework_lists_what_an_instructor_can_do_with_a_class(tmp_path):
    shown = turbomath("homework", "--help", cwd=tmp_path).stdout
    for task in ("question", "sheet", "mark", "gradebook", "sample", "forget"):
        assert f"\n    {task}" in shown
