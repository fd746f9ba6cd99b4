"""Lesson 07: one engine at sea level and at your site; what the gauge, the compressor and the manifold say there."""

import functools
from typing import Any

import numpy as np

from turbomath import units
from turbomath.air import choose
from turbomath.engine import path
from turbomath.panels.altitude_heat_humidity import LESSON
from turbomath.panels.altitude_heat_humidity.picture_two_sites import SITES, Bars, picture_two_sites
from turbomath.physics import atmosphere
from turbomath.pictures.air_path import picture_air_path
from turbomath.pictures.pressure_columns import Block, Column
from turbomath.table.constants import STANDARD_PRESSURE
from turbomath.table.errors import OutOfRangeError
from turbomath.table.records import each_point
from turbomath.units import to_si
from turbomath.units.rounding import NO_VALUE, fixed
from turbomath.units.shop import fahrenheit, psi
from turbomath.units.shown import RISE, shown, words
from turbomath.widgets.answers import Answer, Readout, Table, readout
from turbomath.widgets.cases import Cases, in_columns
from turbomath.widgets.controls import Choice, Control, at_start
from turbomath.widgets.panel import Panel

GAUGE, PRESSURE, RATIO = "gauge boost", "manifold absolute pressure", "pressure ratio"
HOLDS = tuple((one, one) for one in (GAUGE, PRESSURE, RATIO))
SEA_TEMPERATURE = fahrenheit(77.0)  # and dry
LIMIT = 3.2  # pressure ratio that the INVENTED compressor may reach
MOST = psi(60.0)
PERFECT = choose("perfect")
QUESTION = {"boost": psi(25.0), "intake_restriction": 0.0, "cooler_pressure_loss": 0.0}
WORKED = {
    "boost": psi(24.0),
    "intake_restriction": to_si(12.0, "inH2O", "intake_restriction"),
    "cooler_pressure_loss": psi(1.5),
}
CASES = {"the_question": QUESTION, "the_worked_engine": WORKED}


def controls_from(hold: str) -> tuple[Control | Choice, ...]:
    """Return the controls, with what is held at both places at the start."""
    return (
        Control("elevation", *(to_si(feet, "ft", "elevation") for feet in (5280.0, 0.0, 10_000.0))),
        Control("ambient_temperature", SEA_TEMPERATURE, *(fahrenheit(end) for end in (-30, 120))),
        Control("boost", QUESTION["boost"], 0.0, psi(40.0)),
        Choice("hold", "same in both", HOLDS, hold),
        Control("relative_humidity", 0.0, more=True),
        Control("effectiveness", 0.80, more=True),
        Control("compressor_efficiency", 0.74, more=True),
        Control("intake_restriction", QUESTION["intake_restriction"], more=True),
        Control("cooler_pressure_loss", QUESTION["cooler_pressure_loss"], more=True),
    )


def panel() -> Panel:
    """Return the live panel of the same manifold pressure in thinner air."""
    return Panel(
        LESSON.words["same_manifold_pressure"].sheet(
            controls_from(PRESSURE), answer, _outcome, CASES, together=both.together
        )
    )


def answer(controls: Any, system: str) -> Answer:
    """Return what the panel shows: sea level beside the site in a picture, a sentence, five read-outs and a table."""
    sea, site = places(controls, system)
    more = float(site.manifold_dry_air_density / sea.manifold_dry_air_density - 1)
    readouts = (
        readout("on the gauge", "boost", gauge(site), system),
        Readout("pressure ratio", fixed(float(site.pressure_ratio), 2), ""),
        readout("compressor outlet", "compressor_outlet_temperature", site.compressor_outlet_temperature, system),
        readout("dry air", "manifold_dry_air_density", site.manifold_dry_air_density, system),
        Readout("against sea level", fixed(100 * more, 1), "%"),
    )
    picture = _picture(sea, site, system)
    columns = Table(picture.title, picture.heads, picture.rows)
    medium = {"sea level": SEA_TEMPERATURE, "your site": controls.ambient_temperature}
    engines = tuple(
        picture_air_path(name.capitalize(), one, "air-to-air", system, medium_temperature=medium[name])
        for name, one in {"your site": site, "sea level": sea}.items()
    )
    tables = (_table(sea, site, system), columns)
    return Answer((picture,), _sentence(controls, site, more, system), readouts, tables, engines=engines)


def places(controls: Any, system: str) -> tuple[path.ChargePath, path.ChargePath]:
    """Return the `ChargePath` at sea level, on a dry day of 77 °F, and the one at the site."""
    _refuse_vacuum(controls, min(atmosphere.pressure(controls.elevation), STANDARD_PRESSURE), system)
    return both(controls)


def _case(controls):
    """Return what the air path is asked at sea level and at the site."""
    station = atmosphere.pressure(controls.elevation)
    sea = STANDARD_PRESSURE + controls.boost + controls.cooler_pressure_loss
    ratio = sea / (STANDARD_PRESSURE - controls.intake_restriction)
    outlet = {
        GAUGE: sea + station - STANDARD_PRESSURE,
        PRESSURE: sea,
        RATIO: ratio * (station - controls.intake_restriction),
    }[controls.hold]
    if min(sea, outlet, outlet - controls.cooler_pressure_loss) <= 0:
        raise OutOfRangeError("that leaves no pressure in the manifold. Set more boost or less pressure loss.")
    own = tuple(getattr(controls, name) for name in _OF_BOTH)
    return (
        (*own, STANDARD_PRESSURE, SEA_TEMPERATURE, sea, 0.0),
        (*own, station, controls.ambient_temperature, outlet, controls.relative_humidity),
    )


_OF_BOTH = ("compressor_efficiency", "intake_restriction", "effectiveness", "cooler_pressure_loss")


def _both(cases):
    return [_dense(pair) for pair in zip(*(_paths(column) for column in zip(*cases, strict=True)), strict=True)]


def _paths(cases):
    efficiency, restriction, effectiveness, loss, barometer, temperature, outlet, humidity = in_columns(cases)
    return each_point(
        path.charge_path(
            ambient_pressure=barometer,
            ambient_temperature=temperature,
            compressor_outlet_pressure=outlet,
            isentropic_efficiency=efficiency,
            intake_restriction=restriction,
            effectiveness=effectiveness,
            cooler_pressure_loss=loss,
            relative_humidity=humidity,
            air=PERFECT,
        )
    )


def _dense(pair):
    if all(one.manifold_dry_air_density > 0 for one in pair):
        return pair
    return OutOfRangeError("air that hot, cold or thin cannot be worked out. Set numbers of this lesson's range.")


both = Cases(_case, _both)  # for a record of controls what `places` returns


def gauge(place: path.ChargePath) -> Any:
    """Return what the boost gauge shows at a place [Pa]."""
    return place.manifold_pressure - place.ambient_pressure


def _refuse_vacuum(controls, barometer, system):
    if controls.intake_restriction >= barometer:
        raise OutOfRangeError("that intake restriction is more than the whole barometer. Set less.")
    if controls.boost + STANDARD_PRESSURE <= 0:
        raise OutOfRangeError(
            f"{words('boost', controls.boost, system)} on the gauge is below a full vacuum. Set more boost."
        )


def _picture(sea, site, system):
    columns = tuple(
        Column(
            name,
            (Block("ambient", "outside", one.ambient_pressure), Block("hot", "boost", gauge(one))),
            (words("pressure", one.manifold_pressure, system),),
        )
        for name, one in zip(SITES, (sea, site), strict=True)
    )
    ends = fahrenheit(np.array([-40.0, 450.0]))
    bars = (
        Bars(
            f"pressure ratio; INVENTED limit {LIMIT}",
            "hot",
            *_pair(sea, site, "pressure_ratio", system),
            (0.0, 4.0),
            LIMIT,
        ),
        Bars(
            "from outside air to compressor outlet",
            "hot",
            *_pair(sea, site, "compressor_outlet_temperature", system, "ambient_temperature"),
            tuple(_number("manifold_temperature", end, system) for end in ends),
        ),
        Bars(
            "dry air in the manifold",
            "cooled",
            *_pair(sea, site, "manifold_dry_air_density", system),
            (0.0, _number("manifold_dry_air_density", 4.0, system)),
        ),
    )
    return picture_two_sites(
        "Absolute pressure, counted from vacuum, and what it takes", columns, bars, system, most=MOST
    )


def _pair(sea, site, name, system, begin=None):
    """Return the ends of two bars in the unit shown, and their words."""
    values = [getattr(one, name) for one in (sea, site)]
    begins = [_number(begin, getattr(one, begin), system) if begin else 0.0 for one in (sea, site)]
    spans = tuple((first, _number(name, value, system)) for first, value in zip(begins, values, strict=True))
    told = tuple(fixed(value, 2) if name == "pressure_ratio" else words(name, value, system) for value in values)
    return spans, told


def _number(name, value, system):
    return float(units.from_si(value, units.display(name, system), name))


def _sentence(controls, site, more, system):
    place, boost = words("elevation", controls.elevation, system), words("boost", gauge(site), system)
    pressure, ratio = words("pressure", site.manifold_pressure, system), fixed(site.pressure_ratio, 2)
    hot = words("compressor_outlet_temperature", site.compressor_outlet_temperature, system)
    told = {
        GAUGE: f"{boost} on the gauge is {pressure}: pressure ratio {ratio}, and {_against(more)}.",
        PRESSURE: f"{pressure} takes {boost} on the gauge: pressure ratio {ratio}, and the air leaves at {hot}.",
        RATIO: f"the pressure ratio of {ratio} leaves {boost} on the gauge, and {_against(more)}.",
    }[controls.hold]
    return f"At {place}, {told}{' Past the limit.' if site.pressure_ratio > LIMIT else ''}"


def _against(more):
    size = fixed(100 * abs(more), 1)
    if size == "0.0":
        return "as much dry air as at sea level"
    return f"{size} % {'less' if more < 0 else 'more'} dry air than at sea level"


_ROWS = (
    ("barometer", "ambient_pressure"),
    ("manifold, absolute", "manifold_pressure"),
    ("pressure ratio", "pressure_ratio"),
    ("outside air", "ambient_temperature"),
    ("compressor outlet", "compressor_outlet_temperature"),
    ("manifold", "manifold_temperature"),
    ("water with the air", "humidity_ratio"),
    ("dry air outside", None),
    ("dry air in the manifold", "manifold_dry_air_density"),
)


def _table(sea, site, system):
    rows = [
        (
            "on the gauge",
            *(words("boost", gauge(one), system) for one in (sea, site)),
            _change("boost", gauge(sea), gauge(site), system),
        )
    ]
    for label, name in _ROWS:
        values = [
            one.ambient_density / (1 + one.humidity_ratio) if name is None else getattr(one, name)
            for one in (sea, site)
        ]
        name = name or "manifold_dry_air_density"
        told = [fixed(one, 2) if name == "pressure_ratio" else words(name, one, system) for one in values]
        rows.append((label, *told, _change(name, *values, system)))
    return Table("Sea level beside your site", ("", *SITES, "change"), tuple(rows))


def _change(name, before, after, system):
    """Return a change as text: degrees for a temperature, per cent for the rest."""
    if name.endswith("temperature"):
        return " ".join(shown("temperature_rise", after - before, system, RISE[system]))
    return f"{fixed(100 * (after / before - 1), 1)} %" if before > 0 else NO_VALUE


@functools.cache
def _outcome(system):
    sea, site = places(at_start(controls_from(PRESSURE)), system)
    ratios = [fixed(one.pressure_ratio, 2) for one in (sea, site)]
    hot = [words("compressor_outlet_temperature", one.compressor_outlet_temperature, system) for one in (sea, site)]
    return {
        "boost": words("boost", gauge(site), system),
        "sea_ratio": ratios[0],
        "site_ratio": ratios[1],
        "sea_outlet": hot[0],
        "site_outlet": hot[1],
    }
