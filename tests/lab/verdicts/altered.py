"""The shipped, INVENTED runs with one thing altered, as a shop's own run would differ."""

from dataclasses import replace
from pathlib import Path

import numpy as np

from turbomath.engine import balance
from turbomath.engine.fitting import fit
from turbomath.engine.ready_engines import AIR_TO_AIR
from turbomath.lab import verdicts
from turbomath.lab.reduction import reduce
from turbomath.lab.run.amounts import Stated
from turbomath.lab.run.engine_file import FittedEngine, as_toml
from turbomath.lab.run.rated import Rated
from turbomath.lab.run.readings import Run, read_run
from turbomath.uncertainty import Instrument

PSI, INHG, POUND_AN_HOUR = 6894.757, 3386.389, 0.45359237 / 3600
MAKER = Rated(
    boost=Stated(24.0 * PSI, 1.0 * PSI),
    engine_speed=30.0,
    fuel_flow=Stated(131.0 * POUND_AN_HOUR),
    barometer=29.10 * INHG,
    ambient_temperature=298.15,
)
READ = (
    "intake_restriction",
    "compressor_inlet_temperature",
    "compressor_outlet_temperature",
    "boost",
    "manifold_temperature",
    "cooler_pressure_loss",
    "turbine_inlet_temperature",
    "turbine_outlet_temperature",
    "turbine_inlet_pressure",
    "exhaust_back_pressure",
)
FULL_LOAD = 7  # the row of it in the runs of the generator


def generator(rated: Rated | None = MAKER, name: str = "generator_air_to_air") -> Run:
    """Return a shipped run, with what its maker would say of the rated point."""
    run = read_run(name)
    return stated(run, rated=rated or Rated())


def stated(run: Run, **tables) -> Run:
    """Return a run whose bench.toml states other tables."""
    return replace(run, bench=replace(run.bench, **tables))


def write_fitted_engine(folder: Path) -> None:
    """Write engine.toml of an engine fitted to the shipped run."""
    fitted = FittedEngine(fit("generator_air_to_air"), "generator_air_to_air", "2026-03-12", True)
    (folder / "engine.toml").write_text(as_toml(fitted), encoding="utf-8")


def with_model(run: Run, folder: Path) -> Run:
    """Return a run whose bench.toml names the engine.toml in a folder."""
    engine = replace(run.bench.engine, model="engine.toml")
    return replace(run, folder=folder, bench=replace(run.bench, engine=engine))


def read(run: Run, **columns) -> Run:
    """Return a run with other readings; each is a function of what was read."""
    values = {name: change(run[name]) for name, change in columns.items()}
    return replace(run, values={**run.values, **values})


def without(run: Run, *columns: str) -> Run:
    """Return a run in which these columns were not read."""
    return replace(
        run,
        columns=tuple(name for name in run.columns if name not in columns),
        values={name: value for name, value in run.values.items() if name not in columns},
    )


def up_to(run: Run, load: float) -> Run:
    """Return a run in which nothing was read above a load."""
    hidden = run["load"] > load
    return replace(run, values={name: np.where(hidden, np.nan, value) for name, value in run.values.items()})


def coarse(run: Run, column: str, width: float) -> Run:
    """Return a run in which one instrument is good to this half-width [SI] only."""
    instruments = {**run.bench.instruments, column: Instrument(accuracy=(width, "plain"))}
    return stated(run, instruments=instruments)


def judged(run: Run, earlier: Run | None = None, **options) -> verdicts.Verdicts:
    """Return the verdicts of a run."""
    return verdicts.judge_run(reduce.reduce_run(run), earlier, **options)


def with_larger_turbine(times: float) -> Run:
    """Return what the gauges of the generator show if its turbine is so much larger, by the balance."""
    return _settled(replace(AIR_TO_AIR, turbine_area=times * AIR_TO_AIR.turbine_area), 98_544.0, 298.15)


def on_a_mountain() -> Run:
    """Return the sound generator at the same fuel where the barometer shows 84 kPa and the air is colder."""
    return _settled(AIR_TO_AIR, 84_000.0, 283.15)


def _settled(engine, pressure, temperature):
    """Return the run of the generator with every reading of the loaded points as the balance has it at its fuel."""
    run = generator()
    loaded = run["load"] > 0.1
    now = balance.solve(
        engine,
        ambient_pressure=pressure,
        ambient_temperature=temperature,
        engine_speed=30.0,
        fuel_flow=run["fuel_flow"][loaded],
    )
    site = {"barometer": pressure, "ambient_temperature": temperature, "cooling_medium_temperature": temperature}
    values = dict(run.values)
    for name in (*site, *READ):
        values[name] = np.full(len(run), np.nan)
        values[name][loaded] = site[name] if name in site else getattr(now, name)
    return replace(run, values=values, station_pressure=values["barometer"])
