"""Numbers that stand in two seats although each has its own: what to look at, and never an accusation.

Two seats share a number where both wrote the same and it is wrong for one of them at least, or where one wrote what is
right for the other only. How rare that is by chance follows from the class itself: how close together its numbers lie,
and how many wrote this one. The chances of all questions of a pair make a likelihood ratio: of somebody who takes over
a share of the answers against two who worked alone. Among those who worked alone it exceeds x at most once in x
(Markov's inequality), so the bar follows from how many pairs there are.
"""

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field

import numpy as np

from turbomath.homework.bank.question import Choice
from turbomath.homework.marking.class_marks import PartMark, SeatMarks

TAKEN_OVER = 0.3  # share of the answers that somebody who copies is thought to take over
RAREST = 0.01  # chance of one shared number, however rare it looks: gauges have few marks, so numbers come again
BAR = 1.5  # powers of ten by which the ratio must exceed the number of pairs
FEWEST = 3  # shared questions below which nothing is said
MOST_TOGETHER = 12  # seats with one number that are all set beside each other; of more, each beside one of them
AS_GOOD_AS_EQUAL = 5e-4  # share of a number within which it is the key of another seat
_FIGURES = 6  # of a number in SI: two that agree in them are the same


@dataclass(frozen=True)
class Shared:
    """Seats that share numbers: the questions, one number as it was written, and for which of them it is right."""

    seats: tuple[str, ...]
    questions: tuple[str, ...]
    question: str
    said: str
    right_for: str


@dataclass
class _Pair:
    """What two seats share: question -> (chance, written, seat it is right for)."""

    shared: dict[str, tuple[float, str, str]] = field(default_factory=dict)

    def add(self, question, chance, said, right_for):
        if question not in self.shared or chance < self.shared[question][0]:
            self.shared[question] = chance, said, right_for


@dataclass(frozen=True)
class _Written:
    """One part of one question in the class: who wrote what, was it right, and what would have been."""

    question: str
    seats: tuple[int, ...]
    parts: tuple[PartMark, ...]
    values: np.ndarray
    keys: np.ndarray
    window: float

    def chance(self, value: float, half_digit: float, among: np.ndarray) -> float:
        """Return how likely a number near a value is the same by chance, as *among* numbers lie about it."""
        near = max(1, int(np.sum(np.abs(among - value) <= self.window))) / len(among)
        return max(RAREST, near * min(1.0, half_digit / self.window))


def shared_numbers(marks: Sequence[SeatMarks]) -> tuple[Shared, ...]:
    """Return the `Shared` of a marked class, those with most questions first.

    Parameters
    ----------
    marks : sequence of SeatMarks
        The class, from `class_marks`.
    """
    answered = _who_answered(marks)
    wrong: dict[str, set[int]] = {}
    pairs: dict[tuple[int, int], _Pair] = {}
    for column in _columns(marks):
        wrong.setdefault(column.question, set()).update(
            seat for seat, part in zip(column.seats, column.parts, strict=True) if part.finding != "right"
        )
        for one, other, chance, said, right_for in (*_equal(column), *_of_another(column)):
            seat = "" if right_for is None else marks[right_for].seat
            pairs.setdefault((min(one, other), max(one, other)), _Pair()).add(column.question, chance, said, seat)
    count = sum(bool(questions) for questions in answered)
    bar = BAR + math.log10(max(1, count * (count - 1) / 2))
    told = {
        both: pair
        for both, pair in pairs.items()
        if len(pair.shared) >= FEWEST and _ratio(pair, both, answered, wrong) >= bar
    }
    found = [_together(marks, group, told) for group in _groups(told)]
    return tuple(sorted(found, key=lambda one: -len(one.questions)))


def _who_answered(marks):
    """Return the questions that each seat answered with a number."""
    return [{part.question for part in one.parts if part.value is not None} for one in marks]


def _columns(marks) -> Iterator[_Written]:
    """Yield the written numbers of each part; a number of one's own sheet tells nothing, and nought neither."""
    numeric = [name for name, variant in marks[0].variants.items() if not isinstance(variant.question, Choice)]
    places = [place for place, part in enumerate(marks[0].parts) if part.question in numeric]
    for place in places:
        keys = np.array([one.variants[one.parts[place].question].key[one.parts[place].part] for one in marks])
        told = [
            (seat, one.parts[place])
            for seat, one in enumerate(marks)
            if one.parts[place].value and one.parts[place].finding != "given"
        ]
        window = float(np.subtract(*np.quantile(keys, (0.75, 0.25)))) / 2
        if len(told) > 1 and window > 0:
            seats, parts = zip(*told, strict=True)
            yield _Written(parts[0].question, seats, parts, np.array([one.value for one in parts]), keys, window)


def _equal(column):
    """Yield (seat, other seat, chance, written, seat it is right for or None) of seats that wrote the same number."""
    groups: dict[str, list[int]] = {}
    for place, value in enumerate(column.values):
        groups.setdefault(f"{value:.{_FIGURES}g}", []).append(place)
    for group in groups.values():
        right = [place for place in group if column.parts[place].finding == "right"]
        if len(group) == 1 or len(right) == len(group):
            continue
        part = column.parts[group[0]]
        often = (len(group) - 2) / max(1, len(column.seats) - 2)
        chance = max(often, column.chance(part.value, part.half_digit, column.values))
        for one, other in _two_by_two(group, right):
            if one not in right or other not in right:
                whose = column.seats[one] if one in right else column.seats[other] if other in right else None
                yield column.seats[one], column.seats[other], chance, part.said, whose


def _two_by_two(group: list[int], right: list[int]) -> Iterable[tuple[int, int]]:
    """Return the pairs of a group; of a large one, each with the one for which the number is right."""
    if len(group) <= MOST_TOGETHER:
        return ((one, other) for place, one in enumerate(group) for other in group[:place])
    first = right[0] if right else group[0]
    return ((first, other) for other in group if other != first)


def _of_another(column):
    """Yield, as `_equal`, each number that is wrong for its seat and right for just a few others."""
    order = np.argsort(column.keys)
    keys = column.keys[order]
    for seat, part in zip(column.seats, column.parts, strict=True):
        if part.finding == "right":
            continue
        reach = max(part.half_digit, AS_GOOD_AS_EQUAL * abs(part.value))
        low, high = np.searchsorted(keys, (part.value - reach, part.value + reach))
        if 0 < high - low <= MOST_TOGETHER:
            chance = max(column.chance(part.value, reach, column.keys), (high - low - 1) / len(keys))
            for other in map(int, order[low:high]):
                if other != seat:
                    yield seat, other, chance, part.said, other


def _ratio(pair, both, answered, wrong):
    """Return the power of ten of the likelihood ratio of one pair."""
    one, other = both
    could = {name for name in answered[one] & answered[other] if not wrong[name].isdisjoint(both)} | set(pair.shared)
    shared = sum(math.log10(TAKEN_OVER / chance + 1 - TAKEN_OVER) for chance, _, _ in pair.shared.values())
    return shared + (len(could) - len(pair.shared)) * math.log10(1 - TAKEN_OVER)


def _groups(pairs) -> list[list[int]]:
    """Return the seats that hang together by pairs."""
    group_of: dict[int, list[int]] = {}
    for one, other in pairs:
        joined = group_of.setdefault(one, [one])
        second = group_of.setdefault(other, [other])
        if joined is not second:
            joined += second
            group_of.update(dict.fromkeys(second, joined))
    return list({id(group): sorted(group) for group in group_of.values()}.values())


def _together(marks, group, pairs):
    found: dict[str, tuple[float, str, str]] = {}
    for both, pair in pairs.items():
        if both[0] in group:
            for question, one in pair.shared.items():
                found[question] = min(one, found.get(question, one))
    question = min(found, key=lambda name: found[name][0])
    _, said, right_for = found[question]
    return Shared(tuple(marks[seat].seat for seat in group), tuple(found), question, said, right_for)
