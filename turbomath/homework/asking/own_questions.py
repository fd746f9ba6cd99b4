"""A question of the instructor's own, from a TOML file: read strictly, tried out, and then like any of the bank.

The chain is written in names of the kit, such as `sums.absolute_pressure`; nothing in the file is run.
"""

import functools
import inspect
import re
import string
from collections.abc import Mapping
from dataclasses import replace
from pathlib import Path
from typing import Any

import numpy as np

from turbomath import units, working
from turbomath.disk.plain_files import Place, text, toml
from turbomath.handbook.subjects import SUBJECTS
from turbomath.homework.asking import plausible, variants
from turbomath.homework.bank import QUESTIONS, arithmetic, instruments
from turbomath.homework.bank.question import SYSTEMS, Asked, Mistake, Question, Tolerance
from turbomath.homework.bank.readings import SHOWN, given
from turbomath.homework.bank.steps import family, step
from turbomath.homework.bank.strict_table import StrictTable, nearest
from turbomath.table.errors import TurbomathError
from turbomath.table.formulas import Tied
from turbomath.table.quantities import QUANTITIES
from turbomath.working import Step
from turbomath.working.coherent import scale

MOST_BYTES, LONGEST, LONGEST_NAME = 50_000, 900, 60
MOST_STEPS, MOST_SLIPS, TRIED = 20, 20, 6
CODES = tuple(f"M{number}" for number in range(1, 19))
_NAME = re.compile(r"[a-z][a-z0-9]*(?:_[a-z0-9]+)*")
_KEYS = ("name", "objective", "difficulty", "wording", "hints", "sense", "givens", "steps", "asked", "slips")
_GIVEN_KEYS = ("gauge", "of", "from", "low", "high", "unit")
_MODULES = (*SUBJECTS, arithmetic, instruments)
FORMULAS: Mapping[str, Tied] = {
    f"{module.__name__.rpartition('.')[2]}.{name}": one
    for module in _MODULES
    for name, one in vars(module).items()
    if callable(one) and hasattr(one, "formula") and one.__module__ == module.__name__
}


@functools.cache
def _drawn():
    """Return the names of all that is drawn for an engine, or follows from it."""
    return tuple(plausible.engine({}, np.zeros((1, plausible.count({})))))


def read(path: Path | str) -> tuple[str, Question]:
    """Return (the text of a file, the `Question` that it makes).

    Raises
    ------
    RefusedFileError
        With the file, the line or the key, what was found, what was expected and what to do.
    """
    content = text(path, most_bytes=MOST_BYTES)
    said = StrictTable(path, toml(content, Place(str(path)), 'name = "own_question"'), _KEYS)
    question = _question(said)
    _try(said, question)
    return content, question


def _question(said):
    name = _name(said, "name")
    if name in QUESTIONS:
        raise said.refusal("name", name, "a name that no question of the bank has", "Give it another name.")
    ranges: dict[str, Any] = {}
    entries = said.inner("givens")
    if not entries.table:
        raise said.refusal("givens", "nothing", "a table such as [givens.boost] for each number on the sheet")
    givens = tuple(_given(entries, one, ranges) for one in entries.table)
    steps = _steps(said, givens)
    quantities = {one.name: one.row for one in givens} | {one.result: one.quantity_of() for one in steps}
    return Question(
        name=name,
        number=0,
        objective=said.words("objective", LONGEST),
        difficulty=int(said.number("difficulty", 0, 3, "1, 2 or 3", 2)),
        wording=_wording(said, givens),
        givens=givens,
        steps=steps,
        asked=_asked(said, steps),
        mistakes=_mistakes(said, quantities, len(givens)),
        hints=said.texts("hints", 2, 2, LONGEST),
        ranges=ranges,
        verdict=said.words("sense", LONGEST) if "sense" in said else "",
    )


def _name(said, key):
    found = said.words(key, LONGEST_NAME)
    if not _NAME.fullmatch(found):
        raise said.refusal(key, found, "small letters and figures, joined by _, such as own_question")
    return found


def _wording(said, givens):
    """Return the wording, whose places in braces are just the givens."""
    wording = said.words("wording", LONGEST)
    expected = f"a place in braces for each given: {', '.join(f'{{{one.name}}}' for one in givens)}"
    try:
        fields = [part[1:] for part in string.Formatter().parse(wording) if part[1] is not None]
    except ValueError:
        raise said.refusal("wording", wording, expected) from None
    names = {one.name for one in givens}
    wrong = next((name for name, form, turned in fields if form or turned or name not in names), None)
    missing = names - {name for name, *_ in fields}
    if wrong is not None or missing:
        found = f"{{{wrong}}}" if wrong is not None else f"no {{{min(missing)}}}"
        raise said.refusal("wording", found, expected)
    return wording


def _given(entries, name, ranges):
    said = entries.inner(name, _GIVEN_KEYS)
    if not _NAME.fullmatch(name) or len(name) > LONGEST_NAME:
        raise entries.refusal(name, name, "small letters and figures, joined by _, such as boost")
    quantity = _quantity(said, "of", name)
    made = given(name, said.one_of("gauge", SHOWN), of="" if quantity == name else quantity)
    for unit, _ in (made.us, made.si):
        _check_unit(said, "gauge", unit, quantity)
    source = said.words("from", LONGEST_NAME) if "from" in said else name
    if any(key in said for key in ("low", "high", "unit")):
        source = source if source in plausible.RANGES else f"own_{source}"
        ranges[source] = _range(said, quantity)
    elif source not in _drawn():
        expected = "a value that is drawn for an engine, or low, high and unit"
        raise said.refusal("from", source, f"{expected}{nearest(source, _drawn())}")
    return replace(made, source="" if source == name else source)


def _range(said, quantity):
    unit = said.words("unit", LONGEST_NAME)
    _check_unit(said, "unit", unit, quantity)
    low = said.number("low", -1e9, 1e9, "a number")
    return low, said.number("high", low, 1e9, "a number above low"), unit, quantity


def _quantity(said, key, name):
    """Return the row of the table of quantities that a name has, or that is said for it."""
    if key in said:
        return said.one_of(key, QUANTITIES)
    if name not in QUANTITIES:
        expected = f"{key} = the quantity it is, as its name is not in the table"
        raise said.refusal(key, "nothing", f"{expected}{nearest(name, QUANTITIES)}")
    return name


def _check_unit(said, key, unit, quantity):
    try:
        scale(unit, quantity)
    except TurbomathError:
        expected = f"a unit of {quantity.replace('_', ' ')}: {', '.join(units.spellings(quantity))}"
        raise said.refusal(key, unit, expected) from None


def _steps(said, givens):
    known = {one.name: one.row for one in givens}
    steps: list[Step] = []
    for one in said.tables("steps", ("result", "formula", "take", "of"), MOST_STEPS, "step"):
        result = _name(one, "result")
        if result in known:
            raise one.refusal("result", result, "a name that is not taken yet")
        formula = FORMULAS[one.one_of("formula", FORMULAS)]
        made = step(result, formula, quantity=one.one_of("of", QUANTITIES, ""), **_taken(one, formula, known))
        row = made.quantity_of()
        if family(row) != family(formula.formula.result):
            raise one.refusal("of", row, f"a quantity of the sort that the formula gives, {formula.formula.result}")
        known[result] = row
        steps.append(made)
    return tuple(steps)


def _taken(said, formula, known):
    """Return parameter -> name of the chain, each known by then and of the sort that the formula takes."""
    parameters = inspect.signature(formula).parameters.values()
    needed = [one.name for one in parameters if one.default is one.empty]
    take = said.inner("take", needed)
    found = {}
    for parameter in needed:
        name = take.words(parameter, LONGEST_NAME) if parameter in take else parameter
        if name not in known:
            expected = f"for {parameter} one of {', '.join(known)}{nearest(name, known)}"
            raise take.refusal(parameter, name, expected, "Say which with take = { ... }.")
        row = Step("", formula, {}).quantity_of(parameter)
        if family(known[name]) != family(row):
            raise take.refusal(parameter, name, f"a {row.replace('_', ' ')}", "Take another value of the chain.")
        found[parameter] = name
    return found


def _asked(said, steps):
    results = {one.result: one.quantity_of() for one in steps}
    found = []
    for one in said.tables("asked", ("value", "us", "si", "within"), MOST_STEPS, "asked"):
        name = one.one_of("value", results)
        row = results[name]
        for system in SYSTEMS:
            _check_unit(one, system, one.words(system, LONGEST_NAME), row)
        within = Tolerance(one.number("within", 0, 0.1, "a share up to 0.1")) if "within" in one else None
        found.append(Asked(name, one.words("us", 60), one.words("si", 60), "" if row == name else row, within))
    return tuple(found)


def _mistakes(said, quantities, givens):
    keys = ("name", "code", "change", "says", "only")
    return tuple(
        Mistake(
            _name(one, "name"),
            one.one_of("code", CODES),
            _changes(one, quantities, givens),
            one.one_of("only", ("us", "si", ""), ""),
            one.words("says", LONGEST),
        )
        for one in said.tables("slips", keys, MOST_SLIPS, "slip", fewest=0)
    )


def _changes(said, quantities, givens):
    change = said.inner("change")
    if not change.table:
        raise said.refusal("change", "nothing", 'what the slip puts in, such as { manifold_pressure = "boost" }')
    for name in change.table:
        if name not in quantities:
            raise change.refusal(name, name, f"one of {', '.join(quantities)}{nearest(name, quantities)}")
    names = list(quantities)
    before = {name: names[: max(givens, names.index(name))] for name in change.table}
    known = {name: {one: quantities[one] for one in before[name] if one != name} for name in change.table}
    return {name: _put(change, name, quantities[name], known[name]) for name in change.table}


def _put(change, name, quantity, known):
    """Return what stands in a slip instead: a value known by then, an amount with its unit [SI], or another formula."""
    if isinstance(change.table[name], dict):
        inner = change.inner(name, ("formula", "take"))
        formula = FORMULAS[inner.one_of("formula", FORMULAS)]
        return Step(name, formula, _taken(inner, formula, known)).call
    words = change.words(name, LONGEST_NAME)
    if words in known:
        return words
    number, _, unit = words.partition(" ")
    try:
        return units.to_si(units.number(number), unit.strip() or "-", quantity)
    except TurbomathError:
        expected = f"one of {', '.join(known)}, or an amount with its unit such as '29.92 inHg'"
        raise change.refusal(name, words, f"{expected}{nearest(words, known)}") from None


def _try(said, question):
    """Make a few seats of the question in both systems of units and work them, or refuse it with the reason."""
    for number, slip in enumerate(question.mistakes, 1):
        if not any(variants.touches(question, slip, one.name) for one in question.asked):
            expected = f"a change that moves {' or '.join(one.name for one in question.asked)}"
            raise said.refusal(f"slip {number} change", ", ".join(slip.changes), expected)
    for system in SYSTEMS:
        seats = [f"trial {number}" for number in range(TRIED)]
        try:
            made = variants.make_all(question, secret="trial", assignment="trial", seats=seats, units=system)
            working.solution(made[0], units=system)
        except TurbomathError as trouble:
            expected = "numbers that work, with every slip clear of the right answer and of the others"
            raise said.refusal("givens", f"none on a {system} sheet", expected, f"{trouble}") from None
