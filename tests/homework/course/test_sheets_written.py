"""A class's homework folder as it is written: what students get, what they must not get, and writing it again."""

import csv
import json
import os
import re
import stat

import pytest

from tests.homework.a_class import variants_of
from tests.homework.command import homework
from turbomath import __version__, units
from turbomath.homework import bank
from turbomath.homework.asking import variants
from turbomath.homework.bank.question import Choice
from turbomath.homework.course import hand_out
from turbomath.homework.course.course import Course
from turbomath.homework.marking import marking
from turbomath.homework.marking.class_marks import class_marks
from turbomath.paper.unbroken import unbroken
from turbomath.table import cautions
from turbomath.table.errors import TurbomathError

NAMES = (
    "station_pressure",
    "pressure_ratio",
    "compressor_outlet_pressure",
    "outlet_temperature",
    "aftercooling_density_gain",
    "mass_flow",
    "order_the_stations",
    "impossible_reading",
)
SEATS = "seat,student\nA01,Ann Oh\nA02,=Bob()\nB-1,\n"
STUDENTS = ("Ann Oh", "Bob")
INSTRUCTORS = ("key.html", "solutions.html", "roster.csv", "secret", "assignment.toml", "answers_grid.csv")
SECRET = "5eed" * 16


def assignment(name="week 3", system="us", hints=False, names=NAMES, more=""):
    head = (
        f'name = "{name}"\ntitle = "Up to <density> & back"\nunits = "{system}"\nhints = {str(hints).lower()}\n{more}'
    )
    asked = (f'[[questions]]\nquestion = "{one}"\npoints = {place}\n' for place, one in enumerate(names, 1))
    return head + "".join(asked)


@pytest.fixture
def write(tmp_path):
    """Write the homework folder of an assignment and a list of seats, its *secret* our own or (None) a new one."""

    def of(text=None, seats=SEATS, folder="Übung für Klasse 3 – 第三週", secret=SECRET, large=None, pocket=False):
        course = Course(tmp_path / folder)
        if secret and not course.folder.exists():
            course.make_secret()
            course.secret_file.write_text(f"{secret}\n", encoding="ascii")
        (tmp_path / "week 3.toml").write_text(text or assignment(), encoding="utf-8")
        (tmp_path / "class.csv").write_text(seats, encoding="utf-8")
        files = tmp_path / "week 3.toml", tmp_path / "class.csv", tmp_path / folder
        return hand_out.write(*files, large=large, pocket=pocket)

    return of


def everything(folder):
    """Path below *folder* -> bytes, of every file."""
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in folder.rglob("*") if path.is_file()}


def body_of(html):
    """A page without its style."""
    return re.sub(r"<style>.*?</style>", " ", html, flags=re.DOTALL)


def words_of(html):
    """The words of a page, without its style and its tags."""
    text = re.sub(r"<[^>]+>", " ", body_of(html))
    for mark, sign in (("&lt;", "<"), ("&gt;", ">"), ("&#39;", "'"), ("&amp;", "&")):
        text = text.replace(mark, sign)
    return " ".join(text.split())


def test_every_seat_gets_three_files_and_the_instructor_six(write):
    done = write()
    course = done.course
    assert done.seats == done.new == ("A01", "A02", "B-1")
    expected = {
        "class.html",
        *(f"instructor/{name}" for name in INSTRUCTORS),
    }
    for seat in done.seats:
        code = course.sheet_code(seat)
        expected |= {f"students/{seat}/{name}" for name in ("sheet.html", "answers.csv", f"sheet-{code}.json")}
    assert set(everything(course.folder)) == expected


@pytest.mark.parametrize("units_of_sheet", ["us", "si"])
def test_a_sheet_shows_seat_code_version_caution_and_every_question_in_order(write, units_of_sheet):
    course = write(assignment(system=units_of_sheet, more="due = 2026-03-12\n")).course
    for seat, own in course.all_variants().items():
        page = (course.student(seat) / "sheet.html").read_text(encoding="utf-8")
        words = words_of(page)
        for part in (
            seat,
            course.sheet_code(seat),
            __version__,
            "2026-03-12",
            cautions.STANDING,
            "INVENTED",
            "Up to <density> & back",
            f"{sum(range(1, len(NAMES) + 1))} points",
        ):
            assert part in words
        places = []
        for number, (name, one) in enumerate(own.items(), 1):
            assert one.units == units_of_sheet
            for line in one.text.split("\n"):
                assert " ".join(line.split()) in words
            places.append(words.index(f"{number}. {name.capitalize().replace('_', ' ')}"))
        assert places == sorted(places)
        assert page.count('class="working"') == sum(not isinstance(one.question, Choice) for one in own.values())


@pytest.mark.parametrize("units_of_sheet", ["us", "si"])
def test_the_boxes_of_a_sheet_are_the_rows_of_answers_csv(write, units_of_sheet):
    course = write(assignment(system=units_of_sheet)).course
    with (course.student("A01") / "answers.csv").open(encoding="utf-8-sig", newline="") as stream:
        rows = [(row["question"], row["part"]) for row in csv.DictReader(stream)]
    page = (course.student("A01") / "sheet.html").read_text(encoding="utf-8")
    boxes = []
    for name, section in zip(NAMES, page.split('<section class="question"')[1:], strict=True):
        drawn = re.findall(
            r'<tr( class="asked"| style="[^"]+")?><th scope="row">([^<]+)</th><td></td><td class="label">', section
        )
        asked = {one.name for one in getattr(bank.find(name), "asked", ())}
        boxes += [(name, "" if box == "the letter" else box.replace(" ", "_")) for _, box in drawn]
        assert {box.replace(" ", "_") for how, box in drawn if "asked" in how} == asked
    assert boxes == rows


def test_the_class_print_holds_every_sheet_once(write):
    course = write().course
    page = course.class_page.read_text(encoding="utf-8")
    seats = page.split('<article class="seat"')[1:]
    assert len(seats) == 3
    for seat, whole in zip(course.roster(), seats, strict=True):
        leaves = whole.count('<section class="leaf"')
        assert leaves % 2 == 0  # the next seat begins on a new sheet of paper where both sides are printed
        assert whole.count(f"Seat {seat} · sheet {course.sheet_code(seat)}") == leaves
    for own in course.all_variants().values():
        assert unbroken(own["pressure_ratio"].wording) in page


def test_the_blanks_have_a_row_for_each_value_asked_for(write):
    course = write().course
    rows = list(csv.reader((course.student("A01") / "answers.csv").open(encoding="utf-8-sig", newline="")))
    assert rows[0] == ["question", "part", "answer", "unit", "remark", "sheet"]
    own = variants_of(course, "A01")
    parts = {
        name: [""] if isinstance(one.question, Choice) else list(one.key.keys() - one.givens.keys())
        for name, one in own.items()
    }
    expected = [(name, part) for name in NAMES for part in parts[name]]
    assert sorted(tuple(row[:2]) for row in rows[1:]) == sorted(expected)  # each step, and what is asked
    assert all(row[2:] == ["", "", "", course.sheet_code("A01")] for row in rows[1:])


@pytest.mark.parametrize("hints", [False, True])
def test_the_sheet_as_data_says_what_the_printed_one_says_and_no_more(write, hints):
    course = write(assignment(hints=hints)).course
    code = course.sheet_code("A02")
    data = json.loads((course.student("A02") / f"sheet-{code}.json").read_text(encoding="utf-8"))
    assert set(data) == {"schema", "kit", "assignment", "title", "units", "seat", "sheet", "due", "questions"}
    assert (data["schema"], data["kit"], data["assignment"]) == ("turbomath-sheet-1", __version__, "week 3")
    assert (data["units"], data["seat"], data["sheet"], data["due"]) == ("us", "A02", code, None)
    keys = {"number", "question", "points", "wording", "givens", "parts", "options", *(["hints"] if hints else [])}
    for number, (one, found) in enumerate(zip(variants_of(course, "A02").values(), data["questions"], strict=True), 1):
        assert set(found) == keys
        assert (found["number"], found["question"], found["points"]) == (number, one.question.name, number)
        assert found["wording"] == one.wording
        assert [(given["name"], given["text"], given["unit"]) for given in found["givens"]] == [
            (name, given.text, given.unit) for name, given in one.givens.items()
        ]
        if isinstance(one.question, Choice):
            assert [option["words"] for option in found["options"]] == [option.words for option in one.asked]
            assert all(set(option) == {"letter", "words"} for option in found["options"])
            assert found["parts"] == []
        else:
            assert [part["part"] for part in found["parts"]] == [asked.name for asked in one.asked]
            assert [part["units"][0] for part in found["parts"]] == [asked.us for asked in one.asked]


def test_an_answer_in_any_unit_that_the_data_offers_is_marked_right(write):
    course = write().course
    for variant in variants_of(course, "A01").values():
        if isinstance(variant.question, Choice):
            continue
        code = course.sheet_code("A01")
        data = json.loads((course.student("A01") / f"sheet-{code}.json").read_text(encoding="utf-8"))
        parts = next(one["parts"] for one in data["questions"] if one["question"] == variant.question.name)
        for asked, part in zip(variant.asked, parts, strict=True):
            for unit in part["units"]:
                value = units.from_si(float(variant.key[asked.name]), unit, asked.row)
                found = marking.mark(variant, f"{value:.8f}", unit, part=asked.name)
                assert found.right, (asked.name, unit, found.message)


def test_hints_go_out_only_where_the_assignment_says_so(write):
    for hints, folder in ((True, "with"), (False, "without")):
        course = write(assignment(hints=hints), folder=folder).course
        told = [hint for one in variants_of(course, "A01").values() for hint in one.question.hints]
        for path in course.student("A01").iterdir():
            text = words_of(path.read_text(encoding="utf-8")) if path.suffix == ".html" else path.read_text("utf-8")
            assert any(hint in text for hint in told) == (hints and path.suffix != ".csv")


def test_a_seat_with_a_page_for_a_phone_keeps_getting_it(write):
    assert write().phones == ()
    assert write(seats="A01\n", pocket=True).phones == ("A01", "A02", "B-1")
    done = write(seats="A01\nC-1\n")
    assert done.phones == ("A01", "A02", "B-1")
    assert "For a phone: sheet-phone.html of A01, A02, B-1. It saves answers.json" in done.words
    page = (done.course.student("A02") / "sheet-phone.html").read_text(encoding="utf-8")
    assert done.course.sheet_code("A02") in page
    assert not re.search("https?:", body_of(page))


def figures_of(text):
    return set(re.findall(r"\d+(?:\.\d+)?", text))


@pytest.mark.parametrize("units_of_sheet", ["us", "si"])
def test_nothing_that_goes_to_students_holds_secret_key_or_worked_solution(write, units_of_sheet):
    course = write(assignment(system=units_of_sheet, hints=True), pocket=True).course
    key_text = words_of(course.solutions_page.read_text(encoding="utf-8"))
    bundles = {
        seat: [path.read_bytes().decode() for path in course.student(seat).rglob("*")] for seat in course.roster()
    }
    bundles["class"] = [course.class_page.read_text(encoding="utf-8")]
    looked_for = 0
    for seat, own in course.all_variants().items():
        for text in (*bundles[seat], *bundles["class"]):
            assert course.secret not in text
            assert not any(student in text for student in STUDENTS)
            for word in ("<math", "Sense check", "usual mistake", "tolerance", "key"):
                assert word not in body_of(text)
            assert not re.search(r"\bM\d{1,2}\b", words_of(text))
        for name, one in own.items():
            if isinstance(one.question, Choice):
                replies = [option.reply for option in one.asked]
                assert not any(reply in words_of(text) for reply in replies for text in bundles[seat])
                continue
            printed = figures_of(" ".join([one.text, *one.question.hints]))
            for asked in one.asked:
                value = units.from_si(float(one.key[asked.name]), asked.unit(units_of_sheet), asked.row)
                shown = f"{value:.{one.decimals(asked, units_of_sheet)}f}"
                assert shown.lstrip("-") in figures_of(key_text), (name, shown)  # the scan does find it where it is
                for text in bundles[seat]:
                    where = text if text.startswith("{") else words_of(text)
                    assert f"{value:.4f}"[:-1] not in where
                    section = _part_about(where, name, own)
                    assert shown not in figures_of(section) - printed, (name, shown)
                looked_for += 1
    assert looked_for == 3 * 7


def _part_about(text, name, own):
    """The part of a text from one question's name to the next one's."""
    names = list(own)
    spelled = name if f'"{name}"' in text or f"{name}," in text else name.replace("_", " ")
    text = text.lower()
    start = text.find(spelled)
    after = names[names.index(name) + 1 :]
    ends = [text.find(one if spelled == name else one.replace("_", " "), start + len(spelled)) for one in after[:1]]
    assert start >= 0
    return text[start : ends[0] if ends and ends[0] > 0 else None]


def test_who_sits_where_stands_in_the_roster_alone(write):
    course = write().course
    holding = [path for path, text in everything(course.folder).items() if b"Ann Oh" in text]
    assert holding == ["instructor/roster.csv"]
    assert course.roster()["A02"][0] == "'=Bob()"


def test_the_secret_stands_in_its_own_file_alone(write):
    course = write().course
    holding = [path for path, text in everything(course.folder).items() if course.secret.encode() in text]
    assert holding == ["instructor/secret"]


def test_nobody_else_on_the_machine_reads_the_folder_of_the_instructor(write):
    course = write().course
    assert stat.S_IMODE(course.instructor.stat().st_mode) == 0o700
    assert stat.S_IMODE(course.secret_file.stat().st_mode) == 0o600
    assert stat.S_IMODE((course.student("A01") / "answers.csv").stat().st_mode) & 0o600 == 0o600


def test_the_solutions_hold_every_usual_mistake_and_every_question_worked(write):
    course = write().course
    page = course.solutions_page.read_text(encoding="utf-8")
    words = words_of(page)
    assert page.count("<details>") == 3
    for seat, own in course.all_variants().items():
        assert words.count(f"Seat {seat}, sheet {course.sheet_code(seat)}") >= 1
        for one in own.values():
            if isinstance(one.question, Choice):
                assert all(option.reply in words for option in one.asked)
                continue
            for mistake, _ in one.outcomes:
                assert f"{mistake.code} {mistake.message}" in words
    assert page.count("<math") > 3 * 7 * 2
    assert "\\frac" not in page
    assert words.count("Sense check") == 3 * 6


def rows_of(table):
    """The cells of each row of a table of a page, its heads left out."""
    return [[words_of(cell) for cell in re.split(r"</t[hd]>", row)[:-1]] for row in table.split("<tr>")[2:]]


def test_the_numbers_of_the_solutions_are_marked_as_they_say(write):
    course = write().course
    page = course.solutions_page.read_text(encoding="utf-8")
    tables = re.findall(r'<div class="glance">.*?</table>', page, re.DOTALL)
    checked = told = 0
    for own, table in zip(course.all_variants().values(), tables, strict=True):
        for (variant, part), (_, answer, allowed, mistakes) in zip(parts_of(own), rows_of(table), strict=True):
            named = {"part": part.name} if part else {}
            unit = part.unit("us") if part else ""
            assert marking.mark(variant, answer, **named).right, (variant.question.name, answer)
            for number, code in re.findall(r"(\S+) \((M\d+)\)", mistakes):
                finding = marking.mark(variant, number, unit, **named).finding
                assert finding in (code, "none"), (variant.question.name, number)  # so short, it may be anything
                checked, told = checked + 1, told + (finding == code)
            if part:
                check_width(variant, part, answer.split()[0], allowed)
                assert not marking.mark(variant, f"{plain(answer) + 1.5 * float(allowed):.6f}", unit, **named).right
    assert checked > 3 * 15
    assert told >= 0.7 * checked


def parts_of(own):
    """(variant, value asked for, or None for the letter) of all that a seat is asked for."""
    return [
        (one, None if isinstance(one.question, Choice) else part)
        for one in own.values()
        for part in (one.asked[:1] if isinstance(one.question, Choice) else one.asked)
    ]


def plain(answer):
    return float(answer.split()[0].replace("−", "-"))


def check_width(variant, part, answer, allowed):
    for sign in (-0.8, 0.8):
        said = f"{plain(answer) + sign * float(allowed):.7f}"
        assert marking.mark(variant, said, part.unit(variant.units), part=part.name).right, (part.name, said)


@pytest.mark.parametrize("units_of_sheet", ["us", "si"])
def test_the_key_holds_each_answer_and_each_step_of_each_seat_once_by_question(write, units_of_sheet):
    course = write(assignment(system=units_of_sheet), seats="".join(f"S{n}\n" for n in range(14))).course
    page = course.key_page.read_text(encoding="utf-8")
    tables = re.findall(r"<table.*?</table>", page, re.DOTALL)
    heads = [re.findall(r'<th scope="col">([^<]+)</th>', table) for table in tables]
    seats = [f"S{number}" for number in range(14)]
    answers, steps = ["answers", "±"], ["steps", "±"]
    assert heads == [answers + seats[:12], answers + seats[12:], steps + seats[:12], steps + seats[12:]]
    all_variants = course.all_variants()
    for table, these in zip(tables[:2], (seats[:12], seats[12:]), strict=True):
        rows = rows_of(table)
        for place, seat in enumerate(these):
            for (variant, part), (head, allowed, *cells) in zip(parts_of(all_variants[seat]), rows, strict=True):
                if part is None:
                    assert marking.mark(variant, cells[place]).right
                    continue
                unit = part.unit(units_of_sheet)
                assert head.endswith(f"{part.name.replace('_', ' ')}{f', {unit}' if unit != '-' else ''}")
                assert marking.mark(variant, cells[place], unit, part=part.name).right
                check_width(variant, part, cells[place], allowed)
    named = [row[0].split(",")[0] for row in rows_of(tables[2])]
    numeric = [(n, bank.find(name)) for n, name in enumerate(NAMES, 1) if not isinstance(bank.find(name), Choice)]
    assert named == [
        f"{number}. {step.result.replace('_', ' ')}"
        for number, question in numeric
        for step in question.steps
        if step.result not in {one.name for one in question.asked}
    ]
    values = [float(cell.replace("−", "-")) for row in rows_of(tables[3]) for cell in row[2:]]
    assert len(values) == 2 * len(named)


def test_the_blank_grid_has_the_boxes_of_the_sheet_and_is_left_alone_once_somebody_typed_into_it(write):
    course = write().course
    grid = course.instructor / "answers_grid.csv"
    head, *rows = csv.reader(grid.open(encoding="utf-8-sig", newline=""))
    with (course.student("A01") / "answers.csv").open(encoding="utf-8-sig", newline="") as stream:
        boxes = [f"{row['question']} / {row['part']}".removesuffix(" / ") for row in csv.DictReader(stream)]
    assert [name.replace(" ", "_").replace("_/_", " / ") for name in head] == ["seat", *boxes]
    assert [row[0] for row in rows] == ["A01", "A02", "B-1"]
    assert not any("".join(row[1:]) for row in rows)
    right = variants_of(course, "A02")["pressure_ratio"]
    write(seats="C3\n")
    assert grid.read_text(encoding="utf-8-sig").count("\n") == 5  # a new seat comes in while it is blank
    head, *rows = csv.reader(grid.open(encoding="utf-8-sig", newline=""))
    rows[1][head.index("pressure ratio / pressure ratio")] = f"{right.key['pressure_ratio']:.3f}"
    grid.write_text("".join(";".join(row) + "\n" for row in (head, *rows)), encoding="utf-8")
    typed = grid.read_bytes()
    write(seats="D4\n")
    assert grid.read_bytes() == typed
    marks = {one.seat: one.points for one in class_marks(course)}
    assert marks == {"A01": 0, "A02": 2, "B-1": 0, "C3": 0, "D4": 0}


def test_large_print_comes_to_the_seats_that_are_named_and_stays_with_them(write):
    course = write(large=["A02"]).course
    large = course.student("A02") / "sheet-large.html"
    assert [path.parent.name for path in course.folder.rglob("sheet-large.html")] == ["A02"]
    page = large.read_text(encoding="utf-8")
    assert words_of(page).count("Seat A02 · sheet") == page.count('<section class="leaf"') > 1
    usual = (course.student("A02") / "sheet.html").read_text(encoding="utf-8")
    assert page.count("<th scope") == usual.count("<th scope")
    assert course.class_page.read_text(encoding="utf-8").count('<article class="seat large"') == 1
    large.write_text("old", encoding="utf-8")
    again = write(seats="A02\nC3\n")
    assert again.large == ("A02",)
    assert "Large print: sheet-large.html of A02" in again.words
    assert large.read_text(encoding="utf-8") == page
    assert write(large=[]).large == ("A01", "A02", "B-1", "C3")


def test_large_print_for_nobody_of_the_class_is_refused_before_anything_is_written(write):
    with pytest.raises(TurbomathError, match=r"--large: found 'A09', expected a seat of .*class\.csv"):
        write(folder="new", secret=None, large=["A09"])


def test_writing_again_gives_the_same_files(write):
    before = everything(write().course.folder)
    done = write()
    assert everything(done.course.folder) == before
    assert done.new == done.filled_in == ()


def test_the_same_secret_gives_the_same_sheets_in_another_folder(write):
    first = write().course
    assert everything(write(folder="other").course.folder) == everything(first.folder)


def test_another_secret_gives_other_numbers(write):
    one, other = write(secret=None).course, write(folder="other", secret=None).course
    assert variants_of(one, "A01")["mass_flow"].text != variants_of(other, "A01")["mass_flow"].text
    assert one.sheet_code("A01") != other.sheet_code("A01")


def test_numbers_are_those_of_the_bank_for_that_secret_assignment_and_seat(write):
    course = write().course
    one = variants.make("pressure_ratio", secret=course.secret, assignment="week 3", seat="B-1")
    assert unbroken(one.wording) in (course.student("B-1") / "sheet.html").read_text(encoding="utf-8")


def test_new_seats_are_added_and_old_ones_stay(write):
    before = everything(write().course.folder)
    done = write(seats="seat,student\nC3,Cy\nA02,Robert\n")
    assert done.seats == ("A01", "A02", "B-1", "C3")
    assert done.new == ("C3",)
    after = everything(done.course.folder)
    kept = [path for path in before if path.startswith("students/") or path.endswith(("secret", ".toml"))]
    assert all(after[path] == before[path] for path in kept)
    assert [student for student, _ in done.course.roster().values()] == ["Ann Oh", "Robert", "", "Cy"]
    assert b"Seat A01 " in after["class.html"]
    assert b"Seat C3 " in after["class.html"]


def test_answers_that_somebody_filled_in_are_never_touched(write):
    course = write().course
    filled = (course.student("A01") / "answers.csv").read_bytes().replace(b"mass_flow,,,", b"mass_flow,61.3,lb/min,")
    (course.student("A01") / "answers.csv").write_bytes(filled)
    (course.student("A02") / "answers.csv").write_bytes(b"")
    (course.student("B-1") / "answers.csv").unlink()
    (course.student("B-1") / "answers.csv").symlink_to("nowhere")
    done = write()
    assert done.filled_in == ("A01", "A02", "B-1")
    assert "Left alone: the answers.csv of A01, A02, B-1" in done.words
    assert (course.student("A01") / "answers.csv").read_bytes() == filled
    assert (course.student("A02") / "answers.csv").read_bytes() == b""
    assert os.readlink(course.student("B-1") / "answers.csv") == "nowhere"


@pytest.mark.parametrize(
    "text",
    [assignment(name="week 4"), assignment(system="si"), assignment(names=NAMES[:-1]), assignment(names=NAMES[::-1])],
    ids=["name", "units", "fewer", "order"],
)
def test_another_assignment_is_refused_and_nothing_is_changed(write, text):
    before = everything(write().course.folder)
    with pytest.raises(
        TurbomathError, match=r"found another assignment.*Give another folder with --out DIR"
    ) as refused:
        write(text, seats="Z9\n")
    assert "\n" not in str(refused.value)
    folder = next(path for path in refused.value.args[0].split(": ")[:1])
    assert everything(Course(folder).folder) == before


def test_due_day_and_points_may_change_and_the_numbers_stay(write):
    course = write().course
    text = variants_of(course, "A01")["mass_flow"].text
    course = write(assignment(more="due = 2026-04-01\n")).course
    assert variants_of(course, "A01")["mass_flow"].text == text
    assert "2026-04-01" in (course.student("A01") / "sheet.html").read_text(encoding="utf-8")
    assert course.assignment.due.isoformat() == "2026-04-01"


def test_a_lost_secret_is_not_replaced_by_another(write):
    course = write().course
    course.secret_file.unlink()
    with pytest.raises(TurbomathError, match="secret"):
        write()
    assert not course.secret_file.exists()


def test_a_secret_from_elsewhere_is_noticed(write):
    course = write().course
    course.secret_file.write_text("f" * 64, encoding="ascii")
    with pytest.raises(TurbomathError, match=r"roster\.csv: found the code .* Put secret and roster\.csv back"):
        write()


def test_a_lost_assignment_copy_does_not_lose_the_roster(write):
    course = write().course
    course.assignment_file.unlink()
    before = everything(course.folder)
    with pytest.raises(TurbomathError, match=r"assignment\.toml"):
        write(seats="Z9\n")
    assert everything(course.folder) == before


def test_a_seat_that_differs_from_an_old_one_in_case_alone_is_refused(write):
    write()
    with pytest.raises(TurbomathError, match=r"class\.csv, column 'seat': found 'a01', expected A01, as in the roster"):
        write(seats="a01\n")


@pytest.mark.parametrize(
    "place", ["students", "instructor", "students/A02", "instructor/secret", "instructor/roster.csv"]
)
def test_a_link_in_the_folder_is_refused_and_nothing_is_written_behind_it(write, tmp_path, place):
    away = tmp_path / "away"
    away.mkdir()
    link = tmp_path / "out" / place
    link.parent.mkdir(parents=True)
    link.symlink_to(away, target_is_directory=True)
    with pytest.raises(TurbomathError, match="link"):
        write(folder="out", secret=None)
    assert list(away.iterdir()) == []
    assert not (tmp_path / "out" / "class.html").exists()


def test_a_broken_seats_file_leaves_no_folder_behind(write, tmp_path):
    with pytest.raises(TurbomathError, match="row 2"):
        write(seats="A01\n../A02\n", folder="new", secret=None)
    assert not (tmp_path / "new").exists()


def test_an_interrupted_run_is_completed_by_the_next(write, monkeypatch):
    written = []
    whole = hand_out.files.write_whole

    def breaks(path, text):
        if len(written) == 5:
            raise OSError(28, "No space left on device", str(path))
        written.append(path)
        whole(path, text)

    with monkeypatch.context() as broken:
        broken.setattr(hand_out.files, "write_whole", breaks)
        with pytest.raises(OSError, match="No space"):
            write(folder="half")
    done = write(folder="half")
    assert len(everything(done.course.folder)) == 7 + 3 * 3
    assert not [path for path in everything(done.course.folder) if ".writing-" in path]


def test_the_command_writes_a_shipped_example_for_a_class_of_24(tmp_path):
    (tmp_path / "class.txt").write_text("".join(f"A{number:02d}\n" for number in range(1, 25)), encoding="utf-8")
    done = homework("sheet", "gauge_to_density", "--seats", "class.txt", "--out", "week 3", cwd=tmp_path)
    assert (done.returncode, done.stderr) == (0, "")
    assert "24 seats, 24 of them new" in done.stdout
    assert len(list((tmp_path / "week 3" / "students").iterdir())) == 24
    (tmp_path / "gauge_to_density").mkdir()  # a folder by the name of the assignment is no assignment
    same = ("sheet", "gauge_to_density", "--seats", "class.txt", "--out", "week 3")
    again = homework(*same, "--large", "A02", "A07", cwd=tmp_path)
    assert "24 seats, 0 of them new" in again.stdout
    assert "sheet-large.html of A02, A07" in again.stdout
    refused = homework(*same, "--large", "A2", cwd=tmp_path)
    assert (refused.returncode, refused.stdout, refused.stderr.count("\n")) == (1, "", 1)
    assert "--large: found 'A2', expected a seat of class.txt" in refused.stderr
    other = homework("sheet", "whole_air_path", "--seats", "class.txt", "--out", "week 3", cwd=tmp_path)
    assert (other.returncode, other.stdout) == (1, "")
    assert other.stderr.startswith("week 3: found another assignment, with other name and questions, expected")
    assert other.stderr.count("\n") == 1


@pytest.mark.parametrize(
    ("name", "seats", "words"),
    [
        (
            "no_such_example",
            "A01\n",
            "expected a TOML file, or one of before_and_after, gauge_to_density, whole_air_path",
        ),
        ("gauge_to_density", "A01\nnul\n", "class.txt, row 2, column 'seat': found 'nul'"),
        (".", "A01\n", "a folder or a device"),
    ],
)
def test_the_command_refuses_in_one_sentence(tmp_path, name, seats, words):
    (tmp_path / "class.txt").write_text(seats, encoding="utf-8")
    done = homework("sheet", name, "--seats", "class.txt", "--out", "out", cwd=tmp_path)
    assert (done.returncode, done.stdout) == (1, "")
    assert words in done.stderr
    assert done.stderr.count("\n") == 1
    assert not (tmp_path / "out").exists()
