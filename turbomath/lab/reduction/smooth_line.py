"""A smooth line through points that err both ways, some of their errors common to many of them, and its own ±.

The line is a parabola, or straight where the points stand at too few places. Each point counts by how sure its distance
from the line is, and the slope is taken where the point most likely stands: for a straight line with errors of each
point alone this is the line of York and others (2004) and of ISO/TS 28037. What moves many points together does not
average out; it is carried through to the line as it is.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from statistics import NormalDist

import numpy as np
from numpy.typing import ArrayLike, NDArray

from turbomath.lab.reduction.joint import Differences, drawn_errors, split

COVERAGE = 0.9545  # of the line's ±: that of coverage factor 2 where all is normal
RISK = 0.05  # of points that one line fits, in so many cases one is called off it
BEND_FROM, APART = 4, 0.08  # a line bends from so many places on, which lie so far apart, as a share of the whole reach
TURNS, CLOSE = 60, 1e-10
LEAST = 1e-9  # no point is surer than that, of corrected flow [kg/s] or pressure ratio

Values = NDArray[np.float64]
Shares = Mapping[tuple[str, ...], Values]


@dataclass(frozen=True, eq=False)
class Points:
    """Points that err both ways [SI].

    `x_shares` and `y_shares` hold for each error how far it moves every point when it is one standard uncertainty;
    `parts` for some of them the two parts that each point has alone, as `joint.own_parts` does.
    """

    x: Values
    y: Values
    x_shares: Shares
    y_shares: Shares
    parts: Mapping[tuple[str, ...], tuple[Values, Values]]


@dataclass(frozen=True, eq=False)
class SmoothLine:
    """The line: its coefficients over the share of the reach (−1 to 1), and what its points' errors do to them.

    `distance` holds how far each point lies above the line, over its ±: beyond 1 or −1 one line does not fit it.
    """

    low: float
    high: float
    coefficients: Values
    moved: Values
    distance: Values

    @property
    def bends(self) -> bool:
        """Whether there were places enough to know how it bends."""
        return len(self.coefficients) > 2

    def at(self, x: ArrayLike) -> Values:
        """Return the line at *x* [SI]."""
        return np.asarray(self._powers(x) @ self.coefficients)

    def plus_or_minus(self, x: ArrayLike) -> Values:
        """Return within what of the line the truth lies in 95 of 100 cases [SI], with all errors as they are drawn."""
        effects = self._powers(x) @ self.moved
        return np.asarray(np.quantile(np.abs(drawn_errors(effects.shape[1]) @ effects.T), COVERAGE, axis=0))

    def _powers(self, x):
        return _powers(np.atleast_1d(np.asarray(x, dtype=float)), self.low, self.high, len(self.coefficients))


def smooth_line(points: Points) -> SmoothLine | None:
    """Return the line through points, or None where they all stand at one place, or may as far as their errors go.

    It bends where they stand at enough places, and is straight where they only seem to.
    """
    low, high = (float(end(points.x)) for end in (np.min, np.max))
    places = _places(points.x, low, high)
    counts = (3, 2) if places >= BEND_FROM else (2,) if places > 1 else ()
    return next((line for count in counts if (line := _line(points, low, high, count))), None)


def _line(points, low, high, count):
    """Return the line with so many coefficients, or None where the points, as they likely stand, do not tell them."""
    stands, slope = points.x, np.zeros_like(points.x)
    coefficients = np.zeros(count)
    for _ in range(TURNS):
        before, apart = coefficients, _apart(points, points.y, slope)
        powers = _powers(stands, low, high, count)
        root = 1 / np.maximum(apart.standard_uncertainty, LEAST)
        solver = np.linalg.pinv(powers * root[:, None]) * root
        coefficients = solver @ (points.y - slope * (points.x - stands))
        slope = _slope(stands, low, high, coefficients)
        off = points.y - powers @ coefficients - slope * (points.x - stands)
        stands = points.x - _leaning(points, slope) * off
        if np.abs(coefficients - before).max() <= CLOSE * np.abs(coefficients).max():
            break
        if np.abs(stands - points.x).max() > high - low or _places(stands, low, high) < count:
            return None
    apart = _apart(points, off, slope)
    moved = solver @ np.column_stack([*apart.shared.values(), np.diag(apart.own)])
    return SmoothLine(low, high, coefficients, moved, _distance(apart, powers @ solver))


def _apart(points, off, slope):
    """Return how far points lie above the line, with what each error makes of that."""
    effects = {name: points.y_shares[name] - slope * points.x_shares[name] for name in points.y_shares}
    return split(off, effects, points.parts)


def _leaning(points, slope):
    """Return by how much x is too high where a point lies one above the line, as the errors of both go together."""
    both, whole = np.zeros_like(points.x), np.zeros_like(points.x)
    for name, share in points.x_shares.items():
        grown = 1 + points.parts[name][1] if name in points.parts else 1.0
        effect = points.y_shares[name] - slope * share
        both, whole = both + grown * share * effect, whole + grown * effect**2
    return both / np.maximum(whole, LEAST**2)


def _distance(apart: Differences, hat):
    """Return how far each point lies off the line, over what its own errors allow beside all the others."""
    rest = np.eye(len(hat)) - hat
    effects = rest @ np.column_stack([*apart.shared.values(), np.diag(apart.own)])
    unsure = np.sqrt((effects**2).sum(axis=1))
    allowed = NormalDist().inv_cdf(1 - RISK / 2 / len(hat)) * unsure
    return np.asarray(apart.value / np.maximum(allowed, LEAST))


def _powers(x, low, high, count):
    return np.vander((2 * x - low - high) / (high - low), count, increasing=True)


def _slope(x, low, high, coefficients):
    inner = np.arange(1, len(coefficients)) * coefficients[1:]
    return _powers(x, low, high, len(inner)) @ inner * 2 / (high - low)


def _places(x, low, high):
    """Return at how many places the points stand, apart by a share of the whole reach."""
    if not high > low:
        return 1
    count, last = 0, -np.inf
    for one in np.sort(x):
        if one - last > APART * (high - low):
            count, last = count + 1, one
    return count
