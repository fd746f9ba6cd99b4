"""A logger's file becomes points: its steady stretches, with the values that are known of an INVENTED log."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.lab.run.logged import LOADS, NOISE, log, truth
from turbomath import units
from turbomath.disk.plain_files import Place
from turbomath.lab.checks import check_run
from turbomath.lab.reduction.reduce import reduce_run
from turbomath.lab.reduction.stations import gauge_readings
from turbomath.lab.report.page import report_page
from turbomath.lab.report.terminal import on_terminal
from turbomath.lab.run import log_time, steady
from turbomath.lab.run.headers import Column
from turbomath.lab.run.numbers import figures
from turbomath.lab.run.readings import read_run
from turbomath.table.errors import RefusedFileError

ROWS = 3000
US = {"boost": "psi", "compressor_outlet_temperature": "°F", "manifold_temperature": "°F"}


@pytest.fixture(scope="module")
def text_and_times():
    return log(ROWS)


@pytest.fixture
def logged(run_folder, bench_text, text_and_times):
    return read_run(run_folder(text_and_times[0], bench_text))


def test_each_load_held_becomes_one_point_inside_its_time(logged, text_and_times):
    assert logged.points == ("1", "2", "3", "4", "5")
    for (first, last), (begun, done) in zip(logged.log.stretches, text_and_times[1], strict=True):
        assert begun + (60 if begun else 0) < 60 * first < 60 * last <= done  # not in the minute after a step
        assert last - first > 4


@pytest.mark.parametrize("column", US)
def test_a_point_is_the_true_steady_value_and_its_scatter_the_noise_put_in(logged, column):
    """Within the drift that the rule allows: 2 °F, and a fiftieth of it for boost, which does not lag."""
    place, noise = list(US).index(column), NOISE["boost" if column == "boost" else "temperature"]
    found = units.from_si(logged[column], US[column], column)
    near = 0.02 if column == "boost" else 1.0
    assert found == pytest.approx([truth(load)[place] for load in LOADS], abs=near)
    one = units.to_si(1.0, "psi" if column == "boost" else "F°", "boost" if column == "boost" else "temperature_rise")
    assert logged.log.scatter[column] / one == pytest.approx(noise, rel=0.35)


def test_the_scatter_is_in_the_plus_or_minus(logged):
    _, unsure = gauge_readings(logged)
    gauge = unsure["boost"]
    assert np.all(gauge > logged.log.scatter["boost"])
    alone = np.sqrt(gauge**2 - logged.log.scatter["boost"] ** 2)
    by_hand = units.to_si(np.hypot(0.02 * 60, 0.25), "psi", "boost") / np.sqrt(
        3
    )  # grade B in the middle half, step 0.5
    assert alone[2:4] == pytest.approx(by_hand, rel=1e-6)


def test_the_report_says_how_many_stretches_and_by_which_rule_and_draws_the_rest(logged):
    reduced = reduce_run(logged)
    told = " ".join(on_terminal(reduced, "us").split())
    assert "a logger's file of 3,000 rows over 50 minutes: 5 steady stretches of it became points." in told
    assert "drift less than 2 °F a minute" in told
    page = report_page(reduced, "us", ())
    assert "5 steady stretches" in page
    assert "Boost over the whole file" in page
    assert "Mean readings of the steady stretches" in page
    assert len(page) < 300_000


def test_a_log_without_a_steady_stretch_is_refused_in_one_sentence(run_folder, bench_text):
    text, _ = log(1500, resting=False)
    with pytest.raises(RefusedFileError, match="no steady stretch in 1,500 rows', expected a minute or more"):
        read_run(run_folder(text, bench_text))


def test_a_log_without_temperatures_is_refused(run_folder, bench_text):
    text = "time [s],boost [psi]\n" + "".join(f"{turn},{turn % 7}\n" for turn in range(300))
    with pytest.raises(
        RefusedFileError, match="a log without a charge temperature', expected compressor outlet or manifold"
    ):
        read_run(run_folder(text, bench_text))


def test_a_time_that_is_neither_number_with_unit_nor_clock_is_refused(run_folder, bench_text):
    text = "time,boost [psi]\n" + "".join(f"{turn},7\n" for turn in range(5001))
    with pytest.raises(RefusedFileError, match="with the unit in the header"):
        read_run(run_folder(text, bench_text))


@pytest.mark.parametrize("time", ["about noon", "{0:02d}:{1:02d}"])
def test_readings_by_hand_with_any_words_for_their_time_stay_as_they_are(run_folder, bench_text, time):
    rows = "".join(f"{time.format(turn // 12, 5 * (turn % 12))},7\n" for turn in range(220))
    run = read_run(run_folder("time,boost [psi]\n" + rows, bench_text))
    assert (run.log, len(run)) == (None, 220)


@pytest.mark.parametrize("step", [0.2, 5.0, 20.0])
def test_fast_and_slow_loggers_give_the_same_points(run_folder, bench_text, step):
    text, times = log(round(5 * 900 / step), step)
    run = read_run(run_folder(text, bench_text))
    assert len(run) == len(times)
    assert units.from_si(run["boost"], "psi", "boost") == pytest.approx([truth(load)[0] for load in LOADS], abs=0.06)


def test_few_readings_with_a_time_stay_as_they_are(run_folder, bench_text, text_and_times):
    head = "\n".join(text_and_times[0].splitlines()[:150])
    run = read_run(run_folder(head, bench_text))
    assert run.log is None
    assert len(run) == 149


def test_many_rows_without_a_time_are_refused(run_folder, bench_text):
    text = "barometer [inHg],boost [psi]\n" + "29.1,5\n" * 5001
    with pytest.raises(RefusedFileError, match=r"5001 readings', expected at most 5,000"):
        read_run(run_folder(text, bench_text))


@pytest.mark.parametrize(
    ("cells", "unit", "seconds"),
    [
        (["0", "1.5", "3"], "s", [0, 1.5, 3]),
        (["0", "0.5", "1"], "min", [0, 30, 60]),
        (["10:41:07", "10:41:08.25", "10:42"], "", [38467, 38468.25, 38520]),
        (["23:59:59", "00:00:01", "12:00:00"], "", [86399, 86401, 129600]),
    ],
)
def test_time_is_read_as_seconds_also_past_midnight(cells, unit, seconds):
    assert log_time.seconds(cells, unit) == pytest.approx(seconds)


@pytest.mark.parametrize(("cells", "unit"), [(["a"], "s"), (["1"], "psi"), (["1"], ""), (["10:41:07", ""], "")])
def test_what_is_no_time_is_none(cells, unit):
    assert log_time.seconds(cells, unit) is None


def test_a_jump_of_the_clock_begins_a_new_stretch():
    time = np.concatenate([np.arange(300.0), 100 + np.arange(300.0)])
    found = steady.stretches(time, {"manifold_temperature": np.full(600, 330.0)})
    assert [(one.start, one.stop) for one in found] == [(30, 270), (330, 570)]


@pytest.mark.parametrize(("drift", "count"), [(1.8, 1), (2.2, 0)])
def test_two_degrees_a_minute_part_steady_from_not(drift, count):
    time = np.arange(600.0)
    warm = 330 + units.to_si(drift, "F°", "temperature_rise") * time / 60
    assert len(steady.stretches(time, {"manifold_temperature": warm})) == count


@given(st.from_regex(r"-?[0-9]{1,9}(\.[0-9]{1,9})?", fullmatch=True))
def test_a_plain_number_is_read_at_once_as_the_slow_reader_has_it(cell):
    column = Column("boost", "boost [psi]", "psi", (cell,))
    readings, _ = figures(column, [2], ".", Place("readings.csv"))
    assert readings[0] == units.number(cell, decimal=".")


def test_the_means_stand_with_four_figures_and_limits_that_nobody_read_do_not_crowd_the_answer(logged):
    assert [float(cell) for cell in logged.cells["load"]] == pytest.approx(LOADS, abs=0.1)
    assert max(len(cell) for cell in logged.cells["boost"]) <= 5
    page = report_page(reduce_run(logged), "us", check_run(logged))
    assert "5 limits were not judged, as nobody read them" in page
    assert page.index("no reading for the limit oil pressure") > page.index("A look at the readings")


@pytest.mark.long
def test_a_hundred_thousand_rows_make_a_small_page(run_folder, bench_text):
    text, times = log(100_000)
    run = read_run(run_folder(text, bench_text))
    assert len(run) == len(times)
    assert len(report_page(reduce_run(run), "us", ()).encode()) < 1_000_000
