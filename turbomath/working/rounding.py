"""How far an answer may stray that is worked to three significant figures, each number on the way rounded to them.

Every number that is written down may be off by half of its last figure. Each is followed alone through the whole
chain, and all of them together are three standard deviations of as many even spreads, or their plain sum where that is
less (GUM, 4.3.7 and 5.1.2).
"""

from collections.abc import Callable, Iterable, Iterator, Mapping
from typing import Any

import numpy as np

from turbomath.table.errors import TurbomathError, unwarned
from turbomath.working import coherent
from turbomath.working.chain import Step, own_letters, results
from turbomath.working.equations import Node, letters_of, look_ups, read

FIGURES = 3  # of every number on the way
Found = tuple[Any, Any]  # value, half-width


def half_of_last_figure(value: Any, figures: int = FIGURES) -> Any:
    """Return half of the last place of a number that is written to so many significant figures.

    Examples
    --------
    >>> float(half_of_last_figure(35.65)), float(half_of_last_figure(0.0178))
    (0.05, 5e-05)
    """
    size = np.maximum(np.abs(np.asarray(value, dtype=float)), 1e-300)
    return 0.5 * 10.0 ** (np.floor(np.log10(size)) - figures + 1)


def last_figure(value: Any, unit: str, quantity: str) -> Any:
    """Return half of the last of three figures [SI] of a value [SI] that is written in a unit."""
    zero, size = coherent.scale(unit, quantity)
    return half_of_last_figure((value - zero) / size) * size


def converted(value: Any, unit_in: str, unit_out: str, quantity: str) -> Any:
    """Return the half-width [SI] of a value [SI] that was turned from one unit into another to three figures."""
    (zero_in, size_in), (zero, size) = (coherent.scale(unit, quantity) for unit in (unit_in, unit_out))
    factor, offset = size_in / size, (zero_in - zero) / size
    if abs(factor - 1) < 1e-9 and abs(offset) < 1e-9:
        return np.zeros_like(np.asarray(value, dtype=float))
    strayed = np.abs(value - zero_in) / size_in * _shortened(factor) + _shortened(offset)
    half = half_of_last_figure((value - zero) / size)
    if abs(factor - 1) < 1e-9:
        half = np.minimum(half, 0.5)  # °F + 460 is added in whole degrees, however many figures that makes
    return (strayed + half) * size


def half_widths(
    steps: Iterable[Step], values: Any, units: Mapping[str, tuple[str, str]], system: str
) -> dict[str, Any]:
    """Return name -> half-width [SI] of every result of a chain that is worked to three figures.

    Parameters
    ----------
    steps : iterable of Step
        The chain.
    values : dict
        Every value of it in SI, by name; floats or arrays. It has a `copy`.
    units : dict
        Given value -> (its unit on the sheet, its quantity).
    system : "us" or "si"
        The units it is worked in.
    """
    steps = tuple(steps)
    parts: dict[str, list] = {step.result: [] for step in steps}
    with unwarned():
        for name, own in _sources(steps, values, units, system):
            for result, moved in _followed(steps, values, name, own).items():
                parts[result].append(moved)
        return {result: _together(found) for result, found in parts.items()}


def _sources(steps, values, units, system) -> Iterator[Found]:
    """Yield (name, how far it is off in itself) of every number that is written down."""
    for name, (unit, quantity) in units.items():
        users = [step for step in steps if name in step.arguments.values()]
        if users:
            taken = _unit_of(users[0])(quantity, system)
            yield name, converted(values[name], unit, taken, quantity)
    for step in steps:
        yield step.result, _in_itself(step, values, system)


def _followed(steps, values, name, off):
    """Return result -> how far it moves when one number is off."""
    try:
        moved = results(steps, values, {name: lambda _: values[name] + off})
    except TurbomathError:  # beyond what can be: seen from the other side
        moved = results(steps, values, {name: lambda _: values[name] - off})
    return {step.result: np.abs(moved[step.result] - values[step.result]) for step in steps}


def _together(parts):
    whole = np.sum(parts, axis=0)
    return np.minimum(whole, np.sqrt(3.0 * np.sum(np.square(parts), axis=0)))


def _unit_of(step):
    hourly = coherent.by_the_hour(step.quantity_of(name) for name in (None, *step.all_arguments()))
    return coherent.hourly_unit if hourly else coherent.unit


def _in_itself(step, values, system):
    """Return how far [SI] the result of a step is off by the rounding inside the step alone."""
    unit, quantity = _unit_of(step), step.quantity_of()
    size = coherent.scale(unit(quantity, system), quantity)[1]
    equation = read(step.formula.formula.equation, tuple(one[0] for one in own_letters(step.formula).values()))
    if equation is None or look_ups(equation[1]):
        return half_of_last_figure(values[step.result] / size) * size
    numbers = {}
    for parameter, name in step.all_arguments().items():
        row = step.quantity_of(parameter)
        value = values[name] if isinstance(name, str) else name
        numbers[step.letter_of(parameter)] = coherent.from_si(value, unit(row, system), row), 0.0
    constants = {mark: _constant(mark, system) for mark in letters_of(equation[1]) if mark not in numbers}
    return _carried(equation[1], (numbers | constants).__getitem__)[1] * size


def _shortened(number):
    """Return how far a constant lies from itself to three figures."""
    return abs(float(f"{number:.{FIGURES}g}") - number)


def _constant(mark, system):
    number = float(coherent.constant(mark, system)[0].replace("−", "-"))
    return number, _shortened(number)


def _carried(node: Node, value: Callable[[str], Found]) -> Found:
    """Return (value, half-width) of a part of an equation, each sum, product, quotient and power rounded."""
    if node.sort == "number":
        return float(node.text), 0.0
    if node.sort == "letter":
        return value(node.text)
    parts = [_carried(part, value) for part in node.parts]
    if node.sort == "+":
        total = sum(sign * one for sign, (one, _) in zip(node.signs, parts, strict=True))
        return _rounded(total, (len(parts) - 2) * half_of_last_figure(total), *(width for _, width in parts))
    if node.sort in ("max", "min"):
        return getattr(np, f"{node.sort}imum").reduce([one for one, _ in parts]), parts[-1][1]
    if node.sort == "root":
        return _power(*parts[0], 0.5, 0.0)
    total, work = parts[0], _WORK[node.sort]
    for value_of, width_of in parts[1:]:
        total = work(*total, value_of, width_of)
    return total


def _rounded(value, *widths):
    return value, _together([width + 0 * value for width in (*map(np.abs, widths), half_of_last_figure(value))])


def _product(one, a, other, b):
    return _rounded(one * other, one * b, other * a)


def _quotient(above, a, below, b):
    return _rounded(above / below, a / below, above * b / below**2)


def _power(base, a, exponent, b):
    value = base**exponent
    return _rounded(value, value * exponent * a / base, value * np.log(np.abs(base)) * b)


_WORK: dict[str, Callable[..., Found]] = {"*": _product, "/": _quotient, "^": _power}
