"""Classes of variants and their worked solutions, made once for all tests that look at them."""

import functools

import pytest

from turbomath import working
from turbomath.homework.asking import variants
from turbomath.homework.bank import QUESTIONS
from turbomath.homework.bank.question import Choice

SECRET, ASSIGNMENT = "a sentence only the teacher knows", "week 3"
FEW, MANY = 25, 1000  # seats of a plain run, and of a long one
SIZES = (FEW, pytest.param(MANY, marks=pytest.mark.long))
SYSTEMS = ("us", "si")
NUMERIC = [name for name, question in QUESTIONS.items() if not isinstance(question, Choice)]
_made = {}


def whole_class(name, system="us", size=FEW):
    """Return the variants of the first seats of a class; those of a smaller class begin those of a larger one."""
    made = _made.get((name, system), ())
    if len(made) < size:
        seats = [f"seat {number}" for number in range(size)]
        made = variants.make_all(name, secret=SECRET, assignment=ASSIGNMENT, seats=seats, units=system)
        _made[name, system] = made
    return made[:size]


@functools.cache
def solutions(name, sheet, shown):
    """Return (variant, worked solution in the units *shown*) of each of a few sheets in the units *sheet*."""
    return tuple((one, working.solution(one, units=shown)) for one in whole_class(name, sheet))
