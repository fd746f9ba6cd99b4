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
_ATTEMPTS = (range(1), range(1, 8), range(8, 64))  # redraws looked at together; the first mostly will do
NAMES = ("Ana", "Ben")  # of the two who disagree in a case
LONGEST = 300  # characters of an answer that are looked at


def variant(question: Choice, secret: str | bytes, parts: Sequence[str], system: str, code: str) -> Variant:
    """Return the `Variant` of one seat."""
    cases, count = question.cases, _SHUFFLE + plausible.count(question.ranges)
    (shares,) = draws.uniform(secret, parts, count, range(1))
    if callable(cases):
        cases = cases(_engine(question.ranges, secret, parts, count), system)
    case = cases[int(shares[0] * len(cases))]
    case = _called(case, NAMES[:: -1 if shares[-1] < 0.5 else 1])
    order = sorted(range(len(case.options)), key=lambda place: shares[1 + place])
    return Variant(question, {}, tuple(case.options[place] for place in order), code, system, case.text)


def _engine(ranges, secret, parts, count):
    """Return all that is drawn for a seat, of its first draw that could be standing in a shop."""
    for attempts in _ATTEMPTS:
        values = plausible.engine(ranges, draws.uniform(secret, parts, count, attempts)[:, _SHUFFLE:])
        good = plausible.believable(values)
        if good.any():
            break
    row = int(np.argmax(good))
    return {name: float(value[row]) for name, value in values.items()}


def _called(case, names):
    """Return a case in which the two who disagree have these names: neither name is right more often."""
    text, *words = (_with_names(one, names) for one in (case.text, *(option.words for option in case.options)))
    options = (replace(option, words=said) for option, said in zip(case.options, words, strict=True))
    return Case(text, tuple(options))


def _with_names(text, names):
    return re.sub("|".join(NAMES), lambda found: names[NAMES.index(found[0])], text)


def chosen(variant: Variant, answer: Any) -> Option | None:
    """Return the option that a letter, its words, or the name before its colon say, or None."""
    letter, words = option(answer) if isinstance(answer, str) and len(answer) < LONGEST else ("", "")
    for mark_of, one in zip(LETTERS, variant.asked, strict=False):
        if words.casefold() == one.words.casefold() or (letter == mark_of and not words):
            return one
    called = [one for one in variant.asked if words and one.words.casefold().startswith(f"{words.casefold()}:")]
    return called[0] if len(called) == 1 else None


def marked(variant: Variant, answer: Any, mark: Callable[..., Any]) -> Any:
    """Return the mark of a letter or of the words of an option."""
    one = chosen(variant, answer)
    if one:
        return mark(not one.code, one.code or "right", one.reply, float(not one.code))
    letters = ", ".join(LETTERS[: len(variant.asked)])
    return mark(
        False, "waiting", f"That is not one of {letters}. Write the letter, or show it to your instructor.", 0.0
    )
