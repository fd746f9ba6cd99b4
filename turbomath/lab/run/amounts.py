"""From what is written in bench.toml to SI: words, amounts, amounts with their ±, limits.

Every reader takes (value, place): what tomllib read, and where it stands, to refuse it there.
"""

import math
import re
from collections.abc import Callable, Collection, Iterable
from dataclasses import dataclass
from datetime import date
from difflib import get_close_matches
from typing import Any

from turbomath import units
from turbomath.disk.plain_files import Place
from turbomath.table.errors import OutOfRangeError, UnitError
from turbomath.table.kinds import KINDS
from turbomath.table.quantities import QUANTITIES, possible

CORRECT = "Correct it in bench.toml."
_PLUS_OR_MINUS = re.compile(r"±|\+/-")

_HIGHEST_FILLING = 2.0  # volumetric efficiency on manifold density stays near 1; 92 was meant as per cent
_RANGE = re.compile(r"\.\.")
_NUMBER_AND_UNIT = re.compile(r"([-+−]?\s*[.,]?\d[\d.,]*(?:[eE][-+]?\d+)?)?\s*(.*)", re.DOTALL)
_LIMIT_FORMS = "a limit such as '..30 psi', '15.. psi', '10..20 psi' or '700 ± 25 rpm'"


@dataclass(frozen=True)
class Stated:
    """A value as stated, and its own tolerance (half-width; 0 where none is stated), both in SI."""

    value: float
    tolerance: float = 0.0


def words(value: object, place: Place) -> str:
    """Return free text."""
    if not isinstance(value, str):
        raise place.refusal(written(value), "text in quotes", CORRECT)
    return value


def file_beside(ending: str) -> Callable[[Any, Place], str]:
    """Return a reader of the name of a file that lies beside bench.toml."""

    def read(value, place):
        name = words(value, place)
        if not name.endswith(ending) or name != re.split(r"[/\\:]", name)[-1] or name.startswith("."):
            raise place.refusal(name, f"the name of a file beside bench.toml, such as engine{ending}", CORRECT)
        return name

    return read


def yes_or_no(value: object, place: Place) -> bool:
    """Return True or False."""
    if not isinstance(value, bool):
        raise place.refusal(written(value), "true or false, without quotes", CORRECT)
    return value


def day(value: object, place: Place) -> str:
    """Return a date as text, year first."""
    try:
        return date.fromisoformat(str(value)).isoformat()
    except ValueError:
        raise place.refusal(written(value), "a date such as 2026-03-12", CORRECT) from None


def count(value: object, place: Place) -> int:
    """Return a whole number from 1 to 100."""
    if not isinstance(value, int) or isinstance(value, bool) or not 1 <= value <= 100:
        raise place.refusal(written(value), "a whole number from 1 to 100, without quotes", CORRECT)
    return value


def one_of(*options: Any) -> Callable[[Any, Place], Any]:
    """Return a reader that takes one of *options* only."""

    def read(value, place):
        if isinstance(value, bool) or value not in options:
            listed = ", ".join(f'"{option}"' if isinstance(option, str) else str(option) for option in options)
            raise place.refusal(written(value), f"one of {listed}{nearest(value, options)}", CORRECT)
        return value

    return read


def nearest(word: object, options: Iterable[object]) -> str:
    """Return "; the nearest is '...'" for the option spelled most like *word*, or "" if none is close."""
    spelled = {str(option).lower(): option for option in options}
    close = get_close_matches(str(word).lower(), spelled, 1, 0.6)
    return f"; the nearest is '{spelled[close[0]]}'" if close else ""


def closed(table: object, keys: Collection[str], place: Place, expected: str = "") -> None:
    """Refuse a table that is none, or that holds a key that is not one of *keys*.

    The refusal lists them all, or says what is *expected* where they are too many for a sentence.
    """
    if not isinstance(table, dict):
        raise place.refusal(written(table), f"a table, written {place.column} above its keys", CORRECT)
    for key in table:
        if key not in keys:
            listed = expected or f"one of {', '.join(keys)}"
            raise place.refusal(key, f"{listed}{nearest(key, keys)}", CORRECT)


def written(value: object) -> str:
    """Return a value as bench.toml would show it."""
    return str(value).lower() if isinstance(value, bool) else str(value)


def amount(quantity: str) -> Callable[[Any, Place], float]:
    """Return a reader of one amount of *quantity*, without ±."""

    def read(value, place):
        found = stated(quantity)(value, place)
        if _PLUS_OR_MINUS.search(str(value)):
            raise place.refusal(value, "one amount without ±", CORRECT)
        return found.value

    return read


def stated(quantity: str) -> Callable[[Any, Place], Stated]:
    """Return a reader of an amount of *quantity* that may carry its own ±."""

    def read(value, place):
        text = _text_with_unit(value, quantity, place)
        pieces = split(text, _PLUS_OR_MINUS, place, _form(quantity))
        if any(number is None for number, _ in pieces):
            raise place.refusal(text, _form(quantity), CORRECT)
        if len(pieces) == 2 and pieces[0][1] == "%" and pieces[0][0] <= 1:
            raise place.refusal(text, "both numbers as fractions or both in %", CORRECT)
        found = Stated(*(in_si(number, unit, quantity, place) for number, unit in pieces))
        return _possible(found, quantity, text, place)

    return read


def limit(
    quantity: str, convert: Callable[[float, str, str, Place], float] | None = None
) -> Callable[[Any, Place], tuple[float, float]]:
    """Return a reader of a limit on *quantity*: (low, high) in SI, infinite where it is open.

    A limit in a gauge unit stays gauge, as `says_gauge` tells. *convert* stands in for `in_si`.
    """
    convert = convert or in_si

    def read(value, place):
        text = words(value, place)
        ends = _ends(text, place)
        if len(ends) != 2 or all(number is None for number, _ in ends):
            raise place.refusal(text, _LIMIT_FORMS, CORRECT)
        low, high = (
            open_end if number is None else convert(number, unit, quantity, place)
            for (number, unit), open_end in zip(ends, (-math.inf, math.inf), strict=True)
        )
        if low > high:
            raise place.refusal(text, "the lower number first", CORRECT)
        return low, high

    return read


def _ends(text, place):
    if not _PLUS_OR_MINUS.search(text):
        return [] if "..." in text else split(text, _RANGE, place, _LIMIT_FORMS)
    (middle, unit), (width, _) = split(text, _PLUS_OR_MINUS, place, _LIMIT_FORMS)
    if middle is None or width is None:
        return []
    return [(middle - width, unit), (middle + width, unit)]


def says_gauge(text: str, quantity: str) -> bool:
    """Return whether a limit on a pressure that may be gauge or absolute is written in a gauge unit."""
    return unit_is_gauge(_parted(re.split(r"±|\+/-|\.\.", text)[-1])[1], quantity)


def _parted(text: str) -> tuple[str | None, str]:
    """Return the number, None where there is none, and what follows it."""
    found = _NUMBER_AND_UNIT.fullmatch(text.strip())
    return (found[1], found[2]) if found else (None, text.strip())


def unit_is_gauge(unit: str, quantity: str) -> bool:
    """Return whether a reading of 0 in *unit* stands for the barometer; refuse a unit that does not say."""
    return QUANTITIES[quantity].kind == "pressure" and units.to_si(0.0, unit, quantity, barometer=1e5) > 0


def split(text: str, mark: re.Pattern[str], place: Place, expected: str) -> list[tuple[float | None, str]]:
    """Return the (number or None, unit) on each side of *mark*; a unit on one side serves both."""
    parts = [_parted(part) for part in mark.split(text)]
    named = {unit for _, unit in parts if unit}
    if len(parts) > 2 or len(named) > 1:
        raise place.refusal(text, expected, CORRECT)
    unit = named.pop() if named else ""
    return [(None if number is None else _number(number, place), unit) for number, _ in parts]


def in_si(number: float, unit: str, quantity: str, place: Place) -> float:
    """Return one number in SI; a gauge pressure stays gauge."""
    if not unit and KINDS[QUANTITIES[quantity].kind].unit == "-":
        return number
    try:
        if unit_is_gauge(unit, quantity):
            quantity = "boost"
        return units.to_si(number, unit, quantity)
    except UnitError as error:
        raise place.refusal(unit or written(number), error.expected, f"{error.action} {CORRECT}") from None


def as_shown(number: float, unit: str, quantity: str, place: Place) -> float:
    """Return one number in SI as the instrument shows it: a pressure need not say gauge or absolute."""
    if QUANTITIES[quantity].kind == "pressure":
        try:
            return units.to_si(number, unit, "boost")
        except UnitError:
            pass
    return in_si(number, unit, quantity, place)


def step(text: str, quantity: str, place: Place) -> float:
    """Return an amount above 0 by which readings of *quantity* may differ; of a temperature, a difference."""
    (number, unit), *more = split(text, _PLUS_OR_MINUS, place, _form(quantity))
    if more or number is None or number <= 0:
        raise place.refusal(text, "one amount above 0", CORRECT)
    difference = "temperature_rise" if QUANTITIES[quantity].kind == "temperature" else quantity
    return as_shown(number, unit, difference, place)


def _number(text, place):
    try:
        return units.number(text, decimal=".")
    except OutOfRangeError as error:
        raise place.refusal(text, error.expected, f"{error.action} {CORRECT}") from None


def _text_with_unit(value, quantity, place):
    plain = isinstance(value, (int, float)) and not isinstance(value, bool)
    if plain and KINDS[QUANTITIES[quantity].kind].unit == "-":
        return repr(value)
    if not isinstance(value, str):
        raise place.refusal(written(value), _form(quantity), CORRECT)
    return value


def _form(quantity):
    row = QUANTITIES[quantity]
    if KINDS[row.kind].unit == "-":
        return "a number such as 0.8 or '0.80 ± 0.03'"
    return f"a number with its unit, in quotes, such as '12 {row.us}'"


def _possible(found, quantity, text, place):
    """Return *found*, or refuse a value that cannot be, and a fraction far above 1 that was meant as per cent."""
    kind = KINDS[QUANTITIES[quantity].kind]
    try:
        possible(quantity, found.value)
    except OutOfRangeError:
        raise place.refusal(text, kind.needed, CORRECT) from None
    if found.tolerance < 0 or (quantity == "volumetric_efficiency" and found.value > _HIGHEST_FILLING):
        raise place.refusal(text, _form(quantity), CORRECT)
    return found
