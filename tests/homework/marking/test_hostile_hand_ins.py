"""Nothing that a student sends is run, and nobody else's marks suffer: a whole class of hostile hand-ins, marked once.

A hook on Python's own audit events (PEP 578) watches the marking: no process, no connection, no import, no code made
from text, and nothing written outside the folder of the class.
"""

import json
import re
import subprocess
import sys

import pytest

from tests.homework.a_class import as_csv, begun, hand_in, read, right_rows
from tests.homework.command import homework
from tests.homework.marking.hostile import HOSTILE, TOUCH

GOOD = "GOOD"
SEATS = {f"H{number:02}": name for number, name in enumerate(HOSTILE)}
BAIT = "question,part,answer,unit,remark\nmanifold_pressure_from_boost,,BAIT,,\n"
WATCHED = """
import json, os, sys
from turbomath import cli

warm, folder = sys.argv[1:]
seen, watching = [], False
WRITES = os.O_WRONLY | os.O_RDWR | os.O_CREAT | os.O_TRUNC | os.O_APPEND
RUNS = ("subprocess.", "os.system", "os.exec", "os.fork", "os.posix_spawn", "os.spawn", "pty.", "socket.", "urllib.",
        "ctypes.", "pickle.", "marshal.", "import", "exec", "compile", "webbrowser.", "ftplib.", "smtplib.", "shutil.")
CHANGES = ("os.rename", "os.remove", "os.mkdir", "os.rmdir", "os.link", "os.symlink", "os.chmod", "os.truncate")

def outside(path):
    path, inside = os.path.realpath(os.fsdecode(path)), os.path.realpath(folder)
    return path != inside and not path.startswith(inside + os.sep)

def hook(event, args):
    if not watching:
        return
    if event.startswith(RUNS) and event != "shutil.copyfile":
        seen.append([event, repr(args)[:200]])
    elif event == "open" and isinstance(args[0], (str, bytes)) and (args[2] or 0) & WRITES and outside(args[0]):
        seen.append([event, repr(args)[:200]])
    elif event in CHANGES and any(outside(one) for one in args if isinstance(one, (str, bytes, os.PathLike))):
        seen.append([event, repr(args)[:200]])

sys.addaudithook(hook)
code = cli.main(["homework", "gradebook", warm])
watching = True
if sys.argv[0].endswith("proof.py"):
    open(os.path.join(os.path.dirname(warm), "elsewhere"), "w").close()
    os.system("true")
code = cli.main(["homework", "gradebook", folder])
watching = False
print("\\n" + json.dumps({"code": code, "seen": seen}))
"""


def run_watched(place, script, warm, folder):
    path = place / script
    path.write_text(WATCHED, encoding="utf-8")
    command = [sys.executable, str(path), str(warm), str(folder)]
    done = subprocess.run(command, capture_output=True, encoding="utf-8", cwd=folder, timeout=300)
    assert done.returncode == 0, done.stderr
    return done, json.loads(done.stdout.rpartition("\n{")[2].join(["{", ""]))


def hostile_class(tmp_path_factory):
    """Return the `Course` of a class of hostile hand-ins and one good one, and the files that links in it lead to."""
    place, outside = tmp_path_factory.mktemp("hostile"), tmp_path_factory.mktemp("outside")
    for name in ("answers.csv", "answers.json"):
        (outside / name).write_text(BAIT, encoding="utf-8")
    course = begun(place, seats=(GOOD, *SEATS), head="worked = true")
    hand_in(course, GOOD, as_csv(right_rows(course, GOOD)))
    for seat, name in SEATS.items():
        HOSTILE[name][1](course.student(seat), outside)
    return course, {path: path.read_bytes() for path in outside.iterdir()}


def good_class(place):
    """Return the `Course` of a class that hands in well, but for one file in an old code page."""
    course = begun(place, head="worked = true")
    for seat in course.roster():
        hand_in(course, seat, as_csv(right_rows(course, seat)))
    hand_in(course, seat, "größer".encode("cp1252"))
    return course


@pytest.fixture(scope="module")
def marked(tmp_path_factory):
    """The class after marking: its course, and what the terminal said."""
    course, outside = hostile_class(tmp_path_factory)
    done = homework("gradebook", course.folder, cwd=course.folder)
    assert {path: path.read_bytes() for path in outside} == outside
    return course, done


def test_marking_ends_well_and_nothing_is_written_elsewhere(marked):
    course, done = marked
    assert (done.returncode, done.stderr) == (0, "")
    assert not list(course.folder.rglob("broken_in"))


@pytest.mark.process
def test_no_process_no_connection_no_import_nothing_written_elsewhere(tmp_path_factory):
    course, outside = hostile_class(tmp_path_factory)
    warm = good_class(tmp_path_factory.mktemp("warm"))
    done, watched = run_watched(tmp_path_factory.mktemp("script"), "watched.py", warm.folder, course.folder)
    assert {path: path.read_bytes() for path in outside} == outside
    assert watched == {"code": 0, "seen": []}
    assert done.stderr == ""
    assert not list(course.folder.rglob("broken_in"))


@pytest.mark.process
def test_the_hook_sees_what_it_is_there_for(tmp_path):
    for name in ("warm", "class"):
        (tmp_path / name).mkdir()
    warm, course = begun(tmp_path / "warm"), begun(tmp_path / "class")
    _, watched = run_watched(tmp_path, "proof.py", warm.folder, course.folder)
    assert {event for event, _ in watched["seen"]} >= {"open", "os.system"}


@pytest.mark.parametrize("seat", SEATS, ids=HOSTILE)
def test_each_is_answered_in_plain_words(marked, seat):
    course, _ = marked
    words, _ = HOSTILE[SEATS[seat]]
    rows = [row for row in read(course.folder / "grades.csv") if row["seat"] == seat]
    assert len(rows) == 4
    assert {row["points"] for row in rows} <= {"", "0"}
    comment = rows[0]["comment"]
    assert any(one in comment for one in words.split("|")), comment
    assert len(comment) < 700
    for wrong in ("Traceback", "Error", "object at", "None"):
        assert wrong not in comment


def test_whoever_did_it_right_keeps_all_points(marked):
    course, done = marked
    rows = [row for row in read(course.folder / "grades.csv") if row["seat"] == GOOD]
    assert [row["finding"] for row in rows] == ["right"] * 4
    assert "GOOD" in done.stdout
    assert "7 of 7" in done.stdout


def test_what_a_link_leads_to_is_never_shown(marked):
    course, done = marked
    secret = course.secret
    for path in [course.folder / "grades.csv", *(course.folder / "feedback").iterdir()]:
        text = path.read_text(encoding="utf-8")
        assert "BAIT" not in text
        assert secret not in text
    assert secret not in done.stdout


def test_no_written_cell_begins_a_formula(marked):
    course, _ = marked
    for name in ("grades.csv", "items.csv"):
        for row in read(course.folder / name):
            for cell in row.values():
                assert not re.match(r"[\s\u200b\u202e]*[=+\-@\t]", cell), cell


def test_no_page_holds_markup_or_turned_text_of_a_student(marked):
    course, done = marked
    for seat, name in SEATS.items():
        page = (course.folder / "feedback" / f"{seat}.html").read_text(encoding="utf-8")
        for harm in ("<script", "<img src=x", "\u202e", "\x1b", "49{"):
            assert harm not in page.replace("img src=&", ""), name
        assert "{% include" not in page or "a template" in name
    for harm in ("\u202e", "\x1b", "\0"):
        assert harm not in done.stdout
        assert harm not in (course.folder / "grades.csv").read_text(encoding="utf-8")


def test_the_catalogue_is_as_long_as_promised():
    assert len(HOSTILE) >= 30
    assert "os.system" in TOUCH


BAD_SEATS = [
    "../A01",
    "..",
    "A/B",
    "C:\\x",
    "CON",
    "nul",
    "com1",
    "",
    "a b",
    ".hidden",
    "x" * 25,
    "A\x0001",
    "ＡＢ",
    "-rf",
]


@pytest.mark.parametrize("seat", BAD_SEATS)
def test_no_seat_leads_out_of_the_folder(tmp_path, seat):
    course = begun(tmp_path)
    roster = course.roster_file.read_text(encoding="utf-8")
    course.roster_file.write_text(roster + f'"{seat}",,abcd-efgh\r\n', encoding="utf-8")
    done = homework("gradebook", course.folder)
    assert done.returncode == 1
    assert done.stderr.count("\n") == 1
    assert "Traceback" not in done.stderr
    assert not (course.folder / "grades.csv").exists()
