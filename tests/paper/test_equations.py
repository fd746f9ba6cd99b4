"""Every equation and symbol of the kit as MathML."""

import importlib
import inspect
import pkgutil
import xml.etree.ElementTree as ElementTree

import pytest

from turbomath import physics
from turbomath.paper.equations import mathml
from turbomath.table.errors import TurbomathError
from turbomath.table.quantities import QUANTITIES

MATH = "{http://www.w3.org/1998/Math/MathML}"


def equations():
    found = {}
    for module_info in pkgutil.iter_modules(physics.__path__, "turbomath.physics."):
        for name, function in inspect.getmembers(importlib.import_module(module_info.name), inspect.isfunction):
            if hasattr(function, "formula"):
                found[f"{module_info.name}.{name}"] = function.formula.equation
    return found


EQUATIONS = equations()


@pytest.mark.parametrize("latex", EQUATIONS.values(), ids=EQUATIONS)
def test_every_formula_converts(latex):
    root = ElementTree.fromstring(mathml(latex, "block"))
    assert root.tag == f"{MATH}math"
    assert root.get("display") == "block"
    assert not [element for element in root.iter() if "\\" in (element.text or "")]
    assert latex.count(r"\frac") == len(list(root.iter(f"{MATH}mfrac")))


@pytest.mark.parametrize("quantity", QUANTITIES.values(), ids=QUANTITIES)
def test_every_symbol_converts(quantity):
    assert "\\" not in mathml(quantity.symbol)


def test_an_upright_subscript_is_one_word():
    words = [element.text for element in ElementTree.fromstring(mathml(r"T_\mathrm{medium}")).iter(f"{MATH}mi")]
    assert words == ["T", "medium"]


def test_a_command_that_is_not_understood_is_refused():
    with pytest.raises(TurbomathError, match="plain LaTeX"):
        mathml(r"\fantasy{x}")
