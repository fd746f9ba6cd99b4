"""Forget a seat: nothing of it is left anywhere in the folder, and everybody else's files stay."""

import pytest

from tests.homework.a_class import as_csv, begun, hand_in, read, right_rows
from tests.homework.command import homework
from turbomath.homework.course import forgetting
from turbomath.homework.course.course import Course
from turbomath.homework.marking import gradebook
from turbomath.table.errors import TurbomathError

GONE, STAYS = "Quokka-7", "Quokka-77"
NAME, WORDS = "Ottilie Zyx", "wombatwords"


@pytest.fixture
def course(tmp_path):
    course = begun(tmp_path, seats=("A01", GONE, STAYS))
    course.write_roster({"A01": "", GONE: NAME, STAYS: "Otto"})
    rows = right_rows(course, GONE)
    hand_in(course, GONE, as_csv([[*row[:4], WORDS] for row in rows]))
    gradebook.written(course)
    hand_in(course, STAYS, as_csv(right_rows(course, STAYS)))
    grid = f"seat;two_mechanics\n{GONE.lower()};A\nA01;B\n"
    (course.instructor / "answers_grid.csv").write_text(grid, encoding="utf-8")
    decided = (
        "seat,question,part,points,comment,by,date\n"
        'A01,two_mechanics,,1,"two\nlines",RK,d\n'
        f'{GONE},two_mechanics,,1,"{WORDS}\n{WORDS}",RK,d\n'
    )
    (course.instructor / "overrides.csv").write_text(decided, encoding="utf-8")
    gradebook.written(course)
    assert list((course.instructor / "history").iterdir())
    return course


def holders(course, *texts):
    found = []
    for path in course.folder.rglob("*"):
        content = path.read_bytes().decode("utf-8", "replace") if path.is_file() else ""
        found += [(str(path), text) for text in texts if text.casefold() in (path.name + content).casefold()]
    return found


def test_nothing_of_the_seat_is_left_and_the_others_stay(course):
    code, others = course.sheet_code(GONE), course.sheet_code(STAYS)
    rows = [row for row in read(course.folder / "grades.csv") if row["seat"] != GONE]
    sheet = (course.student(STAYS) / "sheet.html").read_bytes()
    answers = (course.student(STAYS) / "answers.csv").read_bytes()
    assert {text for _, text in holders(course, GONE, code, NAME, WORDS)} == {GONE, code, NAME, WORDS}
    lines = forgetting.forget(course, GONE)
    left = [one for one in holders(course, GONE, code, NAME, WORDS) if one[1] != GONE]
    assert left == []
    for path in course.folder.rglob("*"):
        if path.is_file():
            assert GONE not in path.read_bytes().decode("utf-8", "replace").replace(STAYS, "")
    assert not any("Still names it" in line for line in lines)
    assert (course.student(STAYS) / "sheet.html").read_bytes() == sheet
    assert (course.student(STAYS) / "answers.csv").read_bytes() == answers
    assert read(course.folder / "grades.csv") == rows
    assert list(course.roster()) == ["A01", STAYS]
    assert f">{STAYS}</th>" in course.key_page.read_text(encoding="utf-8")
    for page in (course.class_page, course.solutions_page):
        assert others in page.read_text(encoding="utf-8")
    assert "two\nlines" in (course.instructor / "overrides.csv").read_text(encoding="utf-8-sig")
    assert (course.instructor / "answers_grid.csv").read_text(encoding="utf-8-sig") == "seat;two_mechanics\nA01;B\n"


def test_the_class_is_marked_again_as_before(course):
    before = {row["seat"]: row for row in read(course.folder / "grades.csv")}
    forgetting.forget(course, GONE.upper())
    gradebook.written(course)
    after = {row["seat"]: row for row in read(course.folder / "grades.csv")}
    assert after == {seat: row for seat, row in before.items() if seat != GONE}
    assert not any(row["seat"] == GONE for path in (course.instructor / "history").glob("*.csv") for row in read(path))


def test_what_it_cannot_take_out_it_names(course):
    (course.instructor / "notes.txt").write_text(f"Call {NAME} about the boost gauge.", encoding="utf-8")
    lines = forgetting.forget(course, GONE)
    assert any("Still names it" in line and "notes.txt" in line for line in lines)


def test_what_was_begun_can_be_finished(course):
    """A folder from which the roster row is gone already, but not the pages."""
    code = course.sheet_code(GONE)
    forgetting._rows(course, GONE)
    forgetting._folders(course, GONE)
    forgetting.forget(course, GONE)
    assert holders(course, code) == []


def test_on_the_terminal_in_the_folder_itself(course):
    done = homework("forget", GONE, cwd=course.folder)
    assert done.returncode == 0, done.stderr
    assert "Removed: students" in done.stdout
    assert "Nothing else in this folder names it" in done.stdout
    again = homework("forget", GONE, cwd=course.folder)
    assert (again.returncode, again.stdout, again.stderr.count("\n")) == (1, "", 1)


def test_a_folder_that_is_no_homework_folder_is_left_alone(tmp_path):
    (tmp_path / "students" / "A01").mkdir(parents=True)
    with pytest.raises(TurbomathError, match="expected a homework folder"):
        forgetting.forget(Course(tmp_path), "A01")
    assert (tmp_path / "students" / "A01").is_dir()


def test_the_last_seat_can_go_too(tmp_path):
    course = begun(tmp_path, seats=("A01",))
    gradebook.written(course)
    code = course.sheet_code("A01")
    forgetting.forget(course, "A01")
    assert holders(course, "A01", code) == []


@pytest.mark.parametrize("seat", ["../A01", "..", "A99", "", "CON", "*"])
def test_a_seat_that_is_none_removes_nothing(course, seat):
    before = {path: path.read_bytes() for path in course.folder.rglob("*") if path.is_file()}
    with pytest.raises(TurbomathError):
        forgetting.forget(course, seat)
    assert {path: path.read_bytes() for path in course.folder.rglob("*") if path.is_file()} == before


def test_a_folder_that_is_a_link_is_unlinked_and_what_it_leads_to_stays(course, tmp_path):
    elsewhere = tmp_path / "elsewhere"
    elsewhere.mkdir()
    (elsewhere / "keep.txt").write_text("keep", encoding="utf-8")
    for path in course.student(GONE).iterdir():
        path.unlink()
    course.student(GONE).rmdir()
    course.student(GONE).symlink_to(elsewhere, target_is_directory=True)
    forgetting.forget(course, GONE)
    assert not course.student(GONE).exists()
    assert (elsewhere / "keep.txt").read_text(encoding="utf-8") == "keep"
