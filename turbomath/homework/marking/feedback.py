"""A seat's feedback as a page that prints: what was right, which mistake it was, the points, nobody else's data."""

from dataclasses import dataclass

from turbomath import working
from turbomath.homework.asking.variant import in_words
from turbomath.homework.bank.question import Choice
from turbomath.homework.marking.class_folder import Assigned
from turbomath.homework.marking.class_marks import SeatMarks
from turbomath.paper.page import page
from turbomath.paper.parts import Head, Table
from turbomath.table import constants
from turbomath.table.version import __version__
from turbomath.working.lines import Line

# Finding -> its heading and the sort of the paragraph
HEADINGS = {
    "right": "Right",
    "carried": "Right for your own earlier value",
    "rounding": "Rounded too far",
    "unit": "Look at the unit",
    "given": "A number of the question",
    "none": "Not right yet",
    "waiting": "Waiting for your instructor",
    "not read": "Your file could not be read",
    "not handed in": "Nothing handed in",
    "unanswered": "No answer",
}
USUAL = "A usual mistake"
_HEADS = tuple(Head(name) for name in ("question", "value", "finding", "points"))


@dataclass(frozen=True)
class Reply:
    """What the page says to one part."""

    name: str
    said: str
    remark: str
    heading: str
    message: str
    points: str
    decisions: tuple[str, ...]


@dataclass(frozen=True)
class Answered:
    """What the page says to one question: its wording, the replies, and the worked solution where it may be shown.

    What is still open has none: it would be the answer to what can be handed in again.
    """

    number: int
    name: str
    wording: tuple[str, ...]
    replies: tuple[Reply, ...]
    solution: tuple[Line, ...]


def feedback_page(marks: SeatMarks, assignment: Assigned) -> str:
    """Return the feedback of one seat as HTML.

    Parameters
    ----------
    marks : SeatMarks
        That seat's.
    assignment : Assignment
        Which sheet, and whether its worked solutions may be shown.
    """
    return page(
        "homework_feedback.html",
        title=f"Feedback for seat {marks.seat}: {assignment.title}",
        invented=False,
        total=f"{number(marks.points)} of {number(assignment.points)} points",
        facts=(f"Sheet {marks.code}", f"turbomath {__version__}", f"constants {constants.EDITION}"),
        notes=(*marks.refused, *marks.notes),
        overview=_overview(marks),
        questions=[_answered(place, name, marks, assignment) for place, name in enumerate(marks.variants, 1)],
    )


def number(points: float) -> str:
    """Return points as they are shown: at most four decimals, and none that say nothing."""
    return f"{round(points, 4):g}"


def _overview(marks):
    rows = tuple(
        (f"{place}. {in_words(name)}", in_words(part.part) or "choice", _heading(part), _points(part))
        for place, name in enumerate(marks.variants, 1)
        for part in marks.parts_of(name)
    )
    return Table("All questions", _HEADS, rows, "words")


def _answered(place, name, marks, assignment):
    variant, parts = marks.variants[name], marks.parts_of(name)
    replies = tuple(map(_reply, parts))
    solution = _solution(variant) if assignment.worked and not any(part.waits for part in parts) else ()
    return Answered(place, in_words(name), tuple(variant.text.split("\n")), replies, solution)


def _reply(part):
    decisions = tuple(map(str, part.decisions))
    message = "" if part.finding == "not read" else part.message  # the head of the page says it once
    return Reply(in_words(part.part), part.said, part.remark, _heading(part), message, _points(part), decisions)


def _solution(variant):
    if isinstance(variant.question, Choice):
        right = next(option for option in variant.asked if not option.code)
        return (Line("answer", f"{right.words}. {right.reply}"),)
    return tuple(working.lines(variant.chain, variant.units))


def _heading(part):
    return HEADINGS.get(part.finding, f"{USUAL} ({part.finding})")


def _points(part):
    if part.waits:
        return f"still open, of {number(part.of)}"
    return f"{number(part.points)} of {number(part.of)} point{'' if part.of == 1 else 's'}"
