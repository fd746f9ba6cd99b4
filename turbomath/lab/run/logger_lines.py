"""The lines of a logger's file, as they come: which one is the head, and which rows below it hold readings."""

import csv
import re
from collections.abc import Sequence
from typing import NamedTuple

from turbomath.disk.plain_files import Place
from turbomath.lab.run.channels import NUMBER_COLUMNS
from turbomath.lab.run.headers import known_name
from turbomath.lab.run.logger import BLANKS, SEPARATORS, TIME, Logger
from turbomath.lab.run.written_units import is_unit, same_unit
from turbomath.table.errors import RefusedFileError

MISSING = frozenset({"", "-", "--", "n/a", "na", "nan", "null", "logged", "overload", "ovld"})
NONE_MEANT = frozenset({-9.9e37, 9.9e37, 2147483647.0, -2147483647.0, -2147483617.0, -2147483648.0})
DEEPEST = 100  # lines before the head
_NAMED = re.compile(r"(.*?)\s*(?:\[\s*([^\[\]]*?)\s*\])?", re.DOTALL)
_NUMBER = re.compile(r"[-+−]?\d[\d.,]*(?:[eE][-+]?\d+)?")
_GLUED = re.compile(rf"({_NUMBER.pattern})\s*([^\d\s.,].*)")
_ASK = 'name its columns under [logger.columns] in bench.toml, such as boost = { head = "Boost", unit = "psi" }'


class OtherUnit(NamedTuple):
    """A cell that names another unit than its column has, the head above it, and the unit of the column."""

    row: int
    head: str
    cell: str
    unit: str

    def refusal(self, place: Place) -> RefusedFileError:
        """Return what is said of it."""
        action = "One of the two is wrong: correct the unit where the column is named."
        return place.at(row=self.row, column=self.head).refusal(self.cell, f"numbers in {self.unit}", action)


class LogLines:
    """What the lines of one file come to, fed a few at a time.

    Parameters
    ----------
    logger : Logger
        The table [logger] of bench.toml.
    place : Place
        The file, for refusals.

    Attributes
    ----------
    head : int
        The line of the heads, counted from 1; 0 as long as it has not come.
    columns : dict
        Column of the kit, or "time" -> its unit in this file.
    odd : list of (row, number of cells)
        Rows that do not fit the head and were left out.
    none_meant : int
        How many cells hold a number by which a logger means none.
    other_unit : OtherUnit or None
        The first cell that names another unit than its column has, behind its number or in a row of units. None such is
        read as a number.
    """

    def __init__(self, logger: Logger, place: Place) -> None:
        self.head, self.odd, self.none_meant = 0, list[tuple[int, int]](), 0
        self.other_unit: OtherUnit | None = None
        self._glued: dict[tuple[str, str], bool] = {}
        self.columns: dict[str, str] = {}
        self._logger, self._place, self._before, self._row = logger, place, list[str](), 0
        self._marks = MISSING | {one.strip().lower() for one in logger.missing}
        self._heads, self._separator, self._places = list[str](), "", list[int]()

    @property
    def width(self) -> int:
        """How many cells the head has."""
        return len(self._heads)

    def feed(self, lines: Sequence[str]) -> list[tuple[int, tuple[str, ...]]]:
        """Return (row, the cells of `columns`) of each reading in the next lines, "" for a missing one.

        Raises
        ------
        RefusedFileError
            If so many lines have come that there should have been a head.
        """
        if not self.head:
            self._before += lines
            at = self._find_head()
            if not at:
                return []
            self.head = self._row = at
            lines = self._before[at:]
        found = []
        for line in lines:
            self._row += 1
            cells = _cells(line.replace("\0", ""), self._separator)
            if self._is_reading(cells):
                pairs = zip(self.columns, self._places, strict=True)
                found.append((self._row, tuple(self._cell(name, place, cells[place]) for name, place in pairs)))
            elif self._row == self.head + 1:
                self._look_at_units(cells)
        return found

    def finished(self) -> None:
        """Refuse a file of which all lines have come, if no head was among them."""
        if not self.head:
            self._refuse_headless()

    def _is_reading(self, cells: list[str]) -> bool:
        """Return whether a row holds readings: not a blank one, the head again, or a row of units."""
        full = len(cells) - next((turn for turn, cell in enumerate(reversed(cells)) if cell), len(cells))
        if not full or cells == self._heads or not any(one[0].isdigit() or one[0] in "-+−." for one in cells if one):
            return False
        if len(cells) < self.width or full > self.width:
            self.odd.append((self._row, len(cells)))
            return False
        return True

    def _look_at_units(self, cells: list[str]) -> None:
        """Look whether a row of units below the head says another unit than the column has."""
        for (name, unit), place in zip(self.columns.items(), self._places, strict=True):
            written = cells[place].strip("()[] ") if place < len(cells) else ""
            if name != TIME and unit and written and is_unit(written, name) and not same_unit(written, unit, name):
                self._other(name, place, cells[place])

    def _other(self, name: str, place: int, cell: str) -> None:
        self.other_unit = self.other_unit or OtherUnit(self._row, self._heads[place], cell, self.columns[name])

    def _is_own_unit(self, name: str, written: str) -> bool:
        key = name, written
        if key not in self._glued:
            unit = self.columns[name]
            self._glued[key] = bool(unit) and same_unit(written, unit, "fuel_time" if name == TIME else name)
        return self._glued[key]

    def _cell(self, name: str, place: int, text: str) -> str:
        """Return a cell with a decimal point and without its unit, "" for a missing one."""
        if text.lower() in self._marks:
            return ""
        glued = _GLUED.fullmatch(text) if self.columns[name] and not _NUMBER.fullmatch(text) else None
        if glued and self._is_own_unit(name, glued[2]):
            text = glued[1]
        elif glued:
            self._other(name, place, text)
            return ""
        comma = self._logger.decimal == ","
        if not _NUMBER.fullmatch(text):
            return text.replace(",", ".") if comma else text
        plain = text.replace(".", "").replace(",", ".") if comma else text
        try:
            is_none = float(plain.replace("−", "-")) in NONE_MEANT
        except ValueError:
            return text
        self.none_meant += is_none
        return "" if is_none else plain

    def _find_head(self) -> int:
        """Return the line that holds the heads, counted from 1, and take it up; 0 where it has not come yet."""
        logger = self._logger
        marks = [(SEPARATORS | BLANKS)[logger.separator]] if logger.separator else list(SEPARATORS.values())
        wanted = {head.casefold() for head, _ in logger.columns.values()}
        for at, line in enumerate(self._before[:DEEPEST], 1):
            for mark in marks:
                cells = _cells(line, mark)
                if wanted <= {cell.casefold() for cell in cells} if wanted else sum(map(_is_known, cells)) > 1:
                    self._take_up(cells, mark, self._place.at(row=at))
                    return at
        if len(self._before) >= DEEPEST:
            self._refuse_headless()
        return 0

    def _refuse_headless(self) -> None:
        named = ", ".join(head for head, _ in self._logger.columns.values())
        expected = f"a row with the heads {named}" if named else "a row with names of the kit, such as 'boost [psi]'"
        first = next((line for line in self._before if line.strip()), "nothing")
        raise self._place.refusal(first.strip(), expected, f"Or {_ASK}.")

    def _take_up(self, heads: list[str], separator: str, place: Place) -> None:
        self._heads, self._separator = heads, separator
        if not self._logger.columns:
            parted = [(at, *_parted(head)) for at, head in enumerate(heads) if _is_known(head)]
            self.columns = {known_name(words): unit for _, words, unit in parted}
            self._places = [at for at, *_ in parted]
        for name, (head, unit) in self._logger.columns.items():
            places = [at for at, one in enumerate(heads) if one.casefold() == head.casefold()]
            if len(places) > 1:
                raise place.at(column=head).refusal(
                    "two columns of that name", "one", "Rename one of them in the file."
                )
            self.columns[name] = unit
            self._places.append(places[0])


def _cells(line: str, separator: str) -> list[str]:
    if separator == BLANKS["blanks"]:
        return line.split()
    try:
        return [cell.strip() for cell in next(csv.reader([line], delimiter=separator), [])]
    except csv.Error:  # a cell longer than any reading
        return [line]


def _is_known(cell: str) -> bool:
    return known_name(_parted(cell)[0]) in (TIME, *NUMBER_COLUMNS)


def _parted(cell: str) -> tuple[str, str]:
    found = _NAMED.fullmatch(cell)
    return (found[1], found[2] or "") if found else (cell, "")
