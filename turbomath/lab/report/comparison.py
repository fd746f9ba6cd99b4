"""Two or three runs side by side: the same load step, each with its own boost."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from turbomath import uncertainty, units
from turbomath.lab.reduction.reduce import Reduced
from turbomath.lab.reduction.stations import ENGINE_OFF
from turbomath.lab.report.tables import result_texts
from turbomath.lab.run.readings import Run
from turbomath.paper.parts import Head, Table
from turbomath.pictures.comparison import picture_comparison
from turbomath.pictures.picture import Picture
from turbomath.table.errors import short
from turbomath.table.quantities import QUANTITIES
from turbomath.units.rounding import with_plus_or_minus

COMPARED = ("measured_charge_gain", "mass_flow_gain", "manifold_density", "air_flow")
HELD = ("boost", "engine_speed", "barometer", "ambient_temperature", "intake_restriction", "power", "fuel_flow")
SAME_LOAD = 0.005  # loads this close, as a share of rated power, are one load step

_AFTERCOOLERS = {
    "none": "no aftercooler",
    "jacket-water": "jacket-water aftercooler",
    "air-to-air": "air-to-air aftercooler",
    "separate-circuit": "separate-circuit aftercooler",
    "two-part": "two-part aftercooler",
}
_ROLES = {"none": "hot", "air-to-air": "cooled"}


@dataclass(frozen=True)
class Step:
    """A load step that all runs have: its name, and its row in each run."""

    name: str
    rows: tuple[int, ...]


def steps(runs: Sequence[Run]) -> list[Step]:
    """Return the load steps that all runs share, in the order of the first: the same condition and load."""
    first, *others = runs
    found = []
    for row in _running_rows(first):
        partners = [_partner(first, row, other) for other in others]
        if None not in partners:
            found.append(Step(load_step(first, row), (row, *partners)))
    return found


def labels(runs: Sequence[Run]) -> list[str]:
    """Return a name for each run: its aftercooler, or the name of its folder where that does not tell them apart."""
    names = [_AFTERCOOLERS.get(run.bench.engine.aftercooler or "", "") for run in runs]
    if len(set(names)) == len(names) and all(names):
        return names
    folders = [short(run.name, 30) for run in runs]
    return folders if len(set(folders)) == len(folders) else [f"{name} ({n})" for n, name in enumerate(folders, 1)]


def compared_table(reduced: Sequence[Reduced], system: str) -> Table:
    """Return the table of the shared load steps; *reduced* holds each run's results, this run's first."""
    runs = [one.run for one in reduced]
    names = [name for name in COMPARED if any(np.isfinite(one[name].value).any() for one in reduced)]
    rows = []
    for step in steps(runs):
        for one, row, label in zip(reduced, step.rows, labels(runs), strict=True):
            results = [result_texts(one, name, [row], system)[0] for name in names]
            rows.append((f"{step.name}: {label}", boost_text(one.run, row, system), *results))
    heads = [
        Head("load step and run"),
        Head("boost", units.display("boost", system)),
        *(result_head(name, system) for name in names),
    ]
    return Table("The runs side by side at the load steps they share", tuple(heads), tuple(rows), group=len(runs))


def compared_picture(reduced: Sequence[Reduced], system: str) -> Picture:
    """Return the picture of manifold density against boost, one line for each run."""
    names, roles = labels([one.run for one in reduced]), _roles(reduced)
    series = [
        (role, name, one.run["boost"], one["manifold_density"].value, one["manifold_density"].plus_or_minus)
        for role, name, one in zip(roles, names, reduced, strict=True)
    ]
    return picture_comparison("boost", "manifold_density", series, system)


def summary(reduced: Sequence[Reduced], system: str) -> str:
    """Return in one sentence how much denser this run's charge is at the same boost, or why that cannot be said."""
    runs = [one.run for one in reduced]
    shared = steps(runs)
    if not shared:
        return "The runs share no load step (the same condition and load), so they cannot be set side by side."
    equal = [step for step in shared if _agree(runs, "boost", step.rows) and _densities_known(reduced, step.rows)]
    if not equal:
        return (
            "Boost differs by more than its ± at every shared load step, or a density is missing, so the table shows "
            "boost and aftercooler at work together; it does not tell them apart."
        )
    step = max(equal, key=lambda step: runs[0]["boost"][step.rows[0]])
    this, *others = zip(reduced, step.rows, labels(runs), strict=True)
    gains = " and ".join(f"{_denser(this, other)} than with {other[2]}" for other in others)
    boosts = boost_text(runs[0], step.rows[0], system)
    unit = units.display("boost", system)
    return (
        f"At {step.name} the boost gauge shows the same in all runs ({boosts} {unit} here), yet the charge of this run "
        f"({this[2]}) is {gains}: at the same speed and volumetric efficiency, so much more air goes in."
    )


def held_sentences(runs: Sequence[Run]) -> list[str]:
    """Say what was the same in all runs at every shared step, and what was not, as far as the gauges tell."""
    shared = steps(runs)
    read = [name for name in HELD if all(run.has(name) for run in runs)]
    equal = [name for name in read if all(_agree(runs, name, step.rows) for step in shared)]
    told = [
        ("The same in all runs, within the ± of their gauges", equal),
        ("Not the same", [name for name in read if name not in equal]),
    ]
    return [f"{words}: {', '.join(QUANTITIES[name].plain_name for name in names)}." for words, names in told if names]


def boost_text(run: Run, row: int, system: str) -> str:
    """Return the boost of one row with its ± in the units of *system*: as read, or from the manifold's own pressure."""
    value, unsure = (float(array[row]) for array in as_read(run, "boost"))
    if np.isnan(value):
        pressure, of_pressure = as_read(run, "manifold_pressure")
        of_barometer = 0.0 if "manifold_pressure" in run.gauge_columns else as_read(run, "barometer")[1][row]
        value, unsure = float((pressure - run.station_pressure)[row]), float(np.hypot(of_pressure[row], of_barometer))
    shown = (units.from_si(number, units.display("boost", system), "boost") for number in (value, 2 * unsure))
    return with_plus_or_minus(*shown)


def result_head(name: str, system: str) -> Head:
    """Return the head of a column of results."""
    unit = units.display(name, system)
    return Head(QUANTITIES[name].plain_name, "no unit" if unit == "-" else unit)


def _running_rows(run):
    loads = run["load"]
    return [
        row for row, condition in enumerate(run.conditions) if condition not in ENGINE_OFF and np.isfinite(loads[row])
    ]


def _partner(first, row, other):
    for candidate in _running_rows(other):
        same_load = abs(other["load"][candidate] - first["load"][row]) <= SAME_LOAD
        if same_load and other.conditions[candidate] == first.conditions[row]:
            return candidate
    return None


def load_step(run: Run, row: int) -> str:
    """Return the condition and load of a reading, which a step of another run may share."""
    load = f"{100 * run['load'][row]:.0f}\u00a0%" if run["load"][row] > 0 else ""
    return f"{run.conditions[row] or 'load'} {load}".strip()


def as_read(run: Run, column: str) -> tuple[NDArray, NDArray]:
    """Return a column as its gauge shows it, and its standard uncertainty."""
    values = run[column]
    return values, uncertainty.standard(run.bench.instrument(column), values)


def _agree(runs, column, rows):
    """Do the readings of all runs agree with the first, within the ± of two gauges that err on their own?"""
    (value, unsure), *others = [
        tuple(array[row] for array in as_read(run, column)) for run, row in zip(runs, rows, strict=True)
    ]
    return all(abs(value - other) <= 2 * np.hypot(unsure, its_own) for other, its_own in others)


def _densities_known(reduced, rows):
    return all(np.isfinite(one["manifold_density"].value[row]) for one, row in zip(reduced, rows, strict=True))


def _denser(this, other):
    """Say by how many per cent one charge is denser than another, each with the errors of its own gauges."""
    (value, relative), (base, its_relative) = [
        (
            one["manifold_density"].value[row],
            one["manifold_density"].standard_uncertainty[row] / one["manifold_density"].value[row],
        )
        for one, row, _ in (this, other)
    ]
    ratio = value / base
    amount = with_plus_or_minus(100 * (ratio - 1), 200 * ratio * np.hypot(relative, its_relative))
    return f"{amount} % denser"


def _roles(reduced):
    """Return a role for each run, by its aftercooler where that tells them apart."""
    wanted = [_ROLES.get(one.run.bench.engine.aftercooler, "measured") for one in reduced]
    return wanted if len(set(wanted)) == len(wanted) else ["cooled", "hot", "measured"][: len(wanted)]
