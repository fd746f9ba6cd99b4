"""What one seat gets: the sheet that prints, the file to fill in, and the same sheet as data for the notebook.

None of the three holds the secret, the key or a worked solution.
"""

import csv
import io
import json
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from turbomath import units
from turbomath.disk.files import BYTE_ORDER_MARK
from turbomath.homework.asking.variant import LETTERS, Variant
from turbomath.homework.bank.question import Choice
from turbomath.homework.course.assignment import Assignment
from turbomath.homework.marking.answer_files import FIELDS, SHEET, boxes_of
from turbomath.paper.page import page
from turbomath.table.version import __version__

SCHEMA = "turbomath-sheet-1"


@dataclass(frozen=True)
class PrintedQuestion:
    """A question as the sheet prints it: the options of a question to choose in, or the steps and values to write down.

    `hints` holds the first only: the second gives the method away.
    """

    number: int
    name: str
    points: str
    wording: tuple[str, ...]
    options: tuple[tuple[str, str], ...]
    values: tuple[str, ...]
    steps: tuple[str, ...]
    hints: tuple[str, ...]


@dataclass(frozen=True)
class PrintedSheet:
    """The sheet of one seat, ready for a template."""

    title: str
    seat: str
    code: str
    facts: tuple[tuple[str, str], ...]
    questions: tuple[PrintedQuestion, ...]


def sheets_page(assignment: Assignment, sheets: Sequence[PrintedSheet]) -> str:
    """Return one or more sheets as one HTML page, each beginning on a new page of paper."""
    one = sheets[0] if len(sheets) == 1 else None
    title = f"{assignment.title}: {f'seat {one.seat}' if one else f'all {len(sheets)} sheets'}"
    return page("homework_sheet.html", title=title, sheets=sheets)


def printed_sheet(assignment: Assignment, seat: str, code: str, variants: Mapping[str, Variant]) -> PrintedSheet:
    """Return the `PrintedSheet` of a seat.

    Parameters
    ----------
    assignment : Assignment
        What the instructor set.
    seat, code : str
        Whose sheet, and its public sheet code.
    variants : dict
        Question -> `Variant` of that seat.
    """
    facts = (
        ("seat", seat),
        ("sheet code", code),
        ("due", assignment.due.isoformat() if assignment.due else "as your instructor says"),
        ("points", f"{assignment.points:g}"),
        ("turbomath", __version__),
    )
    questions = tuple(
        _printed(number, one.points, variants[one.question], assignment.hints)
        for number, one in enumerate(assignment.questions, 1)
    )
    return PrintedSheet(assignment.title, seat, code, facts, questions)


def _printed(number, points, variant, hints):
    chosen = isinstance(variant.question, Choice)
    return PrintedQuestion(
        number,
        variant.question.name.replace("_", " "),
        f"{points:g} point{'' if points == 1 else 's'}",
        tuple(variant.wording.split("\n") if chosen else variant.text.split("\n")),
        _options(variant) if chosen else (),
        () if chosen else tuple(one.name.replace("_", " ") for one in variant.asked),
        () if chosen else _steps(variant.question),
        variant.question.hints[:1] if hints else (),
    )


def _steps(question):
    asked = {one.name for one in question.asked}
    return tuple(name.replace("_", " ") for name in boxes_of(question) if name not in asked)


def _options(variant):
    return tuple((letter, option.words) for letter, option in zip(LETTERS, variant.asked, strict=False))


def blank_answers(assignment: Assignment, code: str) -> str:
    """Return the text of answers.csv before anything is filled in: a row for each step and each value asked for.

    The sheet code stands in every row, so that a file tells whose it is wherever it lies.
    """
    out = io.StringIO()
    rows = csv.writer(out, lineterminator="\r\n")
    rows.writerow((*FIELDS, SHEET))
    for one in assignment.questions:
        rows.writerows((one.question, part, "", "", "", code) for part in boxes_of(assignment.find(one.question)))
    return BYTE_ORDER_MARK + out.getvalue()


def sheet_json(assignment: Assignment, seat: str, code: str, variants: Mapping[str, Variant]) -> str:
    """Return the text of sheet-CODE.json: what is printed on the sheet, as data; as for `printed_sheet`."""
    content = {
        "schema": SCHEMA,
        "kit": __version__,
        "assignment": assignment.name,
        "title": assignment.title,
        "units": assignment.units,
        "seat": seat,
        "sheet": code,
        "due": assignment.due.isoformat() if assignment.due else None,
        "questions": [
            _as_data(number, one.points, variants[one.question], assignment.hints)
            for number, one in enumerate(assignment.questions, 1)
        ],
    }
    return json.dumps(content, indent=1, ensure_ascii=False) + "\n"


def _as_data(number, points, variant, hints):
    chosen = isinstance(variant.question, Choice)
    data = {
        "number": number,
        "question": variant.question.name,
        "points": points,
        "wording": variant.wording,
        "givens": [{"name": name, "text": one.text, "unit": one.unit} for name, one in variant.givens.items()],
        "parts": []
        if chosen
        else [{"part": one.name, "units": _units_of(one, variant.units)} for one in variant.asked],
        "options": [{"letter": letter, "words": words} for letter, words in _options(variant)] if chosen else [],
    }
    return data | ({"hints": list(variant.question.hints)} if hints else {})


def _units_of(asked, system):
    """Return the units that an answer may come in, the one that the sheet asks for first; "-" is none at all."""
    first = asked.unit(system)
    others = (unit for unit in units.spellings(asked.row) if not unit.endswith(" gauge"))
    return list(dict.fromkeys((first, *others)))
