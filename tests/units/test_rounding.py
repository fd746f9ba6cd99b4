"""Numbers as they are shown: the digits that the ± allows (GUM 7.2.6), a real minus, nothing invented."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from turbomath.units.rounding import fixed, rounded, with_plus_or_minus


def test_digits_follow_the_plus_or_minus():
    cases = [
        (0.7951, 0.0188, "0.795 ± 0.019"),
        (0.7351, 0.0312, "0.74 ± 0.03"),
        (0.7351, 0.0240, "0.74 ± 0.02"),  # half of it is 0.012
        (0.7351, 0.0199, "0.735 ± 0.020"),  # and here 0.00995
        (143.2, 5.31, "143 ± 5"),
        (-0.614, 4.2, "−1 ± 4"),
        (-0.3, 4.2, "0 ± 4"),  # no minus before a zero
        (26_412.0, 512.0, "26412 ± 512"),
        (2.5, 0.0, "2.5"),
        (2.5, math.nan, "2.5"),
        (math.nan, 0.1, "–"),
        (math.inf, 0.1, "–"),
    ]
    for value, width, text in cases:
        assert with_plus_or_minus(value, width) == text


@given(st.floats(-1e6, 1e6), st.floats(1e-6, 1e5))
def test_what_is_shown_is_within_a_quarter_of_its_plus_or_minus(value, width):
    shown, its_width = (float(part.replace("−", "-")) for part in with_plus_or_minus(value, width).split(" ± "))
    assert abs(shown - value) <= width / 4 + 1e-9
    assert abs(its_width - width) <= width / 4 + 1e-9


@given(st.floats(-1e9, 1e9).filter(lambda value: value == 0 or abs(value) > 1e-9))
def test_four_figures_are_kept(value):
    assert float(rounded(value).replace("−", "-")) == pytest.approx(value, rel=5.1e-4)


def test_what_is_no_number_is_a_dash():
    for value in [float("nan"), float("inf"), -float("inf")]:
        assert fixed(value, 2) == rounded(value) == with_plus_or_minus(value, 1.0) == "–"
