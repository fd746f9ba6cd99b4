"""The formula sheet: what a class needs, each with words and units, and factors that are those of the units' door."""

import re

import pytest

from turbomath import units
from turbomath.handbook import docstrings, letters, sheet, subjects
from turbomath.physics import airflow, charge, combustion_air, compression, cooling, correction, fuel
from turbomath.table import cautions
from turbomath.working import sums

NEEDED = (
    sums.absolute_pressure,
    compression.pressure_ratio,
    compression.ideal_outlet_temperature,
    compression.outlet_temperature,
    compression.isentropic_efficiency,
    cooling.effectiveness,
    charge.density,
    charge.density_gain,
    airflow.mass_flow,
    combustion_air.air_fuel_ratio,
    fuel.power,
    correction.iso1585_factor,
    correction.corrected_mass_flow,
)


def items(page):
    return [part for part in page.root.all("section") if part.all("math") and part.all("h2")[0].text[0].isdigit()]


def test_the_formulas_are_those_of_the_list_in_its_order(sheet_page):
    numbers = subjects.numbered()
    wanted = [f"{numbers[one]} {docstrings.title(one).partition(': ')[0]}" for one in sheet.FORMULAS]
    assert [part.all("h2")[0].text for part in items(sheet_page)] == wanted
    assert len(set(sheet.FORMULAS)) == len(sheet.FORMULAS)
    assert set(NEEDED) <= set(sheet.FORMULAS)


def test_each_formula_has_the_words_of_all_its_letters(sheet_page):
    for part, function in zip(items(sheet_page), sheet.FORMULAS, strict=True):
        text = part.all("p")[-1].text
        assert [one.name for one in letters.letters(function) if one.name not in text] == [], function


def test_the_units_are_those_with_which_an_equation_needs_no_factor(sheet_page):
    words = {part.all("h2")[0].text.split()[0]: part.all("p")[-1].text for part in items(sheet_page)}
    numbers = subjects.numbered()

    def beside(function, name):
        return re.search(rf"{name} \[([^\]]*)\]", words[numbers[function]])[1]

    assert beside(compression.outlet_temperature, "inlet temperature") == "°R or K"
    assert beside(compression.outlet_temperature, "inlet pressure") == "psi or kPa abs"
    assert beside(charge.density, "density") == "lb/ft³ or kg/m³"
    assert beside(fuel.power, "torque") == "lbf·ft or N·m"
    assert beside(fuel.specific_consumption, "fuel flow") == "lb/h or kg/h"
    assert beside(correction.iso1585_factor, "fuel delivery") == "kg/m³"  # the standard's 36 belongs to g per litre


def test_a_formula_that_shows_one_case_of_several_says_which(sheet_page):
    (part,) = [part for part in items(sheet_page) if "ISO 1585" in part.text]
    assert correction.iso1585_factor.formula.conditions in part.text
    assert correction.iso1585_factor.formula.conditions.startswith("shown for a turbocharged engine")


@pytest.mark.parametrize(("one", "other", "quantity"), sheet.FACTORS)
def test_a_factor_is_that_of_the_door(sheet_page, one, other, quantity):
    rows = [[cell.text for cell in row.parts] for row in sheet_page.around("units", "table").all("tr")]
    there, back = next((row[1], row[3]) for row in rows if (row[0], row[2]) == (one, other))

    def size(unit):
        return units.to_si(1.0, unit, quantity) - units.to_si(0.0, unit, quantity)

    assert float(there) == pytest.approx(size(one) / size(other), rel=6e-4)
    assert float(back) == pytest.approx(size(other) / size(one), rel=6e-4)


def test_the_constants_of_the_shop_are_there(sheet_page):
    text = sheet_page.root.text
    # NIST SP 811: 0 °F is 459.67 °R, 0 °C is 273.15 K, 1 inHg is 3386.389 Pa and 1 psi 6894.757 Pa
    assert "°R = °F + 459.67 (shop: 460)" in text
    assert "K = °C + 273.15 (shop: 273)" in text
    assert "°C = (°F − 32) / 1.8" in text
    row = next(row for row in sheet_page.root.all("tr") if row.parts[0].text == "inHg")
    assert [cell.text for cell in row.parts] == ["inHg", "0.4912", "psi", "2.036"]
    assert "0.3705 psi·ft³/(lb·°R) or 0.28705 kJ/(kg K)" in text
    assert "what turns torque times speed into power: 5252.1 or 9549.3" in text
    assert cautions.STANDING in text


def test_places_are_unique_and_nothing_is_asked_from_outside(sheet_page):
    assert len(sheet_page.ids) == len(set(sheet_page.ids))
    assert [part.tag for part in sheet_page.tags if part.tag in ("script", "link", "img", "iframe")] == []
    named = [part.attributes["aria-labelledby"] for part in sheet_page.root.all("section")]
    assert [name for name in named if name not in sheet_page.ids] == []
    assert all(part.attributes.get("scope") for part in sheet_page.root.all("th"))
