"""Whole classes of variants, made once for all tests that look at them."""

import functools
import pathlib
import runpy

import pytest

from turbomath.homework.asking import variants
from turbomath.homework.bank import QUESTIONS
from turbomath.homework.bank.question import Choice

SECRET, ASSIGNMENT = "a sentence only the teacher knows", "week 3"


@functools.cache
def _whole_class(name, system, size):
    seats = [f"seat {number}" for number in range(size)]
    return variants.make_all(name, secret=SECRET, assignment=ASSIGNMENT, seats=seats, units=system)


@pytest.fixture(scope="session")
def whole_class():
    """Return a function (question, system, size) -> variants; a smaller class is the beginning of the largest."""

    def of(name, system="us", size=1000):
        return _whole_class(name, system, 1000)[:size]

    return of


@pytest.fixture(scope="session")
def shop():
    """Return a function (question, system, numbers on the sheet) -> answer in shop arithmetic, from shop.py."""
    page = runpy.run_path(str(pathlib.Path(__file__).with_name("shop.py")))
    constants = {"us": page["US"], "si": page["SI"]}
    return lambda name, system, numbers: page["SHOP"][name](constants[system], numbers)


NUMERIC = [name for name, question in QUESTIONS.items() if not isinstance(question, Choice)]


def pytest_generate_tests(metafunc):
    if "numeric" in metafunc.fixturenames:
        metafunc.parametrize("numeric", NUMERIC)
    if "system" in metafunc.fixturenames:
        metafunc.parametrize("system", ["us", "si"])
