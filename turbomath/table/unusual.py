"""Values so far from what the kit meets that they must be in another unit: a warning, and never another number."""

import functools
import sys
from collections.abc import Mapping
from typing import Any

import numpy as np

from turbomath.table.doors import from_above
from turbomath.table.errors import PACKAGE, warn_at_caller
from turbomath.table.kinds import KINDS
from turbomath.table.quantities import QUANTITIES, within


def warn_of_unusual(function: str, arguments: Mapping[str, Any]) -> None:
    """Give a `RangeWarning` for each argument that fits another unit, if a user's own line called *function*.

    The arguments are as `quantities.possible` gives them. What the kit asks of itself is not looked at: its readings
    have checks of their own.
    """
    if not _asked_from_outside():
        return
    for name, value in arguments.items():
        low, high = far_limits(name)
        if not within(value, low, high):
            values = np.asarray(value)
            for odd in values[(values < low) | (values > high)][:1]:
                _warn(function, name, float(odd))


@functools.cache
def far_limits(name: str) -> tuple[float, float]:
    """Return the limits outside which the unit of a quantity is doubted."""
    low, high = QUANTITIES[name].sensible
    far = KINDS[QUANTITIES[name].kind].far
    if far == np.inf:
        return -np.inf, np.inf
    return low / far, high * far  # none of these quantities has a usual value below 0


def _asked_from_outside() -> bool:
    """Whether the file that asks was called by a line outside this package."""
    frame = sys._getframe(2)
    file = frame.f_code.co_filename
    while frame.f_back is not None and frame.f_code.co_filename == file:
        frame = frame.f_back
    return not frame.f_code.co_filename.startswith(PACKAGE)


def _warn(function: str, name: str, value: float) -> None:
    meant = from_above("units meant")(name, value)
    if not meant:
        return
    low, high = QUANTITIES[name].sensible
    unit = QUANTITIES[name].unit
    where = "below" if value < low else "above"
    warn_at_caller(
        f"{function}: {name} {value:g} {unit} is far {where} what is usual, {low:g} to {high:g}; in "
        f"{' or '.join(meant)} it would be usual. Convert it first: turbomath.to_si({value:g}, '{meant[0]}', '{name}')."
    )
