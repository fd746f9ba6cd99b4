"""A logger's file followed while it grows: its last row, and the steady stretches that it offers as points.

Nothing is taken by itself: a stretch becomes a point when somebody takes it, and is then entered like any reading.
"""

import re
import time
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from turbomath import units
from turbomath.disk.growing import Growing
from turbomath.disk.plain_files import Place, decoded
from turbomath.lab.entry.entry_run import EntryRun, Told
from turbomath.lab.entry.grid import CONDITION, PASSES
from turbomath.lab.run import log_time, steady
from turbomath.lab.run.amounts import unit_is_gauge
from turbomath.lab.run.bench import Bench
from turbomath.lab.run.channels import NUMBER_COLUMNS
from turbomath.lab.run.logger import TIME
from turbomath.lab.run.logger_lines import LogLines
from turbomath.table.errors import TurbomathError
from turbomath.table.quantities import QUANTITIES

EVERY = 2.0  # s between two searches for steady stretches, which take longer than a look
MOST_ROWS = 200_000
MOST_OFFERED = 12
INVENTED, LOAD, NO_LOAD = "INVENTED", "load", 0.05  # of rated load: below it an engine may be idling
BEGAN_ANEW = "The file began anew; what it held before is no longer offered."
GOES_ON = "The logger began another file under this name; the rows of the one before are kept."
_CLOCK = re.compile(r"\d{1,2}:\d{2}:\d{2}(?:\s*[AaPp]\.?[Mm]\.?)?")


@dataclass(frozen=True)
class Offer:
    """A steady stretch: its number, when it began and ended as the file says, and the mean of each column there."""

    number: int
    first: str
    last: str
    means: dict[str, float]


class LiveLog:
    """A growing file of a logger.

    Parameters
    ----------
    path : path
        The file; it need not be there yet.
    bench : Bench
        Its [logger] says what the columns are.
    clock : function
        Seconds that run on, for how often stretches are looked for.

    Attributes
    ----------
    unit_of : dict
        Column, or "time" -> its unit in the file; empty as long as its head has not come.
    values : dict
        Column -> its numbers as the file has them, in its own unit, `nan` where one is missing.
    taken : dict
        The beginning of a stretch -> the point that it was entered as.
    """

    _offered: tuple[int, float, tuple[Offer, ...]]

    def __init__(self, path: Path | str, bench: Bench, clock: Callable[[], float] = time.monotonic) -> None:
        self.path, self._logger, self._clock = Path(path), bench.logger, clock
        self._growing, self.said, self.invented = Growing(path), "", False
        self._begin()

    @property
    def rows(self) -> int:
        """How many readings have come."""
        return len(self._times)

    @property
    def last(self) -> list[tuple[str, str, str]]:
        """(column, text, unit) of the last row, without what is missing there."""
        return [(name, self._last[name], unit) for name, unit in self._columns() if self._last.get(name)]

    def look(self) -> bool:
        """Take up the lines that have come since the last look; return whether there were any.

        Raises
        ------
        OSError, TurbomathError
            If the file cannot be read, or has no head that [logger] fits.
        """
        news = self._growing.look()
        if news.begun_anew:
            self._begin_anew(news.moved)
        if news.lines:
            self._take_up(news.lines)
        return bool(news.lines) or news.begun_anew

    def offers(self) -> tuple[Offer, ...]:
        """Return the last steady stretches, the oldest first; looked for now and then, as that takes longer."""
        now = self._clock()
        if self.rows != self._offered[0] and now - self._offered[1] >= EVERY:
            self._offered = self.rows, now, self._stretches()
        return self._offered[2]

    def take(self, number: int, entries: EntryRun, reader: str = "", point: str = "") -> Told:
        """Enter the stretch of that number as the next empty point of its condition, or as second pass of a *point*.

        Beside a gauge read by hand, the check of repeated passes then says whether the two fit, within their ±.
        """
        offer = next((one for one in self.offers() if one.number == number), None)
        if offer is None:
            return Told(False, f"There is no stretch {number} any more. Look at the list again.")
        twice, kept = point in beside(entries), 0
        row = f"{point}{PASSES[1]}" if twice else _next_row(entries, self._condition(offer, entries.bench), reader)
        if not row:
            return Told(False, "There is no room for another point. Begin another folder.")
        for column in entries.grid.columns:
            text = self._text(offer, column.name, column.unit)
            kept += bool(text) and entries.enter(row, column.name, text, reader, look=False).saved
        remark = f"{INVENTED}, " * self.invented + f"from {self.path.name}, {offer.first} to {offer.last}"
        entries.enter(row, "remark", remark, reader, look=False)
        self.taken[offer.first] = row[:-1]
        return Told(bool(kept), f"Point {row[:-1]}: {kept} readings taken from {self.path.name}.")

    def _begin_anew(self, moved: bool) -> None:
        """Begin with another file under the name; the rows of one that was only moved stay, if their columns do."""
        if moved and self.unit_of:
            self._lines, self.said = LogLines(self._logger, self._place), GOES_ON
        else:
            self._begin()
            self.said = BEGAN_ANEW

    def _begin(self) -> None:
        self._place, self.unit_of = Place(str(self.path)), dict[str, str]()
        self._lines = LogLines(self._logger, self._place)
        self._times: list[str] = []
        self.values: dict[str, list[float]] = {}
        self._last: dict[str, str] = {}
        self.taken: dict[str, str] = {}
        self._offered = (0, -EVERY, ())

    def _take_up(self, raw):
        texts = decoded(b"\n".join(raw), self._place).split("\n")
        self.invented = self.invented or (not self._lines.head and INVENTED in texts[0])
        found = self._lines.feed(texts)
        if self._lines.head and self.unit_of != self._lines.columns:
            self._take_up_head()
        if self._lines.other_unit:
            self.said = f"Left out: {self._lines.other_unit.refusal(self._place)}"
        for _, cells in found:
            if self.rows >= MOST_ROWS:
                raise TurbomathError(f"{self.path.name}: more than {MOST_ROWS:,} rows. Begin another file.")
            self._last = dict(zip(self.unit_of, cells, strict=True))
            self._times.append(self._last.get(TIME, ""))
            for name, _ in self._columns():
                self.values.setdefault(name, []).append(_number(self._last[name]))

    def _take_up_head(self):
        """Keep which columns there are; rows of others, from a file before, are kept no longer."""
        lines = self._lines
        if self.rows:
            self._begin()
            self._lines, self.said = lines, BEGAN_ANEW
        self.unit_of = lines.columns

    def _columns(self):
        return [(name, unit) for name, unit in self.unit_of.items() if name in NUMBER_COLUMNS]

    def _stretches(self):
        seconds = log_time.seconds(self._times, self.unit_of.get(TIME, "")) if self.rows > steady.FEWEST else None
        judged = {
            name: np.asarray(units.to_si(np.array(self.values[name]), unit, name))
            for name, unit in self._columns()
            if name in steady.DRIFTS and np.isfinite(self.values[name]).any()
        }
        if seconds is None or not any(name in judged for name in steady.TEMPERATURES):
            return ()
        found = list(enumerate(steady.stretches(seconds, judged), 1))[-MOST_OFFERED:]
        values = {name: np.array(column) for name, column in self.values.items()}
        return tuple(
            Offer(turn, self._when(one.start), self._when(one.stop - 1), _means(values, one)) for turn, one in found
        )

    def _condition(self, offer, bench):
        """Return an idle where the load is none and the speed is within the maker's band of it, else load."""
        units_of = self.unit_of
        speed, load = (
            float(units.to_si(offer.means[name], units_of[name], name)) if name in offer.means else np.nan
            for name in ("engine_speed", "load")
        )
        for idle in ("low idle", "high idle"):
            low, high = bench.limits.get(f"{idle.replace(' ', '_')}_speed", (np.nan, np.nan))
            if low <= speed <= high and not load > NO_LOAD:
                return idle
        return LOAD

    def _when(self, row):
        """Return the time of a row in few words: hours, minutes and seconds of a date, or the number with its unit."""
        day = _CLOCK.search(self._times[row])
        return day[0] if day else f"{self._times[row]} {self.unit_of.get(TIME, '')}".strip()

    def _text(self, offer, name, unit):
        """Return the mean of a column in the unit of the grid; "" where there is none, or gauge stands for absolute."""
        value, own = offer.means.get(name, np.nan), self.unit_of.get(name, "")
        if not unit or not np.isfinite(value):
            return ""
        quantity = name
        if QUANTITIES[name].kind == "pressure":
            if unit_is_gauge(own, name) != unit_is_gauge(unit, name):
                return ""
            quantity = "boost" if unit_is_gauge(own, name) else name
        shown = units.from_si(units.to_si(value, own, quantity), unit, quantity)
        return np.format_float_positional(float(shown), 4, fractional=False, trim="-")


def _means(values: dict[str, NDArray], one: slice) -> dict[str, float]:
    parts = {name: column[one][np.isfinite(column[one])] for name, column in values.items()}
    return {name: float(part.mean()) for name, part in parts.items() if part.size}


def _number(text: str) -> float:
    try:
        return float(text.replace("−", "-"))
    except ValueError:
        return np.nan


def beside(entries: EntryRun) -> list[str]:
    """Return the points that were read once, beside which a stretch may stand as their second pass."""
    filled = {row for (row, column), text in entries.texts.items() if text.strip() and column != CONDITION}
    rows = entries.grid.rows
    return [
        row.point
        for row in rows
        if row.reading_pass == PASSES[0] and row.key in filled and row.point + PASSES[1] not in filled
    ]


def _next_row(entries: EntryRun, condition: str, reader: str) -> str:
    """Return the first pass of the first point of that condition that is empty; add one where there is none."""
    for _ in range(2):
        filled = {row for (row, column), text in entries.texts.items() if text.strip() and column != CONDITION}
        for row in entries.grid.rows:
            if row.reading_pass == PASSES[0] and row.condition == condition and row.key not in filled:
                return row.key
        if not entries.add_point(condition, reader).saved:
            break
    return ""
