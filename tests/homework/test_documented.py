"""What data/README.md says of homework is what the kit reads and writes."""

import re

import pytest

from turbomath.disk import files
from turbomath.homework.asking import own_questions
from turbomath.homework.bank.readings import SHOWN
from turbomath.homework.course import assignment, before_and_after, hand_out
from turbomath.homework.marking import gradebook, overrides

TEXT = (files.shipped("data") / "README.md").read_text(encoding="utf-8")


def section(head):
    return TEXT.partition(f"## {head}\n")[2].partition("\n## ")[0]


def test_every_key_of_an_assignment_is_explained():
    keys = {key.strip("`[]") for key in re.findall(r"^\| (`[^|]+`) \|", section_of_assignments(), re.MULTILINE)}
    assert keys == set(assignment._KEYS)
    assert all(f"`{name}`" in TEXT for name in hand_out.shipped_assignments())


def section_of_assignments():
    return TEXT.partition("# Homework\n")[2].partition("\n## ")[0]


@pytest.mark.parametrize(
    "key", [*own_questions._KEYS, *own_questions._GIVEN_KEYS, "result", "formula", "take", "within"]
)
def test_every_key_of_an_own_question_is_explained(key):
    told = section("A question of your own")
    assert re.search(rf"`(?:\[+)?{key}(?:\.NAME)?(?:\]+)?`|`{key} =|{key}:", told), key


def test_the_gauges_are_those_that_there_are():
    listed = re.search(r"Gauges: (.*?)\. The file", section("A question of your own"), re.DOTALL)[1]
    assert " ".join(listed.split()).split(", ") == list(SHOWN)


def test_what_is_written_and_what_is_decided_is_explained():
    told = section("Totals, what waits, and what you decide")
    for name in (
        gradebook.TOTALS,
        gradebook.WAITING,
        gradebook.GRADES,
        gradebook.ITEMS,
        gradebook.RESULTS,
        overrides.FILE,
    ):
        assert name in told
    assert ",".join(overrides.FIELDS) in told
    assert before_and_after.PAGE in section("Before a course and after it")
