"""An assignment is read whole and right, or refused with the key, what was found, what was expected, what to do."""

from datetime import date

import pytest

from turbomath.disk import files
from turbomath.homework.bank.question import Choice
from turbomath.homework.course import hand_out
from turbomath.homework.course.assignment import AskedQuestion, read_assignment
from turbomath.table.errors import RefusedFileError

GOOD = """\
name = "week 3"
title = "Gauge to density"
units = "si"
due = 2026-03-12
hints = true
worked = true

[[questions]]
question = "pressure_ratio"
points = 2.5

[[questions]]
question = "order_the_stations"
"""


@pytest.fixture
def written(tmp_path):
    def write(text):
        path = tmp_path / "week 3.toml"
        path.write_bytes(text if isinstance(text, bytes) else text.encode())
        return path

    return write


def changed(old, new):
    assert old in GOOD
    return GOOD.replace(old, new, 1)


def test_everything_that_is_said_is_taken(written):
    found = read_assignment(written(GOOD))
    assert (found.name, found.title, found.units, found.due) == ("week 3", "Gauge to density", "si", date(2026, 3, 12))
    assert (found.hints, found.worked) == (True, True)
    assert found.questions == (AskedQuestion("pressure_ratio", 2.5), AskedQuestion("order_the_stations", 1.0))
    assert found.points == 3.5


def test_what_is_not_said_gives_nothing_away(written):
    found = read_assignment(written('name = "week 4"\n[[questions]]\nquestion = "hot_day"\n'))
    assert (found.title, found.units, found.due, found.points) == ("week 4", "us", None, 1)
    assert found.hints is found.worked is False


def test_a_byte_order_mark_and_windows_line_ends_change_nothing(written):
    windows = b"\xef\xbb\xbf" + GOOD.replace("\n", "\r\n").encode()
    assert read_assignment(written(windows)) == read_assignment(written(GOOD))


def test_a_day_in_quotes_is_a_day(written):
    assert read_assignment(written(changed("2026-03-12", '"2026-03-12"'))).due == date(2026, 3, 12)


QUESTION = '[[questions]]\nquestion = "hot_day"\n'
# name, text, the place named, what was found, words of what was expected or is to be done
HOSTILE = [
    ("nothing", "", "column 'name'", "nothing", "1 to 60 letters in quotes"),
    ("no name", changed('name = "week 3"\n', ""), "column 'name'", "nothing", "1 to 60 letters"),
    ("empty name", changed('"week 3"', '"  "'), "column 'name'", "  ", "1 to 60 letters"),
    ("number as name", changed('"week 3"', "3"), "column 'name'", "3", "letters in quotes"),
    ("long name", changed("week 3", "w" * 61), "column 'name'", "www", "1 to 60 letters"),
    ("name of two lines", changed("week 3", r"week\n3"), "column 'name'", "week 3", "on one line"),
    ("unseen mark", changed("week 3", r"week\u202E3"), "column 'name'", "week 3", "on one line"),
    ("long title", changed("Gauge to density", "g" * 121), "column 'title'", "ggg", "1 to 120 letters"),
    ("list as title", changed('"Gauge to density"', "[1]"), "column 'title'", "[1]", "letters in quotes"),
    ("unknown units", changed('"si"', '"metric"'), "column 'units'", "metric", "one of us, si"),
    ("units in a list", changed('"si"', '["si"]'), "column 'units'", "['si']", "one of us, si"),
    ("a day that is none", changed("2026-03-12", '"2026-02-30"'), "column 'due'", "2026-02-30", "such as 2026-03-12"),
    ("a day with an hour", changed("2026-03-12", "2026-03-12T08:00:00"), "column 'due'", "08:00", "such as 2026-03-12"),
    ("a number as day", changed("2026-03-12", "12"), "column 'due'", "12", "such as 2026-03-12"),
    ("hints in words", changed("hints = true", 'hints = "yes"'), "column 'hints'", "yes", "true or false"),
    ("worked as number", changed("worked = true", "worked = 1"), "column 'worked'", "1", "true or false"),
    ("slip in a key", changed("due", "deu"), "column 'deu'", "deu", "the nearest is 'due'"),
    ("slip in a question's key", changed("points", "point"), "column 'question 1 point'", "point", "is 'points'"),
    ("secret in the file", 'secret = "x"\n' + GOOD, "column 'secret'", "secret", "one of the keys name"),
    (
        "unknown question",
        changed("pressure_ratio", "presure_ratio"),
        "question 1",
        "presure_ratio",
        "The nearest is 'pressure_ratio'",
    ),
    ("no question named", changed('question = "pressure_ratio"\n', ""), "question 1", "nothing", "letters in quotes"),
    ("a path as question", changed("pressure_ratio", "../../x"), "question 1", "../../x", "name of a question"),
    (
        "a question twice",
        GOOD + '[[questions]]\nquestion = "pressure_ratio"\n',
        "question 3",
        "pressure_ratio",
        "each question once",
    ),
    ("no points", changed("2.5", "0"), "question 1 points", "0", "a number above 0"),
    ("points below nought", changed("2.5", "-1"), "question 1 points", "-1", "a number above 0"),
    ("points that are no number", changed("2.5", "nan"), "question 1 points", "nan", "a number above 0"),
    ("endless points", changed("2.5", "inf"), "question 1 points", "inf", "at most 1,000"),
    ("huge points", changed("2.5", "9" * 900), "question 1 points", "999", "at most 1,000"),
    ("points in words", changed("2.5", '"two"'), "question 1 points", "two", "without quotes"),
    ("points true", changed("2.5", "true"), "question 1 points", "true", "a number above 0"),
    ("no questions", 'name = "x"\n', "column 'questions'", "0 questions", "1 to 100 tables"),
    ("questions as text", 'name = "x"\nquestions = "all"\n', "column 'questions'", "all", "[[questions]]"),
    (
        "questions as one table",
        'name = "x"\n[questions]\nquestion = "hot_day"\n',
        "column 'questions'",
        "hot_day",
        "[[questions]]",
    ),
    ("a question that is a word", 'name = "x"\nquestions = ["hot_day"]\n', "questions", "hot_day", "[[questions]]"),
    ("many questions", 'name = "x"\n' + QUESTION * 101, "column 'questions'", "101 questions", "1 to 100"),
    ("no TOML", changed("due = 2026-03-12", "due : tomorrow"), "row 4", "due : tomorrow", "correct this line"),
    ("a key twice", 'name = "a"\n' + GOOD, "row 2", 'name = "week 3"', "correct this line"),
    ("cut short", GOOD + 'title = "', "", "a file cut short", "correct this line"),
    ("deep brackets", "name = " + "[" * 990 + "\n", "", "", "correct this line"),
    ("a long line", f'name = "{"x" * 1001}"\n', "row 1", "name", "at most 1,000 letters"),
    ("a large file", "# " + "x" * 900 + "\n" + ("#" * 900 + "\n") * 120, "", "bytes", "at most 100,000"),
    ("NUL", GOOD.encode() + b"\0", "", "", "plain text"),
    ("a workbook", b"PK\x03\x04" + bytes(60), "", "a workbook", "plain text"),
    ("UTF-16", GOOD.encode("utf-16"), "", "UTF-16 text", "plain text"),
]


@pytest.mark.parametrize(
    ("text", "place", "found", "words"), [row[1:] for row in HOSTILE], ids=[row[0] for row in HOSTILE]
)
def test_a_hostile_assignment_is_refused_in_one_sentence(written, text, place, found, words):
    with pytest.raises(RefusedFileError) as refused:
        read_assignment(written(text))
    told = str(refused.value)
    assert all(part in told for part in ("week 3.toml", place, found, words)), told
    assert "\n" not in told
    assert len(told) < 700


@pytest.mark.parametrize("what", ["missing", "folder", "link"])
def test_what_is_no_file_is_refused(tmp_path, written, what):
    path = tmp_path / "it.toml"
    if what == "folder":
        path.mkdir()
    elif what == "link":
        path.symlink_to(written(GOOD))
    with pytest.raises(RefusedFileError, match=r"it\.toml"):
        read_assignment(path)


def test_the_shipped_examples_are_read_and_say_that_they_are_invented():
    names = hand_out.shipped_assignments()
    assert names == ["before_and_after", "gauge_to_density", "whole_air_path", "with_an_own_question"]
    sizes = []
    for name in names:
        path = files.shipped("data") / "homework" / f"{name}.toml"
        assert path.read_text(encoding="utf-8").startswith("# INVENTED")
        found = read_assignment(path)
        sizes.append(len(found.questions))
        kinds = {isinstance(found.find(one.question), Choice) for one in found.questions}
        assert kinds == ({True} if name == "before_and_after" else {True, False})
    assert min(sizes) <= 8
    assert max(sizes) >= 20
