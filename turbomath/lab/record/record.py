"""The run-up record of a run folder: record.toml, read whole or refused, a sentence for a mistake that says where.

A folder without one has an empty record. Every answer is kept as it is written, a number in SI besides.
"""

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any, NamedTuple

from turbomath.disk.plain_files import Place, text, toml
from turbomath.lab.record.questions import ANSWER, NUMBER, PARTS, YES_OR_NO, Box, Column, Question
from turbomath.lab.run import amounts
from turbomath.lab.run.bench import Bench
from turbomath.table.errors import RefusedFileError

FILE = "record.toml"
CORRECT = f"Correct it in {FILE}."
NOT_HERE = "does not apply"
MOST_BYTES, LONGEST = 100_000, 200  # of the file, and letters of one answer
SYSTEMS = ("us", "si")
_SAID = {"yes": True, "no": False}
EXAMPLE = 'supervisor = "ab, at the panel"'


class Answer(NamedTuple):
    """What stands in a box: its text as it is shown, and a number in SI, True or False, or None for words."""

    text: str
    value: Any = None


@dataclass(frozen=True)
class Record:
    """The answers of a run folder, those of questions that nobody answered left out."""

    answers: dict[Box, Answer] = field(default_factory=dict)

    def of(self, question: str) -> dict[Box, Answer]:
        """Return the answers to one question, in the order of the file."""
        return {box: answer for box, answer in self.answers.items() if box.question == question}

    def number(self, question: str, row: str = "", column: str = ANSWER) -> float | None:
        """Return a number in SI, or None where nobody gave one."""
        found = self.answers.get(Box(question, row, column))
        return found.value if found else None


def read_record(folder: Path | str, bench: Bench) -> Record:
    """Return the `Record` of a run folder; an empty one where there is no record.toml.

    Raises
    ------
    RefusedFileError
        If record.toml cannot be read whole, has a key that is no question, or an answer of another kind.
    """
    path = Path(folder) / FILE
    return record_of(text(path, str(path), MOST_BYTES), str(path), bench) if path.exists() else Record()


def record_of(said: str, file: str, bench: Bench) -> Record:
    """Return the `Record` of the text of a record.toml, or refuse it."""
    place = Place(file)
    content = toml(said, place, EXAMPLE)
    with _corrected_here():
        return Record(dict(_answers(content, bench, place)))


def answer(value: object, column: Column, place: Place) -> Answer:
    """Return the `Answer` that a value of record.toml is, or refuse it."""
    with _corrected_here():
        return _READERS[column.kind](value, column, place)


def _answers(content: dict[str, Any], bench: Bench, place: Place) -> Iterator[tuple[Box, Answer]]:
    amounts.closed(content, [part.key for part in PARTS], place)
    for part in PARTS:
        table, spot = content.get(part.key, {}), place.at(column=f"[{part.key}]")
        amounts.closed(table, [one.key for one in part.questions], spot)
        for question in part.questions:
            if question.key in table:
                yield from _of_question(question, table[question.key], bench, f"[{part.key}] {question.key}", place)


def _of_question(question: Question, said: Any, bench: Bench, name: str, place: Place) -> Iterator[tuple[Box, Answer]]:
    rows = said if question.is_table else {"": said}
    if question.is_table:
        amounts.closed(said, question.keys(bench), place.at(column=name), _expected_rows(question, bench))
    for key, row in rows.items():
        where = f"{name}.{key}" if key else name
        cells = row if len(question.columns) > 1 else {question.columns[0].key: row}
        if len(question.columns) > 1:
            amounts.closed(row, [one.key for one in question.columns], place.at(column=where))
        for column in question.columns:
            if column.key in cells:
                end = f".{column.key}" if len(question.columns) > 1 else ""
                found = _READERS[column.kind](cells[column.key], column, place.at(column=where + end))
                if found.text:
                    yield Box(question.key, key, column.key), found


def _expected_rows(question: Question, bench: Bench) -> str:
    if question.each == "instrument":
        return "a column of the readings, with underscores"
    keys = question.keys(bench)
    return f"a number in quotes, 1 to {keys[-1]}" if question.each or question.lines else ""


def _words(value: object, _column: Column, place: Place) -> Answer:
    said = " ".join(amounts.words(value, place).split())
    if len(said) > LONGEST:
        raise place.refusal(said, f"at most {LONGEST} letters", "Write it shorter.")
    return Answer(said)


def _yes_or_no(value: object, _column: Column, place: Place) -> Answer:
    if value in (NOT_HERE, ""):
        return Answer(str(value))
    if value not in _SAID and not isinstance(value, bool):
        raise place.refusal(amounts.written(value), f'"yes", "no" or "{NOT_HERE}"', amounts.CORRECT)
    is_so = _SAID.get(str(value), value)
    return Answer("yes" if is_so else "no", is_so)


def _number(value: object, column: Column, place: Place) -> Answer:
    if str(value).strip() in ("", *(column.unit(system) for system in SYSTEMS)):  # a blank as it was printed
        return Answer("")
    found = amounts.amount(column.quantity)(value, place)
    if found < 0:
        raise place.refusal(value, "an amount of 0 or more", amounts.CORRECT)
    return Answer(" ".join(str(value).split()), found)


_READERS: dict[str, Callable[[object, Column, Place], Answer]] = {
    YES_OR_NO: _yes_or_no,
    NUMBER: _number,
    "words": _words,
}


@contextmanager
def _corrected_here() -> Iterator[None]:
    """Within it a refusal sends its reader to record.toml, where the readers of amounts know of bench.toml only."""
    try:
        yield
    except RefusedFileError as one:
        action = one.action.replace(amounts.CORRECT, CORRECT)
        raise RefusedFileError(one.file, one.found, one.expected, action, row=one.row, column=one.column) from None
