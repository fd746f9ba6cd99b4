"""The maker's limits against the readings: the first thing any report shows."""

import numpy as np

from turbomath import units
from turbomath.lab.bench import LIMITED_COLUMNS
from turbomath.lab.flags import Flag
from turbomath.lab.stations import ENGINE_OFF
from turbomath.quantities import QUANTITIES

CHECK = 35
_CONDITIONS = {"low_idle": "low idle", "high_idle": "high idle", "_load": "load"}
STOP = "Stop and find out why before you go on; the maker's manual decides."


def limit_flags(run):
    """Return the flags of all limits of bench.toml: each one passed, and each one without a reading."""
    return tuple(flag for key, band in run.bench.limits.items() for flag in _one(run, key, band))


def _one(run, key, band):
    column, wanted = LIMITED_COLUMNS[key], next((words for part, words in _CONDITIONS.items() if part in key), None)
    words = _words(run, key, column, band)
    rows = [row for row, condition in enumerate(run.conditions)
            if (condition == wanted if wanted else condition not in ENGINE_OFF)]  # fmt: skip
    read = [row for row in rows if run.has(column) and _is_read(run, column, row)]
    if not read:
        return [Flag("note", "", column, CHECK, f"no reading for the limit {words}",
                     "Read it, or leave the limit out of bench.toml; it was not judged.")]  # fmt: skip
    return [
        Flag("limit", run.points[row], column, CHECK, f"{_reading(run, column, row)} passes the limit {words}", STOP)
        for row in read
        if _passes(run, column, row, band)
    ]


def _is_read(run, column, row):
    return bool(run.pegged[column][row]) or not np.isnan(run[column][row])


def _counted(run, column, row):
    """The reading as the limit counts it: from the barometer where the gauge does, at least so much if pegged."""
    value = run.at_least[column][row] if run.pegged[column][row] else run[column][row]
    return value - run.station_pressure[row] if column in run.gauge_columns else value


def _passes(run, column, row, band):
    low, high = band
    value = _counted(run, column, row)
    return value > high or (value < low and not run.pegged[column][row])


def _reading(run, column, row):
    return f"{QUANTITIES[column].plain_name} {run.cells[column][row]} {run.units[column]}".replace("psi gauge", "psi")


def _words(run, key, column, band):
    unit = units.display(column, run.bench.run.units).replace(" gauge", "").replace(" abs", "")
    low, high = (_figure(bound, unit, column) for bound in band)
    side = f"at least {low}" if high is None else f"at most {high}" if low is None else f"{low} to {high}"
    return f"{key.replace('_', ' ')}: {side} {unit}"


def _figure(bound, unit, column):
    if not np.isfinite(bound):
        return None
    kind = QUANTITIES[column].kind
    quantity = "boost" if kind == "pressure" else column
    return f"{units.from_si(bound, unit, quantity):.6g}"
