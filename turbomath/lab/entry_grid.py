"""The grid at the engine: a row for each reading to take, a box for each gauge of the bench, units in the heads."""

from dataclasses import dataclass

from turbomath import units
from turbomath.lab.blank_sheet import ROWS, sheet_columns
from turbomath.quantities import QUANTITIES

FIRST_PASS, SECOND_PASS = "A", "B"
TEXT_BOXES = ("remark",)
_COUNTS_FROM = {"compressor_outlet_pressure": "gauge", "turbine_inlet_pressure": "gauge", "manifold_pressure": "abs"}


@dataclass(frozen=True)
class GridRow:
    """One reading to take: the label of its point, the condition of the engine, and which pass it is."""

    point: str
    condition: str
    reading_pass: str = FIRST_PASS

    @property
    def key(self):
        """What names the row: no two rows of a grid have the same point and pass."""
        return f"{self.point}{self.reading_pass}"


def first_rows():
    """Return the rows a new grid begins with, those of the blank sheet for the clipboard."""
    return tuple(GridRow(str(number), condition) for number, condition in enumerate(ROWS))


def first_heads(bench):
    """Return {column: header text} of the columns that the engine of a bench needs, in the order of the blank sheet."""
    return {name: f"{name.replace('_', ' ')} [{_unit(name, bench.run.units)}]" for name in sheet_columns(bench)}


def next_point(rows):
    """Return the label of a further point: one more than the highest number there is."""
    return str(1 + max((int(row.point) for row in rows if row.point.isdecimal()), default=0))


def _unit(name, system):
    """The unit of a column, with what the pressure counts from where it could be either."""
    unit = units.display(name, system)
    if QUANTITIES[name].kind != "pressure":
        return unit
    return f"{unit.split()[0]} {_COUNTS_FROM[name]}"
