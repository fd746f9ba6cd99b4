"""Lesson 01, third panel: the pressure ratio is outlet over inlet, both absolute. Boost over barometer is not it."""

import math
from typing import Any

from turbomath.panels.gauge_and_absolute import LESSON
from turbomath.panels.gauge_and_absolute.two_places import MOST, refuse_vacuum
from turbomath.physics import compression
from turbomath.pictures.pressure_columns import Block, Column, picture_pressure_columns
from turbomath.units import to_si
from turbomath.units.rounding import fixed
from turbomath.units.shop import psi
from turbomath.units.shown import words
from turbomath.widgets.answers import Answer, Readout, Table, readout
from turbomath.widgets.controls import Control, at_start
from turbomath.widgets.engines import engine
from turbomath.widgets.panel import Panel

CONTROLS = (
    Control("boost", psi(24.0), 0.0, psi(40.0)),
    Control("barometer", to_si(29.10, "inHg", "barometer")),
    Control("intake_restriction", to_si(12.0, "inH2O", "intake_restriction")),
    Control("cooler_pressure_loss", *(psi(number) for number in (1.5, 0.0, 4.0))),
)


def panel() -> Panel:
    """Return the live panel of the pressure ratio."""
    return Panel(LESSON.words["pressure_ratio"].sheet(CONTROLS, answer, _outcome))


def stations(controls: Any) -> tuple[float, float]:
    """Return the absolute pressure at the compressor inlet and outlet [Pa]."""
    return (
        controls.barometer - controls.intake_restriction,
        controls.barometer + controls.boost + controls.cooler_pressure_loss,
    )


def ratios(controls: Any) -> tuple[tuple[str, float], ...]:
    """Return (what was divided, the ratio) of the right way, then of the usual wrong ones."""
    inlet, outlet = stations(controls)
    manifold = controls.barometer + controls.boost
    return (
        ("outlet ÷ inlet, both absolute", compression.pressure_ratio(inlet, outlet)),
        ("boost ÷ barometer", controls.boost / controls.barometer),
        ("manifold ÷ barometer", manifold / controls.barometer),
        ("outlet ÷ barometer, no restriction", outlet / controls.barometer),
        ("manifold ÷ inlet, no aftercooler loss", manifold / inlet),
    )


def answer(controls: Any, system: str) -> Answer:
    """Return what the panel shows: inlet and outlet as columns, the ratio, and what the usual slips make of it."""
    refuse_vacuum(controls, controls.barometer, system)
    inlet, outlet = stations(controls)
    (_, right), (_, slip), *_ = ratios(controls)
    readouts = (
        readout("inlet", "compressor_inlet_pressure", inlet, system),
        Readout("outlet", *_absolute(outlet, system).split(" ", 1)),
        Readout("pressure ratio", fixed(right, 2), ""),
        Readout("boost ÷ barometer", fixed(slip, 2), ""),
    )
    sentence = (
        f"In at {_absolute(inlet, system)}, out at {_absolute(outlet, system)}: pressure ratio "
        f"{fixed(right, 2)}. Boost ÷ barometer is {fixed(slip, 2)}, which is no pressure ratio."
    )
    table = Table(
        "What was divided by what",
        ("ratio", "value"),
        tuple((name, fixed(value, 2)) for name, value in ratios(controls)),
    )
    picture = _picture(controls, inlet, outlet, system)
    columns = Table(picture.title, picture.heads, picture.rows)
    return Answer((picture,), sentence, readouts, (table, columns), engines=(_engine(controls, inlet, outlet, system),))


def _engine(controls, inlet, outlet, system):
    """The pressures at each station, filled with air of one temperature: of heat this lesson says nothing yet."""
    pressures = {
        "ambient": controls.barometer,
        "compressor_inlet": inlet,
        "compressor_outlet": outlet,
        "manifold": controls.barometer + controls.boost,
    }
    stations = {name: (pressure, math.nan) for name, pressure in pressures.items()}
    cooled = "air-to-air" if controls.cooler_pressure_loss else "none"
    return engine("The pressures along the air path", system, stations, aftercooler=cooled, speaks=None)


def _absolute(pressure, system):
    return words("pressure", pressure, system)


def _picture(controls, inlet, outlet, system):
    boost = Block("hot", "boost", controls.boost)
    columns = (
        Column("compressor inlet", (Block("ambient", "inlet", inlet),), (_absolute(inlet, system),)),
        Column(
            "compressor outlet",
            (
                Block("ambient", "barometer", controls.barometer),
                boost,
                Block("hot", "aftercooler loss", controls.cooler_pressure_loss),
            ),
            (_absolute(outlet, system),),
        ),
        Column(
            "boost taken alone", (boost,), (f"{words('boost', controls.boost, system)} on the gauge", "not from vacuum")
        ),
    )
    return picture_pressure_columns(
        "The outlet, counted in heights of the inlet", columns, system, most=MOST, times=inlet
    )


def _outcome(system):
    right, slip, *_ = (fixed(value, 2) for _, value in ratios(at_start(CONTROLS)))
    inlet, outlet = (_absolute(pressure, system) for pressure in stations(at_start(CONTROLS)))
    return {"ratio": right, "outlet": outlet, "inlet": inlet, "slip": slip}
