"""A shipped run written to a file as if it happened now, for a class without an engine. Head and rows say INVENTED.

Each point of the run is held for a while; after a step of load the gauges follow, the thermometers lag behind, and
every channel has its noise and a slow drift inside the step of its instrument.
"""

import math
import time
import zlib
from collections.abc import Callable, Iterator, Sequence
from datetime import datetime, timedelta
from pathlib import Path

import numpy as np

from turbomath import uncertainty, units
from turbomath.lab.reduction.stations import ENGINE_OFF
from turbomath.lab.run.headers import is_missing
from turbomath.lab.run.numbers import bare
from turbomath.lab.run.readings import Run
from turbomath.table.errors import OutOfRangeError, RefusedFileError
from turbomath.table.quantities import QUANTITIES

HEAD = "INVENTED: no engine was measured. A run of the kit, played as if it happened now"
INVENTED = "INVENTED"
HOLD, RATE = 300.0, 1.0  # s each point is held, and rows a second
FASTEST, LONGEST_HOLD = 50.0, 3600.0
QUICK, SLOW = 1.5, 25.0  # s: how a gauge and a thermometer follow (common practice)
NOISE, DRIFT, TURN = 0.25, 0.5, 900.0  # noise and drift in steps of the instrument, and s of one turn of the drift
_NO_STEP = 0.002  # of the value, where the instrument has no step


def play(
    run: Run,
    path: Path | str,
    *,
    hold: float = HOLD,
    rate: float = RATE,
    at_once: bool = False,
    sleep: Callable[[float], object] = time.sleep,
) -> int:
    """Write *run* line by line to a file, each line whole and at its time, and return how many rows were written.

    Parameters
    ----------
    run : Run
        A run; its zeros are not played, as no logger runs with the engine off.
    path : path
        The file to write; never over an existing one. Noise and drift are those of its name, so that no two groups of
        a class read the same.
    hold, rate : float
        How long each point is held [s], and how many rows a second.
    at_once : bool
        Write the whole of it without waiting; its times run on from now all the same.
    sleep : function
        What waits so many seconds.

    Raises
    ------
    OutOfRangeError
        For a hold or a rate that cannot be.
    RefusedFileError
        If the file is there already, or the run has no point with the engine running.
    """
    _refuse(hold, rate)
    columns, points = _points(run)
    if not points:
        raise RefusedFileError(run.folder, "no point with the engine running", "at least one", "Play another run.")
    path, begun, written = Path(path), datetime.now().astimezone(), 0
    try:
        stream = path.open("x", encoding="utf-8", newline="")
    except FileExistsError:
        raise RefusedFileError(
            path, "a file of that name", "none yet", "It was left as it is. Give another name."
        ) from None
    with stream:
        stream.write(f"# {HEAD}: {run.name}\n")
        heads = [f"{name.replace('_', ' ')} [{run.units[name]}]" for name in columns]
        stream.write(",".join(["time", *heads, "remark"]) + "\n")
        start = time.monotonic()
        chance = np.random.default_rng(zlib.crc32(path.name.encode()))
        for row in _rows(run, columns, points, hold, rate, chance):
            at = written / rate
            if not at_once:
                sleep(max(0.0, start + at - time.monotonic()))
            clock = (begun + timedelta(seconds=at)).isoformat(timespec="milliseconds")
            stream.write(",".join([clock, *row, INVENTED]) + "\n")
            stream.flush()
            written += 1
    return written


def _refuse(hold: float, rate: float) -> None:
    for name, value, most in (("hold", hold, LONGEST_HOLD), ("rate", rate, FASTEST)):
        if not 0 < value <= most:
            raise OutOfRangeError(f"{name}: found {value:g}, expected more than 0, at most {most:g}. Give another.")


def _points(run: Run) -> tuple[list[str], list[list[float]]]:
    """Return the columns that any point has a number in, and what each gauge showed at each point, or `nan`."""
    rows = [row for row, condition in enumerate(run.conditions) if condition not in ENGINE_OFF]
    columns = [name for name in run.values if not all(is_missing(run.cells[name][row]) for row in rows)]
    return columns, [[_number(run.cells[name][row]) for name in columns] for row in rows]


def _number(cell: str) -> float:
    return math.nan if is_missing(cell) else float(units.number(bare(cell)[0]))


def _rows(
    run: Run, columns: Sequence[str], points: list[list[float]], hold: float, rate: float, chance: np.random.Generator
) -> Iterator[list[str]]:
    """Yield the cells of each row: what each channel shows, at its own step."""
    steps = [_step(run, name) for name in columns]
    lags = np.array([SLOW if QUANTITIES[name].kind == "temperature" else QUICK for name in columns])
    shown, widths = np.array(points[0]), np.array([step or _NO_STEP for step in steps])
    turns = chance.uniform(0, 2 * math.pi, len(columns))
    count = round(hold * rate)
    for number in range(count * len(points)):
        goal = np.array(points[number // count])
        shown = np.where(np.isnan(shown), goal, shown + (goal - shown) * (1 - np.exp(-1 / (rate * lags))))
        size = np.where([step is None for step in steps], np.abs(goal), 1.0) * widths
        drift = DRIFT * size * np.sin(turns + 2 * math.pi * number / rate / TURN)
        noisy = shown + drift + NOISE * size * chance.standard_normal(len(columns))
        yield [_text(value, step) for value, step in zip(noisy, steps, strict=True)]


def _step(run: Run, name: str) -> float | None:
    """Return the step of an instrument in the unit of its column, None where it has none."""
    value = float(np.nanmedian(run[name]))
    step = float(uncertainty.resolution_step(run.bench.instrument(name), value))
    if not step:
        return None
    unit, quantity = run.units[name], "boost" if name in run.gauge_columns else name
    base = 0.0 if name in run.gauge_columns else value
    return abs(float(units.from_si(base + step, unit, quantity) - units.from_si(base, unit, quantity)))


def _text(value: float, step: float | None) -> str:
    """Return what a logger writes: one figure finer than the gauge's own step; "" for nothing."""
    if math.isnan(value):
        return ""
    decimals = 3 if step is None else max(0, 1 - math.floor(math.log10(step) + 1e-9))
    return f"{value:.{decimals}f}"
