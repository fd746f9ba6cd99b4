"""A run that a logger wrote, turned into one whose points are its steady stretches."""

import dataclasses
from collections.abc import Collection
from typing import Any

import numpy as np

from turbomath import units
from turbomath.disk.plain_files import Place
from turbomath.lab.run import log_time, steady
from turbomath.lab.run.cells import MOST_ROWS
from turbomath.lab.run.headers import is_volume_flow
from turbomath.table import prose

FEWEST_ROWS, SLOWEST = 200, 60.0  # more readings than these, no further apart than so many seconds, are a log
MOST_DRAWN = 300
DRAWN = ("boost", *steady.TEMPERATURES)

_WORDS = prose.read(__file__, "steady.toml")
_REFUSED = _WORDS.table("refused")
_RULE = _WORDS.text("rule")


def points_of_log(run: Any, place: Place, take: Collection[int] | None = None) -> Any:
    """Return the `Run` as it is, or with its steady stretches as points where it is a logger's file.

    Of the stretches, those of the numbers in *take*, counted from 1, or all.

    Raises
    ------
    RefusedFileError
        If the time cannot be read, or nothing in the file is steady.
    """
    if len(run) <= FEWEST_ROWS or not run.has("time"):
        return run
    time = log_time.seconds(run.cells["time"], run.units["time"])
    if time is None or steady.usual_step(time) > SLOWEST:
        return _by_hand(run, place)
    judged = {name: run[name] for name in steady.DRIFTS if np.isfinite(run[name]).any()}
    if not any(name in judged for name in steady.TEMPERATURES):
        raise place.refusal(_REFUSED.text("no_temperature"), _REFUSED.text("column"), _REFUSED.text("add"))
    found = steady.stretches(time, judged)
    if not found:
        words = _REFUSED.text("found", rows=f"{len(run):,}")
        raise place.refusal(words, _REFUSED.text("expected"), _REFUSED.text("hold"))
    kept = {str(turn): one for turn, one in enumerate(steady.longest(found), 1) if take is None or turn in take}
    if not kept:
        raise place.refusal(
            _REFUSED.text("none_taken"), _REFUSED.text("numbers", most=len(found)), _REFUSED.text("take")
        )
    return _points(run, (time - time[0]) / 60, kept, len(found))


def _by_hand(run, place):
    """Return the run as it is, whose time is that of readings by hand; refuse what only a logger can have written."""
    if len(run) <= MOST_ROWS:
        return run
    cell = next((one for one in run.cells["time"] if one.strip()), "")
    raise place.at(column=run.headers["time"]).refusal(cell, _REFUSED.text("clock"), _REFUSED.text("correct"))


def _points(run, minutes, named, count):
    kept = list(named.values())
    means = {name: steady.mean_and_scatter(values, kept) for name, values in run.values.items()}
    pegged = {name: np.array([there[one].any() for one in kept]) for name, there in run.pegged.items()}
    values = {name: np.where(pegged[name], np.nan, mean) for name, (mean, _) in means.items()}
    station, _ = steady.mean_and_scatter(run.station_pressure, kept)
    ends = tuple((float(minutes[one.start]), float(minutes[one.stop - 1])) for one in kept)
    starts = {run.rows[one.start] for one in kept}
    return dataclasses.replace(
        run,
        rows=tuple(run.rows[one.start] for one in kept),
        points=tuple(named),
        conditions=tuple(run.conditions[one.start] for one in kept),
        cells=_cells(run, kept, ends, values, station),
        pegged=pegged,
        at_least={
            name: np.array([np.nanmax(one) if np.isfinite(one).any() else np.nan for one in _parts(reached, kept)])
            for name, reached in run.at_least.items()
        },
        station_pressure=station,
        without_barometer=tuple(one for one in run.without_barometer if one[0] in starts),
        values=values,
        log=_log(run, minutes, ends, count, {name: scatter for name, (_, scatter) in means.items()}),
    )


def _parts(values, kept):
    return [values[one] for one in kept]


def _log(run, minutes, ends, count, scatter):
    rows = np.unique(np.linspace(0, len(run) - 1, MOST_DRAWN).astype(int))
    traces = {name: run[name][rows] for name in DRAWN if np.isfinite(run[name]).any()}
    many = _WORDS.text("one") if count == 1 else _WORDS.text("many", count=count)
    if count > len(ends):
        many = _WORDS.text("longest", most=len(ends), count=count)
    length = f"{np.ptp(minutes):.0f}"
    sentence, offered = (
        _WORDS.text(name, rows=f"{len(run):,}", minutes=length, stretches=many, rule=_RULE)
        for name in ("told", "offered")
    )
    return steady.Log(sentence, offered, minutes[rows], traces, ends, scatter)


def _cells(run, kept, ends, values, station):
    """Return the cells of each point: means in the unit of the file, time from and to, other words as they began."""
    cells = {name: tuple(texts[one.start] for one in kept) for name, texts in run.cells.items()}
    for name, means in values.items():
        cells[name] = tuple(_figures(number) for number in _shown(run, name, means, station))
    cells["time"] = tuple(f"{first:.1f} to {last:.1f} min" for first, last in ends)
    return cells


def _figures(number):
    """Return a mean to four figures; "" for none."""
    return np.format_float_positional(number, 4, fractional=False, trim="-") if np.isfinite(number) else ""


def _shown(run, name, means, station):
    unit = run.units[name]
    if name in run.gauge_columns:
        return units.from_si(means - station, unit, "boost")
    if name == "fuel_flow" and is_volume_flow(unit):
        return units.from_si(means / run.bench.engine.fuel_density, unit, "volume_flow")
    return units.from_si(means, unit, name)
