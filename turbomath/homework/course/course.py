"""The folder of one assignment for one class: where everything lies in it, its secret, its seats, their numbers.

What students get is under `students/`; what they must not get is under `instructor/`, and only there.
"""

import csv
import functools
import io
import os
import secrets
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from pathlib import Path

from turbomath.disk.files import BYTE_ORDER_MARK, cell, write_whole
from turbomath.homework.asking import draws, variants
from turbomath.homework.course import seats
from turbomath.homework.course.assignment import Assignment, read_assignment
from turbomath.homework.marking import tables
from turbomath.table.errors import RefusedFileError

ROSTER_HEAD = ("seat", "student", "sheet code")
_SHORTEST_SECRET = 16


@dataclass(frozen=True)
class Course:
    """The places of a homework folder, and what follows from its assignment, its secret and a seat."""

    folder: Path

    def __post_init__(self) -> None:
        object.__setattr__(self, "folder", Path(self.folder))

    @property
    def students(self) -> Path:
        """The folder of all that students get."""
        return self.folder / "students"

    def student(self, seat: str) -> Path:
        """Return the folder of one seat; no seat leads out of it."""
        return self.students / seats.seat(seat)

    @property
    def class_page(self) -> Path:
        """All sheets in one print."""
        return self.folder / "class.html"

    @property
    def instructor(self) -> Path:
        """The folder of what students must not get."""
        return self.folder / "instructor"

    @property
    def key_page(self) -> Path:
        """The key: every answer, by question."""
        return self.instructor / "key.html"

    @property
    def solutions_page(self) -> Path:
        """The worked solutions, by seat."""
        return self.instructor / "solutions.html"

    @property
    def roster_file(self) -> Path:
        """Who sits where."""
        return self.instructor / "roster.csv"

    @property
    def secret_file(self) -> Path:
        """What every number follows from."""
        return self.instructor / "secret"

    @property
    def assignment_file(self) -> Path:
        """The copy of the assignment."""
        return self.instructor / "assignment.toml"

    @functools.cached_property
    def assignment(self) -> Assignment:
        """The `Assignment` that this folder was begun with."""
        return read_assignment(self.assignment_file)

    @functools.cached_property
    def secret(self) -> str:
        """The secret, as it was made when the folder was begun."""
        text = tables.text(self.secret_file).strip()
        if len(text) < _SHORTEST_SECRET:
            action = "Put it back from a copy, or begin again in a new folder."
            raise RefusedFileError(self.secret_file, "a secret cut short", "the one made here", action)
        return text

    def sheet_code(self, seat: str) -> str:
        """Return the public code of a seat's sheet."""
        whole = self.assignment
        parts = (whole.name, seats.seat(seat), whole.units, *(one.question for one in whole.questions))
        return draws.sheet_code(self.secret, ("whole sheet", *parts))

    def make_secret(self) -> None:
        """Make the folder of the instructor and the secret in it, for this user alone; one that is there stays."""
        self.instructor.mkdir(parents=True, exist_ok=True)
        self.instructor.chmod(0o700)
        if not self.secret_file.exists():
            handle = os.open(self.secret_file, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600)
            with os.fdopen(handle, "w", encoding="ascii") as stream:
                stream.write(f"{secrets.token_hex(32)}\n")
        self.secret_file.chmod(0o600)

    def write_roster(self, students: Mapping[str, str]) -> None:
        """Write who sits where: *students* is seat -> student."""
        out = io.StringIO()
        rows = csv.writer(out, lineterminator="\r\n")
        rows.writerow(ROSTER_HEAD)
        rows.writerows((seat, cell(student), self.sheet_code(seat)) for seat, student in students.items())
        write_whole(self.roster_file, BYTE_ORDER_MARK + out.getvalue())

    def roster(self) -> dict[str, tuple[str, str]]:
        """Return seat -> (student, sheet code), in the order of the file."""
        rows = tables.table(self.roster_file, ROSTER_HEAD, most_bytes=seats.MOST_BYTES, most_rows=seats.MOST_SEATS).rows
        return {seats.seat_at(row["seat"], place): (row["student"], row["sheet code"]) for place, row in rows}

    def all_variants(self, only: Iterable[str] | None = None) -> dict[str, dict[str, variants.Variant]]:
        """Return seat -> (question -> `Variant`) of every seat of the roster, or of *only* these."""
        chosen = tuple(seats.seat(one) for one in (self.roster() if only is None else only))
        secret, name, units = self.secret, self.assignment.name, self.assignment.units
        made = {
            one.question: variants.make_all(one.question, secret=secret, assignment=name, seats=chosen, units=units)
            for one in self.assignment.questions
        }
        return {seat: {name: column[place] for name, column in made.items()} for place, seat in enumerate(chosen)}
