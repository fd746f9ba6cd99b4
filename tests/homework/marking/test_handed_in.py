"""Answers come in three ways and from any spreadsheet; two that differ are not guessed at."""

import json
import os
import re
import time

import pytest

from tests.homework.a_class import as_csv, begun, hand_in, right_rows, variants_of
from turbomath import __version__
from turbomath.homework.marking import answer_files
from turbomath.homework.marking.class_marks import class_marks
from turbomath.table.errors import RefusedFileError


@pytest.fixture
def course(tmp_path):
    return begun(tmp_path)


def marked(course, seat):
    return next(one for one in class_marks(course) if one.seat == seat)


def findings(course, seat):
    return [part.finding for part in marked(course, seat).parts]


def as_json(course, seat, rows, changes=()):
    answers = [dict(zip(answer_files.FIELDS, row, strict=True)) for row in rows]
    content = {
        "schema": "turbomath-answers-1",
        "seat": seat,
        "sheet": course.sheet_code(seat),
        "kit": __version__,
        "answers": answers,
    }
    return json.dumps(content | dict(changes))


def test_a_filled_csv_is_marked_with_the_points_of_each_part(course):
    hand_in(course, "A01", as_csv(right_rows(course, "A01")))
    found = marked(course, "A01")
    assert [part.finding for part in found.parts] == ["right"] * 4
    assert [part.points for part in found.parts] == [2, 2, 2, 1]
    assert found.points == course.assignment.points == 7
    assert marked(course, "A02").points == 0


def test_the_blank_file_itself_is_no_answer(course):
    found = marked(course, "A01")
    assert {part.message for part in found.parts} == {"Nothing was handed in."}
    assert {part.finding for part in found.parts} == {"not handed in"}
    assert not found.waiting
    assert not found.refused
    assert not found.notes


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "cp1252"])
@pytest.mark.parametrize(("separator", "decimal"), [(",", "."), (";", ","), (";", "."), ("\t", ".")])
def test_any_spreadsheet_will_do(course, separator, decimal, encoding):
    rows = [
        [*row[:2], row[2].replace(".", decimal).replace("−", "-"), "", "größer"] for row in right_rows(course, "A01")
    ]
    hand_in(course, "A01", as_csv(rows, separator).encode(encoding))
    assert findings(course, "A01") == ["right"] * 4


def test_a_comma_with_three_figures_behind_is_a_decimal_comma_where_semicolons_separate(tmp_path):
    course = begun(tmp_path, [("pressure_ratio", 1)])
    answer = f"{variants_of(course, 'A01')['pressure_ratio'].key['pressure_ratio']:.3f}"
    rows = [["pressure_ratio", "pressure_ratio", answer.replace(".", ","), "", ""]]
    hand_in(course, "A01", as_csv(rows, ";"))
    assert findings(course, "A01") == ["right"]
    hand_in(course, "A01", as_csv(rows, ","))  # in quotes: no ratio is in the thousands
    assert findings(course, "A01") == ["right"]
    hand_in(course, "A01", as_csv([["pressure_ratio", "pressure_ratio", answer, "", ""]], ";"))
    assert findings(course, "A01") == ["right"]


def test_columns_in_another_order_and_a_unit_of_its_own_will_do(course):
    answer, _, unit = right_rows(course, "A01")[0][2].partition(" ")
    hand_in(
        course,
        "A01",
        as_csv(
            [[unit, answer, "", "manifold_pressure", "Manifold pressure from boost"]],
            head=("UNIT", " Answer", "remark", "part", "question"),
        ),
    )
    assert findings(course, "A01")[0] == "right"


def test_the_notebook_file_is_marked_too(course):
    hand_in(course, "A02", as_json(course, "A02", right_rows(course, "A02")), "answers.json")
    assert findings(course, "A02") == ["right"] * 4


@pytest.mark.parametrize(
    ("changes", "said"),
    [
        ({"seat": "A01"}, "column 'seat'"),
        ({"sheet": "abcd-efgh"}, "column 'sheet'"),
        ({"schema": "other"}, "schema"),
        ({"kit": 1}, "in quotes"),
        ({"answers": {}}, "a list"),
        ({"more": "x"}, "'more'"),
        ({"answers": ["x"]}, "names"),
    ],
)
def test_a_notebook_file_of_another_sheet_or_shape_is_refused(course, changes, said):
    hand_in(course, "A02", as_json(course, "A02", right_rows(course, "A02"), changes), "answers.json")
    found = marked(course, "A02")
    assert [part.finding for part in found.parts] == ["not read"] * 4
    assert found.waiting == found.parts  # nobody is given 0 for a file that was not read
    assert len(found.refused) == 1
    assert said in found.refused[0]
    assert found.refused[0] in found.parts[0].message


def test_a_grid_from_paper_is_marked(course):
    rows = {seat: [row[2] for row in right_rows(course, seat)] for seat in ("A01", "B-7")}
    head = (
        "seat",
        "manifold pressure from boost",
        "compressor_outlet_pressure / compressor_outlet_boost",
        "compressor_outlet_pressure/compressor_outlet_pressure",
        "two_mechanics",
    )
    grid = as_csv([[seat.lower(), *cells] for seat, cells in rows.items()], head=head)
    (course.instructor / "answers_grid.csv").write_text(grid, encoding="utf-8")
    assert findings(course, "A01") == findings(course, "B-7") == ["right"] * 4
    assert findings(course, "A02") == ["not handed in"] * 4


@pytest.mark.parametrize(("separator", "right"), [(",", True), (";", False)])
def test_a_comma_is_no_mark_of_thousands_where_semicolons_part_the_columns(course, separator, right):
    variant = course.all_variants()["A01"]["manifold_pressure_from_boost"]
    pascals = f"{variant.key['manifold_pressure']:,.0f} Pa abs"
    assert re.fullmatch(r"\d{3},\d{3} Pa abs", pascals)
    name, part = right_rows(course, "A01")[0][:2]
    hand_in(course, "A01", as_csv([[name, part, pascals, "", ""]], separator))
    assert (findings(course, "A01")[0] == "right") == right
    (course.student("A01") / "answers.csv").unlink()
    grid = course.instructor / "answers_grid.csv"
    grid.write_text(as_csv([["A01", pascals]], separator, ("seat", name)), encoding="utf-8")
    assert (findings(course, "A01")[0] == "right") == right


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("seat,nonsense\nA01,1\n", "'nonsense'"),
        ("seat,two_mechanics\nZ99,A\n", "row 2, column 'seat': found 'Z99'"),
        ("seat,compressor_outlet_pressure\nA01,1\n", "compressor_outlet_boost"),
        ("a,b\n1,2\n", "seat"),
        ("seat,two_mechanics\n../A01,A\n", "'../A01'"),
    ],
)
def test_a_grid_that_does_not_fit_is_refused_before_anything_is_marked(course, text, said):
    (course.instructor / "answers_grid.csv").write_text(text, encoding="utf-8")
    with pytest.raises(RefusedFileError, match=r"answers_grid\.csv") as refusal:
        class_marks(course)
    assert said in str(refusal.value)


def test_two_answers_that_differ_wait_and_both_are_named(course):
    rows = right_rows(course, "A01")
    hand_in(course, "A01", as_csv(rows))
    other = [["manifold_pressure_from_boost", "manifold_pressure", "12 psi abs", "", ""], *rows[1:]]
    hand_in(course, "A01", as_json(course, "A01", other), "answers.json")
    found = marked(course, "A01")
    assert [part.finding for part in found.parts] == ["waiting", "right", "right", "right"]
    assert found.parts[0].waits
    for words in ("A01/answers.csv, row 2", "A01/answers.json, row 1", rows[0][2], "'12 psi abs'", "Nothing was"):
        assert words in found.parts[0].message


def test_the_same_answer_twice_is_no_contradiction(course):
    rows = right_rows(course, "A01")
    hand_in(course, "A01", as_csv(rows))
    split = [[*row[:2], *row[2].partition(" ")[::2], ""] for row in rows]
    hand_in(course, "A01", as_json(course, "A01", split), "answers.json")
    assert findings(course, "A01") == ["right"] * 4


def test_two_rows_of_one_file_that_differ_wait_too(course):
    rows = right_rows(course, "A01")
    hand_in(course, "A01", as_csv([*rows, [*rows[1][:2], "1 psi", "", ""]]))
    found = marked(course, "A01").parts
    assert [part.finding for part in found] == [
        "right",
        "waiting",
        "waiting",
        "right",
    ]  # both parts of that question wait
    assert "row 3" in found[2].message
    assert "row 6" in found[2].message


@pytest.mark.parametrize(
    ("row", "said"),
    [
        (["hot_day", "", "1 °F", "", ""], "row 2, column 'question': found 'hot_day'"),
        (["two_mechanic", "", "A", "", ""], "nearest is 'two_mechanics'"),
        (["compressor_outlet_pressure", "", "1 psi", "", ""], "compressor_outlet_boost, compressor_outlet_pressure"),
        (["two_mechanics", "", "A", "", "", "more"], "6 cells"),
        (["two_mechanics", "", "A" * 3000, "", ""], "2,000"),
    ],
)
def test_a_row_that_does_not_fit_refuses_the_file_and_nobody_elses(course, row, said):
    hand_in(course, "A01", as_csv([row, *right_rows(course, "A01")]))
    hand_in(course, "A02", as_csv(right_rows(course, "A02")))
    found = marked(course, "A01")
    assert len(found.refused) == 1
    assert said in found.refused[0]
    assert found.points == 0
    assert marked(course, "A02").points == 7


def test_a_later_part_is_marked_on_the_students_own_earlier_part(course):
    variant = variants_of(course, "A01")["compressor_outlet_pressure"]
    boost, barometer = variant.givens["boost"], variant.givens["barometer"]
    gauge = float(boost.text) + 2 * float(variant.givens["cooler_pressure_loss"].text)  # counted twice
    rows = [
        ["compressor_outlet_pressure", "compressor_outlet_boost", f"{gauge:.2f}", "psi", ""],
        [
            "compressor_outlet_pressure",
            "compressor_outlet_pressure",
            f"{gauge + float(barometer.text) * 0.49115:.2f}",
            "psi abs",
            "",
        ],
    ]
    hand_in(course, "A01", as_csv(rows))  # 0.49115 psi in an inHg: NIST SP 811, B.8
    found = marked(course, "A01").parts
    assert [part.finding for part in found[1:3]] == ["none", "carried"]
    assert [part.points for part in found[1:3]] == [0, 1.5]
    hand_in(course, "A01", as_csv(rows[1:]))  # without the earlier value there is nothing to carry
    assert findings(course, "A01")[2] == "none"


def test_a_step_that_was_not_asked_for_may_be_written_down_and_helps(tmp_path):
    course = begun(tmp_path, [("outlet_temperature", 2)])
    variant = variants_of(course, "A01")["outlet_temperature"]
    inlet = float(variant.givens["compressor_inlet_temperature"].text)
    ideal = round(variant.key["ideal_outlet_temperature"] * 1.8 - 459.67) + 30.0  # wrong, and far enough to be so
    outlet = inlet + (ideal - inlet) / float(variant.givens["compressor_efficiency"].text)
    hand_in(
        course,
        "A01",
        as_csv(
            [
                ["outlet_temperature", "ideal outlet temperature", f"{ideal} °F", "", ""],
                ["outlet_temperature", "", f"{outlet:.1f} °F", "", ""],
            ]
        ),
    )
    assert findings(course, "A01") == ["carried"]
    assert marked(course, "A01").points == 1.5


def test_late_is_said_and_not_punished(tmp_path):
    course = begun(tmp_path, head="due = 2026-03-12")
    path = hand_in(course, "A01", as_csv(right_rows(course, "A01")))
    for day, late in (("2026-03-12", False), ("2026-03-13", True)):
        noon = time.mktime(time.strptime(f"{day} 12:00", "%Y-%m-%d %H:%M"))
        os.utime(path, (noon, noon))
        found = marked(course, "A01")
        assert found.points == 7
        assert any("Late" in words and day in words and "2026-03-12" in words for words in found.notes) is late
    assert marked(course, "A02").notes == ()


def test_other_files_are_named_and_not_opened(course):
    hand_in(course, "A01", b"print(1)", "homework.py")
    hand_in(course, "A01", b"{}", "homework.ipynb")
    (note,) = marked(course, "A01").notes
    assert note.startswith("Not opened: homework.ipynb, homework.py. Answers are read from answers.csv")
