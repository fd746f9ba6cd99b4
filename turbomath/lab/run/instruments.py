"""From a table [instruments.<column>] to an `Instrument` in SI; a pressure span is as the gauge shows it."""

import functools
import math
import re
from typing import Any

from turbomath.disk.plain_files import Place
from turbomath.lab.run import amounts
from turbomath.lab.run.amounts import CORRECT
from turbomath.lab.run.channels import USUAL_INSTRUMENTS
from turbomath.table.quantities import QUANTITIES
from turbomath.uncertainty import GRADES, THERMOCOUPLES, Instrument

_TYPES, _CLASSES = (tuple(dict.fromkeys(names)) for names in zip(*THERMOCOUPLES, strict=True))
_SHARE = re.compile(r"(.*%)\s*of\s+(span|reading)\s*")
_STEP_FORMS = "a step such as '0.5 psi', or by range such as ['..30 psi: 0.5 psi', '30..100 psi: 1 psi']"


def instrument(column: str, table: Any, place: Place) -> Instrument:
    """Return the `Instrument` that *table* states for *column*, or refuse what cannot be."""
    amounts.closed(table, _READERS, place)
    stated = {
        key: _READERS[key](value, column, place.at(column=f"{place.column} {key}")) for key, value in table.items()
    }
    thermocouple = _thermocouple(stated.pop("type", None), stated.pop("class", None), place)
    found = Instrument(thermocouple=thermocouple, **stated)
    _check(found, column, place)
    return found


@functools.cache
def usual_instrument(column: str) -> Instrument:
    """Return the instrument that a shop usually has on *column*."""
    place = Place("usual instruments", column=f"[instruments.{column}]")
    return instrument(column, USUAL_INSTRUMENTS[column], place)


def says_accuracy(found: Instrument) -> bool:
    """Return whether an instrument's accuracy is stated, in whichever way."""
    return any(way is not None for way in (found.grade, found.accuracy, found.thermocouple))


def _check(found, column, place):
    """Refuse two statements of one accuracy, and one that means nothing on this column."""
    kind = QUANTITIES[column].kind
    ways = [name for name in ("grade", "accuracy", "thermocouple") if getattr(found, name) is not None]
    if len(ways) > 1:
        raise place.refusal(" and ".join(ways), "one statement of the accuracy", CORRECT)
    if found.grade and "pressure" not in kind:
        raise place.refusal(f"grade {found.grade}", "an accuracy, since grades are for pressure gauges", CORRECT)
    if found.thermocouple and kind != "temperature":
        raise place.refusal(f"type {found.thermocouple[0]}", "an accuracy, since this is no temperature", CORRECT)
    basis = found.accuracy[1] if found.accuracy else ""
    if basis == "of reading" and kind == "temperature":
        action = "Give degrees, such as '2 F°', or '% of span'."
        raise place.refusal("% of reading", "degrees, since a per cent of a temperature means nothing", action)
    if (found.grade or basis == "of span") and found.span is None:
        raise place.refusal(found.grade or "% of span", "a span as well, such as '0..60 psi'", CORRECT)


def _thermocouple(letter, grade, place):
    if letter is None and grade is None:
        return None
    if letter is None or grade is None:
        expected = f"type ({', '.join(_TYPES)}) together with class (ASTM E230 standard, special; IEC 60584 1, 2)"
        raise place.refusal(f"{'class' if letter is None else 'type'} alone", expected, CORRECT)
    return letter, grade


def _span(value, column, place):
    low, high = amounts.limit(column, amounts.as_shown)(value, place)
    if not (math.isfinite(low) and math.isfinite(high) and low < high):
        raise place.refusal(value, "a span with both ends, such as '0..60 psi'", CORRECT)
    return low, high


def _accuracy(value, column, place):
    text = re.sub(r"^\s*(±|\+/-)\s*", "", amounts.words(value, place))
    share = _SHARE.fullmatch(text)
    if share:
        return amounts.step(share[1], "load", place), f"of {share[2]}"
    return amounts.step(text, column, place), "plain"


def _resolution(value, column, place):
    """Return ((up to this reading, step), ...), the last without end; ranges must follow each other."""
    if isinstance(value, str):
        return ((math.inf, amounts.step(value, column, place)),)
    if not (
        isinstance(value, list) and value and all(isinstance(line, str) and line.count(":") == 1 for line in value)
    ):
        raise place.refusal(value, _STEP_FORMS, CORRECT)
    steps, reached = [], None
    for line in value:
        span, size = line.split(":")
        low, high = amounts.limit(column, amounts.as_shown)(span, place)
        if reached is not None and low != reached:
            raise place.refusal(line, "ranges that follow each other without a gap", CORRECT)
        reached = high
        steps.append((high, amounts.step(size, column, place)))
    return (*steps[:-1], (math.inf, steps[-1][1]))


def _read_class(value, _column, place):
    return amounts.one_of(*_CLASSES)(str(value) if value in (1, 2) else value, place)


_READERS = {
    "kind": lambda value, _column, place: amounts.words(value, place),
    "span": _span,
    "grade": lambda value, _column, place: amounts.one_of(*GRADES)(value, place),
    "accuracy": _accuracy,
    "resolution": _resolution,
    "calibrated": lambda value, _column, place: amounts.day(value, place),
    "type": lambda value, _column, place: amounts.one_of(*_TYPES)(value, place),
    "class": _read_class,
}
