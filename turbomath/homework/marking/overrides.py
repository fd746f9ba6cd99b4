"""What the instructor decided against the marker: rows that are only ever added, of which the last one counts."""

import math
from collections.abc import Mapping
from dataclasses import dataclass

from turbomath import units
from turbomath.homework.marking import answer_files, tables
from turbomath.homework.marking.answer_files import Questions
from turbomath.homework.marking.class_folder import ClassFolder
from turbomath.table.errors import OutOfRangeError

FILE = "overrides.csv"
FIELDS = ("seat", "question", "part", "points", "comment", "by", "date")
BYTES, ROWS = 2_000_000, 20_000


@dataclass(frozen=True)
class Override:
    """Points that the instructor gave for one part, and why, by whom and when, as they were written."""

    points: float
    comment: str
    by: str
    date: str

    def __str__(self) -> str:
        signed = ", ".join(word for word in (self.by, self.date) if word)
        return f"Instructor ({signed}): {self.points:g} point{'' if self.points == 1 else 's'}. {self.comment}"


def read(
    course: ClassFolder, questions: Questions, most: Mapping[tuple[str, str], float]
) -> dict[tuple[str, str, str], list[Override]]:
    """Return (seat, question, part) -> every `Override` of it in the order of the file; the last one counts.

    Parameters
    ----------
    course : Course
        The folder of the class.
    questions : dict
        The questions of the assignment by name.
    most : dict
        (question, part) -> the points that part can bring.

    Raises
    ------
    RefusedFileError
        If a row names what is not in the class, gives points that cannot be, or does not say why and by whom.
    """
    path = course.instructor / FILE
    if not tables.exists(path):
        return {}
    found: dict[tuple[str, str, str], list[Override]] = {}
    seats = tuple(course.roster())
    table = tables.table(path, FIELDS, FILE, BYTES, ROWS)
    for place, row in table.rows:
        seat = answer_files.class_seat(row["seat"], seats, place)
        key = answer_files.asked_part(row["question"], row["part"], questions, place)
        points = _points(row["points"], most[key], place.at(column="points"))
        for name in ("comment", "by", "date"):
            if not row[name]:
                raise place.at(column=name).refusal("nothing", "why, who and when", "Fill in the cell.")
        found.setdefault((seat, *key), []).append(Override(points, row["comment"], row["by"], row["date"]))
    return found


def _points(text, most, place):
    expected = f"a number from 0 to {most:g}"
    try:
        points = units.number(text)
    except OutOfRangeError:
        raise place.refusal(text, expected, "Correct the cell.") from None
    if not math.isfinite(points) or not 0 <= points <= most * (1 + 1e-9):
        raise place.refusal(text, expected, "Correct the cell.")
    return points
