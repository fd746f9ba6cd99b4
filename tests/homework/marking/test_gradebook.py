"""The gradebook: exact heads, points that add up, the item report, and a feedback page with one seat's data only."""

import csv
import io
import re

import pytest

from tests.homework.a_class import as_csv, begun, hand_in, read, right_rows, variants_of
from tests.homework.command import homework
from turbomath import __version__
from turbomath.homework.course.course import Course
from turbomath.homework.marking import gradebook, items
from turbomath.homework.marking.class_marks import class_marks
from turbomath.homework.marking.tables import csv_text
from turbomath.table.errors import TurbomathError

FINDINGS = {"right", "unit", "rounding", "carried", "given", "waiting", "none"}
FINDINGS |= {"not handed in", "not read", "unanswered", *(f"M{number}" for number in range(1, 19))}


@pytest.fixture
def course(tmp_path):
    """A class of three: one all right, one with the gauge taken as absolute (M1), one with nothing."""
    course = begun(tmp_path, head="worked = true")
    hand_in(course, "A01", as_csv(right_rows(course, "A01")))
    variant = variants_of(course, "A02")["manifold_pressure_from_boost"]
    boost = variant.givens["boost"]
    rows = [["manifold_pressure_from_boost", "", f"{boost.text} psi abs", "", ""], *right_rows(course, "A02")[1:]]
    hand_in(course, "A02", as_csv(rows))
    return course


def test_grades_have_a_row_for_each_part_and_the_head_that_is_promised(course):
    gradebook.written(course)
    text = (course.folder / "grades.csv").read_text(encoding="utf-8-sig")
    assert text.splitlines()[0] == "seat,sheet code,kit version,question,part,points,of,finding,comment"
    rows = read(course.folder / "grades.csv")
    assert len(rows) == 3 * 4
    assert {row["finding"] for row in rows} <= FINDINGS
    assert {row["kit version"] for row in rows} == {__version__}
    codes = {(seat, course.sheet_code(seat)) for seat in course.roster()}
    assert {(row["seat"], row["sheet code"]) for row in rows} == codes
    totals = {seat: sum(float(row["points"]) for row in rows if row["seat"] == seat) for seat in course.roster()}
    assert totals == {"A01": 7, "A02": 5, "B-7": 0}
    assert sum(float(row["of"]) for row in rows) == 3 * 7
    assert rows[4]["finding"] == "M1"
    assert "counts from the barometer" in rows[4]["comment"]
    assert rows[8]["comment"] == "Nothing was handed in."


def test_items_count_each_finding_over_the_answers_there_are(course):
    gradebook.written(course)
    text = (course.folder / "items.csv").read_text(encoding="utf-8-sig")
    assert text.splitlines()[0] == "question,answered,right,finding,count"
    rows = [tuple(row.values()) for row in read(course.folder / "items.csv")]
    assert set(rows) == {
        ("manifold_pressure_from_boost", "2", "1", "right", "1"),
        ("manifold_pressure_from_boost", "2", "1", "M1", "1"),
        ("compressor_outlet_pressure", "4", "4", "right", "4"),
        ("two_mechanics", "2", "2", "right", "2"),
    }


def test_a_question_that_nobody_answered_is_in_the_items_too(tmp_path):
    course = begun(tmp_path)
    gradebook.written(course)
    assert {tuple(row.values())[1:] for row in read(course.folder / "items.csv")} == {("0", "0", "none", "0")}
    assert "Nothing is answered yet" in "\n".join(items.to_teach_again(class_marks(course)))


def test_the_terminal_says_what_to_teach_again(course):
    hand_in(course, "B-7", "nonsense")
    for task in ("mark", "gradebook"):
        done = homework(task, course.folder, cwd=course.folder)
        assert done.returncode == 0, done.stderr
        assert re.search(r"A01 +7 of 7\n +A02 +5 of 7\n +B-7 +0 of 7  not read\n", done.stdout)
        assert "B-7/answers.csv, row 1" in done.stdout
        assert re.search(r"manifold_pressure_from_boost +50 % of 2 answers", done.stdout)
        assert re.search(r"1 x M1 +gauge pressure taken as absolute", done.stdout)
        assert (course.folder / "grades.csv").exists() is (task == "gradebook")  # mark writes nothing


def test_every_code_of_the_bank_can_be_named():
    from turbomath.homework.bank import QUESTIONS

    codes = {one.code for question in QUESTIONS.values() for one in getattr(question, "mistakes", ())}
    assert codes <= items.MISCONCEPTIONS.keys()
    assert list(items.MISCONCEPTIONS) == [
        *(f"M{number}" for number in range(1, 19)),
        *(f"C{number}" for number in range(1, 5)),
    ]


def test_feedback_names_the_mistake_shows_the_solution_and_nobody_else(course):
    gradebook.written(course)
    feedback = course.folder / "feedback"
    pages = {seat: (feedback / f"{seat}.html").read_text(encoding="utf-8") for seat in course.roster()}
    assert "A usual mistake (M1)" in pages["A02"]
    assert "counts from the barometer" in pages["A02"]
    assert "7 of 7 points" in pages["A01"]
    assert "Nothing handed in" in pages["B-7"]
    for seat, page in pages.items():
        assert f"seat {seat}" in page
        assert "Worked solution" in page
        assert course.sheet_code(seat) in page
        assert course.secret not in page
        for other in course.roster():
            if other != seat:
                assert other not in re.sub("<style>.*?</style>", "", page, flags=re.DOTALL)
                assert course.sheet_code(other) not in page


def test_a_remark_of_the_student_is_on_the_feedback(course):
    hand_in(course, "A01", as_csv([[*row[:4], "took the <inner> gauge"] for row in right_rows(course, "A01")]))
    gradebook.written(course)
    page = (course.folder / "feedback" / "A01.html").read_text(encoding="utf-8")
    assert "took the &lt;inner&gt; gauge" in page


def test_another_secret_is_noticed_before_anybody_is_marked(course):
    course.secret_file.write_text("another sentence that is long enough", encoding="utf-8")
    with pytest.raises(TurbomathError, match="secret and assignment"):
        gradebook.written(Course(course.folder))
    assert not (course.folder / "grades.csv").exists()


def test_feedback_without_leave_shows_no_solution(tmp_path):
    course = begun(tmp_path)
    gradebook.written(course)
    assert "Worked solution" not in (course.folder / "feedback" / "A01.html").read_text(encoding="utf-8")


@pytest.mark.parametrize("text", ["=1+1", "+1", "-1", "@SUM(1)", " =1", "\t=1", "\n=1", "\u202e=1", "\u200b=1"])
def test_no_cell_is_written_that_a_spreadsheet_would_run(text):
    (row,) = csv.DictReader(io.StringIO(csv_text(("seat", "said"), [("A01", text)]).removeprefix("\ufeff")))
    assert row["said"].startswith("'")
    assert not {"\u202e", "\n", "\t"} & set(row["said"])
    assert row["said"].endswith(text.strip()[-1])


def test_marking_again_changes_nothing_and_keeps_no_copy(course):
    gradebook.written(course)
    before = {path: path.read_bytes() for path in course.folder.rglob("*") if path.is_file()}
    gradebook.written(course)
    assert {path: path.read_bytes() for path in course.folder.rglob("*") if path.is_file()} == before


def test_marking_again_after_a_new_hand_in_keeps_the_old_grades(course):
    gradebook.written(course)
    old = (course.folder / "grades.csv").read_bytes()
    hand_in(course, "B-7", as_csv(right_rows(course, "B-7")))
    _, paths = gradebook.written(course)
    kept = list((course.instructor / "history").iterdir())
    assert [path.read_bytes() for path in kept] == [old]
    assert re.fullmatch(r"grades-\d{4}-\d\d-\d\dT\d{6}\.csv", kept[0].name)
    assert kept[0] in paths
    newer = (course.folder / "grades.csv").read_bytes()
    hand_in(course, "A02", as_csv(right_rows(course, "A02")))  # within the same second
    gradebook.written(course)
    assert {path.read_bytes() for path in (course.instructor / "history").iterdir()} == {old, newer}


def test_no_student_file_is_changed_by_marking(course):
    before = {path: path.read_bytes() for path in course.students.rglob("*") if path.is_file()}
    gradebook.written(course)
    assert {path: path.read_bytes() for path in course.students.rglob("*") if path.is_file()} == before


def test_a_folder_that_is_none_is_refused_in_one_sentence(tmp_path):
    done = homework("gradebook", "nowhere", cwd=tmp_path)
    assert (done.returncode, done.stdout) == (1, "")
    assert done.stderr.count("\n") == 1
    assert "found 'no such file'" in done.stderr
