"""Forget one seat: whatever a homework folder holds of it is taken out, and what was taken out is said."""

import csv
import io
import re
import shutil

from turbomath.disk import files
from turbomath.homework.course import hand_out, seats
from turbomath.homework.course.course import Course
from turbomath.homework.marking import gradebook, tables
from turbomath.table.errors import TurbomathError

MOST_BYTES = 100_000_000


def forget(course: Course, seat: str) -> list[str]:
    """Take a seat out of a homework folder; return the lines that say what was removed and what is left to do.

    Parameters
    ----------
    course : Course
        The folder of the class.
    seat : str
        Whose data go.

    Raises
    ------
    TurbomathError
        If it is no homework folder, or there is nothing of that seat in it.
    """
    if not course.instructor.is_dir():
        raise TurbomathError(
            f"{course.folder}: found no folder 'instructor' in it, expected a homework folder. "
            "Name it with --folder FOLDER."
        )
    seat = _as_spelled(course, seats.seat(seat))
    traces = _traces(course, seat)
    removed = [*_folders(course, seat), *_rows(course, seat)]
    if not removed and not _named(course, traces):
        raise TurbomathError(
            f"{course.folder}: found nothing of seat '{seat}', expected a seat of this class. Check its code."
        )
    return [*removed, *_pages(course), *_counts(course), *_left(course, traces)]


def _as_spelled(course, seat):
    """Return a seat as the roster spells it."""
    roster = course.roster() if tables.exists(course.roster_file) else ()
    return next((one for one in roster if one.casefold() == seat.casefold()), seat)


def _traces(course, seat):
    """Return the texts by which a seat is known: its code, its sheet code, the student's name."""
    student, code = course.roster().get(seat, ("", "")) if tables.exists(course.roster_file) else ("", "")
    return [re.compile(rf"(?<![\w-]){re.escape(text)}(?![\w-])") for text in (seat, student, code) if text]


def _folders(course, seat):
    removed = []
    for path in (course.student(seat), course.folder / gradebook.FEEDBACK / f"{seat}.html"):
        if tables.exists(path):
            path.unlink() if path.is_symlink() or not path.is_dir() else shutil.rmtree(path)
            removed.append(f"Removed: {path}")
    return removed


def _rows(course, seat):
    """Take the rows of a seat out of every table; the other rows stay as they are, to the letter."""
    removed = []
    own = (course.folder / name for name in (gradebook.TOTALS, gradebook.GRADES, gradebook.WAITING))
    for path in (*own, *sorted(course.instructor.rglob("*.csv"))):
        if tables.exists(path):
            content = tables.text(path, most_bytes=MOST_BYTES)
            kept, count = _without(content, seat)
            if count:
                files.write_whole(path, files.BYTE_ORDER_MARK + kept)
                removed.append(f"Removed: {count} row{'s' * (count > 1)} of {path}")
    return removed


def _without(content, seat):
    """Return (the text of a table without the rows of a seat, how many rows those were)."""
    lines = io.StringIO(content, newline="").readlines()
    reader = csv.reader(iter(lines), delimiter=tables.separator(content))
    kept, column, count, start = [], None, 0, 0
    for cells in reader:
        record, start = lines[start : reader.line_num], reader.line_num
        names = [cell.strip().casefold() for cell in cells]
        if column is None and "seat" in names:
            column = names.index("seat")
        is_it = column is not None and column < len(names) and names[column] == seat.casefold()
        kept += [] if is_it else record
        count += is_it
    return "".join(kept), count


def _pages(course):
    """Write the class print, key and solutions again from the roster, which no longer has the seat."""
    there = [path for path in (course.class_page, course.key_page, course.solutions_page) if tables.exists(path)]
    if not there or not tables.exists(course.roster_file):
        return []
    if course.roster():
        hand_out.write_seats(course)
        return [f"Written again without it: {path}" for path in there]
    for path in there:
        path.unlink()
    return [f"Removed: {path}" for path in there]


def _counts(course):
    """Take away the item report, whose counts still hold the seat's answers."""
    path = course.folder / gradebook.ITEMS
    if not tables.exists(path):
        return []
    path.unlink()
    again = f"turbomath homework gradebook {course.folder}"
    return [f"Removed: {path}, which counted this seat too. Write it again: {again}"]


def _named(course, traces):
    """Return the files in the folder that name the seat."""
    found = []
    for path in sorted(course.folder.rglob("*")):
        if path.is_file() and not path.is_symlink():
            content = path.read_bytes()[:MOST_BYTES].decode("utf-8", "replace")
            found += [path] if any(trace.search(content) for trace in traces) else []
    return found


def _left(course, traces):
    """Return a line for each file in the folder that still names the seat."""
    lines = [f"Still names it: {path}. Take it out there by hand." for path in _named(course, traces)]
    return lines or ["Nothing else in this folder names it. Copies elsewhere (mail, backups) are yours to remove."]
