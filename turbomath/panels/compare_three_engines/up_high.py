"""Lesson 10, third panel: the same fuel up high; the gauge hardly moves, and the engine has less air."""

from dataclasses import replace
from typing import Any

import numpy as np

from turbomath.engine import balance
from turbomath.panels.compare_three_engines import LESSON
from turbomath.panels.compare_three_engines.bars_and_table import (
    CHARGE,
    EXHAUST,
    GAUGE,
    PRESSURES,
    RATIO,
    signed,
)
from turbomath.panels.compare_three_engines.beyond import beyond, joined
from turbomath.panels.compare_three_engines.fitted_cooler import HEIGHT, OUTSIDE, SHORT
from turbomath.panels.compare_three_engines.held import AIR, NAMES, SAME, site_of
from turbomath.panels.compare_three_engines.picture_bars_side_by_side import picture_bars_side_by_side
from turbomath.table.errors import OutOfRangeError
from turbomath.table.records import each_point
from turbomath.units import to_si
from turbomath.units.rounding import fixed
from turbomath.units.shown import RISE
from turbomath.widgets.answers import Answer, Readout, Table, readout
from turbomath.widgets.cases import Cases, alike, in_columns
from turbomath.widgets.controls import Choice, Control, at_start
from turbomath.widgets.engines import engine_of_balance
from turbomath.widgets.panel import Panel

STEPS = {"us": ("ft", np.arange(0.0, 10_001.0, 2000.0)), "si": ("m", np.arange(0.0, 3001.0, 600.0))}
HEIGHTS = {system: to_si(steps, unit, "elevation").tolist() for system, (unit, steps) in STEPS.items()}  # m
CONTROLS = (
    replace(HEIGHT, start=to_si(8000.0, "ft", "elevation"), high=to_si(10_000.0, "ft", "elevation")),
    Control("fuel_flow", SAME[AIR].rated_fuel_flow, *(to_si(pounds, "lb/h", "fuel_flow") for pounds in (30.0, 160.0))),
    OUTSIDE,
    Choice("cooler", "aftercooler", tuple((name, SHORT[name]) for name in NAMES), AIR),
)
SHOWN = (
    (GAUGE, "boost", "boost", "measured"),
    (PRESSURES, "pressure ratio", "pressure_ratio", "measured"),
    (CHARGE, "air", "mass_flow", "cooled"),
    (EXHAUST, "exhaust before the turbine", "turbine_inlet_temperature", "hot"),
)


def panel() -> Panel:
    """Return the live panel of one engine at sea level and up high, with the same fuel."""
    return Panel(LESSON.words["up_high"].sheet(CONTROLS, answer, _outcome, together=settled.together))


def answer(controls: Any, system: str) -> Answer:
    """Return what the panel shows: sea level beside your height as bars, a sentence, read-outs and a table."""
    found = settled(controls)
    sea, high = found[0.0], found[controls.elevation]
    groups = [_group(told, heading, name, role, (sea, high), system) for told, heading, name, role in SHOWN]
    title = f"Same fuel, {SHORT[controls.cooler]}: sea level and your height (INVENTED engine)"
    picture = picture_bars_side_by_side(title, groups[:2], groups[2:])
    degrees = EXHAUST.number(high["turbine_inlet_temperature"], system)
    degrees -= EXHAUST.number(sea["turbine_inlet_temperature"], system)
    readouts = (
        readout("barometer", "barometer", high["ambient_pressure"], system),
        Readout("boost", signed(GAUGE.number(high["boost"] - sea["boost"], system), 1), GAUGE.unit(system)),
        Readout("pressure ratio", signed(high["pressure_ratio"] - sea["pressure_ratio"], 2), ""),
        Readout("air", signed(100 * (high["mass_flow"] / sea["mass_flow"] - 1), 1), "%"),
        Readout("exhaust", signed(degrees, 0), RISE[system]),
    )
    places = {"your height": high, "sea level": sea}
    engines = tuple(
        engine_of_balance(f"{name.capitalize()}, the same fuel", one, controls.cooler, system)
        for name, one in places.items()
    )
    past = beyond({controls.cooler: (SAME[controls.cooler], places["your height"])}, {controls.cooler: ""}, system)
    sentence = joined(_sentence(sea, high, system), past)
    return Answer((picture,), sentence, readouts, (_table(found, system),), engines=engines)


def _case(controls):
    """Return what the engine follows from."""
    if not 0 < controls.fuel_flow <= SAME[controls.cooler].greatest_fuel_flow:
        raise OutOfRangeError(
            "this engine burns more than nothing and no more than its fuel stop gives. Set a fuel between."
        )
    return controls.cooler, controls.elevation, controls.ambient_temperature, controls.fuel_flow


@alike
def _settled(cooler, cases):
    own, temperature, fuel = (np.reshape(one, (-1, 1)) for one in in_columns(cases))
    steps = list(dict.fromkeys([*HEIGHTS["us"], *HEIGHTS["si"]]))
    heights = np.concatenate([np.broadcast_to(steps, (len(cases), len(steps))), own], axis=1)
    found = each_point(balance.solve(SAME[cooler], **site_of(heights, temperature), fuel_flow=fuel))
    rows = [found[first : first + heights.shape[1]] for first in range(0, len(found), heights.shape[1])]
    return [
        dict(zip(at.tolist(), row, strict=True))
        if all(one.converged for one in row)
        else OutOfRangeError("no balance was found there. Set fuel, temperature and height nearer to where they were.")
        for at, row in zip(heights, rows, strict=True)
    ]


settled = Cases(_case, _settled)  # for a record of controls the balance at each height [m] of the table, and at its own


def _group(told, heading, name, role, both, system):
    places = zip(("sea level", "your height"), both, strict=True)
    return told.group_of(heading, [(role, place, one[name]) for place, one in places], system)


def _sentence(sea, high, system):
    before, after = (GAUGE.words(one["boost"], system) for one in (sea, high))
    air = fixed(100 * (high["mass_flow"] / sea["mass_flow"] - 1), 0)
    more = "as much" if air == "0" else f"{air.lstrip('−')} % {'less' if air.startswith('−') else 'more'}"
    return (
        f"The gauge goes from {before} to {after}. The engine has {more} air, and its exhaust is at "
        f"{EXHAUST.words(high['turbine_inlet_temperature'], system)}."
    )


def _table(found, system):
    """Return the engine from sea level up."""
    unit, steps = STEPS[system]
    columns = [*SHOWN, (RATIO, "air-fuel ratio", "air_fuel_ratio", "")]
    heads = (f"height [{unit}]", *(f"{name} [{told.unit(system)}]".removesuffix(" [-]") for told, name, *_ in columns))
    rows = tuple(
        (fixed(step, 0), *(told.text(found[height][field], system) for told, _, field, _ in columns))
        for step, height in zip(steps, HEIGHTS[system], strict=True)
    )
    return Table("From sea level up, with the same fuel (INVENTED engine)", heads, rows)


def _outcome(system):
    start = at_start(CONTROLS)
    found = settled(start)
    sea, high = found[0.0], found[start.elevation]
    before, after = (GAUGE.words(one["boost"], system) for one in (sea, high))
    fall = fixed(100 * (1 - high["mass_flow"] / sea["mass_flow"]), 0)
    return {"before": before, "after": after, "less": fall}
