"""The tables of a printed report: results with their ±, what each gauge contributes, readings and instruments."""

import numpy as np

from turbomath import uncertainty, units
from turbomath.lab.reduction import shares
from turbomath.lab.reduction.reduce import Reduced
from turbomath.lab.reduction.shares import GAINS
from turbomath.lab.report.comparison import boost_text, result_head
from turbomath.lab.report.shaft_shown import PAGE_GROUPS
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
        "conductance",
    ),
    "Compressor and aftercooler": (
        "pressure_ratio",
        "compressor_efficiency",
        "effectiveness",
        "ideal_outlet_temperature",
        "cooler_pressure_loss",
    ),
    "Densities": ("density_ratio", "ambient_density", "compressor_outlet_density", "manifold_density"),
    "Flows, power and water": (
        "volumetric_efficiency",
        "air_flow",
        "compressor_power",
        "heat_rejected",
        "dew_point",
        "condensate_flow",
    ),
    "Fuel and power": (
        "fuel_flow",
        "power",
        "air_fuel_ratio",
        "excess_air_ratio",
        "specific_fuel_consumption",
        "corrected_power",
    ),
    **PAGE_GROUPS,
}
MOST_COLUMNS = 6  # of a table of readings, beside the point, on a portrait page
CELL_LENGTH = 60


def headline_table(reduced: Reduced, system: str) -> Table:
    """Return the table of measured and theoretical charge gain and their difference, by load step."""
    rows = judged_rows(reduced)
    boost = [boost_text(reduced.run, row, system) for row in rows]
    agree = [reduced.agree[row] or "not known" for row in rows]
    columns = [
        [reading_name(reduced.run, row) for row in rows],
        boost,
        *(result_texts(reduced, name, rows, system) for name in GAINS),
        agree,
    ]
    heads = [
        Head("point"),
        Head("boost", units.display("boost", system)),
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
    for caption, names in RESULT_GROUPS.items():
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
    heads = (Head("from"), *(Head(f"of the ± of the {QUANTITIES[name].plain_name}", "% of variance") for name in known))
    return (
        Table(f"Where the ± comes from, at point {reading_name(reduced.run, row)}", heads, tuple(rows))
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
    """Return every cell as it was written, in tables narrow enough for a portrait page."""
    columns = [name for name in (*run.columns, *run.unknown_columns) if name not in ("point", "condition")]
    numbers = [name for name in columns if name in NUMBER_COLUMNS]
    words = [name for name in columns if name not in NUMBER_COLUMNS]
    names = [reading_name(run, row) for row in range(len(run))]
    tables = []
    for group, style in ((numbers, "numbers"), (words, "free")):
        for part in (group[at : at + MOST_COLUMNS] for at in range(0, len(group), MOST_COLUMNS)):
            heads = (Head("point"), *(_reading_head(run, name) for name in part))
            cells = [[short(text, CELL_LENGTH) for text in run.cells[name]] for name in part]
            tables.append(Table("Readings as written", heads, _rows([names, *cells]), style))
    return tables


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
    heads = ("reading", "instrument", "accuracy", "widest half-width, with the reading step", "calibrated")
    return Table(
        "Instruments. Assumed: bench.toml does not state it, so the usual one of a shop is taken (common practice)",
        tuple(Head(head) for head in heads),
        tuple(rows),
        style="words",
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
