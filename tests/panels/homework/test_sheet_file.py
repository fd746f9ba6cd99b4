"""A sheet file is read whole or refused in one plain sentence; hostile words in it stay words."""

import json
import os
import shutil
import sys

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.widgets.told import tell
from turbomath.homework.asking.variants import make
from turbomath.homework.bank import QUESTIONS
from turbomath.homework.course.assignment import AskedQuestion, Assignment
from turbomath.homework.course.student_sheet import sheet_json
from turbomath.panels.homework import panel_sheet
from turbomath.panels.homework.sheet_file import read_sheet
from turbomath.table.errors import RefusedFileError

NAMES = ("boost_from_scan_tool", "uncertainty_of_effectiveness", "two_mechanics")


def written(names=NAMES, units="us"):
    """Return a sheet as the command line writes it, as data."""
    asked = tuple(AskedQuestion(name, 1.0) for name in names)
    assignment = Assignment("w1", "Week 1", units, None, True, False, asked)
    variants = {
        name: make(name, secret="a long secret of the course", assignment="w1", seat="A07", units=units)
        for name in names
    }
    return json.loads(sheet_json(assignment, "A07", "ab12-cd34", variants))


@pytest.fixture
def path(tmp_path, monkeypatch):
    monkeypatch.setenv("TURBOMATH_WORK", str(tmp_path))
    return tmp_path / "sheet-ab12-cd34.json"


def refusal(path, content):
    """Return the one sentence with which a panel refuses a file of that content."""
    path.write_bytes(content if isinstance(content, bytes) else content.encode())
    frame = tell(panel_sheet(), "open", path=str(path))
    assert frame["sheet"] is None
    assert frame["notice"] == ""
    said = frame["fault"]
    assert said
    assert len(said) < 400
    assert "\n" not in said
    assert "Traceback" not in said
    return said


@pytest.mark.parametrize("units", ["us", "si"])
def test_a_sheet_of_every_question_is_read_as_it_was_written(path, units):
    content = written(tuple(QUESTIONS), units)
    path.write_text(json.dumps(content), encoding="utf-8")
    sheet = read_sheet(path)
    assert (sheet.seat, sheet.code, sheet.title, sheet.units, sheet.due) == ("A07", "ab12-cd34", "Week 1", units, "")
    assert [one.name for one in sheet.questions] == list(QUESTIONS)
    for one, data in zip(sheet.questions, content["questions"], strict=True):
        assert (one.number, one.wording) == (data["number"], data["wording"])
        assert [(name, list(units)) for name, units in one.parts] == [(p["part"], p["units"]) for p in data["parts"]]
        assert list(one.hints) == data["hints"]
    frame = tell(panel_sheet(), "open", path=str(path))
    assert len(frame["sheet"]["questions"]) == len(QUESTIONS)


def changed(**changes):
    return json.dumps(written() | changes)


def in_question(**changes):
    content = written()
    content["questions"][0] |= changes
    return json.dumps(content)


LONG = "x" * 3_000
HOSTILE = {
    "nothing": ("", "JSON"),
    "torn": (json.dumps(written())[:-40], "JSON"),
    "no json": ("print('hello')", "JSON"),
    "list": ("[1, 2]", "a group of names"),
    "too large": (" " * 2_000_000, "1,000,000"),
    "200 MB would be": (b"\x00" * 1_200_000, "1,000,000"),
    "deep list": ("[" * 200_000, "too deep"),
    "deep group": ('{"a":' * 50_000 + "1" + "}" * 50_000, "too deep"),
    "nan": (changed(points=float("nan")), "NaN"),
    "infinity": (changed(points=float("-inf")), "-Infinity"),
    "name twice": (json.dumps(written())[:-1] + ', "seat": "B01"}', "each name once"),
    "endless number": (json.dumps(written())[:-1] + ', "points": ' + "9" * 10_000 + "}", "thousands of figures"),
    "wrong schema": (changed(schema="turbomath-sheet-99"), "turbomath-sheet-1"),
    "answers": (changed(schema="turbomath-answers-1"), "turbomath-sheet-1"),
    "schema a list": (changed(schema=["turbomath-sheet-1"]), "turbomath-sheet-1"),
    "no schema": ("{}", "turbomath-sheet-1"),
    "seat leads out": (changed(seat="../../B01"), "letters A to Z"),
    "seat a device": (changed(seat="NUL"), "letters A to Z"),
    "seat a number": (changed(seat=7), "text in quotes"),
    "code leads out": (changed(sheet="../../../x"), "ab12-cd34"),
    "code with an end": (changed(sheet="ab12-cd34\n.."), "ab12-cd34"),
    "code absolute": (changed(sheet="/etc/pass"), "ab12-cd34"),
    "units": (changed(units="both"), "us or si"),
    "no questions": (changed(questions=[]), "each question once"),
    "questions a text": (changed(questions="all"), "a list"),
    "too many": (changed(questions=written()["questions"] * 40), "at most 100"),
    "twice": (changed(questions=written()["questions"][:1] * 2), "each question once"),
    "question nothing": (changed(questions=[None]), "a group of names"),
    "long words": (in_question(wording=LONG), "at most 2,000"),
    "control characters": (in_question(wording="a\x1b[2Jb"), "can be printed"),
    "lone surrogate": (in_question(wording="\ud800"), "can be printed"),
    "empty words": (in_question(wording=" "), "text in quotes"),
    "number true": (in_question(number=True), "a whole number"),
    "no parts": (in_question(parts=[]), "boxes or options"),
    "parts and options": (in_question(options=[{"letter": "A", "words": "b"}]), "boxes or options"),
    "no units": (in_question(parts=[{"part": "boost", "units": []}]), "units"),
    "part twice": (in_question(parts=[{"part": "boost", "units": ["psi"]}] * 2), "each name once"),
    "part a number": (in_question(parts=[3]), "a group of names"),
    "hints a number": (in_question(hints=3), "a list"),
    "workbook": (b"PK\x03\x04" + b"\x00" * 100, "plain text"),
    "pickle": (b"\x80\x04\x95\x00", "plain text"),
    "utf-16": ("{}".encode("utf-16"), "plain text"),
    "zeros": ("{\0}", "plain text"),
}


@pytest.mark.parametrize("name", HOSTILE)
def test_a_broken_or_hostile_sheet_is_refused_in_one_plain_sentence(path, name):
    content, words = HOSTILE[name]
    said = refusal(path, content)
    assert words in said
    assert path.name in said


def test_what_is_no_file_is_refused(path, tmp_path):
    os.mkfifo(path)
    assert "device" in tell(panel_sheet(), "open", path=str(path))["fault"]
    path.unlink()
    path.symlink_to("/etc/passwd")
    assert "a link" in tell(panel_sheet(), "open", path=str(path))["fault"]
    path.unlink()
    path.mkdir()
    assert "found no file" in tell(panel_sheet(), "open", path=str(path))["fault"]
    assert "o such file" in tell(panel_sheet(), "open", path=str(tmp_path / "gone.json"))["fault"]
    assert tell(panel_sheet(), "open", path="\0")["fault"]
    assert tell(panel_sheet(), "open", path="x" * 5_000)["fault"]


def test_markup_and_code_in_a_sheet_stay_words(path, tmp_path):
    words = "<img src=x onerror=alert(1)> {{7*7}} =1+1 $(touch CANARY) __import__('os').system('touch CANARY')"
    content = written() | {"title": words, "kit": words, "assignment": words}
    content["questions"][0] |= {"wording": words, "hints": [words, words]}
    path.write_text(json.dumps(content), encoding="utf-8")
    started, watching = [], [True]

    def watch(event, arguments):  # a hook cannot be taken off again, so it is told when to stop
        if watching and event in ("subprocess.Popen", "os.system", "os.exec", "exec", "compile", "pickle.find_class"):
            started.append((event, str(arguments)[:80]))

    panel = panel_sheet()
    tell(panel, "open", path=str(path))  # what the kit itself imports late is imported now
    sys.addaudithook(watch)
    shown = tell(panel, "open", path=str(path))["sheet"]
    watching.clear()
    assert started == []
    assert shown["title"] == words
    assert shown["questions"][0]["exercise"]["wording"] == [words]
    assert [one.name for one in tmp_path.iterdir()] == [path.name]


def test_a_journal_that_cannot_be_read_is_said_and_nothing_is_opened(path):
    path.write_text(json.dumps(written()), encoding="utf-8")
    path.with_suffix(".journal").mkdir()
    frame = tell(panel_sheet(), "open", path=str(path))
    assert frame["sheet"] is None
    assert "directory" in frame["fault"] or "ordinary file" in frame["fault"]
    shutil.rmtree(path.with_suffix(".journal"))
    assert tell(panel_sheet(), "open", path=str(path))["sheet"]


@given(data=st.data())
def test_one_changed_value_anywhere_gives_a_sheet_or_a_sentence(tmp_path_factory, data):
    content = written()
    place, keys = content, []
    while isinstance(place, dict | list) and place:
        key = data.draw(st.sampled_from(sorted(place) if isinstance(place, dict) else range(len(place))))
        keys.append(key)
        place = place[key]
        if data.draw(st.booleans()):
            break
    owner = content
    for key in keys[:-1]:
        owner = owner[key]
    values = st.none() | st.booleans() | st.integers() | st.text(max_size=5) | st.just([]) | st.just({}) | st.just([[]])
    owner[keys[-1]] = data.draw(values)
    path = tmp_path_factory.mktemp("one") / "sheet.json"
    path.write_text(json.dumps(content), encoding="utf-8")
    try:
        sheet = read_sheet(path)
    except RefusedFileError as refusal:
        said, questions = str(refusal), ()
    else:
        said, questions = "", sheet.questions
    assert "\n" not in said
    assert bool(said) != bool(questions)
    assert all(isinstance(one.wording, str) and one.wording for one in questions)
