"""The sample class: every planted mistake is found and named, the marks are those on record, and all is INVENTED."""

import csv

import pytest

from tests.homework.a_class import read
from tests.homework.command import homework
from turbomath.homework.course import sample_class
from turbomath.homework.marking import gradebook
from turbomath.homework.marking.class_marks import class_marks

PLANTED = read(sample_class.shipped() / "planted.csv")
SEEN_AS = {"unreadable": "waiting", "twice": "waiting"}  # what the marker calls those
NO_FINDING = ("unanswered", *SEEN_AS)


@pytest.fixture(scope="module")
def course(tmp_path_factory):
    return sample_class.copied(tmp_path_factory.mktemp("sample") / "class")


@pytest.fixture(scope="module")
def marks(course):
    return class_marks(course)


def test_every_finding_is_planted_somewhere():
    planted = {row["planted"] for row in PLANTED}
    codes = {f"M{number}" for number in range(1, 19)}
    assert planted == {"right", "unit", "rounding", "carried", "none", *NO_FINDING, *codes}
    assert len({row["seat"] for row in PLANTED}) == 24
    assert sum(row["planted"] not in ("right", *NO_FINDING) for row in PLANTED) >= 60


def test_every_planted_mistake_is_found_and_named(marks):
    found = {(one.seat, part.question, part.part): part for one in marks for part in one.parts}
    assert len(found) == len(PLANTED)
    for row in PLANTED:
        part = found[row["seat"], row["question"], row["part"]]
        expected = "not read" if row["seat"] == sample_class.BROKEN else SEEN_AS.get(row["planted"], row["planted"])
        assert part.finding == expected, row
        assert (not part.said) == (row["planted"] == "unanswered" or row["seat"] == sample_class.BROKEN)
        assert part.waits == (expected in ("waiting", "not read"))


def test_the_marks_are_those_on_record(marks):
    record = [tuple(row.values()) for row in read(sample_class.shipped() / "marks.csv")]
    assert sample_class.record(marks) == record


def test_the_broken_file_is_named_and_stops_nobody(marks):
    refused = {one.seat: one.refused for one in marks if one.refused}
    assert list(refused) == [sample_class.BROKEN]
    assert "expected the names question, part, answer, unit, remark" in refused[sample_class.BROKEN][0]


def test_a_right_answer_is_right_in_plain_shop_arithmetic(course):
    """Two questions worked with a pocket calculator: 1 inHg = 0.491 psi, °R = °F + 460 (common practice)."""
    variants = course.all_variants()
    said = {(row["seat"], row["question"]): row["answer"] for row in PLANTED if row["planted"] == "right"}
    for seat in sample_class.SEATS:
        name = "manifold_pressure_from_boost"
        if (seat, name) in said:
            givens = variants[seat][name].givens
            worked = float(givens["barometer"].text) * 0.491 + float(givens["boost"].text)
            assert float(said[seat, name].split()[0]) == pytest.approx(worked, rel=0.005)
        name = "outlet_temperature"
        if (seat, name) in said:
            inlet, ratio, efficiency = (float(one.text) for one in variants[seat][name].givens.values())
            ideal = (inlet + 460) * ratio**0.286 - 460
            worked = inlet + (ideal - inlet) / efficiency
            assert float(said[seat, name].split()[0].replace("−", "-")) == pytest.approx(worked, abs=3)


def test_the_recipe_makes_it_again_to_the_last_letter(course):
    found = sample_class.plants(course)
    again = [
        (seat, name, part, answer)
        for seat, questions in found.items()
        for name, parts in questions.items()
        for part, _, answer in parts
    ]
    shipped = [(row["seat"], row["question"], row["part"], row["answer"].removeprefix("'")) for row in PLANTED]
    assert [tuple(one) for one in again] == shipped


def test_it_says_that_it_is_invented(course):
    assert "INVENTED" in course.secret
    assert "INVENTED" in course.assignment.title
    assert course.assignment_file.read_text(encoding="utf-8").startswith("# INVENTED")
    assert all("INVENTED" in student for student, _ in course.roster().values())


def test_an_instructor_can_try_marking_before_term(tmp_path):
    done = homework("sample", "try", cwd=tmp_path)
    assert done.returncode == 0, done.stderr
    assert "INVENTED" in done.stdout
    done = homework("gradebook", "try", cwd=tmp_path)
    assert done.returncode == 0, done.stderr
    assert len(list((tmp_path / "try" / "feedback").glob("*.html"))) == 24
    with (tmp_path / "try" / "grades.csv").open(encoding="utf-8-sig", newline="") as stream:
        assert len(list(csv.DictReader(stream))) == len(PLANTED)
    again = homework("sample", "try", cwd=tmp_path)
    assert (again.returncode, again.stdout, again.stderr.count("\n")) == (1, "", 1)
    assert (tmp_path / "try" / gradebook.GRADES).exists()
