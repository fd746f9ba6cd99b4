"""A logger's file as it comes: its lines before the head skipped, its columns named once in [logger] of bench.toml.

What cannot be known is asked there once and never guessed: which column is which quantity, its unit, gauge or absolute,
the decimal mark. A half line at the end is left out and said; a number that means none is a missing one.
"""

import csv
import re
from collections.abc import Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from turbomath.disk.plain_files import Place
from turbomath.lab.run import amounts
from turbomath.lab.run.amounts import CORRECT
from turbomath.lab.run.book import SEPARATOR
from turbomath.lab.run.cells import MOST_LOGGED, Note, Sheet, sheet_text
from turbomath.lab.run.channels import NUMBER_COLUMNS
from turbomath.lab.run.headers import known_name

TIME = "time"
SEPARATORS = {"comma": ",", "semicolon": ";", "tab": "\t"}
MISSING = frozenset({"", "-", "--", "n/a", "na", "nan", "null", "logged", "overload", "ovld"})
NONE_MEANT = frozenset({-9.9e37, 9.9e37, 2147483647.0, -2147483647.0, -2147483617.0, -2147483648.0})
DEEPEST = 100  # lines before the head
MOST_TOLD, LONGEST_HEAD = 5, 4_000
_NAMED = re.compile(r"(.*?)\s*(?:\[\s*([^\[\]]*?)\s*\])?", re.DOTALL)
_NUMBER = re.compile(r"[-+−]?\d[\d.,]*(?:[eE][-+]?\d+)?")
_ASK = 'name its columns under [logger.columns] in bench.toml, such as boost = { head = "Boost", unit = "psi" }'


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
        found[name] = tuple(amounts.words(table.get(key, ""), spot).strip() for key in ("head", "unit"))
    return found


def _missing(value: Any, place: Place) -> tuple[str, ...]:
    if not isinstance(value, list) or not all(isinstance(one, str) for one in value):
        raise place.refusal(amounts.written(value), 'a list of texts, such as ["-99", "OPEN"]', CORRECT)
    return tuple(value)


READERS = {
    "columns": _columns,
    "decimal": amounts.one_of(".", ","),
    "separator": amounts.one_of(*SEPARATORS),
    "missing": _missing,
}


def read_log(path: Path | str, logger: Logger) -> Sheet:
    """Return the `Sheet` of a logger's file, its columns named as in readings.csv.

    Raises
    ------
    RefusedFileError
        If no row has the heads that [logger] names, or the file has none of the kit's.
    """
    place = Place(str(path))
    text = sheet_text(path)
    lines = text.replace("\r\n", "\n").replace("\r", "\n").split("\n")
    torn = bool(lines.pop().strip())  # behind the last line end: nobody knows whether it is whole
    separator, at = _head(lines, logger, place)
    heads = _cells(lines[at], separator)
    wanted = _wanted(heads, logger, place.at(row=at + 1))
    rows, odd = _rows(lines, at, heads, separator)
    marks, none_meant, found = MISSING | {one.strip().lower() for one in logger.missing}, 0, []
    for row, cells in rows:
        taken = [_cell(cells[index], logger.decimal, marks) for index, _ in wanted.values()]
        none_meant += taken.count(None)
        found.append((row, tuple(one or "" for one in taken)))
    if not found:
        raise place.refusal("no rows below the head", "a row for each reading", "Look whether it is the right file.")
    if len(found) > MOST_LOGGED:
        raise place.refusal(f"{len(found):,} rows", f"at most {MOST_LOGGED:,}", "Split the file.")
    names = tuple(f"{name.replace('_', ' ')} [{unit}]" if unit else name for name, (_, unit) in wanted.items())
    return Sheet(place.at(row=at + 1), SEPARATOR, names, tuple(found), tuple(_notes(torn, odd, len(heads), none_meant)))


def is_invented(path: Path | str) -> bool:
    """Return whether the first line of a logger's file says that it is INVENTED."""
    with Path(path).open("rb") as stream:
        return b"INVENTED" in stream.readline(LONGEST_HEAD)


def _notes(torn, odd, width, none_meant):
    if torn:
        yield Note("the last line was not ended and was left out", "Read the file again when the logger has stopped.")
    for row, count in odd[:MOST_TOLD]:
        yield Note(
            f"row {row} had {count} cells for {width} heads and was left out", "Look at the logger and its wires."
        )
    if len(odd) > MOST_TOLD:
        yield Note(
            f"{len(odd) - MOST_TOLD} more rows were left out in the same way", "Look at the logger and its wires."
        )
    if none_meant:
        told = f"{none_meant} cells hold a number by which a logger means none; they count as missing"
        yield Note(told, "Look for a loose thermocouple or a channel that is not wired.")


def _cells(line: str, separator: str) -> list[str]:
    return [cell.strip() for cell in next(csv.reader([line], delimiter=separator), [])]


def _head(lines: Sequence[str], logger: Logger, place: Place) -> tuple[str, int]:
    """Return the separator, and the place of the line that holds the heads."""
    marks = [SEPARATORS[logger.separator]] if logger.separator else list(SEPARATORS.values())
    wanted = {head.casefold() for head, _ in logger.columns.values()}
    for at, line in enumerate(lines[:DEEPEST]):
        for mark in marks:
            cells = _cells(line, mark)
            if wanted <= {cell.casefold() for cell in cells} if wanted else sum(map(_is_known, cells)) > 1:
                return mark, at
    named = ", ".join(head for head, _ in logger.columns.values())
    expected = f"a row with the heads {named}" if named else "a row with names of the kit, such as 'boost [psi]'"
    first = next((line for line in lines if line.strip()), "nothing")
    raise place.refusal(first.strip(), expected, f"Or {_ASK}.")


def _is_known(cell: str) -> bool:
    return known_name(_parted(cell)[0]) in (TIME, *NUMBER_COLUMNS)


def _parted(cell: str) -> tuple[str, str]:
    found = _NAMED.fullmatch(cell)
    return (found[1], found[2] or "") if found else (cell, "")


def _wanted(heads: Sequence[str], logger: Logger, place: Place) -> dict[str, tuple[int, str]]:
    """Return {column: (its place in a row, its unit)}."""
    if not logger.columns:
        parted = [_parted(head) for head in heads]
        return {known_name(words): (at, unit) for at, (words, unit) in enumerate(parted) if _is_known(heads[at])}
    found = {}
    for name, (head, unit) in logger.columns.items():
        places = [at for at, one in enumerate(heads) if one.casefold() == head.casefold()]
        if len(places) > 1:
            raise place.at(column=head).refusal("two columns of that name", "one", "Rename one of them in the file.")
        found[name] = places[0], unit
    return found


def _rows(lines: Sequence[str], at: int, heads: list[str], separator: str):
    """Return ((row, cells) of each line below the head, (row, number of cells) of those that do not fit it)."""
    rows, odd = [], []
    for row, line in enumerate(lines[at + 1 :], at + 2):
        cells = _cells(line.replace("\0", ""), separator)
        full = len(cells) - next((turn for turn, cell in enumerate(reversed(cells)) if cell), len(cells))
        if not full or cells == heads or not any(one[:1].isdigit() or one[:1] in "-+−." for one in cells if one):
            continue  # blank, the head again, a row of units
        if len(cells) < len(heads) or full > len(heads):
            odd.append((row, len(cells)))
        else:
            rows.append((row, cells))
    return rows, odd


def _cell(text: str, decimal: str, marks: frozenset[str]) -> str | None:
    """Return a cell with a decimal point, "" for a missing one, None for a number that means none."""
    if text.lower() in marks:
        return ""
    if not _NUMBER.fullmatch(text):
        return text.replace(",", ".") if decimal == "," else text
    plain = text.replace(".", "").replace(",", ".") if decimal == "," else text
    try:
        return None if float(plain.replace("−", "-")) in NONE_MEANT else plain
    except ValueError:
        return text
