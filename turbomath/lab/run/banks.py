"""Two turbochargers side by side: what was read on both banks stands for the engine by its mean."""

from dataclasses import replace

import numpy as np

from turbomath import units
from turbomath.lab.run.amounts import unit_is_gauge
from turbomath.lab.run.one_run import Run
from turbomath.table.banks import BANKS, OF_EACH_BANK, of_bank
from turbomath.units.rounding import rounded

MEAN_HEADER = "{name}, mean of {banks}"


def with_means(run: Run) -> Run:
    """Return the run with a column for each quantity that was read on the banks only: the mean of those read.

    A column that the sheet has stays as it is. The cells show the mean in the unit of the bank that comes first.
    """
    for name in OF_EACH_BANK:
        read = [of_bank(name, bank) for bank in BANKS if run.has(of_bank(name, bank))]
        if read and not run.has(name) and run.bench.engine.turbochargers == len(BANKS):
            run = _with_mean(run, name, read)
    return run


def _with_mean(run, name, read):
    there = ~np.isnan([run[column] for column in read])
    pegged = np.any([run.pegged[column] for column in read], axis=0)
    known, total = there.sum(axis=0), np.nansum([run[column] for column in read], axis=0)
    mean = np.where((known > 0) & ~pegged, total / np.maximum(known, 1), np.nan)
    mean.setflags(write=False)
    unit = run.units[read[0]]
    banks = " and ".join(column.rsplit("_", 1)[1] for column in read)
    gauge = run.gauge_columns | ({name} if read[0] in run.gauge_columns else set())
    return replace(
        run,
        columns=(*run.columns, name),
        cells={**run.cells, name: _cells(run, name, mean, unit)},
        headers={**run.headers, name: MEAN_HEADER.format(name=name.replace("_", " "), banks=banks)},
        units={**run.units, name: unit},
        pegged={**run.pegged, name: pegged},
        at_least={**run.at_least, name: np.full(len(run), np.nan)},
        gauge_columns=gauge,
        values={**run.values, name: mean},
    )


def _cells(run, name, mean, unit):
    """Return the mean as a person would write it, empty where nothing was read."""
    if unit_is_gauge(unit, name):
        mean, name = mean - run.station_pressure, "boost"
    return tuple("" if np.isnan(one) else rounded(one).replace("−", "-") for one in units.from_si(mean, unit, name))
