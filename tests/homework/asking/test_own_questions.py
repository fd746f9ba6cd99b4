"""A question of the instructor's own works like one of the bank, or its file is refused in one sentence."""

import contextlib
import random
import re

import pytest

from tests.homework.a_class import as_csv, begun, hand_in, read, right_rows
from turbomath.disk import files
from turbomath.homework.asking import own_questions, variants
from turbomath.homework.course import hand_out
from turbomath.homework.course.course import Course
from turbomath.homework.marking import gradebook, terminal
from turbomath.homework.marking.marking import mark
from turbomath.paper.unbroken import unbroken
from turbomath.table.errors import RefusedFileError, TurbomathError

SHIPPED = files.shipped("data") / "homework" / "own_questions" / "air_at_the_valve.toml"
GOOD = SHIPPED.read_text(encoding="utf-8")
NAME = "air_at_the_valve"
WHO = {"secret": "s", "assignment": "a"}


@pytest.fixture
def written(tmp_path):
    def write(text):
        path = tmp_path / "mine.toml"
        path.write_text(text, encoding="utf-8")
        return path

    return write


def changed(old, new):
    assert old in GOOD, old
    return GOOD.replace(old, new, 1)


# ------------------------------------------------------------------------------ as one of the bank


def test_it_is_marked_by_plain_shop_arithmetic_and_its_slips_are_named(system):
    """Shop constants (common practice): 0.491 psi to the inHg, 460, 273, 2.70 and 0.287 for the gas constant."""
    question = own_questions.read(SHIPPED)[1]
    for variant in variants.make_all(question, seats=[f"A{n:02}" for n in range(12)], units=system, **WHO):
        shown = {name: float(one.text.replace("−", "-")) for name, one in variant.givens.items()}
        us, unit = system == "us", "lb/ft³" if system == "us" else "kg/m³"
        absolute = shown["manifold_temperature"] + (460 if us else 273)
        factor = 2.70 / absolute if us else 1 / (0.287 * absolute)
        barometer = shown["barometer"] * (0.491 if us else 1)
        assert mark(variant, f"{(barometer + shown['boost']) * factor:.4g} {unit}").right
        assert mark(variant, f"{shown['boost'] * factor:.4g} {unit}").finding in ("M1", "none")
        alone = [mark(variant, f"{outcome['manifold_density']} kg/m³").finding for _, outcome in variant.outcomes]
        assert alone == ["M1", "M4"]
        degrees = mark(
            variant, f"{(barometer + shown['boost']) * factor * absolute / shown['manifold_temperature']} {unit}"
        )
        assert degrees.finding in ("M3", "none")  # a slip that the kit knows from its neighbours


def test_it_goes_from_the_assignment_to_the_grades(tmp_path):
    (tmp_path / "seats.csv").write_text("A01\nA02\n", encoding="utf-8")
    course = hand_out.write("with_an_own_question", tmp_path / "seats.csv", tmp_path / "class").course
    variant = course.all_variants()["A01"][NAME]
    sheet = (course.student("A01") / "sheet.html").read_text(encoding="utf-8")
    assert unbroken(variant.wording) in sheet
    assert re.search("air at the valve|manifold density", course.key_page.read_text(encoding="utf-8"))
    hand_in(course, "A01", as_csv(right_rows(course, "A01")))
    wrong = variant.outcomes[0][1]["manifold_density"]
    hand_in(course, "A02", as_csv([[NAME, "manifold_density", f"{wrong} kg/m³", "", ""]]))
    gradebook.written(Course(course.folder))
    rows = {(row["seat"], row["question"]): row for row in read(course.folder / "grades.csv")}
    assert rows["A01", NAME]["finding"] == "right"
    assert "add the barometer" in (course.instructor / "own_questions" / f"{NAME}.toml").read_text(encoding="utf-8")
    assert "Worked solution" in (course.folder / "feedback" / "A01.html").read_text(encoding="utf-8")


def test_it_can_be_tried_on_the_terminal():
    said = terminal.question(
        name=str(SHIPPED),
        seat="A07",
        answer="1 psi",
        part=None,
        earlier=[],
        worked=True,
        units="us",
        assignment="practice",
    )
    assert "the boost gauge" in said
    assert "ρ_3 = p_3 / (R × T_3)" in said


def test_a_question_that_changed_after_the_sheets_went_out_is_refused(tmp_path):
    source = tmp_path / "own_questions" / SHIPPED.name
    source.parent.mkdir()
    source.write_text(GOOD, encoding="utf-8")
    assignment = tmp_path / "week.toml"
    shipped = files.shipped("data") / "homework" / "with_an_own_question.toml"
    assignment.write_text(shipped.read_text(encoding="utf-8"), encoding="utf-8")
    (tmp_path / "seats.csv").write_text("A01\n", encoding="utf-8")
    hand_out.write(assignment, tmp_path / "seats.csv", tmp_path / "class")
    hand_out.write(assignment, tmp_path / "seats.csv", tmp_path / "class")
    source.write_text(changed("low = 14", "low = 15"), encoding="utf-8")
    with pytest.raises(TurbomathError, match="with other questions of your own"):
        hand_out.write(assignment, tmp_path / "seats.csv", tmp_path / "class")


@pytest.mark.parametrize(
    "file", ["../x.toml", "/etc/x.toml", "C:\\x.toml", "a\\x.toml", "x.txt", "assignment.toml", "missing.toml"]
)
def test_only_a_toml_file_beside_the_assignment_is_taken(tmp_path, file):
    with pytest.raises(TurbomathError) as refused:
        begun(tmp_path, head=f"own = ['{file}']")
    assert "\n" not in str(refused.value)
    assert re.split(r"[\\/]", file)[-1] in str(refused.value)


# --------------------------------------------------------------------------------- refused, and why

BOOST = '[givens.boost]\ngauge = "boost"'
HOSTILE = [
    ("nothing", "", "'name'", "nothing", "letters in quotes"),
    (
        "a name of the bank",
        changed(f'"{NAME}"', '"pressure_ratio"'),
        "'name'",
        "pressure_ratio",
        "no question of the bank",
    ),
    ("a name with blanks", changed(f'"{NAME}"', '"Air At"'), "'name'", "Air At", "small letters"),
    ("a slip in a key", changed("objective =", "objectiv ="), "'objectiv'", "objectiv", "the nearest is 'objective'"),
    ("difficulty", changed("difficulty = 2", "difficulty = 4"), "'difficulty'", "4", "1, 2 or 3"),
    ("a place that is no given", changed("{boost}", "{bost}"), "'wording'", "{bost}", "{barometer}, {boost}"),
    ("a given not shown", changed(", the boost gauge {boost}", ""), "'wording'", "no {boost}", "each given"),
    ("a broken brace", changed("{boost}", "{boost"), "'wording'", "The barometer", "a place in braces"),
    ("an attribute in a place", changed("{boost}", "{boost.value}"), "'wording'", "boost.value", "a place in braces"),
    ("one hint", re.sub(r"hints = \[.*?\]", 'hints = ["a"]', GOOD, flags=re.DOTALL), "'hints'", "1 texts", "2 texts"),
    (
        "no givens",
        re.sub(r"\[givens.*?(?=# The chain)", "", GOOD, flags=re.DOTALL),
        "givens",
        "nothing",
        "[givens.boost]",
    ),
    (
        "a gauge that is none",
        changed('gauge = "boost"', 'gauge = "bost"'),
        "boost gauge",
        "bost",
        "the nearest is 'boost'",
    ),
    ("a gauge of another sort", changed('gauge = "boost"', 'gauge = "speed"'), "boost gauge", "rpm", "a unit of boost"),
    ("a unit of another sort", changed('unit = "psi"', 'unit = "rpm"'), "boost unit", "rpm", "a unit of boost"),
    ("no unit", changed('unit = "psi"\n', ""), "boost unit", "nothing", "in quotes"),
    ("low above high", changed("high = 30", "high = 10"), "boost high", "10", "above low"),
    ("a number in quotes", changed("low = 14", 'low = "14"'), "boost low", "14", "without quotes"),
    (
        "an unknown quantity",
        changed(BOOST, '[givens.thing]\ngauge = "boost"').replace("{boost}", "{thing}"),
        "givens thing of",
        "nothing",
        "the quantity it is",
    ),
    (
        "an unknown formula",
        changed("charge.density", "charge.densty"),
        "step 2 formula",
        "charge.densty",
        "'charge.density'",
    ),
    ("code for a formula", changed("charge.density", "os.system"), "step 2 formula", "os.system", "names of the kit"),
    (
        "a value not there yet",
        changed('temperature = "manifold_temperature" }', 'temperature = "outlet" }'),
        "step 2 take temperature",
        "outlet",
        "one of barometer",
    ),
    (
        "a value of another sort",
        changed('temperature = "manifold_temperature" }', 'temperature = "boost" }'),
        "step 2 take temperature",
        "boost",
        "a temperature",
    ),
    (
        "a parameter too many",
        changed("take = { pressure", "take = { air = 'x', pressure"),
        "step 2 take air",
        "air",
        "pressure, temperature",
    ),
    (
        "a result twice",
        changed('result = "manifold_density"', 'result = "boost"'),
        "step 2 result",
        "boost",
        "not taken yet",
    ),
    (
        "asked what no step gives",
        changed('value = "manifold_density"', 'value = "boost"'),
        "asked 1 value",
        "boost",
        "manifold_density",
    ),
    (
        "asked in another unit",
        changed('us = "lb/ft³"', 'us = "psi"'),
        "asked 1 us",
        "psi",
        "a unit of manifold density",
    ),
    ("an unknown code", changed('code = "M1"', 'code = "M99"'), "slip 1 code", "M99", "M1, M2"),
    ("a slip without words", re.sub(r"says = .*\n", "", GOOD, count=1), "slip 1 says", "nothing", "in quotes"),
    (
        "a slip in nothing",
        changed('{ manifold_pressure = "boost" }', "{}"),
        "slip 1 change",
        "nothing",
        "what the slip puts in",
    ),
    (
        "a slip in an unknown value",
        changed("{ manifold_pressure =", "{ manifold_presure ="),
        "slip 1 change",
        "manifold_presure",
        "'manifold_pressure'",
    ),
    ("a slip to an unknown value", changed('= "boost" }', '= "bost" }'), "slip 1 change", "bost", "29.92 inHg"),
    (
        "a slip that changes nothing",
        changed('{ manifold_pressure = "boost" }', '{ manifold_pressure = "manifold_pressure" }'),
        "slip 1 change manifold_pressure",
        "manifold_pressure",
        "one of barometer, boost, manifold_temperature",
    ),
    (
        "two slips that are one",
        changed('= "barometer" }', '= "boost" }'),
        "givens",
        "none on a us sheet",
        "every slip clear",
    ),
    (
        "a step that is a word",
        "steps = ['x']\n" + re.sub(r"\[\[steps\]\].*?(?=\[\[asked)", "", GOOD, flags=re.DOTALL),
        "'steps'",
        "x",
        "[[steps]]",
    ),
    ("no TOML", changed("difficulty = 2", "difficulty : 2"), "row", "difficulty : 2", "correct this line"),
    ("a workbook", "PK\x03\x04" + GOOD, "", "a workbook", "plain text"),
]


@pytest.mark.parametrize(
    ("text", "place", "found", "words"), [row[1:] for row in HOSTILE], ids=[row[0] for row in HOSTILE]
)
def test_a_bad_file_gets_one_sentence_with_file_key_found_and_expected(written, text, place, found, words):
    with pytest.raises(RefusedFileError) as refused:
        own_questions.read(written(text))
    told = str(refused.value)
    assert all(part in told for part in ("mine.toml", place, found, words)), told
    assert "\n" not in told
    assert len(told) < 1100


@pytest.mark.parametrize("seed", [1, pytest.param(2, marks=pytest.mark.long)])
def test_a_file_with_lines_lost_doubled_or_mixed_up_is_read_or_refused(written, seed):
    draw, lines, read_whole = random.Random(seed), GOOD.splitlines(), 0
    for _ in range(60 if seed == 1 else 600):
        some = list(lines)
        for _ in range(draw.randint(1, 3)):
            place, other = draw.randrange(len(some)), draw.randrange(len(some))
            some[place] = draw.choice(
                [some[other], "", some[place][: draw.randrange(1 + len(some[place]))], some[place] + '"']
            )
        with contextlib.suppress(RefusedFileError):
            own_questions.read(written("\n".join(some)))
            read_whole += 1
    assert read_whole
