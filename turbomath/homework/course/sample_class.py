"""The sample class: 24 INVENTED seats whose mistakes are known, so that marking can be tried before term.

Everything follows from one seed and one public secret. In each question, each usual mistake and every other finding
is planted at one seat, drawn by the seed; the other seats are right. Nobody wrote these answers.
"""

import json
import random
import shutil
from collections.abc import Iterable
from pathlib import Path

from turbomath.disk import files
from turbomath.homework.course import hand_out, planted
from turbomath.homework.course.course import Course
from turbomath.homework.marking import answer_files, handed_in
from turbomath.homework.marking.class_marks import SeatMarks, class_marks
from turbomath.homework.marking.feedback import number
from turbomath.homework.marking.tables import csv_text
from turbomath.table.errors import TurbomathError
from turbomath.table.version import __version__

SECRET = "INVENTED, and public: the secret of the sample class"
SEED = 35
SEATS = tuple(f"A{place:02}" for place in range(1, 25))
IN_JSON, ON_PAPER, WITH_COMMAS = SEATS[3:6], SEATS[9:12], SEATS[15:18]
BROKEN, TWICE = SEATS[20], SEATS[21]  # a head that does not fit; two answers that differ
PLANTED, RECORD, HANDED_IN, SEATS_FILE = "planted.csv", "marks.csv", "handed_in", "seats.csv"
PLANTED_HEAD = ("seat", "question", "part", "planted", "answer")
RECORD_HEAD = ("seat", "question", "part", "points", "of", "finding")


def shipped() -> Path:
    """Return the folder of the shipped sample class."""
    return files.shipped("data") / "homework" / "sample_class"


def copied(folder: Path | str) -> Course:
    """Begin a homework folder with the sample class, answers handed in and ready to mark; return its `Course`.

    Raises
    ------
    TurbomathError
        If there is something in the folder already.
    """
    if Path(folder).is_dir() and any(Path(folder).iterdir()):
        raise TurbomathError(f"{folder}: found a folder with something in it, expected a new one. Give another name.")
    source = shipped()
    with files.whole_folder(folder) as place:
        course = begun(place)
        for seat in sorted((source / HANDED_IN).iterdir()):
            shutil.copytree(seat, course.student(seat.name), dirs_exist_ok=True)
        for name in (handed_in.GRID, PLANTED):
            shutil.copy(source / name, course.instructor)
    return Course(Path(folder))


def begun(folder: Path | str) -> Course:
    """Begin a homework folder for the seats of the sample class, with its public secret; nothing is handed in yet."""
    course = Course(Path(folder))
    files.write_whole(course.secret_file, f"{SECRET}\n")
    hand_out.write(shipped() / "assignment.toml", shipped() / SEATS_FILE, folder)
    return course


def plants(course: Course) -> dict[str, dict[str, planted.Plants]]:
    """Return seat -> (question -> the (part, planted, answer) of each part), as the seed draws them."""
    draw, variants = random.Random(SEED), course.all_variants()
    found = {seat: {name: planted.right(one, draw) for name, one in variants[seat].items()} for seat in SEATS}
    for one in course.assignment.questions:
        free = [seat for seat in SEATS if seat not in (BROKEN, TWICE)]
        draw.shuffle(free)
        some = variants[SEATS[0]][one.question]
        for recipe in planted.recipes(some.question, some.units).values():
            for seat in free:
                made = recipe(variants[seat][one.question], draw)
                if made:
                    found[seat][one.question] = made
                    free.remove(seat)
                    break
    return found


def write_all() -> None:
    """Write the sample class of the checkout's data folder: answers, what is planted, and the marks on record."""
    import tempfile

    target = shipped()
    seats = "".join(f"{seat},INVENTED student {place}\n" for place, seat in enumerate(SEATS, 1))
    files.write_whole(target / SEATS_FILE, f"{files.BYTE_ORDER_MARK}seat,student\n{seats}")
    with tempfile.TemporaryDirectory() as folder:
        course = begun(folder)
        found = plants(course)
        _write_answers(course, found, target)
    files.write_whole(target / PLANTED, csv_text(PLANTED_HEAD, _planted_rows(found)))
    with tempfile.TemporaryDirectory() as folder:
        files.write_whole(target / RECORD, csv_text(RECORD_HEAD, record(class_marks(copied(folder)))))


def record(marks: Iterable[SeatMarks]) -> list[tuple[str, ...]]:
    """Return the rows of the record of a marked class."""
    return [
        (one.seat, part.question, part.part, number(part.points), number(part.of), part.finding)
        for one in marks
        for part in one.parts
    ]


def _planted_rows(found):
    for seat, questions in found.items():
        for name, parts in questions.items():
            for part, finding, answer in parts:
                waits = seat == TWICE and name == next(iter(questions))
                yield seat, name, part, "unreadable" if seat == BROKEN else "twice" if waits else finding, answer


def _write_answers(course, found, target):
    shutil.rmtree(target / HANDED_IN, ignore_errors=True)
    for seat, questions in found.items():
        rows = [(name, part, answer, "", "") for name, parts in questions.items() for part, _, answer in parts]
        folder = target / HANDED_IN / seat
        if seat in IN_JSON:
            files.write_whole(folder / handed_in.ANSWERS_JSON, _as_json(course, seat, rows))
        elif seat not in ON_PAPER:
            head = ("task", *answer_files.FIELDS[1:]) if seat == BROKEN else answer_files.FIELDS
            folder.mkdir(parents=True)
            (folder / handed_in.ANSWERS_CSV).write_bytes(_as_csv(head, rows, commas=seat in WITH_COMMAS))
    files.write_whole(target / handed_in.GRID, _as_grid(found))


def _as_json(course, seat, rows):
    answers = [dict(zip(answer_files.FIELDS, row, strict=True)) for row in rows]
    content = {
        "schema": answer_files.SCHEMA,
        "seat": seat,
        "sheet": course.sheet_code(seat),
        "kit": __version__,
        "answers": answers,
    }
    return json.dumps(content, indent=1, ensure_ascii=False) + "\n"


def _as_csv(head, rows, *, commas):
    """Return a filled answers.csv, as one spreadsheet saves it, or as another with decimal commas does."""
    if not commas:
        return "".join(",".join(row) + "\r\n" for row in (head, *rows)).encode()
    swapped = [[cell.replace(".", ",").replace("−", "-") for cell in row] for row in rows]
    return "".join(";".join(row) + "\r\n" for row in (head, *swapped)).encode("cp1252")


def _as_grid(found):
    """Return what the instructor typed in from paper, and a second answer of one seat, which differs."""
    some = next(iter(found.values()))
    heads = [f"{name} / {part}" if part else name for name, parts in some.items() for part, _, _ in parts]
    rows = [(seat, *(answer for parts in found[seat].values() for _, _, answer in parts)) for seat in ON_PAPER]
    second = (TWICE, "99.9 psi abs", *("" for _ in heads[1:]))
    lines = (",".join(row) + "\r\n" for row in (("seat", *heads), *rows, second))
    return files.BYTE_ORDER_MARK + "".join(lines)


if __name__ == "__main__":
    write_all()
