"""Lesson 02, second panel: the compressor efficiency that readings imply, your own or those of a run."""

import functools
from typing import Any

import numpy as np

from turbomath.lab.checks.bounds import BOUNDS, LEAST_BOOST, in_si
from turbomath.lab.reduction import stations
from turbomath.lab.report import tables
from turbomath.lab.report.sentences import AIR_WORDS
from turbomath.panels.squeezing_heats_air import LESSON
from turbomath.panels.squeezing_heats_air.heated_air import BAND, chart, outlet
from turbomath.panels.squeezing_heats_air.ideal_and_real import table_outlet
from turbomath.physics import compression
from turbomath.table.errors import OutOfRangeError, short
from turbomath.units import to_si
from turbomath.units.rounding import NO_VALUE, fixed
from turbomath.units.shop import fahrenheit, psi
from turbomath.units.shown import RISE, words
from turbomath.widgets import own_run
from turbomath.widgets.answers import Answer, Readout, Table, readout
from turbomath.widgets.controls import Control
from turbomath.widgets.engines import engine
from turbomath.widgets.panel import Panel
from turbomath.widgets.run_desk import Chosen, RunDesk

LOSS = psi(1.5)
CONTROLS = (
    Control("compressor_inlet_temperature", *(fahrenheit(number) for number in (80.0, -20.0, 130.0))),
    Control("compressor_outlet_temperature", *(fahrenheit(number) for number in (336.0, 50.0, 500.0))),
    Control("boost", psi(24.0), 0.0, psi(40.0)),
    Control("barometer", to_si(29.10, "inHg", "barometer")),
    Control("intake_restriction", to_si(12.0, "inH2O", "intake_restriction"), more=True),
    Control("cooler_pressure_loss", LOSS, more=True),
)
_WHEEL = {
    "compressor_inlet_temperature": fahrenheit(77.0),
    "boost": psi(18.8),
    "barometer": to_si(29.10, "inHg", "barometer"),
    "intake_restriction": to_si(12.0, "inH2O", "intake_restriction"),
    "cooler_pressure_loss": LOSS,
}
CASES = {
    name: {**_WHEEL, "compressor_outlet_temperature": fahrenheit(number)}
    for name, number in (("new_wheel", 300.0), ("worn_wheel", 345.0))
}
BOUND = BOUNDS["compressor efficiency"]
RUN, POINT = "run", "this point"


def panel() -> Panel:
    """Return the live panel of compressor efficiency from readings."""
    sheet = LESSON.words["compressor_efficiency"].sheet(CONTROLS, answer, _outcome, CASES)
    return Panel(sheet, functools.partial(RunDesk, follow=follow))


def answer(controls: Any, system: str) -> Answer:
    """Return what the panel shows: the reader's point on the chart, a run's points, and whether readings can be."""
    inlet, hot = controls.compressor_inlet_temperature, controls.compressor_outlet_temperature
    ratio, efficiency = implied(controls)
    ideal = outlet(ratio, inlet)
    points = [*_run_points(controls.chosen), ("hot", "yours", ratio, hot)]
    readouts = (
        Readout("pressure ratio", fixed(ratio, 2), ""),
        readout("ideal rise", "temperature_rise", ideal - inlet, system, RISE[system]),
        readout("real rise", "temperature_rise", hot - inlet, system, RISE[system]),
        Readout("efficiency", _percent(efficiency), "%"),
    )
    picture = chart(inlet, points, system, height=280)
    told = (_run_table(controls.chosen, system),) if controls.chosen else ()
    sentence = _sentence(efficiency, ratio, controls.boost, system)
    engines = (_engine(controls, system),)
    return Answer((picture,), sentence, readouts, (*told, table_outlet(inlet, system)), ("yours",), engines)


def _engine(controls, system):
    """What the gauges say of both sides of the compressor; behind it the pressure that the boost gauge has."""
    inlet, hot, barometer = (
        controls.compressor_inlet_temperature,
        controls.compressor_outlet_temperature,
        controls.barometer,
    )
    manifold = barometer + controls.boost
    stations = {
        "ambient": (barometer, inlet),
        "compressor_inlet": (barometer - controls.intake_restriction, inlet),
        "compressor_outlet": (manifold + controls.cooler_pressure_loss, hot),
        "manifold": (manifold, hot),
    }
    return engine(
        "Both sides of the compressor, as read", system, stations, speaks=("compressor",), silent=("manifold",)
    )


def implied(controls: Any) -> tuple[float, float]:
    """Return the pressure ratio and the compressor efficiency that readings imply; no efficiency is `nan`."""
    inlet = controls.barometer - controls.intake_restriction
    out = controls.barometer + controls.boost + controls.cooler_pressure_loss
    if inlet <= 0 or out <= 0:
        raise OutOfRangeError(
            "these pressures leave less than a full vacuum. Read boost, barometer and restriction again."
        )
    ratio = compression.pressure_ratio(inlet, out)
    efficiency = compression.isentropic_efficiency(
        inlet, controls.compressor_inlet_temperature, out, controls.compressor_outlet_temperature
    )
    return ratio, efficiency if ratio > 1 else float("nan")


def follow(chosen: Chosen) -> dict[str, Any]:
    """Return what the controls are at one reading of a run."""
    run, names = chosen.readings.run, {one.name for one in CONTROLS}
    at = stations.at_stations(run, stations.gauge_readings(run)[0])
    read = {
        name: float(getattr(at, name)[chosen.row])
        for name in ("compressor_inlet_temperature", "compressor_outlet_temperature")
    }
    read["cooler_pressure_loss"] = float(np.nan_to_num(at.cooler_pressure_loss[chosen.row]))
    both = {**own_run.conditions(chosen.readings, chosen.row), **read}
    return {name: value for name, value in both.items() if name in names and np.isfinite(value)}


def _run_points(chosen):
    """Return the points of a run that is looked at, the one picked under a name of its own."""
    if chosen is None:
        return []
    run, rows = chosen.readings.run, np.array(chosen.readings.rows, dtype=int)
    at = stations.at_stations(run, stations.gauge_readings(run)[0])
    ratio = chosen.readings.reduced["pressure_ratio"].value
    picked = rows == (-1 if chosen.row is None else chosen.row)
    return [
        ("measured", label, ratio[rows[which]], at.compressor_outlet_temperature[rows[which]])
        for label, which in ((RUN, ~picked), (POINT, picked))
    ]


def _percent(efficiency):
    return fixed(100 * efficiency, 0) if np.isfinite(efficiency) and abs(efficiency) < 10 else NO_VALUE


def _sentence(efficiency, ratio, boost, system):
    if ratio <= 1:
        return "The outlet pressure is not above the inlet's: nothing is squeezed. Read boost and barometer again."
    if not 0 < efficiency < 10:
        return "This cannot be: squeezed air leaves hotter than it came in. Are the two thermometers swapped?"
    told = _verdict(efficiency)
    if boost < in_si(LEAST_BOOST):
        told = f"With {words('boost', boost, system)} of boost, small gauge errors count too much to judge it."
    return f"Efficiency {_percent(efficiency)} %. {told}"


def _verdict(efficiency):
    """Return whether readings with this efficiency can be true, and what to look at where they may not be."""
    high, low = (fixed(100 * end, 0) for end in BAND)
    usual, level = f"{low} to {high} % is usual", BOUND.level(efficiency, 0.0)
    if efficiency > 1:
        return "This cannot be. No compressor beats the ideal one. Read the outlet thermometer and the pressures again."
    if level == "red":
        return f"This can hardly be: {usual}. Read everything again before you blame the wheel."
    if level and efficiency > BAND[0]:
        return f"Look again: {usual}. Is the outlet probe deep enough in the air? Is the barometer the shop's own?"
    if level:
        return f"Look again: {usual}. Is the outlet probe near the hot housing? Is the wheel dirty or worn?"
    return f"Believable: {usual} at load. These readings fit each other."


def _run_table(chosen, system):
    found, reduced = chosen.readings, chosen.readings.reduced
    at = stations.at_stations(found.run, stations.gauge_readings(found.run)[0])
    texts = [
        tables.result_texts(reduced, name, found.rows, system) for name in ("pressure_ratio", "compressor_efficiency")
    ]
    rows = [
        (short(found.run.points[row], 24), found.run.conditions[row], ratio, _outlet(at, row, system), efficiency)
        for row, ratio, efficiency in zip(found.rows, *texts, strict=True)
    ]
    heads = ("point", "condition", "pressure ratio", "outlet temperature", "compressor efficiency")
    return Table(f"{found.title()}: as in its report, with {AIR_WORDS[reduced.air]}", heads, tuple(rows))


def _outlet(at, row, system):
    hot = at.compressor_outlet_temperature[row]
    return words("compressor_outlet_temperature", hot, system) if np.isfinite(hot) else NO_VALUE


def _outcome(system):
    new, worn = (
        words("outlet_temperature", outlet(2.5, fahrenheit(77.0), efficiency), system) for efficiency in (0.72, 0.60)
    )
    return {"worn": worn, "new": new}
