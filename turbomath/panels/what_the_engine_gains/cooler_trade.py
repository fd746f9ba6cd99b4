"""Lesson 05, third panel: an aftercooler gives density for heat and takes pressure for it. Is it worth it?"""

from typing import Any

import numpy as np

from turbomath import units
from turbomath.panels.what_the_engine_gains import LESSON
from turbomath.panels.what_the_engine_gains.picture_cooler_trade import picture_cooler_trade
from turbomath.physics import charge, cooling
from turbomath.table.errors import OutOfRangeError
from turbomath.units import to_si
from turbomath.units.rounding import fixed
from turbomath.units.shop import fahrenheit, psi
from turbomath.units.shown import head, shown, words
from turbomath.widgets.answers import Answer, Readout, Table, readout
from turbomath.widgets.controls import Control, at_start
from turbomath.widgets.panel import Panel

BAROMETER = to_si(28.6, "inHg", "barometer")
MOST = (psi(12.0), 0.4)
CONTROLS = (
    Control(
        "compressor_outlet_pressure",
        BAROMETER + psi(23.8),
        psi(16.0),
        psi(60.0),
        us="psi abs",
        si="kPa abs",
    ),
    Control("compressor_outlet_temperature", fahrenheit(330.0), fahrenheit(100.0), fahrenheit(450.0)),
    Control("manifold_temperature", fahrenheit(130.0), fahrenheit(40.0), fahrenheit(450.0)),
    Control("cooler_pressure_loss", psi(1.8), 0.0, MOST[0]),
    Control("mass_flow", to_si(60.0, "lb/min", "mass_flow"), more=True),
    Control("barometer", BAROMETER, locked=True),
)
HEAT = {"us": ("Btu/min", 0), "si": ("kW", 1)}


def panel() -> Panel:
    """Return the live panel of the aftercooler's trade: heat against pressure."""
    return Panel(LESSON.words["cooler_trade"].sheet(CONTROLS, answer, _outcome))


def answer(controls: Any, system: str) -> Answer:
    """Return what the panel shows: the gain that is left against the loss, break-even, heat, and boost for the same."""
    left, alone, even, heat = trade(controls)
    losses = np.linspace(0.0, min(max(MOST[0], 1.2 * even), 0.95 * controls.compressor_outlet_pressure), 41)
    gains = _gain(controls, losses)
    picture = picture_cooler_trade(losses, gains, (controls.cooler_pressure_loss, left), even, system, MOST)
    less, more = equal_density(controls)
    readouts = (
        readout("gain left", "density_gain", left, system),
        readout("break-even loss", "break_even_pressure_loss", even, system),
        _heat(heat, system),
        readout("same air, cooled", "boost", less, system),
        readout("same air, hot", "boost", more, system),
    )
    tables = _table(controls, system), _same_air(controls, less, more, system)
    return Answer((picture,), _sentence(left, alone, even, system), readouts, tables, own=("yours",))


def trade(controls: Any) -> tuple[float, float, float, float]:
    """Return (gain left, gain of cooling alone, break-even loss [Pa], heat to carry away [W])."""
    if controls.cooler_pressure_loss >= controls.compressor_outlet_pressure:
        raise OutOfRangeError("that pressure loss is more than the whole pressure at the compressor outlet. Set less.")
    hot, cold = controls.compressor_outlet_temperature, controls.manifold_temperature
    even = cooling.break_even_pressure_loss(controls.compressor_outlet_pressure, hot, cold)
    heat = controls.mass_flow * cooling.specific_heat_rejected(hot, cold)
    return _gain(controls, controls.cooler_pressure_loss), _gain(controls, 0.0), even, heat


def equal_density(controls: Any) -> tuple[float, float]:
    """Return the boost [Pa] that holds, cooled, the air of this manifold uncooled; and, hot, that of it cooled."""
    manifold = controls.compressor_outlet_pressure - controls.cooler_pressure_loss
    hot, cold = controls.compressor_outlet_temperature, controls.manifold_temperature
    less = charge.pressure(charge.density(manifold, hot), cold)
    more = charge.pressure(charge.density(manifold, cold), hot)
    return less - controls.barometer, more - controls.barometer


def _gain(controls, loss):
    outlet = controls.compressor_outlet_pressure
    return charge.density_gain(
        outlet, controls.compressor_outlet_temperature, outlet - loss, controls.manifold_temperature
    )


def _heat(heat, system):
    unit, places = HEAT[system]
    return Readout("heat away", fixed(units.from_si(heat, unit, "heat_rejected"), places), unit)


def _same_air(controls, less, more, system):
    """Return the boost that each charge needs with the aftercooler and without it."""
    here = controls.compressor_outlet_pressure - controls.cooler_pressure_loss - controls.barometer
    unit = units.display("boost", system)
    here, less, more = (shown("boost", value, system)[0] for value in (here, less, more))
    rows = ((f"that of {here} {unit}, not cooled", here, less), (f"that of {here} {unit}, cooled", more, here))
    return Table("The same air", ("charge", f"boost without aftercooler [{unit}]", f"boost with it [{unit}]"), rows)


def _sentence(left, alone, even, system):
    if alone <= 0:
        return "The charge leaves the aftercooler no cooler than it came: there is no gain to lose."
    kept = f"{fixed(100 * left, 1)} % is left" if left > 0 else "nothing is left, and more is lost"
    return (
        f"Cooling alone packs in {fixed(100 * alone, 1)} % more air; with the pressure loss, {kept}. A loss of "
        f"{words('break_even_pressure_loss', even, system)} would take it all."
    )


def _table(controls, system):
    losses = np.unique([*np.linspace(0.0, max(0.0, trade(controls)[2]), 5), controls.cooler_pressure_loss])
    names = ("cooler_pressure_loss", "manifold_pressure", "density_gain")
    columns = (losses, controls.compressor_outlet_pressure - losses, _gain(controls, losses))
    absolute = {"us": "psi abs", "si": "kPa abs"}[system]
    texts = [
        [shown(name, value, system, absolute if name == "manifold_pressure" else None)[0] for value in values]
        for name, values in zip(names, columns, strict=True)
    ]
    heads = tuple(head(name, system) for name in names)
    once = {row[0]: row for row in zip(*texts, strict=True)}
    return Table("What each pressure loss leaves", heads, tuple(once.values()))


def _outcome(system):
    left, alone, even, _ = trade(at_start(CONTROLS))
    return {
        "left": fixed(100 * left, 1),
        "alone": fixed(100 * alone, 1),
        "even": words("break_even_pressure_loss", even, system),
    }
