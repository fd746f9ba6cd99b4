"""Homework on a terminal: one question made, answered, worked."""

import os
from collections.abc import Iterable

from turbomath import working
from turbomath.disk import plain_text
from turbomath.homework.asking import own_questions, variants
from turbomath.homework.bank import QUESTIONS
from turbomath.homework.bank.question import Choice
from turbomath.homework.marking import marking
from turbomath.table.errors import TurbomathError, short
from turbomath.table.version import __version__

PRACTICE = "practice"  # of this assignment everybody may see the numbers and the worked solutions
SECRET = "TURBOMATH_SECRET"


def question(
    *,
    name: str | None,
    seat: str,
    answer: str | None,
    part: str | None,
    earlier: Iterable[str],
    worked: bool,
    units: str,
    assignment: str,
) -> str:
    """Return the text of one question for one seat, with what was asked for: a mark, a worked solution."""
    if name is None:
        return listing()
    asked = own_questions.read(name)[1] if name.endswith(".toml") else name
    variant = variants.make(asked, secret=_secret(assignment), assignment=assignment, seat=seat, units=units)
    parts = [f"sheet {variant.code}   turbomath {__version__}", _wrapped(variant.text)]
    if answer is not None:
        found = marking.mark(variant, answer, earlier=_pairs(earlier), part=part)
        parts.append(
            f"Answer: {short(answer)}\nFinding: {found.finding}, {found.points:g} of 1 point\n{_wrapped(found.message)}"
        )
    if worked:
        parts.append(
            _choice_solution(variant)
            if isinstance(variant.question, Choice)
            else working.solution(variant, units=units)
        )
    return "\n\n".join(parts)


def listing() -> str:
    """Return the names of all questions with difficulty and objective."""
    lines = [f"{one.name:<36} {one.difficulty}  {one.objective}" for one in QUESTIONS.values()]
    return "\n".join([f"{'question':<36} difficulty, objective", *lines])


def _secret(assignment):
    if assignment.strip() == PRACTICE:
        return PRACTICE
    secret = os.environ.get(SECRET, "")
    if not secret.strip():
        expected = f"one in the environment variable {SECRET}"
        raise TurbomathError(f"--assignment: found no course secret, expected {expected}. Set it.")
    return secret


def _pairs(earlier):
    pairs = [text.partition("=") for text in earlier]
    for step, sign, _ in pairs:
        if not sign:
            raise TurbomathError(f"--earlier: found {short(step)!r}, expected STEP=NUMBER UNIT. Write it so.")
    return {step.strip().replace(" ", "_"): text.strip() for step, _, text in pairs}


def _choice_solution(variant):
    return next(f"Right is: {option.words}\n{option.reply}" for option in variant.asked if not option.code)


def _wrapped(text):
    return "\n".join(plain_text.wrapped(line, later="   " * line.startswith("  ")) for line in text.split("\n"))
