"""A small class begun in a folder, for the tests that mark it."""

import csv
import hashlib
import io
import random

from turbomath.homework.course import hand_out, planted
from turbomath.homework.marking.answer_files import FIELDS

QUESTIONS = (("manifold_pressure_from_boost", 2), ("compressor_outlet_pressure", 4), ("two_mechanics", 1))
SEATS = ("A01", "A02", "B-7")


def begun(place, questions=QUESTIONS, seats=SEATS, head=""):
    """Return the `Course` of a class whose sheets are handed out; *head* is more of the assignment's TOML."""
    tables = "".join(f'[[questions]]\nquestion = "{name}"\npoints = {points}\n' for name, points in questions)
    (place / "assignment.toml").write_text(f'name = "week 3"\n{head}\n{tables}', encoding="utf-8")
    (place / "seats.csv").write_text("".join(f"{seat}\n" for seat in seats), encoding="utf-8")
    instructor = place / "class" / "instructor"
    instructor.mkdir(parents=True)
    secret = hashlib.sha256(place.name.encode()).hexdigest()  # the same numbers at each run of a test
    (instructor / "secret").write_text(f"{secret}\n", encoding="utf-8")
    return hand_out.write(place / "assignment.toml", place / "seats.csv", place / "class").course


def variants_of(course, seat):
    """Return question -> `Variant` of one seat, in the order of the assignment."""
    return course.all_variants((seat,))[seat]


def right_rows(course, seat):
    """Return the five cells of each part of a seat, answered right."""
    draw = random.Random(1)
    return [
        [name, part, answer, "", ""]
        for name, variant in variants_of(course, seat).items()
        for part, _, answer in planted.right(variant, draw)
    ]


def as_csv(rows, separator=",", head=FIELDS):
    """Return rows as the text of a CSV file."""
    page = io.StringIO()
    csv.writer(page, delimiter=separator, lineterminator="\r\n").writerows([head, *rows])
    return page.getvalue()


def hand_in(course, seat, content, name="answers.csv"):
    """Put what a seat hands in into its folder; return the path."""
    path = course.student(seat) / name
    path.write_bytes(content if isinstance(content, bytes) else content.encode())
    return path


def read(path):
    """Return the rows of a written table as dicts."""
    with path.open(encoding="utf-8-sig", newline="") as stream:
        return list(csv.DictReader(stream))
