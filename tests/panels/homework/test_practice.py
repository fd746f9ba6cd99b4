"""Practice: each answer gets the marker's own words at once, help comes when asked for, nothing is kept unwanted."""

import errno
import json
import os

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.widgets.told import tell
from turbomath.disk import journal
from turbomath.disk.journal import Journal
from turbomath.homework.asking import variants
from turbomath.homework.asking.variant import Variant
from turbomath.homework.bank import QUESTIONS, before_and_after
from turbomath.homework.bank.question import Choice
from turbomath.homework.marking import marking
from turbomath.homework.marking.terminal import PRACTICE
from turbomath.panels.homework import panel_homework
from turbomath.panels.homework.practice import SUBJECTS
from turbomath.working import Amount
from turbomath.working.coherent import from_si, to_si

PRACTISED = [one.name for every in SUBJECTS.values() for one in every]
NUMBERS = [one for one in QUESTIONS.values() if not isinstance(one, Choice)]


@pytest.fixture(autouse=True)
def work(tmp_path, monkeypatch):
    monkeypatch.setenv("TURBOMATH_WORK", str(tmp_path / "work"))
    return tmp_path / "work"


@pytest.fixture
def panel():
    panel = panel_homework()
    tell(panel, "seat", text="A07")
    return panel


def go_to(panel, name):
    tell(panel, "subject", key=next(key for key, every in SUBJECTS.items() if name in [one.name for one in every]))
    return tell(panel, "question", key=name)


def made(name, units="us", retry=0):
    return variants.make(name, secret=PRACTICE, assignment=PRACTICE, seat="A07", units=units, retry=retry)


def right(variant, asked):
    """Return an answer as a student would write the key."""
    unit = asked.unit(variant.units)
    return f"{from_si(variant.key[asked.name], unit, asked.row):.6g} {unit}".removesuffix(" -")


def test_every_question_of_the_bank_can_be_chosen_and_is_shown_in_both_units(panel):
    kept_for_the_test = {one.name for one in before_and_after.QUESTIONS}
    assert [name for name in QUESTIONS if name not in kept_for_the_test] == PRACTISED
    for name in PRACTISED:
        go_to(panel, name)
        for system in ("us", "si"):
            frame = tell(panel, "system", system=system)
            assert frame["notice"] == ""
            assert frame["name"] == name
            variant = made(name, system)
            assert frame["exercise"]["key"] == variant.code
            assert "\n".join(frame["exercise"]["wording"]) == variant.wording
            assert len(frame["exercise"]["options"]) == (len(variant.asked) if name not in map(_name, NUMBERS) else 0)
            json.dumps(frame, allow_nan=False)


def _name(question):
    return question.name


@pytest.mark.parametrize("question", NUMBERS, ids=_name)
def test_the_key_of_each_question_is_found_right_in_each_box(panel, question):
    go_to(panel, question.name)
    variant = made(question.name)
    frame = tell(panel, "check", texts={one.name: right(variant, one) for one in variant.asked})
    assert [one["head"] for one in frame["parts"]] == ["Right."] * len(variant.asked)
    assert all(one["good"] for one in frame["parts"])


def test_a_choice_is_answered_by_its_letter(panel):
    frame = go_to(panel, "two_mechanics")
    variant = made("two_mechanics")
    for (letter, words), option in zip(frame["exercise"]["options"], variant.asked, strict=True):
        assert words == option.words
        one = tell(panel, "check", texts={"": letter})["parts"][0]
        assert one["good"] == (not option.code)
        assert one["words"] == option.reply
        assert option.code in one["head"]


def test_a_reply_is_the_markers_own_finding_and_words(panel):
    frame = go_to(panel, "manifold_pressure_from_boost")
    variant = made(frame["name"])
    boost, barometer = (from_si(variant.givens[name].value, "psi", name) for name in ("boost", "barometer"))
    key = f"{boost + barometer:.2f} psi"
    for text, head in (
        (f"{key} abs", "Right."),
        (key, "Look at the unit."),
        ("99 psi abs", "Not yet."),
        (f"{boost:.2f} psi abs", "A usual mistake (M1)."),
        ("twelve", "This cannot be read."),
    ):
        one = tell(panel, "check", texts={"manifold_pressure": text})["parts"][0]
        assert one["head"] == head
        assert one["words"] == marking.mark(variant, text).message
        assert one["text"] == text


# 28.60 inHg at 0 °C is 14.047 psi: NIST Special Publication 811 (2008), appendix B
def test_the_worked_example_of_the_notebook_gets_the_replies_it_promises():
    question = QUESTIONS["manifold_pressure_from_boost"]
    givens = {
        name: Amount(to_si(number, unit, name), name, f"{number}", unit)
        for name, number, unit in (("barometer", 28.60, "inHg"), ("boost", 22.0, "psi"))
    }
    example = Variant(question, givens, question.asked, "code", "us", question.wording)
    findings = [
        marking.mark(example, text).finding
        for text in ("36.04 psi abs", "36,0 psi abs", "36.04 psi", "22 psi abs", "36.70 psi abs")
    ]
    assert findings == ["right", "right", "unit", "M1", "M2"]


def test_a_decimal_comma_is_read_and_a_doubtful_one_sent_back(panel):
    go_to(panel, "manifold_pressure_from_boost")
    variant = made("manifold_pressure_from_boost")
    text = f"{from_si(variant.key['manifold_pressure'], 'psi abs', 'pressure'):.2f} psi abs".replace(".", ",")
    assert tell(panel, "check", texts={"manifold_pressure": text})["parts"][0]["good"]
    assert "one number" in tell(panel, "check", texts={"manifold_pressure": "12 or 13"})["parts"][0]["words"]


def test_an_own_earlier_value_is_carried_to_the_next_box(panel):
    go_to(panel, "gauge_error")
    variant = made("gauge_error")
    boost = from_si(variant.givens["boost"].value, "psi", "boost")
    half_width = 2 * from_si(variant.key["half_width"], "psi", "cooler_pressure_loss")
    texts = {"half_width": f"{half_width:.4g} psi", "share_of_reading": f"{100 * half_width / boost:.4g} %"}
    first, second = tell(panel, "check", texts=texts)["parts"]
    assert not first["good"]
    assert second["head"] == "Right for your own earlier value."
    alone = tell(panel, "check", texts={**texts, "half_width": " "})["parts"]
    assert alone[0]["head"] == ""
    assert alone[1]["head"] != "Right for your own earlier value."


def test_hints_come_one_by_one_and_the_worked_solution_after_a_try_only(panel):
    frame = go_to(panel, "outlet_temperature")
    variant = made("outlet_temperature")
    assert (frame["hints"], frame["more"], frame["tried"]) == ([], 1, False)
    for _ in range(2):  # the second tells the method: not before a real try
        frame = tell(panel, "hint")
        assert (frame["hints"], frame["more"]) == (list(variant.question.hints[:1]), 0)
    given = variant.givens["compressor_inlet_temperature"]
    for no_try in ("soon", f"{given.text} {given.unit}"):
        assert not tell(panel, "check", texts={"compressor_outlet_temperature": no_try})["tried"]
    assert tell(panel, "work")["worked"] is None
    assert not tell(panel, "check", texts={"compressor_outlet_temperature": "  "})["tried"]
    assert tell(panel, "work")["worked"] is None
    assert tell(panel, "check", texts={"compressor_outlet_temperature": "1 °F"})["tried"]
    assert tell(panel, "hint")["hints"] == list(variant.question.hints)
    worked = tell(panel, "work")["worked"]
    assert "answer" in [sort for sort, _, _ in worked]
    assert any(equations and equations[0][0] == "math" for _, _, equations in worked)
    assert tell(panel, "work")["worked"] is None
    frame = tell(panel, "fresh")
    assert (frame["hints"], frame["tried"], frame["parts"][0]["text"]) == ([], False, "")


def test_the_worked_solution_of_each_question_can_be_drawn(panel):
    for name in PRACTISED:
        frame = go_to(panel, name)
        tell(panel, "check", texts={one["name"]: "A" for one in frame["parts"]})
        for system in ("us", "si"):
            tell(panel, "system", system=system)
            for text in ("A", "1.234567"):
                tell(panel, "check", texts={one["name"]: text for one in frame["parts"]})
            worked = tell(panel, "work")["worked"]
            assert worked, name
            json.dumps(worked)


def test_fresh_numbers_are_the_next_retry_of_the_same_seat(panel):
    go_to(panel, "pressure_ratio")
    codes = [tell(panel, "fresh")["exercise"]["key"] for _ in range(3)]
    assert codes == [made("pressure_ratio", retry=retry).code for retry in (1, 2, 3)]
    assert len(set(codes)) == 3


def test_an_empty_seat_is_refused_and_the_numbers_stay(panel):
    before = panel.frame["exercise"]
    frame = tell(panel, "seat", text="  ")
    assert frame["fault"] == "The seat is empty; give one, such as 'A07'."
    assert (frame["seat"], frame["exercise"]) == ("A07", before)
    assert tell(panel, "seat", text="B01")["exercise"] != before


def test_nothing_is_kept_unless_it_is_wanted_and_then_each_try_is(panel, work):
    go_to(panel, "pressure_ratio")
    tell(panel, "check", texts={"pressure_ratio": "2,5"})
    assert not work.exists()
    frame = tell(panel, "record", on=True)
    assert str(work / "practice.journal") in frame["record"]["note"]
    assert not work.exists()
    tell(panel, "check", texts={"pressure_ratio": "2,5"})
    tell(panel, "record", on=False)
    tell(panel, "check", texts={"pressure_ratio": "99"})
    records, note = Journal(work / "practice.journal").read()
    assert note == ""
    assert [(one["question"], one["part"], one["answer"], one["seat"]) for one in records] == [
        ("pressure_ratio", "pressure_ratio", "2,5", "A07")
    ]


def test_where_the_disk_refuses_the_record_practice_goes_on(panel, monkeypatch):
    go_to(panel, "pressure_ratio")
    tell(panel, "record", on=True)

    def refuse(*_):
        raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))

    monkeypatch.setattr(journal.os, "fsync", refuse)
    frame = tell(panel, "check", texts={"pressure_ratio": "2.5"})
    assert frame["record"]["fault"].startswith("Not kept: No space left on device.")
    assert frame["parts"][0]["head"]
    assert frame["notice"] == ""


@given(st.sampled_from(sorted(PRACTISED)), st.text(max_size=90))
def test_no_text_breaks_practice(name, text):
    panel = panel_homework()
    go_to(panel, name)
    frame = tell(panel, "check", texts={one["name"]: text for one in panel.frame["parts"]})
    assert frame["notice"] == ""
    json.dumps(frame, allow_nan=False)
    assert all(bool(one["head"]) == bool(text.strip()) for one in frame["parts"])


@pytest.mark.parametrize(
    "words",
    [
        {"say": "pick"},
        {"say": "question", "key": "../etc"},
        {"say": "check", "texts": 3},
        {"say": "subject", "key": ["a"]},
        {"say": "system", "system": 3},
    ],
)
def test_a_doing_that_is_none_is_refused_in_words(panel, words):
    before = panel.frame
    frame = tell(panel, **words)
    assert frame["notice"].startswith("The panel did not understand that")
    assert frame["exercise"] == before["exercise"]
