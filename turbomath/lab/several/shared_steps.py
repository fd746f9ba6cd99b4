"""Several runs of one engine on one page: what they share, their results at the load steps they share, as data."""

import csv
import io
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import numpy as np
from numpy.typing import NDArray

from turbomath import units
from turbomath.disk import files
from turbomath.lab.checks.limits import limit_flags
from turbomath.lab.reduction.reduce import Reduced
from turbomath.lab.report import comparison, sentences, tables
from turbomath.lab.run.readings import Run
from turbomath.paper.page import page
from turbomath.paper.parts import Head
from turbomath.table import constants
from turbomath.table.errors import TurbomathError, short
from turbomath.table.version import __version__
from turbomath.units.rounding import with_plus_or_minus
from turbomath.units.shown import width_unit

CHARGE = (
    "boost",
    "measured_charge_gain",
    "compressor_efficiency",
    "effectiveness",
    "cooler_pressure_loss",
    "manifold_density",
)
SHAFT = (
    "expansion_ratio",
    "turbine_power",
    "shaft_power_ratio",
    "turbine_efficiency",
    "compressor_outlet_temperature_by_shaft",
)
JUDGED = (*CHARGE, *SHAFT)
WHERE_NO_THERMOMETER = {"compressor_outlet_temperature_by_shaft": "compressor_outlet_temperature"}
FEWEST, MOST = 2, 24
HIGH = 174  # px of a picture: four stand on a sheet
SAME_ENGINE = ("aftercooler", "displacement", "cylinders", "strokes")


@dataclass(frozen=True)
class Compared:
    """One quantity at one shared load step: a value [SI] and its ± (k = 2) for each run; `nan` where there is none."""

    step: str
    name: str
    values: np.ndarray
    widths: np.ndarray

    @property
    def known(self) -> NDArray:
        """The places of the runs that have a value."""
        return np.flatnonzero(np.isfinite(self.values) & np.isfinite(self.widths))


def in_tables(found: Sequence[Compared]) -> Iterator[tuple[str, list[Compared]]]:
    """Yield (title, what stands in it) of each table: a step's charge, then its shaft: no sheet has room for both."""
    for step in dict.fromkeys(one.step for one in found):
        for title, names in ((f"At {step}", CHARGE), (f"The shaft at {step}", SHAFT)):
            here = [one for one in found if one.step == step and one.name in names]
            if here:
                yield title, here


def compared(reduced: Sequence[Reduced]) -> list[Compared]:
    """Return every `Compared` of runs that at least two have, steps in the order of the first run.

    Parameters
    ----------
    reduced : sequence of Reduced
        From `turbomath.lab.reduction.reduce.reduce_run`, two or more, of one engine.

    Raises
    ------
    TurbomathError
        If there are too few or too many runs, they are not of one engine, or they share no load step.
    """
    runs = [one.run for one in reduced]
    _refuse_strangers(runs)
    found = [_compared(reduced, step, name) for step in comparison.steps(runs) for name in _judged(runs)]
    found = [one for one in found if len(one.known) >= FEWEST]
    if not found:
        raise TurbomathError(
            f"{', '.join(short(run.name, 30) for run in runs)}: found no load step that all runs share, expected the "
            "same condition and load in each, such as load 100 %. Leave out the run that has none of them."
        )
    return found


def text(one: Compared, place: int, system: str) -> str:
    """Return "value ± width" of one run, "cannot tell" where the ± says nothing of the machine."""
    value, width = one.values[place], one.widths[place]
    if width >= tables.CANNOT_JUDGE.get(one.name, np.inf):
        return tables.CANNOT_TELL
    return amount(one.name, value, width, system)


def amount(name: str, value: float, width: float, system: str) -> str:
    """Return an SI value of a quantity with its ±, in the units of *system*."""
    quantity, unit = width_unit(name, system)
    return with_plus_or_minus(
        units.from_si(float(value), units.display(name, system), name), units.from_si(float(width), unit, quantity)
    )


def judged_by(one: Compared) -> bool:
    """Return whether these gauges are good enough to speak of the quantity at all."""
    return bool(np.all(one.widths[one.known] < tables.CANNOT_JUDGE.get(one.name, np.inf)))


def head(name: str, system: str) -> Head:
    """Return the head of a column of this quantity."""
    return comparison.result_head(name, system) if name != "boost" else Head("boost", units.display("boost", system))


def page_of(reduced: Sequence[Reduced], **content: Any) -> str:
    """Return the page of several runs as HTML: limits passed first, then what *content* has."""
    runs = [one.run for one in reduced]
    passed = [f"{short(run.name)}, {words}" for run in runs for words in sentences.passed_limits(limit_flags(run))]
    colophon = [
        ("runs", ", ".join(run.name for run in runs)),
        ("kit", f"turbomath {__version__}"),
        ("constants", f"edition {constants.EDITION}"),
        ("air", ", ".join(dict.fromkeys(sentences.AIR_WORDS[one.air] for one in reduced))),
    ]
    return page(
        "several_runs.html",
        invented=any(run.bench.run.invented for run in runs),
        passed=passed,
        convention=sentences.CONVENTION,
        colophon=colophon,
        **{"faults": None, "first": "", "line": None, **content},
    )


def csv_text(rows: Iterable[Sequence[str]]) -> str:
    """Return rows of texts as a file for a spreadsheet; none of them is one that it would run."""
    out = io.StringIO(newline="")
    csv.writer(out, lineterminator="\r\n").writerows([[files.cell(one) for one in row] for row in rows])
    return "\ufeff" + out.getvalue()


def figures(name: str, value: float, width: float, system: str) -> list[str]:
    """Return [value, ±] of a quantity as bare figures in the units of *system*."""
    quantity, unit = width_unit(name, system)
    return [
        tables.six_figures(units.from_si(float(value), units.display(name, system), name)),
        tables.six_figures(units.from_si(float(width), unit, quantity)),
    ]


def at_most_boost(found: Sequence[Compared]) -> list[Compared]:
    """Return what there is of the step with the most boost: there the gauges tell most."""
    most = max((one for one in found if one.name == "boost"), key=lambda one: np.nanmean(one.values), default=found[-1])
    return [one for one in found if one.step == most.step]


def unit_of_a_difference(name: str, system: str) -> str:
    """Return the unit in which a difference is told: two per cents differ by points."""
    return {"-": "", "%": "points"}.get(unit := units.display(name, system), unit)


def write(folder: Path | str, runs: Sequence[Run], texts: Mapping[str, str]) -> list[Path]:
    """Write each text whole into *folder*, which is no run's own; return the paths."""
    folder = Path(folder)
    if any(folder.resolve().is_relative_to(Path(run.folder).resolve()) for run in runs):
        raise TurbomathError(
            f"{folder}: found a folder inside a run, expected one outside it. Give another with --out DIR."
        )
    for name, content in texts.items():
        files.write_whole(folder / name, content)
    return [folder / name for name in texts]


def _judged(runs):
    """Return what is compared: a temperature by the shaft only where no run has the thermometer."""
    read = {name for name, column in WHERE_NO_THERMOMETER.items() if any(run.has(column) for run in runs)}
    return [name for name in JUDGED if name not in read]


def _compared(reduced, step, name):
    pairs = [_value(one, name, row) for one, row in zip(reduced, step.rows, strict=True)]
    values, widths = (np.array(part, dtype=float) for part in zip(*pairs, strict=True))
    return Compared(step.name, name, values, widths)


def _value(reduced, name, row):
    if name == "boost":
        value, standard = (part[row] for part in comparison.as_read(reduced.run, "boost"))
        return value, 2 * standard
    return reduced[name].value[row], reduced[name].plus_or_minus[row]


def _refuse_strangers(runs):
    if not FEWEST <= len(runs) <= MOST:
        raise TurbomathError(
            f"found {len(runs)} runs, expected {FEWEST} to {MOST} of one engine. Name them one by one."
        )
    first = runs[0].bench.engine
    for run in runs[1:]:
        for key in SAME_ENGINE:
            here, there = getattr(run.bench.engine, key), getattr(first, key)
            if None not in (here, there) and here != there:
                raise TurbomathError(
                    f"{short(run.name, 30)}: found another {key} in bench.toml than {short(runs[0].name, 30)} has, "
                    f"expected runs of one engine ({there}, here {here}). Leave it out, or correct it."
                )
    names = [str(Path(run.folder).resolve()) for run in runs]
    if len(set(names)) < len(names):
        raise TurbomathError("found one run twice, expected each once. Leave one of them out.")
