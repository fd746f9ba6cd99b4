"""Lesson 07, third panel: how much dry air the vapour of a damp day takes, beside what heat and height take."""

from typing import Any

import numpy as np

from turbomath import units
from turbomath.panels.altitude_heat_humidity import LESSON
from turbomath.panels.altitude_heat_humidity.picture_vapour_share import picture_vapour_share
from turbomath.physics import atmosphere, charge, humidity
from turbomath.table.constants import STANDARD_PRESSURE
from turbomath.table.errors import OutOfRangeError
from turbomath.units.rounding import NO_VALUE, fixed
from turbomath.units.shop import fahrenheit
from turbomath.units.shown import head, shown, words
from turbomath.widgets.answers import Answer, Readout, Table, readout
from turbomath.widgets.controls import Control, at_start
from turbomath.widgets.panel import Panel


def _celsius(number):
    return units.to_si(number, "°C", "ambient_temperature")


DAMP = {"ambient_temperature": _celsius(32.0), "relative_humidity": 0.70, "barometer": 96_900.0}
STEAMY = {"ambient_temperature": _celsius(35.0), "relative_humidity": 0.90, "barometer": STANDARD_PRESSURE}
COLD = {"ambient_temperature": _celsius(-10.0), "relative_humidity": 0.90, "barometer": STANDARD_PRESSURE}
COOL = _celsius(25.0)  # against which heat is counted
ENDS = tuple(fahrenheit(end) for end in (-20.0, 120.0))
CONTROLS = (
    Control("ambient_temperature", DAMP["ambient_temperature"], *ENDS),
    Control("relative_humidity", DAMP["relative_humidity"]),
    Control("barometer", DAMP["barometer"]),
)
CASES = {"the_question": DAMP, "steamy": STEAMY, "cold": COLD}


def panel() -> Panel:
    """Return the live panel of a damp day."""
    return Panel(LESSON.words["damp_day"].sheet(CONTROLS, answer, _outcome, CASES))


def answer(controls: Any, system: str) -> Answer:
    """Return what the panel shows: the loss against temperature, a sentence, five read-outs and a table."""
    vapour = vapour_pressure(controls)
    if not vapour < controls.barometer:
        raise OutOfRangeError("vapour alone would make up the whole barometer. Set a lower temperature.")
    loss, ratio = vapour / controls.barometer, humidity_ratio(controls)
    readouts = (
        readout("vapour", "vapour_pressure", vapour, system),
        Readout("water with the air", fixed(1e3 * ratio, 1), "g/kg"),
        Readout("dry air, by vapour", _less(loss), "%"),
        Readout(
            "by heat, from 77 °F" if system == "us" else "by heat, from 25 °C",
            _less(1 - COOL / controls.ambient_temperature),
            "%",
        ),
        Readout("as by climbing", *_height(controls, vapour, system)),
    )
    return Answer(
        (_picture(controls, loss, system),),
        _sentence(controls, vapour, system),
        readouts,
        (_table(controls, system),),
        own=("yours",),
    )


def vapour_pressure(controls: Any) -> Any:
    """Return the part of the barometer that is vapour [Pa]."""
    return controls.relative_humidity * humidity.saturation_pressure(controls.ambient_temperature)


def humidity_ratio(controls: Any) -> Any:
    """Return the vapour with each kilogram of dry air [kg/kg]."""
    return humidity.humidity_ratio(controls.barometer, controls.ambient_temperature, controls.relative_humidity)


def climb(barometer: float, fall: float) -> float:
    """Return how high one climbs from this barometer until it has fallen so far [m]; `nan` off the atmosphere."""
    return atmosphere.elevation(barometer - fall) - atmosphere.elevation(barometer)


def _height(controls, vapour, system):
    """Return that height to the nearest ten, and its unit."""
    unit = units.display("elevation", system)
    high = units.from_si(climb(controls.barometer, vapour), unit, "elevation")
    return fixed(round(high, -1), 0) if np.isfinite(high) else NO_VALUE, unit


def _less(share):
    """Return a loss as a change in per cent."""
    return fixed(-100 * share, 1)


def _picture(controls, loss, system):
    temperatures = np.linspace(*ENDS, 71)
    lines = [
        (
            role,
            label,
            vapour_pressure(controls._replace(ambient_temperature=temperatures, relative_humidity=share))
            / controls.barometer,
        )
        for role, label, share in (
            ("ambient", "100 %, all it can hold", 1.0),
            ("theory", "40 %", 0.4),
            ("cooled", "your humidity", controls.relative_humidity),
        )
    ]
    return picture_vapour_share(temperatures, lines, (controls.ambient_temperature, loss), ENDS, system)


def _sentence(controls, vapour, system):
    part, whole = (words("barometer", one, system) for one in (vapour, controls.barometer))
    high, unit = _height(controls, vapour, system)
    size = "" if high in ("0", NO_VALUE) else f", as much as {high} {unit} of height take"
    return f"Vapour is {part} of the {whole}: {fixed(100 * vapour / controls.barometer, 1)} % less dry air{size}."


def _table(controls, system):
    days = (
        ("dry and cool", {**DAMP, "ambient_temperature": COOL, "relative_humidity": 0.0}),
        ("damp", DAMP),
        ("steamy", STEAMY),
        ("cold and damp", COLD),
        ("yours", controls._asdict()),
    )
    names = ("ambient_temperature", "relative_humidity", "barometer", "vapour_pressure")
    heads = (
        "day",
        *(head(name, system) for name in names),
        "water [g/kg]",
        "dry air lost [%]",
        head("dry_air_density", system),
    )
    return Table(
        "Five days",
        heads,
        tuple(
            (label, *_row(controls._replace(**{name: day[name] for name in DAMP}), names, system))
            for label, day in days
        ),
    )


def _row(day, names, system):
    vapour = vapour_pressure(day)
    values = (day.ambient_temperature, day.relative_humidity, day.barometer, vapour)
    dry = shown("dry_air_density", charge.density(day.barometer - vapour, day.ambient_temperature), system)[0]
    return (
        *(shown(name, value, system)[0] for name, value in zip(names, values, strict=True)),
        fixed(1e3 * humidity_ratio(day), 1),
        fixed(100 * vapour / day.barometer, 1),
        dry,
    )


def _outcome(system):
    start = at_start(CONTROLS)
    vapour = vapour_pressure(start)
    part, whole = (words("barometer", one, system) for one in (vapour, start.barometer))
    return {
        "less": fixed(100 * vapour / start.barometer, 1),
        "part": part,
        "whole": whole,
        "water": fixed(1e3 * humidity_ratio(start), 0),
    }
