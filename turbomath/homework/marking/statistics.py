"""Item statistics of a marked class: how many can do a question, whom it sets apart, which answer drew whom.

Facility is the share right (with the interval of Wilson, 1927, two standard errors wide). Discrimination is the share
right among the seats that did best on the other questions less that among those that did worst, 27 % of the class each
(Kelley, 1939); its bounds are those of Ebel and Frisbie, Essentials of Educational Measurement, 1991.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from turbomath.homework.asking import choices
from turbomath.homework.bank.question import Choice
from turbomath.homework.marking.class_marks import PartMark, SeatMarks

GROUP = 0.27  # of the class, at either end
SMALLEST_GROUP = 5  # seats below which a group says nothing
FEWEST = 10  # answers below which a share right says nothing
SURE = 2.0  # standard errors
FACILITY = (  # lowest share right -> what it says (common practice)
    (0.85, "nearly all can do this"),
    (0.50, "most can do this"),
    (0.25, "fewer than half can do this: teach it again"),
    (0.00, "hardly anyone can do this: teach it again, and read its wording once more"),
)
DISCRIMINATION = (
    (0.40, "those who did well elsewhere do clearly better here"),
    (0.20, "those who did well elsewhere do somewhat better here"),
    (0.00, "it hardly sets those who did well elsewhere apart"),
    (-1.0, "those who did well elsewhere do worse here: look at its wording and its key"),
)


@dataclass(frozen=True)
class Share:
    """A share right, and the ends between which it could lie by chance."""

    right: int
    of: int

    @property
    def value(self) -> float:
        """The share, from 0 to 1; nan of nothing."""
        return self.right / self.of if self.of else math.nan

    @property
    def ends(self) -> tuple[float, float]:
        """The interval of Wilson (1927), two standard errors wide."""
        middle = (self.right + SURE**2 / 2) / (self.of + SURE**2)
        half = SURE * math.sqrt(self.right * (self.of - self.right) / self.of + SURE**2 / 4) / (self.of + SURE**2)
        return middle - half, middle + half


@dataclass(frozen=True)
class Drew:
    """An answer that seats gave: its words, the seats, and how many of them are among the best and the weakest."""

    answer: str
    seats: tuple[str, ...]
    best: int
    weakest: int


@dataclass(frozen=True)
class Statistic:
    """One question in the class; `best` and `weakest` are the shares right at either end, `group` seats each."""

    question: str
    right: Share
    best: Share
    weakest: Share
    group: int
    drew: tuple[Drew, ...]

    @property
    def facility_told(self) -> str:
        """What the share right says, or that there are too few answers."""
        if self.right.of < FEWEST:
            return f"too few answers to say: it takes {FEWEST}"
        return _told(self.right.value, FACILITY)

    @property
    def discrimination(self) -> tuple[float, float] | None:
        """Discrimination and its half-width at two standard errors; None where the groups are too small."""
        if self.group < SMALLEST_GROUP or not (self.best.of and self.weakest.of):
            return None
        spread = (_wary(one) * (1 - _wary(one)) / (one.of + 2) for one in (self.best, self.weakest))
        return self.best.value - self.weakest.value, SURE * math.sqrt(sum(spread))

    @property
    def discrimination_told(self) -> str:
        """What discrimination says, or that the class is too small for it."""
        found = self.discrimination
        if found is None:
            return f"the class is too small: it takes {math.ceil(SMALLEST_GROUP / GROUP)} seats that answered"
        value, half = found
        if abs(value) <= half:
            return "cannot tell in a class of this size"
        return _told(value, DISCRIMINATION)


def statistics(marks: Sequence[SeatMarks]) -> tuple[Statistic, ...]:
    """Return the `Statistic` of each question of a marked class, in the order of the assignment."""
    return tuple(_statistic(name, marks) for name in (marks[0].variants if marks else ()))


def _statistic(name, marks):
    parts = {one.seat: [part for part in one.parts_of(name) if part.said and not part.waits] for one in marks}
    rest = {one.seat: one.points - sum(part.points for part in one.parts_of(name)) for one in marks}
    ranked = sorted((seat for seat, found in parts.items() if found), key=lambda seat: -rest[seat])
    group = round(GROUP * len(ranked))
    best, weakest = set(ranked[:group]), set(ranked[len(ranked) - group :])
    drew: dict[str, dict[str, None]] = {}
    for one in marks:
        for part in parts[one.seat]:
            drew.setdefault(_answer(one, part), {})[one.seat] = None
    told = tuple(
        Drew(answer, tuple(seats), len(best & seats.keys()), len(weakest & seats.keys()))
        for answer, seats in sorted(drew.items(), key=lambda pair: -len(pair[1]))
    )
    shares = (_share(found for seat, found in parts.items() if seat in some) for some in (parts, best, weakest))
    return Statistic(name, *shares, group, told)


def _share(found):
    flat = [part.finding == "right" for parts in found for part in parts]
    return Share(sum(flat), len(flat))


def _answer(marks, part: PartMark) -> str:
    """Return an option as it was worded, or the finding on a number."""
    variant = marks.variants[part.question]
    if isinstance(variant.question, Choice):
        option = choices.chosen(variant, part.said)
        return f"{option.words} ({option.code or 'right'})" if option else part.finding
    return part.finding


def _told(value, bounds):
    return next(words for lowest, words in bounds if value >= lowest)


def _wary(share):
    """Return a share with one right and one wrong added: that of a few seats is never sure."""
    return (share.right + 1) / (share.of + 2)
