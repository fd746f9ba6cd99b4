"""Theory at part load is the design at that flow, and the rows say of the charge what the whole run says."""

from decimal import Decimal

import numpy as np
import pytest

from tests.lab.verdicts.altered import FULL_LOAD, generator, read, without
from turbomath import air as air_models
from turbomath import uncertainty
from turbomath.lab import verdicts
from turbomath.lab.reduction.against_design import CHARGE, Comparison, agreement
from turbomath.lab.reduction.design_here import readings_and_design
from turbomath.lab.reduction.joint import Differences
from turbomath.lab.reduction.reduce import reduce_run
from turbomath.lab.reduction.shares import GAINS
from turbomath.lab.reduction.stations import at_stations
from turbomath.lab.reduction.two_paths import theoretical_path
from turbomath.lab.report import tables
from turbomath.lab.run.readings import read_run
from turbomath.uncertainty import Estimate

COOLED = ("generator_air_to_air", "generator_jacket_water")
PART_LOAD = [2, 3, 4]  # 25, 40 and 55 %
# What the theory of the full load was, before and after the cooler is brought to the flow
GAIN = "aftercooling_density_gain"


@pytest.mark.parametrize("name", COOLED)
def test_at_part_load_a_sound_aftercooler_gains_what_theory_says(name):
    # the full-load loss and effectiveness are 3 to 4 points of density away at a quarter of the load
    reduced = reduce_run(name)
    apart = (reduced[f"measured_{GAIN}"].value - reduced[f"theoretical_{GAIN}"].value)[PART_LOAD]
    assert np.abs(apart) == pytest.approx(0.0, abs=0.008)


def test_the_theory_of_a_point_is_hand_work_with_the_design_at_its_flow():
    # perfect gas by hand, gamma 1.4: 25 % load of the air-to-air run, 6 psi of boost
    reduced = reduce_run("generator_air_to_air", air="perfect")
    design = {name: one.value[2] for name, one in reduced.design.items()}
    p0, t0, t1 = 29.09 * 3386.389, (77 + 459.67) / 1.8, (80 + 459.67) / 1.8
    p3, tm = p0 + 6 * 6894.757, (79 + 459.67) / 1.8
    ratio = (p3 + design["cooler_pressure_loss"]) / (p0 - 4 * 249.089)
    t2 = t1 * (1 + (ratio ** (2 / 7) - 1) / design["compressor_efficiency"])
    t3 = t2 - design["effectiveness"] * (t2 - tm)
    gain = p3 / t3 * t0 / p0 - 1  # humid air alike inside and outside
    assert reduced["theoretical_charge_gain"].value[2] == pytest.approx(gain, abs=3e-4)
    assert 0.5 < design["cooler_pressure_loss"] / (1.5 * 6894.757) < 0.6  # flow squared over density
    assert design["effectiveness"] > 0.86


def test_at_full_load_theory_is_the_design_as_stated():
    reduced = reduce_run("generator_air_to_air")
    assert reduced["theoretical_charge_gain"].value[FULL_LOAD] == pytest.approx(1.44, abs=0.003)
    assert reduced.design["effectiveness"].value[FULL_LOAD] == pytest.approx(0.80, abs=0.003)


def test_a_rule_is_less_sure_far_from_the_rated_point_and_the_theory_with_it():
    reduced = reduce_run("generator_air_to_air")
    for rule in ("rule_of_effectiveness", "rule_of_loss", "rule_of_efficiency"):
        shares = reduced["charge_gain_difference"].contributions[rule]
        assert shares[2] > 3 * shares[FULL_LOAD]


@pytest.mark.parametrize("column", ["engine_speed", "manifold_temperature"])
def test_a_reading_that_the_flow_needs_may_be_missing(column):
    run = generator()
    whole, less = reduce_run(run), reduce_run(without(run, column))
    loaded = slice(2, 8)
    names = ["theoretical_charge_gain", f"theoretical_{GAIN}"]
    for name in names:
        assert less[name].value[loaded] == pytest.approx(whole[name].value[loaded], abs=0.01), name


def hot(run, by):
    return read(run, manifold_temperature=lambda kelvin: kelvin + by)


@pytest.mark.parametrize("by", [-30, -12, 0, 8, 12, 16, 20, 33])
@pytest.mark.parametrize("name", [*COOLED, "generator_no_aftercooler"])
def test_a_row_says_no_exactly_where_the_charge_of_the_run_does_not_fit(name, by):
    run = read_run(name)
    column = "compressor_outlet_temperature" if name.endswith("no_aftercooler") else "manifold_temperature"
    reduced = reduce_run(read(run, **{column: lambda kelvin: kelvin + by}))
    failed = verdicts.judge_run(reduced).charge.answer == verdicts.FAILS
    assert ("no" in reduced.agree) == failed
    assert failed == (abs(by) > 25) or abs(by) in (8, 12, 16, 20)


def test_with_too_little_boost_a_row_cannot_tell_and_without_a_reading_it_is_empty():
    answers = reduce_run(hot(generator(), 33)).agree
    assert answers == ("", "cannot tell", *["no"] * 7)
    assert reduce_run(hot(generator(), 0)).agree == ("", "cannot tell", *["yes"] * 7)


def test_the_second_way_to_a_width_has_the_same_answers():
    run = hot(generator(), 33)
    first, second = reduce_run(run), reduce_run(run, method="sobol")
    assert first.agree == second.agree
    assert verdicts.judge_run(first).charge == verdicts.judge_run(second).charge


def test_a_difference_of_two_results_is_surer_than_its_parts_where_they_share_a_gauge():
    found = uncertainty.propagate(lambda a, b: {"one": a + b, "other": a}, {"a": 1.0, "b": 2.0}, {"a": 3.0, "b": 0.5})
    apart = uncertainty.difference(found["one"], found["other"])
    assert apart.value == pytest.approx(2.0)
    assert apart.standard_uncertainty == pytest.approx(0.5)


@pytest.mark.parametrize("system", ["us", "si"])
@pytest.mark.parametrize("by", [-7.0, 0.0, 3.3, 21.0])
@pytest.mark.parametrize("name", [*COOLED, "stand_unloaded_run_up"])
def test_the_difference_shown_is_that_of_its_parts_as_shown(name, by, system):
    reduced = reduce_run(hot(read_run(name), by))
    rows = tables.judged_rows(reduced)
    assert rows
    columns = [tables.result_texts(reduced, one, rows, system) for one in GAINS]
    for texts, row in zip(zip(*columns, strict=True), rows, strict=True):
        numbers = [[Decimal(part.replace("−", "-")) for part in text.split(" ± ")] for text in texts]
        (measured, _), (theory, _), (difference, width) = numbers
        assert measured - theory == difference
        assert len({number.as_tuple().exponent for pair in numbers for number in pair}) == 1
        exact = 100 * reduced["charge_gain_difference"].value[row]
        assert abs(float(difference) - exact) <= 1.001 * 10.0 ** difference.as_tuple().exponent < float(width)


def test_two_psi_on_the_gauge_is_enough_to_say_something():
    run = read(generator(), boost=lambda pa: np.where(np.arange(len(pa)) == 1, 2 * 6894.757293168, pa))
    assert reduce_run(run).agree[1] != "cannot tell"


@pytest.mark.parametrize(("beyond", "answer"), [(2.15, "yes"), (2.45, "no")])
def test_eight_points_with_errors_of_their_own_are_given_more_room_than_one(beyond, answer):
    # two rectangles for each point: the worst of eight stays within 2.30 standard uncertainties (see test_joint)
    shared = {f"{point} {number}": np.eye(8)[point] for point in range(8) for number in range(2)}
    apart = Differences(np.full(8, beyond * np.sqrt(2)), shared, np.zeros(8))
    charge = Comparison(CHARGE, "design", np.arange(8), apart.value, np.zeros(8), apart)
    assert agreement(Estimate(apart.value, apart.standard_uncertainty), charge) == (answer,) * 8


@pytest.mark.parametrize("name", [*COOLED, "generator_no_aftercooler"])
def test_the_path_that_is_drawn_is_the_theory_of_the_table(name):
    reduced, values = reduce_run(name), readings_and_design(read_run(name))
    found = theoretical_path(at_stations(reduced.run, values), values, air_models.choose(reduced.air))
    assert found.charge_gain == pytest.approx(reduced["theoretical_charge_gain"].value, rel=1e-9, nan_ok=True)
