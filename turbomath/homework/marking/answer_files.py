"""The three ways in which answers come: a filled CSV, a JSON from the practice notebook, a grid typed in from paper.

All are data. Nothing in them is run, unpickled or evaluated; what does not fit is refused in one sentence.
"""

import difflib
import itertools
import json
from collections.abc import Collection, Mapping
from dataclasses import dataclass
from pathlib import Path

from turbomath.disk import plain_files
from turbomath.disk.plain_files import Place
from turbomath.homework.bank.question import Choice, Question
from turbomath.homework.marking import tables
from turbomath.table.errors import short

Questions = Mapping[str, Question | Choice]  # of the sheet, by name
SCHEMA = "turbomath-answers-1"
FIELDS = ("question", "part", "answer", "unit", "remark")
SHEET = "sheet"  # the column of answers.csv that says whose it is; it may be left out
KEYS = ("schema", "seat", "sheet", "kit", "answers")
AGAIN = "Save it again from the notebook."
GRID_BYTES = 2_000_000


@dataclass(frozen=True)
class Entry:
    """One answer as it was written, and where; `decimal` is the decimal mark of its file where that is known."""

    question: str
    part: str
    answer: str
    unit: str
    remark: str
    where: Place
    decimal: str | None = None

    @property
    def said(self) -> str:
        """Answer and unit on one line: two entries that say the same are no contradiction."""
        return " ".join(f"{self.answer} {self.unit}".split())


def parts_of(question: Question | Choice) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Return (names of the values asked for, names of all steps that a student may write down) of a question."""
    if isinstance(question, Choice):
        return ("",), ()
    return tuple(one.name for one in question.asked), tuple(step.result for step in question.steps)


def boxes_of(question: Question | Choice) -> tuple[str, ...]:
    """Return the names of all that may be written down for a question: its steps, and what is asked, in their order."""
    asked, steps = parts_of(question)
    return tuple(dict.fromkeys((*steps, *asked)))


def from_csv(path: Path, questions: Questions, name: str) -> tuple[str, tuple[Entry, ...]]:
    """Return (sheet code, "" where none is said; the entries) of a filled answers.csv.

    Parameters
    ----------
    path : Path
        The file.
    questions : dict
        The questions of the sheet by name.
    name : str
        What the refusals call the file.

    Raises
    ------
    RefusedFileError
        If it cannot be read whole, names what is not on the sheet, or has rows of two sheets.
    """
    table = tables.table(path, FIELDS, name)
    decimal = "," if table.separator == ";" else None
    return _one_code(table), tuple(_entry(row, questions, place, decimal) for place, row in table.rows)


def _one_code(table):
    """Return the sheet code that the rows of a table agree on."""
    codes = {row.get(SHEET, ""): place for place, row in table.rows}
    codes.pop("", None)
    if len(codes) > 1:
        expected = f"one sheet, {next(iter(codes))}"
        raise codes[[*codes][1]].at(column=SHEET).refusal([*codes][1], expected, "Give each sheet a file of its own.")
    return next(iter(codes), "")


def from_json(path: Path, questions: Questions, name: str, seat: str, code: str) -> tuple[Entry, ...]:
    """Return the entries of an answers.json of one seat and one sheet code; as `from_csv`."""
    content, place = plain_files.text(path, name), Place(name)
    found = _plain_json(content, place)
    _check_keys(found, KEYS, place)
    for key, expected in (("schema", SCHEMA), ("seat", seat), ("sheet", code)):
        if _words(found, key, place) != expected:
            raise place.at(column=key).refusal(found[key], f"'{expected}'", "Hand in the file of this sheet.")
    _words(found, "kit", place)
    if not isinstance(found["answers"], list) or len(found["answers"]) > tables.MOST_ROWS:
        expected = f"a list of at most {tables.MOST_ROWS:,} answers"
        raise place.at(column="answers").refusal(_sort(found["answers"]), expected, AGAIN)
    return tuple(_json_entry(one, questions, place.at(row=row)) for row, one in enumerate(found["answers"], 1))


def _json_entry(found, questions, place):
    _check_keys(found, FIELDS, place)
    row = {key: tables.checked(_words(found, key, place), place, key) for key in FIELDS}
    return _entry(row, questions, place, None)


def _plain_json(content, place):
    """Return what a JSON text holds: no key twice, no number, nothing deeply nested."""

    def once(pairs):
        names = sorted(name for name, _ in pairs)
        for name, following in itertools.pairwise(names):
            if name == following:
                raise place.refusal(f"'{short(name)}' twice", "each name once", AGAIN)
        return dict(pairs)

    def no_number(token):
        raise place.refusal(token, "text in quotes", "Put numbers in quotes too.")

    try:
        return json.loads(
            content, object_pairs_hook=once, parse_int=no_number, parse_float=no_number, parse_constant=no_number
        )
    except json.JSONDecodeError as trouble:
        found = content[trouble.pos : trouble.pos + 20] or "its end"
        raise place.at(row=trouble.lineno).refusal(found, "JSON", AGAIN) from None
    except RecursionError:
        raise place.refusal("brackets inside brackets without end", "a list of answers", AGAIN) from None


def _check_keys(found, names, place):
    expected = f"the names {', '.join(names)}"
    if not isinstance(found, dict):
        raise place.refusal(_sort(found), expected, AGAIN)
    for name in (*names, *found):
        if name not in found or name not in names:
            what = f"no '{name}'" if name in names else f"'{name}'"
            raise place.refusal(what, expected, AGAIN)


def _words(found, key, place):
    if not isinstance(found[key], str):
        raise place.at(column=key).refusal(_sort(found[key]), "text in quotes", AGAIN)
    return found[key]


def _sort(value):
    sorts = {dict: "a group of names", list: "a list", str: value, bool: "true or false", type(None): "nothing"}
    return sorts.get(type(value), "a number")


def from_grid(path: Path, questions: Questions, seats: Collection[str]) -> dict[str, list[Entry]]:
    """Return seat -> entries of the instructor's grid: a row a seat, a column a question or "question / part".

    Raises
    ------
    RefusedFileError
        If it cannot be read whole, or names a seat or a question that is not in the class.
    """
    table = tables.table(path, ("seat",), path.name, GRID_BYTES)
    decimal = "," if table.separator == ";" else None
    heads = {head: _column(head, questions, table.place) for head in table.head if head != "seat"}
    entries: dict[str, list[Entry]] = {}
    for place, row in table.rows:
        seat = class_seat(row["seat"], seats, place)
        entries.setdefault(seat, []).extend(
            Entry(question, part, row[head], "", "", place, decimal) for head, (question, part) in heads.items()
        )
    return entries


def class_seat(text: str, seats: Collection[str], place: Place) -> str:
    """Return the seat that a cell names, or refuse one that is not in the class."""
    found = next((seat for seat in seats if seat.casefold() == text.casefold()), None)
    if found is None:
        expected = f"a seat of the class{_nearest(text, seats)}"
        raise place.at(column="seat").refusal(text, expected, "Correct the seat.")
    return found


def asked_part(question: str, part: str, questions: Questions, place: Place) -> tuple[str, str]:
    """Return (question, part) that two cells name, or refuse what is not asked for."""
    question = _question(question, questions, place)
    return question, _part(part, question, parts_of(questions[question])[0], place)


def _column(head, questions, place):
    question, _, part = head.partition("/")
    return _question_and_part(question, part, questions, place)


def _entry(row, questions, place, decimal):
    named = _question_and_part(row["question"], row["part"], questions, place)
    return Entry(*named, row["answer"], row["unit"], row["remark"], place, decimal)


def _question_and_part(question, part, questions, place):
    question = _question(question, questions, place)
    asked, steps = parts_of(questions[question])
    part = asked[-1] if not part.strip() and len(asked) == 1 else part
    return question, _part(part, question, dict.fromkeys((*asked, *steps)), place)


def _question(text, questions, place):
    name = _plain(text)
    if name not in questions:
        expected = f"a question of the sheet{_nearest(name, questions)}"
        raise place.at(column="question").refusal(text, expected, "Correct the name.")
    return name


def _part(text, question, parts, place):
    parts, name = tuple(parts), _plain(text)
    if len(parts) == 1 and (not name or parts == ("",)):
        return parts[0]
    if name not in parts:
        expected = f"one of {', '.join(parts)}{_nearest(name, parts)}"
        raise place.at(column="part").refusal(text, expected, f"Correct the part of {question}.")
    return name


def _plain(text):
    return "_".join(text.casefold().replace("_", " ").split())


def _nearest(name, names):
    near = difflib.get_close_matches(name, names, 1)
    return f" (the nearest is '{near[0]}')" if near else ""
