"""The worked examples: each number is what the formula gives, in both systems, from numbers that a shop would read."""

import re

import pytest

from turbomath import units
from turbomath.handbook import subjects
from turbomath.handbook.examples import Specimens, examples
from turbomath.physics import charge, crossflow, room_gas, site_power
from turbomath.table.errors import unwarned
from turbomath.table.prose import Prose, ProseError, read
from turbomath.table.quantities import QUANTITIES
from turbomath.working.writing import plain_number

FUNCTIONS = tuple(subjects.numbered())
SPECIMENS = Specimens()
ON_THE_WAY = 4e-4  # numbers on the way are printed to five figures, and a difference of two loses some
ANSWER = re.compile(r": (−?[\d.]+) ?(.*)$")


def answer(example):
    """The number and the unit that an example ends in."""
    (line,) = [line for line in example.lines if line.sort == "answer"]
    number, unit = ANSWER.search(line.words).groups()
    return plain_number(number), unit or "-"


def close(shown, wanted):
    """Whether a number shown, with the digits it has, is the one wanted."""
    half = 0.5 * 10.0 ** -len(f"{shown}".partition(".")[2].removesuffix("0"))
    return abs(shown - wanted) <= half + ON_THE_WAY * abs(wanted)


def given(example):
    return {name: getattr(one, "value", one) for name, one in example.given.items()}


@pytest.mark.parametrize("function", FUNCTIONS, ids=map(subjects.key, FUNCTIONS))
def test_an_example_comes_to_what_the_formula_gives(function):
    for example in examples(function, SPECIMENS):
        number, unit = answer(example)
        with unwarned():
            value = function(**given(example))
        wanted = units.from_si(value, unit, function.formula.result)
        assert close(number, wanted), (example.system, number, wanted)


def test_each_formula_is_worked_in_both_systems_unless_all_its_numbers_are_pure():
    for function in FUNCTIONS:
        made = examples(function, SPECIMENS)
        names = [one.quantity for example in made for one in example.given.values() if not isinstance(one, str)]
        shown = {units.display(name, system) for name in [*names, function.formula.result] for system in ("us", "si")}
        pure = shown <= {"-", "%"}
        assert [one.system for one in made] == (["us"] if pure else ["us", "si"]), function


def test_the_two_systems_work_the_same_case():
    for function in FUNCTIONS:
        made = examples(function, SPECIMENS)
        for name, one in made[0].given.items():
            other = made[-1].given[name]
            if not isinstance(one, str):
                # whole °C and kPa to one decimal are the coarsest numbers that are shown
                coarse = 0.6 if QUANTITIES[one.quantity].kind == "temperature" else 0.02 * abs(one.value)
                assert other.value == pytest.approx(one.value, abs=coarse), (function, name)


def test_density_is_worked_as_on_paper():
    us, si = examples(charge.density, SPECIMENS)
    # 38.3 psi abs / (0.3705 psi·ft³/(lb·°R) × 589.67 °R) = 0.17531, by hand
    assert [line.words for line in us.lines if line.sort == "given"] == [
        "pressure: 38.3 psi abs",
        "temperature: 130 °F",
    ]
    assert answer(us) == (0.1753, "lb/ft³")
    assert answer(si) == (2.812, "kg/m³")  # 264.1 kPa / (0.28705 kJ/(kg K) × 327.15 K)
    assert us.lines[-1].words.startswith("Sense check: density in a shop is usually")


def test_no_example_lies_outside_what_a_shop_meets():
    for function in FUNCTIONS:
        for example in examples(function, SPECIMENS):
            sense = example.lines[-1].words
            assert sense.endswith("this one is."), (function, sense)


def test_a_choice_by_words_is_told():
    us, _ = examples(site_power.iso3046_power, SPECIMENS)
    assert us.choices == ["engine: turbocharged and aftercooled"]


def test_the_equation_above_the_example_is_not_said_again():
    (only,) = examples(crossflow.ntu, SPECIMENS)
    assert crossflow.ntu.formula.equation not in [latex for _, _, equations in only.told for latex in equations]
    us, _ = examples(room_gas.carbon_dioxide_share, SPECIMENS)
    assert any(equations for sort, _, equations in us.told if sort == "step")


def test_every_specimen_is_used_and_a_misspelt_or_missing_one_is_refused():
    fresh = Specimens()
    for function in FUNCTIONS:
        fresh.given(function)
    fresh.finished()
    words = {"engine": {"pressure": "38.3 psi abs", "temperature": "130 °F", "boozt": "24 psi"}}
    spoilt = Specimens(Prose(words, "specimens.toml"))
    spoilt.given(charge.density)
    with pytest.raises(ProseError, match="boozt is used nowhere"):
        spoilt.finished()
    with pytest.raises(ProseError, match="'density' is missing: the example of charge"):
        spoilt.given(charge.pressure)


def test_the_numbers_of_a_formula_come_before_those_of_its_subject_and_of_the_engine():
    def text(words):
        return Specimens(Prose(words, "specimens.toml")).given(charge.density)["pressure"]

    words = {"engine": {"pressure": "1 psi abs", "temperature": "130 °F"}}
    assert text(words) == "1 psi abs"
    words["charge"] = {"pressure": "2 psi abs"}
    assert text(words) == "2 psi abs"
    words["charge.density"] = {"pressure": "3 psi abs"}
    assert text(words) == "3 psi abs"


def test_the_file_of_specimens_says_that_they_are_invented(page):
    place = read(subjects.__file__, "specimens.toml")
    assert "engine" in place.names()
    for article in page.root.all("article"):
        heads = [part.text for part in article.all("h4")]
        assert 1 <= len(heads) <= 2
        assert all("INVENTED" in words for words in heads)
