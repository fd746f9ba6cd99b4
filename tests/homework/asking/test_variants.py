"""A seat's own numbers: the same on any machine, all different, all physical, and every mistake well apart."""

import itertools
import re
import subprocess
import sys
from dataclasses import replace

import numpy as np
import pytest

from tests.variants_made import whole_class
from turbomath.homework.asking import plausible, variants
from turbomath.homework.asking.sheet import Sheet, solved
from turbomath.homework.bank import QUESTIONS
from turbomath.homework.bank.question import Choice
from turbomath.table.errors import OutOfRangeError, TurbomathError
from turbomath.table.kinds import KINDS
from turbomath.table.quantities import QUANTITIES

MAKE = {"secret": "s3cret", "assignment": "hw1", "seat": "A07"}


def stacked(question, class_, system):
    """The givens of a whole class as one sheet of arrays, in SI."""
    givens = {one.name: np.array([variant.givens[one.name].value for variant in class_]) for one in question.givens}
    return Sheet(question, givens, system)


def test_every_mistake_leads_away_from_the_key_and_from_the_others(numeric, system, class_size):
    question = QUESTIONS[numeric]
    class_ = whole_class(numeric, system, class_size)
    assert len(class_) == class_size
    sheet = stacked(question, class_, system)
    key = solved(question, sheet)
    mistakes = question.mistakes_in(system)
    assert mistakes, "a question without a usual mistake teaches nobody"
    for asked in question.asked:
        width = asked.allowed.width(key[asked.name], system)
        wrong = [
            solved(question, sheet, one.changes)[asked.name]
            for one in mistakes
            if variants.touches(question, one, asked.name)
        ]
        assert wrong or asked is not question.asked[-1]
        for one in wrong:
            assert np.min(np.abs(one - key[asked.name]) / width) >= 3 * (1 - 1e-9)
        for one, other in itertools.combinations(wrong, 2):
            assert np.min(np.abs(one - other) / width) >= 1 - 1e-9


def test_every_value_of_every_sheet_can_be(numeric, system, class_size):
    question = QUESTIONS[numeric]
    key = solved(question, stacked(question, whole_class(numeric, system, class_size), system))
    rows = {one.name: one.row for one in question.givens} | {one.result: one.quantity_of() for one in question.steps}
    for name, quantity in rows.items():
        kind = KINDS[QUANTITIES[quantity].kind]
        values = np.asarray(key[name])
        assert np.all(np.isfinite(values)), name
        assert np.all(values >= kind.low), name
        assert np.all(values <= kind.high), name
        assert kind.low_allowed or np.all(values > kind.low), name
    if {"compressor_inlet_temperature", "compressor_outlet_temperature"} <= set(key):
        assert np.all(key["compressor_outlet_temperature"] > key["compressor_inlet_temperature"])
    if "pressure_ratio" in key:
        assert np.all((key["pressure_ratio"] >= 0.6) & (key["pressure_ratio"] <= 5))  # 0.8 is a table's ratio up high


def test_each_seat_gets_a_set_of_its_own(class_size):
    names = ("pressure_ratio", "outlet_temperature", "manifold_density", "effectiveness_air_to_air", "mass_flow")
    sets = {
        tuple(tuple(one.text for one in variant.givens.values()) for variant in seat)
        for seat in zip(*(whole_class(name, size=class_size) for name in names), strict=True)
    }
    assert len(sets) == class_size


def test_one_question_of_four_readings_is_different_for_each_seat(class_size):
    class_ = whole_class("pressure_ratio", size=class_size)
    assert len({tuple(one.text for one in variant.givens.values()) for variant in class_}) == class_size


def test_sheet_codes_are_public_and_different(class_size):
    codes = [variant.code for variant in whole_class("pressure_ratio", size=class_size)]
    assert len(set(codes)) == class_size
    assert all(len(code) == 9 and code.isascii() for code in codes)


def test_givens_are_what_a_gauge_shows(numeric, system, class_size):
    for variant in whole_class(numeric, system, min(class_size, 50)):
        for one in QUESTIONS[numeric].givens:
            unit, step = one.us if system == "us" else one.si
            given = variant.givens[one.name]
            assert given.unit == unit
            steps = float(given.text.replace("−", "-")) / step
            assert steps == pytest.approx(round(steps), abs=1e-6)


def test_the_same_seat_gets_the_same_numbers_as_ever():
    variant = variants.make("pressure_ratio", **MAKE)
    assert [one.text for one in variant.givens.values()] == SEEN["givens"]
    assert variant.code == SEEN["code"]


@pytest.mark.process
def test_another_process_gives_the_same_numbers():
    code = (
        "from turbomath.homework.asking import variants;"
        f"print(*(one.text for one in variants.make('pressure_ratio', **{MAKE!r}).givens.values()))"
    )
    done = subprocess.run(
        [sys.executable, "-c", code],
        capture_output=True,
        text=True,
        check=True,
        env={"PYTHONHASHSEED": "77", "PYTHONPATH": ":".join(sys.path)},
    )
    assert done.stdout.split() == SEEN["givens"]


@pytest.mark.parametrize("change", [{"secret": "other"}, {"assignment": "hw2"}, {"seat": "A08"}, {"retry": 1}])
def test_whatever_names_the_sheet_changes_the_numbers(change):
    first, second = variants.make("pressure_ratio", **MAKE), variants.make("pressure_ratio", **(MAKE | change))
    assert first.givens != second.givens
    assert first.code != second.code


def test_texts_that_run_together_are_not_mixed_up():
    one = variants.make("pressure_ratio", secret="s", assignment="a", seat="bc")
    other = variants.make("pressure_ratio", secret="s", assignment="ab", seat="c")
    assert one.givens != other.givens


def test_a_name_typed_on_another_keyboard_is_the_same_seat():
    composed, parted = "Zo\u00eb", "Zoe\u0308"
    first, second = (variants.make("pressure_ratio", **(MAKE | {"seat": seat})) for seat in (composed, f" {parted} "))
    assert first.givens == second.givens


def test_one_of_a_class_is_the_same_as_alone():
    together = variants.make_all("hot_day", secret="s", assignment="a", seats=["1", "2", "3"], units="si")
    assert together[1] == variants.make("hot_day", secret="s", assignment="a", seat="2", units="si")


def test_the_secret_is_nowhere_in_a_variant():
    secret = "unlikely-words-of-a-teacher"
    variant = variants.make("pressure_ratio", secret=secret, assignment="a", seat="b")
    assert secret not in repr(vars(variant)) + variant.text


def test_the_key_is_not_printed_with_the_question(numeric):
    question = QUESTIONS[numeric]
    variant = whole_class(numeric, "us", 1)[0]
    assert "key" not in repr(variant)
    assert variant.text.startswith(variant.wording)
    assert "{" not in variant.text
    for one in question.asked:
        assert (one.us if one.us != "-" else "without a unit") in variant.text


@pytest.mark.parametrize("empty", ["secret", "assignment", "seat"])
def test_an_empty_name_is_refused_in_words(empty):
    with pytest.raises(OutOfRangeError, match="empty"):
        variants.make("pressure_ratio", **(MAKE | {empty: "  "}))


def test_an_unknown_question_is_refused_with_the_nearest():
    with pytest.raises(TurbomathError, match="The nearest is 'pressure_ratio'"):
        variants.make("presure_ratio", **MAKE)
    with pytest.raises(OutOfRangeError, match="units"):
        variants.make("pressure_ratio", **MAKE, units="metric")


def test_a_question_that_cannot_be_told_apart_is_refused_and_not_asked():
    question = QUESTIONS["manifold_pressure_from_boost"]
    hopeless = replace(question, ranges={"elevation": (0, 1, "ft"), "sea_level_pressure": (29.92, 29.92, "inHg")})
    with pytest.raises(TurbomathError, match="narrowed"):
        variants.make(hopeless, **MAKE)


def test_the_engines_behind_the_numbers_are_believable():
    shares = np.random.default_rng(5).random((2000, plausible.count({})))
    values = plausible.engine({}, shares)
    good = plausible.believable(values)
    assert 0.5 < good.mean() <= 1
    assert np.all(values["compressor_outlet_temperature"][good] <= plausible.HOTTEST)
    assert np.all(values["barometer"] > 80e3)
    assert np.all(values["barometer"] < 104e3)


def test_choices_are_shuffled_and_one_is_right():
    names = [name for name, question in QUESTIONS.items() if isinstance(question, Choice)]
    assert len(names) >= 4
    for name in names:
        class_ = variants.make_all(name, secret="s", assignment="a", seats=map(str, range(200)))
        right = [[option.code for option in one.asked].index("") for one in class_]
        assert len(set(right)) >= 3
        assert len({one.wording for one in class_}) >= 2
        for one in class_:
            assert [option.code for option in one.asked].count("") == 1
            assert len({option.words for option in one.asked}) == len(one.asked)


def test_the_reading_that_cannot_be_cannot_be():
    # ideal gas, ratio of heat capacities 1.4 (Heywood, section 6.8), and no cooler colder than its medium
    class_ = variants.make_all("impossible_reading", secret="s", assignment="a", seats=map(str, range(200)))
    for one in class_:
        core, inlet, outlet, manifold, ratio = readings_in(one.wording)
        right = next(option.words for option in one.asked if not option.code)
        efficiency = (inlet + 459.67) * (ratio ** (2 / 7) - 1) / (outlet - inlet)
        effectiveness = (outlet - manifold) / (outlet - core)
        assert (efficiency > 1) == (right in ("compressor outlet", "compressor inlet"))
        assert (effectiveness > 1) == (right in ("manifold", "air at the core face"))
        # both get outside air: where they stand far apart, the hotter of the two is the one that cannot be
        assert (abs(core - inlet) > 30) == (right in ("compressor inlet", "air at the core face"))
        if abs(core - inlet) > 30:
            assert (core > inlet) == (right == "air at the core face")


def readings_in(wording):
    found = re.findall(r"(−?\d+) °F|(\d\.\d\d)", wording)
    return [float((degrees or ratio).replace("−", "-")) for degrees, ratio in found]


SEEN = {"givens": ["26.10", "20.5", "26.5", "1.7"], "code": "99fy-nkhy"}  # kit 0.1.0


def test_slips_of_the_neighbours_come_to_the_same_alone_and_in_a_class(numeric, system):
    for variant in whole_class(numeric, system)[:2]:
        alone = replace(variant)  # not bound to the others
        pairs = zip(variant.neighbours, alone.neighbours, strict=True)
        for (mistake, outcome), (same, by_itself) in pairs:
            assert mistake.name == same.name
            for asked in variant.asked:
                assert outcome[asked.name] == pytest.approx(by_itself[asked.name], rel=1e-12, nan_ok=True)
