"""Marking: the right answer passes however it is written, and a wrong one is answered on its own mistake."""

import math
import time
from dataclasses import replace
from types import SimpleNamespace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.variants_made import whole_class
from turbomath import units
from turbomath.homework.asking import variants
from turbomath.homework.asking.widths import is_conversion
from turbomath.homework.bank import QUESTIONS
from turbomath.homework.marking.answers import parted
from turbomath.homework.marking.marking import mark
from turbomath.table.errors import TurbomathError
from turbomath.working.coherent import scale
from turbomath.working.writing import fixed

WHO = {"secret": "s3cret", "assignment": "hw1", "seat": "A07"}
MOST_SEATS = {"us": 200, "si": 60}
FINDINGS = {"right", "unit", "rounding", "carried", "given", "waiting", "none"}
FINDINGS |= {f"M{number}" for number in range(1, 19)} | {f"C{number}" for number in range(1, 5)}


def written(variant, asked, value, more=0):
    """A value as a student writes it: in the unit asked for, to the digits it deserves."""
    zero, size = scale(asked.unit(variant.units), asked.row)
    return fixed((float(value) - zero) / size, variant.decimals(asked, variant.units) + more)


def shown_numbers(variant):
    return SimpleNamespace(**{name: float(one.text.replace("−", "-")) for name, one in variant.givens.items()})


# ---------------------------------------------------------------------------------------------- right


def test_the_right_answer_worked_with_shop_constants_passes(numeric, system, class_size, shop):
    for variant in whole_class(numeric, system, min(class_size, MOST_SEATS[system])):
        asked = variant.asked[-1]
        answer = shop(numeric, system, shown_numbers(variant))
        found = mark(variant, fixed(answer, variant.decimals(asked, system)), asked.unit(system))
        assert found.right, (variant.wording, answer, found.message)
        assert (found.finding, found.points) == ("right", 1.0)


def test_the_right_answer_in_the_other_system_passes(numeric, system):
    other = "si" if system == "us" else "us"
    for variant in whole_class(numeric, system, 20):
        asked = variant.asked[-1]
        value = units.from_si(float(variant.key[asked.name]), asked.unit(other), asked.row)
        found = mark(variant, f"{value:.6g}".replace("e+03", "e3"), asked.unit(other))
        assert found.right != is_conversion(variant.question, asked)  # which wants the unit asked for


def test_the_number_and_its_unit_may_stand_in_one_box_or_two():
    variant = variants.make("manifold_pressure_from_boost", **WHO)
    text = written(variant, variant.asked[0], variant.key["manifold_pressure"])
    for answer in [(f"{text} psi abs",), (text, "psi abs"), (f"{text}psia",), (text.replace(".", ","), "PSI absolute")]:
        assert mark(variant, *answer).right, answer


def test_an_answer_may_be_a_number_of_python():
    variant = variants.make("pressure_ratio", **WHO)
    assert mark(variant, variant.key["pressure_ratio"]).right


@pytest.mark.parametrize("text", [["304 °F"], {"304": "°F"}, None, 10**16])
def test_what_is_neither_a_text_nor_a_number_is_no_answer(text):
    assert parted(text) == ("", "")


def test_a_right_answer_says_the_key_and_what_follows():
    variant = variants.make("leak_down", **WHO)
    found = mark(variant, written(variant, variant.asked[-1], variant.key["pressure_drop"]), "psi")
    assert found.message.startswith("Right: the key is ")
    assert "limit" in found.message


def test_each_of_several_values_can_be_answered():
    variant = variants.make("gauge_error", **WHO)
    assert mark(variant, written(variant, variant.asked[0], variant.key["half_width"]), "psi", part="half_width").right
    assert mark(variant, written(variant, variant.asked[1], variant.key["share_of_reading"]), "%").right
    with pytest.raises(TurbomathError, match="half_width, share_of_reading"):
        mark(variant, "1", "psi", part="nonsense")


def test_false_precision_is_mentioned_and_costs_nothing():
    variant = variants.make("effectiveness_air_to_air", **WHO)
    value = variant.key["effectiveness"]
    found = mark(variant, f"{value:.8f}")
    assert found.right
    assert "more figures" in found.message
    assert "more figures" not in mark(variant, f"{value:.3f}").message


# -------------------------------------------------------------------------------------------- mistakes


def near_another(variant, asked, mistake):
    """Whether another mistake leads so near to one that the digits written down cannot tell the two apart."""
    outcomes = (*variant.outcomes, *variant.neighbours)
    own = next(values[asked.name] for one, values in outcomes if one is mistake)
    others = [values[asked.name] for one, values in outcomes if one is not mistake]
    size = scale(asked.unit(variant.units), asked.row)[1] * 10.0 ** -variant.decimals(asked, variant.units)
    return any(abs(one - own) <= size for one in others)


def test_each_mistake_made_on_purpose_is_recognised_and_never_right(numeric, system, class_size):
    question = QUESTIONS[numeric]
    told = total = by_chance = 0
    seats = min(class_size, MOST_SEATS[system])
    for variant in whole_class(numeric, system, seats):
        for asked in variant.asked:
            for mistake, outcome in variant.outcomes:
                if not variants.touches(question, mistake, asked.name):
                    continue
                finer = mark(
                    variant, written(variant, asked, outcome[asked.name], 2), asked.unit(system), part=asked.name
                )
                told += finer.finding == mistake.code and finer.message == mistake.message
                answer = written(variant, asked, outcome[asked.name])
                found = mark(variant, answer, asked.unit(system), part=asked.name)
                assert not found.right, (variant.wording, answer)
                assert found.points == (0.5 if found.finding == "unit" else 0)
                by_chance += found.finding == "unit"  # a slip that lands on the key in the other unit
                total += 1
                same = found.message == mistake.message
                assert (
                    same
                    or found.finding in ("none", "unit", "rounding", "given")
                    or near_another(variant, asked, mistake)
                )
    assert total >= seats
    assert by_chance <= 0.01 * total
    assert told >= 0.8 * total  # with two more figures; the rest could be two mistakes, or chance


def test_a_mistake_that_only_one_system_allows_is_not_looked_for_in_the_other():
    question = QUESTIONS["manifold_pressure_from_boost"]
    assert {one.code for one in question.mistakes_in("us")} == {"M1", "M2", "M9"}
    assert {one.code for one in question.mistakes_in("si")} == {"M1", "M2"}


def specimen():
    """27.80 inHg and 22.0 psi: 35.65 psi abs."""
    variant = variants.make("manifold_pressure_from_boost", **WHO)
    pairs = {"barometer": ("27.80", "inHg"), "boost": ("22.0", "psi")}
    givens = {
        name: replace(variant.givens[name], text=text, unit=unit, value=units.to_si(float(text), unit, name))
        for name, (text, unit) in pairs.items()
    }
    return replace(variant, givens=givens)


@pytest.mark.parametrize(
    ("answer", "finding"),
    [
        ("35.65 psi abs", "right"),
        ("245.8 kPa abs", "right"),
        ("2.458 bar abs", "right"),
        ("22.0 psi abs", "M1"),
        ("22 psi gauge", "M1"),
        ("36.70 psi abs", "M2"),
        ("36.7 psi abs", "none"),  # so near to the key, three figures may be anything
        ("49.8 psi abs", "M9"),
        ("35.65 kPa abs", "unit"),
        ("245.8 psi abs", "unit"),
        ("35.65 psi gauge", "unit"),
        ("35.65 psi", "unit"),
        ("35.65", "unit"),
        ("35.65 furlongs", "unit"),
        ("35.65 °F", "unit"),
        ("36 psi abs", "rounding"),
        ("40 psi abs", "none"),
        ("13.65 psi abs", "none"),
    ],
)
def test_findings_are_told_apart(answer, finding):
    found = mark(specimen(), answer)
    assert found.finding == finding, found.message
    assert found.right == (finding == "right")
    assert found.message.endswith((".", "?"))
    assert found.message.strip().lower() != "wrong."


def test_a_unit_that_does_not_fit_is_answered_with_those_that_do():
    message = mark(specimen(), "35.65").message
    assert "psi abs" in message
    assert "kPa abs" in message
    assert "gauge" in mark(specimen(), "35.65 psi").message


# ---------------------------------------------------------------------------------- steps and carrying


def test_a_later_step_is_marked_on_the_students_own_earlier_value():
    variant = variants.make("outlet_temperature", **WHO)
    inlet, key = variant.key["compressor_inlet_temperature"], variant.key
    own_ideal = inlet + 1.25 * (key["ideal_outlet_temperature"] - inlet)
    following = inlet + (own_ideal - inlet) / key["compressor_efficiency"]
    earlier = {"ideal_outlet_temperature": f"{own_ideal * 1.8 - 459.67:.1f} °F"}
    found = mark(variant, f"{following * 1.8 - 459.67:.0f} °F", earlier=earlier)
    assert (found.finding, found.right) == ("carried", False)
    assert 0 < found.points < 1
    assert "ideal outlet temperature" in found.message
    assert mark(variant, f"{following * 1.8 - 459.67:.0f} °F").finding == "none"


def test_a_carried_value_names_the_mistake_it_came_from():
    variant = variants.make("compressor_outlet_pressure", **WHO)
    boost = variant.givens["boost"]
    p2 = (variant.key["barometer"] + boost.value) / 6894.757
    found = mark(variant, f"{p2:.2f} psi abs", earlier={"compressor_outlet_boost": (boost.text, "psi")})
    assert found.finding == "M8"  # the boost stands on the sheet: nothing to carry
    variant = variants.make("outlet_temperature", **WHO)
    inlet, key = variant.key["compressor_inlet_temperature"], variant.key
    ideal = inlet * key["pressure_ratio"] ** 0.4
    hot = inlet + (ideal - inlet) / key["compressor_efficiency"]
    found = mark(variant, f"{hot:.1f} K", earlier={"ideal_outlet_temperature": (f"{ideal:.1f}", "K")})
    assert found.finding == "carried"
    assert "You used 0.4" in found.message


def test_the_first_step_that_goes_astray_is_named():
    variant = variants.make("pressure_ratio", **WHO)
    key = variant.key
    good = f"{key['compressor_inlet_pressure'] / 6894.757:.3f} psi abs"
    bad = f"{key['compressor_outlet_pressure'] / 6894.757 * 1.1:.2f} psi abs"
    found = mark(variant, "9.87", earlier={"compressor_inlet_pressure": good, "compressor_outlet_pressure": bad})
    assert found.finding == "none"
    assert "Your compressor inlet pressure will do" in found.message
    assert "Work compressor outlet pressure out again" in found.message


def test_a_mistake_in_a_step_is_named_at_that_step():
    variant = variants.make("pressure_ratio", **WHO)
    skipped = f"{variant.key['barometer'] / 6894.757:.3f} psi abs"
    found = mark(variant, "9.87", earlier={"compressor_inlet_pressure": skipped})
    assert "At compressor inlet pressure: You left the intake restriction out" in found.message


def test_steps_that_are_right_move_the_search_on():
    variant = variants.make("outlet_temperature", **WHO)
    right = f"{variant.key['ideal_outlet_temperature'] * 1.8 - 459.67:.1f} °F"
    found = mark(variant, "9", "°F", earlier={"ideal_outlet_temperature": right})
    assert "will do. The slip is after that" in found.message


def test_without_steps_the_student_is_told_which_to_write_down():
    found = mark(variants.make("hot_day", **WHO), "2000 °F")
    assert found.finding == "none"
    assert "1. ideal outlet temperature; 2. compressor outlet temperature; 3. manifold temperature" in found.message


def test_an_earlier_value_that_cannot_be_read_is_said_so_and_the_answer_is_still_marked():
    variant = variants.make("outlet_temperature", **WHO)
    right = written(variant, variant.asked[-1], variant.key["compressor_outlet_temperature"])
    for odd in ("about 300", "<b>300</b>", "300 psi", None, ("a", "b", "c"), {"x": 1}, 9**99):
        found = mark(variant, right, "°F", earlier={"ideal_outlet_temperature": odd, "no such step": "1"})
        assert found.right
        assert "could not be read" in found.message


@pytest.mark.parametrize(
    ("name", "step", "own", "answer"),
    [
        ("uncertainty_of_effectiveness", "effectiveness", "1.2", "0.02"),
        ("outlet_temperature", "ideal_outlet_temperature", "-900 °F", "999 °F"),
        ("hot_day", "compressor_outlet_temperature", "-900 °F", "140 °F"),
    ],
)
def test_an_earlier_value_that_cannot_be_is_the_step_that_is_named(name, step, own, answer):
    found = mark(variants.make(name, **WHO), answer, earlier={step: own})
    assert not found.right
    assert f"Work {step.replace('_', ' ')} out again" in found.message


def test_gallons_put_where_cubic_feet_belong_are_recognised():
    variant = variants.make("coolant_temperature_rise", **WHO)
    # NIST SP 811, appendix B.8: a US gallon is 3.785412e-3 m^3, a cubic foot 2.831685e-2 m^3
    astray = variant.key["coolant_rise"] * 3.785412 / 28.31685
    assert mark(variant, f"{astray * 1.8:.3f} F°").message.startswith("A US gallon is 0.1337 of a cubic foot.")


# --------------------------------------------------------------------------------------------- hostile


@pytest.mark.parametrize(
    "answer",
    [
        "",
        " ",
        "9**9**9",
        "1" * 10_000,
        "<script>alert(1)</script>",
        "nan",
        "inf",
        "-inf",
        "1e999",
        "1e400 psi abs",
        "__import__('os')",
        "=1+1",
        "१२",
        "1,234",
        "3 4",
        "0x10",
        "1_000",
        "\x00",
        "35.65\n35.65",
        None,
        [],
        {},
        b"1",
        math.nan,
        math.inf,
        9**999,
        10**400,
        True,
        "35.65 " + "p" * 10_000,
        "٣٥",
        "35.65 psi\u202eabs",
        "e",
        ".",
    ],
)
@pytest.mark.parametrize("name", ["manifold_pressure_from_boost", "two_mechanics"])
def test_hostile_answers_end_at_once_in_a_plain_sentence(answer, name):
    began = time.perf_counter()
    found = mark(variants.make(name, **WHO), answer)
    assert time.perf_counter() - began < 2
    assert not found.right
    assert found.points <= 0.5
    assert found.finding in FINDINGS
    assert len(found.message) < 900
    assert "Traceback" not in found.message


@settings(max_examples=300)
@given(st.text(max_size=60), st.text(max_size=20))
def test_whatever_is_typed_gets_a_mark(answer, unit):
    found = mark(specimen(), answer, unit)
    assert found.finding in FINDINGS
    assert found.message


@settings(max_examples=200)
@given(st.floats(min_value=-1e6, max_value=1e6))
def test_an_answer_is_right_exactly_within_the_tolerance(value):
    variant = specimen()
    key = variant.key["manifold_pressure"] / 6894.757
    near = key * (1 + (value / 1e6) * 0.02)
    found = mark(variant, f"{near:.6f} psi abs")
    if abs(near / key - 1) < 0.0049:
        assert found.right
    if abs(near / key - 1) > 0.0051:
        assert not found.right


# ---------------------------------------------------------------------------------------------- choices


def test_a_choice_is_marked_by_letter_or_by_words():
    variant = variants.make("two_mechanics", **WHO)
    for letter, option in zip("ABCDEFGH", variant.asked, strict=False):
        for said in (letter, letter.lower(), f" {letter} ", option.words, option.words.upper()):
            found = mark(variant, said)
            assert found.right == (option.code == "")
            assert found.finding == (option.code or "right")
            assert found.message == option.reply
    assert mark(variant, "Z").finding == "waiting"
