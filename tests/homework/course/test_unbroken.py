"""No number parts from its unit at the end of a line, on any sheet, hint or feedback of homework."""

import re

import pytest

from tests.variants_made import SYSTEMS, whole_class
from turbomath.homework.bank import QUESTIONS
from turbomath.homework.course import hand_out
from turbomath.paper.unbroken import NO_BREAK, unbroken

A_NUMBER = re.compile(r"\d (?=[^\W\d]|[%°±])")


def given_units(variant):
    return {one.unit.split(" ")[0] for one in variant.givens.values()} - {"-"}


def test_every_number_of_every_question_keeps_its_unit(numeric, system):
    for variant in whole_class(numeric, system, 3):
        told = unbroken(variant.text)
        for one in variant.givens.values():
            assert one.unit == "-" or f"{one.text} {one.unit}".replace(" ", NO_BREAK) in told, told
        assert told.replace(NO_BREAK, " ") == variant.text
        assert not given_units(variant) & {told[found.end() :].split()[0] for found in A_NUMBER.finditer(told)}


@pytest.mark.parametrize("units", SYSTEMS)
def test_the_sheets_are_printed_so(tmp_path, units):
    (tmp_path / "seats.csv").write_text("A01\n", encoding="utf-8")
    questions = tmp_path / "all.toml"
    tables = "".join(f'[[questions]]\nquestion = "{name}"\n' for name in QUESTIONS)
    questions.write_text(f'name = "all"\nunits = "{units}"\n{tables}', encoding="utf-8")
    hand_out.write(str(questions), tmp_path / "seats.csv", tmp_path / "out")
    words = re.sub("<[^>]+>", " | ", (tmp_path / "out/students/A01/sheet.html").read_text(encoding="utf-8"))
    assert NO_BREAK in words
    assert not re.search(r"\d (?:%|psi|kPa|inHg|inH2O|°[FC]|[FC]°|lb|kg|hp|kW|rpm|Btu)\b", words)
