"""Makes the INVENTED runs: an engine in balance with itself, a fixed error for each instrument, and what gauges show.

The engine's true state is that of `engine.balance` for the load on it. Everything else comes from a seed, so a run can
be made again to the last digit. Nothing here was measured.
"""

from collections.abc import Callable
from dataclasses import dataclass, replace
from zlib import crc32

import numpy as np

from turbomath import uncertainty, units
from turbomath.disk import files
from turbomath.engine import balance
from turbomath.engine.ready_engines import AIR_TO_AIR, JACKET_WATER, NOT_AFTERCOOLED
from turbomath.engine.turbocharged_engine import TurbochargedEngine
from turbomath.lab.run import blank
from turbomath.lab.run.bench import Bench, read_bench
from turbomath.table.errors import TurbomathError

EXHAUST = ("turbine_inlet_temperature", "turbine_outlet_temperature", "turbine_inlet_pressure")
UNITS = {name: units.display(name, "us") for name in (*blank.SHEET, *EXHAUST)} | {"power": "kW"}
READ_AS_THEY_ARE = (
    "intake_restriction",
    "compressor_inlet_temperature",
    "compressor_outlet_temperature",
    "boost",
    "manifold_temperature",
    "cooler_pressure_loss",
    *EXHAUST,
    "exhaust_back_pressure",
    "fuel_flow",
)

# The generator without aftercooler, with a turbine small enough for the boost of the other two: fitted at rated power
# to 24 psi, 7 inH2O, 1.6 inHg, 1160 °F and 106.6 lb/h
SMALL_TURBINE = replace(
    NOT_AFTERCOOLED,
    rated_power=199e3,
    rated_fuel_flow=0.0134314,
    turbine_area=1.19116e-3,
    intake_coefficient=1.63291e4,
    exhaust_coefficient=1.79112e4,
    coolant_share=0.23593,
    best_indicated_efficiency=0.45500,
    best_compressor_flow=0.381,
)
# An engine for a vehicle, on a stand: fitted without load at 2250 rpm to 3.2 psi, 7 inH2O and 0.8 inHg, and at 2100 rpm
# to 140 kW and 1150 °F from 77 lb/h
STAND = replace(
    NOT_AFTERCOOLED,
    rated_power=140e3,
    rated_fuel_flow=0.0097019,
    rated_speed=35.0,
    turbine_area=0.94747e-3,
    intake_coefficient=5.98343e4,
    exhaust_coefficient=6.20200e4,
    coolant_share=0.21943,
    best_indicated_efficiency=0.46129,
    best_compressor_flow=0.27566,
    best_compressor_efficiency=0.70,
)


@dataclass(frozen=True)
class Step:
    """One reading of the run: what is asked of the engine, and what the balance does not know."""

    condition: str
    rpm: float
    oil_psi: float
    load: float = 0.0
    coolant_f: float = 185.0


GENERATOR_STEPS = (
    Step("low idle", 700, 32),
    *(Step("load", 1800, 58, load) for load in (0.25, 0.40, 0.55, 0.70, 0.85, 1.0)),
    Step("high idle", 1950, 60),
)
RUN_UP_STEPS = (
    Step("low idle", 725, 62, coolant_f=90),
    Step("high idle", 2240, 112, coolant_f=105),
    Step("low idle", 720, 30),
    Step("no load", 1000, 38),
    Step("no load", 1400, 52),
    Step("no load", 1800, 64),
    Step("high idle", 2250, 72),
)


def _with_exhaust(columns):
    """Return the columns of a sheet with those of the whole turbine."""
    place = columns.index(EXHAUST[0])
    return (*columns[:place], *EXHAUST, *columns[place + 1 :])


WITH_EXHAUST = _with_exhaust(blank.SHEET)


@dataclass(frozen=True)
class Recipe:
    """A run to invent; shop units in the names, since these are what an instructor would change."""

    run: str
    engine: TurbochargedEngine
    seed: int = 7
    steps: tuple = GENERATOR_STEPS
    columns: tuple = WITH_EXHAUST
    ambient_f: float = 77.0
    barometer_inhg: float = 29.10
    relative_humidity: float = 0.45
    rack: TurbochargedEngine | None = (
        None  # a sound engine whose fuel at each load is given, where no governor holds it
    )
    rack_share: float = 1.0  # of that fuel
    wrong: Callable[[dict], dict] = dict  # from what is true to what a bad gauge makes of it


UNCOOLED = blank.columns("none")
RECIPES = (
    Recipe("generator_air_to_air", AIR_TO_AIR),
    Recipe("generator_jacket_water", JACKET_WATER),
    Recipe("generator_no_aftercooler", SMALL_TURBINE, columns=_with_exhaust(UNCOOLED)),
    Recipe(
        "stand_unloaded_run_up",
        STAND,
        steps=RUN_UP_STEPS,
        ambient_f=64.0,
        barometer_inhg=28.87,
        relative_humidity=0.55,
        columns=tuple(name for name in UNCOOLED if name not in ("load", "fuel_flow", "power")),
    ),
)


def readings_csv(recipe: Recipe, bench: Bench) -> str:
    """Return the text of readings.csv: what each instrument of *bench* shows along the run of *recipe*."""
    heads = [f"{name.replace('_', ' ')} [{UNITS[name]}]" for name in recipe.columns]
    lines = [["point", "condition", *heads, "remark"]]
    for number, (condition, state) in enumerate(_states(recipe, bench)):
        shown = [_shown(recipe, bench, name, state.get(name)) for name in recipe.columns]
        lines.append([str(number), condition, *shown, "INVENTED"])
    return files.BYTE_ORDER_MARK + "".join(",".join(line) + "\n" for line in lines)


def _states(recipe, bench):
    """Yield (condition, true state in SI) for each reading, in the order of a shop's run."""
    ambient = _ambient(recipe)
    cold = ambient["ambient_temperature"]
    temperatures = dict.fromkeys((name for name, unit in UNITS.items() if unit == "°F"), cold)
    pressures = dict.fromkeys((name for name, unit in UNITS.items() if unit in ("psi", "inH2O")), 0.0)
    exhaust = {"exhaust_back_pressure": 0.0, "turbine_inlet_pressure": ambient["barometer"]}
    yield "zero", recipe.wrong({**temperatures, **pressures, **ambient, **exhaust, "engine_speed": 0.0})
    for step in recipe.steps:
        yield step.condition, recipe.wrong(_running(recipe, bench, step))


def _ambient(recipe):
    return {
        "barometer": units.to_si(recipe.barometer_inhg, "inHg", "barometer"),
        "ambient_temperature": units.to_si(recipe.ambient_f, "°F", "ambient_temperature"),
        "relative_humidity": recipe.relative_humidity,
    }


def _running(recipe, bench, step):
    """The true state of the running engine: settled at the load of this step."""
    ambient, coolant = _ambient(recipe), units.to_si(step.coolant_f, "°F", "engine_coolant_temperature")
    site = dict(
        ambient_pressure=ambient["barometer"],
        ambient_temperature=ambient["ambient_temperature"],
        engine_speed=step.rpm / 60,
    )
    drive = {"power": step.load * recipe.engine.rated_power}
    if recipe.rack is not None:
        drive = {"fuel_flow": recipe.rack_share * balance.solve(recipe.rack, **site, **drive).fuel_flow}
    settled = balance.solve(_engine(recipe, bench, coolant), **site, **drive)
    if settled.state != balance.SOLVED:
        raise TurbomathError(f"{recipe.run}: at {step.load:.0%} load and {step.rpm:g} rpm found {settled.state!r}.")
    return {
        **ambient,
        **{name: getattr(settled, name) for name in READ_AS_THEY_ARE},
        **({"power": settled.power} if step.load else {}),
        "load": step.load,
        "engine_speed": step.rpm / 60,
        "cooling_medium_temperature": settled.medium_temperature,
        "engine_coolant_temperature": coolant,
        "oil_pressure": units.to_si(step.oil_psi, "psi", "oil_pressure"),
    }


def _engine(recipe, bench, coolant):
    """The recipe's engine, of the size that the bench says, its jacket water as warm as the coolant of the step."""
    return replace(
        recipe.engine,
        displacement=bench.engine.displacement,
        volumetric_efficiency=bench.engine.volumetric_efficiency.value,
        aftercooler=replace(recipe.engine.aftercooler, jacket_water_temperature=coolant),
    )


def _shown(recipe, bench, name, value):
    """What the instrument shows: the true value, its own fixed error, rounded to its step; empty if not read."""
    if value is None:
        return ""
    instrument, quantity, unit = bench.instrument(name), name, UNITS[name]
    if unit.endswith(" gauge"):
        value, quantity, unit = value - _ambient(recipe)["barometer"], "boost", unit.removesuffix(" gauge")
    share = np.random.default_rng([recipe.seed, crc32(name.encode())]).uniform(-1, 1)
    reading = float(value + share * uncertainty.accuracy(instrument, value))
    if name in ("load", "engine_speed"):
        reading = float(value)
    if instrument.span and reading > instrument.span[1]:
        return f">{units.from_si(instrument.span[1], unit, quantity):.0f}"  # the pointer is at its stop
    shown = units.from_si(reading, unit, quantity)
    step = uncertainty.resolution_step(instrument, reading)
    step = units.from_si(reading + step, unit, quantity) - shown if step else 1.0
    return _rounded(shown, round(step, 6))


def _rounded(value, step):
    decimals = max(0, -int(np.floor(np.log10(step) + 1e-9)))
    return f"{round(value / step) * step + 0.0:.{decimals}f}"


def write_all() -> None:
    """Write readings.csv of every recipe beside its bench.toml in the checkout's data folder."""
    for recipe in RECIPES:
        folder = files.shipped("data") / recipe.run
        files.write_whole(folder / "readings.csv", readings_csv(recipe, read_bench(folder / "bench.toml")))


if __name__ == "__main__":
    write_all()
