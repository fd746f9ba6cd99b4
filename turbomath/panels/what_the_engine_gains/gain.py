"""Lesson 05: theory beside the gauges. Sliders draw the charge gain of any setting; a run shows what was gained."""

import functools
from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

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
from turbomath.table.records import each_point
from turbomath.units import to_si
from turbomath.units.rounding import fixed
from turbomath.units.shop import fahrenheit, psi
from turbomath.units.shown import head, shown, words
from turbomath.widgets import own_run, readings_told
from turbomath.widgets.answers import Answer, Table, readout
from turbomath.widgets.cases import Cases
from turbomath.widgets.controls import Choice, Control, at_start
from turbomath.widgets.panel import Panel
from turbomath.widgets.run_desk import Chosen, RunDesk

MOST = (psi(40.0), 2.5)
STEPS = psi(np.arange(0.0, 41.0, 5.0))  # of boost, in the table
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
    sheet = LESSON.words["what_the_engine_gains"].sheet(CONTROLS, answer, _outcome, together=theory.together)
    return Panel(sheet, functools.partial(RunDesk, follow=follow, whole_run=True))


def answer(controls: Any, system: str) -> Answer:
    """Return what the panel shows: the sliders' line, a run's readings on it, and what both say in numbers."""
    told, chosen = theory(controls), controls.chosen
    found = told.ways[controls.boost]
    role = "hot" if controls.aftercooler == "none" else "cooled"
    pictures = pictures_gain_beside_gauges(
        told.line, (controls.boost, found.charge_gain), role, system, run=chosen and _gains(chosen), most=MOST
    )
    own = readout("theory, sliders", "charge_gain", found.charge_gain, system)
    table = _table(told.ways, system)
    engines = (_engine(controls, found, chosen, system),)
    if chosen is None:
        readouts = (own, *(readout(label, name, getattr(found, name), system) for name, label in BESIDE.items()))
        return Answer(pictures, _sentence(controls, found, system), readouts, (table,), (SLIDERS,), engines)
    readouts = (*readings_told.readouts(chosen, system), own)
    tables = (readings_told.table(chosen, system), table)
    return Answer(pictures, readings_told.sentence(chosen, system), readouts, tables, (SLIDERS,), engines)


class Theory(NamedTuple):
    """The `ChargePath` at each boost [Pa] of the table and at the reader's; boosts and charge gains along the line."""

    ways: dict[float, path.ChargePath]
    line: tuple[NDArray[np.float64], NDArray[np.float64]]


def _case(controls):
    """Return the boost, and what the air path is asked for it; inlet and core see the air outside."""
    _refuse_vacuum(controls)
    cooled, outside = controls.aftercooler != "none", controls.ambient_temperature
    given = dict(
        ambient_pressure=controls.barometer,
        ambient_temperature=outside,
        isentropic_efficiency=controls.compressor_efficiency,
        intake_restriction=controls.intake_restriction,
        effectiveness=controls.effectiveness if cooled else 0.0,
        medium_temperature=controls.cooling_medium_temperature if controls.aftercooler == "liquid" else outside,
        cooler_pressure_loss=controls.cooler_pressure_loss if cooled else 0.0,
        relative_humidity=controls.relative_humidity,
    )
    return controls.boost, *given.items()


def _theories(cases):
    own, *given = zip(*cases, strict=True)
    own = np.array(own)[:, None]
    given = {pairs[0][0]: np.array([value for _, value in pairs])[:, None] for pairs in given}
    boosts = np.concatenate([np.broadcast_to(STEPS, (len(cases), len(STEPS))), own], axis=1)
    ways = each_point(path.charge_path(**given, manifold_pressure=given["ambient_pressure"] + boosts))
    along = np.linspace(np.zeros(len(cases)), np.maximum(MOST[0], own[:, 0]), 41, axis=1)
    gains = path.charge_gains(**given, manifold_pressure=given["ambient_pressure"] + along).charge_gain
    many = boosts.shape[1]
    return [
        Theory(dict(zip(boosts[case].tolist(), ways[case * many :][:many], strict=True)), (along[case], gains[case]))
        for case in range(len(cases))
    ]


theory = Cases(_case, _theories)  # a `Theory` for a record of controls


def follow(chosen: Chosen) -> dict[str, Any]:
    """Return what the sliders are at one reading of a run."""
    kind = {"none": "none", "air-to-air": "air-to-air"}.get(
        chosen.readings.run.bench.engine.aftercooler or "", "liquid"
    )
    read = own_run.conditions(chosen.readings, chosen.row)
    return {"aftercooler": kind, **{name: value for name, value in read.items() if name in _NAMES}}


_NAMES = {one.name for one in CONTROLS}


def _refuse_vacuum(controls):
    least = min(0.0, controls.boost) + controls.barometer
    if least <= 0:
        raise OutOfRangeError("that boost is below a full vacuum, where there is no air left. Set more boost.")
    if controls.intake_restriction >= controls.barometer:
        raise OutOfRangeError("that intake restriction is more than the whole barometer. Set less.")
    if controls.aftercooler != "none" and least + controls.cooler_pressure_loss <= 0:
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


def _table(ways, system):
    names = (
        "pressure_ratio",
        "compressor_outlet_temperature",
        "manifold_temperature",
        "manifold_density",
        "charge_gain",
    )
    heads = tuple(head(name, system) for name in ("boost", *names))
    rows = {shown("boost", boost, system)[0]: (boost, way) for boost, way in ways.items()}  # the reader's comes last
    texts = tuple(
        (boost, *(shown(name, getattr(way, name), system)[0] for name in names))
        for boost, (_, way) in sorted(rows.items(), key=lambda one: one[1][0])
    )
    return Table("Theory, as the sliders are set, with real air", heads, texts)


def _outcome(system):
    start = at_start(CONTROLS)
    cooled, hot = (theory(start._replace(aftercooler=kind)).ways[start.boost] for kind in ("air-to-air", "none"))
    before, after = (
        words(name, getattr(cooled, name), system) for name in ("compressor_outlet_temperature", "manifold_temperature")
    )
    with_it, without = (fixed(100 * one.charge_gain, 0) for one in (cooled, hot))
    return {"cooled": with_it, "before": before, "after": after, "hot": without}
