"""What there is to say of one cell as it is entered. Nothing is blocked: the entry is on the disk before this looks."""

from turbomath.lab.checks import findings, limits, zero_drift
from turbomath.lab.checks.flags import LEVELS, Flag
from turbomath.lab.entry.entry_sheet import LeftOut
from turbomath.lab.run.readings import Run
from turbomath.table.errors import short
from turbomath.table.quantities import QUANTITIES

UNREADABLE = 34  # the check of what a sheet leaves open


def left_out_flag(one: LeftOut, point: str) -> Flag:
    """Return the flag of a cell from which no number can be read."""
    name = QUANTITIES[one.column].plain_name if one.column in QUANTITIES else one.column
    reason = f"{name}: found {short(one.text)!r}, expected {one.expected}; it is kept as typed and used for nothing"
    return Flag("red", point, one.column, UNREADABLE, reason, one.action)


def cell_flags(run: Run, row: int, column: str, alone: Run) -> tuple[Flag, ...]:
    """Return the flags of one cell, the worst first.

    Parameters
    ----------
    run : Run
        All that was entered so far.
    row : int
        The element of the run that the cell stands in.
    column : str
        The cell's column.
    alone : Run
        The run with that row only: the maker's limits are judged on it.

    Returns
    -------
    tuple of Flag
        A limit passed first, then whatever check leans on this reading: beyond the span or pegged, a unit it would
        fit better, off zero, another pass, the order of temperatures, and all others of `turbomath.lab.checks`.
    """
    point = run.points[row]
    passed = [flag for flag in limits.limit_flags(alone) if flag.level == "limit" and flag.column == column]
    found = [
        Flag(one.level, point, one.columns[0], one.check, one.reason, one.action, one.fits_unit)
        for one in findings(run)
        if one.row == row and one.trouble and column in one.columns
    ]
    moved = [
        one.flag for one in zero_drift.drifts(run) if one.flag and one.column == column and one.flag.point == point
    ]
    flags = dict.fromkeys([*passed, *found, *moved])
    return tuple(sorted(flags, key=lambda flag: LEVELS.index(flag.level)))
