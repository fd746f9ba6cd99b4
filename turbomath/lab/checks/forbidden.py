"""Check 40: what physics forbids, whatever else was not read.

Each law needs few readings, holds for every engine, and is broken only by more than the ± of its instruments. A law
says nothing of a row where a check with a closer range has named the same readings.
"""

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from turbomath import uncertainty, units
from turbomath.engine.charge_air import mixture
from turbomath.lab.checks.finding import Finding, spoken
from turbomath.lab.checks.fuel import AIR, FUEL, WEIGHED
from turbomath.lab.checks.look import Look
from turbomath.lab.checks.stations import AMBIENT, INLET, MANIFOLD, MEDIUM, OUTLET, PRESSURES, cooled_between
from turbomath.lab.checks.units_of_sheet import DIFFERENCES
from turbomath.lab.reduction.reduce import usual_air
from turbomath.lab.reduction.stations import at_stations, gauge_readings
from turbomath.lab.run import fuels
from turbomath.table import prose
from turbomath.table.errors import unwarned
from turbomath.units.rounding import with_plus_or_minus

WORDS = prose.read(__file__, "forbidden.toml")
CHECK, EFFECTIVENESS = 40, 9
TURBINE, BEHIND = "turbine_inlet_temperature", "turbine_outlet_temperature"
BEFORE_TURBINE, BACK_PRESSURE = "turbine_inlet_pressure", "exhaust_back_pressure"
# No law of the charge leans on them, and each takes time
FLOWS = {FUEL, *WEIGHED, *AIR, "engine_speed", "torque", "power", "cooling_medium_flow", "volumetric_efficiency"}
OUTLET_PRESSURE, THROTTLE = "compressor_outlet_pressure", "throttle_inlet_pressure"
SENTENCES = {
    name: (law.raw("reason"), law.text("action"))
    for name in ("outlet", "charge", "throttle", "pressures", "fuel", "rich", "lean", "turbine", "expansion")
    for law in (WORDS.table(name),)
}


@dataclass(frozen=True)
class Law:
    """One inequality over a run: `room` is what is left of it [SI], below 0 where it is broken, with its ± `width`.

    `columns` are the readings that contradict each other, `figures` the words of a row for its sentence, and `covered`
    the checks that have named the same.
    """

    name: str
    room: NDArray
    width: NDArray
    columns: tuple[str, ...]
    figures: Callable[[int], dict[str, str]] = lambda row: {}
    covered: tuple[int, ...] = ()


def with_the_forbidden(look: Look, found: list[Finding]) -> list[Finding]:
    """Return *found* with what physics forbids (40); a thermometer that breaks a law is no measure of the cooler."""
    laws = list(forbidden(look, found))
    broken = {finding.row for finding in laws if finding.trouble and finding.columns[0] == OUTLET}
    return [*(one for one in found if not (one.check == EFFECTIVENESS and one.row in broken)), *laws]


def forbidden(look: Look, found: Iterable[Finding]) -> Iterator[Finding]:
    """40: each law at each row with the engine running; *found* is what the other checks say."""
    named = {(finding.row, finding.check) for finding in found if finding.trouble}
    for law in (*_charge_air(look), *_fuel(look), *_exhaust(look)):
        for row in look.steady:
            if np.isnan(law.room[row]):
                continue
            broken = law.room[row] < -law.width[row] and not any((row, check) in named for check in law.covered)
            reason, action = SENTENCES[law.name]
            words = reason.format(told=look.told(row, *law.columns), **law.figures(row)) if broken else ""
            yield spoken(CHECK, row, "red" if broken else "", law.columns, words, action)


def _charge_air(look):
    least = _least_temperatures(look)
    inlet = INLET if look.run.has(INLET) else AMBIENT
    pressures = look.present(*PRESSURES[:3], "barometer")
    yield Law(
        "outlet",
        least["outlet room"].value,
        least["outlet room"].plus_or_minus,
        look.present(OUTLET, *pressures, inlet),
        lambda row: {"least": _temperature(look, least["outlet"], row)},
        covered=(5, 6),
    )
    coldest = least["charge"].value
    yield Law(
        "charge",
        least["charge room"].value,
        least["charge room"].plus_or_minus,
        look.present(MANIFOLD, MEDIUM, OUTLET, *pressures, inlet),
        lambda row: {
            "least": _temperature(look, least["charge"], row),
            "density": _density(look, row, look.at.manifold_temperature[row]),
            "most": _density(look, row, coldest[row]),
        },
        covered=(5, 6, 7, 9),
    )
    behind = look.present(THROTTLE, *PRESSURES[:3:2])
    yield Law("throttle", look.run[THROTTLE] - look.at.manifold_pressure, look.widths(*behind, "barometer"), behind)
    both = look.present(OUTLET_PRESSURE, *PRESSURES[:3:2])
    yield Law(
        "pressures",
        look.at.compressor_outlet_pressure - look.at.manifold_pressure,
        look.widths(*both, "barometer"),
        both,
        covered=(10, 11),
    )


def _least_temperatures(look):
    """Return the coldest that outlet and charge can be, and what the readings leave of it, each with its ±."""
    run, gas = look.run, mixture(usual_air(look.run))
    cools = getattr(fuels.known(look.bench.engine.fuel), "cools", False)
    no_cooler = look.bench.engine.aftercooler == "none"

    def least(**read):
        at = at_stations(run, read)
        squeezed = np.maximum(at.manifold_pressure, at.ambient_pressure)
        outlet = gas.outlet_temperature(
            at.ambient_pressure, at.compressor_inlet_temperature, squeezed, 1.0, at.humidity_ratio
        )
        outlet = np.where(cooled_between(look), np.nan, outlet)
        there = np.where(np.isnan(at.compressor_outlet_temperature), outlet, at.compressor_outlet_temperature)
        charge = outlet if no_cooler else np.minimum(there, at.medium_temperature)
        charge = np.where(cools, np.nan, charge)
        return {
            "outlet": outlet,
            "charge": charge,
            "outlet room": read[OUTLET] - outlet,
            "charge room": np.where(np.isnan(read[MANIFOLD]), np.nan, at.manifold_temperature - charge),
        }

    values, unsure = gauge_readings(run)
    with unwarned():
        return uncertainty.propagate(least, values, {name: one for name, one in unsure.items() if name not in FLOWS})


def _temperature(look, least, row):
    """Return the coldest temperature that is possible in words, with its ±, in the unit of the thermometer."""
    unit = look.unit(OUTLET, "°F", look.present(OUTLET, MANIFOLD))
    width = units.from_si(float(least.plus_or_minus[row]), DIFFERENCES[unit], "temperature_rise")
    return f"{with_plus_or_minus(units.from_si(float(least.value[row]), unit, OUTLET), width)} {unit}"


def _density(look, row, temperature):
    """Return what a charge of that temperature weighs, in words."""
    pressure = look.at.manifold_pressure[row]
    density = mixture(usual_air(look.run)).density(pressure, temperature, look.at.humidity_ratio[row])
    return look.amount(density, "lb/ft³", "manifold_density")


def _fuel(look):
    fuel = fuels.known(look.bench.engine.fuel)
    columns = look.present(FUEL, *WEIGHED)
    heating_value = look.bench.engine.fuel_lower_heating_value or getattr(fuel, "lower_heating_value", np.nan)
    heat = heating_value * look.value("fuel_flow")
    power = look.present("power") or look.present("torque", "engine_speed")
    yield Law(
        "fuel",
        heat - look.value("power"),
        np.hypot(heating_value * look.result_width("fuel_flow"), look.result_width("power")),
        (*columns, *power),
        lambda row: {"least": look.amount(heat[row], "hp", "power", "power")},
        covered=(24,),
    )
    if fuel is None:
        return
    ratio, width = look.value("air_fuel_ratio"), look.result_width("air_fuel_ratio")
    for name, limit, sign in (("rich", fuel.richest, 1.0), ("lean", fuel.leanest, -1.0)):
        limit = limit * fuel.stoichiometric
        if np.isfinite(limit):
            yield Law(
                name,
                sign * (ratio - limit),
                width,
                (*columns, *look.present("engine_speed", *AIR)),
                lambda row, limit=limit: {
                    "air": look.amount(look.value("air_flow")[row], "lb/min", "air_flow", *AIR),
                    "ratio": look.tell_result("air_fuel_ratio", row).removeprefix("air fuel ratio "),
                    "fuel": look.bench.engine.fuel.strip(),
                    "limit": f"{limit:.1f}",
                },
                covered=(22, 23),
            )


def _exhaust(look):
    both = look.present(TURBINE, BEHIND)
    yield Law("turbine", look.run[TURBINE] - look.run[BEHIND], look.widths(*both), both)
    columns = look.present(BEFORE_TURBINE, BACK_PRESSURE, "barometer")
    behind = look.at.ambient_pressure + np.nan_to_num(look.run[BACK_PRESSURE])
    gauge = BEFORE_TURBINE in look.run.gauge_columns
    yield Law(
        "expansion",
        look.run[BEFORE_TURBINE] - behind,
        look.widths(*(name for name in columns if not (gauge and name == "barometer"))),
        columns,
        lambda row: {"least": f"{look.amount(behind[row], 'psi', 'barometer', BEFORE_TURBINE)} abs"},
    )
