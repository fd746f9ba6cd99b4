"""Lesson 02: how hot does squeezed air get? Pressure ratio, inlet temperature and compressor efficiency decide."""

from typing import Any

import numpy as np

from turbomath import units
from turbomath.panels.squeezing_heats_air import LESSON
from turbomath.panels.squeezing_heats_air.heated_air import chart, outlet
from turbomath.panels.squeezing_heats_air.picture_temperature_rise import MOST_RATIO
from turbomath.table.constants import STANDARD_PRESSURE
from turbomath.table.errors import OutOfRangeError
from turbomath.units.rounding import fixed
from turbomath.units.shop import fahrenheit
from turbomath.units.shown import DEGREE, RISE, shown, words
from turbomath.widgets.answers import Answer, Table, readout
from turbomath.widgets.controls import Choice, Control, at_start
from turbomath.widgets.engines import engine
from turbomath.widgets.panel import Panel

ABSOLUTE, THERMOMETER = "absolute", "thermometer"
SCALES = (
    (ABSOLUTE, {"us": "absolute temperature, °R", "si": "absolute temperature, K"}),
    (THERMOMETER, {"us": "°F as the thermometer shows it", "si": "°C as the thermometer shows it"}),
)
CONTROLS = (
    Control("pressure_ratio", 2.0, 1.0, MOST_RATIO),
    Control("compressor_inlet_temperature", *(fahrenheit(number) for number in (77.0, -20.0, 130.0))),
    Control("compressor_efficiency", 0.72, 0.50, 0.85),
    Choice("scale", "ratio taken of", SCALES, ABSOLUTE),
)
CASES = {
    name: {"pressure_ratio": ratio, "compressor_inlet_temperature": inlet, "compressor_efficiency": efficiency}
    for name, ratio, inlet, efficiency in (
        ("the_question", 2.0, fahrenheit(77.0), 0.72),
        ("ratio_of_lesson_1", 2.871, fahrenheit(80.0), 0.74),
    )
}
RATIOS, EFFICIENCIES = (1.5, 2.0, 2.5, 3.0, 3.5, 4.0), (0.80, 0.76, 0.72, 0.65, 0.60)


def panel() -> Panel:
    """Return the live panel of the heat of compression."""
    return Panel(LESSON.words["squeezing_heats_air"].sheet(CONTROLS, answer, _outcome, CASES))


def answer(controls: Any, system: str) -> Answer:
    """Return what the panel shows: the chart with the reader's point, a sentence, read-outs and two tables."""
    ratio, inlet = controls.pressure_ratio, controls.compressor_inlet_temperature
    ideal, real = outlet(ratio, inlet), outlet(ratio, inlet, controls.compressor_efficiency)
    points = [("measured", "yours", ratio, real)]
    if controls.scale == THERMOMETER:
        points.append(("ambient", f"{DEGREE[system]} ratio", ratio, ghost(inlet, real, system)))
    readouts = (
        readout("ideal outlet", "ideal_outlet_temperature", ideal, system),
        readout("ideal rise", "temperature_rise", ideal - inlet, system, RISE[system]),
        readout("real rise", "temperature_rise", real - inlet, system, RISE[system]),
        readout("real outlet", "outlet_temperature", real, system),
    )
    tables = (table_outlet(inlet, system), _table(controls, ideal, real, system))
    picture = chart(inlet, points, system)
    sentence, engines = _sentence(controls, ideal, real, system), (_engine(controls, real, system),)
    return Answer((picture,), sentence, readouts, tables, ("yours",), engines)


def _engine(controls, real, system):
    """The compressor at a standard barometer; what it gives fills the manifold, since nothing cools it here."""
    outside = STANDARD_PRESSURE, controls.compressor_inlet_temperature
    squeezed = controls.pressure_ratio * STANDARD_PRESSURE, real
    stations = {"ambient": outside, "compressor_inlet": outside, "compressor_outlet": squeezed, "manifold": squeezed}
    title = f"Squeezed {fixed(controls.pressure_ratio, 2)} times, drawn at the standard barometer"
    return engine(title, system, stations, speaks=("compressor",), silent=("manifold",))


def ghost(inlet_temperature: float, outlet_temperature: float, system: str) -> float:
    """Return what comes of multiplying the thermometer's number by the ratio of the true temperatures [K]."""
    unit, name = DEGREE[system], "outlet_temperature"
    number = units.from_si(inlet_temperature, unit, name) * outlet_temperature / inlet_temperature
    absurd = units.to_si(number, unit, name)
    if absurd <= 0:
        raise OutOfRangeError(
            f"{DEGREE[system]} as it stands gives a temperature below absolute zero here. That alone shows that it "
            "cannot be done."
        )
    return absurd


def table_outlet(inlet_temperature: float, system: str) -> Table:
    """Return the table of outlet temperatures for air at an inlet temperature."""
    heads = ("pressure ratio", "ideal", *(f"{100 * efficiency:.0f} %" for efficiency in EFFICIENCIES))
    columns = [outlet(np.array(RATIOS), inlet_temperature, efficiency) for efficiency in (None, *EFFICIENCIES)]
    rows = [
        (fixed(ratio, 1), *(shown("outlet_temperature", value, system)[0] for value in found))
        for ratio, *found in zip(RATIOS, *columns, strict=True)
    ]
    entering = words("compressor_inlet_temperature", inlet_temperature, system)
    title = f"Outlet temperature [{DEGREE[system]}] of air that enters at {entering}, by compressor efficiency"
    return Table(title, heads, tuple(rows))


def _table(controls, ideal, real, system):
    inlet = controls.compressor_inlet_temperature
    heads = (
        "pressure ratio",
        *(f"{place} [{DEGREE[system]}]" for place in ("inlet", "ideal outlet", "real outlet")),
        "efficiency",
        f"{DEGREE[system]} ratio, wrong [{DEGREE[system]}]",
    )
    temperatures = (shown("outlet_temperature", value, system)[0] for value in (inlet, ideal, real))
    wrong = units.from_si(inlet, DEGREE[system], "outlet_temperature") * real / inlet
    row = (fixed(controls.pressure_ratio, 2), *temperatures, fixed(controls.compressor_efficiency, 2), fixed(wrong, 0))
    return Table("Your case in numbers", heads, (row,))


def _sentence(controls, ideal, real, system):
    inlet = controls.compressor_inlet_temperature
    before, after, least = (words("outlet_temperature", value, system) for value in (inlet, real, ideal))
    if controls.scale == THERMOMETER:
        absurd, number = words("outlet_temperature", ghost(inlet, real, system), system), before.split(" ")[0]
        return (
            f"{DEGREE[system]} as it stands: {number} × {fixed(real / inlet, 3)} = {absurd}. The air leaves at "
            f"{after}: {DEGREE[system]} does not start at no heat."
        )
    squeezed, share = fixed(controls.pressure_ratio, 2), fixed(100 * controls.compressor_efficiency, 0)
    return (
        f"Squeezed {squeezed} times at {share} %, air from {before} leaves at {after}. Without losses it would be "
        f"{least}."
    )


def _outcome(system):
    start = at_start(CONTROLS)
    inlet = start.compressor_inlet_temperature
    ideal, real = (
        words("outlet_temperature", outlet(start.pressure_ratio, inlet, efficiency), system)
        for efficiency in (None, start.compressor_efficiency)
    )
    return {"real": real, "ideal": ideal}
