"""How long it takes to write the sheets of a class of 24, and to mark one of 1,000 beside a loop that only compares.

    python -m tests.benchmarks.marking_times [SEATS]

Both read the same answers.csv files in the same run. The plain loop takes `float()` of the first word of each answer
and compares it with a key that is there already; marking makes each seat's numbers, works out the key, and names the
mistake. Bars: sheets at most 6 s, marking at most 10 s. Then the slowest of the hostile hand-ins are printed. Exits
with 1 where a bar is missed.
"""

import contextlib
import csv
import random
import sys
import tempfile
import time
from pathlib import Path

from tests.homework.a_class import as_csv
from tests.homework.marking.hostile import HOSTILE
from turbomath.homework import bank
from turbomath.homework.bank.question import Choice
from turbomath.homework.course import hand_out, planted
from turbomath.homework.course.course import Course
from turbomath.homework.marking import handed_in
from turbomath.homework.marking.class_marks import class_marks
from turbomath.working.coherent import scale

SEATS, QUESTIONS, BAR = 1_000, 20, 10.0
SHEETS, SHEETS_BAR = 24, 6.0
SHARE_RIGHT = 0.6


def main(seats=SEATS):
    """Print the times; return 1 if one of them misses its bar."""
    with tempfile.TemporaryDirectory() as place:
        sheets = sheet_times(Path(place))
        course = a_class(Path(place), seats)
        keys = hand_in_all(course)
        start = time.perf_counter()
        compared = plain_loop(course, keys)
        plain = time.perf_counter() - start
        start, own = time.perf_counter(), time.process_time()
        marks = class_marks(Course(course.folder))
        took, own = time.perf_counter() - start, time.process_time() - own
        right = sum(part.finding == "right" for one in marks for part in one.parts)
        print(f"{seats:,} submissions x {QUESTIONS} questions, {sum(len(one.parts) for one in marks):,} answers")
        print(f"  plain loop over float() and compare  {plain:7.2f} s  {compared:,} equal")
        print(f"  marking, with numbers, key, mistakes {took:7.2f} s  {right:,} right   {took / plain:.1f} x the loop")
        print(f"  bar {BAR:g} s: {'met' if took <= BAR else 'MISSED'}; of its own processor time it took {own:.2f} s")
        hostile_times(course, Path(place))
    return int(took > BAR or sheets > SHEETS_BAR)


def sheet_times(place):
    """Print and return how long the sheets, the key and the solutions of the longest shipped set take to write."""
    (place / "seats.csv").write_text("".join(f"A{number:02}\n" for number in range(SHEETS)), encoding="utf-8")
    start = time.perf_counter()
    hand_out.write("whole_air_path", place / "seats.csv", place / "sheets")
    took = time.perf_counter() - start
    print(f"whole_air_path for {SHEETS} seats: sheets, key, solutions written in {took:.2f} s, bar {SHEETS_BAR:g} s")
    return took


def a_class(place, seats):
    """Return the `Course` of a class of so many seats and the first numeric questions of the bank."""
    names = [name for name, one in bank.QUESTIONS.items() if not isinstance(one, Choice)][:QUESTIONS]
    course = Course(place / "class")
    course.make_secret()
    tables = "".join(f'[[questions]]\nquestion = "{name}"\n' for name in names)
    course.assignment_file.write_text(f'name = "benchmark"\n{tables}', encoding="utf-8")
    course.write_roster({f"S{number:04}": "" for number in range(seats)})
    return course


def hand_in_all(course):
    """Write an answers.csv for each seat, some right and the others with a mistake; return the key of each answer."""
    draw, keys = random.Random(3), {}
    for seat, variants in course.all_variants().items():
        rows = []
        for name, variant in variants.items():
            recipes = list(planted.recipes(variant.question, variant.units).values())
            recipe = planted.right if draw.random() < SHARE_RIGHT else draw.choice(recipes)
            for part, _, answer in recipe(variant, draw) or planted.right(variant, draw):
                asked = next(one for one in variant.asked if one.name == part)
                zero, size = scale(asked.unit(variant.units), asked.row)
                keys[seat, name, part] = (float(variant.key[part]) - zero) / size
                rows.append([name, part, answer, "", ""])
        course.student(seat).mkdir(parents=True)
        (course.student(seat) / handed_in.ANSWERS_CSV).write_text(as_csv(rows), encoding="utf-8")
    return keys


def plain_loop(course, keys):
    """Return how many answers are within 1 % of the key: read, `float()`, compare."""
    equal = 0
    for folder in course.students.iterdir():
        with (folder / handed_in.ANSWERS_CSV).open(encoding="utf-8", newline="") as stream:
            for row in csv.DictReader(stream):
                key = keys[folder.name, row["question"], row["part"]]
                with contextlib.suppress(ValueError):
                    equal += abs(float(row["answer"].replace("−", "-").split(" ")[0]) - key) <= 0.01 * abs(key)
    return equal


def hostile_times(course, place):
    """Print how long each hostile hand-in takes to be answered, the slowest first."""
    questions = {one.question: bank.find(one.question) for one in course.assignment.questions}
    times, outside = {}, place / "outside"
    outside.mkdir()
    for number, (name, (_, make)) in enumerate(HOSTILE.items()):
        seat = f"H{number:02}"
        course.student(seat).mkdir()
        (course.student(seat) / f"sheet-{course.sheet_code(seat)}.json").touch()
        make(course.student(seat), outside)
        start = time.perf_counter()
        handed_in.handed_in(course, seat, {}, questions)
        times[name] = time.perf_counter() - start
    print(f"{len(times)} hostile hand-ins, {sum(times.values()):.2f} s together; the slowest:")
    for name, took in sorted(times.items(), key=lambda one: -one[1])[:5]:
        print(f"  {name:<36} {1000 * took:7.1f} ms")


if __name__ == "__main__":
    sys.exit(main(*map(int, sys.argv[1:])))
