"""Which usual mistake gives a number: named only where the number is nearer to it than to all that else could be."""

from dataclasses import dataclass

import numpy as np

from turbomath.homework.asking.variant import Variant
from turbomath.homework.bank.question import Mistake

CLEARLY = 3.0  # times as far as the nearest mistake must any other, and the key, be
SAME = 1e-6  # share of a number: two mistakes that come to one number are one
# How far a number may be from what a mistake gives, as a share of the key's own half-width, where more digits are
# written. It is small: of many mistakes one is near any number by chance
STRAYED = 0.04
OFF_BY_CONSTANTS = 4e-4  # share of a number that the shop's rounded constants (0.491, 460) move it, and no more


@dataclass(frozen=True)
class _Candidate:
    value: float
    mistake: Mistake


def named(variant: Variant, name: str, value: float, half_digit: float = 0.0) -> Mistake | None:
    """Return the usual mistake that leads to a value [SI], or None where none does or two could.

    Parameters
    ----------
    variant : Variant
        The seat's own.
    name : str
        Which value of the chain.
    value : float
        What the student has.
    half_digit : float
        Half of the last digit that was written [SI].
    """
    key, width = float(variant.key[name]), variant.width(name)
    apart = sorted(_candidates(variant, name, key, width), key=lambda one: abs(one.value - value))
    if not apart:
        return None
    nearest, *others = apart
    off = abs(nearest.value - value)
    reach = max(min(STRAYED * width, OFF_BY_CONSTANTS * abs(value)), min(half_digit, width))
    if off > reach or abs(key - value) < CLEARLY * off:
        return None
    unclear = any(
        abs(one.value - value) < CLEARLY * off or abs(one.value - nearest.value) < half_digit for one in others
    )
    return None if unclear else nearest.mistake


def near(variant: Variant, name: str, value: float, reach: float) -> bool:
    """Whether any usual mistake leads so near to a value [SI] that it may have been made."""
    found = _candidates(variant, name, float(variant.key[name]), variant.width(name))
    return any(abs(one.value - value) <= reach for one in found)


def _candidates(variant, name, key, width):
    """Return what each mistake comes to, those of the question first, each number once."""
    found = []
    for mistake, outcome in (*variant.outcomes, *variant.neighbours):
        value = float(outcome[name])
        near = (abs(value - one.value) <= SAME * abs(value) for one in found)
        if np.isfinite(value) and abs(value - key) > width and not any(near):
            found.append(_Candidate(value, mistake))
    return found
