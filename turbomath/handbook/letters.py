"""The letters of an equation, and what each one stands for."""

import inspect
import re
from dataclasses import dataclass, replace

from turbomath import units
from turbomath.handbook import docstrings
from turbomath.table.errors import TurbomathError
from turbomath.table.formulas import Tied
from turbomath.table.letters import CONSTANTS, OTHERS
from turbomath.table.quantities import QUANTITIES
from turbomath.working.chain import own_letters

_GREEK = "rho|mu|eta|varepsilon|varphi|gamma|pi|lambda|alpha|beta|vartheta|psi|Phi|infty"
_INDEX = rf"\{{(?:[^{{}}]|\{{[^{{}}]*\}})*\}}|\\mathrm\{{(?:[^{{}}]|\{{[^{{}}]*\}})*\}}|\\(?:{_GREEK})(?![A-Za-z])|\w"
_BODY = rf"\\mathrm\{{[A-Za-z]+\}}|\\(?:{_GREEK})(?![A-Za-z])|UA|[A-Za-z]"
_LETTER = re.compile(rf"(?:\\(?:Delta|dot) )?(?:{_BODY})(?:_(?:{_INDEX}))?")
_LIMIT = re.compile(r"_\{(\w)=\d\}")  # of a sum: the letter that counts its terms
_COMMAND = re.compile(r"\\(?:frac|sqrt|max|min|left|right|quad|sum|exp|ln|[,;! ])")
_NUMBERED = re.compile(r"^(\w)_(?:\d|\{\d+\})$")


@dataclass(frozen=True)
class Letter:
    """One letter: its LaTeX, its name, what it is, its US and SI units; `quantity` is a row of the table."""

    latex: str
    name: str
    meaning: str
    us: str = ""
    si: str = ""
    quantity: str = ""


def found(equation: str) -> tuple[str, ...]:
    """Return the letters of an equation in LaTeX, each once, in order."""
    return tuple(dict.fromkeys(_LETTER.findall(_COMMAND.sub(" ", _LIMIT.sub(r" \1 ", equation)))))


def letters(function: Tied) -> tuple[Letter, ...]:
    """Return what each letter of a formula's equation stands for.

    Raises
    ------
    TurbomathError
        If nothing says what a letter is: no parameter, no `where` of the formula, no constant.
    """
    known = {**_constants(), **_said(function), **_parameters(function)}
    rows = {letter: _NUMBERED.sub(r"\1_i", letter) for letter in found(function.formula.equation)}  # n_1, n_2 as n_i
    latex = dict.fromkeys(letter if letter in known else rows[letter] for letter in rows)
    if missing := [letter for letter in latex if letter not in known]:
        raise TurbomathError(
            f"{function.__name__}: found the letter {missing[0]} without words. Add it to `where` of its formula."
        )
    return tuple(known[letter] for letter in latex)


def of_quantity(name: str, latex: str = "", meaning: str = "") -> Letter:
    """Return the letter of a row of the table; *latex* and *meaning* stand in place of those of the table."""
    row = QUANTITIES[name]
    us, si = (unit(name, system).replace("-", "") for system in ("us", "si"))
    return Letter(latex or row.symbol, row.plain_name, meaning or row.meaning, us, si, name)


def unit(name: str, system: str) -> str:
    """Return the unit of a quantity in the handbook: that of the table, a pressure of the gauge as an absolute one."""
    shown = units.display(name, system)
    return f"{shown.removesuffix(' gauge')} abs" if shown.endswith(" gauge") else shown


def _parameters(function: Tied) -> dict[str, Letter]:
    own, said = own_letters(function), docstrings.parameters(function)
    result = function.formula.result
    found = [of_quantity(result, own.get("result", ("",))[0], _result(function))]
    for name in inspect.signature(function).parameters:
        if name in own:
            letter, quantity = own[name]
            found.append(replace(of_quantity(quantity, letter), name=name.replace("_", " ")))
        elif name in QUANTITIES:
            found.append(of_quantity(name, meaning=said.get(name, "")))
    return {letter.latex: letter for letter in found}


def _result(function: Tied) -> str:
    """What the docstring says of the result, where that is more than its name."""
    first, mark, more = docstrings.result(function).partition(";")
    row = QUANTITIES[function.formula.result]
    if first.lower() == row.plain_name:
        first = row.meaning
    return first + mark + more if mark or "Returns" not in docstrings.sections(function) else ""


def _said(function: Tied) -> dict[str, Letter]:
    return {latex: _worded(latex, words) for latex, words in function.formula.where.items()}


def _constants() -> dict[str, Letter]:
    known = {one.letter: Letter(one.letter, one.meaning, "", si=one.unit) for one in CONSTANTS}
    return known | {latex: _worded(latex, words) for latex, words in OTHERS.items()}


def _worded(latex: str, words: str) -> Letter:
    return of_quantity(words, latex) if words in QUANTITIES else Letter(latex, words, "")
