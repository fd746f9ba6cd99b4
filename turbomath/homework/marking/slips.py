"""Which usual mistake gives a number: named only where the number is nearer to it than to all that else could be."""

import math
from dataclasses import dataclass

import numpy as np

from turbomath.homework.asking.variant import Variant
from turbomath.homework.bank.question import Mistake

CLEARLY = 3.0  # times as far as the nearest mistake must any other, and the key, be
SAME = 1e-6  # share of a number: two mistakes that come to one number are one
# How far a number may be from what a mistake gives where more digits are written than the shop's rounded constants
# (0.491, 460) are good for: shares of the key's own half-width and of the number itself, the smaller of them
STRAYED = 0.08
OFF_BY_CONSTANTS = 6e-4
# A wrong number that is no known mistake lies anywhere about the key, the nearer the more often, and so meets one by
# chance: the oftener, the coarser it was rounded, the nearer the mistake is to the key, and the more of them there are
BY_CHANCE = 0.037
BY_CHANCE_BESIDE = 0.014  # for mistakes of the questions beside this one, which are made more rarely
TO_THE_DIGIT = 0.5  # as rarely is the very number met, such as a reading that was copied


@dataclass(frozen=True)
class _Candidate:
    value: float
    mistake: Mistake
    own: bool


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
    reach = math.hypot(min(STRAYED * width, OFF_BY_CONSTANTS * abs(value)), half_digit)
    nearer = off + half_digit + (CLEARLY - 1) * max(0.0, off - half_digit)
    if off > reach or abs(key - value) < nearer or any(abs(one.value - value) < nearer for one in others):
        return None
    by_chance = math.sqrt(len(apart)) * max(off, half_digit) / (abs(nearest.value - key) - width)
    if off <= SAME * abs(value):
        by_chance *= TO_THE_DIGIT
    return nearest.mistake if by_chance <= (BY_CHANCE if nearest.own else BY_CHANCE_BESIDE) else None


def near(variant: Variant, name: str, value: float, reach: float) -> bool:
    """Whether any usual mistake leads so near to a value [SI] that it may have been made."""
    found = _candidates(variant, name, float(variant.key[name]), variant.width(name))
    return any(abs(one.value - value) <= reach for one in found)


def _candidates(variant, name, key, width):
    """Return what each mistake comes to, those of the question first, each number once."""
    found = []
    for place, (mistake, outcome) in enumerate((*variant.outcomes, *variant.neighbours)):
        value = float(outcome[name])
        near = (abs(value - one.value) <= SAME * abs(value) for one in found)
        if np.isfinite(value) and abs(value - key) > width and not any(near):
            found.append(_Candidate(value, mistake, place < len(variant.outcomes)))
    return found
