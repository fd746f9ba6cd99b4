"""What a look at the readings turns up: one record for limits, checks and notes alike, as text and as JSON."""

import json
from collections import Counter
from collections.abc import Iterable
from dataclasses import asdict, dataclass

from turbomath.table.banks import COLUMNS_OF_BANKS
from turbomath.table.quantities import QUANTITIES

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


def line(flag: Flag) -> str:
    """Return a flag on one line: LEVEL | point P | column | check N | reason | what to do."""
    point = f"point {flag.point}" if flag.point else "run"
    parts = (flag.level.upper(), point, flag.column.replace("_", " "), f"check {flag.check}", flag.reason, flag.action)
    return " | ".join(" ".join(part.replace("|", "/").split()) for part in parts)


def tally(flags: Iterable[Flag]) -> str:
    """Return how many flags of each level but notes there are: "0 limit, 2 red, 1 amber"."""
    counts = Counter(flag.level for flag in flags)
    return ", ".join(f"{counts[level]} {level}" for level in LEVELS if level != "note")


def doubtful_points(flags: Iterable[Flag]) -> dict[str, tuple[str, ...]]:
    """Return what to look at first, each once, in its order.

    "red" and "banks" hold the labels of points with a reading that cannot be and with banks that differ, "fits" what
    is said of red readings that fit another unit: "boost fits psi abs"; "amber" the readings of all other amber flags.
    """
    flags = tuple(flags)
    at = [flag for flag in flags if flag.point]
    fits = [
        f"{QUANTITIES[flag.column].plain_name} fits {flag.fits_unit}"
        for flag in at
        if flag.level == "red" and flag.fits_unit
    ]
    red = [flag.point for flag in at if flag.level == "red"]
    apart = [flag.point for flag in at if flag.level == "amber" and flag.column in COLUMNS_OF_BANKS]
    odd = [flag.column for flag in flags if flag.level == "amber" and flag.column not in COLUMNS_OF_BANKS]
    found = {"red": red, "banks": apart, "fits": fits, "amber": [QUANTITIES[name].plain_name for name in odd]}
    return {what: tuple(dict.fromkeys(names)) for what, names in found.items()}


def as_text(flags: Iterable[Flag]) -> str:
    """Return all flags, a line each, and the tally as the last line."""
    return "\n".join([*(line(flag) for flag in flags), tally(flags)])


def as_json(flags: Iterable[Flag]) -> str:
    """Return all flags and their number by level as JSON."""
    counts = Counter(flag.level for flag in flags)
    found = {"flags": [asdict(flag) for flag in flags], "counts": {level: counts[level] for level in LEVELS}}
    return json.dumps(found, indent=2, ensure_ascii=False)
