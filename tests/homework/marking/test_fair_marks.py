"""Fair marks: right work in three figures is right, a copied number earns nothing, and what is around a number is read.

The right answers come from shop.py: every question once more in plain shop arithmetic, apart from the kit's formulas.
"""

from types import SimpleNamespace

import pytest

from tests.homework.figures import Figures, FourFigures
from tests.variants_made import NUMERIC, whole_class
from turbomath.homework.asking import variants
from turbomath.homework.asking.widths import is_conversion
from turbomath.homework.bank.steps import family
from turbomath.homework.marking import carrying
from turbomath.homework.marking.marking import mark

WHO = {"secret": "s3cret", "assignment": "hw1", "seat": "A07"}
SEATS = 12


def given_numbers(variant, kind=float):
    return SimpleNamespace(**{name: kind(one.text.replace("−", "-")) for name, one in variant.givens.items()})


@pytest.mark.parametrize("kind", [float, FourFigures, Figures])
def test_right_work_in_three_figures_at_every_sum_has_full_marks(numeric, system, kind, shop):
    for variant in whole_class(numeric, system, SEATS):
        answer = shop(numeric, system, given_numbers(variant, kind))
        text = f"{answer:.6g}" if kind is float else f"{answer:.{kind.count}g}"
        found = mark(variant, f"{float(text):f}", variant.asked[-1].unit(system))
        assert found.points == 1.0, (variant.text, text, found)


def test_a_number_that_stands_on_the_sheet_earns_nothing(numeric, system):
    for variant in whole_class(numeric, system, SEATS):
        for asked in variant.asked:
            for one in variant.givens.values():
                for unit in ("", one.unit, asked.us, asked.si):
                    found = mark(variant, one.text, "" if unit == "-" else unit, part=asked.name)
                    assert found.points == 0, (variant.text, one.text, unit, found)


def test_a_conversion_wants_the_unit_that_is_asked_for():
    variant = variants.make("boost_in_another_unit", **WHO)
    given = variant.givens["boost"]
    kilopascals = float(given.text) * 3.38639  # NIST SP 811, appendix B: 1 inHg (0 °C) is 3.38638 kPa
    assert is_conversion(variant.question, variant.asked[0])
    for answer in (f"{given.text} inHg", given.text, f"{given.text} psi", f"{kilopascals:.1f} kPa"):
        found = mark(variant, answer)
        assert (found.points, found.right) == (0, False), answer
    assert "in psi" in mark(variant, f"{given.text} inHg").message
    assert mark(variant, f"{kilopascals / 6.894757:.2f} PSI").right


# --------------------------------------------------------------------------------- around a number


@pytest.mark.parametrize(
    "around",
    [
        "≈{} psi abs",
        "~{} psi abs",
        "about {} psi abs",
        "ca. {} psi abs",
        "p3 = {} psi abs",
        "p3 ≈ {} psi abs",
        "manifold pressure: {} psi abs",
        "= {} psi abs",
        "{} psi abs ± 0.5 psi",
        "{} ± 0.5 psi abs",
        "{} +/- 0.5 psi abs",
        "about = {} psia",
    ],
)
def test_what_people_write_around_a_number_is_read(around):
    variant = variants.make("manifold_pressure_from_boost", **WHO)
    text = f"{variant.key['manifold_pressure'] / 6894.757:.2f}"
    assert mark(variant, around.format(text)).right


@pytest.mark.parametrize("written", ["x 10^1", "× 10¹", "*10**1", "e1", "x10^(1)"])
def test_powers_of_ten_are_read(written):
    variant = variants.make("manifold_pressure_from_boost", **WHO)
    text = f"{variant.key['manifold_pressure'] / 68947.57:.4f}"
    assert mark(variant, f"{text} {written} psi abs".replace(" e1", "e1")).right


@pytest.mark.parametrize("written", ["{:.2f}:1", "{:.2f} : 1", "{:.2f} to 1", "{:.2f}/1", "PR = {:.2f}"])
def test_a_ratio_may_be_said_to_one(written):
    variant = variants.make("pressure_ratio", **WHO)
    assert mark(variant, written.format(variant.key["pressure_ratio"])).right


def test_per_cent_need_no_sign_where_the_sheet_asks_in_per_cent_and_where_nothing_else_can_be_meant():
    gain = variants.make("aftercooling_density_gain", **WHO)
    share = gain.key["aftercooling_density_gain"]
    for text in (f"{100 * share:.1f}", f"{100 * share:.1f} %", f"{100 * share:.1f} per cent", f"{share:.3f}"):
        assert mark(gain, text).right, text
    efficiency = variants.make("compressor_efficiency", **WHO)
    for text in (f"{100 * efficiency.key['compressor_efficiency']:.0f}", "{:.2f}"):
        assert mark(efficiency, text.format(efficiency.key["compressor_efficiency"])).right


def test_the_key_decides_what_a_comma_before_three_figures_is():
    seats = [one for one in whole_class("heat_rejected", "us") if one.key["heat_rejected"] / 17.584 > 1100]
    assert seats
    for variant in seats:  # NIST SP 811, appendix B: 1 Btu(IT)/min is 17.584 W
        found = mark(variant, f"{variant.key['heat_rejected'] / 17.58427:,.0f} Btu/min")
        assert found.right
        assert "more figures" not in found.message
    pressure = variants.make("manifold_pressure_from_boost", **WHO)
    assert mark(pressure, f"{pressure.key['manifold_pressure'] / 6894.757:.3f} psi abs".replace(".", ",")).right


@pytest.mark.parametrize(
    "answer",
    [
        "12 or 13 psi abs",
        "see other sheet",
        "about thirty",
        "=1+1",
        "45 6",
        "",
        "3.5.6 psi abs",
        "45 psi 46 psi",
        "40-45",
    ],
)
def test_what_cannot_be_read_waits_and_is_never_wrong(answer):
    found = mark(variants.make("manifold_pressure_from_boost", **WHO), answer)
    assert (found.finding, found.right) == ("waiting", False), found
    assert "instructor" in found.message


def test_an_option_is_read_with_its_bracket_its_dot_or_its_words():
    variant = variants.make("two_mechanics", **WHO)
    for letter, option in zip("ABC", variant.asked, strict=True):
        low, words = letter.lower(), option.words
        for said in (f"{letter}.", f"({letter})", f"{low})", f"{letter}: {words}", f"{low}) {words}.", f"{words}."):
            assert mark(variant, said).right == (not option.code), said
        assert mark(variant, words.partition(":")[0]).right == (not option.code), words


# --------------------------------------------------------------------------------------- carrying


@pytest.mark.parametrize(
    ("name", "step", "own"),
    [
        ("outlet_temperature", "ideal_outlet_temperature", lambda v: v.key["compressor_inlet_temperature"]),
        ("outlet_temperature", "ideal_outlet_temperature", lambda v: 255.37),  # 0 °F
        ("outlet_temperature", "ideal_outlet_temperature", lambda v: 900.0),
        ("compressor_outlet_pressure", "compressor_outlet_boost", lambda v: v.key["boost"]),
        ("pressure_ratio", "compressor_inlet_pressure", lambda v: v.key["barometer"]),
    ],
)
def test_a_value_that_the_question_makes_impossible_is_not_carried(name, step, own):
    variant = variants.make(name, **WHO)
    value = own(variant)
    last = variant.asked[-1]
    following = carrying.following(variant, {step: value})[last.name]
    unit = "" if last.si == "-" else last.si
    number = following / 1000 if "kPa" in unit else following - 273.15 * (unit == "°C")
    earlier = {step: f"{value:.3f} K" if "temperature" in step else f"{value:.3f} Pa{' abs' * ('boost' not in step)}"}
    found = mark(variant, f"{number:.4f} {unit}", earlier=earlier)
    assert found.points == 0, found


def test_a_value_that_stayed_where_it_began_is_not_carried():
    tried = 0
    for name in NUMERIC:
        variant = variants.make(name, **WHO)
        for step in variant.question.steps:
            for parameter, taken in step.all_arguments().items():
                alike = family(step.quantity_of(parameter)) == family(step.quantity_of())
                if isinstance(taken, str) and alike and variant.key[taken] != variant.key[step.result]:
                    assert not carrying.can_be(variant, step.result, float(variant.key[taken]))
                    tried += 1
    assert tried > 20
