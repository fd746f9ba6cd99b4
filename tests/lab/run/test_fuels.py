"""The fuels against published tables.

Heywood, *Internal Combustion Engine Fundamentals*, table D.4: stoichiometric air-fuel ratios (from memory).
U.S. Department of Energy, Alternative Fuels Data Center, Properties of Fuels: lower heating values in Btu/lb.
"""

import pytest

from turbomath import units
from turbomath.lab.run import fuels
from turbomath.physics.combustion_air import stoichiometric_air_fuel_ratio


@pytest.mark.parametrize(("name", "printed"), [("diesel", 14.5), ("gasoline", 14.6), ("propane", 15.67)])
def test_stoichiometric_ratios_are_those_of_the_printed_table(name, printed):
    assert fuels.FUELS[name].stoichiometric == pytest.approx(printed, rel=0.005)


def test_natural_gas_needs_a_little_less_air_than_pure_methane():
    methane = stoichiometric_air_fuel_ratio(4.0)
    assert methane == pytest.approx(17.23, rel=0.002)  # Heywood, table D.4
    assert methane - 0.4 < fuels.FUELS["natural gas"].stoichiometric < methane


@pytest.mark.parametrize(
    ("name", "printed", "apart"),
    [
        ("diesel", 18_394, 0.015),
        ("gasoline", 18_676, 0.015),
        ("propane", 19_900, 0.005),
        ("natural gas", 20_160, 0.002),
    ],
)
def test_heating_values_agree_with_another_table(name, printed, apart):
    there = units.to_si(printed, "Btu/lb", "fuel_lower_heating_value")
    assert fuels.FUELS[name].lower_heating_value == pytest.approx(there, rel=apart)


def test_a_fuel_is_found_in_any_letter_case_and_another_is_not():
    assert fuels.known(" Natural  GAS") is fuels.FUELS["natural gas"]
    assert fuels.known("methanol") is None


def test_every_fuel_burns_at_its_stoichiometric_ratio():
    assert all(fuel.richest <= 1 < fuel.leanest for fuel in fuels.FUELS.values())
