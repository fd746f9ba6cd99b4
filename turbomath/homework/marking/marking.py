"""Marking: right, or which usual mistake it was, or which steps to check. Never only "wrong"."""

import math
from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any

from turbomath.homework.asking import choices
from turbomath.homework.asking.variant import Variant
from turbomath.homework.asking.widths import is_conversion
from turbomath.homework.bank.question import Choice
from turbomath.homework.marking import answers, carrying, slips
from turbomath.homework.marking.answers import Answer, plain
from turbomath.table.errors import TurbomathError, short
from turbomath.working.coherent import from_si, scale
from turbomath.working.writing import fixed, with_unit

# Share of the points for each finding; a named mistake and no match get none. A teacher may give others.
POINTS = {"right": 1.0, "carried": 0.75, "rounding": 0.75, "unit": 0.5}
WAITING = "waiting"  # cannot be read: for the instructor to decide, and never wrong
COARSEST = 0.06  # of the key: a number rounded more than this is not called rounded
SPARE_DECIMALS = 2  # more than these beyond what the tolerance supports is false precision


@dataclass(frozen=True)
class Mark:
    """How one answer was marked.

    `finding` is "right", "unit", "rounding", "carried", "given", "waiting", a code from "M1" to "M18" or "C1" to "C4",
    or "none"; `message` tells the student what was done and what to do; `points` is a share from 0 to 1; `value` is the
    number that was read [SI], None where there is none, and `half_digit` half of the last digit that was written [SI].
    """

    right: bool
    finding: str
    message: str
    points: float
    value: float | None = None
    half_digit: float = 0.0


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
        given = answers.taken(answer, unit, asked, variant.units, decimal, float(variant.key[asked.name]))
    except TurbomathError as refusal:
        return _mark(WAITING, f"{_capital(refusal)} Nothing is lost: write it again, or show it to your instructor.")
    own, unread = carrying.own_values(variant, earlier, decimal)
    found = _judged(variant, asked, given, own)
    message = " ".join([found.message, *unread])
    return replace(found, message=message, value=given.value, half_digit=given.half_digit)


def _judged(variant, asked, given, own):
    key, width = float(variant.key[asked.name]), variant.width(asked.name)
    fraction = given.fraction is not None and abs(given.fraction - key) <= width
    turned = _in_the_unit_asked(given, asked, variant)
    if is_conversion(variant.question, asked) and not turned:
        return _not_converted(variant, asked, given)
    if _copied(variant, given.number) and not turned:
        return _wrong(variant, asked, given, own)
    if fraction or (given.value is not None and abs(given.value - key) <= width):
        return _right(variant, asked, given)
    carried = _carried(variant, asked, given.value, own)
    if carried:
        return carried
    return _wrong(variant, asked, given, own)


def _wrong(variant, asked, given, own):
    copied = _copied(variant, given.number)
    right_in = not copied and not is_conversion(variant.question, asked) and _right_in(variant, asked, given.number)
    mistake = _mistake(variant, asked, given)
    if mistake and not (right_in and given.complaint):
        return _mark(mistake.code, f"{mistake.message}{f' And the unit: {given.complaint}' * bool(given.complaint)}")
    if right_in and not _may_be_a_slip(variant, asked, given):
        return _mark("unit", f"The number is right in {right_in}. {_about_unit(given)}")
    if copied:
        return _mark("given", f"This number stands in the question. {_step_by_step(variant, asked, own)}")
    if given.value is not None and not copied and _rounded_too_far(variant, asked, given):
        return _mark(
            "rounding",
            "You are on the right way, but rounded too far. Keep one more figure, and round only at the end.",
        )
    return _mark("none", f"{_capital(given.complaint)} {_step_by_step(variant, asked, own)}".strip())


def _rounded_too_far(variant, asked, given):
    key = float(variant.key[asked.name])
    off = abs(given.value - key)
    coarse = off <= given.half_digit * (1 + 1e-9) and off <= COARSEST * abs(key)
    return coarse and not _may_be_a_slip(variant, asked, given)


def _may_be_a_slip(variant, asked, given):
    return given.value is not None and slips.near(variant, asked.name, given.value, given.half_digit)


def _asked(variant, part):
    for one in variant.asked:
        if one.name == (part or variant.asked[-1].name):
            return one
    names = ", ".join(one.name for one in variant.asked)
    raise TurbomathError(f"found {short(part)!r}, expected a value that is asked for: {names}.")


def _right(variant, asked, given):
    unit, places = asked.unit(variant.units), variant.decimals(asked, variant.units)
    shown = with_unit(fixed(from_si(float(variant.key[asked.name]), unit, asked.row), places), unit)
    verdict = variant.question.verdict_on(variant.key) if asked is variant.asked[-1] else ""
    words = f"Right: the key is {shown}."
    if given.decimals > places + SPARE_DECIMALS:
        words += " You wrote more figures than these readings can know."
    return _mark("right", f"{words} {_capital(verdict)}".strip())


def _in_the_unit_asked(given: Answer, asked, variant):
    """Whether a number came in the unit that a conversion goes to, however that is spelled."""
    zero, size = scale(asked.unit(variant.units), asked.row)
    meant = zero + given.number * size
    return given.value is not None and abs(given.value - meant) <= 1e-9 * max(abs(meant), abs(given.value))


def _not_converted(variant, asked, given):
    unit = asked.unit(variant.units)
    finding = "given" if _copied(variant, given.number) else "none"
    return _mark(finding, f"Asked is the amount in {unit}: turn it into that unit, and write the unit with it.")


def _copied(variant, number):
    """Whether a number stands on the sheet."""
    shown = (float(one.text.replace("−", "-")) for one in variant.givens.values())
    return any(math.isclose(number, one, rel_tol=1e-6, abs_tol=1e-6) for one in shown)


def _right_in(variant, asked, number):
    """Return the unit, of the two that the sheets ask in, in which a number would be right; "" if there is none."""
    key, width = float(variant.key[asked.name]), variant.width(asked.name)
    for unit in dict.fromkeys((asked.unit(variant.units), asked.us, asked.si)):
        zero, size = scale(unit, asked.row)
        if abs(zero + number * size - key) <= width:
            return "figures alone" if unit == "-" else unit
    return ""


def _about_unit(given):
    return _capital(given.complaint) if given.complaint else "You wrote another unit. Check which one yours is in."


def _mistake(variant, asked, given):
    """Return the usual mistake behind a number, in its own unit, or in the one asked for where that does not fit."""
    if given.value is not None:
        found = slips.named(variant, asked.name, given.value, given.half_digit)
        if found or given.fraction is None:
            return found
        return slips.named(variant, asked.name, given.fraction, given.half_digit * 100)
    zero, size = scale(asked.unit(variant.units), asked.row)
    return slips.named(variant, asked.name, zero + given.number * size, given.half_digit * size)


def _carried(variant, asked, value, own):
    """Return the mark of an answer that follows from the student's own earlier values, or None."""
    before = {name: number for name, number in own.items() if name != asked.name}
    astray = [name for name, number in before.items() if abs(number - variant.key[name]) > variant.width(name)]
    if value is None or not astray or not all(carrying.can_be(variant, name, before[name]) for name in astray):
        return None
    following = float(carrying.following(variant, before)[asked.name])
    if not abs(value - following) <= variant.width(asked.name):
        return None
    about = _about_step(variant, astray[0], own[astray[0]])
    return _mark("carried", f"This step is right for your own {plain(astray[0])}. {about}")


def _about_step(variant, name, value):
    """Say what went wrong at one step."""
    mistake = slips.named(variant, name, value)
    if mistake:
        return f"At {plain(name)}: {mistake.message}"
    return f"Work {plain(name)} out again. {variant.question.hints[0]}"


def _step_by_step(variant, asked, own):
    """Return which of the student's own steps is the first to go astray, or which steps there are to check."""
    so_far = {}
    for step in variant.question.steps:
        if step.result in own:
            expected = carrying.following(variant, so_far)[step.result]
            if not abs(own[step.result] - expected) <= variant.width(step.result):
                good = f"Your {' and '.join(map(plain, so_far))} will do. " if so_far else ""
                return f"{good}{_about_step(variant, step.result, own[step.result])}"
            so_far[step.result] = own[step.result]
    if so_far:
        good = " and ".join(map(plain, so_far))
        return f"Your {good} will do. The slip is after that. {variant.question.hints[0]}"
    steps = [step.result for step in variant.question.steps] or [asked.name]
    listed = "; ".join(f"{place}. {plain(name)}" for place, name in enumerate(steps, 1))
    return (
        "Your number matches none of the slips I know. Check these steps, and write each one down: "
        f"{listed}. {variant.question.hints[0]}"
    )


def _capital(words):
    words = str(words)
    return words[:1].upper() + words[1:]


def _mark(finding, message):
    return Mark(finding == "right", finding, message, POINTS.get(finding, 0.0))
