"""INVENTED readings of a simulated engine: real gauge grades, one error for each gauge, reading steps, unsteadiness.

The limits of error are typed here again from the standards, so that the kit's own table of them is tested too.
"""

from dataclasses import dataclass, replace

import numpy as np

from tests.lab.verdicts import simulated_engine as simulated
from tests.lab.verdicts.simulated_engine import LOADS, PSI, Day
from turbomath.lab.run.amounts import Stated
from turbomath.lab.run.bench import Bench, Design, RunFacts
from turbomath.lab.run.bench import Engine as BenchEngine
from turbomath.lab.run.rated import Rated
from turbomath.lab.run.readings import Run
from turbomath.uncertainty import Instrument

ENDLESS = float("inf")
SPAN = 60 * PSI
GRADES = {"2A": (0.5, 0.5), "1A": (1.0, 1.0), "B": (3.0, 2.0)}  # ASME B40.100: % of span outside and in the middle half
INHG, INH2O, POUND_AN_HOUR, FAHRENHEIT = 3386.389, 249.089, 0.45359237 / 3600, 5 / 9
TEMPERATURES = (
    "ambient_temperature",
    "compressor_inlet_temperature",
    "compressor_outlet_temperature",
    "manifold_temperature",
    "cooling_medium_temperature",
)
STEPS = {"boost": 0.5 * PSI, "barometer": 0.01 * INHG, "intake_restriction": 0.5 * INH2O, "engine_speed": 5 / 60,
         "cooler_pressure_loss": 0.1 * PSI, "fuel_flow": 0.5 * POUND_AN_HOUR, "relative_humidity": 0.01}  # fmt: skip
WIDTHS = {"barometer": 0.03 * INHG, "intake_restriction": 0.6 * INH2O, "engine_speed": 5 / 60,
          "cooler_pressure_loss": 0.1 * PSI, "relative_humidity": 0.03}  # fmt: skip
UNSTEADY = {"boost": 0.003, "fuel_flow": 0.003}  # of the reading, one standard deviation
UNSTEADY_TEMPERATURE = 0.4  # K


@dataclass(frozen=True)
class Shop:
    """What the gauges of one shop are: the grade of the boost gauge, and the error of each as a share of its limit."""

    grade: str
    thermocouples: tuple[str, str]
    errors: dict[str, float]


def shop(random, grade=None, kept=None):
    """Return a shop with drawn gauges; *kept* is the shop of the earlier run, whose gauges mostly err as they did."""
    names = (*TEMPERATURES, *STEPS)
    fresh = {name: random.uniform(-1, 1) for name in names}
    if kept is None:
        chosen = grade or random.choice(["2A", "1A"])
        return Shop(chosen, (("K", "T")[random.integers(2)], "standard"), fresh)
    return replace(kept, errors={name: np.clip(0.9 * kept.errors[name] + 0.25 * fresh[name], -1, 1) for name in names})


def days(random, engine, site):
    """Return a day at the site of each engine: weather, and the load steps as they were met."""
    shape = (len(engine.fuel), len(LOADS))
    one = shape[0], 1
    return Day(
        np.broadcast_to(site + random.uniform(-1200, 1200, one), shape),
        np.broadcast_to(random.uniform(273.0, 308.0, one), shape),
        engine.speed * random.uniform(0.99, 1.01, shape),
        engine.fuel * LOADS * random.uniform(0.96, 1.04, shape),
        np.broadcast_to(random.uniform(355.0, 363.0, one), shape),
    )


def truth(engine, day):
    """Return what perfect gauges would show: by column, a row of load steps for each engine."""
    p3 = simulated.settled(engine, day)
    _, _, t2, t3, _, loss, restriction = simulated.charge(engine, day, p3)
    found = {
        "load": LOADS,
        "engine_speed": day.speed,
        "barometer": day.pressure,
        "ambient_temperature": day.temperature,
        "relative_humidity": 0.01,
        "intake_restriction": restriction,
        "compressor_inlet_temperature": day.temperature,
        "compressor_outlet_temperature": t2,
        "boost": p3 - day.pressure,
        "manifold_temperature": t3,
        "cooling_medium_temperature": np.where(engine.arrangement == "jacket-water", day.water, day.temperature),
        "cooler_pressure_loss": loss,
        "fuel_flow": day.fuel,
    }
    return {name: np.broadcast_to(value, p3.shape) for name, value in found.items()}


def readings(random, true, gauges):
    """Return what the gauges of a shop show: the true value, each gauge's one error, unsteadiness and the step."""
    shown = {"load": true["load"]}
    for name, value in true.items():
        if name == "load":
            continue
        noise = UNSTEADY.get(name, 0.0) * value
        if name in TEMPERATURES:
            noise = UNSTEADY_TEMPERATURE if "ambient" not in name else 0.0
        read = (
            value + gauges.errors[name] * limit_of_error(name, value, gauges) + noise * random.normal(size=len(value))
        )
        step = FAHRENHEIT if name in TEMPERATURES else STEPS[name]
        shown[name] = np.round(read / step) * step
    return shown


def limit_of_error(name, value, gauges):
    """Return the half-width that the standard or the maker allows at a reading."""
    if name == "boost":
        outer, middle = GRADES[gauges.grade]
        return np.where((value < SPAN / 4) | (value > 3 * SPAN / 4), outer, middle) / 100 * SPAN
    if name in TEMPERATURES:
        least = 2.2 if gauges.thermocouples[0] == "K" else 1.0  # ASTM E230, standard limits
        return np.maximum(least, 0.0075 * np.abs(value - 273.15))
    return 0.01 * value if name == "fuel_flow" else np.full_like(value, WIDTHS[name])


def bench(random, engine, gauges, *, rated=True, calibrated="2025-11-03"):
    """Return the bench of an engine: the maker's figures within their own ±, and its gauges as the shop states them."""
    one = {name: float(np.ravel(engine[name])[0]) for name in ("boost", "speed", "fuel", "displacement", "filling")}
    plain = {"calibrated": calibrated}
    instruments = {
        name: Instrument(accuracy=(width, "plain"), resolution=((ENDLESS, STEPS[name]),), **plain)
        for name, width in WIDTHS.items()
    }
    instruments |= {
        name: Instrument(thermocouple=gauges.thermocouples, resolution=((ENDLESS, FAHRENHEIT),), **plain)
        for name in TEMPERATURES
    }
    boost_step, fuel_step = ((ENDLESS, STEPS["boost"]),), ((ENDLESS, STEPS["fuel_flow"]),)
    instruments["boost"] = Instrument(span=(0.0, SPAN), grade=gauges.grade, resolution=boost_step, **plain)
    instruments["fuel_flow"] = Instrument(accuracy=(0.01, "of reading"), resolution=fuel_step, **plain)
    maker = Rated(
        boost=Stated(one["boost"] * (1 + random.uniform(-0.05, 0.05)), 0.05 * one["boost"]),
        engine_speed=one["speed"],
        fuel_flow=Stated(one["fuel"]),
    )
    return Bench(
        "simulated",
        run=RunFacts(invented=True),
        engine=BenchEngine(
            displacement=one["displacement"],
            aftercooler=str(np.ravel(engine["arrangement"])[0]),
            volumetric_efficiency=Stated(one["filling"]),
        ),
        design=_design(random, engine),
        rated=maker if rated else Rated(),
        instruments=instruments,
    )


def _design(random, engine):
    """Return the design as the maker states it: the true values within their ±, which one in three does not print."""
    printed = random.uniform() < 0.67
    found = {}
    for name, width, usual in (("efficiency", 0.02, 0.03), ("effectiveness", 0.03, 0.03), ("loss", None, None)):
        value = float(np.ravel(engine[name])[0])
        width, usual = (width, usual) if width else (0.10 * value, 0.25 * value)
        off = random.uniform(-1, 1) * (width if printed else usual)
        found[name] = Stated(value + off, width if printed else 0.0) if value else None
    return Design(found["efficiency"], found["effectiveness"], found["loss"])


def run_of(stated, shown, name="run"):
    """Return a `Run` of readings, as if they had been read from a folder."""
    rows = range(len(shown["boost"]))
    return Run(
        name=name,
        folder=None,
        file="",
        bench=stated,
        rows=tuple(rows),
        points=tuple(str(row + 1) for row in rows),
        conditions=("load",) * len(rows),
        columns=tuple(shown),
        unknown_columns=(),
        cells={},
        headers={},
        units={},
        pegged={},
        at_least={},
        gauge_columns=frozenset(),
        station_pressure=shown["barometer"],
        without_barometer=(),
        values=dict(shown),
    )
