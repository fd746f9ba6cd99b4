"""What nobody read but usual practice bounds: an intake restriction, and a barometer if bench.toml says so."""

from dataclasses import replace

import numpy as np
import pytest

from tests.lab.reference_case import BENCH, written
from tests.lab.verdicts.altered import FULL_LOAD, INHG, generator, read, without
from turbomath.lab.reduction.reduce import reduce_run
from turbomath.lab.report.sentences import origin_lines
from turbomath.lab.report.terminal import on_terminal
from turbomath.lab.run.bench import Bench
from turbomath.table.errors import RefusedFileError

INH2O = 249.0889  # Pa, NIST SP 811
RESTRICTION = "intake_restriction"
HEAD = "intake restriction [inH2O]"
# Pressure ratio and efficiency at full load for 0, 12 and 25 inH2O, by a script of its own with CoolProp's humid air
BY_RESTRICTION = {0.0: (2.785, 0.705), 12.0: (2.872, 0.729), 25.0: (2.973, 0.757)}


@pytest.fixture(scope="module")
def full_load():
    """The air-to-air run with and without its restriction."""
    return reduce_run(generator()), reduce_run(without(generator(), RESTRICTION))


@pytest.mark.parametrize("inches", BY_RESTRICTION)
def test_what_a_restriction_does_is_as_worked_outside(inches):
    found = reduce_run(read(generator(), intake_restriction=lambda pa: 0 * pa + inches * INH2O))
    ratio, efficiency = BY_RESTRICTION[inches]
    assert found["pressure_ratio"].value[FULL_LOAD] == pytest.approx(ratio, abs=0.003)
    assert found["compressor_efficiency"].value[FULL_LOAD] == pytest.approx(efficiency, abs=0.0015)


def test_a_restriction_that_nobody_read_lies_in_the_middle_and_the_plus_or_minus_reaches_its_ends(full_load):
    _, unread = full_load
    for name, place in (("pressure_ratio", 0), ("compressor_efficiency", 1)):
        ends = [BY_RESTRICTION[inches][place] for inches in (0.0, 25.0)]
        value, width = unread[name].value[FULL_LOAD], unread[name].plus_or_minus[FULL_LOAD]
        assert value == pytest.approx(sum(ends) / 2, rel=0.005)
        assert value - width < ends[0] < ends[1] < value + width
        half = (ends[1] - ends[0]) / 2  # a rectangle: its standard uncertainty is the half-width over root 3
        share = unread[name].contributions["intake_restriction_not_read"][FULL_LOAD]
        assert share == pytest.approx(half / np.sqrt(3), rel=0.03)


@pytest.mark.parametrize("name", ["mass_flow_gain", "compressor_power", "measured_charge_gain", "effectiveness"])
def test_what_does_not_depend_on_the_restriction_comes_out_the_same(full_load, name):
    known, unread = (one[name] for one in full_load)
    assert unread.value[FULL_LOAD] == pytest.approx(known.value[FULL_LOAD], rel=1e-3)
    assert unread.plus_or_minus[FULL_LOAD] == pytest.approx(known.plus_or_minus[FULL_LOAD], rel=0.01)


def test_the_report_says_what_was_not_read_in_the_units_of_the_run(full_load):
    words = "intake restriction: not read: 0 to 25 inH2O, the limit in bench.toml"
    assert words in origin_lines(full_load[1])
    run = without(generator(), RESTRICTION)
    metric = replace(run, bench=replace(run.bench, run=replace(run.bench.run, units="si"), limits={}))
    words = "intake restriction: not read: 0 to 6.2 kPa, what a maker usually allows"
    assert words in origin_lines(reduce_run(metric))


def test_a_limit_of_the_maker_bounds_it(tmp_path):
    bench = BENCH + '[limits]\nintake_restriction = "..15 inH2O"\n'
    found = reduce_run(written(tmp_path, drop=(HEAD,), bench=bench), air="perfect")
    ratio = (24 * 6894.757 + 29.10 * INHG + 1.5 * 6894.757) / (29.10 * INHG - 7.5 * INH2O)
    assert found["pressure_ratio"].value[0] == pytest.approx(ratio, rel=1e-5)


def test_a_row_that_has_a_reading_keeps_it():
    def forget(pa):
        return np.where(np.arange(len(pa)) == FULL_LOAD, np.nan, pa)

    known, some = reduce_run(generator())["pressure_ratio"], reduce_run(read(generator(), intake_restriction=forget))
    rows = slice(1, FULL_LOAD)
    assert some["pressure_ratio"].value[rows] == pytest.approx(known.value[rows])
    assert some["pressure_ratio"].plus_or_minus[rows] == pytest.approx(known.plus_or_minus[rows])
    assert some["pressure_ratio"].plus_or_minus[FULL_LOAD] > 2 * known.plus_or_minus[FULL_LOAD]


NO_BAROMETER = ("barometer [inHg]",)
AT_350_M = BENCH.replace("[site]", '[site]\nelevation = "350 m"')
ASSUMED = AT_350_M.replace('"station"', '"standard-atmosphere"')


def test_a_barometer_from_the_elevation_is_offered_in_one_sentence_and_not_taken(tmp_path):
    found = reduce_run(written(tmp_path, drop=NO_BAROMETER, bench=AT_350_M))
    # US Standard Atmosphere 1976 at 350 m: 97.19 kPa, 28.70 inHg
    offer = 'no reading of it; [site] barometer = "standard-atmosphere" in bench.toml would take 28.7 ± 0.6 inHg'
    assert found.missing["barometer"].startswith(offer)
    assert np.isnan(found["measured_charge_gain"].value).all()
    assert on_terminal(found, "us").replace("\n    ", " ").count("standard-atmosphere") == 1
    assert "barometer" not in reduce_run(written(tmp_path, drop=NO_BAROMETER)).missing  # no elevation, nothing to offer


def test_a_barometer_from_the_elevation_is_used_when_bench_toml_says_so_and_shown_as_assumed(tmp_path):
    found = reduce_run(written(tmp_path, drop=NO_BAROMETER, bench=ASSUMED), air="perfect")
    known = reduce_run(written(tmp_path, {"barometer [inHg]": "28.70"}, bench=AT_350_M), air="perfect")
    for name in ("pressure_ratio", "measured_charge_gain", "ambient_density"):
        assert found[name].value[0] == pytest.approx(known[name].value[0], rel=1e-3), name
    density = found["ambient_density"]  # 2 kPa, a rectangle
    share = density.contributions["barometer_not_read"][0] / density.value[0]
    assert share == pytest.approx(2.0 / np.sqrt(3) / 97.19, rel=0.01)
    line = "barometer: not read: 28.7 ± 0.6 inHg, the standard atmosphere at the site's elevation (assumed)"
    assert line in origin_lines(found)
    assert "barometer" not in found.missing


def test_a_barometer_that_was_read_goes_before_the_elevation(tmp_path):
    found = reduce_run(written(tmp_path, {"barometer [inHg]": "26.39"}, bench=ASSUMED))
    same = reduce_run(written(tmp_path, {"barometer [inHg]": "26.39"}))
    assert found["measured_charge_gain"].value == pytest.approx(same["measured_charge_gain"].value)
    assert list(found.sources["barometer"]) == ["barometer"]


def test_gauge_pressures_count_from_the_assumed_barometer(tmp_path):
    change = {"compressor outlet pressure [psi gauge]": "25.5"}
    run = written(tmp_path, change, drop=NO_BAROMETER, bench=ASSUMED)
    assert run["compressor_outlet_pressure"][0] == pytest.approx(25.5 * 6894.757 + 97_190, abs=20)
    assert run.without_barometer == ()


def test_without_an_elevation_the_standard_atmosphere_is_refused(tmp_path):
    bench = BENCH.replace('"station"', '"standard-atmosphere"')
    with pytest.raises(RefusedFileError, match=r"elevation.*standard atmosphere"):
        written(tmp_path, drop=NO_BAROMETER, bench=bench)


def test_a_bench_without_that_key_assumes_no_barometer():
    assert np.isnan(Bench("bench.toml").pressure_without_barometer)
