"""The words of lesson 06: worked numbers, ticket, pitfalls, and the notes for the instructor."""

import math

import pytest

from tests.panels.opening import same, words
from turbomath.panels.air_fuel_and_power import LESSON

WORDS = words("air_fuel_and_power")


# The words of the lesson


SUMS = (
    ("2.70 × 36.05 ÷ 590 = 0.1650", 2.70 * 36.05 / 590),
    ("248.5 ÷ (0.28705 × 327.6) = 2.643", 248.5 / 0.28705 / 327.6),
    ("775 ÷ 1,728 × 0.92 = 0.4126", 775 / 1728 * 0.92),
    ("0.0127 × 0.92 = 0.011684", 0.0127 * 0.92),
    ("900 × 0.4126 = 371.3", 900 * 0.4126),
    ("900 × 0.011684 = 10.52", 900 * 0.011684),
    ("371.3 × 0.1650 = **61.3", 371.3 * 0.1650),
    ("10.52 × 2.643 = **27.8", 10.52 * 2.643),
    ("61.3 × 590 ÷ 790 = **45.8", 61.3 * 590 / 790),
    ("27.8 × 327.6 ÷ 438.7 = **20.8", 27.8 * 327.6 / 438.7),
    ("790 ÷ 590 = 1.339", 790 / 590),
    ("438.7 ÷ 327.6 = 1.339", 438.7 / 327.6),
    ("61.26 ÷ 0.0696 = **880", 61.26 / 0.0696),
    ("371.3 ÷ 0.92 × 0.1650 = 66.6", 371.3 / 0.92 * 0.1650),
    ("58 ÷ 66.6 = **0.87", 58 / 66.6),
    ("58 ÷ 28.1 = 2.06", 58 / 28.1),
    ("430 hp × 0.345 = **148", 430 * 0.345),
    ("320.7 kW × 0.2099 = **67.3", 320.7 * 0.2099),
    ("61.3 × 60 ÷ 148.35 = **24.8", 61.3 * 60 / 148.35),
    ("27.8 × 60 ÷ 67.3 = **24.8", 27.8 * 60 / 67.3),
    ("5.0 lb × 3,600 ÷ 126 s = 142.9", 5 * 3600 / 126),
    ("2.268 kg × 3,600 ÷ 126 s = 64.8", 2.268 * 3600 / 126),
    ("142.9 ÷ 412 = **0.347", 142.9 / 412),
    ("64,800 ÷ 307.2 = **211", 64800 / 307.2),
    ("60 × 60 ÷ 24 = 150", 150),
    ("27.22 × 60 ÷ 24 = 68.0", 27.22 * 2.5),
    ("150 ÷ 0.345 = **435", 150 / 0.345),
    ("68.0 ÷ 0.2099 = **324", 68.0 / 0.2099),
    ("1,450 lbf·ft × 1,600 ÷ 5,252 = **442", 1450 * 1600 / 5252),
    ("1,966 N·m × 1,600 ÷ 9,549 = **329", 1966 * 1600 / 9549),
    ("400 hp × 1.30 = **520", 520),
    ("60 × 0.24 × 245 = 3,528", 60 * 0.24 * 245),
    ("83.2 ÷ 0.96 = 86.7", 83.2 / 0.96),
    ("62.0 ÷ 0.96 = 64.6", 62 / 0.96),
    ("60 × 25 ÷ 24 = 62.5", 62.5),
    ("0.4536 × 25 ÷ 24 = 0.4725", 0.4725),
    ("86.7 × 42.4 ÷ 62.5 ÷ 0.2742 = **214.5", 86.7 * 42.4 / 62.5 / 0.2742),
    ("214.5 ÷ 0.70 = 306.4", 214.5 / 0.7),
    ("64.6 ÷ 0.4725 ÷ 1.148 = **119.1", 64.6 / 0.4725 / 1.148),
    ("119.1 ÷ 0.70 = 170.1", 119.1 / 0.7),
    ("306.4 ÷ 1,560 = 0.1964", 306.4 / 1560),
    ("170.1 ÷ 866.5 = 0.1963", 170.1 / 866.5),
    ("1 ÷ 0.8036⁴ = 2.40", 0.8036**-4),
    ("1 ÷ 0.8037⁴ = 2.40", 0.8037**-4),
    ("14.78 × 2.40 = **35.5", 14.78 * 2.4),
    ("101.9 × 2.40 = **245", 101.9 * 2.4),
    ("0.4536 × 1.005 × 136.1 = **62", 0.4536 * 1.005 * 136.1),
)


@pytest.mark.parametrize(("sum_", "value"), SUMS, ids=[sum_ for sum_, _ in SUMS])
def test_the_worked_numbers_are_true(sum_, value):
    assert sum_ in WORDS
    assert same(sum_.split("= ")[-1].strip("*"), value)


def test_the_shop_factors_are_those_of_the_handbook():
    """NIST SP 811, appendix B: lb 0.45359237 kg, hp (550 ft·lbf/s) 745.6999 W, Btu(IT) 1055.056 J, in³ 16.38706 cm³."""
    found = (453.59237 / 0.7456999, 745.6999 * 60 / 1055.056, 60 * 550 / (2 * math.pi), 60_000 / (2 * math.pi))
    assert found == pytest.approx((608, 42.4, 5252, 9549), rel=7e-4)
    assert pytest.approx((83, 775, 61), abs=0.5) == (3528 / 42.4, 12_700 / 16.38706, 1000 / 16.38706)
    for said in ("is 608 g/kW·h", "÷ 42.4 = **83 hp**", "775 in³", "61 in³ are a litre"):
        assert said in WORDS


def test_the_numbers_of_the_ticket_are_true():
    pounds, work = 900 * 0.4485 * 0.92 * 0.165, 60 * 0.24
    values = (
        (2 * pounds, pounds * 0.0696 / 0.165, pounds, 12 * pounds),
        (61.3 / 148, 14.7, 148 / 60 / 61.3, 24.8),
        (5 * 3600 / 126 / 412, 5 / 1.26 * 60 / 412, 5 / 126 * 60 / 412, 412 / (5 * 3600 / 126)),
        (work * (245 - 32) / 42.4, work * 245 / 42.4, work * 245 / 42.4 / 60),
    )
    for question, found in zip(LESSON.ticket, values, strict=True):
        texts = [one.words.split(" ")[0] for one in question.options]
        assert all(same(text, value) for text, value in zip(texts, found, strict=False)), texts
    assert pytest.approx(24.8, abs=0.06) == 61.3 * 60 / 148
    for one in LESSON.ticket[0].options[:4]:  # the kilograms in brackets are those pounds
        first, _, second, _ = one.words.split(" ")
        assert same(second.strip("("), 0.45359237 * float(first)) or first == "735"


def test_the_pitfalls_of_the_trade_are_named():
    for said in (
        "The ÷ 2 forgotten",
        "Cubic inches and litres",
        'cfm" of what',
        "over 100 %",
        "lb/hp·h and g/kW·h",
        "14.7",
        "peak cylinder pressure",
        "maker's rating",
    ):
        assert said in WORDS
