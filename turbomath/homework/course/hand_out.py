"""A homework folder written: a sheet for each seat, the class in one print, and key and solutions apart from both.

Running it again gives the same files, adds new seats, and leaves alone what a student has filled in.
"""

import os
from collections.abc import Collection
from dataclasses import dataclass
from pathlib import Path

from turbomath.disk import files, plain_files
from turbomath.disk.plain_files import Place
from turbomath.homework.course import phone_sheet, printed_sheet, seats, student_sheet
from turbomath.homework.course.assignment import MOST_BYTES, read_assignment
from turbomath.homework.course.course import Course
from turbomath.homework.course.key_page import key_page
from turbomath.homework.course.solutions_page import solutions_page
from turbomath.homework.marking import handed_in, tables
from turbomath.table.errors import TurbomathError, short

LARGE_SHEET, PHONE_SHEET = _OTHER_SHEETS = "sheet-large.html", "sheet-phone.html"


@dataclass(frozen=True)
class HandOut:
    """What was written: the folder, its seats, and among them the new ones, those whose answers were left alone,
    those that have large print, and those that have a page for a phone."""

    course: Course
    seats: tuple[str, ...]
    new: tuple[str, ...]
    filled_in: tuple[str, ...]
    large: tuple[str, ...]
    phones: tuple[str, ...]

    @property
    def words(self) -> str:
        """The same as text for a terminal."""
        course = self.course
        lines = [
            f"Written: {course.students}: {len(self.seats)} seats, {len(self.new)} of them new",
            f"Written: {course.class_page}: all sheets in one print",
            f"Written: {course.key_page}: the key, every answer by question",
            f"Written: {course.solutions_page}: every answer worked, by seat",
            f"Written: {course.instructor / handed_in.GRID}: for what comes back on paper, a row a seat",
            f"Keep the folder {course.instructor} to yourself, and a copy of it: all numbers follow from its secret.",
        ]
        if self.large:
            lines.append(f"Large print: {LARGE_SHEET} of {', '.join(self.large)}, and in {course.class_page.name} too.")
        if self.phones:
            whose = "every seat" if self.phones == self.seats else ", ".join(self.phones)
            lines.append(
                f"For a phone: {PHONE_SHEET} of {whose}. It saves answers.json; put that into the seat's folder."
            )
        if self.filled_in:
            lines.append(f"Left alone: the answers.csv of {', '.join(self.filled_in)}, which somebody has filled in.")
        return "\n".join(lines)


def shipped_assignments() -> list[str]:
    """Return the names of the shipped examples, in alphabetical order."""
    return sorted(path.stem for path in (files.shipped("data") / "homework").glob("*.toml"))


def write(
    assignment: Path | str,
    seats_file: Path | str,
    folder: Path | str,
    *,
    large: Collection[str] | None = None,
    pocket: bool = False,
) -> HandOut:
    """Write the folder of one assignment for one class, and return the `HandOut`.

    Parameters
    ----------
    assignment : str or Path
        A TOML file, or the name of a shipped example.
    seats_file : str or Path
        The seats, as for `seats.read_seats`.
    folder : str or Path
        Where to write; begun if it is not there.
    large : collection of str, optional
        Seats that get their sheet in large print as well, from now on; an empty one means all.
    pocket : bool
        Whether each seat gets a page to work on with a phone as well, from now on.

    Raises
    ------
    TurbomathError
        If a file cannot be read whole, or the folder belongs to another assignment. Nothing is written then.
    """
    source = _source(assignment)
    wanted = read_assignment(source)
    before = _roster_before(Course(Path(folder)), wanted)
    students = _merged(before, seats.read_seats(seats_file), seats_file)
    in_large = _large(large, students, seats_file)
    course = Course(Path(folder))
    own = {course.instructor / one.file: one.text for one in wanted.own}
    _refuse_links(course, students, own)
    course.make_secret()
    for path, content in own.items():
        files.write_whole(path, content)
    files.write_whole(course.assignment_file, plain_files.text(source, most_bytes=MOST_BYTES))
    course.write_roster(students)
    filled_in = write_seats(course, in_large, tuple(students) if pocket else ())
    new = tuple(seat for seat in students if seat not in before)
    have = [tuple(one for one in students if (course.student(one) / name).is_file()) for name in _OTHER_SHEETS]
    return HandOut(course, tuple(students), new, filled_in, *have)


def write_seats(course: Course, large: Collection[str] = (), phones: Collection[str] = ()) -> tuple[str, ...]:
    """Write all that follows from the roster: sheets, class print, key, solutions; return the seats that filled in.

    A seat gets large print, or a page for a phone, if it is among *large* or *phones*, or has had it before.
    """
    assignment, roster, variants = course.assignment, course.roster(), course.all_variants()
    sheets, filled_in = [], []
    for seat, (_, code) in roster.items():
        sheet = printed_sheet.printed_sheet(assignment, seat, code, variants[seat])
        folder = course.student(seat)
        files.write_whole(folder / "sheet.html", printed_sheet.sheets_page(assignment, (sheet,)))
        data = student_sheet.sheet_json(assignment, seat, code, variants[seat])
        files.write_whole(folder / f"sheet-{code}.json", data)
        if not _blank_written(folder / "answers.csv", student_sheet.blank_answers(assignment, code)):
            filled_in.append(seat)
        if seat in phones or (folder / PHONE_SHEET).is_file():
            files.write_whole(folder / PHONE_SHEET, phone_sheet.phone_page(assignment, seat, code, variants[seat]))
        if seat in large or (folder / LARGE_SHEET).is_file():
            sheet = printed_sheet.printed_sheet(assignment, seat, code, variants[seat], large=True)
            files.write_whole(folder / LARGE_SHEET, printed_sheet.sheets_page(assignment, (sheet,)))
        sheets.append(sheet)
    files.write_whole(course.class_page, printed_sheet.sheets_page(assignment, sheets))
    grid = course.instructor / handed_in.GRID
    if not _typed_in(grid):
        files.write_whole(grid, student_sheet.blank_grid(assignment, roster))
    files.write_whole(course.key_page, key_page(assignment, roster, variants))
    files.write_whole(course.solutions_page, solutions_page(assignment, roster, variants))
    return tuple(filled_in)


def _typed_in(grid):
    """Whether somebody has typed anything into answers_grid.csv; what is no plain file is taken as typed."""
    if not os.path.lexists(grid):
        return False
    if grid.is_symlink() or not grid.is_file():
        return True
    content = grid.read_bytes().decode("utf-8", "replace")
    mark = tables.separator(content)
    return any(row.partition(mark)[2].strip(f'{mark}" ') for row in content.splitlines()[1:])


def _large(wanted, students, seats_file):
    """Return the seats that shall have large print; refuse one that is no seat of the class."""
    for seat in wanted or ():
        if seat not in students:
            found, expected = short(seat), f"a seat of {seats_file}"
            raise TurbomathError(f"--large: found {found!r}, expected {expected}. Write it as it stands there.")
    return () if wanted is None else tuple(wanted) or tuple(students)


def _blank_written(path, blank):
    """Write answers.csv where there is none; return whether it is still blank. What is there is never changed."""
    if not os.path.lexists(path):
        files.write_whole(path, blank)
    plain = path.is_file() and not path.is_symlink()
    if not plain or path.stat().st_size > len(blank.encode()):
        return False
    mark = files.BYTE_ORDER_MARK.encode()
    return path.read_bytes().removeprefix(mark) == blank.encode().removeprefix(mark)


def _source(assignment):
    """Return the path of an assignment: a file, or a shipped example by its name."""
    if str(assignment) in shipped_assignments() and not Path(assignment).is_file():  # a folder may have its name
        return files.shipped("data") / "homework" / f"{assignment}.toml"
    if not Path(assignment).exists():
        expected = f"a TOML file, or one of {', '.join(shipped_assignments())}"
        raise TurbomathError(f"assignment: found no {short(assignment)!r}, expected {expected}. Check the name.")
    return Path(assignment)


def _roster_before(course, wanted):
    """Return seat -> student of a folder that was begun before; refuse one of another assignment or another secret."""
    if not any(map(os.path.lexists, (course.assignment_file, course.roster_file))):
        return {}
    if _numbers_of(course.assignment) != _numbers_of(wanted):
        raise TurbomathError(
            f"{course.folder}: found another assignment, with other {_what_differs(course.assignment, wanted)}, "
            f"expected that of {course.assignment_file}: name, units and questions stay as they are. "
            "Give another folder with --out DIR."
        )
    before = course.roster() if course.roster_file.exists() else {}
    for seat, (_, code) in before.items():
        if code != course.sheet_code(seat):
            raise TurbomathError(
                f"{course.roster_file}: found the code {short(code)!r} for seat {seat}, expected "
                f"{course.sheet_code(seat)}, which the secret gives. Put secret and roster.csv back from one copy."
            )
    return {seat: student for seat, (student, _) in before.items()}


def _numbers_of(assignment):
    """Return what the numbers and the blanks of every seat follow from."""
    own = [(one.file, one.text.split()) for one in assignment.own]
    return assignment.name, assignment.units, [one.question for one in assignment.questions], own


def _what_differs(before, wanted):
    names = ("name", "units", "questions", "questions of your own")
    pairs = zip(names, _numbers_of(before), _numbers_of(wanted), strict=True)
    return " and ".join(what for what, one, other in pairs if one != other)


def _merged(before, listed, seats_file):
    """Return seat -> student of the old seats and the new; a name that is not said again stays."""
    spelled = {seat.casefold(): seat for seat in before}
    students = dict(before)
    for one in listed:
        old = spelled.get(one.code.casefold(), one.code)
        if old != one.code:
            action = "Write it as it was."
            raise Place(str(seats_file), column="seat").refusal(one.code, f"{old}, as in the roster", action)
        students[one.code] = one.student or before.get(one.code, "")
    return students


def _refuse_links(course, students, questions):
    """Refuse a folder or file of the course that is a link: what is written must stay inside."""
    own = (course.students, course.instructor, course.secret_file, course.roster_file, course.assignment_file)
    for path in (*own, *questions, *(path.parent for path in questions), *(course.student(seat) for seat in students)):
        if path.is_symlink():
            raise TurbomathError(f"{path}: found a link, expected a folder or file of its own. Remove the link.")
