"""An assignment's sheet: shown as it was given out, each entry on the disk before "Saved", handed in for the marker."""

import errno
import json
import os
import random
import shutil
import signal

import pytest

from tests.homework.a_class import variants_of
from tests.widgets.told import tell
from turbomath.disk import journal
from turbomath.disk.journal import Journal
from turbomath.homework.bank import QUESTIONS
from turbomath.homework.course import hand_out
from turbomath.homework.marking import class_marks
from turbomath.homework.marking.answer_files import from_json
from turbomath.panels.homework import panel_sheet
from turbomath.panels.homework import sheet as homework_sheet
from turbomath.panels.homework.read_back import read_as
from turbomath.working.coherent import from_si

TRIALS = 150
NAMES = ("manifold_pressure_from_boost", "gauge_error", "order_the_stations")
ASSIGNMENT = 'name = "week 3"\ntitle = "Week <b>3</b>"\nhints = {}\ndue = 2026-12-11\n' + "".join(
    f'[[questions]]\nquestion = "{name}"\n' for name in NAMES
)


@pytest.fixture
def work(tmp_path):
    with pytest.MonkeyPatch.context() as environment:
        environment.setenv("TURBOMATH_WORK", str(tmp_path / "work"))
        yield tmp_path / "work"


@pytest.fixture
def course(tmp_path):
    """Return the folder of a class of two, as the command line writes it."""
    return given_out(tmp_path, "true")


def given_out(folder, hints):
    (folder / "week.toml").write_text(ASSIGNMENT.format(hints), encoding="utf-8")
    (folder / "seats.txt").write_text("A07\nB01\n", encoding="utf-8")
    return hand_out.write(folder / "week.toml", folder / "seats.txt", folder / "course").course


@pytest.fixture
def sheet(course, work):
    """Return seat A07's sheet in the work folder of its student."""
    shutil.copytree(course.student("A07"), work / "mine")
    return next((work / "mine").glob("sheet-*.json"))


@pytest.fixture
def panel(sheet):
    panel = panel_sheet()
    tell(panel, "open", path=str(sheet))
    return panel


def enter(panel, question, part, text):
    """Enter one answer and return what is said of it."""
    return said(tell(panel, "enter", question=question, part=part, text=text), question, part)


def said(frame, question, part):
    one = next(one for one in frame["sheet"]["questions"] if one["name"] == question)
    place = [each["name"] for each in one["exercise"]["parts"]].index(part)
    return one["states"][place]


def pressure(panel, text):
    return enter(panel, NAMES[0], "manifold_pressure", text)


def kept(sheet):
    records, _ = Journal(sheet.with_suffix(".journal")).read()
    return [(one["question"], one["part"], one["answer"]) for one in records if "question" in one]


def refuse(monkeypatch, number, call="fsync"):
    def refused(*_, **__):
        raise OSError(number, os.strerror(number))

    monkeypatch.setattr(journal.os, call, refused)


def test_the_sheet_is_shown_as_it_was_given_out_and_nothing_of_the_key(panel, course, sheet):
    shown, variants = panel.frame["sheet"], variants_of(course, "A07")
    assert shown["title"] == "Week <b>3</b>"
    assert shown["facts"].startswith(f"Seat A07, sheet code {course.sheet_code('A07')}, due 2026-12-11.")
    assert [one["name"] for one in shown["questions"]] == list(NAMES)
    for one in shown["questions"]:
        assert "\n".join(one["exercise"]["wording"]) == variants[one["name"]].wording
        assert one["exercise"]["parts"][-1]["name"] == "remark"
    assert [part["label"] for part in shown["questions"][1]["exercise"]["parts"]] == [
        "half width",
        "share of reading",
        "a note to your instructor, if you like",
    ]
    assert [words for _, words in shown["questions"][2]["exercise"]["options"]] == [
        one.words for one in variants["order_the_stations"].asked
    ]
    key = from_si(variants[NAMES[0]].key["manifold_pressure"], "psi abs", "pressure")
    assert f"{key:.2f}" not in json.dumps(panel.frame)


def test_it_says_whether_an_answer_can_be_read_never_whether_it_is_right(panel, course):
    key = from_si(variants_of(course, "A07")[NAMES[0]].key["manifold_pressure"], "psi abs", "pressure")
    for text, read in (
        (f"{key:.2f} psi abs", f"{key:.2f}".rstrip("0").rstrip(".")),
        ("1 psi abs", "1"),
        ("99,5 psi abs", "99.5"),
        ("254 kPa abs", "36.84"),
    ):
        state = pressure(panel, text)
        assert (state["head"], state["words"], state["good"]) == ("Saved.", f"Read as {read} psi abs.", True)
    for text, why in (
        ("36 psi", "does not fit"),
        ("36", "without a unit"),
        ("soon", "number"),
        ("<script>alert(1)</script>", "number"),
    ):
        state = pressure(panel, text)
        assert (state["head"], state["good"]) == ("Saved, but it cannot be read.", False)
        assert why in state["words"]
        assert state["text"] == text


# 254 kPa = 36.8396 psi: NIST Special Publication 811 (2008), appendix B
def test_an_answer_is_read_in_the_unit_of_the_sheet():
    assert read_as(NAMES[0], "manifold_pressure", "254 kPa abs", "us") == (True, "Read as 36.84 psi abs.")
    assert read_as("effectiveness_air_to_air", "effectiveness", "0,8", "si") == (True, "Read as 0.8.")
    good, words = read_as("a question of another kit", "x", "5 psi", "us")
    assert good
    assert "was not looked at" in words


def test_the_second_hint_comes_after_an_answer_that_can_be_read(panel):
    part = QUESTIONS[NAMES[0]].asked[0].name
    both = list(QUESTIONS[NAMES[0]].hints)

    def asked():
        one = tell(panel, "hint", question=NAMES[0])["sheet"]["questions"][0]
        return one["hints"], one["more"]

    assert [asked(), asked()] == [(both[:1], 0)] * 2
    tell(panel, "enter", question=NAMES[0], part=part, text="no idea")
    assert asked() == (both[:1], 0)
    shown = tell(panel, "enter", question=NAMES[0], part=part, text="35 psi abs")["sheet"]["questions"][0]
    assert shown["more"] == 1
    assert [asked(), asked()] == [(both, 0)] * 2


def test_without_hints_there_is_none_to_ask_for(tmp_path, work):
    course = given_out(tmp_path, "false")
    panel = panel_sheet()
    shown = tell(panel, "open", path=str(course.student("A07")))["sheet"]
    assert [one["more"] for one in shown["questions"]] == [0, 0, 0]


def test_an_entry_is_on_the_disk_before_it_is_called_saved(panel, sheet, monkeypatch):
    order, fsync, read = [], os.fsync, homework_sheet.read_as
    monkeypatch.setattr(journal.os, "fsync", lambda handle: order.append("disk") or fsync(handle))
    monkeypatch.setattr(homework_sheet, "read_as", lambda *said: order.append("saved") or read(*said))
    pressure(panel, "36.8 psi abs")
    assert order.index("disk") < order.index("saved")
    assert kept(sheet) == [(NAMES[0], "manifold_pressure", "36.8 psi abs")]


def test_reopened_all_stands_there_again_the_last_word_on_each_box(panel, sheet):
    pressure(panel, "12 psi")
    pressure(panel, "36,8 psi abs")
    enter(panel, "order_the_stations", "", "B")
    enter(panel, "gauge_error", "remark", "my gauge ends at 60 °F \U0001f600")
    frame = panel_sheet().frame
    assert frame["sheet"]["note"].startswith("3 entries were found on the disk")
    assert said(frame, NAMES[0], "manifold_pressure")["text"] == "36,8 psi abs"
    assert said(frame, NAMES[0], "manifold_pressure")["head"] == "Saved."
    assert said(frame, "order_the_stations", "")["text"] == "B"
    assert said(frame, "gauge_error", "remark")["text"] == "my gauge ends at 60 °F \U0001f600"
    assert frame["sheet"]["filled"] == "2 of 4 boxes are filled."


def test_a_journal_cut_off_at_any_byte_gives_all_entries_before_the_cut_and_a_note(panel, sheet):
    pressure(panel, "1 psi abs")
    first = sheet.with_suffix(".journal").stat().st_size
    pressure(panel, "2 psi abs")
    whole = sheet.with_suffix(".journal").read_bytes()
    for cut in range(first, len(whole) - 1):
        sheet.with_suffix(".journal").write_bytes(whole[:cut])
        frame = panel_sheet().frame
        assert said(frame, NAMES[0], "manifold_pressure")["text"] == "1 psi abs"
        assert ("not whole" in frame["sheet"]["note"]) == (cut > first)


@pytest.mark.parametrize("number", [errno.ENOSPC, errno.EACCES, errno.EIO])
def test_what_the_disk_refuses_is_not_called_saved_stays_and_can_be_saved_again(panel, sheet, monkeypatch, number):
    refuse(monkeypatch, number, "open")
    state = pressure(panel, "36.8 psi abs")
    assert (state["head"], state["text"], state["kept"]) == ("Not saved:", "36.8 psi abs", False)
    assert state["words"].startswith(f"{os.strerror(number)}. Your text stays")
    assert panel.frame["sheet"]["unsaved"] == 1
    frame = tell(panel, "open", path=str(sheet))
    assert "not on the disk" in frame["fault"]
    assert said(frame, NAMES[0], "manifold_pressure")["text"] == "36.8 psi abs"
    assert tell(panel, "hand in")["sheet"]["handed"] == "" or number != errno.ENOSPC
    monkeypatch.undo()
    frame = tell(panel, "again")
    assert frame["sheet"]["unsaved"] == 0
    assert said(frame, NAMES[0], "manifold_pressure")["head"] == "Saved."
    assert kept(sheet) == [(NAMES[0], "manifold_pressure", "36.8 psi abs")]


def test_what_is_handed_in_is_what_the_marker_reads(panel, course, sheet):
    variant = variants_of(course, "A07")[NAMES[0]]
    key = from_si(variant.key["manifold_pressure"], "psi abs", "pressure")
    pressure(panel, f"{key:.2f} psi abs".replace(".", ","))
    right = next(
        letter
        for letter, one in zip("ABCDEFGH", variants_of(course, "A07")[NAMES[2]].asked, strict=False)
        if not one.code
    )
    enter(panel, "order_the_stations", "", right)
    enter(panel, "order_the_stations", "remark", "sure")
    enter(panel, "gauge_error", "half_width", "soon")
    frame = tell(panel, "hand in")
    assert frame["sheet"]["fault"] == ""
    path = sheet.parent / "answers.json"
    assert str(path) in frame["sheet"]["handed"]
    content = json.loads(path.read_text(encoding="utf-8"))
    assert {type(value) for one in content["answers"] for value in one.values()} == {str}
    questions = {name: QUESTIONS[name] for name in NAMES}
    read = from_json(path, questions, "answers.json", "A07", course.sheet_code("A07"))
    assert [(one.question, one.part, one.remark) for one in read] == [
        (NAMES[0], "manifold_pressure", ""),
        ("gauge_error", "half_width", ""),
        ("order_the_stations", "", "sure"),
    ]
    assert (read[0].answer, read[0].unit) == (f"{key:.2f}".replace(".", ","), "psi abs")
    shutil.copy(path, course.student("A07"))
    marks = {(one.question, one.part): one.finding for one in class_marks.class_marks(course)[0].parts}
    assert marks[NAMES[0], "manifold_pressure"] == "right"
    assert marks["order_the_stations", ""] == "right"
    assert marks["gauge_error", "half_width"] == "waiting"


def test_after_a_change_it_says_that_it_has_to_be_handed_in_again_also_when_reopened(panel):
    pressure(panel, "1 psi abs")
    assert "again" not in tell(panel, "hand in")["sheet"]["handed"]
    assert panel_sheet().frame["sheet"]["handed"].startswith("Handed in on ")
    pressure(panel, "2 psi abs")
    for frame in (panel.frame, panel_sheet().frame):
        assert frame["sheet"]["handed"].endswith("You have changed it since: hand in again.")
    assert "again" not in tell(panel, "hand in")["sheet"]["handed"]


def test_hand_in_never_writes_over_somebody_elses_answers_and_says_when_it_cannot_write(panel, sheet, monkeypatch):
    path = sheet.parent / "answers.json"
    for content in ('{"sheet": "zz99-zz99"}', "my own notes", "[1]", "[" * 100_000):
        path.write_text(content, encoding="utf-8")
        frame = tell(panel, "hand in")
        assert "it was left as it is" in frame["sheet"]["fault"]
        assert frame["sheet"]["handed"] == ""
        assert path.read_text(encoding="utf-8") == content
    path.unlink()
    refuse(monkeypatch, errno.ENOSPC)
    assert tell(panel, "hand in")["sheet"]["fault"] == "Not handed in: No space left on device."
    monkeypatch.undo()
    assert sorted(one.name for one in sheet.parent.iterdir() if one.name.startswith(("answers.j", "."))) == []


def test_hostile_entries_are_kept_as_text_and_handed_in_on_one_line(panel, sheet, course):
    for text in ("=1+1", "\x00\x1b[2J\n2 psi", "\ud800 psi", "x" * 5000, "__import__('os')", "../../etc/passwd"):
        assert pressure(panel, text)["head"].startswith("Saved")
        frame = tell(panel, "hand in")
        assert frame["sheet"]["fault"] == ""
        questions = {name: QUESTIONS[name] for name in NAMES}
        [one] = from_json(sheet.parent / "answers.json", questions, "answers.json", "A07", course.sheet_code("A07"))
        assert one.answer.isprintable()
    assert len(kept(sheet)) == 6


def test_only_boxes_of_the_sheet_take_an_entry(panel, sheet):
    for question, part in (("../x", ""), (NAMES[0], "../x"), (NAMES[0], ""), ([1], "x"), ("pressure_ratio", "x")):
        assert tell(panel, "enter", question=question, part=part, text="1")["notice"]
    assert kept(sheet) == []


def test_nothing_can_be_entered_before_a_sheet_is_open(work):
    panel = panel_sheet()
    assert panel.frame["sheet"] is None
    for say, words in (("enter", {"question": "x", "part": "", "text": "1"}), ("hand in", {}), ("again", {})):
        assert "no sheet is open" in tell(panel, say, **words)["notice"]


def test_another_seats_journal_beside_the_sheet_is_not_taken_for_ones_own(panel, sheet, course):
    pressure(panel, "5 psi abs")
    other = next(course.student("B01").glob("sheet-*.json"))
    shutil.copy(other, sheet.parent)
    shutil.copy(sheet.with_suffix(".journal"), sheet.parent / f"{other.stem}.journal")
    frame = tell(panel, "open", path=str(sheet.parent / other.name))
    assert said(frame, NAMES[0], "manifold_pressure")["text"] == ""


def test_sheets_in_the_work_folder_are_found_and_a_folder_will_do(sheet, work, course):
    panel = panel_sheet()
    assert panel.frame["found"] == [[str(sheet), f"mine/{sheet.name}"]]
    for path in ("mine", f'"mine/{sheet.name}"', str(sheet), str(sheet.parent)):
        assert tell(panel, "open", path=path)["sheet"]["path"] == str(sheet), path
    shutil.copy(next(course.student("B01").glob("sheet-*.json")), sheet.parent)
    assert len(tell(panel, "look")["found"]) == 2
    frame = tell(panel, "open", path="mine")
    assert "found 2 files" in frame["fault"]
    assert frame["sheet"] is None
    for path, words in (("", "Type the path"), ("nowhere.json", "o such file"), ("~", "no file")):
        assert words in tell(panel, "open", path=path)["fault"]


def child(writing, sheet, trial):
    """Enter answers through the panel, telling the pipe of each that the page would call saved; for ever."""
    panel = panel_sheet()
    tell(panel, "open", path=str(sheet))
    for number in range(100_000):
        text = f"{trial}.{number} psi abs"
        if pressure(panel, text)["head"].startswith("Saved"):
            os.write(writing, f"{text}\n".encode())


@pytest.mark.process
def test_killed_while_answers_are_entered_nothing_that_was_called_saved_is_lost(sheet):
    chance, total = random.Random(7), 0
    for trial in range(TRIALS):
        reading, writing = os.pipe()
        process = os.fork()
        if not process:
            try:
                child(writing, sheet, trial)
            finally:
                os._exit(1)
        os.close(writing)
        with os.fdopen(reading) as stream:
            called_saved = [stream.readline() for _ in range(chance.randrange(1, 8))]
            os.kill(process, signal.SIGKILL)
            os.waitpid(process, 0)
            called_saved += stream.readlines()
        called_saved = [line.removesuffix("\n") for line in called_saved if line.endswith("\n")]
        entries = [answer for _, _, answer in kept(sheet)]
        assert set(called_saved) <= set(entries), trial
        last = said(panel_sheet().frame, NAMES[0], "manifold_pressure")["text"]
        assert entries[-1] == last
        assert last in (called_saved[-1], f"{trial}.{len(called_saved)} psi abs"), "at most one beyond what was told"
        total += len(called_saved)
    assert total > 3 * TRIALS
