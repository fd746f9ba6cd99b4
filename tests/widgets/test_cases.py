"""What a panel works out for a case: once, many at once where asked, and a case that cannot be takes no other along."""

from types import SimpleNamespace

import pytest

from turbomath.table.errors import OutOfRangeError
from turbomath.widgets.cases import KEPT, Cases, alike, in_columns

TWELVE, WORST = 12.0, 13.0


def rows(*numbers):
    return [SimpleNamespace(number=one) for one in numbers]


class Asked(Cases):
    """Inverts numbers, and keeps what it was asked to work out."""

    def __init__(self):
        self.lists = []
        super().__init__(self.case, self.work)

    @staticmethod
    def case(controls):
        if controls.number < 0:
            raise OutOfRangeError("number must be 0 or more.")
        return (controls.number,)

    def work(self, cases):
        self.lists.append([number for (number,) in cases])
        if any(number == WORST for (number,) in cases):
            raise OutOfRangeError("not this one.")
        return [OutOfRangeError("nothing to divide by.") if number == 0 else 1 / number for (number,) in cases]


def test_a_case_is_worked_out_once_and_forgotten_after_many_others():
    found = Asked()
    for one in rows(TWELVE, 1.0, TWELVE):
        assert found(one) == 1 / one.number
    assert found.lists == [[TWELVE], [1.0]]
    for one in rows(*range(20, 20 + KEPT)):
        found(one)
    found(*rows(TWELVE))
    assert found.lists[-1] == [TWELVE]


def test_many_are_worked_out_at_once_and_all_of_them_kept():
    found, many = Asked(), rows(*range(20, 100), 27, -1)
    found.together(many)
    assert found.lists == [list(range(20, 100))]
    for one in [*rows(*range(200, 200 + KEPT)), *many[:-1]]:
        assert found(one) == 1 / one.number
    assert len(found.lists) == 1 + KEPT
    found.together(rows(*range(90, 103)))
    assert found.lists[-1] == [100, 101, 102]


def test_what_cannot_be_is_refused_when_it_is_asked_for_and_the_others_are_there():
    found = Asked()
    found.together(rows(-1, 0, TWELVE))
    assert found(*rows(TWELVE)) == 1 / TWELVE
    for number, words in ((-1, "0 or more"), (0, "divide by"), (0, "divide by")):
        with pytest.raises(OutOfRangeError, match=words):
            found(*rows(number))


def test_where_a_whole_list_is_refused_each_is_worked_out_alone():
    found = Asked()
    found.together(rows(TWELVE, WORST, 1.0))
    assert found.lists == [[TWELVE, WORST, 1.0], [TWELVE], [WORST], [1.0]]
    assert found(*rows(1.0)) == 1.0
    with pytest.raises(OutOfRangeError, match="not this one"):
        found(*rows(WORST))


def test_cases_that_begin_alike_are_worked_out_together_and_come_back_in_their_order():
    asked = []

    @alike
    def work(first, cases):
        asked.append((first, len(cases)))
        return [f"{first}{number}" for (number,) in cases]

    assert work([("a", 1), ("b", 2), ("a", 3)]) == ["a1", "b2", "a3"]
    assert asked == [("a", 2), ("b", 1)]


def test_numbers_of_one_case_stay_single():
    assert in_columns([(1.0, 2.0)]) == [1.0, 2.0]
    assert [one.tolist() for one in in_columns([(1.0, 2.0), (3.0, 4.0)])] == [[1.0, 3.0], [2.0, 4.0]]
