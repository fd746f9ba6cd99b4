"""Planted slips: nearly none is called by another's name, most of those on the list are named, however it is rounded.

`python -m tests.benchmarks.slips_named` prints the shares for more seats.
"""

import pytest

from tests.homework.marking.planted_slips import LISTED, UNLISTED
from tests.homework.marking.slips_named import FIGURES, counted, shares
from tests.variants_made import FEW, NUMERIC

MANY = 160
MOST_NAMED_WRONGLY, FEWEST_NAMED = 0.002, 0.70
SCATTER = 0.001  # of the first in a few thousand numbers: two standard deviations


def test_there_are_a_hundred_kinds_of_each_and_each_question_has_some():
    assert min(len(LISTED), len(UNLISTED)) >= 100
    assert {name for name, _ in UNLISTED} == set(NUMERIC)
    assert {name for name, _, _ in LISTED} == set(NUMERIC)


@pytest.mark.parametrize(("seats", "scatter"), [(FEW, SCATTER), pytest.param(MANY, 0.0, marks=pytest.mark.long)])
@pytest.mark.parametrize("figures", FIGURES)
def test_most_slips_are_named_and_nearly_nothing_else_by_their_names(system, figures, seats, scatter, shop):
    counts = counted(system, figures, seats, shop)
    astray = {key: count for key, count in counts.items() if len(key) == 3 and count}
    wrongly, of_the_listed, _, truly = shares(counts)
    assert wrongly <= MOST_NAMED_WRONGLY + scatter, astray
    assert of_the_listed <= MOST_NAMED_WRONGLY, astray
    assert truly >= FEWEST_NAMED, counts
