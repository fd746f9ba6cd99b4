"""Lesson 05: theory beside the gauges. Sliders draw the charge gain of any setting; a run shows what was gained."""

import functools
from typing import Any

import numpy as np
from numpy.typing import ArrayLike

from turbomath.engine import path
from turbomath.lab.report.engine_drawn import engine_of_readings
from turbomath.panels.what_the_engine_gains import LESSON
from turbomath.panels.what_the_engine_gains.picture_gain_beside_gauges import (
    SLIDERS,
    RunGains,
    pictures_gain_beside_gauges,
)
from turbomath.pictures.air_path import picture_air_path
from turbomath.table.errors import OutOfRangeError, short
from turbomath.units import to_si
from turbomath.units.rounding import fixed
from turbomath.units.shop import fahrenheit, psi
from turbomath.units.shown import head, shown, words
from turbomath.widgets import own_run, readings_told
from turbomath.widgets.answers import Answer, Table, readout
from turbomath.widgets.controls import Choice, Control, at_start
from turbomath.widgets.panel import Panel
from turbomath.widgets.run_desk import Chosen, RunDesk

MOST = (psi(40.0), 2.5)
COOLERS = (("air-to-air", "air-to-air"), ("liquid", "jacket-water or separate"), ("none", "none"))
CONTROLS = (
    Control("boost", psi(24.0), 0.0, MOST[0]),
    Control("ambient_temperature", *(fahrenheit(number) for number in (77.0, -30.0, 120.0))),
    Control("barometer", to_si(29.10, "inHg", "barometer")),
    Control("effectiveness", 0.80),
    Choice("aftercooler", "aftercooler", COOLERS, "air-to-air", more=True),
    Control("relative_humidity", 0.0, more=True),
    Control("compressor_efficiency", 0.74, more=True),
    Control("cooler_pressure_loss", psi(1.5), more=True),
    Control("intake_restriction", to_si(12.0, "inH2O", "intake_restriction"), more=True),
    Control("cooling_medium_temperature", fahrenheit(185.0), more=True),
)
BESIDE = {
    "density_ratio": "density ratio",
    "manifold_density": "manifold density",
    "manifold_temperature": "manifold",
    "compressor_outlet_temperature": "compressor outlet",
}


def panel() -> Panel:
    """Return the live panel of the lesson."""
    sheet = LESSON.words["what_the_engine_gains"].sheet(CONTROLS, answer, _outcome)
    return Panel(sheet, functools.partial(RunDesk, follow=follow, whole_run=True))


def answer(controls: Any, system: str) -> Answer:
    """Return what the panel shows: the sliders' line, a run's readings on it, and what both say in numbers."""
    found, chosen = theory(controls, controls.boost), controls.chosen
    boosts = np.linspace(0.0, max(MOST[0], controls.boost), 41)
    line = path.charge_gains(**_given(controls, boosts)).charge_gain
    role = "hot" if controls.aftercooler == "none" else "cooled"
    pictures = pictures_gain_beside_gauges(
        (boosts, line), (controls.boost, found.charge_gain), role, system, run=chosen and _gains(chosen), most=MOST
    )
    own = readout("theory, sliders", "charge_gain", found.charge_gain, system)
    table = _table(controls, system)
    engines = (_engine(controls, found, chosen, system),)
    if chosen is None:
        readouts = (own, *(readout(label, name, getattr(found, name), system) for name, label in BESIDE.items()))
        return Answer(pictures, _sentence(controls, found, system), readouts, (table,), (SLIDERS,), engines)
    readouts = (*readings_told.readouts(chosen, system), own)
    tables = (readings_told.table(chosen, system), table)
    return Answer(pictures, readings_told.sentence(chosen, system), readouts, tables, (SLIDERS,), engines)


def theory(controls: Any, boost: ArrayLike) -> path.ChargePath:
    """Return the `ChargePath` that the sliders promise at a boost [Pa]; inlet and core see the air outside."""
    return path.charge_path(**_given(controls, boost))


def _given(controls, boost):
    _refuse_vacuum(controls, boost)
    cooled = controls.aftercooler != "none"
    return dict(
        ambient_pressure=controls.barometer,
        ambient_temperature=controls.ambient_temperature,
        manifold_pressure=controls.barometer + boost,
        isentropic_efficiency=controls.compressor_efficiency,
        intake_restriction=controls.intake_restriction,
        effectiveness=controls.effectiveness if cooled else 0.0,
        medium_temperature=controls.cooling_medium_temperature if controls.aftercooler == "liquid" else None,
        cooler_pressure_loss=controls.cooler_pressure_loss if cooled else 0.0,
        relative_humidity=controls.relative_humidity,
    )


def follow(chosen: Chosen) -> dict[str, Any]:
    """Return what the sliders are at one reading of a run."""
    kind = {"none": "none", "air-to-air": "air-to-air"}.get(
        chosen.readings.run.bench.engine.aftercooler or "", "liquid"
    )
    read = own_run.conditions(chosen.readings, chosen.row)
    return {"aftercooler": kind, **{name: value for name, value in read.items() if name in _NAMES}}


_NAMES = {one.name for one in CONTROLS}


def _refuse_vacuum(controls, boost):
    if np.min(boost) + controls.barometer <= 0:
        raise OutOfRangeError("that boost is below a full vacuum, where there is no air left. Set more boost.")
    if controls.intake_restriction >= controls.barometer:
        raise OutOfRangeError("that intake restriction is more than the whole barometer. Set less.")
    if controls.aftercooler != "none" and np.min(boost) + controls.barometer + controls.cooler_pressure_loss <= 0:
        raise OutOfRangeError("that pressure loss leaves no pressure at the compressor outlet. Set 0 or more.")


def _engine(controls, found, chosen, system):
    """The engine as the sliders say, or as a reading says: then theory for that reading, and what was read."""
    drawn = chosen and chosen.row is not None and engine_of_readings(chosen.readings.reduced, chosen.row, system)
    if drawn:
        return drawn
    cooler = {"liquid": "jacket-water"}.get(controls.aftercooler, controls.aftercooler)
    liquid = controls.aftercooler == "liquid"
    medium = controls.cooling_medium_temperature if liquid else controls.ambient_temperature
    return picture_air_path("The air path, as the sliders are set", found, cooler, system, medium_temperature=medium)


def _gains(chosen):
    reduced, run = chosen.readings.reduced, chosen.readings.run
    named = "" if chosen.row is None else f"point {short(run.points[chosen.row], 12)}"
    measured, apart = reduced["measured_charge_gain"], reduced["charge_gain_difference"]
    return RunGains(
        chosen.readings.boost,
        measured.value,
        measured.plus_or_minus,
        reduced["theoretical_charge_gain"].value,
        apart.value,
        apart.plus_or_minus,
        chosen.row,
        named,
    )


def _sentence(controls, found, system):
    gain, boost = float(found.charge_gain), words("boost", controls.boost, system)
    density, temperature = (
        words(name, getattr(found, name), system) for name in ("manifold_density", "manifold_temperature")
    )
    return (
        f"At {boost} of boost, theory says: {density} at {temperature}. That is {fixed(abs(gain) * 100, 1)} % "
        f"{'denser' if gain >= 0 else 'thinner'} than the air outside."
    )


def _table(controls, system):
    boosts = psi(np.arange(0.0, 41.0, 5.0))
    boosts = np.unique([*boosts, controls.boost])
    found = theory(controls, boosts)
    names = (
        "boost",
        "pressure_ratio",
        "compressor_outlet_temperature",
        "manifold_temperature",
        "manifold_density",
        "charge_gain",
    )
    columns = [boosts, *(getattr(found, name) for name in names[1:])]
    heads = tuple(head(name, system) for name in names)
    rows = zip(
        *([shown(name, value, system)[0] for value in column] for name, column in zip(names, columns, strict=True)),
        strict=True,
    )
    return Table("Theory, as the sliders are set, with real air", heads, tuple(rows))


def _outcome(system):
    start = at_start(CONTROLS)
    cooled, hot = (theory(start._replace(aftercooler=kind), start.boost) for kind in ("air-to-air", "none"))
    before, after = (
        words(name, getattr(cooled, name), system) for name in ("compressor_outlet_temperature", "manifold_temperature")
    )
    with_it, without = (fixed(100 * one.charge_gain, 0) for one in (cooled, hot))
    return {"cooled": with_it, "before": before, "after": after, "hot": without}
