"""bench.toml: what it says in SI, what it may leave out, and what is refused.

Sizes of units: NIST SP 811, appendix B.8 (psi 6894.757 Pa, inch of water 249.0889 Pa, inch of mercury
3386.389 Pa, cubic inch 1.638 706 e-5 m³). Usual instruments: common practice.
"""

import itertools
import math

import numpy as np
import pytest

from turbomath import uncertainty
from turbomath.lab.run.amounts import Stated
from turbomath.lab.run.bench import LIMITED_COLUMNS, read_bench
from turbomath.lab.run.channels import NUMBER_COLUMNS, TEXT_COLUMNS
from turbomath.lab.run.instruments import usual_instrument
from turbomath.table.errors import RefusedFileError
from turbomath.table.quantities import QUANTITIES

PSI, INCH_WATER, INCH_MERCURY = 6894.757, 249.0889, 3386.389


@pytest.fixture
def bench(tmp_path):
    """Read a bench.toml from its text."""

    def read(text):
        path = tmp_path / "bench.toml"
        path.write_bytes(text if isinstance(text, bytes) else text.encode())
        return read_bench(path)

    return read


@pytest.fixture
def refusal(bench):
    """Return the refusal of a bench.toml."""

    def refused(text):
        with pytest.raises(RefusedFileError) as caught:
            bench(text)
        assert "\n" not in str(caught.value)
        assert caught.value.file.endswith("bench.toml")
        return caught.value

    return refused


def test_every_key_of_a_full_bench_arrives_in_si(bench, bench_text):
    found = bench(bench_text)
    assert (found.run.title, found.run.invented) == ("INVENTED: test run of a shop engine", True)
    assert (found.run.date, found.run.units) == ("2026-03-12", "us")
    assert (found.site.elevation, found.site.barometer) == (350.0, "station")
    engine = found.engine
    assert engine.displacement == pytest.approx(0.012, rel=1e-12)
    assert (engine.cylinders, engine.strokes, engine.aftercooler, engine.egr) == (6, 4, "air-to-air", False)
    assert (engine.compression_ratio, engine.fuel) == (16.5, "diesel")
    assert engine.volumetric_efficiency == Stated(0.92, 0.0)
    assert engine.fuel_lower_heating_value == pytest.approx(42.8e6)
    assert engine.fuel_density == pytest.approx(840.0)
    assert found.design.compressor_efficiency == Stated(0.74, 0.02)
    assert found.design.effectiveness == Stated(0.80, 0.03)
    assert found.design.cooler_pressure_loss.value == pytest.approx(1.5 * PSI, rel=1e-6)
    assert "limits.boost" in found.stated
    assert "engine.fuel_density" in found.stated


def test_instruments_arrive_in_si(bench, bench_text):
    found = bench(bench_text).instruments
    assert set(found) == {"boost", "compressor_outlet_temperature"}
    boost = found["boost"]
    assert (boost.kind, boost.grade, boost.calibrated) == ("bourdon", "B", "2025-11-03")
    assert boost.span == pytest.approx((0.0, 60 * PSI), rel=1e-6)
    assert boost.resolution[0] == pytest.approx((30 * PSI, 0.5 * PSI), rel=1e-6)
    assert boost.resolution[1] == pytest.approx((math.inf, PSI), rel=1e-6)
    assert found["compressor_outlet_temperature"].thermocouple == ("K", "standard")


def test_limits_are_open_where_no_number_stands(bench, bench_text):
    limits = bench(bench_text).limits
    assert limits["boost"] == pytest.approx((-math.inf, 30 * PSI), rel=1e-6)
    assert limits["intake_restriction"] == pytest.approx((-math.inf, 25 * INCH_WATER), rel=1e-6)
    assert limits["oil_pressure_low_idle"] == pytest.approx((15 * PSI, math.inf), rel=1e-6)
    assert limits["low_idle_speed"] == pytest.approx((675 / 60, 725 / 60))
    assert limits["high_idle_speed"] == pytest.approx((1900 / 60, 2000 / 60))
    assert limits["manifold_temperature_load"] == pytest.approx((288.7056, 344.2611), abs=1e-4)


def test_a_limit_in_a_gauge_unit_counts_from_the_barometer_and_says_so(bench, bench_text):
    found = bench(bench_text + 'turbine_inlet_pressure = "..300 kPa abs"\n')
    assert found.gauge_limits == {"compressor_outlet_pressure"}
    assert found.limits["compressor_outlet_pressure"][1] == pytest.approx(38 * PSI, rel=1e-6)
    assert found.limits["turbine_inlet_pressure"][1] == pytest.approx(300e3)


def test_limits_may_be_written_on_every_number_column_and_condition():
    for column in NUMBER_COLUMNS:
        assert {column, f"{column}_low_idle", f"{column}_high_idle", f"{column}_load"} <= set(LIMITED_COLUMNS)
    assert LIMITED_COLUMNS["low_idle_speed"] == LIMITED_COLUMNS["high_idle_speed"] == "engine_speed"


@pytest.mark.parametrize(
    ("written", "low", "high"),
    [
        ("10..20 psi", 10, 20),
        ("10 psi..20 psi", 10, 20),
        ("  10 .. 20 psi ", 10, 20),
        ("-5..20 psi", -5, 20),
        ("−5..20 psi", -5, 20),
        ("12 ± 3 psi", 9, 15),
        ("12 psi ± 3 psi", 9, 15),
        ("12 +/- 3 psi", 9, 15),
        ("..20psi", -math.inf, 20),
        ("10.. psi", 10, math.inf),
        ("10.5.. psi", 10.5, math.inf),
    ],
)
def test_every_form_of_a_limit_is_read(bench, written, low, high):
    found = bench(f'[limits]\nboost = "{written}"').limits["boost"]
    assert found == pytest.approx((low * PSI, high * PSI), rel=1e-6)


@pytest.mark.parametrize(
    ("written", "value", "tolerance"),
    [
        ('"0.74 ± 0.02"', 0.74, 0.02),
        ('"0.74 +/- 0.02"', 0.74, 0.02),
        ('"74 ± 2 %"', 0.74, 0.02),
        ("0.74", 0.74, 0.0),
        ('"74 %"', 0.74, 0.0),
        ('"74 % ± 2 %"', 0.74, 0.02),
        ('"0.74"', 0.74, 0.0),
        ("1", 1.0, 0.0),
    ],
)
def test_a_design_value_carries_its_own_tolerance(bench, written, value, tolerance):
    found = bench(f"[design]\ncompressor_efficiency = {written}").design.compressor_efficiency
    assert (found.value, found.tolerance) == pytest.approx((value, tolerance), rel=1e-12)


def test_a_design_value_with_a_unit_shares_it_with_its_tolerance(bench):
    found = bench('[design]\ncooler_pressure_loss = "1.5 ± 0.25 psi"').design.cooler_pressure_loss
    assert (found.value, found.tolerance) == pytest.approx((1.5 * PSI, 0.25 * PSI), rel=1e-6)


def test_displacement_may_be_in_cubic_inches(bench):
    found = bench('[engine]\ndisplacement = "732 in³"').engine.displacement
    assert found == pytest.approx(732 * 1.638706e-5, rel=1e-6)


def test_an_empty_bench_is_read_and_says_that_nothing_was_stated(bench):
    found = bench("")
    assert (found.run.title, found.run.invented, found.run.units) == ("", False, "us")
    assert (found.site.barometer, found.site.elevation) == ("station", None)
    assert (found.engine.displacement, found.engine.aftercooler, found.engine.strokes) == (None, None, 4)
    assert found.design.effectiveness is None
    assert (found.stated, found.limits, found.instruments) == (frozenset(), {}, {})


def test_byte_order_mark_and_windows_line_ends_are_accepted(bench, bench_text):
    assert bench(b"\xef\xbb\xbf" + bench_text.replace("\n", "\r\n").encode()).engine == bench(bench_text).engine


def test_station_barometer_stays_as_read(bench):
    readings = np.array([98_543.9, np.nan])
    np.testing.assert_array_equal(bench("").station_pressure(readings), readings)


def test_sea_level_barometer_is_brought_down_to_the_elevation(bench):
    """U.S. Standard Atmosphere 1976, table of geopotential height: 89874.6 Pa at 1000 m, 101325 Pa at 0 m."""
    found = bench('[site]\nbarometer = "sea-level"\nelevation = "1000 m"')
    station = found.station_pressure(np.array([101_325.0, np.nan]))
    assert station[0] == pytest.approx(89_874.6, rel=2e-6)
    assert np.isnan(station[1])


def test_sea_level_barometer_without_elevation_is_refused(bench):
    found = bench('[site]\nbarometer = "sea-level"')
    with pytest.raises(RefusedFileError, match="expected the elevation of the site") as caught:
        found.station_pressure(np.array([101_325.0]))
    assert caught.value.column == "[site] elevation"


# Instruments


def instrument(bench, column, keys):
    return bench(f"[instruments.{column}]\n" + "\n".join(keys)).instruments[column]


@pytest.mark.parametrize(
    ("column", "written", "accuracy"),
    [
        ("boost", "1 % of span", (0.01, "of span")),
        ("fuel_flow", "2 % of reading", (0.02, "of reading")),
        ("boost", "0.5 psi", (0.5 * PSI, "plain")),
        ("boost", "± 0.5 psi", (0.5 * PSI, "plain")),
        ("boost", "+/- 0.5 psi", (0.5 * PSI, "plain")),
        ("relative_humidity", "3 %", (0.03, "plain")),
        ("manifold_temperature", "2 °F", (2 / 1.8, "plain")),
        ("manifold_temperature", "2 F°", (2 / 1.8, "plain")),
        ("manifold_temperature", "1.5 °C", (1.5, "plain")),
        ("manifold_temperature", "1 % of span", (0.01, "of span")),
        ("manifold_pressure", "3 kPa", (3000.0, "plain")),
        ("manifold_pressure", "3 kPa abs", (3000.0, "plain")),
        ("engine_speed", "5 rpm", (5 / 60, "plain")),
        ("barometer", "0.03 inHg", (0.03 * INCH_MERCURY, "plain")),
    ],
)
def test_every_form_of_accuracy_is_read(bench, column, written, accuracy):
    span = {
        "manifold_temperature": "0..500 °F",
        "fuel_flow": "0..200 lb/h",
        "engine_speed": "0..3000 rpm",
        "relative_humidity": "0..100 %",
        "barometer": "26..31 inHg",
    }.get(column, "0..60 psi")
    found = instrument(bench, column, [f'accuracy = "{written}"', f'span = "{span}"'])
    assert found.accuracy[0] == pytest.approx(accuracy[0], rel=1e-6)
    assert found.accuracy[1] == accuracy[1]


def test_a_temperature_span_is_in_kelvin_and_its_step_a_difference(bench):
    found = instrument(bench, "manifold_temperature", ['span = "-40..500 °F"', 'resolution = "5 °F"'])
    assert found.span == pytest.approx((233.15, 533.15))
    assert found.resolution == ((math.inf, pytest.approx(5 / 1.8)),)


def test_every_thermocouple_of_astm_e230_and_iec_60584_is_read(bench):
    for letter, grade in itertools.product("KJTEN", ('"standard"', '"special"', '"1"', '"2"', "1", "2")):
        found = instrument(bench, "manifold_temperature", [f'type = "{letter}"', f"class = {grade}"])
        assert found.thermocouple == (letter, grade.strip('"'))
        assert uncertainty.tolerance(found, 400.0) > 0, (letter, grade)


@pytest.mark.parametrize("grade", ["4A", "3A", "2A", "1A", "A", "B", "C", "D"])
def test_every_grade_of_asme_b40_100_is_read(bench, grade):
    assert instrument(bench, "boost", [f'grade = "{grade}"', 'span = "0..60 psi"']).grade == grade


def test_grade_b_of_a_60_psi_gauge_allows_1_2_psi_in_the_middle_half(bench):
    """ASME B40.100 grade B: 2 % of span in the middle half, 3 % outside it."""
    found = instrument(bench, "boost", ['grade = "B"', 'span = "0..60 psi"'])
    assert uncertainty.tolerance(found, 24.5 * PSI) == pytest.approx(1.2 * PSI, rel=1e-6)
    assert uncertainty.tolerance(found, 9.0 * PSI) == pytest.approx(1.8 * PSI, rel=1e-6)


def test_an_instrument_not_stated_is_the_usual_one_and_listed_as_assumed(bench, bench_text):
    found = bench(bench_text)
    assert found.instrument("barometer") == usual_instrument("barometer")
    assert found.instrument("boost") is found.instruments["boost"]
    listed = found.assumed_instruments(("point", "boost", "barometer", "compressor_outlet_temperature", "torque"))
    assert listed == ("barometer", "torque")


def test_an_instrument_without_accuracy_keeps_what_is_stated_and_is_listed_as_assumed(bench):
    found = bench('[instruments.boost]\nspan = "0..30 psi"\nkind = "diaphragm"\n')
    assert found.instrument("boost").grade == usual_instrument("boost").grade == "B"
    assert found.instrument("boost").kind == "diaphragm"
    assert found.instrument("boost").span[1] == pytest.approx(30 * PSI, rel=1e-6)
    assert found.instrument("boost").resolution == usual_instrument("boost").resolution
    assert found.assumed_instruments(["boost"]) == ("boost",)


def test_every_number_column_is_a_quantity_and_has_a_usual_instrument():
    for column in NUMBER_COLUMNS:
        low, high = QUANTITIES[column].sensible
        width = uncertainty.tolerance(usual_instrument(column), (low + high) / 2)
        assert 0 < width < high - low
    assert not set(NUMBER_COLUMNS) & set(TEXT_COLUMNS)


@pytest.mark.parametrize(
    ("column", "reading", "half_width"),
    [
        ("barometer", 98_500.0, 0.03 * INCH_MERCURY),
        ("boost", 24 * PSI, 1.2 * PSI),
        ("oil_pressure", 55 * PSI, 2 * PSI),
        ("intake_restriction", 2_500.0, 0.6 * INCH_WATER),
        ("cooler_pressure_loss", 9_000.0, 0.1 * PSI),
        ("exhaust_back_pressure", 5_000.0, 0.1 * INCH_MERCURY),
        ("engine_speed", 30.0, 5 / 60),
        ("relative_humidity", 0.45, 0.03),
        ("fuel_flow", 0.02, 0.0002),
        ("air_flow", 0.5, 0.015),
        ("torque", 1500.0, 15.0),
        ("compressor_outlet_temperature", 443.15, 2.2),
        ("power", 2e5, 2e3),
    ],
)
def test_usual_instruments_are_those_of_a_shop(column, reading, half_width):
    """Common practice; no single published source."""
    assert uncertainty.accuracy(usual_instrument(column), reading) == pytest.approx(half_width, rel=1e-6)


# Refusals: (text, where, what was found, words of what is expected)

REFUSED = [
    ("[limits]\nbost = '..30 psi'", "[limits]", "bost", "the nearest is 'boost'"),
    ("[limits]\nboost_idle = '..30 psi'", "[limits]", "boost_idle", "the nearest is 'boost_"),
    ("[limits]\nsmoke = '..3 %'", "[limits]", "smoke", "a column of the readings"),
    ("[limit]\nboost = '..30 psi'", None, "limit", "the nearest is 'limits'"),
    ("limits = 3", "[limits]", "3", "a table"),
    ("boost = '..30 psi'", None, "boost", "one of run, site, engine"),
    ("[limits]\nboost = 30", "[limits] boost", "30", "text in quotes"),
    ("[limits]\nboost = '30 psi'", "[limits] boost", "30 psi", "'..30 psi'"),
    ("[limits]\nboost = '.. psi'", "[limits] boost", ".. psi", "a limit such as"),
    ("[limits]\nboost = '...30 psi'", "[limits] boost", "...30 psi", "a limit such as"),
    ("[limits]\nboost = '1..2..3 psi'", "[limits] boost", "1..2..3 psi", "a limit such as"),
    ("[limits]\nboost = '20..10 psi'", "[limits] boost", "20..10 psi", "the lower number first"),
    ("[limits]\nboost = '..30'", "[limits] boost", "30.0", "psi"),
    ("[limits]\nboost = '..30 furlongs'", "[limits] boost", "furlongs", "psi, kPa"),
    ("[limits]\nboost = '..30 °F'", "[limits] boost", "°F", "psi, kPa"),
    ("[limits]\nboost = '..30 psi abs'", "[limits] boost", "psi abs", "psi"),
    ("[limits]\ncompressor_outlet_pressure = '..30 psi'", "[limits] compressor_outlet_pressure", "psi", "gauge or abs"),
    ("[limits]\nboost = '..3O psi'", "[limits] boost", "O psi", "psi"),
    ("[limits]\nboost = '± 3 psi'", "[limits] boost", "± 3 psi", "a limit such as"),
    ("[limits]\nboost = ['..30 psi']", "[limits] boost", "['..30 psi']", "text in quotes"),
    ("[engine]\ndisplacment = '12 L'", "[engine]", "displacment", "the nearest is 'displacement'"),
    ("[engine]\nair_metre = 3", "[engine]", "air_metre", "one of displacement, stroke, "),
    ("[limits]\nhorn = '..3 psi'", "[limits]", "horn", "a column of the readings, with underscores"),
    ("[engine]\ndisplacement = 12.0", "[engine] displacement", "12.0", "a number with its unit"),
    ("[engine]\ndisplacement = '12.0'", "[engine] displacement", "12.0", "L"),
    ("[engine]\ndisplacement = '12 kPa'", "[engine] displacement", "kPa", "L"),
    ("[engine]\ndisplacement = '0 L'", "[engine] displacement", "0 L", "above 0"),
    ("[engine]\ndisplacement = '12,0 L'", "[engine] displacement", "12,0", "one number"),
    ("[engine]\ndisplacement = '12 ± 1 L'", "[engine] displacement", "12 ± 1 L", "without ±"),
    ("[engine]\ndisplacement = 'twelve L'", "[engine] displacement", "twelve L", "a number with its unit"),
    ("[engine]\ncylinders = 6.0", "[engine] cylinders", "6.0", "a whole number"),
    ("[engine]\ncylinders = true", "[engine] cylinders", "true", "a whole number"),
    ("[engine]\ncylinders = 0", "[engine] cylinders", "0", "from 1 to 100"),
    ("[engine]\ncylinders = 101", "[engine] cylinders", "101", "from 1 to 100"),
    ("[engine]\nstrokes = 3", "[engine] strokes", "3", "one of 2, 4"),
    ("[engine]\naftercooler = 'jacket water'", "[engine] aftercooler", "jacket water", "the nearest is 'jacket-water'"),
    ("[engine]\naftercooler = false", "[engine] aftercooler", "false", '"none", "jacket-water", "air-to-air"'),
    ("[engine]\negr = 'no'", "[engine] egr", "no", "true or false"),
    ("[engine]\nvolumetric_efficiency = 92", "[engine] volumetric_efficiency", "92", "a number such as 0.8"),
    ("[engine]\nvolumetric_efficiency = true", "[engine] volumetric_efficiency", "true", "a number such as 0.8"),
    ("[engine]\nvolumetric_efficiency = nan", "[engine] volumetric_efficiency", "nan", "a number such as 0.8"),
    ("[engine]\nvolumetric_efficiency = inf", "[engine] volumetric_efficiency", "inf", "a number such as 0.8"),
    ("[design]\neffectiveness = 1.2", "[design] effectiveness", "1.2", "a fraction from 0 to 1"),
    ("[design]\neffectiveness = '0.8 ± -0.1'", "[design] effectiveness", "0.8 ± -0.1", "a number such as"),
    ("[design]\neffectiveness = '0.8 ± 2 %'", "[design] effectiveness", "0.8 ± 2 %", "both in %"),
    ("[design]\neffectiveness = '0.8 ±'", "[design] effectiveness", "0.8 ±", "a number such as"),
    ("[design]\ncompressor_efficiency = 0", "[design] compressor_efficiency", "0", "a fraction above 0"),
    ("[design]\ncooler_pressure_loss = 1.5", "[design] cooler_pressure_loss", "1.5", "a number with its unit"),
    ("[site]\nbarometer = 'sea level'", "[site] barometer", "sea level", "the nearest is 'sea-level'"),
    ("[run]\ndate = '12/03/2026'", "[run] date", "12/03/2026", "a date such as 2026-03-12"),
    ("[run]\nunits = 'metric'", "[run] units", "metric", 'one of "us", "si"'),
    ("[run]\ntitle = 7", "[run] title", "7", "text in quotes"),
    ("[run]\ninvented = 'yes'", "[run] invented", "yes", "true or false"),
    ("[instruments]\nboost = 'B'", "[instruments.boost]", "B", "a table"),
    ("[instruments.bosst]\nkind = 'x'", "[instruments]", "bosst", "the nearest is 'boost'"),
    ("[instruments.remark]\nkind = 'x'", "[instruments]", "remark", "a column of the readings"),
    ("[instruments.boost]\ngrad = 'B'", "[instruments.boost]", "grad", "the nearest is 'grade'"),
    ("[instruments.boost]\ngrade = 'B'", "[instruments.boost]", "B", "a span as well"),
    ("[instruments.boost]\naccuracy = '1 % of span'", "[instruments.boost]", "% of span", "a span as well"),
    ("[instruments.boost]\ngrade = '5A'", "[instruments.boost] grade", "5A", '"4A", "3A"'),
    ("[instruments.boost]\nspan = '60 psi'", "[instruments.boost] span", "60 psi", "a limit such as"),
    ("[instruments.boost]\nspan = '..60 psi'", "[instruments.boost] span", "..60 psi", "both ends"),
    ("[instruments.boost]\nspan = '60..60 psi'", "[instruments.boost] span", "60..60 psi", "both ends"),
    ("[instruments.boost]\naccuracy = '1 %'", "[instruments.boost] accuracy", "%", "psi"),
    ("[instruments.boost]\naccuracy = '0 psi'", "[instruments.boost] accuracy", "0 psi", "above 0"),
    ("[instruments.boost]\naccuracy = 0.5", "[instruments.boost] accuracy", "0.5", "text in quotes"),
    ("[instruments.boost]\nresolution = []", "[instruments.boost] resolution", "[]", "a step such as"),
    (
        "[instruments.boost]\nresolution = ['..30 psi']",
        "[instruments.boost] resolution",
        "['..30 psi']",
        "a step such as",
    ),
    (
        "[instruments.boost]\nresolution = ['..30 psi: 1 psi', '40..60 psi: 2 psi']",
        "[instruments.boost] resolution",
        "40..60 psi: 2 psi",
        "without a gap",
    ),
    (
        "[instruments.boost]\ngrade = 'B'\nspan = '0..60 psi'\naccuracy = '1 psi'",
        "[instruments.boost]",
        "grade and accuracy",
        "one statement",
    ),
    ("[instruments.boost]\ntype = 'K'\nclass = 'standard'", "[instruments.boost]", "type K", "no temperature"),
    ("[instruments.torque]\ngrade = 'B'", "[instruments.torque]", "grade B", "pressure gauges"),
    (
        "[instruments.manifold_temperature]\naccuracy = '1 % of reading'",
        "[instruments.manifold_temperature]",
        "% of reading",
        "means nothing",
    ),
    ("[instruments.manifold_temperature]\ntype = 'K'", "[instruments.manifold_temperature]", "type alone", "class"),
    ("[instruments.manifold_temperature]\nclass = '1'", "[instruments.manifold_temperature]", "class alone", "type"),
    (
        "[instruments.manifold_temperature]\ntype = 'S'\nclass = '1'",
        "[instruments.manifold_temperature] type",
        "S",
        '"K", "J"',
    ),
    (
        "[instruments.manifold_temperature]\ntype = 'K'\nclass = 3",
        "[instruments.manifold_temperature] class",
        "3",
        '"standard", "special"',
    ),
    ("[instruments.boost]\ncalibrated = 'last year'", "[instruments.boost] calibrated", "last year", "a date"),
]


@pytest.mark.parametrize(("text", "column", "found", "expected"), REFUSED)
def test_what_cannot_be_is_refused_at_its_key(refusal, text, column, found, expected):
    error = refusal(text.replace("'", '"') if "['" not in text else text)
    assert error.column == column
    assert error.found == found
    assert expected in error.expected
    assert error.action


@pytest.mark.parametrize(
    ("text", "row", "found", "words"),
    [
        ("[engine]\nstrokes 4\n", 2, "strokes 4", "Expected '='"),
        ("[engine]\nstrokes = 4\nstrokes = 2\n", 3, "strokes = 2", "Cannot overwrite a value"),
        ("[run]\n[engine]\n[run]\n", 3, "[run]", "twice"),
        ('[run]\ntitle = "open\n', 2, 'title = "open', "Illegal character"),
        ("[run]\ndate = 2026-02-30\n", 2, "date = 2026-02-30", "Invalid date"),
        ("[run]\ntitle = " + "[\n" * 5000, None, "a file cut short", "Too many brackets"),
        ("[run]\n" + "a." * 40_000 + "a = 1", 2, "a." * 19 + "a…", "Shorten this line"),
    ],
)
def test_a_slip_in_the_file_itself_is_refused_with_its_row(refusal, text, row, found, words):
    error = refusal(text)
    assert (error.row, error.found) == (row, found)
    assert words in error.action


def test_a_huge_bench_is_refused(refusal):
    assert refusal("#" * 100_001).expected == "at most 100,000 bytes"


def test_a_missing_bench_is_refused(tmp_path):
    with pytest.raises(RefusedFileError, match=r"found 'no such file', expected a file named bench\.toml"):
        read_bench(tmp_path / "bench.toml")


def test_the_file_of_a_fitted_engine_lies_beside_bench_toml(bench, refusal):
    assert bench('[engine]\nmodel = "engine.toml"').engine.model == "engine.toml"
    for name in ("../engine.toml", "/engine.toml", "C:engine.toml", "engine.csv", ".toml", ""):
        assert "a file beside bench.toml" in str(refusal(f"[engine]\nmodel = '{name}'"))
