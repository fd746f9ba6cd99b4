"""From the cells of one column to numbers: missing, pegged, or one plain number, and nothing in between."""

import re
from collections.abc import Iterable, Sequence

import numpy as np
from numpy.typing import NDArray

from turbomath import units
from turbomath.disk.plain_files import Place
from turbomath.lab.run import book, headers
from turbomath.lab.run.cells import Note
from turbomath.lab.run.headers import Column, is_missing
from turbomath.table.errors import OutOfRangeError, short

_PEGGED = re.compile(r"(?:≥|>\s*=?)\s*(.*)|(.*?)\s*\+", re.DOTALL)
_PLAIN = re.compile(r"-?\d{1,9}(?:\.\d{1,9})?", re.ASCII)
_EITHER_WAY = re.compile(r"[-+−]?\s*[1-9]\d{0,2}[.,]\d{3}")


def figures(column: Column, rows: Sequence[int], decimal: str, place: Place) -> tuple[NDArray, NDArray]:
    """Return two arrays in the column's own unit: the readings, and what a pegged gauge is known to have reached.

    Both are `nan` where there is nothing; a cell is in one of them at most.
    """
    readings, at_least = np.full((2, len(rows)), np.nan)
    for index, (row, cell) in enumerate(zip(rows, column.cells, strict=True)):
        if decimal == "." and _PLAIN.fullmatch(cell):  # what a logger writes, a hundred thousand times over
            readings[index] = float(cell)
        elif not is_missing(cell):
            number, pegged = bare(cell)
            number, parts = _without_per_cent(number, column)
            target = at_least if pegged else readings
            try:
                target[index] = units.number(number, decimal=decimal) / parts
            except OutOfRangeError as error:
                place = place.at(row=row, column=column.header)
                action = f"{error.action} Leave the cell empty if there is no reading."
                raise place.refusal(cell, f"a number in {column.unit}", action) from None
    return readings, at_least


def decimal_mark(
    columns: Iterable[Column], rows: Sequence[int], separator: str, place: Place
) -> tuple[str, tuple[Note, ...]]:
    """Return "." or ",", whichever the sheet's own cells prove; a point where none holds a comma among commas.

    "1,800" alone proves nothing, since it is a thousand and more to some and less than two to others. Numbers of a
    workbook have a point and say nothing of the texts beside them. Where another cell proves how it is meant, a note
    says how it was read and by which cell.
    """
    columns, in_book = list(columns), separator == book.SEPARATOR
    if separator in (",", book.SEPARATOR) and not any("," in cell for column in columns for cell in column.cells):
        return ".", ()
    proven: dict[str, tuple[int, str, str]] = {}
    doubtful = None
    for column in columns:
        for row, cell in zip(rows, column.cells, strict=True):
            number = _without_per_cent(bare(cell)[0], column)[0]
            if _EITHER_WAY.fullmatch(number):
                if "," in number or not in_book:
                    doubtful = doubtful or (row, column.header, cell)
            elif mark := _proven_mark(number):
                proven.setdefault(mark, (row, column.header, cell))
    if len(proven) == 2:
        (first_row, first_header, _), (row, header, cell) = proven.values()
        expected = f"the same decimal mark as in row {first_row}, column '{short(first_header)}'"
        action = "Write all numbers with a decimal point or all with a decimal comma."
        raise place.at(row=row, column=header).refusal(cell, expected, action)
    if doubtful and (in_book or not proven):
        row, header, cell = doubtful
        action = "Write it without that mark, or with a different number of decimals."
        raise place.at(row=row, column=header).refusal(cell, "a number that can be read in one way only", action)
    mark = next(iter(proven), ".")
    return mark, tuple(_read_by_another(doubtful, mark, proven[mark])) if doubtful else ()


def _read_by_another(doubtful, mark, proof):
    """Yield the note that a number was read as another cell of the sheet says; a point that is one needs none."""
    (row, header, cell), (proof_row, _, proof_cell) = doubtful, proof
    if "," in cell:
        number = bare(cell)[0]
        meant = number.replace(",", "" if mark == "." else ".")
        yield Note(
            f"row {row}, column '{short(header)}': '{cell}' was read as {meant}, since '{proof_cell}' in row "
            f"{proof_row} shows which mark is the decimal one",
            "Look whether that was meant, here and in every number that is written so.",
        )


def _proven_mark(number):
    """Return the decimal mark without which the text would be no number, or "" if there is none."""
    fitting = [mark for mark in ".," if mark in number and _is_number(number, mark)]
    return fitting[0] if len(fitting) == 1 else ""


def bare(cell: str) -> tuple[str, bool]:
    """Return the number in a cell without the mark of a pegged gauge, and whether there was one."""
    cell = cell.strip()
    pegged = _PEGGED.fullmatch(cell) if len(cell) <= units.LONGEST else None
    return (pegged[1] or pegged[2] or "", True) if pegged else (cell, False)


def _without_per_cent(number, column):
    """Return (number, parts): 25% is 25 in a column of per cents, and 25 of a hundred parts in one of fractions."""
    if not number.endswith("%") or not headers.is_fraction(column.unit):
        return number, 1.0
    whole, hundredth = (units.to_si(1.0, unit, column.name) for unit in (column.unit, "%"))
    return number.removesuffix("%").strip(), whole / hundredth


def _is_number(text, mark):
    try:
        units.number(text, decimal=mark)
    except OutOfRangeError:
        return False
    return True
