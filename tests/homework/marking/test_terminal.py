"""Homework on the terminal: make a variant, mark an answer, print its worked solution."""

import pytest

from tests.homework.command import homework
from turbomath.homework.asking import variants
from turbomath.homework.bank import QUESTIONS
from turbomath.homework.marking.marking import mark


def question(*arguments, secret=None):
    return homework("question", *arguments, secret=secret)


def test_a_teacher_can_make_mark_and_work_a_question():
    variant = variants.make("pressure_ratio", secret="practice", assignment="practice", seat="A07")
    done = question("pressure_ratio", "--seat", "A07", "--answer", f"{variant.key['pressure_ratio']:.3f}", "--worked")
    assert done.returncode == 0, done.stderr
    assert variant.code in done.stdout
    assert "Finding: right, 1 of 1 point" in done.stdout
    assert "π = p_2 / p_1" in done.stdout
    assert "Sense check" in done.stdout


def test_without_worked_the_solution_is_not_shown():
    assert "Sense check" not in question("pressure_ratio").stdout


def test_units_part_and_earlier_steps_can_be_given():
    variant = variants.make("gauge_error", secret="practice", assignment="practice", seat="practice", units="si")
    half = variant.key["half_width"] / 1000
    done = question("gauge_error", "--units", "si", "--part", "half_width", "--answer", f"{half:.2f} kPa")
    assert "Finding: right" in done.stdout
    done = question("gauge_error", "--units", "si", "--answer", "99 %", "--earlier", f"half width={half:.2f} kPa")
    assert "Your half width will do" in done.stdout


def test_an_assignment_needs_the_course_secret_and_gives_its_own_numbers():
    done = question("pressure_ratio", "--assignment", "week 3")
    assert done.returncode == 1
    assert done.stderr.count("\n") == 1
    assert "TURBOMATH_SECRET" in done.stderr
    done = question("pressure_ratio", "--assignment", "week 3", secret="only the teacher")
    mine = variants.make("pressure_ratio", secret="only the teacher", assignment="week 3", seat="practice")
    assert done.returncode == 0
    assert mine.code in done.stdout
    assert "only the teacher" not in done.stdout


def test_all_questions_are_listed_when_none_is_named():
    listed = question().stdout
    assert all(name in listed for name in QUESTIONS)


@pytest.mark.parametrize(
    "arguments", [("no_such_question",), ("hot_day", "--earlier", "nonsense"), ("hot_day", "--seat", " ")]
)
def test_a_wrong_request_is_refused_in_one_sentence(arguments):
    done = question(*arguments)
    if "--earlier" in arguments:
        done = question(*arguments, "--answer", "1 °F")
    assert (done.returncode, done.stdout) == (1, "")
    assert done.stderr.count("\n") == 1
    assert "Traceback" not in done.stderr


def test_a_choice_is_answered_on_the_terminal_too():
    done = question("order_the_stations", "--answer", "A", "--worked")
    assert "Finding: " in done.stdout
    assert "Right is: " in done.stdout


def test_hostile_answers_on_the_terminal_are_answered_in_words():
    for answer in ("9**9**9", "<b>1</b>", "\x1b[31m1", "1" * 5000):
        done = question("pressure_ratio", "--answer", answer)
        assert done.returncode == 0
        assert "\x1b" not in done.stdout
        assert "Finding: waiting, 0 of 1 point" in done.stdout
        assert max(map(len, done.stdout.splitlines())) < 120


def test_the_help_says_what_individual_numbers_are_for():
    assert "stop copying, not computing" in " ".join(homework("--help").stdout.split())


def test_marking_is_the_same_in_python():
    variant = variants.make("pressure_ratio", secret="practice", assignment="practice", seat="A07")
    assert mark(variant, f"{variant.key['pressure_ratio']:.3f}").right
