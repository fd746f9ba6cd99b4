"""The only door between the units of a shop and SI, and between gauge and absolute pressure.

A unit is taken only if it is on the closed list of `unit_spellings`. Text from outside never reaches
Pint, which only gives the size of a listed unit; those of `sizes` are at hand, and no registry is built for them.
"""

import difflib
import functools
import re
from typing import Any

import numpy as np
from numpy.typing import ArrayLike

from turbomath.table.errors import OutOfRangeError, UnitError, short, warn_at_caller
from turbomath.table.formulas import check_shapes, choice, plain
from turbomath.table.quantities import QUANTITIES, numbers, possible
from turbomath.units.sizes import SIZES
from turbomath.units.spellings import FAMILIES, LONGEST, LOOKALIKES, REFERENCES, bare, by_spelling, odd_marks

_REFERENCES_TAKEN = {
    "pressure": ("gauge", "absolute"),
    "absolute pressure": (None, "absolute"),
    "gauge pressure": (None, "gauge"),
    "pressure difference": (None, "differential"),
    "vapour pressure": (None, "absolute"),
}
_REFERENCE_HINTS = {
    "pressure": "Say which: '{0} gauge' counts from the barometer, '{0} abs' from vacuum.",
    "absolute pressure": "This pressure counts from vacuum, so its unit is plain or abs.",
    "gauge pressure": "This pressure counts from the barometer, so its unit is plain or gauge; "
    "an absolute reading belongs under another name.",
    "pressure difference": "A difference counts from the other pressure, not from the barometer or vacuum, "
    "so its unit is plain or differential.",
    "vapour pressure": "This pressure counts from vacuum, so its unit is plain or abs.",
}


def to_si(number: ArrayLike, unit: str, quantity: str, *, barometer: ArrayLike | None = None) -> Any:
    """Return a number in a shop unit as SI.

    Parameters
    ----------
    number : float or array
        What the gauge shows or the book prints.
    unit : str
        A shop spelling, such as "psi gauge", "°F" or "lb/min".
    quantity : str
        A name of the table of quantities, such as "boost".
    barometer : float or array that broadcasts with number [Pa], optional
        Station pressure, absolute. Needed where a pressure is given as gauge; never assumed.

    Returns
    -------
    float or array of the broadcast shape
        The value in the quantity's SI unit. A pressure is absolute; a quantity that is a gauge
        pressure or a difference by its nature stays as it is counted.

    Raises
    ------
    UnitError
        If the unit is not on the list for this quantity, if a pressure does not say gauge or
        absolute, or if a gauge pressure comes without a barometer.
    OutOfRangeError
        If the number is text, or the barometer is not above zero.

    Examples
    --------
    >>> round(to_si(77.0, "°F", "ambient_temperature"), 6)
    298.15
    >>> round(to_si(25.0, "psi gauge", "manifold_pressure", barometer=98_543.9))
    270913
    """
    if isinstance(number, float) and (found := _of_one(unit, quantity)):
        return (float(number) + found.zero) * _size(found.pint_name)
    values, found, base = _at_the_door(number, unit, quantity, barometer)
    with np.errstate(all="ignore"):
        return plain((values + found.zero) * _size(found.pint_name) + base)


def from_si(value: ArrayLike, unit: str, quantity: str, *, barometer: ArrayLike | None = None) -> Any:
    """Return an SI value in a shop unit; the inverse of `to_si`, with the same arguments and refusals.

    Examples
    --------
    >>> round(from_si(298.15, "°F", "ambient_temperature"), 6)
    77.0
    """
    if isinstance(value, float) and (found := _of_one(unit, quantity)):
        return float(value) / _size(found.pint_name) - found.zero
    values, found, base = _at_the_door(value, unit, quantity, barometer)
    with np.errstate(all="ignore"):
        return plain((values - base) / _size(found.pint_name) - found.zero)


def spellings(quantity: str) -> tuple[str, ...]:
    """Return the units to offer for a quantity, its own display units first.

    Examples
    --------
    >>> spellings("boost")[:3]
    ('psi', 'kPa', 'Pa')
    """
    row = _row(quantity)
    names = _listed(row)
    if row.kind == "pressure":
        names = [f"{name} {word}" for name in names for word in ("gauge", "abs")]
    return tuple(dict.fromkeys([name for name in (row.us, row.si) if name in names] + names))


def display(quantity: str, system: str) -> str:
    """Return the unit in which a quantity is shown in the system "us" or "si"."""
    row = _row(quantity)
    return choice("system", system, {"us": row.us, "si": row.si})


def family(unit: str) -> str:
    """Return the family a unit belongs to, such as "volume flow" for "L/h"; the first that has it.

    A reader asks it before turning a volume flow of fuel into a mass flow by the fuel's density.

    Examples
    --------
    >>> family("US gal/h")
    'volume flow'
    """
    found = _families(bare(unit))
    if not found:
        raise _refusal(UnitError, unit, "a unit that the kit knows", _hint(unit, ""))
    return found[0]


def _of_one(unit, quantity):
    """Return a unit that needs no barometer, for one number, the usual case and the cheapest; else None."""
    return _known(unit, quantity) if isinstance(unit, str) and isinstance(quantity, str) else None


@functools.lru_cache(maxsize=1024)
def _known(unit, quantity):
    found = _find(unit, row := _row(quantity))
    return None if row.kind == "pressure" and found.reference == "gauge" else found


def _at_the_door(number, unit, quantity, barometer):
    """Return the values as an array, the unit, and the pressure that the unit counts from."""
    row = _row(quantity)
    found = _find(unit, row)
    values = numbers(row.name, number)
    if row.kind != "pressure" or found.reference != "gauge":
        return values, found, 0.0
    if barometer is None:
        expected = f"a barometer reading beside it for {row.plain_name}"
        raise _refusal(UnitError, unit, expected, "Give the station barometer; it is never assumed.")
    base = possible("barometer", barometer)
    check_shapes({row.name: values, "barometer": base})
    low, high = QUANTITIES["barometer"].sensible
    if np.any((base < low) | (base > high)):
        warn_at_caller(f"a station barometer reads {low:g} to {high:g} Pa; check the unit of the one given.")
    return values, found, base


def _row(quantity):
    if isinstance(quantity, str) and quantity in QUANTITIES:
        return QUANTITIES[quantity]
    near = difflib.get_close_matches(short(quantity), QUANTITIES, 1)
    hint = f"The nearest is {near[0]!r}." if near else "See the table in quantities.py."
    raise _refusal(UnitError, quantity, "the name of a quantity", hint)


def _find(unit, row):
    name = FAMILIES.get(row.kind, row.kind)
    found = by_spelling()[name].get(bare(unit))
    if found is None:
        raise _refusal(UnitError, unit, _expected(row), _hint(unit, name))
    if name == "pressure" and found.reference not in _REFERENCES_TAKEN[row.kind]:
        raise _refusal(UnitError, unit, _expected(row), _REFERENCE_HINTS[row.kind].format(found.shown))
    return found


def _families(key):
    return [name for name, units in by_spelling().items() if key in units]


def _listed(row):
    """Return the spellings to show of the quantity's family, each once, in the order of the list."""
    units = by_spelling()[FAMILIES.get(row.kind, row.kind)].values()
    return list(dict.fromkeys(unit.shown for unit in units))


def _expected(row):
    ending = ", each with gauge or abs," if row.kind == "pressure" else ""
    return f"{', '.join(_listed(row))}{ending} for {row.plain_name}"


def _hint(unit, name):
    """Return what to do about a unit that is not on the list of the family *name*."""
    if not isinstance(unit, str):
        return "Give the unit as text."
    if len(unit) > LONGEST:
        return "No unit is so long."
    odd = odd_marks(unit)
    if odd:
        return f"The mark U+{ord(odd[0]):04X} in it is in no unit: type the unit again."
    key = bare(unit)
    if key in LOOKALIKES:
        return LOOKALIKES[key]
    if _families(key):
        return f"{short(unit)!r} is a unit of {_families(key)[0]}."
    units = by_spelling().get(name, {})
    near = difflib.get_close_matches(key, units, 1)
    if not near:
        return "Write one of those."
    found = units[near[0]]
    word = f" {REFERENCES[found.reference][0]}" if found.reference else ""
    return f"The nearest is '{found.shown}{word}'."


def _refusal(error, found, expected, action):
    """Return an error that says what was found, what was expected and what to do; it keeps the parts."""
    refusal = error(f"found {short(found)!r}, expected {expected}. {action}")
    refusal.found, refusal.expected, refusal.action = short(found), expected, action
    return refusal


@functools.cache
def _registry():
    import pint

    return pint.UnitRegistry()


def _size(pint_name):
    """Return how many SI units one of these is."""
    return SIZES[pint_name] if pint_name in SIZES else _size_by_pint(pint_name)


def _size_by_pint(pint_name):
    return float(_registry().Quantity(1.0, pint_name).to_base_units().magnitude)


# 24.5, .5, 1 234.5, 1,234.5, -1.5e-3, once the decimal mark is a point
_NUMBER = re.compile(
    r"[+-]? ?(?:(?:\d+|[1-9]\d{0,2}([, ])\d{3}(?:\1\d{3})*)(?:\.\d*)?|\.\d+)(?:[eE][+-]?\d{1,2})?", re.ASCII
)
_COULD_BE_EITHER = re.compile(r"[+-]? ?[1-9]\d{0,2}[.,]\d{3}(?:[eE][+-]?\d{1,2})?", re.ASCII)
_NUMBER_MARKS = str.maketrans({"−": "-", "–": "-", "\u00a0": " ", "\u202f": " ", "\u2009": " "})
_SWAP = str.maketrans(".,", ",.")


def number(text: str, *, decimal: str | None = None) -> float:
    """Return one number as typed in a shop, with a decimal point or a decimal comma.

    Parameters
    ----------
    text : str
        "24.5", "24,5", "1 234.5", "1,234.5", "−3", "1e3"; at most 40 characters.
    decimal : "." or ",", optional
        The decimal mark of the file the text comes from, where it is known.

    Returns
    -------
    float
        The number.

    Raises
    ------
    OutOfRangeError
        If the text is not one plain number, or could be two different ones.

    Notes
    -----
    Of a comma and a point, the later is the decimal mark; a mark that comes twice separates
    thousands; a point alone is a decimal point. A comma alone is a decimal comma, except with one to
    three figures before it and three behind: "1,234" could be 1.234 or 1234, so it is refused unless
    *decimal* says which. With a decimal comma stated, "1.234" is refused in the same way, since
    another program may have written a decimal point there.

    Examples
    --------
    >>> number("24,5"), number("1,234.5"), number("1,234", decimal=".")
    (24.5, 1234.5, 1234.0)
    """
    choice("decimal", decimal, {None: None, ".": ".", ",": ","})
    typed = text.translate(_NUMBER_MARKS).strip(" ") if isinstance(text, str) and len(text) <= LONGEST else ""
    mark = decimal or _decimal_mark(typed)
    if _COULD_BE_EITHER.fullmatch(typed) and (("," in typed and not decimal) or ("." in typed and mark == ",")):
        whole, parted = (re.sub("[.,]", other, typed) for other in ("", decimal or "."))
        raise _refusal(OutOfRangeError, text, "one number", f"It could be {whole} or {parted}: write one of them.")
    swapped = typed.translate(_SWAP) if mark == "," else typed
    if not _NUMBER.fullmatch(swapped):
        raise _refusal(OutOfRangeError, text, "one number", "Write figures only, such as 24.5.")
    return float(re.sub("[, ]", "", swapped))


def _decimal_mark(typed):
    commas, points = typed.count(","), typed.count(".")
    if commas and points:
        return max(".,", key=typed.rfind)
    return "," if commas == 1 or points > 1 else "."
