"""The grid to enter readings in: what is read at this engine, and when, with the units in the heads."""

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property

from turbomath import units
from turbomath.disk.plain_files import Place
from turbomath.lab.entry.blank_sheet import ROWS
from turbomath.lab.entry.entry import Entry
from turbomath.lab.reduction.stations import ENGINE_OFF
from turbomath.lab.run import headers
from turbomath.lab.run.bench import Bench
from turbomath.lab.run.blank import sheet_columns
from turbomath.lab.run.cells import Sheet
from turbomath.lab.run.channels import CONDITIONS, NUMBER_COLUMNS
from turbomath.table.formulas import choice

PASSES = ("A", "B")
TEXTS = ("time", "remark")
CONDITION = "condition"
MOST_POINTS = 500
_PASS_OF_POINT = re.compile(r"([1-9]\d{0,2})[AB]", re.ASCII)


@dataclass(frozen=True)
class Column:
    """A column to enter: its name, its head with the unit, and the unit ("" for a column of words)."""

    name: str
    head: str
    unit: str = ""


@dataclass(frozen=True)
class Row:
    """A row to enter: a pass ("A", "B") of a point, or a zero row, which has no passes."""

    point: str
    reading_pass: str
    condition: str

    @property
    def key(self) -> str:
        """The row's name: "3A", "zero"."""
        return self.point + self.reading_pass


@dataclass(frozen=True)
class Plan:
    """What a grid is made from: the condition of each point, zeros included, and the unit of each number column."""

    conditions: tuple[str, ...]
    units: dict[str, str]


@dataclass(frozen=True)
class Grid:
    """Columns and rows to enter."""

    columns: tuple[Column, ...]
    rows: tuple[Row, ...]

    @cached_property
    def cells(self) -> set[tuple[str, str]]:
        """Every (row, column) that can be entered; the condition of a point goes with its pass A."""
        named = {(row.key, CONDITION) for row in self.rows if row.reading_pass == PASSES[0]}
        return named | {(row.key, column.name) for row in self.rows for column in self.columns}

    def unit(self, column: str) -> str:
        """Return the unit in the head of a column, "" for words."""
        return next((one.unit for one in self.columns if one.name == column), "")


def plan(bench: Bench, conditions: Sequence[str] | None = None, chosen_units: Mapping[str, str] | None = None) -> Plan:
    """Return the plan for a bench.

    Parameters
    ----------
    bench : Bench
        From `turbomath.lab.run.bench.read_bench`: which columns the engine needs, and the display units.
    conditions : sequence of str, optional
        The condition of each point in order; by default the rows of the printed sheet.
    chosen_units : dict, optional
        Column -> unit, where the gauge shows another than the display unit; also for a further column.

    Raises
    ------
    TurbomathError
        If a condition, a column or a unit is none of the kit's.
    """
    conditions, chosen_units = tuple(ROWS if conditions is None else conditions), dict(chosen_units or {})
    for one in conditions:
        choice(CONDITION, one, dict.fromkeys(CONDITIONS))
    for name, unit in chosen_units.items():
        choice("column", name, dict.fromkeys(NUMBER_COLUMNS))
        _refuse_unit(name, unit, bench)
    names = dict.fromkeys((*sheet_columns(bench), *chosen_units))
    return Plan(conditions, {name: chosen_units.get(name) or units.display(name, bench.run.units) for name in names})


def grid(planned: Plan, cells: Mapping[tuple[str, str], Entry]) -> Grid:
    """Return the grid of a plan with the points that the standing entries in *cells* have added, or named anew."""
    numbers = [Column(name, f"{name.replace('_', ' ')} [{unit}]", unit) for name, unit in planned.units.items()]
    points = [one for one in planned.conditions if one not in ENGINE_OFF]
    most = max([len(points), *(point_of(row) for row, _ in cells)])
    points = [*points, *[""] * (most - len(points))]
    rows = [
        Row(str(number), one, cells[f"{number}A", CONDITION].text if (f"{number}A", CONDITION) in cells else condition)
        for number, condition in enumerate(points, 1)
        for one in PASSES
    ]
    before, after = ([Row(one, "", one)] if one in planned.conditions else [] for one in ENGINE_OFF)
    return Grid((*numbers, *(Column(name, name) for name in TEXTS)), (*before, *rows, *after))


def point_of(row: str) -> int:
    """Return the number of the point that a row's name means, 0 for none."""
    found = _PASS_OF_POINT.fullmatch(row)
    return int(found[1]) if found and int(found[1]) <= MOST_POINTS else 0


def _refuse_unit(name, unit, bench):
    """Refuse a unit in which the reader of readings.csv would not take the column."""
    place = Place(bench.file, column=name)
    (found,), _ = headers.columns(Sheet(place, ",", (f"{name.replace('_', ' ')} [{unit}]",), ()))
    if found.name != name:
        raise place.refusal(unit, "a unit, such as psi", "Correct the unit of this column.")
