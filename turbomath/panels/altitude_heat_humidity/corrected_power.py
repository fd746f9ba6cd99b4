"""Lesson 07, last panel: what three standards make of a power on this day, how far they go, and when not to."""

import warnings
from collections import namedtuple
from typing import Any

import numpy as np
from numpy.typing import NDArray

from turbomath.panels.altitude_heat_humidity import LESSON
from turbomath.panels.altitude_heat_humidity.picture_power_factors import picture_power_factors
from turbomath.physics import correction, fuel, humidity
from turbomath.table.errors import OutOfRangeError, RangeWarning, unwarned
from turbomath.units import to_si
from turbomath.units.rounding import NO_VALUE, fixed
from turbomath.units.shop import fahrenheit, psi
from turbomath.units.shown import words
from turbomath.widgets.answers import Answer, Readout, Table, readout
from turbomath.widgets.asking import sentence
from turbomath.widgets.controls import Choice, Control, at_start
from turbomath.widgets.panel import Panel

DISPLACEMENT, ENGINE_SPEED = 0.0120, 30.0  # m^3 and rev/s of the INVENTED engine
NONE, TURBO, COOLED = "naturally aspirated", "turbocharged", "turbocharged and aftercooled"
ENGINES = ((COOLED, "turbocharged, air-to-air"), (TURBO, "turbocharged, no aftercooler"), (NONE, NONE))
PUMP, HOLDS = "pump", "holds"
CONTROLS_OF = ((PUMP, "by the pedal alone"), (HOLDS, "by controls that hold the power"))
ISO3046 = {NONE: "naturally aspirated, excess air", TURBO: TURBO, COOLED: COOLED}
CONTROLS = (
    Control("barometer", to_si(24.64, "inHg", "barometer")),
    Control("ambient_temperature", *(fahrenheit(end) for end in (77.0, -30.0, 120.0))),
    Control("relative_humidity", 0.30),
    Choice("fuel", "fuel is set", CONTROLS_OF, PUMP),
    Choice("engine", "engine", ENGINES, COOLED, more=True),
    Control("power", to_si(390.0, "hp", "power"), 0.0, to_si(600.0, "hp", "power"), more=True),
    Control("fuel_flow", to_si(132.0, "lb/h", "fuel_flow"), to_si(20.0, "lb/h", "fuel_flow"), more=True),
    Control("boost", psi(24.0), 0.0, psi(40.0), more=True),
)
ISO1585, J1349 = "ISO 1585", "SAE J1349"
STANDARDS = {
    ISO1585: "measured here, to its day",
    J1349: "measured here, to its day",
    "ISO 3046-1, to here": "declared on its day, to here",
}
_LIMITS = dict.fromkeys((ISO1585, J1349), "within")
Found = namedtuple("Found", "name direction factor beyond")  # beyond: the words on why it does not go so far


def panel() -> Panel:
    """Return the live panel of corrected power."""
    return Panel(LESSON.words["corrected_power"].sheet(CONTROLS, answer, _outcome))


def answer(controls: Any, system: str) -> Answer:
    """Return what the panel shows: three factors against the barometer, a sentence, read-outs and a table."""
    found = standards(controls)
    barometers = np.linspace(60e3, 106e3, 93)
    lines = [
        (role, name, line)
        for role, (name, line) in zip(
            ("measured", "ambient", "theory"), along(controls, barometers).items(), strict=True
        )
    ]
    here = controls.barometer, [one.factor for one in found if not one.beyond]
    factors = [Readout(one.name, NO_VALUE if one.beyond else fixed(one.factor, 3), "") for one in found]
    readouts = (
        readout("power", "power", controls.power, system),
        readout("dry barometer", "dry_pressure", float(_dry_pressure(controls)), system),
        *factors,
    )
    return Answer(
        (picture_power_factors(barometers, lines, here, system),),
        _sentence(controls, found, system),
        readouts,
        (_table(controls, found, system),),
        own=("yours",),
    )


def standards(controls: Any) -> tuple[Found, ...]:
    """Return what each standard makes of the day: its factor and, where it does not go so far, its own words."""
    if not controls.barometer > _vapour_pressure(controls):
        raise OutOfRangeError("vapour alone would make up the whole barometer. Set a lower temperature.")
    found = []
    for (name, direction), factor in zip(STANDARDS.items(), _FACTORS, strict=True):
        with warnings.catch_warnings(record=True) as caught:
            warnings.simplefilter("always", RangeWarning)
            value = factor(controls)
        found.append(Found(name, direction, value, tuple(str(one.message) for one in caught)))
    *two, last = found
    return (*two, last if last.factor > 0 else last._replace(beyond=("no power would be left.",)))


def along(controls: Any, barometers: NDArray) -> dict[str, NDArray]:
    """Return the factors of each standard along barometers by its name, `nan` where it does not go so far."""
    line = controls._replace(barometer=barometers)
    dry = _dry_pressure(line)
    with unwarned():  # the line ends there instead
        found = dict(zip(STANDARDS, (np.asarray(factor(line)) for factor in _FACTORS), strict=True))
    for name in (ISO1585, J1349):
        there = (
            _within(dry, correction.VALID_DRY_PRESSURE)
            & _within(found[name], correction.VALID_FACTOR)
            & _within(controls.ambient_temperature, correction.VALID_TEMPERATURE)
        )
        found[name] = np.where(there, found[name], np.nan)
    return found


def _within(values, ends):
    return (ends[0] <= values) & (values <= ends[1])


def _vapour_pressure(controls):
    return controls.relative_humidity * humidity.saturation_pressure(controls.ambient_temperature)


def _dry_pressure(controls):
    dry = controls.barometer - _vapour_pressure(controls)
    return np.where(dry > 0, dry, np.nan)


def _load(controls):
    """Return what the standards ask of the engine: how much fuel for how much charge."""
    boosted = controls.engine != NONE
    return {
        "aspiration": TURBO if boosted else NONE,
        "fuel_delivery": fuel.fuel_delivery(controls.fuel_flow, DISPLACEMENT, ENGINE_SPEED),
        "pressure_ratio": 1 + controls.boost / controls.barometer if boosted else 1.0,
    }


def _iso1585(controls):
    return correction.iso1585_factor(_dry_pressure(controls), controls.ambient_temperature, **_load(controls))


def _j1349(controls):
    return correction.j1349_factor(
        _dry_pressure(controls),
        controls.ambient_temperature,
        **_load(controls),
        aftercooler="air-to-air" if controls.engine == COOLED else "none",
    )


def _iso3046(controls):
    return correction.iso3046_power(
        1.0,
        controls.barometer,
        controls.ambient_temperature,
        engine=ISO3046[controls.engine],
        site_vapour_pressure=_vapour_pressure(controls),
    )


_FACTORS = (_iso1585, _j1349, _iso3046)


def _sentence(controls, found, system):
    power = words("power", controls.power, system)
    if controls.fuel == HOLDS:
        return (
            f"The controls held {power}: there is nothing to correct. Report it with the day; a factor on top "
            "corrects twice."
        )
    iso, sae, site = found
    if iso.beyond or sae.beyond:
        one = iso if iso.beyond else sae
        return f"{one.name}: {one.beyond[0]} Report {power} and the day as they are."
    brought, other, left = (words("power", one.factor * controls.power, system) for one in found)
    last = "" if site.beyond else f" Declared at {power}, by ISO 3046-1 it is {left} here."
    return f"{power} measured here is {brought} by ISO 1585, {other} by SAE J1349.{last}"


def _table(controls, found, system):
    rows = tuple(
        (
            one.name,
            one.direction,
            fixed(one.factor, 3),
            NO_VALUE if one.beyond else words("power", one.factor * controls.power, system),
            " ".join(map(sentence, one.beyond)) or _LIMITS.get(one.name, "this kit knows none"),
        )
        for one in found
    )
    heads = ("standard", "brings a power", "factor", f"{words('power', controls.power, system)} becomes", "limits")
    return Table("Three standards on this day", heads, rows)


def _outcome(system):
    start = at_start(CONTROLS)
    factor = standards(start)[0].factor
    return {
        "power": words("power", start.power, system),
        "factor": fixed(factor, 3),
        "promised": words("power", factor * start.power, system),
    }
