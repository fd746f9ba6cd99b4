"""A seat's own form of a question to choose in: which case, and the options in which order."""

import re
from collections.abc import Callable, Sequence
from dataclasses import replace
from typing import Any

import numpy as np

from turbomath.homework.asking import draws, plausible
from turbomath.homework.asking.chosen import option
from turbomath.homework.asking.variant import LETTERS, Variant
from turbomath.homework.bank.question import Case, Choice, Option

_SHUFFLE = 16  # numbers for the choice of the case and the order of the options
_ATTEMPTS = 64
NAMES = ("Ana", "Ben")  # of the two who disagree in a case
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
    case = _called(case, NAMES[:: -1 if shares[0, -1] < 0.5 else 1])
    order = sorted(range(len(case.options)), key=lambda place: shares[0, 1 + place])
    return Variant(question, {}, tuple(case.options[place] for place in order), code, system, case.text)


def _called(case, names):
    """Return a case in which the two who disagree have these names: neither name is right more often."""
    text, *words = (_with_names(one, names) for one in (case.text, *(option.words for option in case.options)))
    options = (replace(option, words=said) for option, said in zip(case.options, words, strict=True))
    return Case(text, tuple(options))


def _with_names(text, names):
    return re.sub("|".join(NAMES), lambda found: names[NAMES.index(found[0])], text)


def chosen(variant: Variant, answer: Any) -> Option | None:
    """Return the option that a letter or the words of an option name, or None."""
    letter, words = option(answer) if isinstance(answer, str) and len(answer) < LONGEST else ("", "")
    for mark_of, one in zip(LETTERS, variant.asked, strict=False):
        if words.casefold() == one.words.casefold() or (letter == mark_of and not words):
            return one
    return None


def marked(variant: Variant, answer: Any, mark: Callable[..., Any]) -> Any:
    """Return the mark of a letter or of the words of an option."""
    one = chosen(variant, answer)
    if one:
        return mark(not one.code, one.code or "right", one.reply, float(not one.code))
    letters = ", ".join(LETTERS[: len(variant.asked)])
    return mark(
        False, "waiting", f"That is not one of {letters}. Write the letter, or show it to your instructor.", 0.0
    )
