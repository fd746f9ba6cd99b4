"""Copies across seats: found where two seats share numbers, and silent on classes in which everybody worked alone."""

import dataclasses
import random
import re

import pytest

from tests.homework.a_class import as_csv, begun, hand_in, right_rows
from tests.homework.simulated_class import simulated
from tests.variants_made import NUMERIC
from turbomath.homework.marking import copies, gradebook
from turbomath.homework.marking.class_marks import class_marks

FOR_ALL = (
    "manifold_pressure_from_boost",
    "compressor_outlet_pressure",
    "pressure_ratio",
    "outlet_temperature",
    "mass_flow",
)
LONG = (pytest.param(24, 60, marks=pytest.mark.long), pytest.param(1000, 2, marks=pytest.mark.long))


def a_class(number, size, count=20, **more):
    draw = random.Random(number)
    return simulated(draw.sample(NUMERIC, count), size, draw, units=draw.choice(("us", "si")), **more)


@pytest.mark.parametrize(("size", "classes"), [(24, 6), *LONG])
def test_honest_classes_raise_no_alarm(size, classes):
    alarms = sum(bool(copies.shared_numbers(a_class(number, size))) for number in range(classes))
    assert alarms <= classes // 50


def test_a_seat_that_copies_most_answers_is_found_and_nobody_else():
    found = [copies.shared_numbers(a_class(number, 24, copiers=((3, 7),))) for number in range(3)]
    assert [[one.seats for one in told] for told in found] == [[("S0003", "S0007")]] * 3


def test_a_whole_row_of_copiers_is_told_as_one_group():
    marks = a_class(1, 24, copiers=tuple((who, 0) for who in range(1, 18)), copied=0.9)
    (found,) = copies.shared_numbers(marks)
    assert found.seats == tuple(f"S{place:04}" for place in range(18))


def test_a_sheet_that_is_the_same_for_all_tells_nothing_of_copying():
    one = a_class(1, 1)[0]
    assert copies.shared_numbers([dataclasses.replace(one, seat=f"S{number}") for number in range(5)]) == ()


@pytest.fixture
def swapped(tmp_path):
    """A class of three in which A01 handed in what is right for A02."""
    course = begun(tmp_path, questions=tuple((name, 1) for name in FOR_ALL))
    for seat, whose in (("A01", "A02"), ("A02", "A02"), ("B-7", "B-7")):
        hand_in(course, seat, as_csv(right_rows(course, whose)))
    return course


def test_another_seats_right_numbers_are_said_as_look_at_and_with_what_else_it_may_be(swapped):
    (found,) = copies.shared_numbers(class_marks(swapped))
    assert (found.seats, found.right_for) == (("A01", "A02"), "A02")
    assert len(found.questions) >= copies.FEWEST
    said = gradebook.on_terminal(class_marks(swapped), swapped.assignment)
    assert "Look at A01 and A02: they share numbers in" in said
    assert "right for A02" in said
    assert "good reason" in said
    assert not re.search("cheat|copied|copying|plagiar|dishonest|suspic", said, re.IGNORECASE)
    gradebook.written(swapped)
    assert "Look at A01 and A02" in (swapped.instructor / gradebook.RESULTS).read_text(encoding="utf-8")
    for seat in swapped.roster():
        assert "Look at" not in (swapped.folder / gradebook.FEEDBACK / f"{seat}.html").read_text(encoding="utf-8")


def test_another_seats_right_numbers_are_seen_where_that_seat_handed_in_nothing(swapped):
    (swapped.student("A02") / "answers.csv").unlink()
    (found,) = copies.shared_numbers(class_marks(swapped))
    assert found.seats == ("A01", "A02")


def test_numbers_that_are_wrong_for_everybody_and_stand_in_two_seats_are_seen(tmp_path):
    seats = tuple(f"A{place:02}" for place in range(12))
    course = begun(tmp_path, questions=tuple((name, 1) for name in FOR_ALL), seats=seats)
    for place, seat in enumerate(seats):
        rows = right_rows(course, seats[max(place, 1)])
        for row in rows if place < 2 else ():
            number, *unit = row[2].split()
            row[2] = " ".join([f"{1.137 * float(number):.5g}", *unit])
        hand_in(course, seat, as_csv(rows))
    (found,) = copies.shared_numbers(class_marks(course))
    assert (found.seats, found.right_for) == (("A00", "A01"), "")


def test_a_number_that_half_the_class_wrote_says_nothing(tmp_path):
    seats = tuple(f"A{place:02}" for place in range(12))
    course = begun(tmp_path, questions=tuple((name, 1) for name in FOR_ALL), seats=seats)
    for seat in seats:
        rows = [[row[0], row[1], "14.7 " + " ".join(row[2].split()[1:]), "", ""] for row in right_rows(course, seat)]
        hand_in(course, seat, as_csv(rows))
    assert copies.shared_numbers(class_marks(course)) == ()
