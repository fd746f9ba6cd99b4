"""totals.csv and waiting.csv: nobody gets 0 for what was not read, and a file is marked as that of its own sheet."""

from tests.homework.a_class import as_csv, begun, hand_in, read, right_rows
from turbomath.homework.marking import gradebook
from turbomath.homework.marking.answer_files import FIELDS


def totals(course):
    gradebook.written(course)
    return {row["seat"]: row for row in read(course.folder / "totals.csv")}


def test_each_seat_has_its_points_and_its_state(tmp_path):
    course = begun(tmp_path)
    hand_in(course, "A01", as_csv(right_rows(course, "A01")))
    rows = right_rows(course, "A02")
    hand_in(course, "A02", as_csv([[*rows[0][:2], "12 or 13 psi abs", "", ""], *rows[1:]]))
    found = totals(course)
    assert [found[seat]["state"] for seat in ("A01", "A02", "B-7")] == ["marked", "waiting", "not handed in"]
    assert [found[seat]["points"] for seat in ("A01", "A02", "B-7")] == ["7", "5", "0"]
    assert found["A01"]["per cent"] == "100.0"
    (waiting,) = read(course.folder / "waiting.csv")
    assert (waiting["seat"], waiting["written"], waiting["points"]) == ("A02", "12 or 13 psi abs", "")
    hand_in(course, "B-7", "nonsense")
    assert totals(course)["B-7"]["state"] == "not read"
    grades = [row for row in read(course.folder / "grades.csv") if row["seat"] == "B-7"]
    assert {row["points"] for row in grades} == {""}


def test_a_file_in_another_seats_folder_is_marked_as_whose_it_is(tmp_path):
    course = begun(tmp_path)
    rows = [[*row, course.sheet_code("A01")] for row in right_rows(course, "A01")]
    hand_in(course, "B-7", as_csv(rows, head=(*FIELDS, "sheet")))
    found = totals(course)
    assert (found["A01"]["points"], found["B-7"]["points"]) == ("7", "0")
    comments = {row["comment"] for row in read(course.folder / "grades.csv") if row["seat"] == "A01"}
    assert all("lies in the folder of B-7" in comment for comment in comments)


def test_what_waits_can_be_decided(tmp_path):
    course = begun(tmp_path)
    hand_in(course, "A01", as_csv([["manifold_pressure_from_boost", "", "12 or 13", "", ""]]))
    decided = "seat,question,part,points,comment,by,date\nA01,manifold_pressure_from_boost,,1,half,me,today\n"
    (course.instructor / "overrides.csv").write_text(decided, encoding="utf-8")
    assert totals(course)["A01"]["points"] == "1"
    assert read(course.folder / "waiting.csv") == []


def test_what_is_open_has_no_worked_solution_yet_and_a_file_that_is_not_read_is_told_once(tmp_path):
    course = begun(tmp_path, head="worked = true")
    hand_in(course, "A01", as_csv([["manifold_pressure_from_boost", "", "12 or 13", "", ""]]))
    hand_in(course, "B-7", "task;what\n1;2\n")
    gradebook.written(course)
    open_one, *others = feedback(course, "A01").split("<h2")[2:]
    assert "still open" in open_one
    assert "Worked solution" not in open_one
    closed = [one for one in others if "No answer" in one]
    assert closed
    assert all("Worked solution" in one for one in closed)
    unread = feedback(course, "B-7")
    assert "Worked solution" not in unread
    assert unread.count("expected the names question") == 1


def feedback(course, seat):
    return (course.folder / "feedback" / f"{seat}.html").read_text(encoding="utf-8")
