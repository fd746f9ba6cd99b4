"""The maker's limits: one passed is shown first, one without a reading speaks, a pegged gauge counts as at least."""

import pytest

from turbomath.disk import files
from turbomath.lab.checks import limits
from turbomath.lab.run import readings

RUN = "generator_air_to_air"


@pytest.fixture
def flags(tmp_path):
    def judged(limit, edit=lambda text: text):
        source = files.shipped("data") / RUN
        bench = (source / "bench.toml").read_text(encoding="utf-8").split("[limits]")[0]
        (tmp_path / "bench.toml").write_text(f"{bench}[limits]\n{limit}\n", encoding="utf-8")
        text = edit((source / "readings.csv").read_text(encoding="utf-8-sig"))
        (tmp_path / "readings.csv").write_text(text, encoding="utf-8")
        return limits.limit_flags(readings.read_run(tmp_path))

    return judged


def test_a_limit_kept_is_silent(flags):
    assert flags('boost = "..30 psi"') == ()


def test_a_limit_passed_names_the_point_the_reading_and_the_limit(flags):
    (flag,) = flags('boost = "..22 psi"')
    assert (flag.level, flag.point, flag.column, flag.check) == ("limit", "7", "boost", 35)
    assert "boost 24.0 psi passes the limit boost: at most 22 psi" in flag.reason
    assert "maker's manual" in flag.action


def test_a_lowest_limit_and_a_condition(flags):
    (flag,) = flags('oil_pressure_low_idle = "40.. psi"')
    assert flag.point == "1"
    assert "at least 40 psi" in flag.reason
    assert flags('oil_pressure_load = "40.. psi"') == ()


BAND = 'boost_load = "22..27 psi"'


def test_the_lowest_boost_of_a_band_is_meant_for_rated_load_and_the_highest_for_every_load(flags):
    # six loads from 25 to 100 %, 6 to 24 psi: the engine is sound, and no stop is due
    assert flags(BAND) == ()
    low = flags(BAND, lambda text: text.replace("338,24.0", "338,18.0"))
    assert [(flag.level, flag.point) for flag in low] == [("limit", "7")]
    high = flags(BAND, lambda text: text.replace("172,6.0", "172,28.0"))
    assert [(flag.level, flag.point) for flag in high] == [("limit", "2")]


def test_a_sweep_that_stops_short_of_rated_load_is_told_that_the_lowest_was_not_judged(flags):
    (flag,) = flags(BAND, lambda text: text.replace("7,load,100,", "7,load,88,"))
    assert (flag.level, flag.column) == ("note", "boost")
    assert "no reading near full load for the lowest of the limit boost load: 22 to 27 psi" in flag.reason


def test_without_loads_a_band_is_judged_at_every_point_at_load(flags):
    def unnamed(text):
        return text.replace("load [%]", "remark 2")

    assert [flag.point for flag in flags(BAND, unnamed) if flag.level == "limit"] == ["2", "3", "4", "5", "6"]


def test_a_lowest_oil_pressure_at_load_is_judged_at_every_load(flags):
    flagged = flags('oil_pressure_load = "35.. psi"', lambda text: text.replace(",0.6,60,", ",0.6,20,"))
    assert [flag.point for flag in flagged] == ["2"]


def test_idle_speeds_have_two_sides(flags):
    (flag,) = flags('high_idle_speed = "1850 ± 50 rpm"')
    assert flag.point == "8"
    assert "1800 to 1900 rpm" in flag.reason
    assert flags('low_idle_speed = "700 ± 25 rpm"') == ()


def test_a_limit_without_a_reading_speaks(flags):
    (flag,) = flags('cooling_medium_outlet_temperature = "..150 °F"')
    assert flag.level == "note"
    assert "no reading for the limit cooling medium outlet temperature: at most 150 °F" in flag.reason


def test_the_engine_off_passes_no_limit(flags):
    assert flags('oil_pressure = "10.. psi"') == ()


def test_a_pegged_gauge_is_at_least_its_stop(flags):
    def pegged(text):
        return text.replace(
            "7,load,100,1800,29.09,77,45,12.0,80,338,24.0", "7,load,100,1800,29.09,77,45,12.0,80,338,>60"
        )

    (flag,) = flags('boost = "..30 psi"', pegged)
    assert flag.level == "limit"
    assert "boost >60 psi" in flag.reason
    assert flags('boost = "5.. psi"', pegged)[0].point != "7"


def test_a_gauge_limit_on_an_absolute_column_counts_from_the_barometer(flags):
    def renamed(text):
        return text.replace("boost [psi]", "compressor outlet pressure [psi gauge]")

    (flag,) = flags('compressor_outlet_pressure = "..22 psi gauge"', renamed)
    assert flag.point == "7"
    assert flags('compressor_outlet_pressure = "..30 psi gauge"', renamed) == ()
    (flag,) = flags('compressor_outlet_pressure = "..37 psi abs"', renamed)
    assert flag.point == "7"
