"""The sheet of one seat as it prints: on numbered pages, each with seat and sheet code, no question split over two."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from turbomath.homework.asking.variant import LETTERS, Variant, in_words
from turbomath.homework.bank.question import Choice
from turbomath.homework.course import paging
from turbomath.homework.course.assignment import Assignment
from turbomath.homework.marking.answer_files import boxes_of
from turbomath.paper.page import page
from turbomath.table import cautions
from turbomath.table.version import __version__
from turbomath.working.lines import result_unit

INVENTED = "INVENTED: no engine was measured."
HOW = (
    "Work in the big boxes. A small box is for a number and its unit: the steps on the way, and in bold what is asked. "
    "Round only at the end. To hand in a file instead, fill in answer and unit in answers.csv."
)
HOW_TO_CHOOSE = "Write the letter, and beside it why. To hand in a file instead, fill in answer in answers.csv."
HINTS = "Hints, for when you are stuck"


@dataclass(frozen=True)
class PrintedQuestion:
    """A question as the sheet prints it: options to choose from, or boxes for steps and values and room for working.

    `boxes` holds (name, whether it is asked for, "unit" or "no unit") in the order in which one works; `room` is the
    height in mm of the place for working, or of that for the reason of a letter; `columns` is how many options stand in
    a line. `hint` is the first only: the second gives the method away.
    """

    number: int
    name: str
    points: str
    wording: str
    options: tuple[tuple[str, str], ...]
    boxes: tuple[tuple[str, bool, str], ...]
    hint: str
    room: float = 0.0
    columns: int = 1

    @property
    def lead(self) -> str:
        """All the words of the question as they run on."""
        return f"{self.number}. {self.name} ({self.points}) {self.wording}"


@dataclass(frozen=True)
class PrintedPage:
    """A page of a sheet: its questions, and the questions whose hints stand on it."""

    number: int
    questions: tuple[PrintedQuestion, ...]
    hints: tuple[PrintedQuestion, ...]


@dataclass(frozen=True)
class PrintedSheet:
    """The sheet of one seat, ready for a template; `top` stands on each of its pages."""

    title: str
    seat: str
    top: str
    notes: tuple[str, ...]
    pages: tuple[PrintedPage, ...]
    large: bool


def sheets_page(assignment: Assignment, sheets: Sequence[PrintedSheet]) -> str:
    """Return one or more sheets as one HTML page.

    Of more than one, each begins on a new sheet of paper even where both sides are printed: one with an odd number of
    pages gets a last page for more working.
    """
    one = sheets[0] if len(sheets) == 1 else None
    title = f"{assignment.title}: {f'seat {one.seat}' if one else f'all {len(sheets)} sheets'}"
    return page("homework_sheet.html", title=title, sheets=sheets, is_pack=one is None, invented=INVENTED, hints=HINTS)


def printed_sheet(
    assignment: Assignment, seat: str, code: str, variants: Mapping[str, Variant], *, large: bool = False
) -> PrintedSheet:
    """Return the `PrintedSheet` of a seat.

    Parameters
    ----------
    assignment : Assignment
        What the instructor set.
    seat, code : str
        Whose sheet, and its public sheet code.
    variants : dict
        Question -> `Variant` of that seat.
    large : bool
        Whether it is set in large print, 18 pt.
    """
    face = paging.LARGE if large else paging.USUAL
    questions = [
        _printed(number, one.points, variants[one.question], assignment.hints)
        for number, one in enumerate(assignment.questions, 1)
    ]
    notes = notes_of(assignment, HOW if any(one.boxes for one in questions) else HOW_TO_CHOOSE)
    above = face.text(assignment.title, paging.TITLE) + sum(map(face.text, notes)) + face.gap
    top = f"Seat {seat} · sheet {code} · INVENTED"
    return PrintedSheet(
        assignment.title, seat, top, notes, tuple(_pages(questions, above, face, face.room(top))), large
    )


def notes_of(assignment: Assignment, how: str) -> tuple[str, ...]:
    """Return what stands above the questions of a sheet; *how* one answers comes last."""
    due = assignment.due.isoformat() if assignment.due else "as your instructor says"
    points = points_in_words(assignment.points)
    return (
        f"{points}. Due: {due}. turbomath {__version__}.",
        f"{INVENTED} Every number is made up for teaching, for this seat alone. {cautions.STANDING}",
        how,
    )


def points_in_words(points: float) -> str:
    """Return "2 points"."""
    return f"{points:g} point{'' if points == 1 else 's'}"


def _printed(number, points, variant, hints):
    chosen = isinstance(variant.question, Choice)
    options = tuple((letter, one.words) for letter, one in zip(LETTERS, variant.asked, strict=False)) if chosen else ()
    name = in_words(variant.question.name)
    return PrintedQuestion(
        number,
        name[0].upper() + name[1:],
        points_in_words(points),
        " ".join((variant.wording if chosen else variant.text).split()),
        options,
        () if chosen else tuple(_boxes(variant)),
        variant.question.hints[0] if hints else "",
    )


def _boxes(variant):
    units = {step.result: result_unit(step.quantity_of(), variant.units) for step in variant.question.steps}
    asked = {one.name: one.unit(variant.units) for one in variant.asked}
    for name in boxes_of(variant.question):
        yield in_words(name), name in asked, "no unit" if (units | asked)[name] == "-" else "unit"


def _pages(questions, above, face, room):
    """Yield the pages of a sheet; what they have left over is room for working."""
    needs = [_need(one, face) for one in questions]
    hinted = [one for one in questions if one.hint]
    heights = [*needs, *(face.text(f"{one.number}. {one.hint}") for one in hinted)]
    if hinted:
        heights[len(needs)] += face.text(HINTS, paging.HINTS)
    for number, blocks in enumerate(paging.pages(heights, above, room), 1):
        there = [questions[place] for place in blocks if place < len(needs)]
        left = room - sum(heights[place] for place in blocks) - (above if number == 1 else 0.0)
        share = left / (len(there) or 1)
        hints = tuple(hinted[place - len(needs)] for place in blocks if place >= len(needs))
        yield PrintedPage(number, tuple(_with_room(one, share, face) for one in there), hints)


def _need(question, face):
    """Return the least height of a question."""
    options = face.options([words for _, words in question.options]) if question.options else 0.0
    return face.text(question.lead) + options + _least(question, face) + face.gap


def _least(question, face):
    """Return the least height of what is written into."""
    return face.box if question.options else face.answering([name for name, *_ in question.boxes])


def _with_room(question, share, face):
    """Return a question with the height of what is written into, more than it needs by its share of the page."""
    least, most = _least(question, face), face.reason if question.options else face.most
    room = round(max(least, min(least + share, most)), 1)
    return replace(question, room=room, columns=face.columns([words for _, words in question.options]))
