"""What the tests of homework are run over: every question with numbers, both systems of units, few seats or many."""

import pathlib
import runpy

import pytest

from tests.variants_made import NUMERIC, SIZES, SYSTEMS


@pytest.fixture(scope="session")
def shop():
    """Return a function (question, system, numbers on the sheet) -> answer in shop arithmetic, from shop.py."""
    page = runpy.run_path(str(pathlib.Path(__file__).with_name("shop.py")))
    constants = {"us": page["US"], "si": page["SI"]}
    return lambda name, system, numbers: page["SHOP"][name](constants[system], numbers)


def pytest_generate_tests(metafunc):
    for name, values in (("numeric", NUMERIC), ("system", SYSTEMS), ("class_size", SIZES)):
        if name in metafunc.fixturenames:
            metafunc.parametrize(name, values)
