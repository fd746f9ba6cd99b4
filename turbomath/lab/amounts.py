"""From what is written in bench.toml to SI: words, amounts, amounts with their ±, limits.

Every reader takes (value, place): what tomllib read, and where it stands, to refuse it there.
"""

import math
import re
from dataclasses import dataclass
from datetime import date
from difflib import get_close_matches

from turbomath import units
from turbomath.errors import OutOfRangeError, TurbomathError, UnitError
from turbomath.quantities import KINDS, QUANTITIES, possible

CORRECT = "Correct it in bench.toml."
PLUS_OR_MINUS = re.compile(r"±|\+/-")

_RANGE = re.compile(r"\.\.")
_NUMBER_AND_UNIT = re.compile(r"([-+−]?\s*[.,]?\d[\d.,]*(?:[eE][-+]?\d+)?)?\s*(.*)", re.DOTALL)
_LIMIT_FORMS = "a limit such as '..30 psi', '15.. psi', '10..20 psi' or '700 ± 25 rpm'"


@dataclass(frozen=True)
class Stated:
    """A value as stated, and its own tolerance (half-width; 0 where none is stated), both in SI."""

    value: float
    tolerance: float = 0.0


def words(value, place):
    """Return free text."""
    if not isinstance(value, str):
        raise place.refusal(written(value), "text in quotes", CORRECT)
    return value


def yes_or_no(value, place):
    """Return True or False."""
    if not isinstance(value, bool):
        raise place.refusal(written(value), "true or false, without quotes", CORRECT)
    return value


def day(value, place):
    """Return a date as text, year first."""
    try:
        return date.fromisoformat(str(value)).isoformat()
    except ValueError:
        raise place.refusal(written(value), "a date such as 2026-03-12", CORRECT) from None


def count(value, place):
    """Return a whole number above zero."""
    if not isinstance(value, int) or isinstance(value, bool) or value < 1:
        raise place.refusal(written(value), "a whole number above 0, without quotes", CORRECT)
    return value


def one_of(*options):
    """Return a reader that takes one of *options* only."""

    def read(value, place):
        if isinstance(value, bool) or value not in options:
            listed = ", ".join(f'"{option}"' if isinstance(option, str) else str(option) for option in options)
            raise place.refusal(written(value), f"one of {listed}{nearest(value, options)}", CORRECT)
        return value

    return read


def nearest(word, options):
    """Return "; the nearest is '...'" for the option spelled most like *word*, or "" if none is close."""
    spelled = {str(option).lower(): option for option in options}
    close = get_close_matches(str(word).lower(), spelled, 1, 0.6)
    return f"; the nearest is '{spelled[close[0]]}'" if close else ""


def written(value):
    """Return a value as bench.toml would show it."""
    return str(value).lower() if isinstance(value, bool) else str(value)


def amount(quantity):
    """Return a reader of one amount of *quantity*, without ±."""

    def read(value, place):
        if PLUS_OR_MINUS.search(str(value)):
            raise place.refusal(written(value), "one amount without ±", CORRECT)
        return stated(quantity)(value, place).value

    return read


def stated(quantity):
    """Return a reader of an amount of *quantity* that may carry its own ±."""

    def read(value, place):
        centre, width = sides(PLUS_OR_MINUS, _with_unit(value, quantity, place), place)
        if centre.number is None or (width.number is None) != (width.unit is None):
            raise place.refusal(written(value), _form(quantity), CORRECT)
        found = Stated(in_si(centre, quantity, place), 0.0 if width.number is None else in_si(width, quantity, place))
        _refuse_impossible(found, quantity, value, place)
        return found

    return read
