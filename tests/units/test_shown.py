"""Numbers as a panel shows them: as many decimals as a gauge of a shop can tell, and the unit beside them."""

import math

import pytest

from turbomath.units.shown import head, in_unit, shown, words

# common practice: what the gauges of a shop can be read to
DECIMALS = {
    0: ("°F", "°C", "K", "°R", "F°", "C°", "rpm", "ft", "m", "hp", "kW"),
    1: ("psi", "psi abs", "psi gauge", "kPa", "kPa abs", "kPa gauge", "inH2O", "%", "lb/min"),
    2: ("inHg",),
    3: ("kg/m³",),
    4: ("lb/ft³",),
}


def test_each_unit_has_its_decimals():
    for places, names in DECIMALS.items():
        for unit in names:
            assert in_unit(-12.345678, unit) == f"−{12.345678:.{places}f}", unit


def test_a_unit_that_is_not_listed_has_four_figures():
    assert in_unit(12.345678, "Btu/min") == "12.35"
    assert in_unit(0.0012345678, "kg/s") == "0.001235"


def test_what_is_no_number_or_too_long_for_a_screen_is_a_dash():
    for unit in ("psi", "Btu/min"):
        assert in_unit(math.nan, unit) == "–"
    assert in_unit(9.9e14, "psi") == "990000000000000.0"
    assert in_unit(1e15, "psi") == "–"


def test_a_ratio_has_no_unit_and_a_stated_unit_goes_before_that_of_the_system():
    assert shown("pressure_ratio", 2.87109, "us") == ("2.871", "")
    assert words("pressure_ratio", 2.87109, "si") == "2.871"
    # 34.5 inHg is 116.8 kPa (NIST SP 811: 3.386389 kPa each)
    assert shown("boost", 116_830.4, "si", "inHg") == ("34.50", "inHg")
    assert words("manifold_temperature", 422.0389, "us") == "300 °F"


def test_the_head_of_a_column_names_the_unit_if_there_is_one():
    assert head("manifold_density", "us") == "manifold density [lb/ft³]"
    assert head("pressure_ratio", "si") == "pressure ratio"
    with pytest.raises(ValueError, match="'us', 'si'"):
        head("boost", "metric")
