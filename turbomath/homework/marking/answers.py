"""What a student wrote: a number and a unit, taken in or refused in one sentence. Nothing in it is ever run."""

import functools
import re
from dataclasses import dataclass

from turbomath import units
from turbomath.homework.asking.variant import in_words
from turbomath.homework.bank.question import Asked
from turbomath.homework.marking.around_a_number import bare_number
from turbomath.table.errors import OutOfRangeError, UnitError, short
from turbomath.table.quantities import QUANTITIES
from turbomath.working.coherent import scale

LONGEST = 80  # characters of number and unit together
MOST_OFFERED = 5
MOST_REMEMBERED = 4096  # units that were looked up
SURELY_PER_CENT = 1.5  # no share of a whole is above it
_NEVER_ABOVE_ONE = ("efficiency", "effectiveness", "share")
_COULD_BE_TWO = re.compile(r"[+-]? ?[1-9]\d{0,2},\d{3}", re.ASCII)
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
    fraction: float | None = None  # what a number without a sign is, where it may be one of per cent


def parted(text: object) -> tuple[str, str]:
    """Return (number, unit) of a text such as "304 °F", both as text."""
    text = str(text) if isinstance(text, str | int | float) and not _is_huge(text) else ""
    if len(text) > LONGEST:
        raise OutOfRangeError(f"found {short(text)!r}, expected one number and its unit. Write it shorter.")
    found = _NUMBER_FIRST.fullmatch(text)
    return (found[1].strip(), found[2].strip()) if found else (text, "")


def taken(
    text: object, unit: object, asked: Asked, system: str, decimal: str | None = None, near: float | None = None
) -> Answer:
    """Return the `Answer` that a text and a unit make, to what was asked.

    Parameters
    ----------
    text, unit : str
        What stands in the two boxes; with an empty unit, the text may hold both.
    asked : Asked
        What was asked for.
    system : "us" or "si"
        The units of the sheet.
    decimal : ",", optional
        The decimal mark of the file the text comes from; as for `number_in`.
    near : float, optional
        The key [SI]: of "1,052" it decides whether 1052 or 1.052 is meant.

    Raises
    ------
    OutOfRangeError
        If the text is not one number.
    """
    pure = asked.unit(system) == "-"
    text, own = parted(bare_number(text, ratio=pure) if isinstance(text, str) and len(text) <= LONGEST else text)
    unit = unit.strip() if isinstance(unit, str) else ""
    if own and unit and own.split() != unit.split():
        raise OutOfRangeError(f"found the units {short(own)!r} and {short(unit)!r}, expected one. Write the right one.")
    unit = unit or own
    half_digit, decimals = _rounding(text)
    found = _scale_or_refusal(unit, asked.row)
    if isinstance(found, UnitError) and any(mark.isdigit() for mark in unit) and not units_anywhere(unit):
        raise OutOfRangeError(f"found {short(f'{text} {unit}')!r}, expected one number and its unit. Write it so.")
    meant = scale(asked.unit(system), asked.row) if isinstance(found, UnitError) else found
    number = _either(text, decimal, near, meant)
    if "," in text and number == number_in(text.replace(",", ""), "."):  # the comma was one of thousands
        half_digit, decimals = _rounding(text.replace(",", ""))
    unsigned = _per_cent_meant(unit, number, asked, system)
    if unsigned:
        return Answer(number, unsigned * number, half_digit * unsigned, decimals, "", number)
    if isinstance(found, UnitError):
        return Answer(number, None, half_digit, decimals, _sentence(found, unit, asked, system))
    zero, size = found
    return Answer(number, zero + number * size, half_digit * size, decimals)


def _per_cent_meant(unit, number, asked, system):
    """Return 0.01 where a number without a sign can only be per cent or may well be, else None."""
    if unit:
        return None
    if asked.unit(system) == "%":
        return 0.01
    return 0.01 if QUANTITIES[asked.row].kind in _NEVER_ABOVE_ONE and number > SURELY_PER_CENT else None


def _either(text, decimal, near, meant):
    """Return the number in a text; where its comma could be read in two ways, the one nearer to the key."""
    typed = text.replace("−", "-").replace("–", "-")
    if decimal or near is None or "," not in typed or not _COULD_BE_TWO.fullmatch(typed):
        return number_in(text, decimal)
    zero, size = meant
    key = (near - zero) / size
    return min((number_in(typed, mark) for mark in (".", ",")), key=lambda one: abs(one - key))


def units_anywhere(unit: str) -> bool:
    """Whether a text is a unit of something, be it not of what was asked."""
    return any(not isinstance(_scale_or_refusal(unit, row), UnitError) for row in QUANTITIES)


def number_in(text: str, decimal: str | None = None) -> float:
    """Return the number in a text; in a file whose decimal mark is a comma, a comma alone is one."""
    return units.number(text, decimal=decimal if decimal == "." or "." not in text else None)


@functools.lru_cache(MOST_REMEMBERED)
def _scale_or_refusal(unit, row):
    """Return (SI value of nought, SI size of one) of a unit, or the `UnitError` that says why it does not fit."""
    if not unit and "-" not in units.spellings(row):
        return UnitError("A number without a unit says nothing.")
    if QUANTITIES[row].kind == "pressure" and _is_gauge(unit):
        return UnitError("Asked is an absolute pressure, and this unit counts from the barometer.")
    try:
        return scale(unit or "-", row)
    except UnitError as refusal:
        return refusal.with_traceback(None)


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
    why = (refusal.action or str(refusal)).replace("Write one of those.", "").strip()
    start = f"The unit '{short(unit)}' does not fit." if refusal.action else ""
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


def plain(name: str) -> str:
    """Return the name of a value of a chain in plain words."""
    return QUANTITIES[name].plain_name if name in QUANTITIES else in_words(name)
