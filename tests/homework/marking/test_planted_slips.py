"""A hundred kinds of planted slips: nearly none is called by another's name, most of those on the list are named."""

from collections import Counter

import pytest

from tests.homework.marking.planted_slips import LISTED, SHOPS, UNLISTED, numbers
from tests.variants_made import whole_class
from turbomath.homework.marking.marking import mark

SEATS, FIGURES = 40, 4
MOST_NAMED_WRONGLY, FEWEST_NAMED = 0.002, 0.70


def found_for(variant, number):
    asked = variant.asked[-1]
    return mark(variant, f"{float(f'{number:.{FIGURES}g}'):f}", asked.unit(variant.units))


def test_there_are_a_hundred_kinds():
    assert len(LISTED) + len(UNLISTED) >= 100


@pytest.fixture(scope="module")
def seen(shop):
    """Count (listed or not, what was said) over all kinds, seats and both systems."""
    counts = Counter()
    for system, constants in SHOPS.items():
        for name, slip, codes in LISTED:
            for variant in whole_class(name, system, SEATS):
                found = found_for(variant, slip(constants, numbers(variant)))
                named = found.finding[0] in "MC"
                counts["listed", "truly" if found.finding in codes.split() else "wrongly" if named else "no"] += 1
                counts[name, codes, found.finding] += 1
        for name, off in UNLISTED:
            for variant in whole_class(name, system, SEATS):
                found = found_for(variant, off(shop(name, system, numbers(variant))))
                if not found.right:  # a tenth of a small gain is within rounding
                    counts["unlisted", "wrongly" if found.finding[0] in "MC" else "no"] += 1
    return counts


def test_nearly_no_number_is_called_by_the_name_of_a_slip_that_was_not_made(seen):
    whole = {key: count for key, count in seen.items() if len(key) == 2}
    wrongly = sum(count for (_, said), count in whole.items() if said == "wrongly")
    assert wrongly <= MOST_NAMED_WRONGLY * sum(whole.values()), seen  # of those by chance and of those by confusion
    listed = sum(count for (sort, _), count in whole.items() if sort == "listed")
    assert seen["listed", "wrongly"] <= MOST_NAMED_WRONGLY * listed, seen


def test_most_slips_on_the_list_are_named(seen):
    total = sum(count for key, count in seen.items() if key[0] == "listed")
    assert seen["listed", "truly"] >= FEWEST_NAMED * total, seen
