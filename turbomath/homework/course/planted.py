"""Answers as students write them, made up with one finding in each: for the sample class and for tests.

Each recipe returns (part, planted finding, answer) for every part of a question, or None where a seat's numbers do not
allow it. What is planted follows from the chain of the question, never from the marker.
"""

import random
from collections.abc import Callable

from turbomath.homework.asking.sheet import solved
from turbomath.homework.asking.variant import LETTERS, Variant
from turbomath.homework.asking.widths import is_conversion
from turbomath.homework.bank.question import Choice, Question
from turbomath.homework.marking import carrying
from turbomath.homework.marking.answer_files import parts_of
from turbomath.table.errors import OutOfRangeError
from turbomath.working.coherent import scale
from turbomath.working.writing import fixed

Plants = list[tuple[str, str, str]]  # part, planted finding, answer
Recipe = Callable[[Variant, random.Random], Plants | None]
COARSE = 0.06  # of the key: a number that is further off is not called rounded
OFF = 1.37  # a slip that no usual mistake makes
UNREADABLE = ("about thirty", "see other sheet", "=1+1", "12 or 13 psi")


def recipes(question: Question | Choice, system: str) -> dict[str, Recipe]:
    """Return name -> recipe (variant, draw) of all that can be planted in a question; `draw` is a `random.Random`."""
    found = {"unanswered": _unanswered, "unreadable": _unreadable}
    if isinstance(question, Choice):
        return found | {f"option {place}": _option(place) for place in range(1, 4)}
    found |= {"rounding": _rounding, "off": _off}
    if all(one.unit(system) not in ("-", "%") and not is_conversion(question, one) for one in question.asked):
        found["unit"] = _without_unit
    for place, mistake in enumerate(question.mistakes_in(system)):
        found[f"{mistake.code} ({place + 1})"] = _mistake(mistake)
    if len(question.asked) > 1:
        found["carried"] = _carried
    return found


def right(variant: Variant, draw: random.Random) -> Plants:
    """Answer every part right."""
    if isinstance(variant.question, Choice):
        return [("", "right", next(letter for letter, one in _options(variant) if not one.code))]
    return [(one.name, "right", _text(variant, one, variant.key)) for one in variant.asked]


def _option(place):
    def recipe(variant, draw):
        wrong = [(letter, one.code) for letter, one in _options(variant) if one.code]
        return [("", wrong[place - 1][1], wrong[place - 1][0])] if place <= len(wrong) else None

    return recipe


def _mistake(mistake):
    """Answer with what a usual mistake gives; a part after a wrong one follows from it, and is right for that."""

    def recipe(variant, draw):
        outcome = next(values for one, values in variant.outcomes if one is mistake)
        found, astray = [], []
        for one in variant.asked:
            wrong = abs(outcome[one.name] - variant.key[one.name]) > _width(variant, one)
            finding = "right" if not wrong else "carried" if _follows(variant, astray, one, outcome) else mistake.code
            found.append((one.name, finding, _text(variant, one, outcome, finer=2)))
            astray += [one.name] if wrong else []
        return found

    return recipe


def _carried(variant, draw):
    """Answer the first part with a slip, and the others right for it."""
    first, *others = variant.asked
    own = {first.name: variant.key[first.name] * OFF}
    try:
        following = solved(variant.question, variant.sheet, own)
    except OutOfRangeError:
        return None
    if any(abs(following[one.name] - variant.key[one.name]) <= _width(variant, one) for one in others):
        return None
    return [
        (first.name, "none", _text(variant, first, following, finer=2)),
        *((one.name, "carried", _text(variant, one, following, finer=2)) for one in others),
    ]


def _follows(variant, astray, one, outcome):
    """Whether a value is what the chain gives after a wrong one before it."""
    if not astray:
        return False
    if not all(carrying.can_be(variant, name, outcome[name]) for name in astray):
        return False
    following = solved(variant.question, variant.sheet, {name: outcome[name] for name in astray})[one.name]
    return abs(following - outcome[one.name]) <= _width(variant, one)


def _without_unit(variant, draw):
    """Leave the unit of the last part out."""
    *others, last = right(variant, draw)
    return [*others, (last[0], "unit", last[2].partition(" ")[0])]


def _rounding(variant, draw):
    """Round the last part too far."""
    *others, last = right(variant, draw)
    asked = variant.asked[-1]
    zero, size = scale(asked.unit(variant.units), asked.row)
    number = (float(variant.key[asked.name]) - zero) / size
    for places in (3, 2, 1, 0, -1, -2):
        rounded = round(number, places)
        off = abs(zero + rounded * size - variant.key[asked.name])
        if round(number, places - 1) == rounded:
            continue  # its last digit is a nought, which would say that it was rounded further
        apart = all(
            abs(zero + rounded * size - values[asked.name]) > max(_width(variant, asked), 10.0**-places * size)
            for _, values in (*variant.outcomes, *variant.neighbours)
        )
        if _width(variant, asked) < off <= COARSE * abs(variant.key[asked.name]) and apart:
            shown = fixed(rounded, max(places, 0)) if places >= 0 else f"{rounded:.0f}"
            return [*others, (last[0], "rounding", f"{shown} {_unit(variant, asked)}".strip())]
    return None


def _off(variant, draw):
    """Answer the last part with a slip that nobody knows."""
    *others, last = right(variant, draw)
    values = {variant.asked[-1].name: variant.key[variant.asked[-1].name] * OFF}
    off = abs(values[variant.asked[-1].name] - variant.key[variant.asked[-1].name])
    if off < 2 * _width(variant, variant.asked[-1]):
        return None  # a third of a small gain is within rounding
    return [*others, (last[0], "none", _text(variant, variant.asked[-1], values, finer=2))]


def _unanswered(variant, draw):
    return [(part, "unanswered", "") for part in parts_of(variant.question)[0]]


def _unreadable(variant, draw):
    return [(part, "unreadable", draw.choice(UNREADABLE)) for part in parts_of(variant.question)[0]]


def _options(variant):
    return list(zip(LETTERS, variant.asked, strict=False))


def _width(variant, asked):
    return variant.width(asked.name)


def _unit(variant, asked):
    unit = asked.unit(variant.units)
    return "" if unit == "-" else unit


def _text(variant, asked, values, finer=1):
    """Return a value as a student writes it, with a figure or two more than needed."""
    zero, size = scale(asked.unit(variant.units), asked.row)
    number = fixed((float(values[asked.name]) - zero) / size, variant.decimals(asked, variant.units) + finer)
    return f"{number} {_unit(variant, asked)}".strip()
