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


def test_every_formula_converts():
    assert len(EQUATIONS) > 100
    assert {name: latex for name, latex in EQUATIONS.items() if not is_whole(latex)} == {}


def is_whole(latex):
    """Whether an equation becomes one block of MathML with all its fractions and no command left over."""
    root = ElementTree.fromstring(mathml(latex, "block"))
    left = [element for element in root.iter() if "\\" in (element.text or "")]
    fractions = len(list(root.iter(f"{MATH}mfrac")))
    return (root.tag, root.get("display"), left, fractions) == (f"{MATH}math", "block", [], latex.count(r"\frac"))


def test_every_symbol_converts():
    assert [name for name, quantity in QUANTITIES.items() if "\\" in mathml(quantity.symbol)] == []


def test_an_upright_subscript_is_one_word():
    words = [element.text for element in ElementTree.fromstring(mathml(r"T_\mathrm{medium}")).iter(f"{MATH}mi")]
    assert words == ["T", "medium"]


def test_a_command_that_is_not_understood_is_refused():
    with pytest.raises(TurbomathError, match="plain LaTeX"):
        mathml(r"\fantasy{x}")
