"""Lesson 06, sixth panel: full fuel at once, and how long the boost takes to come."""

from dataclasses import replace
from typing import Any

import numpy as np

from turbomath.engine import limits
from turbomath.engine.ready_engines import AIR_TO_AIR
from turbomath.engine.spool_up import SpoolUp, Stores, spool_ups
from turbomath.panels.air_fuel_and_power import LESSON
from turbomath.panels.air_fuel_and_power.picture_boost_in_time import (
    BOOST,
    RATIO,
    picture_boost_in_time,
    picture_ratio_in_time,
)
from turbomath.paper.limits_told import outside_words, passed_words
from turbomath.physics import fuel
from turbomath.pictures.bar_scales import ABOVE, FINE_POWER, POWER
from turbomath.table.errors import OutOfRangeError
from turbomath.units import to_si
from turbomath.units.rounding import NO_VALUE, fixed
from turbomath.units.shop import fahrenheit, psi
from turbomath.units.shown import Shown
from turbomath.widgets.answers import Answer, Readout, Table, readout
from turbomath.widgets.cases import Cases, in_columns
from turbomath.widgets.controls import Choice, Control, at_start
from turbomath.widgets.panel import Panel

SITE = dict(ambient_pressure=to_si(29.10, "inHg", "barometer"), ambient_temperature=fahrenheit(77.0), engine_speed=30.0)
BEFORE = 0.12  # of the rated fuel: an engine that hardly pulls
OWN = Stores.usual(AIR_TO_AIR)
ROTOR = float(OWN.rotor_inertia)
NONE, FITTED = "none", "fitted"
COLD, WARM, HOT = "cold", "warm", "hot"
METAL = {COLD: fahrenheit(100.0), WARM: np.nan, HOT: fahrenheit(1000.0)}  # K; nan is as warm as the exhaust was
USUAL, LARGE = "usual", "large"
VOLUMES = {USUAL: 1.0, LARGE: 3.0}  # times the usual one
CONTROLS = (
    Control("load", 1.0, 0.3, 1.1),
    Choice("limiter", "fuel limiter", ((NONE, "none"), (FITTED, "fitted")), NONE),
    Control("rotor_inertia", ROTOR, ROTOR / 2, 3 * ROTOR),
    Choice("metal", "exhaust manifold", ((COLD, "cold"), (WARM, "warm from idling"), (HOT, "hot from pulling")), WARM),
    Choice("pipes", "core and pipes", ((USUAL, "usual"), (LARGE, "three times as large")), USUAL, more=True),
    Control("smoke_limit", 20.0, 16.0, 26.0, more=True),
)
AS_IT_WAS = {"load": 1.0, "limiter": NONE, "rotor_inertia": ROTOR, "metal": WARM}
CASES = {
    "as_it_was": AS_IT_WAS,
    "limiter": AS_IT_WAS | {"limiter": FITTED},
    "heavy_rotor": AS_IT_WAS | {"rotor_inertia": 2 * ROTOR},
}
SEEN = fuel.SMOKE_LIMIT_AIR_FUEL_RATIO
MOMENTS = (0.0, 0.25, 0.5, 1.0, 1.5, 2.0, 3.0, 5.0, 8.0)  # s, in the table
TURNS = Shown("shaft_speed", ("rpm", 0), ("rpm", 0))
EXHAUST = Shown("turbine_inlet_temperature")
MOST = psi(28.0)


def panel() -> Panel:
    """Return the live panel of the boost that comes after a step of fuel."""
    return Panel(
        LESSON.words["boost_in_time"].sheet(CONTROLS, answer, _outcome, CASES, together=after_the_step.together)
    )


def answer(controls: Any, system: str) -> Answer:
    """Return what the panel shows: boost and air-fuel ratio against time, a sentence, read-outs and a table."""
    found = after_the_step(controls)
    pictures = (
        picture_boost_in_time(found.time, found.boost, float(found.end.boost), system, MOST),
        picture_ratio_in_time(found.time, found.air_fuel_ratio, SEEN),
    )
    readouts = (
        Readout("half the boost after", _seconds(found.time_to(0.5)), "s"),
        Readout("90 % of it after", _seconds(found.time_to(0.9)), "s"),
        Readout("smoke for", fixed(smoking(found), 1), "s"),
        readout("power at once", POWER, found.power[0], system),
        readout("after 8 s", POWER, found.power[-1], system),
    )
    past = (
        passed_words(limits.passed(AIR_TO_AIR, found.end), system),
        outside_words(limits.outside(limits.tried(AIR_TO_AIR, "fuel_flow"), found.end), system),
    )
    sentence = " ".join(filter(None, (_sentence(found, system), *past)))
    return Answer(pictures, sentence, readouts, (_table(found, system),), (BOOST, RATIO))


def _case(controls):
    """Return what the step follows from: the load, sizes of the stores, the metal, the limit."""
    if not BEFORE < controls.load <= AIR_TO_AIR.fuel_stop:
        raise OutOfRangeError(
            f"this engine burns {fixed(100 * BEFORE, 0)} % of its rated fuel before the step, and its stop gives no "
            f"more than {fixed(100 * AIR_TO_AIR.fuel_stop, 0)} %. Ask for something between."
        )
    if not 0.1 <= controls.rotor_inertia / ROTOR <= 10:
        raise OutOfRangeError("no rotor for this engine is so light or so heavy. Set it nearer to where it was.")
    if not 14.5 <= controls.smoke_limit <= 40:
        raise OutOfRangeError(
            "no limiter is set so: below 14.5 no air is over, and above 40 it pulls nothing. Set it between."
        )
    limit = controls.smoke_limit if controls.limiter == FITTED else 0.0
    return controls.load, controls.rotor_inertia, METAL[controls.metal], VOLUMES[controls.pipes], limit


def _steps(cases):
    load, inertia, metal, volume, limit = in_columns(cases)
    engine = replace(AIR_TO_AIR, least_air_fuel_ratio=limit)
    stores = replace(OWN, rotor_inertia=inertia, charge_volume=volume * OWN.charge_volume)
    before, after = (share * engine.rated_fuel_flow for share in (BEFORE, load))
    return spool_ups(engine, **SITE, fuel_before=before, fuel_after=after, metal_temperature=metal, stores=stores)


after_the_step = Cases(_case, _steps)  # a `SpoolUp` for a record of controls


def smoking(found: SpoolUp) -> float:
    """Return for how long [s] the air-fuel ratio is under the one at which smoke is seen."""
    enough = np.flatnonzero(found.air_fuel_ratio >= SEEN)
    if not enough.size:
        return float(found.time[-1])
    last = int(enough[0])
    if last == 0:
        return 0.0
    return float(np.interp(SEEN, found.air_fuel_ratio[last - 1 : last + 1], found.time[last - 1 : last + 1]))


def _seconds(time):
    return NO_VALUE if np.isnan(time) else fixed(time, 1)


def _sentence(found, system):
    at_once, end = (POWER.words(found.power[place], system) for place in (0, -1))
    long = found.time_to(0.9)
    there = "not there, as its last part waits for warm metal" if np.isnan(long) else f"there after {_seconds(long)} s"
    told = f"The engine gives {at_once} at once and {end} after 8 s: 90 % of the boost is {there}."
    smoke, least = smoking(found), fixed(float(found.air_fuel_ratio.min()), 1)
    if smoke > 0.05:
        return (
            f"{told} Until the air is there it smokes for {fixed(smoke, 1)} s, at {least} of air to 1 of fuel at first."
        )
    return f"{told} It does not smoke: it has {least} of air to 1 of fuel at least."


def _table(found, system):
    columns = (
        ("boost", ABOVE, found.boost),
        ("shaft", TURNS, found.shaft_speed),
        ("power", POWER, found.power),
        ("exhaust", EXHAUST, found.turbine_inlet_temperature),
        ("turbine gives", FINE_POWER, found.turbine_power),
        ("compressor takes", FINE_POWER, found.compressor_power),
    )
    heads = ("time [s]", *(f"{name} [{told.unit(system)}]" for name, told, _ in columns), "air-fuel ratio")
    rows = tuple(
        (
            f"{moment:g}",
            *(told.text(float(np.interp(moment, found.time, values)), system) for _, told, values in columns),
            fixed(float(np.interp(moment, found.time, found.air_fuel_ratio)), 1),
        )
        for moment in MOMENTS
    )
    return Table("From the step on (INVENTED engine)", heads, rows)


def _outcome(system):
    start = at_start(CONTROLS)
    found, limited = (after_the_step(start._replace(**CASES[name])) for name in ("as_it_was", "limiter"))
    return {
        "half": _seconds(found.time_to(0.5)),
        "most": _seconds(found.time_to(0.9)),
        "smoke": fixed(smoking(found), 1),
        "at_once": POWER.words(found.power[0], system),
        "limited": POWER.words(limited.power[0], system),
    }
