"""Power that a turbine brings and power that its compressor takes, at guessed boosts that close in on the crossing."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np

from turbomath.pictures.picture import Picture, Series, Text
from turbomath.pictures.scales import axis, shown

NUMBERED = 4  # guesses that have a mark, and a number at the foot; later ones stand too close
SIDES = (("measured", "shaft brings"), ("hot", "compressor takes"))


@dataclass(frozen=True)
class ClosingIn(Picture):
    """A chart of a stated height on the screen."""

    height: int = 290


def picture_closing_in(
    title: str,
    boosts: Sequence[Any],
    brought: Sequence[Any],
    taken: Sequence[Any],
    system: str,
    most: tuple[float, float],
) -> Picture:
    """Return the picture.

    Parameters
    ----------
    title : str
        What it shows.
    boosts : array [Pa]
        The guesses, in the order in which they were made.
    brought, taken : array [W]
        What reaches the compressor's end of the shaft, and what the compressor takes, at each.
    system : "us" or "si"
        The units shown.
    most : (float, float) [Pa, W]
        Boost and power that the axes reach at least, so that they stand still.
    """
    x, end = shown("boost", np.asarray(boosts), system), shown("boost", most[0], system)
    powers = [shown("power", np.asarray(values), system) for values in (brought, taken)]
    across, up = axis("boost", system, x, end), axis("power", system, *powers, shown("power", most[1], system))
    both = list(zip(SIDES, powers, strict=True))
    order = np.argsort(x, kind="stable")
    drawn = [Series("points", role, name, _numbers(x[:NUMBERED]), _numbers(y[:NUMBERED])) for (role, name), y in both]
    drawn += [Series("line", role, name, _numbers(x[order]), _numbers(y[order])) for (role, name), y in both]
    drawn.append(Series("points", "measured", "balance", _numbers(x[-1:]), _numbers(powers[1][-1:])))
    tall = up.high - up.low
    numbers = tuple(
        Text(float(place), _beside_marks(min(marks), max(marks), tall), str(turn))
        for turn, (place, *marks) in enumerate(zip(x[:NUMBERED], *powers, strict=False), 1)
    )
    return ClosingIn(title, across, up, tuple(drawn), numbers)


def _beside_marks(lowest, highest, tall):
    """Return where the number of a guess stands: at the foot, or over the marks where they are down there."""
    return float(0.02 * tall if lowest > 0.12 * tall else highest + 0.05 * tall)


def _numbers(values):
    return tuple(values.tolist())
