"""The door: to SI and back, gauge and absolute, numbers as typed, refusals of what a hand or a file can hold."""

import math
import subprocess
import sys

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from turbomath import units
from turbomath.table.errors import OutOfRangeError, RangeWarning, TurbomathError, UnitError
from turbomath.table.kinds import KINDS
from turbomath.table.quantities import QUANTITIES
from turbomath.units import door
from turbomath.units.meant import units_meant
from turbomath.units.sizes import SIZES
from turbomath.units.spellings import UNITS

BAROMETER = 98_543.9  # Pa, 29.10 inHg
WITHOUT_BAROMETER = [(name, unit) for name in QUANTITIES for unit in units.spellings(name) if "gauge" not in unit]


def test_temperatures_count_from_absolute_zero():
    for number, unit, kelvin in [
        (77.0, "°F", 298.15),
        (25.0, "°C", 298.15),
        (536.67, "°R", 298.15),
        (298.15, "K", 298.15),
        (-40.0, "°F", 233.15),
    ]:
        assert units.to_si(number, unit, "ambient_temperature") == pytest.approx(kelvin, abs=1e-12)
        assert units.from_si(kelvin, unit, "ambient_temperature") == pytest.approx(number, abs=1e-12)


def test_a_difference_of_temperature_is_never_offset():
    assert units.to_si(210.0, "F°", "temperature_rise") == pytest.approx(116.6667, abs=5e-5)
    assert units.to_si(210.0, "°F", "temperature_rise") == units.to_si(210.0, "F°", "temperature_rise")
    with pytest.raises(UnitError, match="'F°' is a unit of temperature difference"):
        units.to_si(77.0, "F°", "ambient_temperature")


def test_every_display_unit_is_accepted_for_its_quantity():
    for name, row in QUANTITIES.items():
        for system, kind_unit in (("us", KINDS[row.kind].us), ("si", KINDS[row.kind].si)):
            for unit in (units.display(name, system), kind_unit):
                value = units.to_si(2.5, unit, name, barometer=BAROMETER)
                assert units.from_si(value, unit, name, barometer=BAROMETER) == pytest.approx(2.5, rel=1e-12)
        assert units.spellings(name)[0] == row.us
        assert {row.us, row.si} <= set(units.spellings(name))


def test_every_offered_spelling_is_accepted():
    for name in QUANTITIES:
        for unit in units.spellings(name):
            assert math.isfinite(units.to_si(2.5, unit, name, barometer=BAROMETER))


@given(st.sampled_from(WITHOUT_BAROMETER), st.floats(-1e6, 1e6))
def test_there_and_back_is_the_same_number(listed, number):
    name, unit = listed
    back = units.from_si(units.to_si(number, unit, name), unit, name)
    assert back == pytest.approx(number, rel=1e-12, abs=460e-12)  # a temperature near 0 °F is some 460 °R


@given(
    st.sampled_from(["psi gauge", "kPa gauge", "bar g", "psia", "inHg abs"]),
    st.floats(-10, 400),
    st.floats(60e3, 106e3),
)
def test_gauge_and_absolute_come_back_too(unit, number, barometer):
    value = units.to_si(number, unit, "manifold_pressure", barometer=barometer)
    back = units.from_si(value, unit, "manifold_pressure", barometer=barometer)
    assert back == pytest.approx(number, rel=1e-12, abs=110e-12)  # the barometer is some 110 kPa


# Gauge and absolute


def test_gauge_counts_from_the_barometer():
    # 25.0 psi = 172 369 Pa above 29.10 inHg = 98 544 Pa (NIST factors by hand)
    barometer = units.to_si(29.10, "inHg", "barometer")
    assert barometer == pytest.approx(29.10 * 3386.389, abs=0.05)
    gauge = units.to_si(25.0, "psi gauge", "compressor_outlet_pressure", barometer=barometer)
    assert gauge == pytest.approx(25.0 * 6894.757 + 29.10 * 3386.389, abs=0.1)
    absolute = units.to_si(25.0, "psi abs", "compressor_outlet_pressure", barometer=barometer)
    assert absolute == pytest.approx(172_368.9, abs=0.1)
    assert units.from_si(gauge, "psig", "compressor_outlet_pressure", barometer=barometer) == pytest.approx(25.0)
    assert units.from_si(gauge, "psia", "compressor_outlet_pressure") == pytest.approx(39.2926, abs=1e-4)


def test_words_for_gauge():
    for word in ("gauge", "gage", "g", "(g)", "GAUGE", "-g"):
        value = units.to_si(1.0, f"bar {word}", "inlet_pressure", barometer=BAROMETER)
        assert value == pytest.approx(100_000.0 + BAROMETER), word


def test_words_for_absolute():
    for word in ("abs", "absolute", "a", "(a)", "Abs.", "(abs)"):
        value = units.to_si(1.5, f"bar {word}", "inlet_pressure", barometer=BAROMETER)
        assert value == pytest.approx(150_000.0), word


@pytest.mark.parametrize("convert", [units.to_si, units.from_si])
def test_gauge_needs_a_barometer_and_has_no_default(convert):
    with pytest.raises(UnitError, match=r"found 'psi gauge'.*Give the station barometer"):
        convert(25.0, "psi gauge", "manifold_pressure")
    with pytest.raises(OutOfRangeError, match="barometer"):
        convert(25.0, "psi gauge", "manifold_pressure", barometer=0.0)


def test_a_pressure_without_its_word_is_refused_with_both_spellings():
    with pytest.raises(UnitError, match="'kPa gauge' counts from the barometer, 'kPa abs' from vacuum"):
        units.to_si(170.0, "kpa", "manifold_pressure", barometer=BAROMETER)


def test_a_pressure_that_can_be_only_one_refuses_the_other():
    cases = [
        ("boost", ["psi", "psig", "psi gauge"], ["psia", "psi abs", "psi diff"], "counts from the barometer"),
        ("oil_pressure", ["psi", "psi gauge"], ["psi abs"], "counts from the barometer"),
        ("barometer", ["psi", "psia", "psi absolute"], ["psig", "psi diff"], "counts from vacuum"),
        ("cooler_pressure_loss", ["psi", "psid", "psi differential"], ["psig", "psia"], "from the other pressure"),
    ]
    for name, accepted, refused, why in cases:
        for unit in accepted:
            assert units.to_si(2.0, unit, name, barometer=BAROMETER) == pytest.approx(13_789.51, abs=0.01)
        for unit in refused:
            with pytest.raises(UnitError, match=why):
                units.to_si(2.0, unit, name, barometer=BAROMETER)


def test_a_difference_word_says_nothing_about_a_pressure():
    with pytest.raises(UnitError, match="Say which"):
        units.to_si(2.0, "psid", "manifold_pressure", barometer=BAROMETER)


def test_a_barometer_in_the_wrong_unit_is_noticed():
    for wrong in (29.10, 985.4, 985_439.0):
        with pytest.warns(RangeWarning, match="60000 to 106000 Pa") as warned:
            units.to_si(25.0, "psi gauge", "manifold_pressure", barometer=wrong)
        assert warned[0].filename == __file__


def test_nothing_is_clamped():
    below_vacuum = units.to_si(-20.0, "psi gauge", "manifold_pressure", barometer=BAROMETER)
    assert below_vacuum == pytest.approx(-39_351.2, abs=0.1)
    assert units.to_si(-500.0, "°F", "ambient_temperature") < 0
    assert units.to_si(140.0, "%", "compressor_efficiency") == pytest.approx(1.4)


# Numbers in and out


def test_scalars_give_floats_and_arrays_arrays():
    assert type(units.to_si(3, "psi", "boost")) is float
    assert type(units.from_si(np.float64(3.0), "psi", "boost")) is float
    readings, barometer = np.array([[1.0], [np.nan]]), np.array([90e3, 95e3, 99e3])
    values = units.to_si(readings, "psi gauge", "manifold_pressure", barometer=barometer)
    assert values.shape == (2, 3)
    assert values[0, 1] == pytest.approx(95e3 + 6894.757, abs=0.01)
    assert np.isnan(values[1]).all()


def test_a_masked_reading_stays_missing():
    assert np.isnan(units.to_si(np.ma.array([1.0, 2.0], mask=[False, True]), "psi", "boost")).tolist() == [False, True]


def test_shapes_that_do_not_fit_are_named():
    with pytest.raises(OutOfRangeError, match=r"manifold_pressure \(2,\), barometer \(3,\)"):
        units.to_si([1.0, 2.0], "psi gauge", "manifold_pressure", barometer=[9e4, 9e4, 9e4])


def test_a_number_must_be_a_number():
    for wrong in ["25", None, True, 1j, [[1.0], [1.0, 2.0]]]:
        with pytest.raises(OutOfRangeError, match="not a number"):
            units.to_si(wrong, "psi", "boost")


# Refusals

HOSTILE = (
    "",
    " ",
    "-",
    "9**9**9",
    "x" * 10_000,
    "psi" + " " * 10_000,
    "(" * 39,
    "kPa;",
    "kPa(",
    "kPa)",
    "psi\n",
    "psi\x00",
    "p\tsi",
    "kPа",
    "рsi",
    "ｐｓｉ",
    "k\u200bPa",
    "\u212a",
    "psi\u202e",
    "-psi",
    "1/psi",
    "psi*1000",
    "1000 psi",
    "kPa + 1",
    "kPa kPa",
    "MPa",
    "mPa",
    "lb",
    "°F",
    "F",
    "C",
    "farad",
    "coulomb",
    "millipascal",
    "psi vacuum",
    "__import__('os')",
    "{0.__class__}",
    "%s",
    "nan",
    "inf",
    "١",
    None,
    7,
    b"psi",
    ["psi"],
)


PARTS = ("found", "expected", "action")


def test_what_is_no_pressure_unit_is_refused():
    for unit in HOSTILE:
        said = refused(UnitError, units.to_si, 1.0, unit, "boost")
        assert str(said).isprintable()
        assert len(str(said)) < 300
        assert str(said) == "found {!r}, expected {}. {}".format(*(getattr(said, part) for part in PARTS))
        refused(UnitError, units.to_si, 1.0, unit, "manifold_pressure", barometer=BAROMETER)


def refused(error, function, *args, **kwargs):
    """Return the refusal of a call, or fail naming what was let through."""
    try:
        let_through = function(*args, **kwargs)
    except error as refusal:
        return refusal
    return pytest.fail(f"{ascii(args)[:60]} was taken as {let_through}")


@pytest.mark.process
def test_hostile_text_comes_to_an_end():
    lines = [
        "from turbomath import units",
        "for text in ['9**9**9', 'psi' + '*' * 10_000, '(' * 40, ' ' * 10_000, '1' * 10_000 + 'x', '1 ' * 20]:",
        "    for work in (lambda: units.to_si(1.0, text, 'boost'), lambda: units.number(text)):",
        "        try: work()",
        "        except ValueError: continue",
        "        raise SystemExit(text)",
    ]
    subprocess.run([sys.executable, "-c", "\n".join(lines)], check=True, timeout=60)


def test_a_refusal_says_what_to_do():
    cases = [
        ("°F", "boost", "'°F' is a unit of temperature."),
        ("lb/min", "air_volume_flow", "'lb/min' is a unit of mass flow."),
        ("L/h", "fuel_flow", "'L/h' is a unit of volume flow."),
        ("lbf", "torque", "The nearest is 'lbf·ft'."),
        ("psi gaug", "manifold_pressure", "The nearest is 'psi gauge'."),
        ("inGh", "barometer", "The nearest is 'inHg'."),
        ("kPа", "boost", "The mark U+0430 in it is in no unit: type the unit again."),
        ("MPa", "boost", "MPa is not taken, since with a small m it is another unit: give kPa or bar."),
        ("PS", "power", "The metric horsepower is 1.4 % smaller than hp: give kW."),
        (
            "SCFM",
            "air_volume_flow",
            "A standard cubic foot is an amount of air, not a volume at ambient: give a mass flow.",
        ),
        ("furlong", "boost", "Write one of those."),
        ("x" * 41, "boost", "No unit is so long."),
    ]
    for unit, name, sentence in cases:
        with pytest.raises(UnitError) as refusal:
            units.to_si(1.0, unit, name)
        assert refusal.value.action == sentence
        assert refusal.value.expected.endswith(f" for {QUANTITIES[name].plain_name}")


def test_a_refusal_lists_what_is_accepted():
    with pytest.raises(UnitError, match=r"^found 'furlong', expected lbf·ft, N·m for torque\. Write one of those\.$"):
        units.to_si(1.0, "furlong", "torque")
    with pytest.raises(UnitError, match="mmH2O, each with gauge or abs, for manifold pressure"):
        units.to_si(1.0, "furlong", "manifold_pressure")


def test_an_unknown_quantity_is_refused():
    for name in ["bost", "Boost", "", None, ["boost"], "x" * 10_000]:
        for function, arguments in (
            (units.to_si, (1.0, "psi", name)),
            (units.spellings, (name,)),
            (units.display, (name, "us")),
        ):
            assert "expected the name of a quantity" in str(refused(UnitError, function, *arguments))


def test_an_unknown_display_system_is_refused():
    with pytest.raises(OutOfRangeError, match="'us', 'si'"):
        units.display("boost", "metric")


def test_the_family_of_a_unit():
    assert units.family("L/h") == units.family("US gal/h") == "volume flow"
    assert units.family("lb/hr") == "mass flow"
    assert units.family("psi gauge") == "pressure"
    assert units.family("°F") == "temperature"
    with pytest.raises(UnitError, match="found 'furlong'"):
        units.family("furlong")


# Numbers as typed


TYPED = (
    ("24.5", 24.5),
    ("24,5", 24.5),
    ("0", 0.0),
    (" 7 ", 7.0),
    (".5", 0.5),
    (",5", 0.5),
    ("5.", 5.0),
    ("007", 7.0),
    ("1,234.5", 1234.5),
    ("1.234,5", 1234.5),
    ("1 234,5", 1234.5),
    ("1 234.5", 1234.5),
    ("1 234", 1234.0),
    ("1\u00a0234,5", 1234.5),
    ("1\u202f234\u202f567", 1234567.0),
    ("1,234,567", 1234567.0),
    ("1.234.567", 1234567.0),
    ("1,234,567.25", 1234567.25),
    ("1 234,567", 1234.567),
    ("1234,567", 1234.567),
    ("0,234", 0.234),
    ("-0,234", -0.234),
    ("1.234", 1.234),
    ("−3.2", -3.2),
    ("–3.2", -3.2),
    ("- 3.2", -3.2),
    ("+3.2", 3.2),
    ("1e3", 1000.0),
    ("2.5E-3", 0.0025),
    ("1,5e+2", 150.0),
    ("1234567890123456789", 1234567890123456789.0),
)


def test_a_number_as_typed():
    assert {text: units.number(text) for text, _ in TYPED} == dict(TYPED)


def test_a_stated_decimal_mark_settles_it():
    cases = [
        ("1,234", ".", 1234.0),
        ("1,234.5", ".", 1234.5),
        ("1,234", ",", 1.234),
        ("1.234,5", ",", 1234.5),
        ("1.234.567", ",", 1234567.0),
    ]
    for text, decimal, value in cases:
        assert units.number(text, decimal=decimal) == value


def test_a_number_that_could_be_two_is_refused_with_both():
    cases = [
        ("1,234", None, "1234 or 1.234"),
        ("-12,500", None, "-12500 or -12.500"),
        ("1,234e3", None, "1234e3 or 1.234e3"),
        ("1.234", ",", "1234 or 1,234"),
    ]
    for text, decimal, both in cases:
        with pytest.raises(OutOfRangeError, match=f"It could be {both}: write one of them"):
            units.number(text, decimal=decimal)


def test_a_number_against_the_stated_mark_is_refused():
    for text, decimal in [
        ("24,5", "."),
        ("0,234", "."),
        ("1.234,5", "."),
        ("24.5", ","),
        ("1,234.5", ","),
        ("0.234", ","),
    ]:
        with pytest.raises(OutOfRangeError, match="expected one number"):
            units.number(text, decimal=decimal)


NO_NUMBERS = (
    "",
    " ",
    "-",
    "+",
    ".",
    ",",
    "e3",
    "inf",
    "-Infinity",
    "nan",
    "NaN",
    "0x10",
    "1_000",
    "9**9**9",
    "1e999",
    "1e-999",
    "٣",
    "１２",
    "1٫5",
    "²",
    "½",
    "1,2,3",
    "1,,234",
    "12 34",
    "1,234 567",
    "1.2.3",
    "1,23,456",
    "--5",
    "+-5",
    "5-",
    "5 psi",
    "60+",
    ">60",
    "1\n2",
    "1\x00",
    "\u200b5",
    "1" * 41,
    "1" * 10_000,
    "1," * 5_000,
    None,
    24.5,
    b"24.5",
)


def test_what_is_not_one_plain_number_is_refused():
    for text in NO_NUMBERS:
        refusal = refused(OutOfRangeError, units.number, text)
        assert "expected one number" in str(refusal)
        assert isinstance(refusal, TurbomathError)
        assert isinstance(refusal, ValueError)
        assert len(str(refusal)) < 120


def test_an_unknown_decimal_mark_is_refused():
    with pytest.raises(OutOfRangeError, match="decimal must be one of"):
        units.number("1", decimal=";")


@given(st.text(max_size=50))
def test_any_text_gives_a_finite_number_or_a_sentence(text):
    try:
        assert math.isfinite(units.number(text))
    except OutOfRangeError as refusal:
        assert str(refusal).isprintable()  # noqa: PT017


@given(st.floats(1e-90, 1e12), st.sampled_from([-1, 1]))
def test_a_printed_number_is_read_back(size, sign):
    number = sign * size
    assert units.number(repr(number), decimal=".") == number
    assert units.number(repr(number)) == number
    assert units.number(f"{number:,.2f}", decimal=".") == float(f"{number:.2f}")
    assert units.number(f"{number:,.2f}".translate(str.maketrans(".,", ",.")), decimal=",") == float(f"{number:.2f}")


# Pint stays outside until it is needed


@pytest.mark.process
def test_pint_is_imported_for_a_size_that_is_not_at_hand_only():
    lines = [
        "import sys, turbomath, turbomath.units as units",
        "units.spellings('boost'), units.number('24,5'), units.family('psi'), units.display('boost', 'us')",
        "assert 'pint' not in sys.modules",
        "units.to_si(1.0, 'psi', 'boost')",
        "assert 'pint' not in sys.modules",
        "from turbomath.units import door",
        "assert abs(door._size('furlong') - 201.168) < 0.001",  # 660 ft of 0.3048 m
        "assert 'pint' in sys.modules",
    ]
    subprocess.run([sys.executable, "-c", "\n".join(lines)], check=True, timeout=60)


def test_pint_sees_only_the_strings_of_the_list(monkeypatch):
    asked = []
    monkeypatch.setattr(door, "_size", lambda name: asked.append(name) or 1.0)
    for unit in ("PSI", "p.s.i.", "lbs / sq. in."):
        units.to_si(1.0, unit, "boost")
    assert asked == ["psi", "psi", "psi"]


def test_the_sizes_at_hand_are_those_of_pint_to_the_last_bit():
    listed = {name for rows in UNITS.values() for _, name, _ in rows}
    assert set(SIZES) == listed
    for name in listed:
        assert SIZES[name] == door._size_by_pint(name), name


def test_at_most_two_units_are_offered_where_more_would_fit():
    """60 of air flow is usual in lb/min, lb/h, kg/min, kg/h and more."""
    assert units_meant("air_flow", 60.0) == ("lb/min", "lb/h")
