"""The instructor's key: the answers of all seats by question on one page, and their steps by question on the next."""

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from turbomath.homework.asking import widths
from turbomath.homework.asking.variant import LETTERS, Variant, in_words
from turbomath.homework.bank.question import Choice
from turbomath.homework.course.assignment import Assignment
from turbomath.paper.page import page
from turbomath.paper.parts import Head, Table
from turbomath.table import constants
from turbomath.table.version import __version__
from turbomath.working.coherent import scale
from turbomath.working.lines import result_unit
from turbomath.working.writing import fixed

SEATS_IN_A_TABLE = 12
HOW = (
    "A number within ± of the answer is right, in any unit that fits; where a reading is asked in another unit (*), "
    "in that one. ± is the smallest of all seats: solutions.html has each seat's own, and the usual mistakes."
)


@dataclass(frozen=True)
class _Value:
    """A value asked for, or a step on the way to it: a row of the key."""

    number: int
    name: str
    unit: str
    row: str
    converted: bool = False

    @property
    def head(self) -> str:
        unit = "" if self.unit == "-" else f", {self.unit}"
        return f"{self.number}. {in_words(self.name)}{unit}{'*' * self.converted}"

    def cells(self, variants: Sequence[Variant]) -> tuple[str, ...]:
        zero, size = scale(self.unit, self.row)
        half = min(one.width(self.name) for one in variants) / size
        values = ((float(one.key[self.name]) - zero) / size for one in variants)
        places = _places(half)
        within = half - 0.5 * 10.0**-places  # of the number as it is printed
        return (_rounded_down(within), *(fixed(value, places) for value in values))


def key_page(
    assignment: Assignment, roster: Mapping[str, tuple[str, str]], variants: Mapping[str, Mapping[str, Variant]]
) -> str:
    """Return the key of a class as HTML.

    Parameters
    ----------
    assignment : Assignment
        What the instructor set.
    roster : dict
        Seat -> (student, sheet code).
    variants : dict
        Seat -> (question -> `Variant`).
    """
    seats = list(roster)
    return page(
        "homework_key.html",
        title=f"Key: {assignment.title}",
        how=HOW,
        answers=_tables("answers", [*_answers(assignment, variants, seats)], seats),
        steps=_tables("steps", [*_steps(assignment, variants, seats)], seats),
        colophon=f"turbomath {__version__}, constants {constants.EDITION}",
    )


def _tables(caption, rows, seats):
    """Return the tables of some rows, (head, ±, a cell for each seat), a few seats in each."""
    if not rows:
        return ()
    found = []
    for first in range(0, len(seats), SEATS_IN_A_TABLE):
        these = slice(first, first + SEATS_IN_A_TABLE)
        heads = (Head(caption), Head("±"), *map(Head, seats[these]))
        cells = tuple((head, width, *values[these]) for head, width, *values in rows)
        name = f"{caption}, seats {seats[these][0]} to {seats[these][-1]}"
        found.append(Table(name, heads, cells))
    return tuple(found)


def _answers(assignment, variants, seats) -> Iterator[tuple[str, ...]]:
    for number, question, found in _asked(assignment, variants, seats):
        if isinstance(question, Choice):
            yield f"{number}. {in_words(question.name)}", "", *map(_letter, found)
            continue
        for one in question.asked:
            unit, converted = one.unit(assignment.units), widths.is_conversion(question, one)
            value = _Value(number, one.name, unit, one.row, converted)
            yield value.head, *value.cells(found)


def _steps(assignment, variants, seats) -> Iterator[tuple[str, ...]]:
    for number, question, found in _asked(assignment, variants, seats):
        if isinstance(question, Choice):
            continue
        asked = {one.name for one in question.asked}
        for step in question.steps:
            if step.result not in asked:
                row = step.quantity_of()
                value = _Value(number, step.result, result_unit(row, assignment.units), row)
                yield value.head, *value.cells(found)


def _asked(assignment, variants, seats):
    """Yield (number, question, its variant of each seat)."""
    for number, one in enumerate(assignment.questions, 1):
        found = [variants[seat][one.question] for seat in seats]
        yield number, found[0].question, found


def _letter(variant):
    return next(letter for letter, one in zip(LETTERS, variant.asked, strict=False) if not one.code)


def _places(width):
    """Return how many decimals a number deserves: its tolerance shows in the last of them."""
    return max(0, math.ceil(-math.log10(width / 2)))


def _rounded_down(width):
    """Return a half-width in two figures, never more than it is."""
    places = max(0, 1 - math.floor(math.log10(width)))
    return fixed(math.floor(width * 10**places) / 10**places, places)
