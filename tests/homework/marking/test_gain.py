"""A class before and after a course: Hake's gain, which misconception was kept, and nobody named."""

import random
import re

import numpy as np
import pytest

from tests.homework.a_class import as_csv, hand_in
from tests.homework.command import homework
from turbomath.homework.asking.variant import LETTERS
from turbomath.homework.bank import before_and_after as questions
from turbomath.homework.course import before_and_after, hand_out
from turbomath.homework.marking import gain, gain_page
from turbomath.homework.marking.class_marks import class_marks
from turbomath.table.errors import TurbomathError

SEATS = tuple(f"Q{place:02}" for place in range(12))
BELIEVED = "M4"  # that boost is air: what nobody gives up


@pytest.fixture(scope="module")
def twice(tmp_path_factory):
    """The folders of a class before and after: M4 wrong both times, the rest half right and then all right."""
    place = tmp_path_factory.mktemp("twice")
    (place / "seats.csv").write_text("".join(f"{seat}\n" for seat in SEATS), encoding="utf-8")
    draw = random.Random(4)
    courses = [
        hand_out.write("before_and_after", place / "seats.csv", place / one).course for one in ("before", "after")
    ]
    for course, share in zip(courses, (0.5, 1.0), strict=True):
        for seat, variants in course.all_variants().items():
            rows = [
                [name, "", _letter(name, variant, draw.random() < share), "", ""] for name, variant in variants.items()
            ]
            hand_in(course, seat, as_csv(rows))
    return courses


def _letter(name, variant, right):
    codes = {letter: one.code for letter, one in zip(LETTERS, variant.asked, strict=False)}
    if name == "more_boost_or_cooler":
        return next(letter for letter, code in codes.items() if code == BELIEVED)
    return next(letter for letter, code in codes.items() if bool(code) is not right)


@pytest.fixture(scope="module")
def found(twice):
    return gain.gain(*map(class_marks, twice))


def test_a_gain_that_hangs_on_one_seat_has_no_width():
    """Leave out the one seat that had something to gain, and nothing is left to gain of."""
    right = np.array([[0.4, 0.9], *[[1.0, 1.0]] * (gain.FEWEST - 1)])
    share, width = gain.Gain(len(right), {}, right, ()).normalised
    assert share == pytest.approx((0.9 - 0.4) / (1 - 0.4))
    assert np.isnan(width)


def test_the_second_time_brings_other_numbers_for_the_same_slips(twice):
    first, second = (course.all_variants()["Q00"] for course in twice)
    assert len(first) == 10
    for name in first:
        assert first[name].text != second[name].text
        assert {one.code for one in first[name].asked} == {one.code for one in second[name].asked}


def test_each_question_has_one_right_option_and_distinct_ones_in_both_systems():
    from turbomath.homework.asking import variants

    for question in questions.QUESTIONS:
        for system in ("us", "si"):
            seats = [f"s{n}" for n in range(60)]
            for one in variants.make_all(question, secret="s", assignment="a", seats=seats, units=system):
                assert len({option.words for option in one.asked}) == len(one.asked) == 3, one.text
                assert sum(not option.code for option in one.asked) == 1


def test_the_gain_is_the_share_of_what_could_be_gained(found):
    """Hake, American Journal of Physics 66, 64 (1998): (post - pre) / (100 - pre) of the class averages."""
    before, after = found.shares
    assert after == pytest.approx(0.9)  # nine of ten: one misconception was kept by all
    assert found.questions["more_boost_or_cooler"] == (0.0, 0.0)
    assert sorted(after for _, after in found.questions.values()) == [0.0] + [1.0] * 9
    value, half = found.normalised
    assert value == pytest.approx((after - before) / (1 - before))
    assert value >= gain.LOW
    draws = np.random.default_rng(1).integers(0, len(SEATS), (4000, len(SEATS)))
    again = found.right[draws].mean(axis=1)  # bootstrap, Efron and Tibshirani, 1993
    assert half == pytest.approx(2 * np.std((again[:, 1] - again[:, 0]) / (1 - again[:, 0])), rel=0.25)


def test_it_says_which_misconception_was_kept(found):
    assert (found.survived.code, found.survived.after, found.survived.both) == (BELIEVED, 12, 12)
    assert "boost taken for airflow (M4), in 12 answers after" in gain_page.survived(found)


def test_the_page_names_no_seat_and_claims_no_learning(twice):
    said = before_and_after.written(*(course.folder for course in twice))
    page = (twice[1].instructor / before_and_after.PAGE).read_text(encoding="utf-8")
    for text in (said, re.sub("<style>.*?</style>", "", page, flags=re.DOTALL)):
        assert not any(seat in text for seat in SEATS)
        assert not any(course.sheet_code(seat) in text for course in twice for seat in SEATS)
        assert "No claim is made for learning" in text
        assert "Hake" in text
        assert "Normalised gain: 0." in text


def test_a_class_too_small_for_a_gain_is_told_so(found):
    few = gain.Gain(6, found.questions, found.right[:6], found.kept)
    assert few.normalised is None
    assert "it takes 10 seats" in " ".join(gain_page.sentences(few))
    perfect = gain.Gain(12, found.questions, np.ones((12, 2)), ())
    assert "nothing" not in gain_page.survived(perfect)
    assert "everything was right before" in " ".join(gain_page.sentences(perfect))


@pytest.mark.parametrize("trouble", ["few", "the same folder", "other questions"])
def test_what_cannot_be_compared_is_refused_in_one_sentence(tmp_path, trouble):
    (tmp_path / "seats.csv").write_text("A01\nA02\n", encoding="utf-8")
    other = "gauge_to_density" if trouble == "other questions" else "before_and_after"
    for name, assignment in (("before", "before_and_after"), ("after", other)):
        hand_out.write(assignment, tmp_path / "seats.csv", tmp_path / name)
    second = tmp_path / ("before" if trouble == "the same folder" else "after")
    with pytest.raises(TurbomathError) as refused:
        before_and_after.written(tmp_path / "before", second)
    assert "\n" not in str(refused.value)
    assert ": found " in str(refused.value)
    assert ", expected " in str(refused.value)


def test_the_command_prints_and_writes_it(twice):
    done = homework("gain", twice[0].folder, twice[1].folder, cwd=twice[0].folder)
    assert done.returncode == 0, done.stderr
    assert "Kept most" in done.stdout
    assert before_and_after.PAGE in done.stdout
