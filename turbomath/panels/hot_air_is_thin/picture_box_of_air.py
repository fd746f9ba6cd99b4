"""Boxes of one size with the air in them as dots: each dot is the same mass, so more dots is more air."""

import functools
import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from turbomath import units
from turbomath.pictures.picture import Axis, Picture, Series, Text
from turbomath.table.formulas import choice
from turbomath.units.rounding import rounded

MOST_DOTS = 500
GAP, FOOT = 0.06, 0.22  # between boxes, and below them for words, in widths and heights of a box
_BOXES = {"us": ("lb/ft³", "lb", "cubic foot"), "si": ("kg/m³", "kg", "cubic metre")}
_DOT = {"us": 0.001, "si": 0.01}


@dataclass(frozen=True)
class BoxOfAir(Picture):
    """A picture without axes; its words count the dots."""

    counts: tuple[tuple[str, int], ...] = ()

    @property
    def alt(self) -> str:
        """What one dot is, and how many each box holds."""
        return f"{self.title}. " + " ".join(f"{label}: {count} dots." for label, count in self.counts)

    @property
    def heads(self) -> tuple[str, ...]:
        """The heads of the table twin."""
        return "box", "dots"

    @property
    def rows(self) -> tuple[tuple[str, ...], ...]:
        """The rows of the table twin."""
        return tuple((label, str(count)) for label, count in self.counts)


def picture_box_of_air(cases: Sequence[tuple[str, str, float]], system: str) -> BoxOfAir:
    """Return the picture of one box for each case, side by side.

    Parameters
    ----------
    cases : sequence of (role, label, density)
        Density in kg/m^3.
    system : "us" or "si"
        The units of the box and of a dot.
    """
    unit, mass, box = choice("system", system, _BOXES)
    found = [units.from_si(density, unit, "density") for _, _, density in cases]
    dot = _DOT[system] * _tidy(max(found) / _DOT[system] / MOST_DOTS)
    counts = [round(density / dot) for density in found]
    series, texts = [], []
    for place, ((role, label, _), count) in enumerate(zip(cases, counts, strict=True)):
        series += [_outline(role, label, place), _dots(role, label, place, count)]
        texts.append(Text(place + GAP, -FOOT + 0.03, f"{label}: {count} dots"))
    title = f"Each box is one {box}; one dot is {rounded(dot)} {mass} of air"
    named = tuple((label, count) for (_, label, _), count in zip(cases, counts, strict=True))
    x, y = Axis("", "", 0.0, float(len(cases))), Axis("", "", -FOOT, 1.02)
    return BoxOfAir(title, x, y, tuple(series), tuple(texts), named)


def _outline(role, label, place):
    left, right = place + GAP, place + 1 - GAP
    return Series("line", role, label, (left, right, right, left, left), (0.0, 0.0, 1.0, 1.0, 0.0))


def _dots(role, label, place, count):
    wide, inset = 1 - 4 * GAP, 2 * GAP
    x, y = _places()[:count].T
    return Series(
        "points",
        role,
        label,
        *(tuple(np.round(values, 3).tolist()) for values in (place + inset + wide * x, 0.06 + 0.88 * y)),
    )


@functools.cache
def _places():
    """Return places in a unit square, each new one the farthest from all before it of twenty drawn by lot."""
    lot = np.random.default_rng(3)
    places = lot.random((1, 2))
    for _ in range(MOST_DOTS):
        drawn = lot.random((20, 2))
        gaps = np.hypot(*((drawn[:, None] - places[None]) * (1.8, 1.0)).T)  # a box is wider than high
        places = np.vstack([places, drawn[gaps.min(axis=0).argmax()]])
    return places


def _tidy(least):
    """Return the smallest of 1, 2 and 5 times a power of ten that is not below *least*, and at least 1."""
    if least <= 1:
        return 1
    power = 10 ** math.floor(math.log10(least))
    return next(part * power for part in (1, 2, 5, 10) if part * power >= least)
