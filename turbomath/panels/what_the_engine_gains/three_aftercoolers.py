"""Lesson 05, second panel: the same engine with three aftercoolers, at equal boost, at equal air, at equal density."""

from typing import Any

import numpy as np
from numpy.typing import NDArray

from turbomath import air
from turbomath.engine import path
from turbomath.panels.what_the_engine_gains import LESSON
from turbomath.panels.what_the_engine_gains.picture_three_aftercoolers import picture_three_aftercoolers
from turbomath.physics import cooling
from turbomath.table.errors import OutOfRangeError
from turbomath.units import to_si
from turbomath.units.rounding import fixed
from turbomath.units.shop import fahrenheit, psi
from turbomath.units.shown import head, shown, words
from turbomath.widgets.answers import Answer, Table, readout
from turbomath.widgets.controls import Choice, Control, at_start
from turbomath.widgets.panel import Panel

BY_HAND = air.choose("perfect")
NAMES = ("no aftercooler", "jacket-water", "air-to-air")
EFFECTIVENESS = np.array([0.0, 0.75, 0.80])
LOSS = psi(np.array([0.0, 0.8, 1.5]))
RESTRICTION = to_si(12.0, "inH2O", "intake_restriction")
WARMING = to_si(3.0, "F°", "temperature_rise")  # from the air outside to the compressor inlet
MOST_STEPS = 20
MOST = (psi(40.0), 4.0)
EQUALS = (
    ("boost", "equal boost"),
    ("air", "equal air: that of no aftercooler"),
    ("density", "equal density: that of air-to-air"),
)
CONTROLS = (
    Choice("equal", "compare at", EQUALS, "boost"),
    Control("boost", psi(24.0), psi(2.0), MOST[0]),
    Control("ambient_temperature", *(fahrenheit(number) for number in (77.0, -30.0, 120.0))),
    Control("compressor_efficiency", 0.74),
    Control("engine_coolant_temperature", fahrenheit(185.0), more=True),
    Control("barometer", to_si(29.10, "inHg", "barometer"), more=True),
)


def panel() -> Panel:
    """Return the live panel of three aftercoolers side by side."""
    return Panel(LESSON.words["three_aftercoolers"].sheet(CONTROLS, answer, _outcome))


def answer(controls: Any, system: str) -> Answer:
    """Return what the panel shows: three lines with their points, a sentence, read-outs and a table."""
    if controls.boost + controls.barometer <= 0:
        raise OutOfRangeError("that boost is below a full vacuum, where there is no air left. Set more boost.")
    boost = boosts(controls)
    found = charges(controls, boost)
    wide = np.linspace(0.0, max(MOST[0], boost.max()), 31)
    lines = _densities(charges(controls, wide[:, None])).T
    guide = dict(EQUALS)[controls.equal].split(":")[0], "boost" if controls.equal == "boost" else "density"
    picture = picture_three_aftercoolers(NAMES, wide, lines, (boost, _densities(found)), guide, system, MOST)
    labels = ("boost, none", "boost, jacket-water", "boost, air-to-air")
    readouts = (
        *(readout(label, "boost", value, system) for label, value in zip(labels, boost, strict=True)),
        readout("air against none", "mass_flow_gain", _against(found, 2), system),
        readout(
            "aftercooling gain", "aftercooling_density_gain", np.asarray(found.aftercooling_density_gain)[2], system
        ),
    )
    return Answer(
        (picture,), _sentence(controls, boost, found, system), readouts, (_table(boost, found, system),), own=NAMES
    )


def charges(controls: Any, boost: NDArray) -> path.ChargePath:
    """Return the `ChargePath` of the three engines at these boosts [Pa]; the last axis is the three."""
    outside = controls.ambient_temperature
    return path.charge_path(
        ambient_pressure=controls.barometer,
        ambient_temperature=outside,
        manifold_pressure=controls.barometer + boost + 0.0 * EFFECTIVENESS,
        isentropic_efficiency=controls.compressor_efficiency,
        compressor_inlet_temperature=outside + WARMING,
        intake_restriction=RESTRICTION,
        effectiveness=EFFECTIVENESS,
        medium_temperature=np.array([outside, controls.engine_coolant_temperature, outside]),
        cooler_pressure_loss=LOSS,
        air=BY_HAND,
    )


def boosts(controls: Any) -> NDArray:
    """Return the boost [Pa] of the three engines: equal, or that which gives each the wanted density."""
    same = np.full(3, controls.boost)
    if controls.equal == "boost":
        return same
    wanted = _densities(charges(controls, same))[0 if controls.equal == "air" else 2]
    return _of_density(controls, same, wanted)


def _of_density(controls, boost, wanted):
    """Return the boost that gives the density *wanted*, by secants: density rises almost straight with pressure."""
    short = charges(controls, boost).manifold_density - wanted
    before, boost = boost, (boost + controls.barometer) * wanted / (short + wanted) - controls.barometer
    for _ in range(MOST_STEPS):
        missed, short = short, charges(controls, boost).manifold_density - wanted
        if np.all(np.abs(short) <= 1e-10 * wanted):
            break
        slope = np.where(short == missed, np.inf, (short - missed) / np.where(boost == before, 1.0, boost - before))
        before, boost = boost, boost - short / slope
    return boost


def _densities(found: path.ChargePath) -> NDArray:
    return np.asarray(found.manifold_density)


def _against(found, which):
    return found.manifold_density[which] / found.manifold_density[0] - 1


def _sentence(controls, boost, found, system):
    none, jacket, air = (words("boost", value, system) for value in boost)
    if controls.equal == "boost":
        jacket, air = (_more(_against(found, which)) for which in (1, 2))
        return (
            f"The gauge shows {none} in all three. Against no aftercooler there is {jacket} air with jacket-water "
            f"and {air} air with air-to-air."
        )
    if controls.equal == "air":
        return (
            f"The air of {none} without aftercooler: the gauge shows {jacket} with jacket-water and {air} with "
            "air-to-air aftercooling. Less boost, the same air."
        )
    return (
        f"The charge of {air} with air-to-air aftercooling: the gauge must show {jacket} with jacket-water, and "
        f"{none} without aftercooler."
    )


def _more(gain):
    return f"{fixed(abs(gain) * 100, 1)} % {'more' if gain >= 0 else 'less'}"


def _table(boost, found, system):
    even = cooling.break_even_pressure_loss(
        found.compressor_outlet_pressure, found.compressor_outlet_temperature, found.manifold_temperature
    )
    columns = {
        "boost": boost,
        "pressure_ratio": found.pressure_ratio,
        "compressor_outlet_temperature": found.compressor_outlet_temperature,
        "manifold_temperature": found.manifold_temperature,
        "manifold_density": found.manifold_density,
        "charge_gain": found.charge_gain,
        "aftercooling_density_gain": found.aftercooling_density_gain,
        "cooler_pressure_loss": LOSS,
        "break_even_pressure_loss": even,
    }
    texts = [[shown(name, value, system)[0] for value in values] for name, values in columns.items()]
    heads = ("aftercooler", *(head(name, system) for name in columns))
    return Table("The three engines in numbers, air as a perfect gas", heads, tuple(zip(NAMES, *texts, strict=True)))


def _outcome(system):
    boost = boosts(at_start(CONTROLS)._replace(equal="air"))
    hot, cold = (words("boost", boost[which], system) for which in (0, 2))
    return {"hot": hot, "cold": cold}
