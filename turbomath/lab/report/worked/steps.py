"""What is given and the steps that it allows, collected in the order of the report."""

import functools
import inspect
import math
from typing import Any

from turbomath.lab.reduction.design_here import readings_and_design
from turbomath.lab.reduction.reduce import reduce_run
from turbomath.lab.reduction.results import untold
from turbomath.lab.reduction.stations import at_stations
from turbomath.lab.run.readings import Run
from turbomath.physics import charge, humidity, mixture
from turbomath.table.errors import OutOfRangeError, unwarned
from turbomath.table.formulas import Tied
from turbomath.working import Amount, Step, sums
from turbomath.working.coherent import from_si
from turbomath.working.writing import figures


class ReadingSteps:
    """Collects what one reading gives and the steps that it allows; `values` has what each comes to.

    A step that comes to nothing, or that its formula refuses, is left out, and what would be built on it.
    """

    def __init__(self, run: Run, row: int) -> None:
        self.run, self.row, self.engine = run, row, run.bench.engine
        values, self.at, self._reduced = _whole(run)
        self.read = {name: _one(value, row) for name, value in values.items()}
        self.given: dict[str, Amount] = {}
        self.steps: list[Step] = []
        self.values: dict[str, float] = {}
        self.wet = bool(self.at.humidity_known[row])
        self.efficiency_told = not untold(self._reduced["compressor_efficiency"])[row]
        self.air_flow_source = _used(self._reduced.sources["air_flow"], row)
        self.cooled = self.engine.aftercooler != "none"

    def has(self, *names: str) -> bool:
        """Return whether there is a value of each of these names."""
        return all(name in self.values for name in names)

    def reduced(self, result: str) -> float:
        """Return a result of the report for this reading."""
        return _one(self._reduced[result].value, self.row)

    def take(self, name: str, value: float | None = None, column: str | None = None) -> None:
        """Put a value on the sheet as given: as it was written, where it is the reading of *column*."""
        value = _one(getattr(self.at, name), self.row) if value is None else value
        if math.isfinite(value):
            self.given[name] = Amount(value, name, *self._as_written(column, name, value))
            self.values[name] = value

    def take_reading(self, name: str) -> None:
        """Put a reading on the sheet that is not the value of a station."""
        self.take(name, self.read[name], name)

    def take_flow(self, name: str) -> None:
        """Take a reading that is nothing at zero: the report makes nothing of it either."""
        if self.read[name] > 0:
            self.take_reading(name)

    def take_design(self, name: str, symbol: str) -> None:
        """Put on the sheet what the design of bench.toml is at the flow of this reading."""
        value = self.read[f"design_{name}"]
        self.given[f"design_{name}"] = Amount(value, name, symbol=symbol)
        self.values[f"design_{name}"] = value

    def step(self, result: str, formula: Tied, symbol: str = "", **arguments: str | float) -> None:
        """Add a step if all it needs is there, and something comes of it.

        What *formula* needs and *arguments* does not name is the value of the same name.
        """
        needs = {name: name for name, one in inspect.signature(formula).parameters.items() if one.default is one.empty}
        arguments = {**needs, **arguments}
        if self.has(*(name for put, name in arguments.items() if isinstance(name, str) and put != "tappings")):
            self._add(Step(result, formula, arguments, symbol=symbol))

    def density(
        self, result: str, pressure: str, temperature: str, vapour: str = "humidity_ratio", symbol: str = ""
    ) -> None:
        """Add the step to a density, of moist air where its humidity is known."""
        formula, wet = (mixture.density, {"humidity_ratio": vapour}) if self.wet else (charge.density, {})
        self.step(result, formula, symbol, pressure=pressure, temperature=temperature, **wet)

    def left_as_vapour(self, pressure: str, temperature: str, mark: str) -> str:
        """Return the name of the vapour left at a station, after a step for the water that formed, if any did."""
        water, left = f"water_at_{temperature}", f"vapour_at_{temperature}"
        put = {"pressure": pressure, "temperature": temperature, "humidity_ratio": "humidity_ratio"}
        formed = Step(water, humidity.condensate, put, symbol=rf"w_\mathrm{{water,{mark}}}")
        if not self.has(*put.values()) or not self._outcome(formed) > 0:
            return "humidity_ratio"
        self._add(formed)
        self.step(left, sums.vapour_left, rf"w_\mathrm{{left,{mark}}}", condensate=water)
        return left

    def source(self, quantity: str) -> str:
        """Return in words where this reading's value of a station comes from."""
        return _used(self.at.sources[quantity], self.row)

    def _as_written(self, column, name, value):
        unit = self.run.units.get(column)
        if not unit or column in self.run.gauge_columns:
            return "", ""
        return figures(from_si(value, unit, name), 6), unit

    def _add(self, step):
        value = self._outcome(step)
        if math.isfinite(value):
            self.steps.append(step)
            self.values[step.result] = value

    def _outcome(self, step):
        with unwarned():
            try:
                return step.call(self.values)
            except OutOfRangeError:
                return math.nan


@functools.lru_cache(maxsize=1)
def _whole(run):
    """Return readings and design, stations and results of a run, kept for the next of its points."""
    values = readings_and_design(run)
    return values, at_stations(run, values), reduce_run(run)


def _used(sources, row):
    return next((label for label, rows in sources.items() if rows[row]), "")


def _one(values: Any, row: int) -> float:
    return float(values[row] if hasattr(values, "__len__") else values)
