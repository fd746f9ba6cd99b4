"""How far an answer may lie from the key: what the gauges support, and never less than three figures a step need."""

from typing import Any

import numpy as np

from turbomath.homework.asking.sheet import Sheet
from turbomath.homework.bank.question import Asked, Question, tolerance_of
from turbomath.working import rounding


def half_widths(question: Question, key: Sheet) -> dict[str, Any]:
    """Return name -> half-width [SI] of every step and every value asked for; *key* holds every value of the chain."""
    units = {one.name: (getattr(one, key.system)[0], one.row) for one in question.givens}
    rounded = rounding.half_widths(question.steps, key, units, key.system)
    found = {
        step.result: np.maximum(
            tolerance_of(step.quantity_of()).width(key[step.result], key.system), rounded[step.result]
        )
        for step in question.steps
    }
    return found | {one.name: _asked(one, question, key, rounded) for one in question.asked}


def is_conversion(question: Question, asked: Asked) -> bool:
    """Whether what is asked for stands on the sheet already, in another unit."""
    return asked.name in {one.name for one in question.givens}


def _asked(asked, question, key, rounded):
    value, unit = key[asked.name], asked.unit(key.system)
    allowed = asked.allowed.width(value, key.system)
    if is_conversion(question, asked):
        given = next(one for one in question.givens if one.name == asked.name)
        return np.maximum(allowed, rounding.converted(value, getattr(given, key.system)[0], unit, asked.row))
    return np.maximum(allowed, rounded[asked.name] + rounding.last_figure(value, unit, asked.row))
