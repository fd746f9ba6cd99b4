"""Seat codes: short names that are safe as the name of a folder on every machine; and the file that lists them."""

import re
from dataclasses import dataclass
from pathlib import Path

from turbomath.disk import plain_files
from turbomath.disk.plain_files import Place
from turbomath.homework.marking import tables
from turbomath.table.errors import OutOfRangeError, short

COLUMNS = ("seat", "student")
MOST_SEATS, MOST_BYTES = 2_000, 1_000_000
LONGEST_STUDENT = 100
EXPECTED = "1 to 24 of the letters A to Z, digits, - and _, with a letter or digit first"
_ACTION = "Write it so; names of students go into a second column, under the head seat,student."
_SEAT = re.compile(r"[A-Za-z0-9][A-Za-z0-9_-]{0,23}", re.ASCII)
DEVICES = {"con", "prn", "aux", "nul", *(f"{name}{digit}" for name in ("com", "lpt") for digit in range(10))}


@dataclass(frozen=True)
class Seat:
    """A seat, and who sits there ("" where it is not said)."""

    code: str
    student: str = ""


def seat(text: object) -> str:
    """Return a seat code as it is, or refuse it.

    Raises
    ------
    OutOfRangeError
        If it could not be the name of a folder on every machine, or could lead out of one.
    """
    if not isinstance(text, str) or not _SEAT.fullmatch(text):
        raise OutOfRangeError(f"seat: found {short(text)!r}, expected {EXPECTED}. Write it so.")
    if text.casefold() in DEVICES:
        raise OutOfRangeError(f"seat: found {text!r}, which Windows keeps for a device. Choose another.")
    return text


def read_seats(path: Path | str) -> tuple[Seat, ...]:
    """Return the `Seat` of every row of a file: one seat a line, or a head with the columns seat and student.

    Raises
    ------
    RefusedFileError
        With the row, what was found, what was expected and what to do.
    """
    rows, place = _rows(path), Place(str(path))
    if not 1 <= len(rows) <= MOST_SEATS:
        raise place.refusal(f"{len(rows):,} seats", f"1 to {MOST_SEATS:,}", "Write one seat a line, such as A07.")
    found = tuple(Seat(seat_at(code, where), _student(student, where)) for where, code, student in rows)
    _refuse_twice(found, [where for where, _, _ in rows])
    return found


def _rows(path):
    """Return (place, seat, student) of every row that is not blank."""
    lines = plain_files.text(path, most_bytes=MOST_BYTES).splitlines()
    first = next((line for line in lines if line.strip()), "")
    if "seat" not in re.split(r'[\s,;"]+', first.casefold()):
        place = Place(str(path))
        return [(place.at(row=row), line.strip(), "") for row, line in enumerate(lines, 1) if line.strip()]
    table = tables.table(path, ("seat",), most_bytes=MOST_BYTES, most_rows=MOST_SEATS)
    other = next((name for name in table.head if name not in COLUMNS), None)
    if other:
        raise table.place.at(column=other).refusal(other, "the columns seat and student", "Leave this column out.")
    return [(where, row["seat"], row.get("student", "")) for where, row in table.rows]


def seat_at(text: str, place: Place) -> str:
    """Return a seat code as `seat` does, or refuse it where it stands in a file."""
    try:
        return seat(text)
    except OutOfRangeError as refusal:
        device = text.casefold() in DEVICES
        action = "Windows keeps this name for a device: choose another." if device else _ACTION
        raise place.at(column="seat").refusal(text, EXPECTED, action) from refusal


def _student(text, place):
    if len(text) > LONGEST_STUDENT or not text.isprintable():
        expected = f"a name of at most {LONGEST_STUDENT} letters, on one line"
        raise place.at(column="student").refusal(text, expected, "Shorten it.")
    return text


def _refuse_twice(found, places):
    """Refuse a seat that comes again; A07 and a07 are one, since some machines make them one folder."""
    first = {}
    for one, place in zip(found, places, strict=True):
        if one.code.casefold() in first:
            expected = f"each seat once; row {first[one.code.casefold()]} has it too"
            raise place.at(column="seat").refusal(one.code, expected, "Remove one of the two.")
        first[one.code.casefold()] = place.row
