"""Each cell is looked at as it is entered: what is odd, why, what to read again. Nothing is blocked or changed."""

import shutil

import pytest

from tests.lab.conftest import BENCH
from turbomath.lab.entry.entry_run import EntryRun


@pytest.fixture(scope="module")
def begun(tmp_path_factory):
    """A folder in whose journal the zeros and one healthy point at load stand."""
    folder = tmp_path_factory.mktemp("begun")
    (folder / "bench.toml").write_text(BENCH, encoding="utf-8")
    entered = EntryRun(folder, ["zero", "load", "load", "zero after"])
    for column, text in ZEROS.items():
        entered.enter("zero", column, text, look=False)
    for column, text in HEALTHY.items():
        entered.enter("1A", column, text, look=False)
    return folder


@pytest.fixture
def entered(begun, tmp_path):
    """The run that was begun, opened again in a folder of its own."""
    return EntryRun(shutil.copytree(begun, tmp_path / "run"))


ZEROS = {
    "barometer": "29.10",
    "boost": "0.5",
    "ambient_temperature": "77",
    "manifold_temperature": "77",
    "compressor_outlet_temperature": "77",
    "intake_restriction": "0",
}
# The reference case of the shipped run, from which the checks have nothing to say
HEALTHY = {
    "load": "100",
    "engine_speed": "1800",
    "barometer": "29.10",
    "ambient_temperature": "77",
    "relative_humidity": "45",
    "intake_restriction": "12",
    "compressor_inlet_temperature": "80",
    "compressor_outlet_temperature": "338",
    "boost": "24.0",
    "manifold_temperature": "132",
    "cooling_medium_temperature": "79",
    "cooler_pressure_loss": "1.5",
    "compressor_outlet_pressure": "25.5",
    "engine_coolant_temperature": "183",
    "turbine_inlet_temperature": "1005",
    "exhaust_back_pressure": "2.3",
    "oil_pressure": "60",
    "fuel_flow": "131.5",
    "power": "386",
}


def told(entered, row, column, text):
    """Enter a text, see that it is saved as it is, and return its flags as (level, check)."""
    told = entered.enter(row, column, text)
    assert (told.saved, told.sentence) == (True, "Saved.")
    assert entered.texts[row, column] == text
    for flag in told.flags:
        assert flag.reason
        assert flag.action
        assert "\n" not in flag.reason + flag.action
    return [(flag.level, flag.check) for flag in told.flags]


@pytest.mark.parametrize(("column", "text"), [("boost", "2a4"), ("boost", "31"), ("manifold_temperature", "70")])
def test_what_is_told_of_a_cell_can_be_asked_for_again(entered, column, text):
    flags = entered.enter("1A", column, text).flags
    assert flags
    assert entered.flags("1A", column) == flags


def test_a_healthy_point_raises_nothing(entered):
    assert {column: flags for column in HEALTHY if (flags := entered.flags("1A", column))} == {}


@pytest.mark.parametrize(
    ("column", "text", "expected"),
    [
        ("boost", "2a4", ("red", 34)),  # no number
        ("boost", "1,800", ("red", 34)),  # two numbers
        ("ambient_temperature", "-500", ("red", 34)),  # below absolute zero
        ("boost", "31", ("limit", 35)),  # the maker's limit, 30 psi
        ("boost", "65", ("red", 4)),  # beyond the span, 60 psi
        ("boost", ">60", ("red", 4)),  # pegged
        ("boost", "60+", ("red", 4)),
        ("compressor_outlet_temperature", "60", ("red", 5)),  # cooler than it came in
        ("manifold_temperature", "70", ("red", 7)),  # cooler than its medium
        ("manifold_temperature", "345", ("red", 8)),  # hotter than it came in
        ("intake_restriction", "-4", ("red", 13)),
        ("oil_pressure", "4", ("red", 27)),
        ("barometer", "31.5", ("red", 1)),
        ("engine_speed", "1.800", ("red", 23)),  # 1,800 rpm with a point between the thousands: no engine
    ],
)
def test_an_odd_reading_is_named_with_its_check(entered, column, text, expected):
    assert expected in told(entered, "1A", column, text)


def test_a_limit_passed_comes_first_and_is_said_of_its_own_pass_only(entered):
    flags = told(entered, "1A", "boost", "31")
    assert flags[0] == ("limit", 35)
    assert ("limit", 35) not in told(entered, "1B", "boost", "24")


def test_a_reading_that_fits_another_unit_says_which(entered):
    flags = entered.enter("1A", "compressor_outlet_temperature", "170").flags  # 338 °F = 170 °C
    assert "°C" in {flag.fits_unit for flag in flags}


# ASME B40.100 grade B: 3 % of span in the lowest quarter, so 1.8 psi at the zero of a 0 to 60 psi gauge
@pytest.mark.parametrize(
    ("text", "expected"), [("0", []), ("0,5", []), ("1", [("amber", 2)]), ("2", [("amber", 2)]), ("2,5", [("red", 2)])]
)
def test_a_zero_is_judged_by_half_a_division_and_by_the_grade(entered, text, expected):
    assert [flag for flag in told(entered, "zero", "boost", text) if flag[1] == 2] == expected


# ± of the grade B gauge at 24 psi: 2 % of span and half a step, (1.2² + 0.25²)^½ / √3 · 2 = 1.415 psi (JCGM 100, 4.3.7)
@pytest.mark.parametrize(
    ("text", "expected"), [("25.4", []), ("25.5", [("amber", 29)]), ("26.8", [("amber", 29)]), ("26.9", [("red", 29)])]
)
def test_a_second_pass_is_judged_by_what_the_gauge_allows(entered, text, expected):
    assert [flag for flag in told(entered, "1B", "boost", text) if flag[1] == 29] == expected


def test_a_reading_put_right_is_looked_at_anew(entered):
    assert told(entered, "1A", "boost", "65")
    assert told(entered, "1A", "boost", "24") == []
    assert told(entered, "1A", "boost", "2a4")
    assert entered.undo().flags == ()


def test_words_and_missing_readings_raise_nothing_and_a_wrong_condition_does(entered):
    for column, text in (("remark", "=1+1"), ("time", "soon"), ("boost", "-"), ("boost", ""), ("condition", "load")):
        assert told(entered, "1A", column, text) == []
    assert told(entered, "1A", "condition", "full tilt") == [("red", 34)]


def test_the_first_cell_of_all_is_looked_at(run_folder):
    entered = EntryRun(run_folder(None))
    assert told(entered, "5A", "boost", ">60")[0] == ("limit", 35)
    assert told(entered, "6A", "remark", "no number anywhere else") == []


# Two readings to half a step each: 0.5 psi for this gauge; beyond that and 3 % of 60 psi (ASME B40.100 B), red
@pytest.mark.parametrize(
    ("after", "level"), [("0", ""), ("1", ""), ("1.5", "amber"), ("2.8", "amber"), ("2.9", "red"), ("-1.9", "red")]
)
def test_drift_of_a_zero_is_said_in_its_cell_and_in_the_results(entered, after, level):
    flags = entered.enter("zero after", "boost", after).flags
    moved = [flag for flag in flags if "has moved" in flag.reason]
    assert [flag.level for flag in moved] == ([level] if level else [])
    (drift,) = entered.results().drift
    assert (drift.column, drift.steady, drift.flag) == ("boost", not level, moved[0] if moved else None)
    assert drift.moved == pytest.approx((float(after) - 0.5) * 6894.757, rel=1e-6)  # psi in Pa, NIST SP 811
    assert drift.allowed == pytest.approx(0.5 * 6894.757, rel=1e-6)


def test_drift_needs_both_zeros_and_leaves_thermometers_alone(entered):
    assert entered.results().drift == ()
    entered.enter("zero after", "manifold_temperature", "140", look=False)
    assert entered.results().drift == ()
    entered.enter("zero after", "intake_restriction", "0.5", look=False)
    assert [one.column for one in entered.results().drift] == ["intake_restriction"]


def test_a_gauge_that_reads_absolute_drifts_from_the_barometer_of_its_own_row(bench_text, run_folder):
    bench = bench_text.replace("[limits]", '[instruments.manifold_pressure]\naccuracy = "1 kPa"\n[limits]')
    entered = EntryRun(run_folder(None, bench), units={"manifold_pressure": "kPa abs"})
    for row, barometer, shown in (("zero", "29.10", "98.5"), ("zero after", "29.00", "98.2")):
        entered.enter(row, "barometer", barometer, look=False)
        entered.enter(row, "manifold_pressure", shown, look=False)
    drift = next(one for one in entered.results().drift if one.column == "manifold_pressure")
    assert drift.moved == pytest.approx(-300 + 0.1 * 3386.389, abs=0.1)  # inHg in Pa, NIST SP 811
    assert drift.allowed == pytest.approx(1_000)
