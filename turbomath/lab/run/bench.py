"""The bench of a run: what bench.toml says of the engine, the site, the instruments and the maker's limits, in SI.

Every key is known or refused: a typing slip in a limit must not lose the limit. A missing table is no
error, since a report can say what it lacks; `Bench.stated` tells what was written.
"""

import dataclasses
import functools
import math
from collections.abc import Iterable
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from turbomath.disk.plain_files import Place, toml
from turbomath.lab.run import air_meter, amounts, logger, rated
from turbomath.lab.run.air_meter import AirMeter, check_air_meter
from turbomath.lab.run.amounts import Stated
from turbomath.lab.run.cells import plain_text
from turbomath.lab.run.channels import AFTERCOOLERS, NUMBER_COLUMNS
from turbomath.lab.run.instruments import instrument, says_accuracy, usual_instrument
from turbomath.lab.run.logger import Logger
from turbomath.lab.run.rated import Rated, check_rated
from turbomath.physics import atmosphere
from turbomath.table.banks import BANKS, of_bank
from turbomath.table.kinds_of_value import Values
from turbomath.uncertainty import Instrument

MOST_BYTES = 100_000
STANDARD_ATMOSPHERE = "standard-atmosphere"  # stands for a barometer that nobody read

# Key of [limits] -> the column that it limits
LIMITED_COLUMNS = {
    **{column + ending: column for column in NUMBER_COLUMNS for ending in ("", "_low_idle", "_high_idle", "_load")},
    "low_idle_speed": "engine_speed",
    "high_idle_speed": "engine_speed",
}


@dataclass(frozen=True)
class RunFacts:
    """The table [run]."""

    title: str = ""
    invented: bool = False
    date: str | None = None
    units: str = "us"


@dataclass(frozen=True)
class Site:
    """The table [site]; elevation in m."""

    elevation: float | None = None
    barometer: str = "station"


@dataclass(frozen=True)
class Engine:
    """The table [engine], in SI."""

    displacement: float | None = None
    stroke: float | None = None
    cylinders: int | None = None
    strokes: int = 4
    aftercooler: str | None = None
    egr: bool = False
    throttle: bool = False
    wastegate: bool = False
    turbochargers: int = 1
    stages: int = 1
    intercooler: bool = False
    volumetric_efficiency: Stated | None = None
    compression_ratio: float | None = None
    fuel: str = "diesel"
    fuel_lower_heating_value: float | None = None
    fuel_density: float | None = None
    model: str | None = None  # the file beside bench.toml of an engine that `turbomath fit` has made


@dataclass(frozen=True)
class Design:
    """The table [design]: what the maker or the instructor expects, in SI."""

    compressor_efficiency: Stated | None = None
    effectiveness: Stated | None = None
    cooler_pressure_loss: Stated | None = None


@dataclass(frozen=True)
class Bench:
    """Everything bench.toml says.

    `instruments` maps a column to its `Instrument`. `limits` maps a key to (low, high) in SI, infinite
    where open; those in `gauge_limits` count from the barometer. `stated` holds "table.key" of all that
    was written, the rest are defaults.
    """

    file: str
    run: RunFacts = RunFacts()
    site: Site = Site()
    engine: Engine = Engine()
    design: Design = Design()
    rated: Rated = field(default_factory=Rated)
    air_meter: AirMeter = field(default_factory=AirMeter)
    logger: Logger = field(default_factory=Logger)
    instruments: dict[str, Instrument] = field(default_factory=dict)
    limits: dict[str, tuple[float, float]] = field(default_factory=dict)
    gauge_limits: frozenset[str] = frozenset()
    stated: frozenset[str] = frozenset()

    def instrument(self, column: str) -> Instrument:
        """Return the instrument of a column; what bench.toml leaves out is as a shop usually has it."""
        found = self.instruments.get(column) or self.instruments.get(of_bank(column, BANKS[0]), Instrument())
        if says_accuracy(found):
            return found
        said = {entry.name: getattr(found, entry.name) for entry in dataclasses.fields(found)}
        return dataclasses.replace(usual_instrument(column), **{name: value for name, value in said.items() if value})

    def assumed_instruments(self, columns: Iterable[str]) -> tuple[str, ...]:
        """Return those of *columns* whose accuracy bench.toml does not state, so that a report can say so."""
        numbers = (column for column in columns if column in NUMBER_COLUMNS)
        return tuple(column for column in numbers if not says_accuracy(self.instruments.get(column, Instrument())))

    def station_pressure(self, barometer: Values) -> Any:
        """Return station pressure [Pa] from barometer readings [Pa], by the kind of barometer the site has."""
        corrected = self.site.barometer == "sea-level"
        return atmosphere.station_pressure(barometer, self._height()) if corrected else barometer

    @property
    def pressure_without_barometer(self) -> float:
        """Station pressure [Pa] where no barometer was read; `nan` unless bench.toml takes that of the elevation."""
        return self.standard_pressure if self.site.barometer == STANDARD_ATMOSPHERE else math.nan

    @property
    def standard_pressure(self) -> float:
        """Pressure of the standard atmosphere at the site [Pa]."""
        return atmosphere.pressure(self._height())

    def _height(self):
        if self.site.elevation is None:
            place = Place(self.file, column="[site] elevation")
            kind = {"sea-level": "corrected to sea level"}.get(self.site.barometer, "that of the standard atmosphere")
            expected = f"the elevation of the site, since the barometer is {kind}"
            raise place.refusal("none", expected, 'Add it to bench.toml, such as elevation = "350 m".')
        return self.site.elevation


# Table -> its record, and the reader of each of its keys
_TABLES = {
    "run": (
        RunFacts,
        {
            "title": amounts.words,
            "invented": amounts.yes_or_no,
            "date": amounts.day,
            "units": amounts.one_of("us", "si"),
        },
    ),
    "site": (
        Site,
        {
            "elevation": amounts.amount("elevation"),
            "barometer": amounts.one_of("station", "sea-level", STANDARD_ATMOSPHERE),
        },
    ),
    "engine": (
        Engine,
        {
            "displacement": amounts.amount("displacement"),
            "stroke": amounts.amount("stroke"),
            "cylinders": amounts.count,
            "strokes": amounts.one_of(2, 4),
            "aftercooler": amounts.one_of(*AFTERCOOLERS),
            "egr": amounts.yes_or_no,
            "throttle": amounts.yes_or_no,
            "wastegate": amounts.yes_or_no,
            "turbochargers": amounts.one_of(1, 2),
            "stages": amounts.one_of(1, 2),
            "intercooler": amounts.yes_or_no,
            "volumetric_efficiency": amounts.stated("volumetric_efficiency"),
            "compression_ratio": amounts.amount("compression_ratio"),
            "fuel": amounts.words,
            "fuel_lower_heating_value": amounts.amount("fuel_lower_heating_value"),
            "fuel_density": amounts.amount("fuel_density"),
            "model": amounts.file_beside(".toml"),
        },
    ),
    "design": (Design, {entry.name: amounts.stated(entry.name) for entry in dataclasses.fields(Design)}),
    "rated": (Rated, rated.READERS),
    "air_meter": (AirMeter, air_meter.READERS),
    "logger": (Logger, logger.READERS),
}
_A_COLUMN = "a column of the readings, with underscores"
_LIMITS = {key: amounts.limit(column) for key, column in LIMITED_COLUMNS.items()}
_INSTRUMENTS = {column: functools.partial(instrument, column) for column in NUMBER_COLUMNS}


def read_bench(path: Path | str) -> Bench:
    """Return the `Bench` of a bench.toml, or refuse it with the key and the nearest known spelling."""
    place = Place(str(path))
    content = toml(plain_text(path, MOST_BYTES), place, 'displacement = "12.0 L"')
    amounts.closed(content, (*_TABLES, "instruments", "limits"), place)
    records = {name: record(**_table(content, name, readers, place)) for name, (record, readers) in _TABLES.items()}
    check_rated(records["rated"], content.get("rated", {}), place)
    check_air_meter(records["air_meter"], content.get("air_meter", {}), place)
    limits = _table(content, "limits", _LIMITS, place)
    return Bench(
        str(path),
        **records,
        instruments=_table(content, "instruments", _INSTRUMENTS, place),
        limits=limits,
        gauge_limits=frozenset(key for key in limits if _is_gauge(key, content["limits"][key])),
        stated=frozenset(f"{name}.{key}" for name, table in content.items() for key in table),
    )


def _table(content, name, readers, place):
    """Return {key: what its reader makes of it} for one table."""
    table = content.get(name, {})
    expected = _A_COLUMN if name in ("instruments", "limits") else ""
    amounts.closed(table, readers, place.at(column=f"[{name}]"), expected)
    spot = "[instruments.{}]" if name == "instruments" else f"[{name}] {{}}"
    return {key: readers[key](value, place.at(column=spot.format(key))) for key, value in table.items()}


def _is_gauge(key, text):
    return amounts.says_gauge(text, LIMITED_COLUMNS[key])
