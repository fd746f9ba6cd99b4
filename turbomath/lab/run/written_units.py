"""A unit that a logger writes beside a number or below a head, held against the one that its column has."""

import numpy as np

from turbomath import units
from turbomath.table.errors import UnitError


def same_unit(written: str, unit: str, quantity: str) -> bool:
    """Return whether *written* means *unit*; a bare "psi" may be gauge or absolute."""
    wanted = _at_two_numbers(unit, quantity)
    for spelling in (written, f"{written} gauge", f"{written} abs"):
        try:
            if np.allclose(_at_two_numbers(spelling, quantity), wanted, rtol=1e-9, atol=0.0):
                return True
        except UnitError:
            continue
    return False


def is_unit(written: str, quantity: str) -> bool:
    """Return whether a word is some unit of a quantity."""
    return any(same_unit(written, one, quantity) for one in units.spellings(quantity))


def _at_two_numbers(unit, quantity):
    return units.to_si(np.array([0.0, 1.0]), unit, quantity, barometer=1e5)
