"""The gradebook: totals, grades, what waits, feedback, class results. A grades.csv that says something else is kept."""

import datetime
import shutil
from collections.abc import Mapping, Sequence
from pathlib import Path

from turbomath.disk import files
from turbomath.homework.marking import copies, items
from turbomath.homework.marking.class_folder import Assigned, ClassFolder
from turbomath.homework.marking.class_marks import SeatMarks, class_marks, state
from turbomath.homework.marking.class_page import class_results_page, shared_told
from turbomath.homework.marking.feedback import feedback_page, number
from turbomath.homework.marking.tables import csv_text
from turbomath.table.errors import short
from turbomath.table.version import __version__

GRADES_HEAD = ("seat", "sheet code", "kit version", "question", "part", "points", "of", "finding", "comment")
ITEMS_HEAD = ("question", "answered", "right", "finding", "count")
TOTALS_HEAD = ("seat", "student", "sheet code", "points", "of", "per cent", "waiting", "state")
WAITING_HEAD = ("seat", "sheet code", "question", "part", "written", "why", "points", "of")
GRADES, ITEMS, FEEDBACK, HISTORY = "grades.csv", "items.csv", "feedback", "history"
TOTALS, WAITING, RESULTS = "totals.csv", "waiting.csv", "class_results.html"
LONGEST_SENTENCE = 300


def written(course: ClassFolder) -> tuple[tuple[SeatMarks, ...], tuple[Path, ...]]:
    """Mark the class and write its gradebook; return (the marks, the paths that were written).

    Raises
    ------
    TurbomathError
        If what the instructor wrote cannot be read; nothing is written then.
    """
    marks = class_marks(course)
    grades = course.folder / GRADES
    texts = {course.folder / FEEDBACK / f"{one.seat}.html": feedback_page(one, course.assignment) for one in marks}
    students = {seat: student for seat, (student, _) in course.roster().items()}
    texts |= {course.folder / ITEMS: items_csv(marks), grades: grades_csv(marks)}
    texts |= {course.folder / TOTALS: totals_csv(marks, students), course.folder / WAITING: waiting_csv(marks)}
    results = course.instructor / RESULTS
    texts[results] = class_results_page(marks, course.assignment, students)
    kept = _kept(course, grades, texts[grades])
    for path, text in texts.items():
        files.write_whole(path, text)
    return marks, (*(course.folder / name for name in (TOTALS, GRADES, WAITING, ITEMS, FEEDBACK)), results, *kept)


def grades_csv(marks: Sequence[SeatMarks]) -> str:
    """Return the text of grades.csv: a row for each part of each question of each seat."""
    rows = [
        (
            one.seat,
            one.code,
            __version__,
            part.question,
            part.part,
            "" if part.waits else number(part.points),
            number(part.of),
            part.finding,
            " ".join([part.words, *one.notes]),
        )
        for one in marks
        for part in one.parts
    ]
    return csv_text(GRADES_HEAD, rows)


def totals_csv(marks: Sequence[SeatMarks], students: Mapping[str, str]) -> str:
    """Return the text of totals.csv: a row for each seat. The points of what waits are not among its points.

    Parameters
    ----------
    marks : sequence of SeatMarks
        The class.
    students : dict
        Seat -> name, "" where the roster has none.
    """
    rows = []
    for one in marks:
        of = sum(part.of for part in one.parts)
        share = f"{100 * one.points / of:.1f}"
        count = len(one.waiting)
        rows.append((one.seat, students[one.seat], one.code, number(one.points), number(of), share, count, state(one)))
    return csv_text(TOTALS_HEAD, rows)


def waiting_csv(marks: Sequence[SeatMarks]) -> str:
    """Return the text of waiting.csv: what could not be read, as it was written, for the instructor to decide."""
    rows = [
        (one.seat, one.code, part.question, part.part, part.said, part.message, "", number(part.of))
        for one in marks
        for part in one.waiting
    ]
    return csv_text(WAITING_HEAD, rows)


def items_csv(marks: Sequence[SeatMarks]) -> str:
    """Return the text of items.csv: a row for each finding of each question, counted over the answers there are."""
    rows = [
        (item.question, item.answered, item.right, finding, count)
        for item in items.items(marks)
        for finding, count in (item.findings or {"none": 0}).items()
    ]
    return csv_text(ITEMS_HEAD, rows)


def on_terminal(marks: Sequence[SeatMarks], assignment: Assigned) -> str:
    """Return what the terminal shows of a marked class: seats, what was not read, what to teach again, to look at."""
    lines = [f"{assignment.title}: {len(marks)} seats, {number(assignment.points)} points"]
    for one in marks:
        lines.append(f"  {one.seat:<24} {number(one.points):>8} of {number(assignment.points)}{_waiting(one)}")
        lines += [f"    {short(words, LONGEST_SENTENCE)}" for words in (*one.refused, *one.notes)]
    shared = [f"  {shared_told(one)}" for one in copies.shared_numbers(marks)]
    look = ["Numbers in more than one seat:", *shared] if shared else []
    return "\n".join([*lines, *items.to_teach_again(marks), *look])


def _waiting(one):
    """Say what is not settled about a seat."""
    said = state(one)
    return f"  {len(one.waiting)} waiting" if said == "waiting" else "" if said == "marked" else f"  {said}"


def _kept(course, grades, text):
    """Keep the grades.csv that is there under the time it was written, if it says something else."""
    try:
        before = grades.read_bytes()
    except FileNotFoundError:
        return ()
    if before == text.encode():
        return ()
    time = datetime.datetime.fromtimestamp(grades.stat().st_mtime)
    path = course.instructor / HISTORY / f"grades-{time:%Y-%m-%dT%H%M%S}.csv"
    while path.exists() and path.read_bytes() != before:
        time += datetime.timedelta(seconds=1)
        path = path.with_name(f"grades-{time:%Y-%m-%dT%H%M%S}.csv")
    path.parent.mkdir(parents=True, exist_ok=True)
    shutil.copyfile(grades, path)
    return (path,)
