"""A run as a lesson shows it: read and checked like on the command line, with the same words where it is refused."""

from __future__ import annotations

import functools
import os
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from turbomath.disk import files
from turbomath.lab.checks.flags import doubtful_points, tally
from turbomath.lab.reduction import stations
from turbomath.lab.report import sentences, tables
from turbomath.lab.run.bench import read_bench
from turbomath.lab.run.readings import Run
from turbomath.table.errors import TurbomathError, short

if TYPE_CHECKING:
    from turbomath.lab.reduction.reduce import Reduced
    from turbomath.lab.verdicts import Verdicts


@dataclass(frozen=True, eq=False)
class Readings:
    """A run that was read, reduced and checked.

    `rows` are those in which the engine ran, `boost` what the gauge shows, or what the manifold pressure makes of it.
    """

    run: Run
    reduced: Reduced
    flags: tuple
    rows: tuple[int, ...]
    boost: np.ndarray

    def title(self) -> str:
        """Return what the run calls itself, and that it is INVENTED where it is."""
        invented = " (INVENTED: no engine was measured)" if self.run.bench.run.invented else ""
        return f"{short(self.run.bench.run.title or self.run.name, 70)}{invented}"

    def points(self) -> list[tuple[int, str]]:
        """Return (row, words) of each reading that can be picked."""
        return [(row, self._words(row)) for row in self.rows]

    def most_boost(self) -> int | None:
        """Return the row with the most boost, or None where no row can be judged."""
        boost = np.nan_to_num(self.boost, nan=-np.inf)
        return max(self.rows, key=lambda row: boost[row], default=None)

    @functools.cached_property
    def verdicts(self) -> Verdicts:
        """The three verdicts of the run, in its own units."""
        from turbomath.lab.verdicts import judge_run

        return judge_run(self.reduced, system=self.run.bench.run.units, doubtful=doubtful_points(self.flags))

    def answers(self) -> list[str]:
        """Return the lines of the three verdicts: one sentence for all, then each."""
        found = self.verdicts
        return [found.overall, *(one.sentence for one in (found.boost, found.machines, found.charge))]

    def notes(self, *, whole_run: bool = False) -> list[tuple[str, list[str]]]:
        """Return (head, lines) of the maker's limits, of the verdicts if asked for, and of what the checks found."""
        passed, unread, none_passed = sentences.limit_sentences(self.flags, self.run)
        found = sentences.findings(self.flags)
        groups = [
            (self.title(), []),
            ("Limits of the maker, first", [*(f"LIMIT {line}" for line in passed), none_passed, *unread]),
            ("What the whole run says", self.answers() if whole_run else []),
            (f"Checks of the readings: {tally(self.flags)}", [_finding(*one) for one in found]),
            (
                "Take care",
                [sentences.cannot_judge_sentence(self.reduced), sentences.unknown_columns_sentence(self.run)],
            ),
        ]
        return [
            (head, lines)
            for head, every in groups
            if (lines := [line for line in every if line]) or head == self.title()
        ]

    def write_report(self, system: str) -> Path:
        """Write the report into the work folder and return the path of its page."""
        from turbomath.lab.report import folder

        return folder.write(self.reduced, folder.folder_for(self.run, self._folder()), system)[0]

    def _folder(self):
        folder = files.work_folder().absolute() / f"{self.run.name}-report"
        if folder.resolve().is_relative_to(Path(self.run.folder).resolve()):
            raise TurbomathError(
                f"{self.run.folder}: found readings in the work folder itself, expected them in a folder of their own. "
                "Move bench.toml and readings.csv into one, and read that."
            )
        return folder

    def _words(self, row):
        load = f" {100 * self.run['load'][row]:.0f} %" if self.run["load"][row] > 0 else ""
        return f"{short(self.run.points[row], 24)}: {self.run.conditions[row] or 'reading'}{load}"


def opened(folder: str) -> Readings:
    """Return the `Readings` of a run folder or of a shipped run.

    Raises
    ------
    TurbomathError
        With the sentence that the command line shows for the same folder.
    """
    from turbomath.lab.checks import check_run  # slow to import, and needed only once there are readings
    from turbomath.lab.reduction.reduce import reduce_run
    from turbomath.lab.run.readings import read_run

    try:
        run = read_run(os.path.expanduser(folder))
        reduced = reduce_run(run)
        return Readings(run, reduced, check_run(run, reduced), tuple(tables.judged_rows(reduced)), boost_of(run))
    except OSError as trouble:
        raise TurbomathError(plain(trouble)) from None


def boost_of(run: Run) -> NDArray:
    """Return what the boost gauge shows [Pa], or what the manifold pressure makes of it."""
    at = stations.at_stations(run, stations.gauge_readings(run)[0])
    return np.where(np.isnan(run["boost"]), at.manifold_pressure - at.ambient_pressure, run["boost"])


def plain(trouble: OSError) -> str:
    """Return what the disk refused in the words of the command line."""
    place = f"{trouble.filename}: " if trouble.filename else ""
    return f"{place}{trouble.strerror or trouble}. What was there before is as it was."


def titles() -> list[tuple[str, str]]:
    """Return (name, title) of each shipped run."""
    return [
        (name, read_bench(files.shipped("data") / name / "bench.toml").run.title or name)
        for name in files.shipped_runs()
    ]


def conditions(found: Readings, row: int | None) -> dict[str, float]:
    """Return what a reading and its design say of the sliders' quantities, in SI; what is missing is left out."""
    run = found.run
    at = stations.at_stations(run, stations.gauge_readings(run)[0])
    pressure = at.ambient_pressure[row]
    values = {
        "boost": at.manifold_pressure[row] - pressure,
        "barometer": pressure,
        "ambient_temperature": at.ambient_temperature[row],
        "relative_humidity": at.relative_humidity[row],
        "intake_restriction": at.intake_restriction[row],
        "cooling_medium_temperature": at.medium_temperature[row],
        **{name: one.value[row] for name, one in found.reduced.design.items()},
    }
    return {name: float(value) for name, value in values.items() if np.isfinite(value)}


def _finding(level, told, action):
    (point, reason), *others = told
    where = f"point {point}: " if point else ""
    also = f" Also at point{'s' * (len(others) > 1)} {', '.join(point for point, _ in others)}." if others else ""
    return f"{level.upper()} {where}{reason}{also} {action}"
