"""Every letter of every equation has its words and its units; one without is refused."""

import inspect
import re
import xml.etree.ElementTree as ElementTree

import pytest

from turbomath.handbook import letters, subjects
from turbomath.paper.equations import mathml
from turbomath.physics import compression
from turbomath.table.errors import TurbomathError
from turbomath.table.formulas import formula
from turbomath.table.quantities import QUANTITIES

FUNCTIONS = {"max", "min", "exp", "ln", "∑", "Σ", "d"}  # names that stand for what is done, not for a number


def marks(latex):
    """The letters of an equation as a browser sees them: an identifier, or one with what hangs below it."""
    found = set()

    def walk(node):
        tag = node.tag.rpartition("}")[2]
        if tag in ("msub", "msubsup") and "".join(node[0].itertext()).strip() not in FUNCTIONS:
            below = re.sub(r"^\d+$", "i", "".join(node[1].itertext()).strip())
            found.add(f"{''.join(node[0].itertext()).strip()}_{below}")
            for other in node[2:]:
                walk(other)
        elif tag == "mi" and (node.text or "").strip() not in FUNCTIONS:
            found.add(node.text.strip())
        else:
            for inner in node:
                walk(inner)

    walk(ElementTree.fromstring(str(mathml(latex))))
    return found


def test_every_letter_that_a_browser_shows_has_words():
    for function in subjects.numbered():
        told = letters.letters(function)
        shown = set().union(*(marks(one.latex) for one in told))
        assert marks(function.formula.equation) - shown == set(), function
        assert all(one.name.strip() for one in told), function


def test_no_letter_is_told_that_the_equation_does_not_have():
    for function in subjects.numbered():
        seen = marks(function.formula.equation)
        assert [one.latex for one in letters.letters(function) if not marks(one.latex) <= seen] == [], function


def test_a_quantity_is_told_with_the_words_of_the_docstring_and_the_units_of_the_table():
    told = {one.quantity: one for one in letters.letters(compression.outlet_temperature)}
    assert told["inlet_pressure"].meaning == "absolute pressure at the compressor inlet"
    assert (told["inlet_pressure"].us, told["inlet_pressure"].si) == ("psi abs", "kPa abs")
    assert (told["outlet_temperature"].us, told["outlet_temperature"].si) == ("°F", "°C")
    assert told["isentropic_efficiency"].us == ""
    assert told["outlet_temperature"].meaning == QUANTITIES["outlet_temperature"].meaning


def test_a_parameter_comes_before_a_constant_of_the_same_letter():
    for function in subjects.numbered():
        told = [one.quantity for one in letters.letters(function)]
        taken = [name for name in inspect.signature(function).parameters if name in QUANTITIES]
        assert [name for name in taken if name not in told] == [], function


def test_what_hangs_above_or_below_belongs_to_the_letter():
    assert letters.found(r"\dot m_\mathrm{dry} = \Delta p \, G_\rho \sqrt{r_\mathrm{charge}^2}") == (
        r"\dot m_\mathrm{dry}",
        r"\Delta p",
        r"G_\rho",
        r"r_\mathrm{charge}",
    )
    assert letters.found(r"P_n = \sum_{m=0}^{n} \frac{x^m}{T_{2s}}") == ("P_n", "m", "n", "x", "T_{2s}")


def ratio(pressure):
    """A ratio.

    Parameters
    ----------
    pressure : float [Pa]
        What is pressed.
    """


def planted(where=None):
    return formula(result="pressure_ratio", equation=r"\pi = z p", source="Heywood", conditions="none", where=where)(
        ratio
    )


def test_a_letter_without_words_is_refused_and_where_gives_them():
    with pytest.raises(TurbomathError, match="ratio: found the letter z without words"):
        letters.letters(planted())
    words = {one.latex: one for one in letters.letters(planted({"z": "a made-up number"}))}
    assert words["z"].name == "a made-up number"
    assert words["p"].meaning == "what is pressed"
    same = {one.latex: one for one in letters.letters(planted({"z": "boost"}))}
    assert (same["z"].name, same["z"].us, same["z"].quantity) == ("boost", "psi", "boost")
