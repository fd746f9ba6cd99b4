"""Lesson 10: one engine with three aftercoolers, compared with one thing held equal at a time."""

from typing import Any

from turbomath.panels.compare_three_engines import LESSON
from turbomath.panels.compare_three_engines.bars_and_table import (
    CHARGE,
    EXHAUST,
    GAUGE,
    RATIO,
    bars,
    signed,
    table,
)
from turbomath.panels.compare_three_engines.beyond import beyond, joined
from turbomath.panels.compare_three_engines.held import AIR, AIR_FLOW, BOOST, FUEL, NONE, OWN, REMATCHED, WATER, three
from turbomath.panels.compare_three_engines.picture_bars_side_by_side import picture_bars_side_by_side
from turbomath.units import to_si
from turbomath.units.rounding import NO_VALUE, fixed
from turbomath.units.shop import fahrenheit
from turbomath.units.shown import RISE
from turbomath.widgets.answers import Answer, Readout
from turbomath.widgets.controls import Choice, Control, at_start
from turbomath.widgets.engines import engine_of_balance
from turbomath.widgets.panel import Panel

HELD = (
    (FUEL, "fuel, with one turbine"),
    (AIR_FLOW, "air, with one turbine"),
    (BOOST, "boost, with one turbine"),
    (REMATCHED, "fuel and boost: a turbine found for each"),
    (OWN, "nothing: each its own turbine and rating"),
)
HEIGHT = Control("elevation", *(to_si(feet, "ft", "elevation") for feet in (750.0, 0.0, 5000.0)))
OUTSIDE = Control("ambient_temperature", *(fahrenheit(end) for end in (77.0, -10.0, 115.0)))
CONTROLS = (Choice("equal", "held equal", HELD, FUEL), Control("load", 1.0, 0.1, 1.1), OUTSIDE, HEIGHT)
CASES = {"full_load": {"load": 1.0}, "quarter_load": {"load": 0.25}}
SHORT = {NONE: "no aftercooler", WATER: "jacket-water", AIR: "air-to-air"}


def panel() -> Panel:
    """Return the live panel of three aftercoolers on the engine balance."""
    return Panel(LESSON.words["compare_three_engines"].sheet(CONTROLS, answer, _outcome, CASES))


def answer(controls: Any, system: str) -> Answer:
    """Return what the panel shows: bars of the three engines, what was held equal, read-outs of change, a table."""
    engines = three(controls.equal, controls.load, controls.elevation, controls.ambient_temperature)
    found = {name: one for name, (_, one) in engines.items()}
    left = (
        bars(GAUGE, "boost", "boost", found, system),
        bars(EXHAUST, "exhaust before the turbine", "turbine_inlet_temperature", found, system),
    )
    right = (
        bars(CHARGE, "air", "mass_flow", found, system),
        bars(RATIO, "air-fuel ratio", "air_fuel_ratio", found, system),
    )
    picture = picture_bars_side_by_side(f"Held equal: {dict(HELD)[controls.equal]} (INVENTED engines)", left, right)
    return Answer(
        (picture,),
        joined(_sentence(controls.equal, found, system), beyond(engines, SHORT, system)),
        _changes(found, system),
        (table(controls.equal, engines, system),),
        engines=tuple(
            engine_of_balance(SHORT[name].capitalize(), found[name], name, system)
            for name in (NONE, AIR)
            if found[name]
        ),
    )


def _changes(found, system):
    """Return read-outs of what changes from no aftercooler to air-to-air."""
    changes = (
        ("fuel, none to air-to-air", "%", "fuel_flow", None, 1),
        ("air", "%", "mass_flow", None, 1),
        ("boost", GAUGE.unit(system), "boost", GAUGE, 1),
        ("exhaust", RISE[system], "turbine_inlet_temperature", EXHAUST, 0),
        ("air-fuel ratio", "", "air_fuel_ratio", RATIO, 1),
    )
    return tuple(
        Readout(label, _change(found[NONE], found[AIR], name, told, places, system), unit)
        for label, unit, name, told, places in changes
    )


def _change(before, after, name, told, places, system):
    """Return a change as text with its sign: in per cent, or as a difference where `told` says how to tell it."""
    if before is None or after is None:
        return NO_VALUE
    before, after = getattr(before, name), getattr(after, name)
    if told is None:
        return signed(100 * (after / before - 1), places)
    return signed(told.number(after, system) - told.number(before, system), places)


def _sentence(held, found, system):
    """Say what was held equal, and what that does to the gauge and the air."""
    short = [SHORT[name] for name, one in found.items() if one is None]
    if short:
        why = "cannot carry this load" if held == OWN else "cannot be brought there: its fuel stop comes first"
        return f"Held equal: {_equal(held)}. With {' and with '.join(short)} the engine {why}."
    return f"Held equal: {_equal(held)}. {_found(held, found[NONE], found[AIR], system)}"


def _equal(held):
    return {
        FUEL: "fuel and turbine",
        AIR_FLOW: "air and turbine; the fuel is set for that",
        BOOST: "boost and turbine; the fuel is set for that",
        REMATCHED: "fuel and boost; a turbine is found for each",
        OWN: "only the share of the rated power",
    }[held]


def _found(held, bare, cooled, system):
    """Say what differs between no aftercooler and air-to-air."""
    before, after = (GAUGE.words(one.boost, system) for one in (bare, cooled))
    air, fuel = (_per_cent(getattr(cooled, name) / getattr(bare, name) - 1) for name in ("mass_flow", "fuel_flow"))
    cooler = EXHAUST.number(bare.turbine_inlet_temperature, system)
    cooler = fixed(cooler - EXHAUST.number(cooled.turbine_inlet_temperature, system), 0)
    return {
        FUEL: f"From no aftercooler to air-to-air the gauge goes from {before} to {after}, and the engine "
        f"draws {air} air.",
        AIR_FLOW: f"This air takes {before} without an aftercooler and {after} with air-to-air, at {fuel} fuel.",
        BOOST: f"At {after} air-to-air draws {air} air than no aftercooler, and burns {fuel} fuel.",
        REMATCHED: f"At {after} air-to-air draws {air} air than no aftercooler; its exhaust is {cooler} "
        f"{RISE[system]} cooler.",
        OWN: "Turbine, fuel and power differ too, so no difference belongs to the aftercooler alone.",
    }[held]


def _per_cent(gain):
    size = fixed(100 * abs(gain), 0)
    return "as much" if size == "0" else f"{size} % {'more' if gain > 0 else 'less'}"


def _outcome(system):
    start = at_start(CONTROLS)
    found = three(FUEL, start.load, start.elevation, start.ambient_temperature)
    bare, cooled = found[NONE][1], found[AIR][1]
    before, after = (GAUGE.words(one.boost, system) for one in (bare, cooled))
    return {
        "fall": GAUGE.words(bare.boost - cooled.boost, system),
        "before": before,
        "after": after,
        "air": _per_cent(cooled.mass_flow / bare.mass_flow - 1),
    }
