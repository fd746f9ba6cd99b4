"""The line on which a compressor worked, as sentences, pictures and tables, of one run or of the groups of a class."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from turbomath import units
from turbomath.engine.wheels import MAP_PRESSURE, MAP_TEMPERATURE
from turbomath.lab.reduction.compressor_line import CompressorLine, compressor_line
from turbomath.lab.reduction.reduce import Reduced
from turbomath.lab.report.page_figure import page_figure
from turbomath.lab.report.page_tables import reading_name
from turbomath.lab.report.tables import CANNOT_JUDGE, six_figures
from turbomath.paper.parts import Figure, Head, Table
from turbomath.pictures.compressor_line import (
    EFFICIENCY,
    FLOW,
    FLOW_WORDS,
    OFF,
    OTHER,
    POINTS,
    RATIO,
    picture_compressor_line,
    picture_efficiency,
)
from turbomath.table import prose
from turbomath.table.errors import short
from turbomath.table.quantities import QUANTITIES
from turbomath.units import shown
from turbomath.units.rounding import NO_VALUE, with_plus_or_minus

HIGH = 250  # px of a picture
DRAWN, TOLD = 41, 6  # places along the line that are drawn, and that stand in its table
_WORDS = prose.read(__file__, "compressor_line.toml")
_TITLE, _HONEST = _WORDS.text("title"), _WORDS.texts("honest")
_SAID = {
    name: _WORDS.raw(name)
    for name in ("one", "runs", "run", "speed", "fits", "off", "other", "straight", "assumed", "stated", "at", "alone")
}
_TABLES = _WORDS.text("table"), _WORDS.text("points_table")
_WORDS.finished()


@dataclass(frozen=True)
class LineShown:
    """The line of some runs in words and numbers; `groups` are their names, none for a single run."""

    found: CompressorLine
    reduced: tuple[Reduced, ...]
    system: str

    title = _TITLE

    @cached_property
    def sentences(self) -> list[str]:
        """Return what the line says at its middle, whether it fits its points, and what its flow rests on."""
        line, groups = self.found.line, len(self.reduced)
        middle = (line.low + line.high) / 2
        count = int(self.found.fitted.sum())
        speed = shown.words("engine_speed", self.found.engine_speed, self.system)
        first = _SAID["one"].format(
            flow=shown.words(FLOW, middle, self.system),
            points=_SAID["runs"].format(count=count, runs=groups) if groups > 1 else _SAID["run"].format(count=count),
            ratio=with_plus_or_minus(float(line.at(middle)[0]), float(line.plus_or_minus(middle)[0])),
            speed=_SAID["speed"].format(speed=speed) if np.isfinite(self.found.engine_speed) else "",
        )
        off, other = self._named(self.found.off), self._named(~self.found.fitted)
        return [
            first,
            _SAID["off"].format(points=off, worst=self._named(self.found.worst)) if off else _SAID["fits"],
            *([_SAID["other"].format(points=other)] if other else []),
            *([] if line.bends else [_SAID["straight"]]),
            *self._rests_on(),
        ]

    @property
    def notes(self) -> list[str]:
        """Return what such a line is not, and how it was drawn."""
        own = (shown.words("ambient_temperature", MAP_TEMPERATURE, self.system), self._pressure(self.system))
        state = {"kelvin": f"{MAP_TEMPERATURE:g} K", "pressure": self._pressure("si"), "shown": " and ".join(own)}
        return [one.format(**state) for one in _HONEST]

    def _pressure(self, system):
        return shown.words("barometer", MAP_PRESSURE, system)

    @cached_property
    def figures(self) -> list[Figure]:
        """Return the line behind its points, and the efficiency at those points."""
        line, efficiency = self.found.line, self.found.efficiency
        along = np.linspace(line.low, line.high, DRAWN)
        drawn = picture_compressor_line(
            self._sorted(self.found.pressure_ratio, np.ones(len(self.found.of), dtype=bool)),
            (along, (line.at(along), line.plus_or_minus(along))),
            self.system,
        )
        told = efficiency.plus_or_minus < CANNOT_JUDGE[EFFICIENCY]
        figures = [_figure(drawn, self.points_table)]
        if told.any():
            beside = picture_efficiency(self._sorted(efficiency, told), self.system)
            figures.append(_figure(beside, self.points_table))
        return figures

    @cached_property
    def table(self) -> Table:
        """Return the line at a few flows, with its ±."""
        line = self.found.line
        along = np.linspace(line.low, line.high, TOLD)
        values, widths = line.at(along), line.plus_or_minus(along)
        rows = [
            (shown.shown(FLOW, at, self.system)[0], with_plus_or_minus(value, width))
            for at, value, width in zip(along, values, widths, strict=True)
        ]
        return Table(_TABLES[0], self._heads[:2], tuple(rows))

    @cached_property
    def points_table(self) -> Table:
        """Return each point with its flow, pressure ratio and efficiency, each with its ±, and where it lies."""
        found, sorts = self.found, self._sorts
        rows = [
            (
                self._name(at),
                self._amount(FLOW, found.flow, at),
                self._amount(RATIO, found.pressure_ratio, at),
                self._amount(EFFICIENCY, found.efficiency, at),
                "on the line" if sorts[at] == POINTS else sorts[at],
            )
            for at in range(len(found.of))
        ]
        heads = Head("point"), *self._heads, Head("where")
        return Table(_TABLES[1], heads, tuple(rows))

    def csv_rows(self) -> list[tuple[str, ...]]:
        """Return (place, quantity, unit, of whom, value, ±) along the line, as bare figures."""
        line, unit = self.found.line, units.display(FLOW, self.system)
        along = np.linspace(line.low, line.high, TOLD)
        numbers = zip(along, line.at(along), line.plus_or_minus(along), strict=True)
        place = f"{FLOW_WORDS} {{}} {unit}"
        return [
            (
                place.format(six_figures(units.from_si(at, unit, FLOW))),
                QUANTITIES[RATIO].plain_name,
                "",
                _TITLE,
                six_figures(value),
                six_figures(width),
            )
            for at, value, width in numbers
        ]

    @property
    def _heads(self):
        return (
            Head(FLOW_WORDS, units.display(FLOW, self.system)),
            Head(QUANTITIES[RATIO].plain_name),
            Head(QUANTITIES[EFFICIENCY].plain_name, units.display(EFFICIENCY, self.system)),
        )

    @cached_property
    def _sorts(self):
        return [
            OFF if off else POINTS if fitted else OTHER
            for off, fitted in zip(self.found.off, self.found.fitted, strict=True)
        ]

    def _sorted(self, quantity, known: NDArray[np.bool_]):
        """Return the flow and another quantity of the points of each sort that has any."""
        flow, found = self.found.flow, {}
        for sort in dict.fromkeys(self._sorts):
            rows = np.flatnonzero(known & (np.array(self._sorts) == sort))
            pairs = ((one.value[rows], one.plus_or_minus[rows]) for one in (flow, quantity))
            if rows.size:
                found[sort] = tuple(pairs)
        return found

    def _amount(self, name, estimate, at):
        value, width = float(estimate.value[at]), float(estimate.plus_or_minus[at])
        if width >= CANNOT_JUDGE.get(name, np.inf):
            return NO_VALUE
        unit = units.display(name, self.system)
        return with_plus_or_minus(units.from_si(value, unit, name), units.from_si(width, unit, name))

    def _name(self, at):
        number, row = self.found.of[at]
        run = self.reduced[number].run
        point = reading_name(run, row)
        return f"{short(run.name, 24)}, {point}" if len(self.reduced) > 1 else point

    def _named(self, rows):
        """Return the points of some rows in words, group by group."""
        groups: dict[int, list[str]] = {}
        for at in np.flatnonzero(rows):
            number, row = self.found.of[at]
            groups.setdefault(number, []).append(short(self.reduced[number].run.points[row], 12))
        if len(self.reduced) == 1:
            return "".join(_SAID["alone"].format(point=", ".join(points)) for points in groups.values())
        names = {number: short(self.reduced[number].run.name, 24) for number in groups}
        said = (_SAID["at"].format(group=names[one], point=", ".join(points)) for one, points in groups.items())
        return "; ".join(said)

    def _rests_on(self):
        if self.found.measured:
            return []
        if not self.found.assumed:
            return [_SAID["stated"]]
        return [_SAID["assumed"].format(share=f"{100 * self.found.assumed:.1f} %")]


def _figure(picture, table):
    figure = page_figure(picture)
    return Figure(figure.caption, figure.alt, figure.svg, table)


def line_shown(reduced: Sequence[Reduced], system: str) -> LineShown | None:
    """Return the line of some runs of one engine, ready to be shown, or None where their points make none."""
    found = compressor_line(reduced)
    return None if found is None else LineShown(found, tuple(reduced), system)
