"""What there is to fill in beside the printed sheet: a file a seat, the same sheet as data, a grid for the whole class.

None of them holds the secret, the key or a worked solution.
"""

import csv
import io
import json
from collections.abc import Iterable, Mapping

from turbomath import units
from turbomath.disk.files import BYTE_ORDER_MARK
from turbomath.homework.asking.variant import LETTERS, Variant, in_words
from turbomath.homework.bank.question import Choice
from turbomath.homework.course.assignment import Assignment
from turbomath.homework.marking.answer_files import FIELDS, SHEET, boxes_of
from turbomath.table.version import __version__

SCHEMA = "turbomath-sheet-1"


def blank_answers(assignment: Assignment, code: str) -> str:
    """Return the text of answers.csv before anything is filled in: a row for each step and each value asked for.

    The sheet code stands in every row, so that a file tells whose it is wherever it lies.
    """
    out = io.StringIO()
    rows = csv.writer(out, lineterminator="\r\n")
    rows.writerow((*FIELDS, SHEET))
    rows.writerows((*box, "", "", "", code) for box in _boxes(assignment))
    return BYTE_ORDER_MARK + out.getvalue()


def blank_grid(assignment: Assignment, seats: Iterable[str]) -> str:
    """Return the text of answers_grid.csv before anything is typed in: a row a seat, a column a box of the sheet."""
    out = io.StringIO()
    rows = csv.writer(out, lineterminator="\r\n")
    heads = [in_words(question) + f" / {in_words(part)}" * bool(part) for question, part in _boxes(assignment)]
    rows.writerow(("seat", *heads))
    rows.writerows((seat, *("" for _ in heads)) for seat in seats)
    return BYTE_ORDER_MARK + out.getvalue()


def _boxes(assignment):
    """Return (question, part) of every box of a sheet."""
    return [(one.question, part) for one in assignment.questions for part in boxes_of(assignment.find(one.question))]


def sheet_json(assignment: Assignment, seat: str, code: str, variants: Mapping[str, Variant]) -> str:
    """Return the text of sheet-CODE.json: what is printed on the sheet, as data; arguments as for `printed_sheet`."""
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
        else [{"part": one.name, "units": units_of(one.row, one.unit(variant.units))} for one in variant.asked],
        "options": [{"letter": letter, "words": one.words} for letter, one in zip(LETTERS, variant.asked, strict=False)]
        if chosen
        else [],
    }
    return data | ({"hints": list(variant.question.hints)} if hints else {})


def units_of(row: str, first: str) -> list[str]:
    """Return the units that a value may come in, the one that the sheet asks for *first*; "-" is none at all."""
    others = (unit for unit in units.spellings(row) if not unit.endswith(" gauge"))
    return list(dict.fromkeys((first, *others)))
