"""Marking: right, or which usual mistake it was, or which step to look at. Never only "wrong"."""

import math
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from turbomath import units
from turbomath.homework.asking import choices
from turbomath.homework.asking.sheet import solved
from turbomath.homework.asking.variant import Variant
from turbomath.homework.bank.question import Choice, tolerance_of
from turbomath.homework.marking import answers
from turbomath.table.errors import OutOfRangeError, TurbomathError, UnitError, short
from turbomath.table.quantities import QUANTITIES
from turbomath.working.coherent import scale
from turbomath.working.writing import fixed, with_unit

# Share of the points for each finding; a named mistake and no match get none. A teacher may give others.
POINTS = {"right": 1.0, "carried": 0.75, "rounding": 0.75, "unit": 0.5}
COARSEST = 0.06  # of the key: a number rounded more than this is not called rounded
SPARE_DECIMALS = 2  # more than these beyond what the tolerance supports is false precision


@dataclass(frozen=True)
class Mark:
    """How one answer was marked.

    `finding` is "right", "unit", "rounding", "carried", a code from "M1" to "M18", or "none"; `message` tells the
    student what was done and what to do; `points` is a share from 0 to 1.
    """

    right: bool
    finding: str
    message: str
    points: float


def mark(
    variant: Variant,
    answer: Any,
    unit: str = "",
    *,
    earlier: Mapping[str, Any] | None = None,
    part: str | None = None,
    decimal: str | None = None,
) -> Mark:
    """Return the `Mark` of one answer to a variant.

    Parameters
    ----------
    variant : Variant
        From `turbomath.homework.asking.variants.make`.
    answer : str
        The number as it was written; for a question to choose in, the letter or the words.
    unit : str
        Its unit; may stand behind the number in *answer* instead.
    earlier : dict of str, optional
        The student's own values of earlier steps, name -> "number unit": a later step is then marked on them.
    part : str, optional
        Which of the values asked for this answers, where there are several; the last one otherwise.
    decimal : ",", optional
        The decimal mark of the file the answers come from, where that is a comma.

    Returns
    -------
    Mark
        Never an error for what a student wrote: what cannot be read is said in its message.
    """
    if isinstance(variant.question, Choice):
        return choices.marked(variant, answer, Mark)
    asked = _asked(variant, part)
    try:
        given = answers.taken(answer, unit, asked, variant.units, decimal)
    except TurbomathError as refusal:
        return _mark("none", f"{_capital(refusal)} Nothing is lost: write it again.")
    own, unread = _own_values(variant, earlier, decimal)
    found = _judged(variant, asked, given, own)
    return Mark(found.right, found.finding, " ".join([found.message, *unread]), found.points)


def _judged(variant, asked, given, own):
    key, width = _key(variant, asked)
    if given.value is None:
        return _wrong_unit(variant, asked, given)
    if abs(given.value - key) <= width:
        return _right(variant, asked, given)
    carried = _carried(variant, asked, given.value, own)
    if carried:
        return carried
    mistake = _nearest_mistake(variant, asked.name, given.value, asked.allowed)
    if mistake:
        return _mark(mistake.code, mistake.message)
    if _fits_another_unit(variant, asked, given.number):
        return _mark(
            "unit",
            f"The number is right, the unit is not: in {_words(asked.unit(variant.units))} it would be another "
            "number. Check which unit yours is in.",
        )
    if abs(given.value - key) <= given.half_digit * (1 + 1e-9) and abs(given.value - key) <= COARSEST * abs(key):
        return _mark(
            "rounding",
            "You are on the right way, but rounded too far. Keep one more figure, and round only at the end.",
        )
    return _mark("none", _step_by_step(variant, asked, own))


def _asked(variant, part):
    for one in variant.asked:
        if one.name == (part or variant.asked[-1].name):
            return one
    names = ", ".join(one.name for one in variant.asked)
    raise TurbomathError(f"found {short(part)!r}, expected a value that is asked for: {names}.")


def _key(variant, asked):
    key = float(variant.key[asked.name])
    return key, float(asked.allowed.width(key, variant.units))


def _right(variant, asked, given):
    shown = _shown(variant, asked)
    verdict = variant.question.verdict_on(variant.key) if asked is variant.asked[-1] else ""
    words = f"Right: the key is {shown}."
    if given.decimals > variant.decimals(asked, variant.units) + SPARE_DECIMALS:
        words += " You wrote more figures than these readings can know."
    return _mark("right", f"{words} {_capital(verdict)}".strip())


def _shown(variant, asked):
    unit = asked.unit(variant.units)
    zero, size = scale(unit, asked.row)
    places = variant.decimals(asked, variant.units)
    return with_unit(fixed((float(variant.key[asked.name]) - zero) / size, places), unit)


def _nearest_mistake(variant, name, value, allowed):
    """Return the mistake whose outcome is nearest to a value and within the tolerance of it, or None."""
    near = []
    key = float(variant.key[name])
    for mistake, outcome in variant.outcomes:
        wrong = float(outcome[name])
        width = max(allowed.width(key, variant.units), allowed.width(wrong, variant.units))
        if abs(value - wrong) <= width and abs(wrong - key) > allowed.width(key, variant.units):
            near.append((abs(value - wrong), mistake))
    return min(near, key=lambda one: one[0])[1] if near else None


def _wrong_unit(variant, asked, given):
    """Judge a number whose unit does not fit: was it right, or a usual mistake, in the unit asked for?"""
    zero, size = scale(asked.unit(variant.units), asked.row)
    value = zero + given.number * size
    mistake = _nearest_mistake(variant, asked.name, value, asked.allowed)
    if _fits_another_unit(variant, asked, given.number):
        return _mark("unit", f"The number is right. {_capital(given.complaint)}")
    if mistake:
        return _mark(mistake.code, f"{mistake.message} And the unit: {given.complaint}")
    return _mark("none", f"{_capital(given.complaint)} {_step_by_step(variant, asked, {})}")


def _fits_another_unit(variant, asked, number):
    """Whether a number would be right in some unit of what was asked."""
    key, width = _key(variant, asked)
    for unit in units.spellings(asked.row):
        if unit.endswith(" gauge"):
            continue
        zero, size = scale(unit, asked.row)
        if abs(zero + number * size - key) <= width:
            return True
    return False


def _own_values(variant, earlier, decimal):
    """Return (name -> SI value of the student's own earlier steps, sentences about those that cannot be read)."""
    own, unread = {}, []
    for name, text in (earlier or {}).items():
        quantities = {step.result: step.quantity_of() for step in variant.question.steps}
        if name not in quantities:
            continue
        try:
            number, unit = answers.parted(" ".join(text) if isinstance(text, tuple | list) else text)
            own[name] = units.to_si(answers.number_in(number, decimal), unit or "-", quantities[name])
        except (TurbomathError, TypeError, UnitError) as refusal:
            unread.append(f"Your {_plain(name)} could not be read: {refusal}")
    return own, unread


def _carried(variant, asked, value, own):
    """Return the mark of an answer that follows from the student's own earlier values, or None."""
    before = {name: number for name, number in own.items() if name != asked.name}
    astray = [name for name, number in before.items() if not _close(variant, name, number, variant.key[name])]
    if not astray:
        return None
    following = float(_following(variant, before)[asked.name])
    if not abs(value - following) <= asked.allowed.width(following, variant.units):
        return None
    return _mark(
        "carried",
        f"This step is right for your own {_plain(astray[0])}. {_about_step(variant, astray[0], own[astray[0]])}",
    )


def _following(variant, own):
    """Return the chain worked from the student's own values; nothing follows from one that cannot be."""
    try:
        return solved(variant.question, variant.sheet, own)
    except OutOfRangeError:
        return dict.fromkeys(variant.key, math.nan)


def _close(variant, name, value, expected):
    return abs(value - expected) <= _width(variant, name, expected)


def _width(variant, name, expected):
    quantity = next(step.quantity_of() for step in variant.question.steps if step.result == name)
    allowed = next((one.allowed for one in variant.asked if one.name == name), tolerance_of(quantity))
    return float(allowed.width(float(expected), variant.units))


def _about_step(variant, name, value):
    """Say what went wrong at one step."""
    quantity = next(step.quantity_of() for step in variant.question.steps if step.result == name)
    allowed = next((one.allowed for one in variant.asked if one.name == name), tolerance_of(quantity))
    mistake = _nearest_mistake(variant, name, value, allowed)
    return (
        f"At {_plain(name)}: {mistake.message}"
        if mistake
        else f"Work {_plain(name)} out again. {variant.question.hints[1]}"
    )


def _step_by_step(variant, asked, own):
    """Return which of the student's own steps is the first to go astray, or which steps there are to check."""
    so_far = {}
    for step in variant.question.steps:
        if step.result in own:
            expected = _following(variant, so_far)[step.result]
            if not _close(variant, step.result, own[step.result], expected):
                good = f"Your {' and '.join(_plain(name) for name in so_far)} will do. " if so_far else ""
                return f"{good}{_about_step(variant, step.result, own[step.result])}"
            so_far[step.result] = own[step.result]
    steps = [step.result for step in variant.question.steps] or [asked.name]
    listed = "; ".join(f"{place}. {_plain(name)}" for place, name in enumerate(steps, 1))
    if so_far:
        good = " and ".join(_plain(name) for name in so_far)
        return f"Your {good} will do. The slip is after that: {variant.question.hints[1]}"
    return (
        f"No usual slip gives this number. Go step by step and write each one down: {listed}. "
        f"{variant.question.hints[0]} {variant.question.hints[1]}"
    )


def _plain(name):
    return QUANTITIES[name].plain_name if name in QUANTITIES else name.replace("_", " ")


def _words(unit):
    return "a number without a unit" if unit == "-" else unit


def _capital(words):
    words = str(words)
    return words[:1].upper() + words[1:]


def _mark(finding, message):
    return Mark(finding == "right", finding, message, POINTS.get(finding, 0.0))
