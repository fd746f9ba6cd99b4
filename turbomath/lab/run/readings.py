"""The readings of a run: every cell as it was written, and every number in SI, or a refusal that names the cell.

Nothing is half-read and no number changes silently: a gauge pressure becomes absolute with the
barometer of its own row, and what cannot be read as one number refuses the file.
"""

import os
import re
from collections.abc import Collection
from dataclasses import replace
from difflib import get_close_matches
from pathlib import Path

import numpy as np

from turbomath import units
from turbomath.disk import files
from turbomath.disk.plain_files import Place
from turbomath.lab.run import headers
from turbomath.lab.run.amounts import nearest
from turbomath.lab.run.banks import with_means
from turbomath.lab.run.bench import read_bench
from turbomath.lab.run.cells import MOST_ROWS, read_sheet
from turbomath.lab.run.channels import CONDITIONS, NUMBER_COLUMNS, TEXT_COLUMNS
from turbomath.lab.run.logger_file import is_invented, read_log
from turbomath.lab.run.numbers import decimal_mark, figures
from turbomath.lab.run.one_run import Run
from turbomath.lab.run.opendocument import read_opendocument
from turbomath.lab.run.points_of_log import points_of_log
from turbomath.lab.run.workbook import read_workbook
from turbomath.table.errors import RefusedFileError
from turbomath.table.kinds import KINDS
from turbomath.table.quantities import QUANTITIES

DEFAULT_FILE = "readings.csv"
FAULTS = "faults"  # the folder of shipped runs that each have a fault to find
FILES = {"readings.xlsx": read_workbook, "readings.ods": read_opendocument, DEFAULT_FILE: read_sheet}


def as_run(run: Run | Path | str) -> Run:
    """Return the `Run` that *run* is, or the one in that folder, or the shipped run of that name.

    Raises
    ------
    RefusedFileError
        If it is none of them, or the folder cannot be read as a run.
    """
    return run if isinstance(run, Run) else read_run(run)


def read_run(folder: Path | str, log: Path | str = "", take: Collection[int] | None = None) -> Run:
    """Return the `Run` in a folder, or the shipped run of that name.

    Parameters
    ----------
    folder : path
        The run folder, or the name of a shipped run.
    log : path, optional
        A logger's file whose steady stretches are the readings, instead of readings.csv; [logger] of bench.toml names
        its columns.
    take : collection of int, optional
        Which of its steady stretches, counted from 1, become points; by default all.

    Raises
    ------
    RefusedFileError
        If bench.toml or readings.csv is not there, cannot be read whole, or holds what cannot be.
    """
    folder = run_folder(folder)
    bench = read_bench(folder / "bench.toml")
    sheet = read_log(log, bench.logger) if log else _readings_sheet(folder)
    if log and is_invented(log):
        bench = replace(bench, run=replace(bench.run, invented=True))
    columns, rows = headers.columns(sheet)
    _refuse_useless(columns, rows, sheet.place)
    conditions = _conditions(columns, rows, sheet.place)
    numbers = _in_si([column for column in columns if column.holds_numbers], rows, sheet, bench)
    known = [column.name for column in columns if column.name in (*NUMBER_COLUMNS, *TEXT_COLUMNS)]
    run = Run(
        name=Path(log).stem if log else Path(folder).resolve().name,
        folder=folder,
        file=Path(sheet.place.file).name,
        bench=bench,
        rows=tuple(rows),
        points=_points(columns, rows),
        conditions=conditions,
        columns=tuple(known),
        unknown_columns=tuple(column.name for column in columns if column.name not in known),
        cells={column.name: column.cells for column in columns},
        headers={column.name: column.header for column in columns},
        units={column.name: column.unit for column in columns},
        gauge_columns=frozenset(column.name for column in columns if column.gauge),
        **numbers,
    )
    return points_of_log(with_means(run), sheet.place, take)


def run_folder(folder: Path | str) -> Path:
    """Return the path of a run: a folder, or else the shipped run of that name."""
    names, is_path = files.shipped_runs(), isinstance(folder, str | os.PathLike)
    if is_path and os.path.isdir(folder):
        return Path(folder)
    if is_path and str(folder) in (*names, *files.shipped_runs(FAULTS)):
        return files.shipped("data") / str(folder)
    expected = f"a run folder, or a shipped run ({', '.join(names) or 'none here'})"
    near = get_close_matches(str(folder), names, 1)
    action = f"The nearest shipped run is '{near[0]}'." if near else "Check the name of the folder."
    if not is_path:
        raise RefusedFileError("the run", folder, expected, "Give one of them.")
    raise RefusedFileError(folder, "no such folder", expected, action)


def _refuse_useless(columns, rows, place):
    if not any(column.holds_numbers for column in columns):
        found = " ".join(column.header for column in columns)
        raise place.refusal(found, "a column of the kit, such as 'boost [psi]'", "Check the names in the header.")
    if not rows:
        raise place.refusal("no readings", "a row for each reading", "Enter at least one reading below the header.")
    if len(rows) > MOST_ROWS and not any(column.name == "time" for column in columns):
        raise place.refusal(f"{len(rows)} readings", f"at most {MOST_ROWS:,}", "Split the run into several folders.")


def _text_cells(name, columns, rows):
    return next((column.cells for column in columns if column.name == name), ("",) * len(rows))


def _points(columns, rows):
    """Return the label of each reading; one without a label is named for its row."""
    labels = zip(rows, _text_cells("point", columns, rows), strict=True)
    return tuple(f"row {row}" if headers.is_missing(label) else label.strip() for row, label in labels)


def _conditions(columns, rows, place):
    found, header = [], next((column.header for column in columns if column.name == "condition"), None)
    for row, cell in zip(rows, _text_cells("condition", columns, rows), strict=True):
        condition = "" if headers.is_missing(cell) else " ".join(re.sub("[_-]", " ", cell).lower().split())
        if condition and condition not in CONDITIONS:
            expected = f"one of {', '.join(CONDITIONS)}{nearest(condition, CONDITIONS)}"
            raise place.at(row=row, column=header).refusal(cell, expected, "Correct the cell.")
        found.append(condition)
    return tuple(found)


def _in_si(columns, rows, sheet, bench):
    """Return the fields of `Run` that hold numbers."""
    decimal, notes = decimal_mark(columns, rows, sheet.separator, sheet.place)
    read = {column.name: figures(column, rows, decimal, sheet.place) for column in columns}
    values, at_least, station = {}, {}, np.full(len(rows), bench.pressure_without_barometer)
    for column in sorted(columns, key=lambda column: column.name != "barometer"):
        place = sheet.place.at(column=column.header)
        converted = _converted(np.stack(read[column.name]), column, bench, station, place)
        values[column.name], at_least[column.name] = converted
        _refuse_impossible(values[column.name], column, rows, place)
        if column.name == "barometer":
            shown = np.asarray(bench.station_pressure(values["barometer"]))
            station = np.where(np.isnan(shown), station, shown)
    for array in (station, *values.values(), *at_least.values()):
        array.setflags(write=False)
    return {
        "notes": (*sheet.notes, *notes),
        "station_pressure": station,
        "values": values,
        "at_least": at_least,
        "pegged": {name: ~np.isnan(parts[1]) for name, parts in read.items()},
        "without_barometer": tuple(
            (row, column.name)
            for column in columns
            for row, number, base in zip(rows, read[column.name][0], station, strict=True)
            if column.gauge and np.isnan(base) and not np.isnan(number)
        ),
    }


def _converted(numbers, column, bench, station, place):
    """Return numbers of a column in SI: gauge made absolute, a volume flow of fuel made a mass flow."""
    if column.gauge:
        return units.to_si(numbers, column.unit, "boost") + station
    if column.name != "fuel_flow" or not headers.is_volume_flow(column.unit):
        return units.to_si(numbers, column.unit, column.name)
    if bench.engine.fuel_density is None:
        expected = "a mass flow such as lb/h, or fuel_density under [engine] in bench.toml"
        raise place.refusal(column.unit, expected, "State one of them: a volume of fuel has no known mass otherwise.")
    return units.to_si(numbers, column.unit, "volume_flow") * bench.engine.fuel_density


def _refuse_impossible(values, column, rows, place):
    """Refuse a temperature or an absolute pressure at or below zero; whatever else a gauge can show is kept."""
    kind = QUANTITIES[column.name].kind
    if kind in ("temperature", "pressure", "absolute pressure") and np.any(values <= 0):
        index = int(np.argmax(values <= 0))
        cell, needed = column.cells[index], f"{KINDS[kind].needed}, here in {column.unit}"
        raise place.at(row=rows[index]).refusal(cell, needed, "Correct the cell or the unit.")


def _readings_sheet(folder):
    """Return the sheet of readings.csv, or of the workbook in its place."""
    paths = [path for name in FILES if (path := folder / name).exists()]
    if len(paths) > 1:
        first, second = paths[:2]
        found = f"{second.name} beside it"
        raise Place(str(first)).refusal(found, "one file of readings", "Remove or rename one of them.")
    path = paths[0] if paths else folder / DEFAULT_FILE
    return FILES[path.name](path)
