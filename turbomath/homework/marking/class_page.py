"""The class on a page for its instructor: what to teach again, each question's statistics, what to look at."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from turbomath.homework.asking.variant import in_words
from turbomath.homework.marking import copies, items, statistics
from turbomath.homework.marking.class_folder import Assigned
from turbomath.homework.marking.class_marks import NOT_HANDED_IN, SeatMarks, state
from turbomath.paper.page import page
from turbomath.paper.parts import Head, Table
from turbomath.paper.unbroken import unbroken
from turbomath.table import prose
from turbomath.table.version import __version__

MOST_SEATS_NAMED = 12
WORDS = prose.read(__file__, "class_page.toml")
FINDINGS = {
    "right": "right",
    "carried": "right for an own earlier value",
    "rounding": "rounded too far",
    "unit": "right in another unit",
    "given": "a number of the question",
    "none": "no slip that is known",
}
_STATISTICS = tuple(map(Head, ("question", "answers", "share right", "which says", "sets apart", "which says")))
_HANDED_IN = tuple(map(Head, ("seat", "student", "state", "parts answered")))
_DREW = tuple(map(Head, ("answer", "seats", "best", "weakest", "which seats")))


@dataclass(frozen=True)
class Section:
    """A part of a page: its heading, its sentences, its tables."""

    heading: str
    sentences: tuple[str, ...] = ()
    tables: tuple[Table, ...] = ()


def class_results_page(
    marks: Sequence[SeatMarks],
    assignment: Assigned,
    students: Mapping[str, str],
    shared: Sequence[copies.Shared] | None = None,
) -> str:
    """Return the results of a class as HTML.

    Parameters
    ----------
    marks : sequence of SeatMarks
        The class.
    assignment : Assignment
        Which sheet.
    students : dict
        Seat -> name, "" where the roster has none.
    shared : sequence of Shared, optional
        What seats share, where that is known already.
    """
    found = statistics.statistics(marks)
    shared = copies.shared_numbers(marks) if shared is None else shared
    explained = tuple(map(WORDS.text, ("share_right", "sets_apart")))
    sections = (
        Section("Who has handed in", (_counted(marks),), (_handed_in_table(marks, students),)),
        Section("Question by question", tables=(_statistics_table(found),)),
        Section("How to read it", explained),
        Section("What to teach again", tuple(items.mistakes(marks)) or (WORDS.text("no_mistake"),)),
        Section("Numbers in more than one seat", tuple(map(shared_told, shared)) or (WORDS.text("nothing_shared"),)),
        Section("Which answer drew whom", (WORDS.text("who_was_drawn"),), tuple(map(_drew_table, found))),
    )
    return class_page(f"Class results: {assignment.title}", f"{len(marks)} seats.", sections)


def shared_told(shared: copies.Shared) -> str:
    """Return what to look at as a sentence: no accusation, and what else it may be."""
    whose = WORDS.text("right_for", seat=shared.right_for) if shared.right_for else WORDS.text("wrong_in_each")
    return WORDS.text(
        "shared",
        seats=f"{', '.join(shared.seats[:-1])} and {shared.seats[-1]}",
        count=len(shared.questions),
        said=shared.said,
        question=in_words(shared.question),
        whose=whose,
    )


def class_page(title: str, lead: str, sections: Sequence[Section]) -> str:
    """Return a page for the instructor as HTML: its title, a sentence, and its sections."""
    colophon = f"turbomath {__version__}"
    return page("class_page.html", title=title, invented=False, lead=lead, sections=sections, colophon=colophon)


def _counted(marks):
    """Say how many seats have handed in, and what waits."""
    found = [state(one) for one in marks]
    missing, waiting = found.count(NOT_HANDED_IN), sum(len(one.waiting) for one in marks)
    words = f"{len(marks) - missing} of {len(marks)} seats have handed in"
    return f"{words}; {waiting} answers wait for you, see waiting.csv." if waiting else f"{words}."


def _handed_in_table(marks, students):
    rows = tuple(
        (one.seat, students.get(one.seat) or "-", state(one), f"{_answered(one)} of {len(one.parts)}") for one in marks
    )
    return Table("Each seat, by what lies in its folder now", _HANDED_IN, rows, "words")


def _answered(marks):
    return sum(bool(part.said) for part in marks.parts)


def _statistics_table(found):
    rows = tuple(
        (plain(one.question), str(one.right.of), _share(one), one.facility_told, *_apart(one)) for one in found
    )
    return Table("Each question in this class", _STATISTICS, rows, "statistics")


def _share(one):
    if not one.right.of:
        return "-"
    if one.right.of < statistics.FEWEST:
        return f"{one.right.right} of {one.right.of}"
    low, high = one.right.ends
    return unbroken(f"{100 * one.right.value:.0f} % ({100 * low:.0f} to {100 * high:.0f} %)")


def _apart(one):
    if one.discrimination is None:
        return "-", one.discrimination_told
    value, half = one.discrimination
    return unbroken(f"{value:.2f} ± {half:.2f}".replace("-", "−")), one.discrimination_told


def _drew_table(found):
    rows = tuple(
        (_in_words(one.answer), *map(str, (len(one.seats), one.best, one.weakest)), _named(one)) for one in found.drew
    )
    return Table(plain(found.question), _DREW, rows, "words")


def _in_words(answer):
    if answer in items.MISCONCEPTIONS:
        return f"{answer}: {items.MISCONCEPTIONS[answer]}"
    return FINDINGS.get(answer, answer)


def _named(drew):
    if drew.answer == "right":
        return "the others"
    shown = ", ".join(drew.seats[:MOST_SEATS_NAMED])
    more = len(drew.seats) - MOST_SEATS_NAMED
    return f"{shown} and {more} more" if more > 0 else shown


def plain(name: str) -> str:
    """Return the name of a question in words."""
    words = in_words(name)
    return words[:1].upper() + words[1:]
