"""One look at a run: its readings, their ±, the results and which rows are at load, once for all checks."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from functools import cached_property
from typing import Any, SupportsFloat

import numpy as np
from numpy.typing import NDArray

from turbomath import uncertainty, units
from turbomath.lab.checks.bounds import FULL_LOAD, LEAST_BOOST, in_si
from turbomath.lab.checks.units_of_sheet import unit_told
from turbomath.lab.reduction.reduce import Reduced, reduce_run
from turbomath.lab.reduction.stations import ENGINE_OFF, AtStations, at_stations, gauge_readings
from turbomath.lab.run.bench import Bench
from turbomath.lab.run.readings import Run
from turbomath.table.quantities import QUANTITIES
from turbomath.uncertainty import COVERAGE_FACTOR, Estimate
from turbomath.units.rounding import rounded, with_plus_or_minus

NOT_STEADY = ("cool down",)
IDLE = ("low idle", "high idle", "no load")


@dataclass(frozen=True)
class Look:
    """A run and what is worked out from it. All arrays are SI, one element a reading."""

    run: Run
    read: dict[str, Any]
    at: AtStations
    estimates: dict[str, Estimate]
    doubtful: frozenset[int] = frozenset()  # rows with a reading that cannot be: no other point is judged by them

    @property
    def bench(self) -> Bench:
        """What bench.toml says."""
        return self.run.bench

    @cached_property
    def running(self) -> list[int]:
        """Rows with the engine running."""
        return self._rows([condition not in ENGINE_OFF for condition in self.run.conditions])

    @cached_property
    def off(self) -> list[int]:
        """Rows with the engine off."""
        return self._rows([condition in ENGINE_OFF for condition in self.run.conditions])

    @cached_property
    def steady(self) -> list[int]:
        """Rows with the engine running and not cooling down."""
        return self._rows([condition not in (*ENGINE_OFF, *NOT_STEADY) for condition in self.run.conditions])

    @cached_property
    def idle(self) -> list[int]:
        """Rows without load."""
        conditions, load = self.run.conditions, self.run["load"]
        return self._rows(
            [condition in IDLE or (not condition and load[row] == 0) for row, condition in enumerate(conditions)]
        )

    @cached_property
    def loaded(self) -> list[int]:
        """Rows at load: so named, or, where no condition is given, by the load or else by the boost."""
        unnamed = np.array([not condition for condition in self.run.conditions])
        named = np.array([condition == "load" for condition in self.run.conditions])
        load, boosted = self.run["load"], self.boost >= in_si(LEAST_BOOST)
        return self._rows(named | (unnamed & np.where(np.isnan(load), boosted, load > 0)))

    def at_least_load(self, share: float) -> list[int]:
        """Rows at load known to be at *share* of rated load or more."""
        return [row for row in self.loaded if self.run["load"][row] >= share]

    @cached_property
    def full_load(self) -> list[int]:
        """Rows at or near full load."""
        return self.at_least_load(FULL_LOAD)

    def others(self, *groups: Iterable[int]) -> list[int]:
        """Rows with the engine running and steady that are in none of these groups."""
        taken = {row for group in groups for row in group}
        return [row for row in self.steady if row not in taken]

    def named(self, *conditions: str) -> list[int]:
        """Rows of these conditions."""
        return self._rows([condition in conditions for condition in self.run.conditions])

    @cached_property
    def boost(self) -> NDArray:
        """Manifold pressure above the barometer, from whichever gauge there is."""
        return self.at.manifold_pressure - self.at.ambient_pressure

    @property
    def boost_columns(self) -> tuple[str, ...]:
        """The columns that tell `boost`."""
        behind = "compressor_outlet_pressure", "cooler_pressure_loss"
        return self.present("boost") or self.present("manifold_pressure") or self.present(*behind)

    @property
    def outlet_boost(self) -> NDArray:
        """What the compressor makes above the barometer: behind a throttle boost does not tell it."""
        behind_throttle = self.at.compressor_outlet_pressure - self.at.ambient_pressure
        return behind_throttle if self.bench.engine.throttle else self.boost

    @cached_property
    def boost_width(self) -> NDArray:
        """The ± of `boost`: of its gauge, or, where it is an absolute pressure less the barometer, of both."""
        between = self.widths("manifold_pressure", "barometer")
        behind = self.widths("compressor_outlet_pressure", "cooler_pressure_loss")
        others = np.where(np.isnan(self.run["manifold_pressure"]), behind, between)
        return np.where(np.isnan(self.run["boost"]), others, self.widths("boost"))

    def shown(self, column: str) -> NDArray:
        """Return a column as its instrument shows it: a gauge pressure stays gauge."""
        value = self.run[column]
        return value - self.run.station_pressure if column in self.run.gauge_columns else value

    def widths(self, *columns: str) -> NDArray:
        """Return the ± (k = 2) of a sum or difference of several readings; one that is missing adds nothing."""
        return np.sqrt(sum(self._width(column) ** 2 for column in columns))

    def _width(self, column):
        if column not in self._known_widths:
            standard = uncertainty.standard(self.bench.instrument(column), self.shown(column))
            self._known_widths[column] = COVERAGE_FACTOR * np.nan_to_num(standard)
        return self._known_widths[column]

    @cached_property
    def _known_widths(self):
        return {}

    def value(self, result: str) -> NDArray:
        """Return a result of the reduction."""
        return np.broadcast_to(self.estimates[result].value, (len(self.run),))

    def result_width(self, result: str) -> NDArray:
        """Return the ± of a result of the reduction."""
        return np.broadcast_to(self.estimates[result].plus_or_minus, (len(self.run),))

    def unit(self, quantity: str, usual: str, columns: Iterable[str]) -> str:
        """Return the unit in which to tell an amount of *quantity*; see `unit_told`."""
        return unit_told(self.run, quantity, usual, columns)

    def amount(self, value: SupportsFloat, usual: str, quantity: str, *columns: str) -> str:
        """Return an SI value in words, in a unit that the sheet uses; *usual* is the shop's own."""
        return number(value, self.unit(quantity, usual, columns), quantity)

    def present(self, *columns: str) -> tuple[str, ...]:
        """Return those of *columns* that the sheet has."""
        return tuple(column for column in columns if self.run.has(column))

    def tell(self, column: str, row: int) -> str:
        """Return a reading in words, as it was written: "boost 24.0 psi"."""
        return f"{QUANTITIES[column].plain_name} {self.written(column, row)}"

    def written(self, column: str, row: int) -> str:
        """Return a reading as it was written, with its unit."""
        return f"{self.run.cells[column][row].strip()} {self.run.units[column]}".strip()

    def told(self, row: int, *columns: str) -> str:
        """Return several readings in words, leaving out what is not there."""
        return ", ".join(self.tell(column, row) for column in self.present(*columns) if self.is_read(column, row))

    def kept(self, column: str, shown: NDArray) -> NDArray:
        """Return what a column's gauge would show as the run keeps it: the inverse of `shown`."""
        return shown + self.run.station_pressure if column in self.run.gauge_columns else shown

    def is_read(self, column: str, row: int) -> bool:
        """Return whether there is a number in the cell."""
        return self.run.has(column) and not np.isnan(self.run[column][row])

    def tell_result(self, result: str, row: int, unit: str = "-") -> str:
        """Return a result in words with its ±."""
        value, width = (
            units.from_si(float(part[row]), unit, result) for part in (self.value(result), self.result_width(result))
        )
        return f"{QUANTITIES[result].plain_name} {with_plus_or_minus(value, width)} {unit}".removesuffix(" -")

    def with_values(self, values: Mapping[str, NDArray], rows: list[int]) -> "Look":
        """Return a look at *rows* only, with other numbers for them in some columns."""
        there = full_look(_part(self.run, values, rows))
        known = {name: width[rows] for name, width in self._known_widths.items() if name not in values}
        there._known_widths.update(known)
        return there

    def _rows(self, chosen):
        return [int(row) for row in np.flatnonzero(chosen)]


def full_look(run: Run, reduced: Reduced | None = None) -> Look:
    """Return a `Look` at a run, whose results may be at hand."""
    with np.errstate(all="ignore"):
        read, _ = gauge_readings(run)
        return Look(run, read, at_stations(run, read), (reduced or reduce_run(run)).estimates)


def _part(run, values, rows):
    """Return the run with only some of its rows, and other *values* for them in some columns."""
    fields = {name: tuple(getattr(run, name)[row] for row in rows) for name in ("rows", "points", "conditions")}
    tables = {"values": run.values, "pegged": run.pegged, "at_least": run.at_least}
    arrays = {name: {column: array[rows] for column, array in table.items()} for name, table in tables.items()}
    arrays["values"].update(values)
    cells = {column: tuple(texts[row] for row in rows) for column, texts in run.cells.items()}
    return replace(run, **fields, **arrays, cells=cells, station_pressure=run.station_pressure[rows])


def number(value: SupportsFloat, unit: str, quantity: str) -> str:
    """Return an SI value in words with its unit; a difference of temperatures goes with "temperature_rise"."""
    return f"{rounded(units.from_si(float(value), unit, quantity))} {unit}".removesuffix(" -")
