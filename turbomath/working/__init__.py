"""Worked solutions: equation, numbers put in with their units, result, sense check, in either unit system.

The text is for a terminal, the Markdown for a notebook; `paper` turns the LaTeX of the same lines into MathML.
"""

from typing import Any

from turbomath.table.doors import door_of_room
from turbomath.table.formulas import Tied, choice
from turbomath.table.quantities import QUANTITIES
from turbomath.working.chain import Amount, Chain, Result, Step
from turbomath.working.lines import lines

__all__ = ["Amount", "Chain", "Result", "Step", "call", "lines", "solution"]
__getattr__, __dir__ = door_of_room(__name__, __path__[0], __all__)

_HEADS = {"given": "Given", "answer": "Answer"}


def solution(work: Any, *, units: str, form: str = "text") -> str:
    """Return the worked solution of one call, of a chain of calls, or of a homework variant.

    Parameters
    ----------
    work : Chain, or an object with a `chain`, or (formula, arguments in SI)
        What is to be worked; `call` makes a chain of one call of a formula.
    units : "us" or "si"
        The units that it is worked in, whatever the units given.
    form : "text" or "markdown"
        For a terminal, or for a notebook.

    Returns
    -------
    str
        The solution. Each result follows from the numbers printed before it.

    Raises
    ------
    OutOfRangeError
        If the units or the form are not among those, or an argument cannot be.

    Examples
    --------
    >>> from turbomath.physics import charge
    >>> print(solution(call(charge.density, pressure=248_535.0, temperature=327.594), units="us"))
    Given
      pressure: 36.047 psi abs
      temperature: 130 °F
        T = 130 °F + 459.67 = 589.67 °R
    density
        ρ = p / (R × T)
        R = 0.3705 psi·ft³/(lb·°R)
        ρ = 36.047 psi abs / (0.3705 × 589.67 °R) = 0.165 lb/ft³
    Answer
      density: 0.165 lb/ft³
    Sense check: density in a shop is usually 0.0375 to 0.375 lb/ft³; this one is.
    """
    write = choice("form", form, {"text": _text, "markdown": _markdown})
    choice("units", units, {"us": None, "si": None})
    work = call(work[0], **work[1]) if isinstance(work, tuple) else work
    return write(lines(getattr(work, "chain", work), units))


def call(formula: Tied, /, **arguments: Any) -> Chain:
    """Return the chain of one call of a formula, from its arguments in SI.

    Parameters
    ----------
    formula : function with a `formula`
        One of `turbomath.physics`.
    **arguments : float [SI unit of the table]
        Its arguments by name; one that is no quantity is passed on as it is.
    """
    formula(**arguments)  # refuses what cannot be
    given, put = {}, {}
    for name, value in arguments.items():
        if name in QUANTITIES and name != "strokes":
            given[name], put[name] = Amount(value, name), name
        else:
            put[name] = value
    result = formula.formula.result
    name = result if result not in given else f"resulting_{result}"
    return Chain(given, (Step(name, formula, put, result),), (Result(name),))


def _text(found):
    words, sort = [], ""
    for line in found:
        if line.sort != sort and line.sort in _HEADS:
            words.append(_HEADS[line.sort])
        words.append(("  " if line.sort in _HEADS else "") + line.words)
        words += [f"    {text}" for text in line.text if not line.says_no_more]
        sort = line.sort
    return "\n".join(words)


def _markdown(found):
    parts, sort = [], ""
    for line in found:
        if line.sort != sort and line.sort in _HEADS:
            parts.append(f"**{_HEADS[line.sort]}**")
        parts.append(f"**{line.words}**" if line.sort == "step" else line.words)
        parts += [f"$${latex}$$" for latex in line.latex if not line.says_no_more]
        sort = line.sort
    return "\n\n".join(parts)
