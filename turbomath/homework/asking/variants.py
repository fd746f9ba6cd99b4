"""A seat's own numbers for a question.

Individual numbers stop copying, not computing: whoever has this kit can work any sheet out. What they give is
that each student has to work out his or her own, and can be answered on his or her own mistake.
"""

from collections.abc import Iterable, Mapping

import numpy as np
from numpy.typing import NDArray

from turbomath.homework.asking import choices, draws, plausible, widths
from turbomath.homework.asking.sheet import Sheet, solved
from turbomath.homework.asking.variant import Together, Variant
from turbomath.homework.bank import find
from turbomath.homework.bank.question import Choice, Mistake, Question
from turbomath.table.errors import TurbomathError
from turbomath.table.formulas import choice
from turbomath.table.quantities import QUANTITIES
from turbomath.working import Amount
from turbomath.working.coherent import scale, to_si
from turbomath.working.writing import fixed, plain_number, with_unit

AT_ONCE = (1, 7, 64, 512, 4096)  # redraws that are looked at together, until one will do; the first mostly does
APART_FROM_KEY, APART = 3.0, 1.0  # tolerances between key and distractors, and between distractors
APART_ROUNDED = 2.0  # what three figures a step may stray, between key and distractors


def make(
    question: str | Question | Choice,
    *,
    secret: str | bytes,
    assignment: str,
    seat: str,
    units: str = "us",
    retry: int = 0,
) -> Variant:
    """Return a seat's own variant of a question: the same on any machine.

    Parameters
    ----------
    question : str or Question
        A name of the bank, such as "manifold_pressure_from_boost", or the question itself.
    secret : str
        The course secret, known to the teacher only.
    assignment, seat : str
        Which sheet, and whose.
    units : "us" or "si"
        The units of the sheet.
    retry : int
        0 for the sheet itself, 1, 2, ... for fresh numbers after an answer.

    Returns
    -------
    Variant
        Givens rounded to the resolution of a gauge; every usual mistake leads well away from the key.

    Raises
    ------
    TurbomathError
        If there is no such question, or a text is empty.
    """
    return make_all(question, secret=secret, assignment=assignment, seats=(seat,), units=units, retry=retry)[0]


def make_all(
    question: str | Question | Choice,
    *,
    secret: str | bytes,
    assignment: str,
    seats: Iterable[str],
    units: str = "us",
    retry: int = 0,
) -> list[Variant]:
    """Return the variants of many seats, in their order: the same as `make` for each, but faster for a class."""
    question = find(question) if isinstance(question, str) else question
    choice("units", units, {"us": None, "si": None})
    assignment = draws.word("assignment", assignment)
    parts = [(assignment, draws.word("seat", seat), question.name, str(int(retry))) for seat in seats]
    codes = [draws.sheet_code(secret, (*one, units)) for one in parts]
    if isinstance(question, Choice):
        return [choices.variant(question, secret, one, units, code) for one, code in zip(parts, codes, strict=True)]
    givens = [_amounts(question, numbers, units) for numbers in _numbers(question, secret, parts, units)]
    made = [
        Variant(question, one, question.asked, code, units, _wording(question, one))
        for one, code in zip(givens, codes, strict=True)
    ]
    if made:
        Together.bind(made)
    return made


def _amounts(question, numbers, system):
    return {one.name: _amount(one, number, system) for one, number in zip(question.givens, numbers, strict=True)}


def _wording(question, givens):
    return question.wording.format(**{name: with_unit(one.text, one.unit) for name, one in givens.items()})


def _numbers(question, secret, parts, system):
    """Return the givens of each seat, in the units shown: those of its first draw that will do."""
    found, waiting, first = {}, list(range(len(parts))), 0
    for size in AT_ONCE:
        wanted = (plausible.count(question.ranges), range(first, first + size))
        shares = np.concatenate([draws.uniform(secret, parts[seat], *wanted) for seat in waiting])
        values = plausible.engine(question.ranges, shares)
        if question.also:
            values |= question.also(values, system)
        shown = np.array([_rounded(values[one.source or one.name], one, system) for one in question.givens])
        will_do = acceptable(question, shown, values, system).reshape(len(waiting), size)
        for place, seat in enumerate(waiting):
            if will_do[place].any():
                found[seat] = shown[:, place * size + int(np.argmax(will_do[place]))]
        waiting, first = [seat for seat in waiting if seat not in found], first + size
        if not waiting:
            return [found[seat] for seat in range(len(parts))]
    raise TurbomathError(f"{question.name}: no numbers tell the usual mistakes apart; its ranges are to be narrowed.")


def acceptable(
    question: Question, shown: NDArray[np.float64], values: Mapping[str, NDArray[np.float64]], system: str
) -> NDArray[np.bool_]:
    """Return which draws will do: a believable engine whose mistakes lead well away from the key and each other.

    *shown* holds the givens, a row each, in the units shown; *values* everything drawn, in SI.
    """
    in_si = {}
    for one, numbers in zip(question.givens, shown, strict=True):
        zero, size = scale(getattr(one, system)[0], one.row)
        in_si[one.name] = zero + numbers * size
    good = plausible.believable(values)
    sheet = Sheet(question, in_si, system)
    key = solved(question, sheet)
    if question.where:
        good = good & question.where(key)
    mistakes = question.mistakes_in(system)
    outcomes = [solved(question, sheet, mistake.changes) for mistake in mistakes]
    strayed = widths.half_widths(question, key)
    for asked in question.asked:
        value, width = key[asked.name], asked.allowed.width(key[asked.name], system)
        changing = [place for place, mistake in enumerate(mistakes) if touches(question, mistake, asked.name)]
        wrong = [outcomes[place][asked.name] for place in changing]
        good = good & _apart(
            value, wrong, width, np.maximum(APART_FROM_KEY * width, APART_ROUNDED * strayed[asked.name])
        )
        good = good & _not_a_given(question, asked, sheet, value, strayed[asked.name] * (1 + 1e-6))
    return good


def _not_a_given(question, asked, sheet, key, width):
    """Whether the key is no number that stands on the sheet, neither as it stands nor in the unit asked for."""
    good, (zero, size) = np.isfinite(key), scale(asked.unit(sheet.system), asked.row)
    for one in question.givens:
        good = good & (np.abs(zero + sheet.number(one.name) * size - key) > width)
        if one.name != asked.name and QUANTITIES[one.row].kind == QUANTITIES[asked.row].kind:
            good = good & (np.abs(sheet[one.name] - key) > width)
    return good


def touches(question: Question, mistake: Mistake, name: str) -> bool:
    """Whether a mistake changes a value of the chain."""
    changed = set(mistake.changes)
    for step in question.steps:
        if step.result not in changed and changed & {value for value in step.arguments.values() if _is_name(value)}:
            changed.add(step.result)
    return name in changed


def _is_name(value):
    return isinstance(value, str)


def _apart(key, wrong, width, from_key):
    good = np.isfinite(key)
    for place, one in enumerate(wrong):
        good = good & np.isfinite(one) & (np.abs(one - key) >= from_key)
        for other in wrong[:place]:
            good = good & (np.abs(one - other) >= APART * width)
    return good


def _rounded(values, given, system):
    """Return SI values in the unit shown, rounded to what the gauge shows."""
    unit, step = getattr(given, system)
    zero, size = scale(unit, given.row)
    return np.round((values - zero) / size / step) * step


def _amount(given, number, system):
    unit, step = getattr(given, system)
    text = fixed(float(number), max(0, len(f"{step:.6f}".rstrip("0").partition(".")[2])))
    value = to_si(plain_number(text), unit, given.row)
    return Amount(value, given.row, text, unit, given.symbol)
