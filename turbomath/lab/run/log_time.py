"""The column of time of a logger, in seconds: plain numbers with their unit, a time of day, or date and time.

A time of day has 24 hours, or AM or PM in every row. Date and time are those of ISO 8601, with a zone in every row or
in none; of any other date nobody can tell day from month, and it only says when another day begins.
"""

import itertools
import re
from collections.abc import Sequence
from datetime import datetime

import numpy as np
from numpy.typing import NDArray

from turbomath import units
from turbomath.table.errors import OutOfRangeError, UnitError

DAY, HALF_A_DAY = 86_400.0, 43_200.0
_PLAIN = re.compile(r"\d{1,9}(?:\.\d{1,9})?", re.ASCII)  # read at once; any other number by the kit's reader
_CLOCK = re.compile(r"(\d{1,2}):(\d{2})(?::(\d{2}(?:[.,:]\d{1,9})?))?(?:\s*([AaPp])\.?[Mm]\.?)?")
_DATED = re.compile(r"(\d{1,4}([-/.])[A-Za-z\d]{1,3}\2\d{1,4}),?\s+(\d.*)")


def seconds(cells: Sequence[str], unit: str) -> NDArray[np.float64] | None:
    """Return the time of each row [s], counted on past midnight; None where a cell is neither."""
    try:
        read = _numbers(cells, unit) if unit else _of_day(cells)
    except (OutOfRangeError, UnitError, ValueError):
        return None
    return None if read is None or not np.isfinite(read).all() else read


def _numbers(cells, unit):
    typed = [float(cell) if _PLAIN.fullmatch(cell) else units.number(cell, decimal=".") for cell in cells]
    return np.asarray(units.to_si(np.array(typed), unit, "fuel_time"))


def _of_day(cells):
    if _CLOCK.fullmatch(cells[0].strip()):
        return _clock(cells)
    try:
        return _dates(cells)
    except ValueError:
        return _dated(cells)


def _clock(cells):
    found = [_CLOCK.fullmatch(cell.strip()) for cell in cells]
    if not all(found):
        return None
    parts = [one.groups(default="0") for one in found if one]
    if len({half == "0" for *_, half in parts}) > 1:
        return None  # of some rows nobody knows which half of the day
    read = np.array(
        [3600.0 * _hour(h, half) + 60.0 * int(m) + float(re.sub("[,:]", ".", s)) for h, m, s, half in parts]
    )
    return read + DAY * np.cumsum(np.diff(read, prepend=read[:1]) < -HALF_A_DAY)


def _hour(text, half):
    """Return the hour of 24; `nan` for one that no clock with AM and PM shows."""
    hour = int(text)
    if half == "0":
        return hour
    return hour % 12 + 12 * (half in "Pp") if 1 <= hour <= 12 else np.nan


def _dated(cells):
    """Read the time of day behind dates of any order; another date is another day, midnight or not."""
    found = [_DATED.fullmatch(cell.strip()) for cell in cells]
    read = _clock([one[3] for one in found if one]) if all(found) else None
    if read is None:
        return None
    dates = [one[1] for one in found if one]
    turned = np.array([False, *(one != other for one, other in itertools.pairwise(dates))])
    midnight = np.diff(read // DAY, prepend=0.0) > 0
    return None if (midnight & ~turned).any() else read + DAY * np.cumsum(turned & ~midnight)


def _dates(cells):
    """Read dates with their time; a zone in some rows only leaves open which hour is meant."""
    found = [datetime.fromisoformat(cell.strip().replace(",", ".")) for cell in cells]
    zoned = {one.tzinfo is not None for one in found}
    if len(zoned) > 1:
        return None
    return np.array([(one - found[0]).total_seconds() for one in found])
