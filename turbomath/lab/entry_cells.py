"""What stands in one box of the grid, looked at alone: a reading, a gauge at its stop, none, or why it is none."""

import re

from turbomath import units
from turbomath.errors import TurbomathError, short
from turbomath.lab.figures import bare
from turbomath.lab.headers import is_missing
from turbomath.quantities import QUANTITIES, possible

LONGEST = 200  # letters of a remark
_ABOVE_ZERO = ("temperature", "pressure", "absolute pressure")
_SPACES = re.compile(r"\s")


def sheet_cell(text, column, unit):
    """Return a box's text as readings.csv has it.

    Parameters
    ----------
    text : str
        As it was typed: "24.5", "24,5", ">60" for a gauge at its stop, "-" or nothing for no reading.
    column : str
        The column's name, such as "boost".
    unit : str
        The unit in the head of the column, such as "psi".

    Returns
    -------
    str
        The same figures with a decimal point, with ">" before them if the gauge was at its stop; "" for no reading.

    Raises
    ------
    TurbomathError
        If the text is no reading: what was found, what was expected, and what to do.
    """
    if is_missing(text):
        return ""
    figures, at_its_stop = bare(text)
    try:
        value = units.number(figures)
        if QUANTITIES[column].kind in _ABOVE_ZERO:
            possible(column, units.to_si(value, unit, column, barometer=1e5))
    except TurbomathError as trouble:
        action = getattr(trouble, "action", "") or "Read the gauge again."
        raise TurbomathError(f"found {short(text)!r}, expected a number in {unit}. {action}") from None
    return (">" if at_its_stop else "") + _with_point(figures, value)


def _with_point(figures, value):
    """The figures as typed where a decimal point makes them the same number, so that their last zero stays."""
    typed = _SPACES.sub("", figures).replace("−", "-")
    for text in (typed, typed.replace(",", ".")):
        try:
            if float(text) == value:
                return text
        except ValueError:
            continue
    return repr(value)
