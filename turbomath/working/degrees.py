"""Which steps of a chain hold as they stand in °F or °C: those in which only differences of temperature count."""

from collections.abc import Iterable, Mapping
from typing import Any

from turbomath.table.quantities import QUANTITIES
from turbomath.working.chain import Step, own_letters
from turbomath.working.equations import letters_of, look_ups, read, worked_out

DEGREES = {  # kind of quantity -> unit by system
    "temperature": {"us": "°F", "si": "°C"},
    "temperature difference": {"us": "F°", "si": "C°"},
}
_SHIFTS = (100.0, 200.0)


def in_degrees(steps: Iterable[Step], given_in_degrees: Mapping[str, bool]) -> set[str]:
    """Return the results of the steps that can be worked in degrees.

    Such a step takes its temperatures as they are printed in degrees, and what comes of it in degrees is wanted by no
    step that counts from absolute zero.

    Parameters
    ----------
    steps : iterable of Step
        The chain.
    given_in_degrees : dict
        Given value -> whether its unit is that of a thermometer of this system.
    """
    steps, found = tuple(steps), {name for name, told in given_in_degrees.items() if told}
    good: list[Step] = []
    for step in steps:
        if _differences_only(step) and all(name in found for name in _temperatures(step)):
            good.append(step)
            found |= {step.result} if _is_temperature(step.quantity_of()) else set()
    while True:
        wanted = {name for step in steps if step not in good for name in _temperatures(step)}
        there = {step.result for step in good if step.result not in wanted} | set(given_in_degrees)
        kept = [one for one in good if one.result not in wanted and there.issuperset(_temperatures(one))]
        if kept == good:
            return {one.result for one in good}
        good = kept


def _temperatures(step):
    taken = step.all_arguments().items()
    return [name for parameter, name in taken if isinstance(name, str) and _is_temperature(step.quantity_of(parameter))]


def _is_temperature(quantity):
    return QUANTITIES[quantity].kind == "temperature"


def _differences_only(step):
    """Whether a shift of every temperature leaves a result as it is, or shifts it as much where it is one itself."""
    equation = read(step.formula.formula.equation, tuple(one[0] for one in own_letters(step.formula).values()))
    if equation is None or look_ups(equation[1]) or not _temperatures(step):
        return False
    kinds = {step.letter_of(name): step.quantity_of(name) for name in step.all_arguments()}
    letters = letters_of(equation[1])
    first = {mark: 300.0 + 37.0 * place for place, mark in enumerate(letters)}

    hot = {mark for mark in letters if mark in kinds and _is_temperature(kinds[mark])}

    def worked(shift: float) -> Any:
        return worked_out(equation[1], lambda node: first[node.text] + shift * (node.text in hot))

    own = worked(0.0)
    by = [shift * _is_temperature(step.quantity_of()) for shift in _SHIFTS]
    return all(abs(worked(shift) - own - one) <= 1e-6 * abs(own) for shift, one in zip(_SHIFTS, by, strict=True))
