"""One table of a TOML file that an instructor writes: every key is known, each value is what it must be, or refused."""

from collections.abc import Collection
from datetime import date, datetime
from difflib import get_close_matches
from pathlib import Path
from typing import Any, Self

from turbomath.table.errors import RefusedFileError

MOST_LISTED = 60
_CORRECT = "Correct it in the file."


class StrictTable:
    """A table whose keys are all known; each method takes one key out of it, or refuses it with its place.

    Parameters
    ----------
    path : Path
        The file, for refusals.
    table : dict
        What TOML gives.
    keys : collection of str
        The names that may stand in it; any name may where there are none.
    place : str
        Where it stands in the file, such as "question 2 ".
    """

    def __init__(self, path: Path | str, table: Any, keys: Collection[str], place: str = "") -> None:
        self.path, self.table, self.place = path, table, place
        if not isinstance(table, dict):
            raise self.refusal("", table, "a table of names and values")
        for key in table:
            if keys and key not in keys:
                raise self.refusal(key, key, f"one of the keys {', '.join(keys)}{nearest(key, keys)}")

    def __contains__(self, key: str) -> bool:
        return key in self.table

    def refusal(self, key: str, found: object, expected: str, action: str = _CORRECT) -> RefusedFileError:
        """Return (not raise) the refusal of a key."""
        shown = str(found).lower() if isinstance(found, bool) else found
        return RefusedFileError(self.path, shown, expected, action, column=f"{self.place}{key}".strip())

    def words(self, key: str, longest: int) -> str:
        """Return a short text of one line."""
        value = self.table.get(key, "nothing")
        good = key in self.table and isinstance(value, str) and value.isprintable() and value.strip()
        if not good or len(value) > longest:
            raise self.refusal(key, value, f"1 to {longest} letters in quotes, on one line")
        return value.strip()

    def one_of(self, key: str, options: Collection[str], usual: str | None = None) -> str:
        """Return one of a few words; without a usual one it has to be said."""
        value = self.table.get(key, usual)
        if value == usual and usual is not None:
            return usual
        if not isinstance(value, str) or value not in options:
            near = nearest(value, options) if isinstance(value, str) else ""
            found = value if key in self.table else "nothing"
            raise self.refusal(key, found, f"one of {listed(options)}, in quotes{near}")
        return value

    def yes_or_no(self, key: str) -> bool:
        """Return True or False; False where nothing is said."""
        value = self.table.get(key, False)
        if not isinstance(value, bool):
            raise self.refusal(key, value, "true or false, without quotes")
        return value

    def day(self, key: str) -> date | None:
        """Return a date, or None where nothing is said."""
        value = self.table.get(key)
        if value is None or (isinstance(value, date) and not isinstance(value, datetime)):
            return value
        try:
            return date.fromisoformat(value)
        except (TypeError, ValueError):
            raise self.refusal(key, value, "a day such as 2026-03-12, without quotes") from None

    def number(self, key: str, low: float, high: float, expected: str, usual: float | None = None) -> float:
        """Return a number above *low*, at most *high*; *usual* where nothing is said."""
        value = self.table.get(key, "nothing" if usual is None else usual)
        is_number = isinstance(value, int | float) and not isinstance(value, bool)
        if not is_number or not low < value <= high:
            raise self.refusal(key, value, f"{expected}, without quotes")
        return float(value)

    def texts(self, key: str, fewest: int, most: int, longest: int) -> tuple[str, ...]:
        """Return a list of short texts."""
        value = self.table.get(key, [])
        if not isinstance(value, list) or not fewest <= len(value) <= most:
            found = f"{len(value)} texts" if isinstance(value, list) else value
            count = f"{fewest}" if fewest == most else f"{fewest} to {most}"
            raise self.refusal(key, found, f"a list of {count} texts in quotes")
        return tuple(
            StrictTable(self.path, {f"{key} {number}": one}, (), self.place).words(f"{key} {number}", longest)
            for number, one in enumerate(value, 1)
        )

    def inner(self, key: str, keys: Collection[str] = ()) -> Self:
        """Return a table within this one; an empty one where nothing is said."""
        return type(self)(self.path, self.table.get(key, {}), keys, f"{self.place}{key} ")

    def tables(self, key: str, keys: Collection[str], most: int, called: str, fewest: int = 1) -> tuple[Self, ...]:
        """Return a list of tables within this one, each *called* so with its number."""
        value = self.table.get(key, [])
        if not isinstance(value, list) or not fewest <= len(value) <= most:
            found = f"{len(value)} {key}" if isinstance(value, list) else value
            raise self.refusal(key, found, f"{fewest} to {most} tables, each headed [[{key}]]")
        for one in value:
            if not isinstance(one, dict):
                raise self.refusal(key, one, f"tables, each headed [[{key}]]")
        return tuple(
            type(self)(self.path, one, keys, f"{self.place}{called} {number} ") for number, one in enumerate(value, 1)
        )


def listed(options: Collection[str]) -> str:
    """Return names as a list; of very many how many there are, and where they stand."""
    if len(options) <= MOST_LISTED:
        return ", ".join(options)
    return f"{len(options)} names of the kit, which 'turbomath handbook' lists, such as {next(iter(options))}"


def nearest(text: str, options: Collection[str]) -> str:
    """Return in words which of some names is nearest to a text; "" if none is near."""
    near = get_close_matches(text, options, 1)
    return f"; the nearest is '{near[0]}'" if near else ""
