"""Power that a turbine brings and power that its compressor takes, at guessed boosts that close in on the crossing."""

from dataclasses import dataclass

import numpy as np

from turbomath.pictures.picture import Picture, Series, Text
from turbomath.pictures.scales import axis, shown

NUMBERED = 4  # guesses that have a mark, and a number at the foot; later ones stand too close
SIDES = (("measured", "shaft brings"), ("hot", "compressor takes"))


@dataclass(frozen=True)
class ClosingIn(Picture):
    """A chart of a stated height on the screen."""

    height: int = 290


def picture_closing_in(title, boosts, brought, taken, system, most):
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
    drawn.append(Series("points", "theory", "balance", _numbers(x[-1:]), _numbers(powers[1][-1:])))
    level = up.low + 0.02 * (up.high - up.low)
    numbers = tuple(Text(float(place), level, str(turn + 1)) for turn, place in enumerate(x[:NUMBERED]))
    return ClosingIn(title, across, up, tuple(drawn), numbers)


def _numbers(values):
    return tuple(values.tolist())
