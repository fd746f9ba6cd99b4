"""Makes the INVENTED runs that each have one fault, of the engine or of a gauge, and the sound ones to set beside them.

All are the generator set with the air-to-air aftercooler on one bench. Nothing here was measured.
"""

from collections.abc import Callable
from typing import Any

from turbomath import units
from turbomath.disk import files
from turbomath.engine.faults.engine_faults import ENGINE_FAULTS
from turbomath.engine.ready_engines import AIR_TO_AIR, WITH_WASTEGATE
from turbomath.engine.turbocharged_engine import TurbochargedEngine
from turbomath.lab.invent import Recipe, Step, readings_csv
from turbomath.lab.run.bench import read_bench
from turbomath.lab.run.readings import FAULTS

STEPS = tuple(Step("load", 1800, 58, load) for load in (0.25, 0.4, 0.6, 0.8, 1.0))
COLUMNS = (
    "load",
    "engine_speed",
    "barometer",
    "ambient_temperature",
    "intake_restriction",
    "compressor_outlet_temperature",
    "boost",
    "manifold_temperature",
    "cooler_pressure_loss",
    "turbine_inlet_temperature",
    "exhaust_back_pressure",
    "fuel_flow",
    "power",
)
SOUND, SOUND_WITH_GATE = f"{FAULTS}/sound", f"{FAULTS}/sound_with_wastegate"
_MADE = {one.name: one.made for one in ENGINE_FAULTS}


def _fault(name: str, size: float, engine: TurbochargedEngine = AIR_TO_AIR) -> TurbochargedEngine:
    return _MADE[name](engine, size)


def _more(column: str, amount: str, per: str) -> Callable[[dict], dict]:
    """Return a gauge that reads so many units of its column too much."""
    quantity = per or column
    number, unit = amount.split(" ", 1)
    more = units.to_si(float(number), unit, quantity)
    return lambda state: {**state, column: state[column] + more}


def _times(column: str, share: float) -> Callable[[dict], dict]:
    return lambda state: {**state, column: state[column] * share}


def _wrong_type(column: str, share: float) -> Callable[[dict], dict]:
    """Return a thermocouple whose meter takes it for another: its rise over the room comes out as a share."""

    def wrong(state):
        room = state["ambient_temperature"]
        return {**state, column: room + share * (state[column] - room)}

    return wrong


def _swapped(one: str, other: str) -> Callable[[dict], dict]:
    return lambda state: {**state, one: state[other], other: state[one]}


def _run(name: str, engine: TurbochargedEngine = AIR_TO_AIR, **given: Any) -> Recipe:
    """Return the recipe of a run on another day than that of the sound ones."""
    day: dict[str, Any] = dict(ambient_f=84.0, barometer_inhg=28.95) | given
    return Recipe(f"{FAULTS}/{name}", engine, steps=STEPS, columns=COLUMNS, **day)


_SOUND_DAY: dict[str, Any] = dict(ambient_f=77.0, barometer_inhg=29.10)
RECIPES = (
    _run("sound", **_SOUND_DAY),
    _run("sound_with_wastegate", WITH_WASTEGATE, **_SOUND_DAY),
    _run("sound_on_another_day"),
    _run("charge_leak_before", _fault("charge_leak_before", 0.10)),
    _run("charge_leak_after", _fault("charge_leak_after", 0.08)),
    _run("exhaust_leak", _fault("exhaust_leak", 0.12)),
    _run("dirty_aftercooler", _fault("cooler_fouled", 0.40)),
    _run("restricted_aftercooler", _fault("cooler_restricted", 1.2)),
    _run("plugged_filter", _fault("filter_plugged", 1.1)),
    _run("fouled_compressor", _fault("compressor_fouled", 0.10)),
    _run("worn_turbine", _fault("turbine_worn", 0.14)),
    _run("vanes_stuck_open", _fault("turbine_open", 0.20)),
    _run("vanes_stuck_closed", _fault("turbine_closed", 0.10)),
    _run("wastegate_stuck_open", _fault("wastegate_open", 0.8, WITH_WASTEGATE)),
    _run("wastegate_stuck_closed", _fault("wastegate_closed", 0.7, WITH_WASTEGATE)),
    _run("restricted_exhaust", _fault("exhaust_restricted", 1.2)),
    _run("late_timing", _fault("late_timing", 7.0)),
    _run("overfuelled", rack=AIR_TO_AIR, rack_share=1.09),
    _run("underfuelled", rack=AIR_TO_AIR, rack_share=0.91),
    _run("boost_gauge_off", wrong=_more("boost", "2.5 psi", "")),
    _run("back_pressure_scale", wrong=_times("exhaust_back_pressure", 1.5)),
    _run("wrong_thermocouple", wrong=_wrong_type("turbine_inlet_temperature", 0.76)),
    _run("swapped_thermometers", wrong=_swapped("compressor_outlet_temperature", "manifold_temperature")),
    _run("thermometer_in_the_sun", wrong=_more("ambient_temperature", "18 F°", "temperature_rise")),
    _run("restriction_port", wrong=_times("intake_restriction", 0.45)),
)
BASELINES = {
    recipe.run: SOUND_WITH_GATE if "wastegate" in recipe.run else SOUND
    for recipe in RECIPES
    if recipe.run not in (SOUND, SOUND_WITH_GATE)
}

_BENCH = """# INVENTED. No real engine was measured: the engine, the shop and every number are made up for teaching.

[run]
title = "Generator set with something to find"
invented = true
date = {date}
units = "us"

[engine]
displacement = "12.0 L"
cylinders = 6
aftercooler = "air-to-air"
wastegate = {gate}
volumetric_efficiency = "0.92 ± 0.02"

[design]
compressor_efficiency = "0.74 ± 0.02"
effectiveness = "0.80 ± 0.03"
cooler_pressure_loss = "1.5 psi"

[instruments]
barometer = {{ kind = "aneroid", accuracy = "0.03 inHg", resolution = "0.01 inHg" }}
ambient_temperature = {{ kind = "thermocouple", type = "T", class = "standard", resolution = "1 °F" }}
boost = {{ kind = "bourdon", span = "0..60 psi", grade = "1A", resolution = "0.5 psi" }}
cooler_pressure_loss = {{ kind = "differential", span = "0..5 psi", accuracy = "2 % of span", resolution = "0.05 psi" }}
intake_restriction = {{ kind = "manometer", span = "0..40 inH2O", accuracy = "0.2 inH2O", resolution = "0.2 inH2O" }}
exhaust_back_pressure = {{ kind = "manometer", span = "0..12 inHg", accuracy = "0.1 inHg", resolution = "0.05 inHg" }}
"""


def bench_toml(recipe: Recipe) -> str:
    """Return the text of bench.toml of a run."""
    sound = recipe.run in (SOUND, SOUND_WITH_GATE)
    return _BENCH.format(date="2026-03-12" if sound else "2026-05-21", gate=str("wastegate" in recipe.run).lower())


def write_all() -> None:
    """Write bench.toml and readings.csv of every recipe into the checkout's data folder."""
    for recipe in RECIPES:
        folder = files.shipped("data") / recipe.run
        files.write_whole(folder / "bench.toml", bench_toml(recipe))
        files.write_whole(folder / "readings.csv", readings_csv(recipe, read_bench(folder / "bench.toml")))


if __name__ == "__main__":
    write_all()
