"""What a look at the readings turns up: one record for limits, checks and notes alike."""

from dataclasses import dataclass

LEVELS = ("limit", "red", "amber", "note")


@dataclass(frozen=True)
class Flag:
    """One finding: what was found, why it cannot or may not be, what to do now. No reading is ever changed.

    `level` is "limit" (safety first), "red" (cannot be), "amber" (look again) or "note". `point` and `column`
    say where ("" for the whole run), `check` is the number of the check, `fits_unit` a unit that the value
    would fit, if a slip of units is likely.
    """

    level: str
    point: str
    column: str
    check: int
    reason: str
    action: str
    fits_unit: str = ""
