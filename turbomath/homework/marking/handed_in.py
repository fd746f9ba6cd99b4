"""What one seat handed in: its answers from whichever files are there, what was refused, and what contradicts."""

import datetime
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from pathlib import Path

from turbomath.homework.marking import answer_files, tables
from turbomath.homework.marking.answer_files import Entry, Questions
from turbomath.homework.marking.class_folder import ClassFolder
from turbomath.table.errors import TurbomathError, short

ANSWERS_CSV, ANSWERS_JSON = "answers.csv", "answers.json"
GRID = "answers_grid.csv"
_GIVEN_OUT = (ANSWERS_CSV, ANSWERS_JSON, "sheet.html")
_MOST_NAMED = 3


@dataclass(frozen=True)
class HandIn:
    """The answers of one seat.

    `answers` holds the `Entry` of each (question, part) that was answered; `refused` a sentence for each file that
    was not read; `notes` what else there is to say; `waiting` question -> the sentence on two answers that differ;
    `written` (question, part) -> all that was written for it, where two differ; `dated` the day of the newest file
    with answers, or None; `entries` all that was written; `strayed` sheet code -> entries of files of other sheets.
    """

    answers: dict[tuple[str, str], Entry]
    refused: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()
    waiting: dict[str, str] = field(default_factory=dict)
    dated: datetime.date | None = None
    written: dict[tuple[str, str], str] = field(default_factory=dict)
    entries: tuple[Entry, ...] = ()
    strayed: dict[str, list[Entry]] = field(default_factory=dict)


def grid_of(course: ClassFolder, questions: Questions) -> dict[str, list[Entry]]:
    """Return seat -> entries that the instructor typed in from paper; nothing where there is no grid."""
    path = course.instructor / GRID
    return answer_files.from_grid(path, questions, tuple(course.roster())) if tables.exists(path) else {}


def handed_in(course: ClassFolder, seat: str, grid: Mapping[str, Sequence[Entry]], questions: Questions) -> HandIn:
    """Return the `HandIn` of a seat; a file that cannot be read is named in it and stops nobody.

    Parameters
    ----------
    course : Course
        The folder of the class.
    seat : str
        Whose.
    grid : dict
        From `grid_of`.
    questions : dict
        The questions of the assignment by name.
    """
    folder, entries, refused, days = course.student(seat), [], [], []
    code = course.sheet_code(seat)
    strayed: dict[str, list[Entry]] = {}
    readers = {
        ANSWERS_CSV: lambda path, name: answer_files.from_csv(path, questions, name),
        ANSWERS_JSON: lambda path, name: (code, answer_files.from_json(path, questions, name, seat, code)),
    }
    if folder.is_symlink() or course.students.is_symlink():
        return HandIn({}, (f"students/{seat}: found a link, expected a folder. Nothing behind it was opened.",))
    for name, read in readers.items():
        if tables.exists(folder / name):
            try:
                whose, found = read(folder / name, f"{seat}/{name}")
            except TurbomathError as refusal:
                refused.append(str(refusal))
                continue
            found = [one for one in found if one.said]
            if whose not in ("", code):
                strayed.setdefault(whose, []).extend(found)
                continue
            entries += found
            days += [_day(folder / name)] if found else []
    entries += [one for one in grid.get(seat, ()) if one.said]
    return _whole(
        HandIn({}, tuple(refused), _left_alone(folder), dated=max(days, default=None), strayed=strayed), entries
    )


def given_back(hand_ins: Mapping[str, HandIn], codes: Mapping[str, str]) -> dict[str, HandIn]:
    """Return the hand-ins with each file that lay in another seat's folder taken as that of its own sheet.

    Parameters
    ----------
    hand_ins : dict
        Seat -> what lay in its folder.
    codes : dict
        Seat -> its sheet code.
    """
    found, seats = dict(hand_ins), {code: seat for seat, code in codes.items()}
    for seat, one in hand_ins.items():
        for code, entries in one.strayed.items():
            owner = seats.get(code)
            if owner is None:
                refused = (
                    f"{seat}: found a file of sheet {short(code)!r}, expected one of this class. It was not marked."
                )
                found[seat] = replace(found[seat], refused=(*found[seat].refused, refused))
                continue
            note = f"The file of seat {owner} (sheet {code}) lies in the folder of {seat}: marked as that of {owner}."
            found[seat] = replace(found[seat], notes=(*found[seat].notes, note))
            found[owner] = _whole(replace(found[owner], notes=(*found[owner].notes, note)), entries)
    return found


def _whole(hand_in, entries):
    """Return a hand-in with entries among its answers; two that differ wait."""
    entries = (*hand_in.entries, *entries)
    answers, waiting = _without_guessing(entries)
    written = _all_written(entries, waiting) if waiting else {}
    return replace(hand_in, answers=answers, waiting=waiting, written=written, entries=entries)


def _all_written(entries, waiting):
    """Return (question, part) -> what was written for it, of the questions with two answers that differ."""
    found: dict[tuple[str, str], dict[str, None]] = {}
    for one in entries:
        if one.question in waiting:
            found.setdefault((one.question, one.part), {})[one.said] = None
    return {key: " | ".join(said) for key, said in found.items()}


def _without_guessing(entries):
    """Return ((question, part) -> entry, question -> the sentence on two entries that differ)."""
    answers, waiting = {}, {}
    for one in entries:
        first = answers.setdefault((one.question, one.part), one)
        if first.said != one.said and one.question not in waiting:
            waiting[one.question] = (
                f"Two answers differ: {first.where} has '{short(first.said)}', {one.where} has '{short(one.said)}'. "
                "Nothing was guessed. Take one of them out and mark again."
            )
    return {key: one for key, one in answers.items() if one.question not in waiting}, waiting


def _day(path):
    return datetime.date.fromtimestamp(Path(path).stat().st_mtime)


def _left_alone(folder):
    """Return a sentence on files that nobody asked for."""
    try:
        names = sorted(path.name for path in folder.iterdir())
    except OSError:
        return ()
    others = [name for name in names if name not in _GIVEN_OUT and not name.startswith("sheet-")]
    if not others:
        return ()
    named = ", ".join(short(name) for name in others[:_MOST_NAMED])
    more = f" and {len(others) - _MOST_NAMED} more" if len(others) > _MOST_NAMED else ""
    return (f"Not opened: {named}{more}. Answers are read from {ANSWERS_CSV} and {ANSWERS_JSON} only.",)
