"""Lesson 06, second panel: volumetric efficiency from a measured air flow, and which density it stands on."""

from dataclasses import replace
from typing import Any

import numpy as np

from turbomath.panels.air_fuel_and_power import LESSON
from turbomath.panels.air_fuel_and_power.swallow import (
    AMBIENT,
    BAROMETER,
    BOOST,
    DISPLACEMENT,
    MANIFOLD,
    SPEED,
    ambient_density,
    manifold_pressure,
)
from turbomath.physics import airflow, charge
from turbomath.pictures.bar_scales import FLOW
from turbomath.pictures.lying_bars import picture_lying_bars
from turbomath.units.rounding import NO_VALUE, fixed
from turbomath.units.shop import pounds_per_minute
from turbomath.widgets.answers import Answer, Readout, Table, readout
from turbomath.widgets.controls import Control, at_start
from turbomath.widgets.panel import Panel

USUAL = (0.85, 0.98)  # on manifold density, at load (common practice)
MOST = 1.1  # more than this can hardly be (common practice)
CONTROLS = (
    Control("mass_flow", pounds_per_minute(58.0), 0.0, pounds_per_minute(110.0), us="lb/min", si="kg/min"),
    MANIFOLD,
    BOOST,
    SPEED,
    replace(DISPLACEMENT, more=True),
    BAROMETER,
    AMBIENT,
)


def panel() -> Panel:
    """Return the live panel of volumetric efficiency."""
    return Panel(LESSON.words["filling"].sheet(CONTROLS, answer, _outcome))


def answer(controls: Any, system: str) -> Answer:
    """Return what the panel shows: three bars of air, whether the efficiency can be, read-outs and a table."""
    full, outside = brimful(controls)
    on_manifold, on_ambient = efficiencies(controls)
    bars = (
        ("cooled", "full of manifold air", full),
        ("measured", "measured", controls.mass_flow),
        ("ambient", "full of outside air", outside),
    )
    picture = picture_lying_bars(
        "What the cylinders could take, and what they took", (FLOW.group_of("air", bars, system),)
    )
    readouts = (
        readout("full", FLOW, full, system),
        readout("measured", FLOW, controls.mass_flow, system),
        Readout("on manifold density", _number(on_manifold), ""),
        Readout("on density outside", _number(on_ambient), ""),
    )
    return Answer((picture,), _sentence(on_manifold, on_ambient), readouts, (_table(controls, system),))


def brimful(controls: Any) -> tuple[float, float]:
    """Return the mass flow [kg/s] of cylinders filled to the brim with manifold air, and with outside air."""
    return tuple(
        airflow.mass_flow(one, controls.displacement, controls.engine_speed, 1.0) for one in _densities(controls)
    )


def efficiencies(controls: Any) -> tuple[float, float]:
    """Return the volumetric efficiency on manifold density and on the density outside."""
    return tuple(
        airflow.volumetric_efficiency(controls.mass_flow, one, controls.displacement, controls.engine_speed)
        for one in _densities(controls)
    )


def _densities(controls):
    return charge.density(manifold_pressure(controls), controls.manifold_temperature), ambient_density(controls)


def _number(efficiency):
    return fixed(efficiency, 2) if np.isfinite(efficiency) and efficiency < 1000 else NO_VALUE


def _sentence(on_manifold, on_ambient):
    if not np.isfinite(on_manifold):
        return "An engine that stands still draws nothing: there is no efficiency to tell."
    low, high = (fixed(end, 2) for end in USUAL)
    told = f"Volumetric efficiency {_number(on_manifold)} on manifold density, {_number(on_ambient)} on that outside."
    if on_manifold > MOST:
        return f"{told} The first can hardly be: is the ÷ 2 in, the boost absolute, the flow for a minute?"
    if not USUAL[0] <= on_manifold <= USUAL[1]:
        return f"{told} {low} to {high} is usual at load: look at the flow, T3 and boost again."
    return f"{told} {low} to {high} is usual on manifold density. Always say which is meant."


def _table(controls, system):
    rows = tuple(
        (name, FLOW.text(full, system), FLOW.text(controls.mass_flow, system), _number(found))
        for name, full, found in zip(("manifold", "outside"), brimful(controls), efficiencies(controls), strict=True)
    )
    heads = (
        "density taken",
        *(f"{name} [{FLOW.unit(system)}]" for name in ("full", "measured")),
        "volumetric efficiency",
    )
    return Table("Two efficiencies of one flow", heads, rows)


def _outcome(system):
    on_manifold, on_ambient = efficiencies(at_start(CONTROLS))
    return {"outside": _number(on_ambient), "manifold": _number(on_manifold)}
