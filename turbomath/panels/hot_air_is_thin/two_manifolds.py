"""Lesson 03: which manifold holds more air? Boost and temperature together decide; the box and the barometer stay."""

import math
from typing import Any

from turbomath import units
from turbomath.panels.hot_air_is_thin import LESSON, equal_density
from turbomath.panels.hot_air_is_thin.picture_box_of_air import picture_box_of_air
from turbomath.panels.hot_air_is_thin.picture_equal_density import axes, picture_equal_density
from turbomath.physics import charge
from turbomath.table.errors import OutOfRangeError
from turbomath.units.rounding import fixed
from turbomath.units.shop import fahrenheit, psi
from turbomath.units.shown import shown, words
from turbomath.widgets.answers import Answer, Table, readout
from turbomath.widgets.controls import Control
from turbomath.widgets.engines import engine
from turbomath.widgets.panel import Panel

BAROMETER = units.to_si(14.2, "psi abs", "barometer")
A = {"boost": psi(20.0), "manifold_temperature": fahrenheit(300.0)}
B = {"boost": psi(15.0), "manifold_temperature": fahrenheit(120.0)}
CONTROLS = (
    Control("boost", A["boost"], 0.0, psi(40.0)),
    Control("manifold_temperature", A["manifold_temperature"], 283.15, 473.15, held=True),
    Control("barometer", BAROMETER, locked=True, us="psi abs", si="kPa abs"),
)
_BOX = {"us": "a cubic foot", "si": "a cubic metre"}
_MASS = {"us": "lb", "si": "kg"}


def panel() -> Panel:
    """Return the live panel of the lesson."""
    return Panel(LESSON.words["hot_air_is_thin"].sheet(CONTROLS, answer, _outcome, {"a": A, "b": B}, judges=JUDGES))


def less_boost_as_dense_as_a(controls: Any) -> bool:
    """Return whether the manifold has less boost than A and holds as much air, to 1 %."""
    (*_, a), (*_, yours) = _state(A, controls), _state(controls._asdict(), controls)
    return controls.boost < A["boost"] - psi(0.5) and abs(yours / a - 1) <= 0.01


JUDGES = {"less_boost_as_dense_as_a": less_boost_as_dense_as_a}


def answer(controls: Any, system: str) -> Answer:
    """Return what the panel shows: a chart, boxes of dots, a sentence, five read-outs and two tables."""
    pressure, temperature = controls.boost + controls.barometer, controls.manifold_temperature
    if pressure <= 0:
        said, least = words("boost", controls.boost, system), words("boost", controls.barometer, system)
        raise OutOfRangeError(f"{said} on the gauge is below a full vacuum, which here reads −{least}. Set more boost.")
    cases = (
        ("hot", "A", *_state(A, controls)),
        ("cooled", "B", *_state(B, controls)),
        ("measured", "yours", *_state(controls._asdict(), controls)),
    )
    a, b, yours = (case[-1] for case in cases)
    points = [case[:4] for case in cases]
    x, y = axes(CONTROLS[1].range, CONTROLS[0].range, points, system)
    equal = equal_density.lines(controls.barometer, x, y, system)
    chart = picture_equal_density(x, y, equal, points, system, held=controls.held)
    boxes = picture_box_of_air([(role, label, density) for role, label, _, _, density in cases], system)
    readouts = (
        readout("absolute pressure", "manifold_pressure", pressure, system),
        readout("absolute temperature", "manifold_temperature", temperature, system, {"us": "°R", "si": "K"}[system]),
        readout("density", "manifold_density", yours, system),
        readout("against A", "density_gain", yours / a - 1, system),
        readout("against B", "density_gain", yours / b - 1, system),
    )
    lines = Table("Boost that gives each density", *equal_density.table(controls.barometer, x, y, system))
    sentence, table = _sentence(controls, yours, a, b, system), _table(cases, controls, system)
    engines = tuple(_engine(label, case, controls, system) for label, case in (("yours", controls._asdict()), ("B", B)))
    return Answer((chart, boxes), sentence, readouts, (table, lines), ("yours",), engines)


def _engine(label, case, controls, system):
    """The manifold and what fills it; the air outside is drawn as crowded as air is, and nothing is said of it."""
    there = case["boost"] + controls.barometer, case["manifold_temperature"]
    outside = controls.barometer, math.nan
    stations = {"ambient": outside, "compressor_inlet": outside, "compressor_outlet": there, "manifold": there}
    title = f"{label}: {words('boost', case['boost'], system)} at {words('manifold_temperature', there[1], system)}"
    return engine(title, system, stations, silent=("compressor_inlet", "compressor_outlet"))


def _state(case, controls):
    temperature, boost = case["manifold_temperature"], case["boost"]
    return temperature, boost, charge.density(boost + controls.barometer, temperature)


def _sentence(controls, yours, a, b, system):
    mass = shown("manifold_density", yours, system)[0]
    place = (
        f"At {words('boost', controls.boost, system)} of boost and "
        f"{words('manifold_temperature', controls.manifold_temperature, system)}"
    )
    return (
        f"{place}, {_BOX[system]} of manifold holds {mass} {_MASS[system]} of air: "
        f"{_against(yours / a - 1, 'A')}, {_against(yours / b - 1, 'B')}."
    )


def _against(gain, label):
    size = fixed(abs(gain) * 100, 1)
    if size == "0.0":
        return f"as much as {label}"
    return f"{size} % {'more' if gain > 0 else 'less'} than {label}"


def _table(cases, controls, system):
    columns = (
        ("boost", "boost"),
        ("absolute pressure", "manifold_pressure"),
        ("temperature", "manifold_temperature"),
        ("density", "manifold_density"),
    )
    heads = tuple(f"{head} [{units.display(name, system)}]" for head, name in columns)
    rows = []
    for _, label, temperature, boost, density in cases:
        values = (boost, boost + controls.barometer, temperature, density)
        rows.append((label, *(shown(name, value, system)[0] for (_, name), value in zip(columns, values, strict=True))))
    return Table("The same in numbers", ("manifold", *heads), tuple(rows))


def _outcome(system):
    a, b = (charge.density(case["boost"] + BAROMETER, case["manifold_temperature"]) for case in (A, B))
    first, second = (words("manifold_density", density, system) for density in (a, b))
    return {"a": first, "b": second}
