"""The column of time of a logger, in seconds: plain numbers with their unit, a time of day, or date and time.

Date and time are those of ISO 8601, with a zone in every row or in none.
"""

import re
from collections.abc import Sequence
from datetime import datetime

import numpy as np
from numpy.typing import NDArray

from turbomath import units
from turbomath.table.errors import OutOfRangeError, UnitError

DAY, HALF_A_DAY = 86_400.0, 43_200.0
_PLAIN = re.compile(r"\d{1,9}(?:\.\d{1,9})?", re.ASCII)  # read at once; any other number by the kit's reader
_CLOCK = re.compile(r"(\d{1,2}):(\d{2})(?::(\d{2}(?:[.,:]\d{1,9})?))?")


def seconds(cells: Sequence[str], unit: str) -> NDArray[np.float64] | None:
    """Return the time of each row [s], counted on past midnight; None where a cell is neither."""
    try:
        read = _numbers(cells, unit) if unit else _clock(cells) if _CLOCK.fullmatch(cells[0].strip()) else _dates(cells)
    except (OutOfRangeError, UnitError, ValueError):
        return None
    return None if read is None or not np.isfinite(read).all() else read


def _numbers(cells, unit):
    typed = [float(cell) if _PLAIN.fullmatch(cell) else units.number(cell, decimal=".") for cell in cells]
    return np.asarray(units.to_si(np.array(typed), unit, "fuel_time"))


def _clock(cells):
    found = [_CLOCK.fullmatch(cell.strip()) for cell in cells]
    if not all(found):
        return None
    parts = (one.groups(default="0") for one in found if one)
    read = np.array([3600.0 * int(h) + 60.0 * int(m) + float(re.sub("[,:]", ".", s)) for h, m, s in parts])
    return read + DAY * np.cumsum(np.diff(read, prepend=read[:1]) < -HALF_A_DAY)


def _dates(cells):
    """Read dates with their time; a zone in some rows only leaves open which hour is meant."""
    found = [datetime.fromisoformat(cell.strip().replace(",", ".")) for cell in cells]
    zoned = {one.tzinfo is not None for one in found}
    if len(zoned) > 1:
        return None
    return np.array([(one - found[0]).total_seconds() for one in found])
