"""Two folders of one class, one from before a course and one from after it, set side by side."""

from pathlib import Path

from turbomath.disk import files
from turbomath.homework.course.course import Course
from turbomath.homework.marking import gain_page
from turbomath.homework.marking.class_marks import class_marks
from turbomath.homework.marking.gain import gain
from turbomath.table.errors import TurbomathError

FEWEST = 5  # seats below which a count would name a student
PAGE = "before_and_after.html"


def written(before: Path | str, after: Path | str) -> str:
    """Write the page of a class before and after a course; return what the terminal shows of it.

    Parameters
    ----------
    before, after : Path
        The homework folders of the same questions, the first time and the second.

    Raises
    ------
    TurbomathError
        If a folder cannot be marked, the questions or the numbers' source are not as they must be, or so few seats
        answered both times that a count would name one.
    """
    first, second = Course(Path(before)), Course(Path(after))
    names = [[one.question for one in course.assignment.questions] for course in (first, second)]
    if names[0] != names[1]:
        other = next((name for name in names[1] if name not in names[0]), "another order")
        expected = f"the questions of {first.folder}"
        raise TurbomathError(f"{second.folder}: found '{other}', expected {expected}. Name the folder of those.")
    if first.secret == second.secret:
        raise TurbomathError(
            f"{second.folder}: found the numbers of {first.folder}, expected other ones for the same questions. "
            "Write the second sheets into a folder of their own."
        )
    found = gain(class_marks(first), class_marks(second))
    if found.seats < FEWEST:
        raise TurbomathError(
            f"{second.folder}: found {found.seats} seats that answered both times, expected at least {FEWEST}: with "
            "fewer, a count would name a student. Collect more answers."
        )
    page = second.instructor / PAGE
    files.write_whole(page, gain_page.gain_page(found, second.assignment.title))
    said = (*gain_page.sentences(found), gain_page.survived(found), gain_page.WORDS.text("no_claim"))
    return "\n".join([*said, f"Written: {page}"])
