"""Every public formula says what it takes, what it gives, in which unit, and where it comes from."""

import importlib
import inspect
import pkgutil
import re

import pytest

from turbomath import physics
from turbomath.table import constants
from turbomath.table.quantities import QUANTITIES
from turbomath.table.sources import SOURCES

SECTIONS = ["Parameters", "Returns", "Raises", "Notes", "Examples", "References"]
ENTRY = re.compile(r"^(\w+) : (.+)$", re.MULTILINE)
UNIT = re.compile(r"\[([^\]]+)\]\s*$")


def public_formulas():
    """Dotted name -> function, for every public function defined in turbomath.physics."""
    found = {}
    for module_info in pkgutil.iter_modules(physics.__path__, "turbomath.physics."):
        module = importlib.import_module(module_info.name)
        for name, member in inspect.getmembers(module, inspect.isfunction):
            if member.__module__ == module.__name__ and not name.startswith("_"):
                found[f"{module.__name__}.{name}"] = member
    return found


FORMULAS = public_formulas()
each_formula = pytest.mark.parametrize("function", FORMULAS.values(), ids=FORMULAS)


def sections(function):
    """Section title -> text, in the order of the docstring."""
    text = inspect.cleandoc(function.__doc__)
    pieces = re.split(r"^(\w+)\n-+\n", text, flags=re.MULTILINE)
    return dict(zip(pieces[1::2], pieces[2::2], strict=True))


def holds_symbol(equation, symbol):
    """Whether *symbol* stands in *equation* as itself, not as a part of a longer symbol."""
    return re.search(r"(?<![A-Za-z\\])" + re.escape(symbol) + r"(?![A-Za-z_])", equation) is not None


def test_every_physics_file_is_walked():
    modules = {name.rsplit(".", 1)[0].rsplit(".", 1)[1] for name in FORMULAS}
    assert {"atmosphere", "humidity", "compression", "cooling", "charge", "airflow"} <= modules
    assert len(FORMULAS) >= 31


def the_function_knows_its_formula(function):
    formula = function.formula
    assert formula.result in QUANTITIES
    assert formula.source in SOURCES
    assert formula.conditions


def the_summary_is_one_sentence(function):
    summary, blank = inspect.cleandoc(function.__doc__).split("\n")[:2]
    assert blank == ""
    assert re.fullmatch(r"[A-Z][^.]*\.", summary)


def the_sections_are_complete_and_in_order(function):
    assert list(sections(function)) == SECTIONS
    assert all(text.strip() for text in sections(function).values())


def the_parameters_are_those_of_the_signature_with_their_units(function):
    entries = ENTRY.findall(sections(function)["Parameters"])
    assert [name for name, _ in entries] == list(inspect.signature(function).parameters)
    for name, description in entries:
        if name in QUANTITIES:
            assert UNIT.search(description).group(1) == QUANTITIES[name].unit, name
            assert "array" in description or name == "strokes", f"{name} does not say its shape"


def the_result_has_the_unit_of_its_quantity(function):
    first = sections(function)["Returns"].split("\n")[0]
    assert first.startswith("float or array of the ")
    assert UNIT.search(first).group(1) == QUANTITIES[function.formula.result].unit


def the_equation_holds_the_symbols_of_result_and_arguments(function):
    names = [function.formula.result, *inspect.signature(function).parameters]
    missing = [
        name
        for name in names
        if name in QUANTITIES and not holds_symbol(function.formula.equation, QUANTITIES[name].symbol)
    ]
    assert missing == []


def the_equation_is_balanced_and_shown(function):
    equation = function.formula.equation
    assert equation.count("{") == equation.count("}")
    assert equation.count(r"\left") == equation.count(r"\right")
    assert equation in function.__doc__


def there_is_an_example_of_the_function_itself(function):
    examples = sections(function)["Examples"]
    assert re.search(rf">>> .*\b{function.__name__}\(", examples)
    assert re.search(r"^-?\d", examples, re.MULTILINE), "no digits to check"


def the_references_are_keys_with_a_place(function):
    references = [part.strip().rstrip(".") for part in sections(function)["References"].split(";")]
    keys = [reference.split(",")[0] for reference in references]
    assert set(keys) <= set(SOURCES)
    assert function.formula.source in keys
    for reference in references:
        assert re.search(r", .*(section|ch\.|clause|eq|p\.|table)", reference), f"{reference} names no place"


RULES = (
    the_function_knows_its_formula,
    the_summary_is_one_sentence,
    the_sections_are_complete_and_in_order,
    the_parameters_are_those_of_the_signature_with_their_units,
    the_result_has_the_unit_of_its_quantity,
    the_equation_holds_the_symbols_of_result_and_arguments,
    the_equation_is_balanced_and_shown,
    there_is_an_example_of_the_function_itself,
    the_references_are_keys_with_a_place,
)


def offences(function):
    """Yield what does not hold for a formula: the rule and why."""
    for rule in RULES:
        try:
            rule(function)
        except Exception as trouble:
            yield f"{rule.__name__}: {trouble!r}"


@each_formula
def test_a_formula_says_all_of_itself(function):
    assert list(offences(function)) == []


def test_a_silent_formula_is_seen():
    def silent(inlet_pressure):
        """It gives nothing away

        Parameters
        ----------
        pressure : float
        """

    assert [rule for rule, said in zip(RULES, offences(silent), strict=True) if rule.__name__ not in said] == []


def test_a_symbol_is_not_found_inside_a_longer_one():
    assert holds_symbol(r"p = \rho R T", "p")
    assert not holds_symbol(r"p_\mathrm{in} = \pi", "p")
    assert not holds_symbol(r"\rho_0 / \rho_r", r"\rho")
    assert not holds_symbol(r"\eta_\mathrm{v}", r"\eta")


def test_every_constant_names_its_source():
    named = {name for name in vars(constants) if name.isupper() and name not in {"EDITION", "SOURCES"}}
    assert all(isinstance(getattr(constants, name), float) for name in named)
    assert set(constants.SOURCES) == named
    assert set(constants.SOURCES.values()) <= set(SOURCES)
