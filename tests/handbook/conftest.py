"""The handbook and the sheet, made once for all tests that only look at them."""

import pytest

from tests.handbook.a_page import Page
from turbomath.handbook import book, sheet


@pytest.fixture(scope="session")
def html():
    return book.handbook()


@pytest.fixture(scope="session")
def page(html):
    return Page(html)


@pytest.fixture(scope="session")
def sheet_page():
    return Page(sheet.formula_sheet())
