"""The student's own earlier values: read, weighed against what the question allows, and carried to the later steps."""

import math
from collections.abc import Mapping
from typing import Any

from turbomath import units
from turbomath.homework.asking.sheet import Sheet, solved
from turbomath.homework.asking.variant import Variant
from turbomath.homework.bank.steps import family
from turbomath.homework.marking import answers
from turbomath.table.errors import OutOfRangeError, TurbomathError, UnitError
from turbomath.table.kinds import KINDS
from turbomath.table.quantities import QUANTITIES

FURTHEST = 2.0  # times as far from what it starts from as the key is
MOST_TIMES = 3.0  # the key, where there is nothing of its kind to start from


def own_values(
    variant: Variant, earlier: Mapping[str, Any] | None, decimal: str | None
) -> tuple[dict[str, float], list[str]]:
    """Return (name -> SI value of the student's own earlier steps, sentences about those that cannot be read)."""
    own, unread = {}, []
    quantities = {step.result: step.quantity_of() for step in variant.question.steps}
    for name, text in (earlier or {}).items():
        if name not in quantities:
            continue
        try:
            own[name] = _read(text, quantities[name], decimal)
        except (TurbomathError, TypeError, UnitError) as refusal:
            unread.append(f"Your {answers.plain(name)} could not be read: {refusal}")
    return own, unread


def _read(text, quantity, decimal):
    text = " ".join(text) if isinstance(text, tuple | list) else text
    number, unit = answers.parted(answers.bare_number(text) if isinstance(text, str) else text)
    return units.to_si(answers.number_in(number, decimal), unit or "-", quantity)


def following(variant: Variant, own: Mapping[str, float]) -> Sheet | dict[str, float]:
    """Return the chain worked from the student's own values; nothing follows from one that cannot be."""
    try:
        return solved(variant.question, variant.sheet, own)
    except OutOfRangeError:
        return dict.fromkeys(variant.key, math.nan)


def can_be(variant: Variant, name: str, value: float) -> bool:
    """Whether a student's own value is one that the question does not make impossible by itself.

    It is no number that stands on the sheet, lies on the side of what it starts from on which the key lies, and not
    far beyond it.
    """
    step = next(one for one in variant.question.steps if one.result == name)
    key, kind = float(variant.key[name]), KINDS[QUANTITIES[step.quantity_of()].kind]
    if not kind.low <= value <= kind.high or stands_on_the_sheet(variant, value, family(step.quantity_of())):
        return False
    starts = [
        float(variant.key[taken])
        for parameter, taken in step.all_arguments().items()
        if isinstance(taken, str) and family(step.quantity_of(parameter)) == family(step.quantity_of())
    ]
    if not starts:
        return key / MOST_TIMES < value < key * MOST_TIMES if key > 0 else key * MOST_TIMES < value < key / MOST_TIMES
    same_side = all((value - start) * (key - start) > 0 for start in starts if start != key)
    if family(step.quantity_of()) != "temperature":
        return same_side and value <= MOST_TIMES * key
    return same_side and all(abs(value - start) <= FURTHEST * abs(key - start) for start in starts)


def stands_on_the_sheet(variant: Variant, value: float, sort: str) -> bool:
    """Whether a value [SI] of a family of units is one of those given."""
    return any(
        family(one.quantity) == sort and math.isclose(one.value, value, rel_tol=1e-4) for one in variant.givens.values()
    )
