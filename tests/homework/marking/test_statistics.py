"""Item statistics: facility, discrimination and which answer drew whom, and silence where a class is too small."""

import math

import pytest

from tests.homework.a_class import as_csv, begun, hand_in, right_rows
from turbomath.homework.marking import gradebook, statistics
from turbomath.homework.marking.class_marks import class_marks
from turbomath.homework.marking.class_page import class_results_page
from turbomath.homework.marking.statistics import Share, Statistic
from turbomath.paper.unbroken import NO_BREAK

PRESSURE, OUTLET, MECHANICS = "manifold_pressure_from_boost", "compressor_outlet_pressure", "two_mechanics"


@pytest.mark.parametrize(("right", "of"), [(0, 12), (3, 10), (18, 24), (24, 24)])
def test_the_ends_of_a_share_are_those_from_which_it_is_two_standard_errors_away(right, of):
    """The definition of the interval: NIST/SEMATECH e-Handbook of Statistical Methods, 7.2.4.1; Wilson, 1927."""
    for end in Share(right, of).ends:
        assert (right / of - end) ** 2 == pytest.approx(statistics.SURE**2 * end * (1 - end) / of, abs=1e-12)


@pytest.fixture(scope="module")
def course(tmp_path_factory):
    """A class of 24: the first twelve all right, the others with the gauge as absolute and a wrong option."""
    seats = tuple(f"A{place:02}" for place in range(24))
    course = begun(tmp_path_factory.mktemp("class"), seats=seats)
    variants = course.all_variants()
    for place, seat in enumerate(seats):
        rows = {(row[0], row[1]): row for row in right_rows(course, seat)}
        if place >= 12:
            boost = variants[seat][PRESSURE].givens["boost"]
            rows[PRESSURE, "manifold_pressure"] = [PRESSURE, "", f"{boost.text} psi abs", "", ""]
            wrong = next(letter for letter, one in zip("ABC", variants[seat][MECHANICS].asked, strict=True) if one.code)
            rows[MECHANICS, ""] = [MECHANICS, "", wrong, "", ""]
        hand_in(course, seat, as_csv(rows.values()))
    return course


@pytest.fixture(scope="module")
def found(course):
    return {one.question: one for one in statistics.statistics(class_marks(course))}


def test_a_question_that_only_the_best_can_do_sets_them_apart(found):
    """By hand: 27 % of 24 is 6 at either end; the best six are right, the weakest six are not."""
    one = found[PRESSURE]
    assert (one.right, one.best, one.weakest, one.group) == (Share(12, 24), Share(6, 6), Share(0, 6), 6)
    value, half = one.discrimination
    assert value == 1
    assert half == pytest.approx(2 * math.sqrt(2 * (7 / 8) * (1 / 8) / 8))
    assert one.discrimination_told == "those who did well elsewhere do clearly better here"
    assert found[OUTLET].discrimination[0] == 0
    assert found[OUTLET].discrimination_told.startswith("cannot tell")
    assert found[OUTLET].facility_told == "nearly all can do this"


def test_it_says_which_answer_drew_whom(found):
    mistake = next(one for one in found[PRESSURE].drew if one.answer == "M1")
    assert (mistake.seats, mistake.best, mistake.weakest) == (tuple(f"A{n}" for n in range(12, 24)), 0, 6)
    options = [one for one in found[MECHANICS].drew if not one.answer.endswith("(right)")]
    assert sum(len(one.seats) for one in options) == 12
    assert all(" " in one.answer for one in options)  # in the words of the option, as each seat has its own letters


def test_a_small_class_is_told_that_it_is_too_small(tmp_path):
    course = begun(tmp_path)
    hand_in(course, "A01", as_csv(right_rows(course, "A01")))
    marks = class_marks(course)
    one = statistics.statistics(marks)[0]
    assert one.discrimination is None
    assert "too few answers" in one.facility_told
    assert "class is too small" in one.discrimination_told
    page = class_results_page(marks, course.assignment, {"A01": "Zoë <b>"})
    assert f"1 of {len(marks)} seats have handed in." in page
    assert "Zoë &lt;b&gt;" in page
    assert page.count(">not handed in<") == len(marks) - 1
    assert "1 of 1" in page
    assert "100 %" not in page


def test_the_weaker_doing_better_is_a_reason_to_look_at_the_question():
    one = Statistic("", Share(12, 24), Share(0, 6), Share(6, 6), 6, ())
    assert "its wording and its key" in one.discrimination_told


def test_the_page_says_in_words_what_each_number_means(course):
    gradebook.written(course)
    page = (course.instructor / gradebook.RESULTS).read_text(encoding="utf-8").replace(NO_BREAK, " ")
    for words in ("Share right:", "Sets apart:", "50 % (31 to 69 %)", "M1: gauge pressure taken as absolute", "A23"):
        assert words in page, words
