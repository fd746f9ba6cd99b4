"""A seat's own form of a question to choose in: which case, and the options in which order."""

from collections.abc import Callable, Sequence
from typing import Any

import numpy as np

from turbomath.homework.asking import draws, plausible
from turbomath.homework.asking.variant import LETTERS, Variant
from turbomath.homework.bank.question import Choice

_SHUFFLE = 16  # numbers for the choice of the case and the order of the options
_ATTEMPTS = 64
LONGEST = 300  # characters of an answer that are looked at


def variant(question: Choice, secret: str | bytes, parts: Sequence[str], system: str, code: str) -> Variant:
    """Return the `Variant` of one seat."""
    cases = question.cases
    attempts = range(_ATTEMPTS if callable(cases) else 1)
    shares = draws.uniform(secret, parts, _SHUFFLE + plausible.count(question.ranges), attempts)
    if callable(cases):
        values = plausible.engine(question.ranges, shares[:, _SHUFFLE:])
        row = int(np.argmax(plausible.believable(values)))
        cases = cases({name: float(value[row]) for name, value in values.items()}, system)
    case = cases[int(shares[0, 0] * len(cases))]
    order = sorted(range(len(case.options)), key=lambda place: shares[0, 1 + place])
    return Variant(question, {}, tuple(case.options[place] for place in order), code, system, case.text)


def marked(variant: Variant, answer: Any, mark: Callable[..., Any]) -> Any:
    """Return the mark of a letter or of the words of an option."""
    said = " ".join(str(answer).split()).casefold() if isinstance(answer, str) and len(answer) < LONGEST else ""
    for letter, option in zip(LETTERS, variant.asked, strict=False):
        if said in (letter.casefold(), option.words.casefold()):
            right = not option.code
            return mark(right, "right" if right else option.code, option.reply, float(right))
    letters = ", ".join(LETTERS[: len(variant.asked)])
    return mark(False, "none", f"Choose one of {letters}. {variant.question.hints[0]}", 0.0)
