"""The run-up of lesson 00: zeros before the start, then oil pressure and idle speeds against the maker's limits."""

from typing import Any

import numpy as np

from turbomath import units
from turbomath.lab.checks import findings
from turbomath.lab.checks.limits import limit_flags
from turbomath.lab.run.readings import Run, read_run
from turbomath.panels.start_here import LESSON
from turbomath.panels.start_here.picture_oil_pressure import picture_oil_pressure
from turbomath.panels.start_here.reading_a_gauge import two_figures
from turbomath.table.quantities import QUANTITIES
from turbomath.uncertainty import accuracy
from turbomath.units.rounding import rounded
from turbomath.units.shop import fahrenheit
from turbomath.widgets.answers import Answer, Table
from turbomath.widgets.panel import Panel

RUN = "stand_unloaded_run_up"
WARM = fahrenheit(160.0)  # where a warm engine begins, common practice
ZEROS, COLD_THERMOMETERS = 2, 3  # numbers of the checks
IDLES = ("low idle", "high idle")


def panel() -> Panel:
    """Return the live panel: a question on a gauge at its stop, then the whole run-up against its limits."""
    return Panel(LESSON.words["run_up"].sheet((), answer))


def answer(_controls: Any, system: str) -> Answer:
    """Return what the panel shows of the shipped run-up."""
    return told(read_run(RUN), system)


def told(run: Run, system: str) -> Answer:
    """Return what the panel shows of a run-up; readings stay as they were written."""
    judged = judged_rows(run)
    passed = [f"Point {first.split(':')[0]}: {words}" for first, *_, words in judged if words != "within"]
    oil = [row for row in idle_rows(run) if run.pegged["oil_pressure"][row]]
    stops = " ".join(
        f"At point {run.points[row]} the oil gauge stood at its stop: {run.cells['oil_pressure'][row]} "
        f"counts as at least {_psi(run.at_least['oil_pressure'][row])}. That is enough to judge a least, "
        "and no number to reckon with."
        for row in oil
    )
    found = "; ".join(passed) if passed else "No idle reading passes a limit of the maker"
    heads = ("point", "engine speed [rpm]", "limit [rpm]", "oil pressure [psi]", "limit [psi]", "judged")
    tables = (
        Table("At idle: readings as written, and the maker's limits (INVENTED)", heads, judged),
        Table(
            "Before the start: what the instruments show at rest",
            ("instrument", "reads", "may be off by", "judged"),
            zero_rows(run),
        ),
    )
    return Answer((_picture(run, system),), f"{found}. {stops}".strip(), (), tables)


def idle_rows(run: Run) -> list[int]:
    """Return the rows that were read at an idle speed."""
    return [row for row, condition in enumerate(run.conditions) if condition in IDLES]


def judged_rows(run: Run) -> tuple[tuple[str, ...], ...]:
    """Return a row of text for each reading at idle: what was read, what the maker asks, what `limit_flags` says."""
    flags: dict[tuple[str, str], str] = {}
    for flag in limit_flags(run):
        flags.setdefault((flag.point, flag.column), flag.reason)
    rows = []
    for row in idle_rows(run):
        said = [
            flags[run.points[row], column]
            for column in ("engine_speed", "oil_pressure")
            if (run.points[row], column) in flags
        ]
        rows.append(
            (
                f"{run.points[row]}: {run.conditions[row]}, {_warmth(run, row)}",
                run.cells["engine_speed"][row],
                _limit(run, _speed_key(run, row), "rpm", "engine_speed"),
                run.cells["oil_pressure"][row],
                _limit(run, _oil_key(run, row), "psi", "oil_pressure"),
                "; ".join(said) or _unflagged(run, row),
            )
        )
    return tuple(rows)


def _unflagged(run, row):
    """A gauge at its stop below the least that is asked tells nothing of the limit."""
    least, known = run.bench.limits[_oil_key(run, row)][0], run.at_least["oil_pressure"][row]
    return "cannot be judged: the stop lies below the limit" if known < least else "within"


def zero_rows(run: Run) -> tuple[tuple[str, ...], ...]:
    """Return a row of text for each pressure gauge and thermometer at rest, as the kit's own checks judge it."""
    rows = []
    for one in findings(run):
        if one.check in (ZEROS, COLD_THERMOMETERS) and run.conditions[one.row] == "zero":
            column = one.columns[0]
            rows.append(
                (
                    QUANTITIES[column].plain_name,
                    f"{run.cells[column][one.row]} {run.units[column]}",
                    _allowed(run, column, one.row),
                    one.reason or "fine",
                )
            )
    return tuple(rows)


def _allowed(run, column, row):
    half = float(accuracy(run.bench.instrument(column), run[column][row]))
    quantity = "temperature_rise" if QUANTITIES[column].kind == "temperature" else column
    unit = "F°" if quantity == "temperature_rise" else run.units[column]
    return f"± {two_figures(units.from_si(half, unit, quantity))} {unit}"


def _picture(run, system):
    idle, pegged = idle_rows(run), run.pegged["oil_pressure"]
    running = run["engine_speed"] > 0
    warm = run["engine_coolant_temperature"] >= WARM
    read = [
        ("hot", "warm", np.where(running & warm & ~pegged, run["oil_pressure"], np.nan)),
        ("cooled", "cold", np.where(running & ~warm & ~pegged, run["oil_pressure"], np.nan)),
        ("ambient", "at its stop, at least", np.where(pegged, run.at_least["oil_pressure"], np.nan)),
    ]
    keys = dict.fromkeys((_speed_key(run, row), _oil_key(run, row), run.conditions[row]) for row in idle)
    least = [(f"least at {words}", run.bench.limits[speed], run.bench.limits[oil][0]) for speed, oil, words in keys]
    return picture_oil_pressure(run["engine_speed"], read, least, system)


def _speed_key(run, row):
    return f"{run.conditions[row].replace(' ', '_')}_speed"


def _oil_key(run, row):
    return f"oil_pressure_{run.conditions[row].replace(' ', '_')}"


def _warmth(run, row):
    return "warm" if run["engine_coolant_temperature"][row] >= WARM else "cold"


def _limit(run, key, unit, quantity):
    low, high = (
        rounded(units.from_si(bound, unit, quantity)) if np.isfinite(bound) else "" for bound in run.bench.limits[key]
    )
    return f"{low} to {high}" if low and high else f"at least {low}" if low else f"at most {high}"


def _psi(value):
    return f"{rounded(units.from_si(value, 'psi', 'oil_pressure'))} psi"
