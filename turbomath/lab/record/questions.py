"""What the run-up record asks: parts, questions, and the boxes of each, as data read from questions.toml."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any, NamedTuple

from turbomath import units
from turbomath.lab.run.bench import LIMITED_COLUMNS, Bench
from turbomath.lab.run.blank import sheet_columns
from turbomath.lab.run.channels import NUMBER_COLUMNS
from turbomath.table import cautions, prose
from turbomath.table.cautions import Caution
from turbomath.table.quantities import QUANTITIES

YES_OR_NO, WORDS, NUMBER = KINDS = ("yes or no", "words", "number")
ANSWER = "answer"  # the column of a question that has one box only
CYLINDERS, MOST_CYLINDERS = 6, 24  # boxes where bench.toml does not say how many, and the most of an engine
LEVELS = ("", "note", "limit")


class Box(NamedTuple):
    """Which box: its question, its row ("" where the question has one only) and its column."""

    question: str
    row: str
    column: str


@dataclass(frozen=True)
class Column:
    """A column of a question: what is in it. `level` is what a limit passed there is, "" where none is judged."""

    key: str
    words: str
    kind: str
    quantity: str = ""
    own_unit: str = ""
    level: str = ""

    def unit(self, system: str) -> str:
        """Return the unit of a number in the system "us" or "si"; "" for words."""
        return self.own_unit or (units.display(self.quantity, system) if self.quantity else "")


@dataclass(frozen=True)
class Row:
    """A row of a question, the keys of the limits it is judged by, and whether only for too little."""

    key: str
    words: str
    limits: tuple[str, ...] = ()
    lowest_only: bool = False


@dataclass(frozen=True)
class Question:
    """A question: one box, or a table of named rows, of a row for `each` cylinder or instrument, or of empty lines."""

    key: str
    words: str
    columns: tuple[Column, ...]
    named: tuple[Row, ...] = ()
    each: str = ""
    lines: int = 0
    caution: Caution | None = None

    @property
    def is_table(self) -> bool:
        """Whether it has more than one box."""
        return bool(self.named or self.each or self.lines)

    def rows(self, bench: Bench) -> tuple[Row, ...]:
        """Return the rows to fill in for the engine of a bench."""
        if self.each == "cylinder":
            return tuple(Row(key, f"cylinder {key}") for key in _counted(bench.engine.cylinders or CYLINDERS))
        if self.each == "instrument":
            return tuple(Row(name, QUANTITIES[name].plain_name) for name in sheet_columns(bench))
        return self.named or tuple(Row(key, key) for key in _counted(self.lines)) or (Row("", ""),)

    def keys(self, bench: Bench) -> tuple[str, ...]:
        """Return the keys of every row that may be filled in, also of those that are not offered."""
        if self.each == "cylinder" and not bench.engine.cylinders:
            return _counted(MOST_CYLINDERS)
        return NUMBER_COLUMNS if self.each == "instrument" else tuple(row.key for row in self.rows(bench))


@dataclass(frozen=True)
class Part:
    """Questions that belong together."""

    key: str
    words: str
    questions: tuple[Question, ...]


def _counted(count: int) -> tuple[str, ...]:
    return tuple(str(number) for number in range(1, count + 1))


def boxes(bench: Bench) -> Iterator[tuple[Box, Question, Row, Column]]:
    """Yield every box that is offered for the engine of a bench, in the order of the record."""
    for part in PARTS:
        for question in part.questions:
            for row in question.rows(bench):
                for column in question.columns:
                    yield Box(question.key, row.key, column.key), question, row, column


def _part(words: prose.Prose) -> Part:
    return Part(words.text("key"), words.text("words"), tuple(_question(one) for one in words.tables("questions")))


def _question(words: prose.Prose) -> Question:
    columns = tuple(_column(one, one.text("key"), one.text("words")) for one in words.tables("columns"))
    caution = _BY_HAZARD[words.text("caution")] if "caution" in words else None
    key, asked = words.text("key"), words.text("words")
    return Question(
        key,
        asked,
        columns or (_column(words, ANSWER, asked),),
        tuple(_row(one) for one in words.tables("rows")),
        words.text("each") if "each" in words else "",
        _known(words, "lines", int, 0),
        caution,
    )


def _column(words: prose.Prose, key: str, said: str) -> Column:
    kind, quantity, unit, level = (
        words.text(name) if name in words else "" for name in ("kind", "quantity", "unit", "level")
    )
    if kind not in KINDS or level not in LEVELS or (kind == NUMBER) != (quantity in QUANTITIES):
        raise prose.ProseError(f"{words.place}: found kind {kind!r}, quantity {quantity!r}, level {level!r}.")
    return Column(key, said, kind, quantity, unit, level)


def _row(words: prose.Prose) -> Row:
    limits = words.texts("limits") if "limits" in words else ()
    if strange := [key for key in limits if key not in LIMITED_COLUMNS]:
        raise prose.ProseError(f"{words.place}: {strange[0]!r} is no key of [limits].")
    return Row(words.text("key"), words.text("words"), limits, _known(words, "lowest_only", bool, False))


def _known(words: prose.Prose, name: str, kind: type, otherwise: Any) -> Any:
    return words.value(name, kind) if name in words else otherwise


_BY_HAZARD = {one.hazard: one for one in (*cautions.CAUTIONS, *cautions.SHOP_CAUTIONS)}
_WORDS = prose.read(__file__, "questions.toml")
LEAD, UNSTATED = _WORDS.text("lead"), _WORDS.text("unstated")
PARTS = tuple(_part(one) for one in _WORDS.tables("parts"))
_WORDS.finished()
QUESTIONS = {one.key: one for part in PARTS for one in part.questions}
