"""Lesson 06, fifth panel: what drives the wheel, when the exhaust gets hotter or the outlet is choked."""

import functools
from collections import namedtuple
from typing import Any

from turbomath.engine import limits, wheels
from turbomath.panels.air_fuel_and_power import LESSON, who_pays
from turbomath.panels.air_fuel_and_power.swallow import BAROMETER
from turbomath.panels.air_fuel_and_power.who_pays import FLOW, HEAT_CAPACITY_RATIO, SPECIFIC_HEAT
from turbomath.paper.limits_told import passed_words
from turbomath.physics import compression, exhaust_readings, shaft, turbine
from turbomath.physics.wheel import tip_speed
from turbomath.pictures.bar_scales import ABOVE, ABSOLUTE, CHANGE, POWER
from turbomath.pictures.lying_bars import picture_lying_bars
from turbomath.table.errors import OutOfRangeError
from turbomath.units import to_si
from turbomath.units.rounding import fixed
from turbomath.units.shop import fahrenheit, pounds_per_minute
from turbomath.units.shown import words
from turbomath.widgets.answers import Answer, Table, readout
from turbomath.widgets.controls import Control, at_start
from turbomath.widgets.engines import engine
from turbomath.widgets.panel import Panel

HOT, BACK = fahrenheit(1100.0), to_si(1.5, "inHg", "exhaust_back_pressure")
LEAST_FLOW, MOST_FLOW = (pounds_per_minute(number) for number in (20.0, 80.0))
CHOKED, MOST_BACK = (to_si(number, "inHg", "exhaust_back_pressure") for number in (8.0, 15.0))
CONTROLS = (
    Control("turbine_inlet_temperature", HOT, fahrenheit(600.0), fahrenheit(1400.0)),
    Control("exhaust_back_pressure", BACK, 0.0, MOST_BACK),
    Control("turbine_efficiency", 0.70, 0.45, 0.85),
    Control("mass_flow", FLOW, LEAST_FLOW, MOST_FLOW, us="lb/min", si="kg/min"),
    Control("compressor_inlet_temperature", fahrenheit(85.0), more=True),
    Control("compressor_efficiency", 0.74, 0.5, 0.85, more=True),
    Control("air_fuel_ratio", 24.0, 18.0, 60.0, more=True),
    Control("shaft_efficiency", 0.96, 0.90, 1.0, more=True),
    BAROMETER,
)
AS_IT_WAS = {"turbine_inlet_temperature": HOT, "exhaust_back_pressure": BACK}
CASES = {
    "as_it_was": AS_IT_WAS,
    "hotter": AS_IT_WAS | {"turbine_inlet_temperature": fahrenheit(1200.0)},
    "choked": AS_IT_WAS | {"exhaust_back_pressure": CHOKED},
}
SPEAKS = ("compressor", "turbine", "shaft")
Wheel = namedtuple("Wheel", "given taken before after ratio cooled warmed delivered barometer")


def panel() -> Panel:
    """Return the live panel of what drives the wheel."""
    return Panel(LESSON.words["the_wheel"].sheet(CONTROLS, answer, _outcome, CASES, JUDGES))


def power_is_back(controls: Any) -> bool:
    """Return whether the compressor can take what it took as it was, to 2 %."""
    return wheel(controls).taken >= 0.98 * wheel(controls._replace(**AS_IT_WAS)).taken


JUDGES = {"power_is_back": power_is_back}


def answer(controls: Any, system: str) -> Answer:
    """Return what the panel shows: the engine, the shaft as it was and as it is set, a sentence, read-outs, a table."""
    was, now = wheel(controls._replace(**AS_IT_WAS)), wheel(controls)
    readouts = (
        readout("compressor can take", POWER, now.taken, system),
        readout("air warms by", CHANGE, now.warmed - controls.compressor_inlet_temperature, system),
        readout("boost it can make", ABOVE, now.delivered - now.barometer, system),
        readout("expansion ratio", "expansion_ratio", now.ratio, system),
    )
    picture, drawing = _picture(controls, was, now, system), _engine(controls, now, system)
    table = _table(was, now, system)
    sentence = " ".join(filter(None, (_sentence(was, now, system), passed_words(_past(controls, now), system))))
    return Answer((picture,), sentence, readouts, (table,), engines=(drawing,))


def wheel(controls: Any) -> Wheel:
    """Return what the same turbine gives, and what the compressor makes of it: powers [W], pressures, temperatures."""
    hot, mass = controls.turbine_inlet_temperature, who_pays.exhaust(controls)
    after = controls.barometer + controls.exhaust_back_pressure
    if after <= 0:
        raise OutOfRangeError("that back pressure is below a full vacuum. Read the gauge again.")
    before = (after**2 + _narrowness() * mass**2 * hot) ** 0.5
    ratio = exhaust_readings.expansion_ratio(before, after)
    cooled = turbine.outlet_temperature(hot, ratio, controls.turbine_efficiency, HEAT_CAPACITY_RATIO)
    given = turbine.power(mass, hot, cooled, SPECIFIC_HEAT)
    inlet = controls.compressor_inlet_temperature
    warmed = shaft.compressor_outlet_temperature(inlet, controls.mass_flow, given, controls.shaft_efficiency)
    delivered = compression.outlet_pressure(controls.barometer, inlet, warmed, controls.compressor_efficiency)
    return Wheel(
        given, controls.shaft_efficiency * given, before, after, ratio, cooled, warmed, delivered, controls.barometer
    )


def _past(controls, now):
    """Return which usual limits are passed: of the wheel's rim, and of the exhaust before the turbine."""
    usual = limits.Limits()
    work = max(0.0, float(compression.specific_work(controls.compressor_inlet_temperature, now.warmed)))
    found = (
        (limits.OVERSPEED, "tip_speed", tip_speed(work, wheels.WORK_COEFFICIENT), usual.greatest_tip_speed),
        (
            limits.HOT,
            "turbine_inlet_temperature",
            controls.turbine_inlet_temperature,
            usual.greatest_turbine_inlet_temperature,
        ),
    )
    return [limits.Past(name, quantity, value, 0.0, most) for name, quantity, value, most in found if value > most]


@functools.cache
def _narrowness():
    """Return how hard the turbine dams the exhaust, by the ellipse law: (p4² − p5²) over (mass flow² × T4).

    It is the turbine of the panel before this one, at the start.
    """
    start = at_start(who_pays.CONTROLS)
    found, mass = who_pays.shaft(start), who_pays.exhaust(start)
    return (found.before**2 - found.after**2) / (mass**2 * start.turbine_inlet_temperature)


def _engine(controls, now, system):
    outside, air = controls.barometer, controls.compressor_inlet_temperature
    stations = {
        "ambient": (outside, air),
        "compressor_inlet": (outside, air),
        "compressor_outlet": (now.delivered, now.warmed),
        "manifold": (now.delivered, now.warmed),
        "turbine_inlet": (now.before, controls.turbine_inlet_temperature),
        "turbine_outlet": (now.after, now.cooled),
    }
    title = "Exhaust drives the turbine, the turbine drives the compressor"
    return engine(
        title, system, stations, speaks=SPEAKS, silent=("compressor_inlet", "manifold"), shaft_power=now.taken
    )


def _picture(controls, was, now, system):
    inlet = controls.compressor_inlet_temperature
    groups = (
        POWER.group_of(
            "power that the compressor can take",
            (("ambient", "as it was", was.taken), ("hot", "as you set it", now.taken)),
            system,
        ),
        CHANGE.group_of(
            "the air warms by",
            (("ambient", "as it was", was.warmed - inlet), ("hot", "as you set it", now.warmed - inlet)),
            system,
        ),
        ABSOLUTE.group_of(
            "exhaust, absolute pressure",
            (("measured", "before the turbine", now.before), ("ambient", "after the turbine", now.after)),
            system,
        ),
    )
    return picture_lying_bars("The same turbine, the same pounds of exhaust: as it was, and as you set it", groups)


def _sentence(was, now, system):
    told = (
        f"The exhaust gives {POWER.words(now.given, system)}; the compressor can take {POWER.words(now.taken, system)}"
    )
    more = 100 * (now.taken - was.taken) / was.taken if was.taken > 0 else 0.0
    if abs(more) < 0.5:
        return f"{told}, as much as before."
    why = f"{fixed(abs(more), 0)} % {'more' if more > 0 else 'less'} than before"
    return f"{told}, {why}: the exhaust expands {fixed(now.ratio, 2)} times in place of {fixed(was.ratio, 2)}."


def _table(was, now, system):
    rows = (
        ("turbine gives", *(POWER.text(one.given, system) for one in (was, now)), POWER.unit(system)),
        ("compressor can take", *(POWER.text(one.taken, system) for one in (was, now)), POWER.unit(system)),
        ("before the turbine", *(ABSOLUTE.text(one.before, system) for one in (was, now)), ABSOLUTE.unit(system)),
        ("after the turbine", *(ABSOLUTE.text(one.after, system) for one in (was, now)), ABSOLUTE.unit(system)),
        ("expansion ratio", *(fixed(one.ratio, 2) for one in (was, now)), ""),
        (
            "boost it can make",
            *(ABOVE.text(one.delivered - one.barometer, system) for one in (was, now)),
            ABOVE.unit(system),
        ),
    )
    return Table("The same turbine", ("quantity", "as it was", "as you set it", "unit"), rows)


def _outcome(system):
    start = at_start(CONTROLS)
    was, hotter, choked = (wheel(start._replace(**CASES[name])) for name in CASES)
    return {
        "was": POWER.words(was.taken, system),
        "hotter": POWER.words(hotter.taken, system),
        "choked": POWER.words(choked.taken, system),
        "back": words("exhaust_back_pressure", CHOKED, system),
    }
