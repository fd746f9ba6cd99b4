"""The results as tables: reduced.csv for a spreadsheet, and a readable one for the terminal."""

import csv
import io

import numpy as np

from turbomath import units
from turbomath.disk.files import cell
from turbomath.table.errors import short
from turbomath.table.quantities import QUANTITIES
from turbomath.units.rounding import NO_VALUE, with_plus_or_minus
from turbomath.units.shown import width_unit

GAINS = ("measured_charge_gain", "theoretical_charge_gain", "charge_gain_difference")
MACHINES = (
    "pressure_ratio",
    "compressor_efficiency",
    "effectiveness",
    "compressor_outlet_density",
    "manifold_density",
    "mass_flow_gain",
)
FUEL = ("fuel_flow", "power", "air_fuel_ratio", "excess_air_ratio", "specific_fuel_consumption", "corrected_power")

# A ± from which a machine cannot be judged: as much as parts a good compressor from a worn one (common practice)
CANNOT_JUDGE = {"compressor_efficiency": 0.10, "effectiveness": 0.10}
CANNOT_TELL = "cannot tell"
NONE = "none"  # nothing at all, and no gauge error would make it something


def reduced_csv(reduced, system):
    """Return the text of reduced.csv: every result with its ± in the units of *system*, "us" or "si"."""
    out = io.StringIO()
    csv.writer(out, lineterminator="\r\n").writerows(reduced_rows(reduced, system))
    return "\ufeff" + out.getvalue()


def reduced_rows(reduced, system):
    """Return the head and a row for each reading, as texts that no spreadsheet runs, to six figures."""
    shown = {name: shown_in(reduced, name, system) for name in reduced.estimates}
    rows = [["point", "condition", *(head for name in shown for head in _heads(name, system)), "agree"]]
    for row, point in enumerate(reduced.run.points):
        figures = [six_figures(column[row]) for pair in shown.values() for column in pair]
        rows.append([cell(point), cell(reduced.run.conditions[row]), *figures, reduced.agree[row]])
    return rows


def terminal(reduced, system):
    """Return the tables of a run as text: measured against theoretical gain, what stands behind it, and the fuel."""
    rows = judged_rows(reduced)
    lead = _lead_columns(reduced.run, rows, system)
    gains = [_column(reduced, name, rows, system) for name in GAINS]
    agree = ("agree", "", [reduced.agree[row] or "?" for row in rows])
    machines, fuel = (_known_columns(reduced, names, rows, system) for names in (MACHINES, FUEL))
    return "\n".join(
        [
            "Charge gain: how much denser the charge is than the air outside",
            "",
            *_lines([*lead, *gains, agree]),
            "",
            "What stands behind it",
            "",
            *_lines([lead[0], *machines]),
            *(["", "Fuel and power", "", *_lines([lead[0], *fuel])] if fuel else []),
        ]
    )


def judged_rows(reduced):
    """Return the rows in which the engine ran and the air outside is known."""
    return [int(row) for row in np.flatnonzero(np.isfinite(reduced["ambient_density"].value))]


def shown_in(reduced, name, system):
    """Return (values, ±) of a result in the display unit of *system*."""
    estimate, unit = reduced[name], units.display(name, system)
    width_quantity, unit_of_width = width_unit(name, system)
    return (
        units.from_si(estimate.value, unit, name),
        units.from_si(estimate.plus_or_minus, unit_of_width, width_quantity),
    )


def result_texts(reduced, name, rows, system):
    """Return "value ± width" of a result for each row, "cannot tell" where the ± says nothing of the machine."""
    values, widths = shown_in(reduced, name, system)
    unsure = cannot_judge(reduced, name)
    nothing = (values == 0) & (widths == 0)
    return [
        CANNOT_TELL if unsure[row] else NONE if nothing[row] else with_plus_or_minus(values[row], widths[row])
        for row in rows
    ]


def cannot_judge(reduced, name):
    """Return for each row whether these gauges are too coarse to judge the machine."""
    estimate = reduced[name]
    return np.isfinite(estimate.value) & (estimate.plus_or_minus >= CANNOT_JUDGE.get(name, np.inf))


def _heads(name, system):
    plain_name = QUANTITIES[name].plain_name
    return f"{plain_name} [{units.display(name, system)}]", f"{plain_name} ± [{width_unit(name, system)[1]}]"


def six_figures(value):
    """Return a number as text to six significant figures; "" for none."""
    if not np.isfinite(value):
        return ""
    return np.format_float_positional(value, precision=6, fractional=False, trim="-")


def _lead_columns(run, rows, system):
    columns = [
        ("point", "", [short(run.points[row], 24) for row in rows]),
        ("condition", "", [run.conditions[row] for row in rows]),
    ]
    for name in ("load", "boost"):
        if name in run.columns:
            unit = units.display(name, system)
            values = units.from_si(run[name], unit, name)
            columns.append(
                (name, unit, [f"{values[row]:.1f}" if np.isfinite(values[row]) else NO_VALUE for row in rows])
            )
    return columns


def _known_columns(reduced, names, rows, system):
    columns = [_column(reduced, name, rows, system) for name in names]
    return [column for column in columns if any(text != NO_VALUE for text in column[2])]


def _column(reduced, name, rows, system):
    unit = units.display(name, system)
    return QUANTITIES[name].plain_name, unit if unit != "-" else "", result_texts(reduced, name, rows, system)


def _lines(columns):
    """Right-align text columns under two-line heads, the name broken into words where it is long."""
    blocks = [[*_broken(head), unit, *texts] for head, unit, texts in columns]
    tallest = max(len(block) for block in blocks)
    filled = [[""] * (tallest - len(block)) + block for block in blocks]
    widths = [max(len(text) for text in block) for block in filled]
    lines = [
        "  ".join(text.rjust(width) for text, width in zip(line, widths, strict=True)).rstrip()
        for line in zip(*filled, strict=True)
    ]
    heads = tallest - len(columns[0][2])
    return [*lines[:heads], "-" * max(len(line) for line in lines), *lines[heads:]]


def _broken(head, width=13):
    lines = [""]
    for word in head.split():
        if lines[-1] and len(lines[-1]) + 1 + len(word) > width:
            lines.append("")
        lines[-1] = f"{lines[-1]} {word}".strip()
    return lines
