"""The instructor decides: later rows count, all of them are kept and shown, and a slip in the file is named."""

import pytest

from tests.homework.a_class import as_csv, begun, hand_in, read, right_rows
from turbomath.homework.marking import gradebook
from turbomath.homework.marking.class_marks import class_marks
from turbomath.table.errors import RefusedFileError

HEAD = "seat,question,part,points,comment,by,date\n"


@pytest.fixture
def course(tmp_path):
    course = begun(tmp_path)
    hand_in(course, "A01", as_csv(right_rows(course, "A01")))
    return course


def decide(course, *rows):
    path = course.instructor / "overrides.csv"
    before = path.read_text(encoding="utf-8") if path.exists() else HEAD
    path.write_text(before + "".join(f"{row}\n" for row in rows), encoding="utf-8")


def part(course, seat, question, name):
    marks = next(one for one in class_marks(course) if one.seat == seat)
    return next(one for one in marks.parts if (one.question, one.part) == (question, name))


def test_the_last_row_counts_and_all_are_shown(course):
    decide(course, 'B-7,compressor outlet pressure,compressor outlet boost,1,"Showed, the steps",RK,2026-03-02')
    decide(course, "b-7,compressor_outlet_pressure,compressor_outlet_boost,1.5,On second thought,RK,2026-03-03")
    found = part(course, "B-7", "compressor_outlet_pressure", "compressor_outlet_boost")
    assert (found.points, found.of) == (1.5, 2)
    gradebook.written(course)
    row = next(row for row in read(course.folder / "grades.csv") if "On second thought" in row["comment"])
    page = (course.folder / "feedback" / "B-7.html").read_text(encoding="utf-8")
    assert row["points"] == "1.5"
    for words in ("Showed, the steps", "On second thought", "RK, 2026-03-02", "RK, 2026-03-03"):
        assert words in row["comment"]
        assert words in page


def test_a_right_answer_can_be_decided_down_and_the_finding_stays(course):
    decide(course, "A01,two_mechanics,,0,Guessed aloud,RK,2026-03-02")
    found = part(course, "A01", "two_mechanics", "")
    assert (found.points, found.finding) == (0, "right")


def test_an_override_outlives_a_new_hand_in(course):
    decide(course, "A02,manifold_pressure_from_boost,,1,Oral,RK,2026-03-02")
    assert part(course, "A02", "manifold_pressure_from_boost", "manifold_pressure").points == 1
    hand_in(course, "A02", as_csv(right_rows(course, "A02")))
    found = part(course, "A02", "manifold_pressure_from_boost", "manifold_pressure")
    assert (found.points, found.finding) == (1, "right")
    assert "Oral" in found.words


def test_what_is_decided_is_harmless_in_a_spreadsheet(course):
    decide(course, "A02,two_mechanics,,1,=HYPERLINK(0),@RK,+1")
    gradebook.written(course)
    for row in read(course.folder / "grades.csv"):
        assert not any(cell.startswith(("=", "+", "-", "@")) for cell in row.values())


@pytest.mark.parametrize(
    ("row", "said"),
    [
        ("Z9,two_mechanics,,1,why,RK,d", "row 2, column 'seat': found 'Z9'"),
        ("A01,two_mechanics,,2,why,RK,d", "row 2, column 'points': found '2', expected a number from 0 to 1"),
        ("A01,two_mechanics,,-1,why,RK,d", "found '-1'"),
        ("A01,two_mechanics,,nan,why,RK,d", "found 'nan'"),
        ("A01,two_mechanics,,1,,RK,d", "column 'comment'"),
        ("A01,two_mechanics,,1,why,,d", "column 'by'"),
        ("A01,two_mechanics,,1,why,RK,", "column 'date'"),
        ("A01,nonsense,,1,why,RK,d", "column 'question'"),
        ("A01,compressor_outlet_pressure,,1,why,RK,d", "column 'part'"),
        ("../A01,two_mechanics,,1,why,RK,d", "found '../A01'"),
    ],
)
def test_a_row_that_does_not_fit_is_refused_and_nothing_is_written(course, row, said):
    gradebook.written(course)
    before = {path: path.read_bytes() for path in course.folder.rglob("*") if path.is_file()}
    decide(course, row)
    with pytest.raises(RefusedFileError, match=r"overrides\.csv") as refusal:
        gradebook.written(course)
    assert said in str(refusal.value)
    after = {path: path.read_bytes() for path in course.folder.rglob("*") if path.is_file()}
    assert {path: after[path] for path in before} == before
