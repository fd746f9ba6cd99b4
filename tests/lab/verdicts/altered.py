"""The shipped, INVENTED runs with one thing altered, as a shop's own run would differ."""

from dataclasses import replace

import numpy as np

from turbomath.lab import verdicts
from turbomath.lab.reduction import reduce
from turbomath.lab.run.amounts import Stated
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
FULL_LOAD = 7  # the row of it in the runs of the generator


def generator(rated: Rated | None = MAKER, name: str = "generator_air_to_air") -> Run:
    """Return a shipped run, with what its maker would say of the rated point."""
    run = read_run(name)
    return stated(run, rated=rated or Rated())


def stated(run: Run, **tables) -> Run:
    """Return a run whose bench.toml states other tables."""
    return replace(run, bench=replace(run.bench, **tables))


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
