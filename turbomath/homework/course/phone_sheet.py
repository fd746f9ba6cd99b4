"""One seat's sheet as a page to work on with a phone: it saves answers.json, and knows neither key nor secret."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path

from turbomath.homework.asking.variant import LETTERS, Variant, in_words
from turbomath.homework.bank.question import Choice
from turbomath.homework.course import printed_sheet
from turbomath.homework.course.assignment import Assignment
from turbomath.homework.course.student_sheet import units_of
from turbomath.homework.marking import answer_files, answers
from turbomath.paper.page import in_script, page
from turbomath.table.prose import read
from turbomath.table.version import __version__
from turbomath.working.lines import result_unit

_HERE = Path(__file__).parent
LONGEST_ANSWER, LONGEST_REMARK = answers.LONGEST // 2, 300


@dataclass(frozen=True)
class Box:
    """A place for a number: which part it is, how it is called, whether it is asked for, the units to choose from."""

    part: str
    label: str
    asked: bool
    units: tuple[str, ...]


@dataclass(frozen=True)
class PhoneQuestion:
    """A question with what can be filled in: options, or boxes."""

    number: int
    question: str
    name: str
    points: str
    wording: str
    options: tuple[tuple[str, str], ...]
    boxes: tuple[Box, ...]
    hint: str


def phone_page(assignment: Assignment, seat: str, code: str, variants: Mapping[str, Variant]) -> str:
    """Return the sheet of one seat as HTML that needs nothing but a browser; arguments as for `printed_sheet`."""
    words = read(__file__, "phone_sheet.toml")
    words = {name: words.raw(name) for name in words.names()}
    questions = [
        _question(number, one.points, variants[one.question], assignment.hints)
        for number, one in enumerate(assignment.questions, 1)
    ]
    parts = [[one.question, [box.part for box in one.boxes] or [""]] for one in questions]
    head = {"schema": answer_files.SCHEMA, "seat": seat, "sheet": code, "kit": __version__}
    return page(
        "homework_phone.html",
        title=assignment.title,
        invented=False,
        top=f"Seat {seat} · sheet {code} · INVENTED",
        notes=printed_sheet.notes_of(assignment, words["how"]),
        questions=questions,
        words=words,
        longest=(LONGEST_ANSWER, LONGEST_REMARK),
        record=in_script({"head": head, "fields": answer_files.FIELDS, "questions": parts, "words": words}),
        script=(_HERE / "phone_sheet.js").read_text(encoding="utf-8"),
    )


def _question(number, points, variant, hints):
    chosen = isinstance(variant.question, Choice)
    name = in_words(variant.question.name)
    return PhoneQuestion(
        number,
        variant.question.name,
        name[0].upper() + name[1:],
        printed_sheet.points_in_words(points),
        " ".join((variant.wording if chosen else variant.text).split()),
        tuple((letter, one.words) for letter, one in zip(LETTERS, variant.asked, strict=False)) if chosen else (),
        () if chosen else tuple(_boxes(variant)),
        variant.question.hints[0] if hints else "",
    )


def _boxes(variant: Variant) -> Iterator[Box]:
    rows = {step.result: step.quantity_of() for step in variant.question.steps}
    units = {name: result_unit(row, variant.units) for name, row in rows.items()}
    asked = {one.name: one for one in variant.asked}
    for name in answer_files.boxes_of(variant.question):
        row, unit = (asked[name].row, asked[name].unit(variant.units)) if name in asked else (rows[name], units[name])
        offered = units_of(row, unit)
        alone = tuple(one for one in offered if one != "-")
        yield Box(name, in_words(name), name in asked, alone)
