"""Random runs of sound engines, INVENTED by the simulator of the verdicts: nothing in them is of the kit."""

from dataclasses import replace
from pathlib import Path
from tempfile import TemporaryDirectory

import numpy as np

from tests.lab.verdicts import simulated_engine, simulated_run
from turbomath import units
from turbomath.lab.run.readings import read_run


def healthy_runs(seed, count):
    """Yield *count* runs of sound engines at five loads, read from a sheet in US or in SI units."""
    random = np.random.default_rng(seed)
    engines, site = simulated_engine.draw(random, count), random.uniform(86e3, 101e3, (count, 1))
    true = simulated_run.truth(engines, simulated_run.days(random, engines, site))
    for place in range(count):
        engine = {name: value[place] if np.ndim(value) else value for name, value in vars(engines).items()}
        gauges = simulated_run.shop(random)
        bench = simulated_run.bench(random, engine, gauges)
        shown = simulated_run.readings(random, {name: value[place] for name, value in true.items()}, gauges)
        yield _read(bench, shown, ("us", "si")[place % 2])


def _read(bench, shown, system):
    """Return the run of a sheet in one system of units, as read from the disk, at this bench."""
    written = {name: units.display(name, system) for name in shown}
    heads = [f"{name.replace('_', ' ')} [{unit}]" for name, unit in written.items()]
    columns = [units.from_si(shown[name], unit, name) for name, unit in written.items()]
    lines = [["condition", *heads], *(["load", *(f"{value:.6g}" for value in row)] for row in np.transpose(columns))]
    with TemporaryDirectory() as folder:
        (Path(folder) / "bench.toml").write_text("", encoding="utf-8")
        text = "".join(",".join(line) + "\n" for line in lines)
        (Path(folder) / "readings.csv").write_text(text, encoding="utf-8")
        return replace(read_run(folder), bench=replace(bench, run=replace(bench.run, units=system)))
