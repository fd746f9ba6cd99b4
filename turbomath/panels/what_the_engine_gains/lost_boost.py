"""Lesson 05, fourth panel: an engine that lost boost. Theory agrees with it; only the maker's figure tells."""

from dataclasses import replace
from functools import lru_cache
from typing import Any

import numpy as np

from turbomath import units
from turbomath.disk import files
from turbomath.lab import invent
from turbomath.lab.entry.run_of_entries import run_of_texts
from turbomath.lab.reduction.reduce import reduce_run
from turbomath.lab.report import tables, verdicts_shown
from turbomath.lab.report.engine_drawn import engine_of_readings
from turbomath.lab.run.bench import read_bench
from turbomath.lab.run.rated import Rated
from turbomath.lab.verdicts import judge_run
from turbomath.panels.what_the_engine_gains import LESSON
from turbomath.pictures.charge_gain import picture_charge_gain
from turbomath.units.rounding import fixed
from turbomath.units.shown import words
from turbomath.widgets import own_run, readings_told
from turbomath.widgets.answers import Answer, Readout, Table
from turbomath.widgets.controls import Choice, at_start
from turbomath.widgets.panel import Panel
from turbomath.widgets.run_desk import Chosen

RUN = "generator_air_to_air"
OPENINGS = {"sound": 1.0, "worn": 1.15, "open": 1.6}  # area that the exhaust has, over that of a sound turbine
STATES = (
    ("sound", "sound"),
    ("worn", "a worn turbine: + 15 % room"),
    ("open", "a wastegate stuck open: + 60 % room"),
)
FIGURES = (("none", "nothing states the boost"), ("maker", "the maker's boost is stated"))
CONTROLS = (
    Choice("turbine", "the turbine is", STATES, "open"),
    Choice("figure", "beside the readings", FIGURES, "none"),
)


def panel() -> Panel:
    """Return the live panel of an engine that has lost boost."""
    return Panel(LESSON.words["lost_boost"].sheet(CONTROLS, answer, _outcome))


def answer(controls: Any, system: str) -> Answer:
    """Return what the panel shows: measured and theory by boost, the report's sentence and its three answers."""
    found = readings(controls.turbine, controls.figure == "maker")
    reduced, rows = found.reduced, list(found.rows)
    measured, theory = (
        (reduced[name].value[rows], reduced[name].plus_or_minus[rows])
        for name in ("measured_charge_gain", "theoretical_charge_gain")
    )
    picture = picture_charge_gain(found.boost[rows], measured, theory, system)
    verdicts = judge_run(reduced, system=system)
    readouts = (
        Readout("boost at full load", *_boost(found, system)),
        *(
            Readout(f"{head}?", word, "")
            for head, (word, _) in zip(verdicts_shown.ANSWER_HEADS, verdicts_shown.answered(verdicts), strict=True)
        ),
    )
    three = ((one.question, one.sentence) for one in (verdicts.boost, verdicts.machines, verdicts.charge))
    says = Table("What the report says of the whole run", ("question", "answer"), tuple(three))
    points = readings_told.table(Chosen(found, found.most_boost()), system)
    engine = engine_of_readings(reduced, full_load(found), system)
    return Answer((picture,), verdicts.overall, readouts, (says, points), engines=(engine,) if engine else ())


@lru_cache
def readings(turbine: str, stated: bool) -> own_run.Readings:
    """Return the INVENTED readings of the generator with its turbine in this state, the maker's boost stated or not."""
    folder = files.shipped("data") / RUN
    bench = read_bench(folder / "bench.toml")
    sound = next(one for one in invent.RECIPES if one.run == RUN)
    engine = replace(sound.engine, turbine_area=OPENINGS[turbine] * sound.engine.turbine_area)
    text = invent.readings_csv(replace(sound, engine=engine), bench)
    run = run_of_texts(text, (folder / "bench.toml").read_bytes())
    run = replace(run, name=RUN, bench=bench if stated else replace(bench, rated=Rated()))
    reduced = reduce_run(run)
    return own_run.Readings(run, reduced, (), tuple(tables.judged_rows(reduced)), own_run.boost_of(run))


def full_load(found: own_run.Readings) -> int:
    """Return the row of the most load."""
    return int(np.nanargmax(found.run["load"]))


def _boost(found, system):
    unit = units.display("boost", system)
    return fixed(units.from_si(found.boost[full_load(found)], unit, "boost"), 1), unit


def _outcome(system):
    turbine = at_start(CONTROLS).turbine
    lost, rated = readings(turbine, False), readings(turbine, True).run.bench.rated.boost
    assert rated is not None  # the shipped bench.toml states it
    return {
        "boost": " ".join(_boost(lost, system)),
        "maker": words("boost", rated.value, system),
        "gain": fixed(100 * lost.reduced["measured_charge_gain"].value[full_load(lost)], 0),
        "theory": fixed(100 * lost.reduced["theoretical_charge_gain"].value[full_load(lost)], 0),
    }
