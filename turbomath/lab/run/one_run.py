"""One run as it was read: each cell as it was written, each number in SI."""

from dataclasses import dataclass
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from turbomath.lab.run.bench import Bench
from turbomath.lab.run.cells import Note
from turbomath.lab.run.channels import NUMBER_COLUMNS
from turbomath.lab.run.steady import Log
from turbomath.paper.records import Sheet
from turbomath.table.errors import short
from turbomath.table.records import Record, unknown


@dataclass(frozen=True, eq=False, repr=False)
class Run(Record):
    """One run: `run[column]` is an array in SI, one element a reading; `run.has(column)` tells if it was there.

    Attributes
    ----------
    name, folder, file, bench : the folder's name, its path, its file of readings, and what its bench.toml says.
    rows : spreadsheet row of each reading.
    points, conditions : the label of each reading, and its condition ("" where none is given).
    columns : names of the columns that the kit knows, in the order of the sheet.
    unknown_columns : headers of the others; they are kept in `cells` and used for nothing.
    cells, headers, units : column -> its texts as they were written, its header text, its unit as written.
    pegged, at_least : number column -> whether the gauge was at its stop, and the SI value known to be reached.
    values : number column -> its array in SI, as `run[column]`.
    notes : what a reader of the file should know of how it was saved.
    gauge_columns : columns read as gauge pressure and made absolute with `station_pressure` [Pa].
    log : what is kept of a logger's file, whose steady stretches are the readings; None for readings by hand.
    without_barometer : (row, column) of gauge readings that stay `nan`, as their row has no barometer.
    """

    HEADLINE = ("load", "boost", "manifold_temperature")

    name: str
    folder: Path
    file: str
    bench: Bench
    rows: tuple[int, ...]
    points: tuple[str, ...]
    conditions: tuple[str, ...]
    columns: tuple[str, ...]
    unknown_columns: tuple[str, ...]
    cells: dict[str, tuple[str, ...]]
    headers: dict[str, str]
    units: dict[str, str]
    pegged: dict[str, np.ndarray]
    at_least: dict[str, np.ndarray]
    gauge_columns: frozenset[str]
    station_pressure: np.ndarray
    without_barometer: tuple[tuple[int, str], ...]
    values: dict[str, np.ndarray]
    log: Log | None = None
    notes: tuple[Note, ...] = ()

    def __len__(self) -> int:
        return len(self.rows)

    def __getitem__(self, column: str) -> NDArray:
        """Return a column's readings in SI, `nan` where missing or pegged; all `nan` if there is no such column."""
        if column not in NUMBER_COLUMNS:
            raise unknown(column, NUMBER_COLUMNS, "column of numbers")
        return self.values.get(column, np.full(len(self), np.nan))

    def has(self, column: str) -> bool:
        """Return whether the sheet has this column, of numbers or of text."""
        return column in self.columns

    def sheet(self) -> Sheet:
        """Return the readings laid out to be shown: the columns that the kit knows, pressures absolute."""
        told = [name for name in ("time", "pass", "reader", "remark") if name in self.columns]
        return Sheet(
            f"Run '{short(self.name)}'",
            {name: self.values[name] for name in self.columns if name in self.values},
            before={"point": self.points, "condition": self.conditions},
            after={name: self.cells[name] for name in told},
            system=self.bench.run.units,
        )
