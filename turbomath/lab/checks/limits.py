"""The maker's limits against the readings: the first thing any report shows."""

from collections.abc import Collection

import numpy as np

from turbomath import units
from turbomath.lab.checks.bounds import FULL_LOAD
from turbomath.lab.checks.flags import Flag
from turbomath.lab.reduction.stations import ENGINE_OFF
from turbomath.lab.run.bench import LIMITED_COLUMNS, Bench
from turbomath.lab.run.readings import Run
from turbomath.table.quantities import QUANTITIES

CHECK = 35
_CONDITIONS = {"low_idle": "low idle", "high_idle": "high idle", "_load": "load"}
GOES_WITH_LOAD = tuple(f"{name}_load" for name in ("boost", "compressor_outlet_pressure", "manifold_pressure"))
STOP = "Stop and find out why before you go on; the maker's manual decides."


def limit_flags(run: Run, in_record: Collection[str] = ()) -> tuple[Flag, ...]:
    """Return the flags of all limits of bench.toml: each one passed, and each one without a reading.

    Those of *in_record* were judged by the run-up record, and need no reading.
    """
    return tuple(flag for key in run.bench.limits for flag in _one(run, key, key in in_record))


def _one(run, key, in_record):
    column, wanted = LIMITED_COLUMNS[key], next((words for part, words in _CONDITIONS.items() if part in key), None)
    words = limit_words(run.bench, key)
    rows = [
        row
        for row, condition in enumerate(run.conditions)
        if (condition == wanted if wanted else condition not in ENGINE_OFF)
    ]
    read = [row for row in rows if run.has(column) and _is_read(run, column, row)]
    if not read:
        return (
            []
            if in_record
            else [
                Flag(
                    "note",
                    "",
                    column,
                    CHECK,
                    f"no reading for the limit {words}",
                    "Read it, or leave the limit out of bench.toml; it was not judged.",
                )
            ]
        )
    told = [
        Flag("limit", run.points[row], column, CHECK, f"{_reading(run, column, row)} passes the limit {words}", STOP)
        for row in read
        if _passes(run, key, column, row)
    ]
    return told + _lowest_not_judged(run, key, column, read)


def _lowest_not_judged(run, key, column, read):
    """Return a note where the lowest that the maker allows at rated load was judged nowhere."""
    if not np.isfinite(run.bench.limits[key][0]) or any(_at_rated_load(run, key, row) for row in read):
        return []
    reason = f"no reading near full load for the lowest of the limit {limit_words(run.bench, key)}"
    return [Flag("note", "", column, CHECK, reason, "Read it at rated load: with less load there is less of it.")]


def _at_rated_load(run, key, row):
    """Return whether the lowest that a limit at load allows is meant for this row: boost goes up with the load."""
    return key not in GOES_WITH_LOAD or not run["load"][row] < FULL_LOAD


def _is_read(run, column, row):
    return bool(run.pegged[column][row]) or not np.isnan(run[column][row])


def _passes(run, key, column, row):
    low, high = run.bench.limits[key]
    value = run.at_least[column][row] if run.pegged[column][row] else run[column][row]
    if key in run.bench.gauge_limits and QUANTITIES[column].kind == "pressure":
        value = value - run.station_pressure[row]  # the limit counts from the barometer
    too_low = value < low and not run.pegged[column][row] and _at_rated_load(run, key, row)
    return value > high or too_low


def _reading(run, column, row):
    return f"{QUANTITIES[column].plain_name} {run.cells[column][row]} {run.units[column]}".replace("psi gauge", "psi")


def limit_words(bench: Bench, key: str) -> str:
    """Return a limit of a bench in words, in its display unit; an absolute one of a pressure says so."""
    column = LIMITED_COLUMNS[key]
    unit, quantity = units.display(column, bench.run.units), column
    if QUANTITIES[column].kind == "pressure":
        gauge = key in bench.gauge_limits
        unit, quantity = unit.replace("gauge", "" if gauge else "abs").strip(), "boost" if gauge else column
    low, high = (f"{units.from_si(bound, unit, quantity):.6g}" for bound in bench.limits[key])
    side = f"at least {low}" if high == "inf" else f"at most {high}" if low == "-inf" else f"{low} to {high}"
    return f"{key.replace('_', ' ')}: {side} {unit}"
