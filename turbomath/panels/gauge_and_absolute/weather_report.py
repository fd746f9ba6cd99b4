"""Lesson 01, second panel: from the weather report's barometer, corrected to sea level, to the one on the bench."""

from typing import Any

import numpy as np

from turbomath import units
from turbomath.panels.gauge_and_absolute import LESSON
from turbomath.panels.gauge_and_absolute.picture_bench_barometer import picture_bench_barometer
from turbomath.panels.gauge_and_absolute.two_places import station_barometer
from turbomath.table.errors import OutOfRangeError
from turbomath.units import to_si
from turbomath.units.rounding import fixed
from turbomath.units.shop import psi
from turbomath.units.shown import words
from turbomath.widgets.answers import Answer, Readout, Table, readout
from turbomath.widgets.controls import Control, at_start
from turbomath.widgets.panel import Panel

INCH_EACH_1000_FEET = to_si(1.0, "inHg", "barometer") / to_si(
    1000.0, "ft", "elevation"
)  # Pa/m: the shop's rule of thumb
CONTROLS = (
    Control("sea_level_pressure", *(to_si(inches, "inHg", "sea_level_pressure") for inches in (30.05, 28.5, 31.0))),
    Control("elevation", *(to_si(feet, "ft", "elevation") for feet in (3550.0, 0.0, 10_000.0))),
    Control("boost", psi(24.0), 0.0, psi(40.0)),
)
PLACES = to_si(np.array([1000.0, 2200.0, 3500.0, 5280.0, 7000.0, 10_000.0]), "ft", "elevation")


def panel() -> Panel:
    """Return the live panel of the weather report and the barometer on the bench."""
    return Panel(LESSON.words["bench_barometer"].sheet(CONTROLS, answer, _outcome))


def rule_of_thumb(controls: Any) -> Any:
    """Return the barometer on the bench by the rule of thumb [Pa]: 1 inHg less for each 1000 ft."""
    return controls.sea_level_pressure - INCH_EACH_1000_FEET * controls.elevation


def errors(controls: Any) -> tuple[float, float]:
    """Return how far density outside and manifold pressure come out too high with the report's barometer [-]."""
    station, report = station_barometer(controls), controls.sea_level_pressure
    return report / station - 1, (report - station) / (station + controls.boost)


def answer(controls: Any, system: str) -> Answer:
    """Return what the panel shows: the barometer against elevation by law and by rule, and what an error costs."""
    station, rule = station_barometer(controls), rule_of_thumb(controls)
    if station + controls.boost <= 0:
        raise OutOfRangeError(
            f"{words('boost', controls.boost, system)} on the gauge is below a full vacuum. Set more boost."
        )
    heights = np.linspace(*CONTROLS[1].range, 41)
    along = controls._replace(elevation=heights)
    picture = picture_bench_barometer(
        heights,
        station_barometer(along),
        rule_of_thumb(along),
        controls.sea_level_pressure,
        (controls.elevation, station),
        system,
    )
    density, manifold = errors(controls)
    readouts = (
        readout("on the bench", "barometer", station, system),
        readout("rule of thumb", "barometer", rule, system),
        Readout("rule: off by", *_difference(rule - station, system)),
        Readout("report: density off", fixed(100 * density, 1), "%"),
        Readout("report: manifold off", fixed(100 * manifold, 1), "%"),
    )
    sentence = (
        f"{words('barometer', controls.sea_level_pressure, system)} in the report, "
        f"{words('elevation', controls.elevation, system)} up: the bench reads "
        f"{words('barometer', station, system)}. The rule of thumb says "
        f"{words('barometer', rule, system)}."
    )
    return Answer((picture,), sentence, readouts, (_table(controls, system),), own=("on your bench",))


def _difference(pressure, system):
    unit = units.display("barometer", system)
    return fixed(units.from_si(pressure, unit, "cooler_pressure_loss"), 2), unit


def _table(controls, system):
    rows = []
    for place in (*PLACES, controls.elevation):
        there = controls._replace(elevation=float(place))
        name = words("elevation", place, system) + (" (yours)" if place is controls.elevation else "")
        shares = (f"{fixed(100 * share, 1)} %" for share in errors(there))
        both = (words("barometer", pressure, system) for pressure in (station_barometer(there), rule_of_thumb(there)))
        rows.append((name, *both, *shares))
    boost = words("boost", controls.boost, system)
    heads = ("elevation", "on the bench", "rule of thumb", "density too high", f"manifold at {boost} too high")
    return Table("What the report's barometer costs where it is taken as it stands", heads, tuple(rows))


def _outcome(system):
    start = at_start(CONTROLS)
    exact, thumb = (
        words("barometer", pressure, system) for pressure in (station_barometer(start), rule_of_thumb(start))
    )
    return {"exact": exact, "thumb": thumb}
