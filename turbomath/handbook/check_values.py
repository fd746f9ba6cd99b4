"""The published values that the kit is held against: `data/published/check_values.csv`, one row a value.

A row holds data only. Its `arguments` are ``name=value`` pairs; a value is a number, a word (its blanks written as _),
or ``row:case`` for what the kit itself makes of another row, so that a worked example can be followed step by step.
The result is multiplied by the values in `times`, if there are any.
"""

import csv
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, fields

from turbomath import air
from turbomath.disk import files
from turbomath.handbook.subjects import SUBJECTS
from turbomath.table.errors import RefusedFileError, unwarned
from turbomath.table.formulas import Tied
from turbomath.table.sources import SOURCES

STATUSES = {  # how a value was seen: in short, and in full
    "V": ("in print", "read there, or in a copy that names it"),
    "V+C": ("in print, checked", "read there, and a library or another formula gives it too"),
    "C": ("worked out", "worked out from numbers that are printed there"),
    "M": ("from memory", "not read there; it counts for nothing"),
    "M+C": ("from memory, checked", "not read there, but a library or another formula gives it too"),
}
_ROW = "row:"


@dataclass(frozen=True)
class CheckValue:
    """One row of the file, as text."""

    case: str
    source: str
    place: str
    status: str
    function: str
    arguments: str
    times: str
    expected: str
    tolerance: str
    tolerance_kind: str
    reason: str
    note: str

    @property
    def pairs(self) -> dict[str, str]:
        """Parameter -> text of its value."""
        return dict(pair.split("=", 1) for pair in self.arguments.split())

    @property
    def leans_on(self) -> tuple[str, ...]:
        """The cases whose results go into this one."""
        named = (*self.pairs.values(), *self.times.split())
        return tuple(text.removeprefix(_ROW) for text in named if text.startswith(_ROW))


class CheckValues(Mapping[str, CheckValue]):
    """All rows by case, and what the kit makes of each."""

    def __init__(self) -> None:
        self._rows = {row.case: row for row in _read()}

    def __getitem__(self, case: str) -> CheckValue:
        return self._rows[case]

    def __iter__(self) -> Iterator[str]:
        return iter(self._rows)

    def __len__(self) -> int:
        return len(self._rows)

    def result(self, case: str) -> float:
        """Return what the kit makes of a row."""
        row = self[case]
        with unwarned():
            answer = function(row.function)(**{name: self.value(text) for name, text in row.pairs.items()})
        for factor in row.times.split():
            answer *= self.value(factor)
        return answer

    def value(self, text: str) -> float | str:
        """Return the number, the word or the kit's own result of another row that a text stands for."""
        if text.startswith(_ROW):
            return self.result(text.removeprefix(_ROW))
        try:
            return float(text)
        except ValueError:
            return text.replace("_", " ")

    def steps(self, case: str) -> list[CheckValue]:
        """Return a row and the rows that it leans on."""
        return [self[case], *(step for other in self[case].leans_on for step in self.steps(other))]

    def of(self, formula: Tied) -> list[CheckValue]:
        """Return the rows that hold a formula itself against print."""
        return [row for row in self.values() if function(row.function) == formula]

    def through(self, formula: Tied) -> list[CheckValue]:
        """Return the rows of other formulas to which this one leads up."""
        own = {row.case for row in self.of(formula)}
        return [self[case] for case in self if case not in own and own & {step.case for step in self.steps(case)}]


def function(path: str) -> Tied:
    """Return what a path such as "physics.charge.density" or "air.real.density" names, under any name it is at hand."""
    room, subject, name = path.split(".")
    if room == "air":
        return getattr(air.choose(subject), name)
    return getattr(next(module for module in SUBJECTS if module.__name__ == f"turbomath.{room}.{subject}"), name)


def _read() -> Iterator[CheckValue]:
    path = files.shipped("data") / "published" / "check_values.csv"
    with path.open(newline="", encoding="utf-8") as stream:
        reader = csv.DictReader(stream)
        columns = [field.name for field in fields(CheckValue)]
        if reader.fieldnames != columns:
            raise RefusedFileError(
                path, reader.fieldnames, f"the columns {', '.join(columns)}", "Install the kit again."
            )
        for number, row in enumerate(reader, start=2):
            if row["source"] not in SOURCES:
                action = "Write a key of the reference list, or add the source to it."
                raise RefusedFileError(path, row["source"], "a known source", action, row=number, column="source")
            yield CheckValue(**row)
