"""Fixtures of the widget tests."""

import pytest

from tests.widgets.told import opened


@pytest.fixture
def panel():
    """Return the lesson's panel with a prediction made and nothing held."""
    return opened()
