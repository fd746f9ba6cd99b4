"""The command line: what it prints, what it writes, how it refuses; and each command once as a real process."""

import csv
import json
import os
import shlex
import shutil
import subprocess
import sys

import pytest

from tests.command_line import process, turbomath
from turbomath import __version__
from turbomath.disk import files
from turbomath.lab.run import readings

RUN = "generator_air_to_air"


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


@pytest.fixture(scope="module")
def reported(tmp_path_factory):
    """(folder it was called in, how it ended) of one report in each system of units."""
    found = {}
    for system in ("us", "si"):
        folder = tmp_path_factory.mktemp(system)
        found[system] = folder, turbomath("report", RUN, "--units", system, cwd=folder)
    return found


def test_report_prints_measured_theoretical_and_difference_for_each_load_step(reported):
    _, done = reported["us"]
    assert done.returncode == 0, done.stderr
    assert done.stderr == ""
    assert "INVENTED" in done.stdout
    assert done.stdout.index("limit was passed") < done.stdout.index("Charge gain")
    rows = [line.split() for line in done.stdout.splitlines() if line.split()[1:2] == ["load"]]
    assert len(rows) == 6
    assert all(row.count("±") == 3 and row[-1] == "yes" for row in rows)


def test_report_writes_reduced_csv_for_a_spreadsheet(reported):
    path = reported["us"][0] / f"{RUN}-report" / "reduced.csv"
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
    gain = float(full_load["measured charge gain [%]"])
    assert gain == pytest.approx(144, abs=5)  # reference case 144.3, INVENTED gauges
    assert full_load["agree"] == "yes"


def test_si_units_show_the_same_case(reported):
    assert [done.returncode for _, done in reported.values()] == [0, 0]

    def column(system, name):
        with (reported[system][0] / f"{RUN}-report" / "reduced.csv").open(encoding="utf-8-sig", newline="") as stream:
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
    for command in ("report", "check", "new", "lessons", "homework", "self-check", "offline-kit"):
        assert command in shown.stdout
    assert turbomath("--version", cwd=tmp_path).stdout.strip() == f"turbomath {__version__}"


def test_what_is_to_be_presented_must_be_named(tmp_path):
    done = turbomath("lessons", "--present", "--no-browser", cwd=tmp_path)
    assert done.returncode == 1
    assert done.stderr.strip() == ("Which lesson is to be presented? Name it, such as: turbomath lessons 03 --present")


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


# A notebook, a test or a program that calls the command line may have any text stream in place of the console


def test_a_command_can_be_called_from_a_program_whose_streams_hold_plain_text(tmp_path):
    done = turbomath("new", "a run", cwd=tmp_path)  # both streams are io.StringIO, which no one can reconfigure
    assert (done.returncode, done.stderr) == (0, "")
    assert "Fill in bench.toml" in done.stdout
    refused = turbomath("report", "a run", cwd=tmp_path)
    assert (refused.returncode, refused.stdout) == (1, "")
    assert refused.stderr.count("\n") == 1


# Each command once in a process of its own: it prints to the letter what it prints when called here

COMMANDS = {
    "report": ("report", RUN, "--out", "out"),
    "check": ("check", RUN),
    "work": ("report", RUN, "--work", "7"),
    "new": ("new", "Prüf lauf"),
    "sheet": ("sheet", RUN),
    "pool": ("pool", "one", "two"),
    "trend": ("trend", "one", "two"),
    "instrument-note": ("instrument-note", ".", "--instrument", "boost", "--note", "pointer bent"),
    "faults": ("faults", "faults/exhaust_leak", "--baseline", "faults/sound"),
    "homework": ("homework", "question"),
    "self-check": ("self-check", "--json"),
    "refused": ("report", "nowhere"),
    "wrong usage": ("reprot", RUN),
    "version": ("--version",),
}


def test_ctrl_c_ends_a_command_in_one_line(tmp_path, monkeypatch):
    monkeypatch.setattr(readings, "read_run", lambda _name: (_ for _ in ()).throw(KeyboardInterrupt))
    done = turbomath("report", "generator_air_to_air", cwd=tmp_path)
    assert (done.returncode, done.stdout) == (130, "")
    assert done.stderr == "Stopped. What was not written by then is as it was before.\n"


@pytest.mark.process
@pytest.mark.skipif(os.name == "nt", reason="NOT TRIED: Windows has no such pipe")
@pytest.mark.parametrize(
    ("end", "code", "said"), [("| head -1", 0, ""), (">&-", 0, ""), ("> /dev/full", 1, "No space left")]
)
def test_a_pipe_that_closes_no_output_at_all_and_a_full_disk_end_in_peace(tmp_path, end, code, said):
    shell = f"set -o pipefail; {shlex.quote(sys.executable)} -m turbomath check generator_air_to_air {end}"
    done = subprocess.run(["bash", "-c", shell], cwd=tmp_path, capture_output=True, text=True, timeout=120)
    assert done.returncode == code
    assert done.stderr.startswith(said)
    assert done.stderr.count("\n") == (1 if said else 0)


@pytest.mark.process
@pytest.mark.parametrize("name", COMMANDS)
def test_a_real_process_prints_and_writes_the_same(name, tmp_path):
    ended = {}
    for way in (turbomath, process):
        here = tmp_path / way.__name__
        for run in ("one", "two"):
            shutil.copytree(files.shipped("data") / RUN, here / run)
        done = way(*COMMANDS[name], cwd=here)
        written = sorted(path.relative_to(here).as_posix() for path in here.rglob("*") if path.is_file())
        ended[way] = done.returncode, *(text.replace(str(here), "") for text in done[1:]), written
    assert ended[process] == ended[turbomath]
    assert ended[process][0] == {"refused": 1, "wrong usage": 2}.get(name, 0)
