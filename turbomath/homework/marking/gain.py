"""The same questions before and after a course: normalised gain, and which misconceptions were kept.

Seats are counted and never named. Normalised gain is that of Hake, American Journal of Physics 66, 64 (1998): what was
gained of what could have been gained, (after - before) / (1 - before) of the class averages; low below 0.3, high from
0.7. Its half-width is two standard errors by leaving out one seat at a time (jackknife: Efron and Tibshirani, 1993).
"""

import math
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from turbomath.homework.marking.class_marks import SeatMarks
from turbomath.homework.marking.items import MISCONCEPTIONS

LOW, HIGH = 0.3, 0.7  # Hake, 1998
FEWEST = 10  # seats below which no gain is told
SURE = 2.0  # standard errors


@dataclass(frozen=True)
class Kept:
    """A misconception: its code, in how many answers it stood before, after, and of the same seats both times."""

    code: str
    before: int
    after: int
    both: int

    @property
    def words(self) -> str:
        """What it is."""
        return MISCONCEPTIONS[self.code]


@dataclass(frozen=True)
class Gain:
    """A class that answered twice: how many seats, question -> shares right, and the misconceptions, most kept first.

    `right` holds an array (seats, 2) of the shares that each seat had right before and after.
    """

    seats: int
    questions: dict[str, tuple[float, float]]
    right: np.ndarray
    kept: tuple[Kept, ...]

    @property
    def shares(self) -> tuple[float, float]:
        """The class averages before and after."""
        before, after = np.mean(self.right, axis=0)
        return float(before), float(after)

    @property
    def normalised(self) -> tuple[float, float] | None:
        """Normalised gain and its half-width; None where the class is too small, or nothing could be gained."""
        count = len(self.right)
        if count < FEWEST or np.all(self.right[:, 0] == 1):
            return None
        without = (np.sum(self.right, axis=0) - self.right) / (count - 1)
        each = [_gain(*one) for one in (*without,)]
        spread = math.sqrt((count - 1) / count * float(np.sum(np.square(each - np.mean(each)))))
        return _gain(*self.shares), SURE * spread

    @property
    def survived(self) -> Kept | None:
        """The misconception that most answers still hold; None where none does."""
        return max((one for one in self.kept if one.after), key=lambda one: one.after, default=None)


def _gain(before, after):
    return (after - before) / (1 - before) if before < 1 else math.nan


def gain(before: Sequence[SeatMarks], after: Sequence[SeatMarks]) -> Gain:
    """Return the `Gain` of the seats that answered both times; what one left unanswered is not right.

    Parameters
    ----------
    before, after : sequence of SeatMarks
        The class, marked twice on the same questions.
    """
    second = {one.seat: one for one in after}
    pairs = [(one, second[one.seat]) for one in before if one.seat in second]
    pairs = [both for both in pairs if all(any(part.said for part in one.parts) for one in both)]
    names = tuple(before[0].variants) if before else ()
    right = np.array([[_right(one) for one in both] for both in pairs]).reshape(len(pairs), 2)
    questions = {
        name: (_share(name, (one for one, _ in pairs)), _share(name, (one for _, one in pairs))) for name in names
    }
    return Gain(len(pairs), questions, right, _kept(pairs))


def _right(marks):
    return sum(part.finding == "right" for part in marks.parts) / len(marks.parts)


def _share(name, seats):
    found = [part.finding == "right" for one in seats for part in one.parts_of(name)]
    return sum(found) / len(found) if found else math.nan


def _kept(pairs):
    first, second, both = Counter(), Counter(), Counter()
    for before, after in pairs:
        held, holds = map(_misconceptions, (before, after))
        first.update(held)
        second.update(holds)
        both.update(held & holds)
    codes = sorted(first | second, key=lambda code: (-second[code], -first[code], code))
    return tuple(Kept(code, first[code], second[code], both[code]) for code in codes)


def _misconceptions(marks):
    return Counter(part.finding for part in marks.parts if part.finding in MISCONCEPTIONS)
