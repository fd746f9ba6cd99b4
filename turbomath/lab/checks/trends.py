"""Checks between the points of one run: 12, 14, 15, 29, 30, 31 and 34."""

import re
from collections.abc import Iterable
from itertools import pairwise

import numpy as np

from turbomath.lab.checks.bounds import BOUNDS, LIKE_AMBIENT, MOST_AGREE, in_si
from turbomath.lab.checks.finding import Finding, judged, spoken
from turbomath.lab.checks.look import Look, number
from turbomath.lab.checks.other_units import readings_in_other_units
from turbomath.lab.checks.unit_slips import fitting
from turbomath.lab.run.channels import NUMBER_COLUMNS
from turbomath.lab.run.instrument_words import amount_words
from turbomath.uncertainty import resolution_step

LIKE_SPEED = 0.02
FAR_OUT = 3.0  # times; nearer than that a bad reading would fit some unit by chance
FEW = 10  # points; a longer sheet has to show a trend before one point can be out of it
ALIVE = (
    "boost",
    "manifold_pressure",
    "compressor_outlet_pressure",
    "compressor_outlet_temperature",
    "turbine_inlet_temperature",
    "turbine_outlet_temperature",
    "fuel_flow",
    "power",
    "torque",
    "air_flow",
    "air_volume_flow",
)
SURROUNDINGS = ("load", "barometer", "ambient_temperature", "relative_humidity", "wet_bulb_temperature")
_CLOCK = re.compile(r"(?:.*\s)?(\d{1,2}):(\d{2})(?::(\d{2}))?\s*")


def loss_against_flow(look: Look) -> Iterable[Finding]:
    """12: pressure loss times mean charge density grows with the square of the mass flow."""
    if look.bench.engine.aftercooler == "none":
        return ()
    density = (look.value("compressor_outlet_density") + look.value("manifold_density")) / 2
    return _against_flow(look, 12, "cooler_pressure_loss", look.at.cooler_pressure_loss, density)


def restriction_against_flow(look: Look) -> Iterable[Finding]:
    """14: intake restriction grows with the square of the mass flow."""
    return _against_flow(look, 14, "intake_restriction", look.run["intake_restriction"], 1.0)


def _against_flow(look, check, column, loss, density):
    """One point of a run against the middle of all, as a share of it."""
    law = loss * density / look.value("air_flow") ** 2
    rows = [row for row in _alike(look) if np.isfinite(law[row])]
    if len(rows) < 4 or not look.run.has(column):
        return
    middle = np.median(law[rows])
    share, bound = law / middle, BOUNDS["like the other points"]
    near = [bool(bound.usual_in_si[0] <= share[row] <= bound.usual_in_si[1]) for row in rows]
    agreeing = sum(near)
    with np.errstate(all="ignore"):
        width = np.abs(share * look.widths(column) / loss)
    for row, is_near in zip(rows, near, strict=True):
        if (agreeing - is_near) / (len(rows) - 1) >= MOST_AGREE:
            found = judged(
                look,
                check,
                [row],
                share,
                width,
                bound,
                look.present(column, "engine_speed", "boost"),
                lambda row: (
                    f"{look.told(row, column, 'engine_speed', 'boost')}: {number(share[row], '%', 'load')} of "
                    "what the other points lead to at this air flow"
                ),
                "Read this point again: one of its readings is out of line with the others.",
            )
            yield from (_with_unit(look, finding, column, share) for finding in found)


def _with_unit(look, finding, column, share):
    """Name the unit in which a reading that is far out would be in line with the other points."""
    low, high = BOUNDS["like the other points"].usual_in_si
    far_out = finding.trouble and not 1 / FAR_OUT < share[finding.row] < FAR_OUT
    for unit, values in readings_in_other_units(look, column) if far_out else ():
        if low <= share[finding.row] * values[finding.row] / look.run[column][finding.row] <= high:
            return fitting(look, finding, column, unit)
    return finding


def _alike(look):
    """Rows at load that were read in like surroundings, so that they are one run."""
    ambient = look.at.ambient_temperature
    rows = [row for row in look.loaded if row not in look.doubtful and not np.isnan(ambient[row])]
    middle = np.median(ambient[rows]) if rows else np.nan
    return [row for row in rows if abs(ambient[row] - middle) <= in_si(LIKE_AMBIENT)]


def boost_against_load(look: Look) -> Iterable[Finding]:
    """15: at one speed boost rises with load."""
    load, speed, boost, width = look.run["load"], look.run["engine_speed"], look.boost, look.boost_width
    rows = sorted((row for row in _alike(look) if np.isfinite(load[row] + boost[row])), key=lambda row: load[row])
    steps = [(low, high) for low, high in pairwise(rows) if load[high] > load[low] and _same_speed(speed[[low, high]])]
    rising = sum(boost[high] >= boost[low] for low, high in steps)
    if not steps or (len(rows) > FEW and rising < MOST_AGREE * len(steps)):
        return
    gauge, *others = look.boost_columns
    read = (gauge, *others, *(look.present("barometer") if gauge == "manifold_pressure" else ()))
    columns = (*read, *look.present("load", "engine_speed"))
    step = resolution_step(look.bench.instrument(gauge), look.run[gauge])  # the gauge's own error is common to both
    steadiness, weather = np.where(step > 0, step, width), look.at.ambient_pressure
    for low, high in steps:
        fall = boost[low] - boost[high] - abs(weather[low] - weather[high])  # by so much boost may fall with it
        level = "red" if fall > width[high] else "amber" if fall > steadiness[high] * (1 + 1e-9) else ""
        reason = (
            f"{look.told(high, 'load', *read)} after {look.told(low, 'load', *read)}; "
            "at one speed more load means more boost"
        )
        yield spoken(
            15,
            high,
            level,
            columns,
            reason,
            "Look whether two rows are swapped; then for a leak, a wastegate, a sticking gauge.",
        )


def _same_speed(speeds):
    return bool(np.isnan(speeds).any() or np.ptp(speeds) <= LIKE_SPEED * np.max(speeds))


def repeated_passes(look: Look) -> Iterable[Finding]:
    """29: a point that was read twice shows the same, within its gauges."""
    passes = look.run.cells.get("pass", ())
    for first, second in _repeats(look):
        if not passes or passes[first].strip() == passes[second].strip():
            continue
        for column in _numbers(look):
            apart = abs(look.run[column][second] - look.run[column][first])
            width = look.widths(column)[second]
            if np.isnan(apart) or width == 0:
                continue
            level = "red" if apart > 2 * width else "amber" if apart > width else ""
            yield spoken(
                29,
                second,
                level,
                (column,),
                f"{look.tell(column, second)} in pass {passes[second]}, {look.written(column, first)} in pass "
                f"{passes[first]}; the same point read twice differs by more than the gauge allows, "
                f"± {amount_words(column, width, look.bench.run.units)}",
                "Wait until the engine is steady and read both passes again.",
            )


def steadiness(look: Look) -> Iterable[Finding]:
    """30: charge temperatures of one point do not drift."""
    minutes = [_minutes(text) for text in look.run.cells.get("time", ())]
    for first, second in _repeats(look) if minutes else ():
        if minutes[first] is None or minutes[second] is None or minutes[second] <= minutes[first]:
            continue
        span = minutes[second] - minutes[first]
        for column in look.present("compressor_outlet_temperature", "manifold_temperature"):
            drift = (look.run[column] - look.run[column][first]) / span
            width = resolution_step(look.bench.instrument(column), look.run[column]) / span
            yield from judged(
                look,
                30,
                [second],
                drift,
                width,
                BOUNDS["drift"],
                (column,),
                lambda row, column=column, span=span, first=first: (
                    f"{look.tell(column, row)}, {span:g} min after {look.written(column, first)} at the same point"
                ),
                "Wait until the temperatures stand still, then read the whole point again.",
            )


def _repeats(look):
    """Pairs of rows that follow each other with the same point label and condition."""
    points, conditions = look.run.points, look.run.conditions
    return [
        (one, two)
        for one, two in pairwise(look.running)
        if points[one] == points[two] and conditions[one] == conditions[two]
    ]


def _minutes(text):
    clock = _CLOCK.fullmatch(text)
    return int(clock[1]) * 60 + int(clock[2]) + int(clock[3] or 0) / 60 if clock else None


def copies(look: Look) -> Iterable[Finding]:
    """31: rows that repeat each other to the digit, and a gauge that never moves while the load does."""
    yield from _identical_rows(look)
    load = look.run["load"][look.loaded]
    if len(set(load[~np.isnan(load)])) < 3:
        return
    for column in look.present(*ALIVE):
        values = look.run[column][look.loaded]
        stuck = not np.isnan(values).any() and np.ptp(values) == 0
        yield spoken(
            31,
            None,
            "amber" if stuck else "",
            (column,),
            f"{look.tell(column, look.loaded[0])} at every point at load; a live gauge moves with the load",
            "Look for a stuck gauge, a closed valve in its line, or a column copied down.",
        )


def _identical_rows(look):
    columns = [column for column in _numbers(look) if column not in SURROUNDINGS]
    seen = {}
    for row in look.running:
        readings = tuple(look.run[column][row] for column in columns)
        if sum(not np.isnan(reading) for reading in readings) < 6:
            continue
        key = tuple(round(float(reading), 9) for reading in np.nan_to_num(readings, nan=-1e9))
        twin = seen.setdefault(key, row)
        yield spoken(
            31,
            row,
            "red" if twin != row else "",
            ("point",),
            f"every gauge reads the same as at point {look.run.points[twin]}; "
            "two readings of a running engine never agree to the last digit",
            "Look whether the row was copied, and read the point again.",
        )


def order_and_gaps(look: Look) -> Iterable[Finding]:
    """34: the clock runs forward, and no cell is empty that the other points at load have."""
    minutes = [_minutes(text) for text in look.run.cells.get("time", ())]
    timed = [row for row, minute in enumerate(minutes) if minute is not None]
    for one, two in pairwise(timed):
        back = 0 < minutes[one] - minutes[two] < 12 * 60
        yield spoken(
            34,
            two,
            "amber" if back else "",
            ("time",),
            f"time {look.run.cells['time'][two]} comes after {look.run.cells['time'][one]} in the row before; "
            "the clock runs backwards",
            "Check the time and the order of the rows.",
        )
    for column in _numbers(look):
        read = [look.is_read(column, row) or bool(look.run.pegged[column][row]) for row in look.loaded]
        if len(read) > 3 and sum(read) / (len(read) - 1) >= MOST_AGREE:
            for row, here in zip(look.loaded, read, strict=True):
                yield spoken(
                    34,
                    row,
                    "" if here else "amber",
                    (column,),
                    f"no {column.replace('_', ' ')} here, while the other points at load have it",
                    "Read it if the engine is still at this point; else leave the cell empty.",
                )


def _numbers(look):
    return [column for column in look.run.columns if column in NUMBER_COLUMNS]
