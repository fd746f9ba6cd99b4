"""Lesson 01: the same gauge reading at sea level and up high. A gauge counts from the barometer, air from vacuum."""

from typing import Any

from turbomath.panels.gauge_and_absolute import LESSON
from turbomath.physics import atmosphere
from turbomath.pictures.pressure_columns import Block, Column, picture_pressure_columns
from turbomath.table.errors import OutOfRangeError
from turbomath.units import to_si
from turbomath.units.rounding import fixed
from turbomath.units.shop import psi
from turbomath.units.shown import words
from turbomath.widgets.answers import Answer, Readout, readout
from turbomath.widgets.controls import Choice, Control, at_start
from turbomath.widgets.panel import Panel

STATION, CORRECTED = "station", "corrected"
BAROMETERS = ((STATION, "open, in your shop"), (CORRECTED, "sea-level-corrected"))
BOOST = psi(25.0)
MOST = psi(60.0)
CONTROLS = (
    Control("elevation", *(to_si(feet, "ft", "elevation") for feet in (5280.0, 0.0, 10_000.0))),
    Control("boost", BOOST, 0.0, psi(40.0)),
    Control("intake_restriction", to_si(12.0, "inH2O", "intake_restriction")),
    Choice("taken", "barometer taken", BAROMETERS, STATION),
    Control("sea_level_pressure", to_si(101.325, "kPa", "sea_level_pressure"), more=True),
)


def panel() -> Panel:
    """Return the live panel of one gauge reading in two places."""
    return Panel(LESSON.words["gauge_and_absolute"].sheet(CONTROLS, answer, _outcome))


def answer(controls: Any, system: str) -> Answer:
    """Return what the panel shows: columns of pressure, a sentence, five read-outs."""
    station = station_barometer(controls)
    here, sea = station + controls.boost, controls.sea_level_pressure + controls.boost
    inlet, reckoned = station - controls.intake_restriction, _taken(controls, station) + controls.boost
    refuse_vacuum(controls, station, system)
    readouts = (
        readout("open barometer", "barometer", station, system),
        readout("the same", "pressure", station, system),
        readout("manifold", "manifold_pressure", here, system),
        Readout("against sea level", fixed(100 * (here / sea - 1), 1), "%"),
        readout("compressor inlet", "compressor_inlet_pressure", inlet, system),
    )
    picture = _picture(controls, (sea, here, reckoned, inlet), station, system)
    return Answer((picture,), _sentence(controls, (sea, here, reckoned), station, system), readouts)


def station_barometer(controls: Any) -> Any:
    """Return what an open barometer reads at the elevation set [Pa]: the ratio of the standard atmosphere."""
    return atmosphere.station_pressure(controls.sea_level_pressure, controls.elevation)


def refuse_vacuum(controls: Any, barometer: float, system: str) -> None:
    """Refuse a boost or an intake restriction that would leave less than no air."""
    if controls.boost + barometer <= 0:
        raise OutOfRangeError(
            f"{words('boost', controls.boost, system)} on the gauge is below a full vacuum. Set more boost."
        )
    if controls.intake_restriction >= barometer:
        raise OutOfRangeError("that intake restriction is more than the whole barometer. Set less.")


def _taken(controls, station):
    return station if controls.taken == STATION else controls.sea_level_pressure


def _picture(controls, pressures, station, system):
    sea, here, reckoned, inlet = pressures
    boost, outside = Block("hot", "boost", controls.boost), "barometer"
    filtered = Block("ambient", "inlet", inlet)
    columns = (
        Column("sea level", (Block("ambient", outside, controls.sea_level_pressure), boost), (_absolute(sea, system),)),
        Column("your shop", (Block("ambient", outside, station), boost), (_absolute(here, system),)),
        Column(
            "as you reckon it",
            (Block("ambient", outside, _taken(controls, station)), boost),
            (_absolute(reckoned, system), _error(reckoned - here, system)),
        ),
        Column("compressor inlet", (filtered,), (_absolute(inlet, system), "behind the filter")),
    )
    return picture_pressure_columns("Absolute pressure, counted from vacuum", columns, system, most=MOST, rise=(1, 2))


def _absolute(pressure, system):
    return words("pressure", pressure, system)


def _error(size, system):
    said = words("cooler_pressure_loss", abs(size), system)
    if said.startswith("0.0 "):
        return "no error"
    return f"{said} too {'high' if size > 0 else 'low'}"


def _sentence(controls, pressures, station, system):
    sea, here, reckoned = pressures
    if controls.taken == CORRECTED:
        report, share = words("barometer", controls.sea_level_pressure, system), 100 * abs(reckoned / here - 1)
        return (
            f"The weather report's {report} makes it {_absolute(reckoned, system)}. The manifold holds "
            f"{_absolute(here, system)}: {_error(reckoned - here, system)}, or {fixed(share, 1)} %."
        )
    size = fixed(100 * abs(here / sea - 1), 1)
    against = "as at sea level" if size == "0.0" else f"{size} % {'less' if here < sea else 'more'} than at sea level"
    return (
        f"At {words('elevation', controls.elevation, system)} with {words('boost', controls.boost, system)} on the "
        f"gauge, the manifold holds {_absolute(here, system)}: {against}."
    )


def _outcome(system):
    start = at_start(CONTROLS)
    here, sea = station_barometer(start) + start.boost, start.sea_level_pressure + start.boost
    return {
        "here": _absolute(here, system),
        "sea": _absolute(sea, system),
        "less": fixed(100 * (1 - here / sea), 1),
    }
