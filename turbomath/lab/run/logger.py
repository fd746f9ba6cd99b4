"""The table [logger] of bench.toml: what of a logger's file cannot be known, asked once and never guessed.

Which column is which quantity, in which unit, gauge or absolute, and the decimal mark.
"""

from dataclasses import dataclass, field
from typing import Any

from turbomath.disk.plain_files import Place
from turbomath.lab.run import amounts
from turbomath.lab.run.amounts import CORRECT
from turbomath.lab.run.channels import NUMBER_COLUMNS

TIME = "time"
SEPARATORS = {"comma": ",", "semicolon": ";", "tab": "\t"}
BLANKS = {"blanks": " "}  # taken where it is said, and never looked for, as names hold blanks too


@dataclass(frozen=True)
class Logger:
    """The table [logger]: which head is which column and in which unit, the decimal mark, what stands for missing.

    `columns` maps a column of the kit, or "time", to (head, unit); it is empty where the file has the kit's names.
    """

    columns: dict[str, tuple[str, str]] = field(default_factory=dict)
    decimal: str = "."
    separator: str = ""
    missing: tuple[str, ...] = ()


def _columns(value: Any, place: Place) -> dict[str, tuple[str, str]]:
    """Read [logger.columns]: a column -> its head and its unit; a time of day has no unit."""
    place = place.at(column="[logger.columns]")
    amounts.closed(value, (TIME, *NUMBER_COLUMNS), place, "time, or a column of the readings, with underscores")
    found = {}
    for name, table in value.items():
        spot = place.at(column=f"[logger.columns] {name}")
        amounts.closed(table, ("head", "unit"), spot)
        for key in ("head", "unit"):
            if key not in table and (key == "head" or name != TIME):
                raise spot.refusal(", ".join(table) or "nothing", f"{key} as well", CORRECT)
        head, unit = (amounts.words(table.get(key, ""), spot).strip() for key in ("head", "unit"))
        found[name] = head, unit
    return found


def _missing(value: Any, place: Place) -> tuple[str, ...]:
    if not isinstance(value, list) or not all(isinstance(one, str) for one in value):
        raise place.refusal(amounts.written(value), 'a list of texts, such as ["-99", "OPEN"]', CORRECT)
    return tuple(value)


READERS = {
    "columns": _columns,
    "decimal": amounts.one_of(".", ","),
    "separator": amounts.one_of(*SEPARATORS, *BLANKS),
    "missing": _missing,
}
