"""Usual mistakes that a question shares with those beside it: whoever makes one there can make it here as well.

They follow from the steps of the chain. They are looked for when an answer is marked; numbers are not drawn to keep
them apart, so one is named only where it can be told from every other.
"""

import functools
from collections.abc import Callable, Iterator

from turbomath.homework.bank import arithmetic
from turbomath.homework.bank.mistakes import (
    density_from_degrees,
    ideal_from_degrees,
    ideal_with_exponent,
    offset_32,
    rise_multiplied,
)
from turbomath.homework.bank.question import Mistake, Question
from turbomath.physics import airflow, charge, compression, cooling
from turbomath.table import prose
from turbomath.table.constants import STANDARD_PRESSURE
from turbomath.table.quantities import QUANTITIES
from turbomath.working import Step, sums
from turbomath.working.coherent import to_si

TOLD = prose.read(__file__, "neighbours.toml")
Change = Callable[[Step, Question], object]


def _of(argument):
    """Return the change to what a step takes."""
    return lambda step, question: step.arguments[argument]


def _worked(change):
    """Return the change to a function of the values of the chain: *change* (values, step)."""
    return lambda step, question: lambda values: change(values, step)


def _value(values, step, parameter):
    name = step.arguments[parameter]
    return values[name] if isinstance(name, str) else name


def _two(sign, first, second):
    return _worked(lambda values, step: _value(values, step, first) + sign * _value(values, step, second))


def _ideal(make):
    return lambda step, question: make(step.arguments["inlet_temperature"], step.arguments["pressure_ratio"])


def _rise_as_reading(values, step):
    rise = values.degrees(step.call(values)) - values.degrees(_value(values, step, "inlet_temperature"))
    return values.from_degrees(rise)


def _share_of_hot(values, step):
    share = _value(values, step, "effectiveness")
    return values.from_degrees(share * values.degrees(_value(values, step, "inlet_temperature")))


def _lost_share_of_hot(values, step):
    share = 1 - _value(values, step, "effectiveness")
    return values.from_degrees(share * values.degrees(_value(values, step, "inlet_temperature")))


def _left_for_lost(values, step):
    hot, medium = _value(values, step, "inlet_temperature"), _value(values, step, "medium_temperature")
    return medium + _value(values, step, "effectiveness") * (hot - medium)


def _real(step, question):
    taken = step.arguments
    return rise_multiplied(
        taken["inlet_temperature"], taken["ideal_outlet_temperature"], taken["isentropic_efficiency"]
    )


def _times(factor):
    return _worked(lambda values, step: factor * step.call(values))


_UPSIDE_DOWN = _worked(lambda values, step: 1 / step.call(values))
# formula -> (name of the mistake, its code, what it makes of the step's result)
BY_FORMULA: dict[object, tuple[tuple[str, str, Change], ...]] = {
    sums.inlet_pressure: (
        ("restriction_left_out", "M7", _of("barometer")),
        ("restriction_added", "M7", _two(1, "barometer", "intake_restriction")),
    ),
    arithmetic.outlet_boost: (
        ("loss_left_out", "M8", _of("boost")),
        ("loss_taken_off", "M8", _two(-1, "boost", "cooler_pressure_loss")),
    ),
    sums.absolute_pressure: (("boost_as_absolute", "M1", _of("boost")),),
    sums.gauge_pressure: (
        ("barometer_not_taken_off", "M1", _of("pressure")),
        ("barometer_added", "M14", _two(1, "pressure", "barometer")),
    ),
    charge.density: (
        (
            "degrees_in_a_ratio",
            "M3",
            lambda step, question: density_from_degrees(step.arguments["pressure"], step.arguments["temperature"]),
        ),
    ),
    arithmetic.ideal_outlet_temperature: (
        ("degrees_in_a_ratio", "M3", _ideal(ideal_from_degrees)),
        ("exponent_of_0_4", "M15", _ideal(functools.partial(ideal_with_exponent, 0.4))),
        ("exponent_of_1_over_1_4", "M15", _ideal(functools.partial(ideal_with_exponent, 1 / 1.4))),
        ("exponent_of_burnt_gas", "M15", _ideal(functools.partial(ideal_with_exponent, 0.3 / 1.3))),
        ("rise_as_temperature", "M16", _worked(_rise_as_reading)),
    ),
    arithmetic.real_outlet_temperature: (
        ("multiplied_by_efficiency", "M6", _real),
        ("ideal_as_real", "M6", _of("ideal_outlet_temperature")),
        ("rise_as_temperature", "M16", _worked(_rise_as_reading)),
    ),
    arithmetic.efficiency_from_rises: (("upside_down", "M14", _UPSIDE_DOWN),),
    cooling.effectiveness: (
        ("upside_down", "M14", _UPSIDE_DOWN),
        ("what_is_left", "M5", _worked(lambda values, step: 1 - step.call(values))),
    ),
    cooling.outlet_temperature: (
        ("share_of_hot_temperature", "M5", _worked(_share_of_hot)),
        ("drop_in_per_cent", "M5", _worked(_lost_share_of_hot)),
        ("what_is_left", "M5", _worked(_left_for_lost)),
    ),
    compression.pressure_ratio: (("upside_down", "M14", _UPSIDE_DOWN),),
    airflow.mass_flow: (
        (
            "efficiency_left_out",
            "M16",
            _worked(lambda values, step: step.call(values) / _value(values, step, "volumetric_efficiency")),
        ),
        ("two_turns_left_out", "M11", _times(2.0)),
    ),
}
AT_THE_END = ("rise_as_temperature",)  # made where the answer is written down, not on the way to it
BY_KIND: dict[str, tuple[tuple[str, str, Change], ...]] = {
    "gain": (
        ("one_not_taken_off", "M14", _worked(lambda values, step: 1 + step.call(values))),
        ("wrong_sign", "M14", _times(-1.0)),
        ("upside_down", "M14", _worked(lambda values, step: 1 / (1 + step.call(values)) - 1)),
    ),
    "ratio": (("upside_down", "M14", _UPSIDE_DOWN),),
    **dict.fromkeys(
        ("mass flow", "fuel flow", "volume flow", "power"),
        (("out_by_60", "M9", _times(60.0)), ("out_by_60", "M9", _times(1 / 60.0))),
    ),
    "temperature difference": (
        ("offset_32", "M10", _worked(lambda values, step: step.call(values) + offset_32())),
        ("offset_32", "M10", _worked(lambda values, step: step.call(values) - offset_32())),
    ),
}


def slips(question: Question, system: str) -> tuple[Mistake, ...]:
    """Return the usual mistakes of neighbouring questions that can be made in a chain, in the units of a sheet."""
    return tuple(_slips(question, system))


def _slips(question: Question, system: str) -> Iterator[Mistake]:
    together: dict[tuple[str, str], dict] = {}
    asked = {one.name for one in question.asked}
    for step in question.steps:
        for name, code, change in BY_FORMULA.get(step.formula, ()):
            if name not in AT_THE_END or step.result in asked:
                together.setdefault((name, code), {})[step.result] = change(step, question)
    yield from (_told(name, code, changes) for (name, code), changes in together.items())
    restriction, loss = together.get(("restriction_left_out", "M7")), together.get(("loss_left_out", "M8"))
    if restriction and loss:
        yield _told("both_left_out", "M7", restriction | loss)
    yield from _of_the_barometer(question, system)
    last = next((step for step in question.steps[-1:]), None)
    if last:
        kind = QUANTITIES[last.quantity_of()].kind
        yield from (
            _told(name, code, {last.result: change(last, question)}) for name, code, change in BY_KIND.get(kind, ())
        )


def _of_the_barometer(question, system):
    barometer = next((one for one in question.givens if one.name == "barometer"), None)
    if barometer and any(step.arguments.get("barometer") == "barometer" for step in question.steps):
        yield _told("sea_level_barometer", "M2", {"barometer": STANDARD_PRESSURE})
        if system == "us":
            yield _told(
                "inches_as_psi", "M9", {"barometer": lambda s: to_si(s.number("barometer"), "psi", "barometer")}
            )


def _inches_as_psi(values):
    return to_si(values.number("barometer"), "psi", "barometer")


def _told(name, code, changes):
    return Mistake(name, code, changes, message=TOLD.text(name))
