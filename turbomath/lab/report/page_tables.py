"""The tables of a printed report: results with their ±, what each gauge contributes, readings and instruments."""

from collections.abc import Mapping

import numpy as np

from turbomath import uncertainty, units
from turbomath.lab.reduction import shares
from turbomath.lab.reduction.reduce import Reduced
from turbomath.lab.reduction.shares import GAINS
from turbomath.lab.report.comparison import boost_text, result_head
from turbomath.lab.report.shaft_shown import page_groups
from turbomath.lab.report.tables import judged_rows, result_texts
from turbomath.lab.run.channels import NUMBER_COLUMNS
from turbomath.lab.run.instrument_words import accuracy_words, amount_words
from turbomath.lab.run.readings import Run
from turbomath.paper.parts import Head, Table
from turbomath.table.errors import short
from turbomath.table.quantities import QUANTITIES
from turbomath.units.rounding import NO_VALUE

RESULT_GROUPS = {
    "What the aftercooler does": (
        "measured_aftercooling_density_gain",
        "theoretical_aftercooling_density_gain",
        "mass_flow_gain",
        "greatest_possible_gain",
        "heat_rejected",
        "conductance",
    ),
    "Compressor and aftercooler": (
        "pressure_ratio",
        "compressor_efficiency",
        "effectiveness",
        "ideal_outlet_temperature",
        "cooler_pressure_loss",
        "compressor_power",
    ),
    "Densities and water": (
        "density_ratio",
        "ambient_density",
        "compressor_outlet_density",
        "manifold_density",
        "dew_point",
        "condensate_flow",
        "volumetric_efficiency",
    ),
    "Air, fuel and power": (
        "air_flow",
        "fuel_flow",
        "power",
        "air_fuel_ratio",
        "excess_air_ratio",
        "specific_fuel_consumption",
        "corrected_power",
    ),
}
MOST_COLUMNS, MOST_POINTS = 6, 10  # of words, and of readings side by side, on a portrait page
AS_WRITTEN, MEANS = "Readings as written", "Mean readings of the steady stretches"
CELL_LENGTH = 60


def headline_table(reduced: Reduced, boost_due: Mapping[int, tuple[str, str]], system: str) -> Table:
    """Return the table of measured and theoretical charge gain and their difference, by load step.

    *boost_due* holds for a row the boost it should make and what says so, where something does.
    """
    rows, unit = judged_rows(reduced), units.display("boost", system)
    due = [boost_due.get(row, (NO_VALUE, "")) for row in rows] if boost_due else []
    columns = [
        [reading_name(reduced.run, row) for row in rows],
        [boost_text(reduced.run, row, system) for row in rows],
        *zip(*due, strict=True),
        *(result_texts(reduced, name, rows, system) for name in GAINS),
        [reduced.agree[row] or "not known" for row in rows],
    ]
    heads = [
        Head("point"),
        Head("boost", unit),
        *((Head("boost it should make", unit), Head("says")) if due else ()),
        *(result_head(name, system) for name in GAINS),
        Head("agree"),
    ]
    return Table(
        "Charge gain: how much denser the charge is than the air outside. The difference is in percentage points",
        tuple(heads),
        _rows(columns),
    )


def result_tables(reduced: Reduced, system: str) -> list[Table]:
    """Return the tables of all other results, each narrow enough for a portrait page; empty columns are left out."""
    rows = judged_rows(reduced)
    tables = []
    for caption, names in (RESULT_GROUPS | page_groups(reduced)).items():
        texts = {name: result_texts(reduced, name, rows, system) for name in names}
        known = [name for name in names if any(text != NO_VALUE for text in texts[name])]
        if known:
            columns = [[reading_name(reduced.run, row) for row in rows], *(texts[name] for name in known)]
            tables.append(
                Table(caption, (Head("point"), *(result_head(name, system) for name in known)), _rows(columns))
            )
    return tables


def share_table(reduced: Reduced, row: int) -> Table | None:
    """Return what each gauge contributes to the ± of each gain in one row, or None if no ± is known."""
    found = {name: shares.shares(reduced[name], row) for name in GAINS}
    known = [name for name in GAINS if found[name]]
    inputs = sorted(
        {name for shared in found.values() for name in shared},
        key=lambda name: [-found[gain].get(name, 0) for gain in reversed(GAINS)],
    )
    rows = [
        (shares.input_words(name), *(shares.per_cent(found[gain].get(name, 0.0)) for gain in known)) for name in inputs
    ]
    heads = (Head("from"), *(Head(QUANTITIES[name].plain_name, "% of variance") for name in known))
    return (
        Table(
            f"Where the ± comes from, at point {reading_name(reduced.run, row)}", heads, tuple(rows), "numbers shares"
        )
        if rows
        else None
    )


def share_lines(reduced: Reduced) -> Table | None:
    """Return for each row, in words, the two gauges that make most of the ± of the difference."""
    found = {row: shares.shares(reduced["charge_gain_difference"], row) for row in judged_rows(reduced)}
    rows = tuple(
        (reading_name(reduced.run, row), shares.share_words(shared)) for row, shared in found.items() if shared
    )
    heads = (Head("point"), Head("most of the ± of the difference, in % of variance"))
    return Table("What to improve first", heads, rows, style="words") if rows else None


def reading_tables(run: Run) -> list[Table]:
    """Return every cell as it was written: numbers with a column for each point, words with a row for each."""
    numbers = [name for name in _as_written(run) if name in NUMBER_COLUMNS]
    words = [name for name in _as_written(run) if name not in NUMBER_COLUMNS and not _same_throughout(run, name)]
    caption = AS_WRITTEN if run.log is None else MEANS
    tables = [
        _numbers_as_written(run, numbers, part, caption) for part in _parted(range(len(run)), MOST_POINTS) if numbers
    ]
    names = [reading_name(run, row) for row in range(len(run))]
    for part in _parted(words, MOST_COLUMNS):
        heads = (Head("point"), *(_reading_head(run, name) for name in part))
        cells = [[short(text, CELL_LENGTH) for text in run.cells[name]] for name in part]
        tables.append(Table(caption, heads, _rows([names, *cells]), "free"))
    return tables


def same_words(run: Run) -> list[str]:
    """Return "remark: steady" for each column of words that says the same at every point."""
    names = [name for name in _as_written(run) if name not in NUMBER_COLUMNS and _same_throughout(run, name)]
    return [f"{_reading_head(run, name).name}: {short(run.cells[name][0], CELL_LENGTH)}" for name in names]


def _numbers_as_written(run, names, rows, caption):
    loads = [reading_name(run, row).partition(": ") for row in rows]
    heads = (Head("reading"), *(Head(point, condition) for point, _, condition in loads))
    cells = [[short(run.cells[name][row], CELL_LENGTH) for row in rows] for name in names]
    lines = tuple((_reading_words(run, name), *line) for name, line in zip(names, cells, strict=True))
    return Table(caption, heads, lines, "numbers as-written")


def _as_written(run):
    return [name for name in (*run.columns, *run.unknown_columns) if name not in ("point", "condition")]


def _same_throughout(run, name):
    return len(run) > 1 and len(set(run.cells[name])) == 1


def _parted(items, most):
    return [items[at : at + most] for at in range(0, len(items), most)]


def _reading_words(run, name):
    head = _reading_head(run, name)
    return f"{head.name} [{head.unit}]" if head.unit else head.name


def instrument_table(run: Run, system: str) -> Table:
    """Return the instrument of each column, the widest tolerance over its readings, and when it was calibrated."""
    names = [name for name in run.columns if name in NUMBER_COLUMNS]
    assumed = run.bench.assumed_instruments(names)
    rows = []
    for name in names:
        instrument = run.bench.instrument(name)
        kind = short(instrument.kind or "not stated", 30) + (" (assumed)" if name in assumed else "")
        rows.append(
            (
                QUANTITIES[name].plain_name,
                kind,
                accuracy_words(name, instrument, system),
                _widest(run, name, instrument, system),
                instrument.calibrated or "not stated",
            )
        )
    heads = ("reading", "instrument", "accuracy", "widest half-width", "calibrated")
    return Table(
        "Instruments; a half-width holds the reading step. Assumed: none in bench.toml, so the usual (common practice)",
        tuple(Head(head) for head in heads),
        tuple(rows),
        style="words instruments",
    )


def reading_name(run: Run, row: int) -> str:
    """Return a reading's point with its condition and load, as the head of its row."""
    load = run.cells["load"][row].strip() if run.has("load") and run["load"][row] > 0 else ""
    parts = [run.conditions[row], f"{load}\u00a0{run.units['load']}" if load else ""]
    words = " ".join(part for part in parts if part)
    return f"{short(run.points[row], 24)}: {words}" if words else short(run.points[row], 24)


def _rows(columns):
    return tuple(zip(*columns, strict=True))


def _reading_head(run, name):
    known = name in QUANTITIES
    return Head(QUANTITIES[name].plain_name, run.units[name]) if known else Head(short(run.headers[name], CELL_LENGTH))


def _widest(run, name, instrument, system):
    values = run[name] - run.station_pressure if name in run.gauge_columns else run[name]
    values = values[np.isfinite(values)]
    if not values.size:
        return NO_VALUE
    return f"± {amount_words(name, np.max(uncertainty.tolerance(instrument, values)), system)}"
