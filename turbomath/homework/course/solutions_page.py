"""Every seat's sheet worked: its answers with ± and the number each usual mistake gives, and its solutions in full."""

from collections.abc import Mapping
from dataclasses import dataclass

from turbomath import working
from turbomath.homework.asking.variant import LETTERS, Variant, in_words
from turbomath.homework.bank.question import Asked, Choice
from turbomath.homework.course.assignment import Assignment
from turbomath.paper.page import page
from turbomath.paper.parts import Head, Table
from turbomath.table import constants
from turbomath.table.version import __version__
from turbomath.working.coherent import scale
from turbomath.working.writing import figures, fixed, with_unit

_HEADS = tuple(Head(name) for name in ("asked", "answer", "±", "the number each usual mistake gives"))
TOLERANCE_FIGURES = 2


@dataclass(frozen=True)
class Solution:
    """A question of a seat worked out: its wording, and its lines, or the replies to its options."""

    head: str
    wording: tuple[str, ...]
    lines: tuple
    replies: tuple[str, ...]


@dataclass(frozen=True)
class SeatKey:
    """The key of one seat."""

    seat: str
    name: str
    answers: Table
    solutions: tuple[Solution, ...]


def solutions_page(
    assignment: Assignment, roster: Mapping[str, tuple[str, str]], variants: Mapping[str, Mapping[str, Variant]]
) -> str:
    """Return the worked solutions of a class as HTML.

    Parameters
    ----------
    assignment : Assignment
        What the instructor set.
    roster : dict
        Seat -> (student, sheet code).
    variants : dict
        Seat -> (question -> `Variant`).
    """
    some = next(iter(variants.values()))
    asked = [some[one.question] for one in assignment.questions]
    keys = (_seat_key(assignment, seat, code, variants[seat]) for seat, (_, code) in roster.items())
    return page(
        "homework_solutions.html",
        title=f"Worked solutions: {assignment.title}",
        keys=tuple(keys),
        mistakes=[_mistakes(number, one.question, assignment.units) for number, one in enumerate(asked, 1)],
        colophon=f"turbomath {__version__}, constants {constants.EDITION}",
    )


def _seat_key(assignment, seat, code, variants):
    asked = [(number, one, variants[one.question]) for number, one in enumerate(assignment.questions, 1)]
    name = f"Seat {seat}, sheet {code}"
    rows = tuple(row for number, _, variant in asked for row in _rows(number, variant))
    return SeatKey(seat, name, Table(name, _HEADS, rows, style="words"), tuple(_solution(*one) for one in asked))


def _rows(number, variant):
    """Return a row of the table for each value asked for."""
    if isinstance(variant.question, Choice):
        letters = dict(zip(LETTERS, variant.asked, strict=False))
        right = next(letter for letter, option in letters.items() if not option.code)
        wrong = ", ".join(f"{letter} ({option.code})" for letter, option in letters.items() if option.code)
        return [(f"{number}. {in_words(variant.question.name)}", right, "", wrong)]
    names = [variant.question.name] if len(variant.asked) == 1 else [asked.name for asked in variant.asked]
    heads = [f"{number}. {in_words(name)}" for name in names]
    return [
        (head, _answer(variant, asked), _tolerance(variant, asked), _outcomes(variant, asked))
        for head, asked in zip(heads, variant.asked, strict=True)
    ]


def _answer(variant, asked):
    return with_unit(shown(variant, asked, variant.key[asked.name]), asked.unit(variant.units))


def shown(variant: Variant, asked: Asked, value: float) -> str:
    """Return an SI value of what is asked for as the number that the sheet's unit gives it."""
    zero, size = scale(asked.unit(variant.units), asked.row)
    return fixed((float(value) - zero) / size, variant.decimals(asked, variant.units))


def _tolerance(variant, asked):
    """Return how far an answer may lie from the key, in the unit of the sheet."""
    return figures(variant.width(asked.name) / scale(asked.unit(variant.units), asked.row)[1], TOLERANCE_FIGURES)


def _outcomes(variant, asked):
    """Return the number each usual mistake gives, with its code; a mistake that leaves this value right gives none."""
    key = float(variant.key[asked.name])
    width = asked.allowed.width(key, variant.units)
    told = [
        f"{shown(variant, asked, outcome[asked.name])} ({mistake.code})"
        for mistake, outcome in variant.outcomes
        if abs(float(outcome[asked.name]) - key) > width
    ]
    return ", ".join(told)


def _solution(number, asked, variant):
    head = f"{number}. {in_words(asked.question)} ({asked.points:g} point{'' if asked.points == 1 else 's'})"
    if isinstance(variant.question, Choice):
        replies = tuple(
            f"{letter}  {option.words}. {option.reply}" + f" ({option.code})" * bool(option.code)
            for letter, option in zip(LETTERS, variant.asked, strict=False)
        )
        return Solution(head, tuple(variant.wording.split("\n")), (), replies)
    return Solution(head, tuple(variant.text.split("\n")), working.lines(variant.chain, variant.units), ())


def _mistakes(number, question, system):
    """Return (question, ((code, message), ...)) of the usual mistakes, which are the same for every seat."""
    told = () if isinstance(question, Choice) else question.mistakes_in(system)
    return f"{number}. {in_words(question.name)}", tuple((one.code, one.message) for one in told)
