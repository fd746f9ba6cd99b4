"""What a student wrote: a number and a unit, taken in or refused in one sentence. Nothing in it is ever run."""

import re
from dataclasses import dataclass

from turbomath import units
from turbomath.errors import OutOfRangeError, UnitError, short
from turbomath.quantities import QUANTITIES

LONGEST = 80  # characters of number and unit together
MOST_OFFERED = 5
_NUMBER_FIRST = re.compile(r"\s*([+\-−–]?\s?[\d.,]+(?: \d{3})*(?:[eE][+-]?\d{1,2})?)\s*(.*)", re.DOTALL)


@dataclass(frozen=True)
class Answer:
    """A number as it was written, the value it means in SI, and how coarsely it was rounded.

    `value` is None where the unit does not fit what was asked; `complaint` then says why, in a sentence.
    """

    number: float
    value: float | None
    half_digit: float
    decimals: int
    complaint: str = ""


def parted(text):
    """Return (number, unit) of a text such as "304 °F", both as text."""
    text = str(text) if isinstance(text, str | int | float) and not _is_huge(text) else ""
    if len(text) > LONGEST:
        raise OutOfRangeError(f"found {short(text)!r}, expected one number and its unit. Write it shorter.")
    found = _NUMBER_FIRST.fullmatch(text)
    return (found[1].strip(), found[2].strip()) if found else (text, "")


def taken(text, unit, asked, system):
    """Return the `Answer` that a text and a unit make, to what was asked.

    Parameters
    ----------
    text, unit : str
        What stands in the two boxes; with an empty unit, the text may hold both.
    asked : Asked
        What was asked for.
    system : "us" or "si"
        The units of the sheet.

    Raises
    ------
    OutOfRangeError
        If the text is not one number.
    """
    text, own = parted(text)
    unit = unit if isinstance(unit, str) and unit.strip() else own
    number = units.number(text)
    half_digit, decimals = _rounding(text)
    try:
        value = _value(number, unit, asked)
    except UnitError as refusal:
        return Answer(number, None, half_digit, decimals, _sentence(refusal, unit, asked, system))
    except OutOfRangeError as refusal:
        return Answer(number, None, half_digit, decimals, str(refusal))
    return Answer(number, value, half_digit * scale_of(unit, asked), decimals)


def scale_of(unit, asked):
    """Return the SI size of one of a unit."""
    return units.to_si(1.0, unit or "-", asked.row) - units.to_si(0.0, unit or "-", asked.row)


def _value(number, unit, asked):
    if not unit.strip() and "-" not in units.spellings(asked.row):
        raise UnitError("A number without a unit says nothing.")
    if QUANTITIES[asked.row].kind == "pressure" and _is_gauge(unit):
        raise UnitError("Asked is an absolute pressure, and this unit counts from the barometer.")
    return units.to_si(number, unit.strip() or "-", asked.row)


def _is_gauge(unit):
    """Whether a unit of pressure says that it counts from the barometer."""
    try:
        units.to_si(1.0, unit, "boost")
    except UnitError:
        return False
    try:
        units.to_si(1.0, unit, "cooler_pressure_loss")
    except UnitError:
        return True
    return False


def _sentence(refusal, unit, asked, system):
    """Return what is wrong with a unit, and which will do."""
    offered = [one for one in units.spellings(asked.row) if not one.endswith(" gauge")][:MOST_OFFERED]
    why = getattr(refusal, "action", str(refusal)).replace("Write one of those.", "").strip()
    start = f"The unit '{short(unit)}' does not fit." if hasattr(refusal, "action") else ""
    words = f"Asked was {asked.unit(system)}; {', '.join(offered)} will do."
    return " ".join(part for part in (start, why, words) if part)


def _rounding(text):
    """Return (half of the last place that was written, in the number's own unit; decimals written)."""
    figures = re.sub(r"[eE].*$", "", text).replace(",", ".").strip("+-−– ")
    decimals = len(figures.rpartition(".")[2]) if "." in figures else 0
    if decimals:
        return 0.5 * 10.0**-decimals, decimals
    noughts = len(figures) - len(figures.rstrip("0"))
    return 0.5 * 10.0**noughts, 0


def _is_huge(value):
    return isinstance(value, int) and not isinstance(value, bool) and abs(value) > 10**15
