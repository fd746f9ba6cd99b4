"""The papers of a lesson on the disk: the lesson, its voting cards, the substitute's sheet."""

from collections.abc import Iterable, Iterator
from pathlib import Path

from turbomath.classroom import work_copies
from turbomath.disk.files import write_whole
from turbomath.handouts.cards import cards_page
from turbomath.handouts.lesson_page import lesson_page
from turbomath.handouts.substitute import substitute_page
from turbomath.panels.registry import LESSONS
from turbomath.table.errors import TurbomathError
from turbomath.widgets.lesson import Lesson

PAPERS = {"": lesson_page, "-cards": cards_page, "-substitute": substitute_page}  # what a file's name ends with
NO_PAPER = (
    "The {name} notebook is no lesson to print. Homework on paper has its own command, with numbers for each seat: "
    "turbomath homework sheet ASSIGNMENT --seats class.csv --out FOLDER"
)


def lessons_asked(name: str | None) -> list[Lesson]:
    """Return the lesson of this name or number, or all that can be printed where there is none.

    Raises
    ------
    TurbomathError
        If there is no such lesson, or it has nothing to print.
    """
    printed = [one for one in LESSONS if one.predictions]
    if name is None:
        return printed
    notebook = work_copies.lesson_name(name)
    found = [one for one in printed if one.notebook == notebook]
    if not found:
        raise TurbomathError(NO_PAPER.format(name=notebook))
    return found


def write(lessons: Iterable[Lesson], folder: Path | str) -> Iterator[Path]:
    """Write the papers of lessons into a folder, which is made if need be, and yield the path of each."""
    for lesson in lessons:
        for ending, made in PAPERS.items():
            path = Path(folder) / f"{lesson.notebook}{ending}.html"
            write_whole(path, made(lesson))
            yield path
