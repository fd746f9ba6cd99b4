"""Lesson 03: the mistakes its questions meet, and the numbers in its words."""

import pytest

from tests.panels.opening import words
from turbomath.panels.hot_air_is_thin import LESSON
from turbomath.physics import charge

WORDS = words("hot_air_is_thin")


def test_the_ticket_meets_the_three_great_mistakes():
    codes = {option.mistake for question in LESSON.ticket for option in question.options}
    assert {"M1", "M3", "M4"} <= codes
    assert "M4" in {option.mistake for option in LESSON.predictions["hot_air_is_thin"].options}


def test_the_numbers_in_the_replies_are_true():
    """Absolute temperatures with the shop's 460 (common practice); density by the library."""
    assert pytest.approx(1.246, abs=5e-4) == (300 + 460) / (150 + 460)
    kelvin = [(fahrenheit + 459.67) / 1.8 for fahrenheit in (300, 150)]
    assert charge.density(2e5, kelvin[1]) / charge.density(2e5, kelvin[0]) == pytest.approx(1.246, abs=1e-3)
    assert pytest.approx(0.06, abs=0.005) == 1 - 32.2 / 34.2


def test_the_worked_numbers_are_true():
    for bold, pressure, temperature in (("0.1215", 34.2, 760), ("0.1359", 29.2, 580)):
        assert f"2.70 × {pressure} ÷ {temperature} = **{bold} lb/ft³**" in WORDS
        assert 2.70 * pressure / temperature == pytest.approx(float(bold), abs=5.1e-5)
    for bold, kpa, kelvin in (("1.947", 235.8, 421.9), ("2.179", 201.3, 321.9)):
        assert f"{kpa} ÷ (0.28705 × {kelvin}) = **{bold} kg/m³**" in WORDS
        assert kpa / (0.28705 * kelvin) == pytest.approx(float(bold), abs=5.1e-4)
        assert charge.density(kpa * 1e3, kelvin) == pytest.approx(float(bold), rel=1e-3)
    assert pytest.approx(1.119, abs=5e-4) == 0.1359 / 0.1215
    assert WORDS.count("11.9 %") == 2
