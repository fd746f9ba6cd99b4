"""How many planted slips are named truly, and how many numbers by the name of a slip that was not made."""

import random
from collections import Counter

import numpy as np

from tests.homework.marking.planted_slips import LISTED, SHOPS, SPREAD, UNLISTED, numbers
from tests.variants_made import whole_class
from turbomath.homework.marking.marking import mark

FIGURES = (None, 4, 3)  # that a student writes; None: all of the calculator


def written(number, figures):
    """Return a number as it is written to so many significant figures, noughts and all."""
    if figures is None:
        return f"{number:.10f}"
    rounded = float(f"{number:.{figures}g}")
    text = np.format_float_positional(rounded, precision=figures, min_digits=figures, fractional=False, trim="k")
    return text.rstrip(".")


def counted(system, figures, seats, shop):
    """Return a Counter of (listed or not, what was said), and of (question, codes, finding) for what went astray."""
    counts, constants = Counter(), SHOPS[system]
    for name, slip, codes in LISTED:
        for variant in whole_class(name, system, seats):
            number = slip(constants, numbers(variant))
            if number is not None:
                finding = _marked(variant, number, figures).finding
                said = "truly" if finding in codes.split() else "wrongly" if finding[0] in "MC" else "no"
                counts["listed", said] += 1
                counts[name, codes, finding] += said == "wrongly"
    draw = random.Random(figures or 0)  # of None it would be drawn from the clock
    for name, times in UNLISTED:
        for variant in whole_class(name, system, seats):
            share = times + draw.uniform(-SPREAD, SPREAD)
            found = _marked(variant, share * shop(name, system, numbers(variant)), figures)
            if not found.right:  # a tenth of a small gain is within rounding
                named = found.finding[0] in "MC"
                counts["unlisted", "wrongly" if named else "no"] += 1
                counts[name, "", found.finding] += named
    return counts


def shares(counts):
    """Return the shares (wrongly of all, wrongly of the listed, wrongly of the unlisted, truly of the listed)."""
    listed, unlisted = (sum(n for key, n in counts.items() if key[0] == sort) for sort in ("listed", "unlisted"))
    wrong, chance = counts["listed", "wrongly"], counts["unlisted", "wrongly"]
    return (
        (wrong + chance) / (listed + unlisted),
        wrong / listed,
        chance / unlisted,
        counts["listed", "truly"] / listed,
    )


def _marked(variant, number, figures):
    return mark(variant, written(number, figures), variant.asked[-1].unit(variant.units))
