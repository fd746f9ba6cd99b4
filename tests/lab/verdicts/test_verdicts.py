"""Three questions, three verdicts: each outcome of each, from the shipped INVENTED runs with one thing altered."""

import importlib
from dataclasses import replace

import numpy as np
import pytest

from tests.lab.verdicts import altered
from tests.lab.verdicts.altered import FULL_LOAD, MAKER, PSI, coarse, generator, judged, read, stated, up_to, without
from turbomath.lab import verdicts
from turbomath.lab.reduction import reduce
from turbomath.lab.reduction.against_design import CHARGE, Comparison
from turbomath.lab.reduction.joint import Differences
from turbomath.lab.run.amounts import Stated
from turbomath.lab.run.bench import Design
from turbomath.lab.run.rated import Rated
from turbomath.lab.verdicts import FAILS, HOLDS, UNKNOWN, told
from turbomath.lab.verdicts.verdict import AtPoint
from turbomath.lab.verdicts.verdict import judged as judged_together

LATER = {"boost": lambda boost: 0.99 * boost}
HALVED, RAISED = {"boost": lambda boost: boost / 2}, {"boost": lambda boost: 1.25 * boost}


def hotter(share, above=298.0):
    """Return a change of a temperature: so much more of it over *above*."""
    return lambda temperature: temperature + share * (temperature - above)


WORN, BETTER = ({"compressor_outlet_temperature": hotter(share)} for share in (0.15, -0.15))
FOULED, TOO_COLD = ({"manifold_temperature": hotter(share)} for share in (0.5, -0.6))


@pytest.fixture(scope="module")
def sound():
    """Return the verdicts of the shipped run with its maker's figure."""
    return judged(generator())


def test_a_sound_run_holds_in_all_three(sound):
    assert [one.answer for one in (sound.boost, sound.machines, sound.charge)] == [HOLDS] * 3
    assert sound.overall == (
        "The boost is what this engine should make; the machines do what they were designed for; the charge fits this "
        "boost; nothing here asks for a second look."
    )


@pytest.mark.parametrize("name", ["generator_air_to_air", "generator_jacket_water", "generator_no_aftercooler"])
def test_every_generator_holds_against_itself_on_an_earlier_day(name):
    run = generator(None, name)
    found = judged(run, run)
    assert [one.answer for one in (found.boost, found.machines, found.charge)] == [HOLDS] * 3


@pytest.mark.parametrize("maker", [None, MAKER])
def test_halved_boost_is_seen_whatever_the_charge_says(maker):
    earlier = generator(None) if maker is None else None
    found = judged(read(generator(maker), **HALVED), earlier)
    assert found.boost.answer == FAILS
    assert found.boost.sentence.startswith("The boost is too low: at point 7 it is 12.0 psi, and should be 24.")
    assert found.overall.startswith("The boost is too low for this engine; ")


def test_the_charge_of_a_boost_truly_lost_fits_that_boost():
    # the engine of the shipped run with its turbine a third larger: every reading as the balance then has it
    lost = altered.with_larger_turbine(1.35)
    assert 0.6 < lost["boost"][FULL_LOAD] / generator()["boost"][FULL_LOAD] < 0.75
    found = judged(lost)
    assert (found.boost.answer, found.machines.answer, found.charge.answer) == (FAILS, HOLDS, HOLDS)
    assert found.overall == (
        "The boost is too low for this engine; the machines do what they were designed for; the charge fits this "
        "boost; look first at the boost gauge and its hose, leaks in the pipes and hoses from the compressor to the "
        "engine, exhaust leaks before the turbine, the wastegate and its line, then the turbine itself."
    )


def test_boost_that_is_too_high_is_seen():
    found = judged(read(generator(), **RAISED))
    assert found.boost.sentence.startswith("The boost is too high: at point 7 it is 30.0 psi")
    assert found.overall.startswith("The boost is too high for this engine; ")
    assert "then at the fuel (is more burnt than was read?)" in found.overall


def test_the_maker_speaks_of_the_rated_point_only(sound):
    assert {one.point for one in sound.boost.points if one.source == "maker"} == {"7"}
    assert sound.boost.source == (
        "the maker's figure for the rated point: point 7; a model of turbine and compressor fitted to the maker's "
        "rated point, no measurement: points 2 to 6"
    )


def test_a_model_alone_does_not_pretend():
    found = judged(up_to(generator(), 0.70))
    assert found.boost.answer == UNKNOWN
    assert "by a model of turbine and compressor" in found.boost.sentence
    assert "a loss of 15 % stays hidden" in found.boost.sentence
    for one in found.boost.points:
        assert one.plus_or_minus >= 0.15 * one.expected
    assert "look first at the gauges: finer ones, or more load, would tell" in found.overall


def test_where_no_design_is_stated_that_is_wanting_and_no_finer_gauge():
    found = judged(stated(generator(), design=Design()))
    assert (found.boost.answer, found.machines.answer, found.charge.answer) == (HOLDS, UNKNOWN, UNKNOWN)
    assert (
        "look first at what compressor and aftercooler were designed for, for [design] in bench.toml" in found.overall
    )


def test_doubtful_points_are_told_in_the_order_of_the_run():
    first = verdicts.judge_run(
        reduce.reduce_run(generator()), doubtful={"red": ("5", "6", "7", "1"), "fits": ("b", "a")}
    )
    assert "cannot be right, at points 1, 5, 6, 7 (b, a)" in first.overall


def test_where_a_side_of_each_machine_was_not_read_no_finer_gauge_is_asked_for():
    found = judged(without(generator(), "compressor_outlet_temperature"))
    assert found.machines.sentence.startswith("Nothing was read that says what the machines do: read both sides")
    assert "look first at the thermometers on both sides of the compressor" in found.overall
    assert "finer ones" not in found.overall


def test_yet_a_model_sees_what_is_out_of_all_proportion():
    assert judged(read(up_to(generator(), 0.85), boost=lambda boost: 0.4 * boost)).boost.answer == FAILS


def test_an_earlier_run_speaks_for_every_load_step():
    found = judged(generator(None), generator(None))
    assert found.boost.source == (
        "this engine's own run generator_air_to_air, carried to the fuel, the speed and the weather of this run: "
        "points 2 to 7"
    )
    assert found.boost.sentence.startswith("The boost is what this engine should make: at point 7 it is 24.0 psi")


def test_an_earlier_run_is_carried_to_another_day():
    # at 84 kPa the same fuel gives another boost: as the balance has it, the engine is sound there
    high = altered.on_a_mountain()
    found = judged(high, generator(None))
    assert found.boost.answer == HOLDS
    assert judged(read(high, **HALVED), generator(None)).boost.answer == FAILS


def test_gauges_kept_between_two_runs_know_a_change_better():
    run, other = generator(None), generator(None)
    changed = {**other.bench.instruments, "boost": replace(other.bench.instruments["boost"], calibrated="2026-01-05")}
    kept, set_right = (judged(run, one).boost.points[-1] for one in (other, stated(other, instruments=changed)))
    assert kept.plus_or_minus < 0.85 * set_right.plus_or_minus


def test_gauges_without_a_day_of_calibration_are_not_taken_for_the_same():
    run = generator(None)
    undated = {name: replace(one, calibrated=None) for name, one in run.bench.instruments.items()}
    run = stated(run, instruments=undated)
    kept = judged(generator(None), generator(None)).boost.points[-1]
    assert judged(run, run).boost.points[-1].plus_or_minus > 1.15 * kept.plus_or_minus


@pytest.mark.parametrize(("off", "answer"), [(1.99, HOLDS), (-1.99, HOLDS), (2.01, FAILS), (-2.01, FAILS)])
def test_a_verdict_turns_where_a_point_leaves_its_width(off, answer):
    # two points that share one error of 1: the ± of the joint verdict is twice it, as for one point
    value = np.array([0.0, off])
    differences = Differences(value, {"gauge": np.ones(2)}, np.zeros(2))
    compared = Comparison("boost", "maker", np.arange(2), 100.0 + value, np.full(2, 100.0), differences)
    found = judged_together((compared,), ("a", "b"), ("boost",))
    assert (found.answer, found.worst.point) == (answer, "b")


def test_a_quantity_asked_for_that_nobody_read_leaves_the_verdict_open():
    differences = Differences(np.zeros(1), {"gauge": np.full(1, 0.01)}, np.zeros(1))
    compared = Comparison(
        "compressor_efficiency", "design", np.arange(1), np.full(1, 0.7), np.full(1, 0.7), differences
    )
    asked = ("compressor_efficiency", "effectiveness")
    assert judged_together((compared,), ("a",), asked[:1]).answer == HOLDS
    assert judged_together((compared,), ("a",), asked).answer == UNKNOWN


NOTHING = {
    "nothing": lambda: (generator(None), None),
    "other_engine": lambda: (generator(None), generator(None, "generator_jacket_water")),
    "no_size": lambda: (_without_size(generator()), None),
    "no_barometer": lambda: (without(generator(), "barometer"), None),
    "no_boost": lambda: (without(generator(), "boost"), None),
    "no_work": lambda: (without(generator(), "fuel_flow", "power"), None),
    "no_point": lambda: (up_to(generator(), 0.10), None),
}


def _without_size(run):
    return stated(run, engine=replace(run.bench.engine, displacement=None))


@pytest.mark.parametrize("reason", NOTHING)
def test_a_boost_that_cannot_be_judged_says_why_and_what_to_do(reason):
    found = judged(*NOTHING[reason]())
    assert (found.boost.answer, found.boost.source, found.boost.points) == (UNKNOWN, "", ())
    assert found.boost.sentence == told._WHY.text(reason)
    assert found.overall.endswith(f"look first at {told._MISSING.text(reason)}.")
    given = "Nothing here says what the boost should be, so it was taken as given; "
    assert found.overall.startswith(given) == (reason not in ("no_boost", "no_barometer"))


def test_nothing_that_says_the_boost_is_said_in_plain_words():
    assert judged(generator(None)).boost.sentence.startswith(
        "Nothing here says what the boost should be; it was taken as given. "
    )


MACHINES = {
    "compressor_efficiency low": (WORN, "The compressor does less than it was designed for: its efficiency is 0.63 at"),
    "compressor_efficiency high": (BETTER, "The compressor looks better than it was designed for: its efficiency is"),
    "effectiveness low": (FOULED, "The aftercooler cools less than it was designed for: its effectiveness is 0.69 at"),
    "effectiveness high": (TOO_COLD, "The aftercooler looks better than it was designed for: its effectiveness is"),
}


@pytest.mark.parametrize("case", MACHINES)
def test_a_machine_off_its_design_is_named(case):
    change, begins = MACHINES[case]
    found = judged(read(generator(), **change))
    name, sign = case.split()
    assert found.machines.answer == FAILS
    assert found.machines.sentence.startswith(begins)
    assert told._ANSWERS["machines"].text(f"{name}_{sign}") in found.overall
    assert told._LOOK_AT[sign].text(name) in found.overall
    assert "no machine alone explains it" not in found.overall
    assert found.boost.answer == HOLDS


def test_machines_that_hold_say_how_well_they_are_known(sound):
    assert sound.machines.sentence == (
        "The machines do what they were designed for: compressor efficiency 0.73 at point 7, where 0.74 ± 0.04 is "
        "expected; effectiveness 0.80 at point 7, where 0.80 ± 0.06 is expected."
    )
    assert sound.machines.source.endswith("a usual ± taken for cooler pressure loss")


def test_where_a_gauge_says_nothing_of_the_compressor_it_is_not_asked(sound):
    reduced = reduce.reduce_run(generator())
    asked = [one.row for one in sound.machines.points if one.quantity == "compressor_efficiency"]
    assert asked == [2, 3, 4, 5, 6, 7]  # not at idle, where the report says that these gauges cannot tell
    assert reduced["compressor_efficiency"].plus_or_minus[8] > 0.10


def test_a_design_with_every_width_needs_no_usual_one():
    full = Design(Stated(0.74, 0.02), Stated(0.80, 0.03), Stated(1.5 * PSI, 0.2 * PSI))
    found = judged(stated(generator(), design=full))
    assert found.machines.source == "[design] in bench.toml, brought to the flow of each point"


@pytest.mark.parametrize(
    ("column", "unknown", "known"),
    [
        ("manifold_temperature", "of the aftercooler.", "compressor efficiency 0.73"),
        ("compressor_outlet_temperature", "of the compressor.", "effectiveness 0.80"),
    ],
)
def test_a_gauge_too_coarse_for_one_machine_leaves_the_other(column, unknown, known):
    found = judged(coarse(generator(), column, {"manifold_temperature": 12.0}.get(column, 30.0)))
    assert found.machines.answer == UNKNOWN
    assert f"cannot tell {unknown} What they do tell: {known}" in found.machines.sentence


def test_gauges_too_coarse_for_both_say_so():
    run = coarse(coarse(generator(), "compressor_outlet_temperature", 40.0), "manifold_temperature", 40.0)
    found = judged(run)
    assert found.machines.sentence.endswith("these readings cannot tell of the compressor and the aftercooler.")
    assert found.charge.answer == UNKNOWN
    assert found.charge.sentence.startswith("Whether the charge fits this boost, these readings cannot tell: at point")


def test_a_bench_without_design_says_what_is_missing():
    found = judged(stated(generator(), design=Design()))
    assert (found.machines.answer, found.machines.source) == (UNKNOWN, "")
    assert found.machines.sentence.startswith("Nothing here says what the machines do: state [design]")


def test_a_charge_that_fits_is_no_word_on_the_boost(sound):
    assert sound.charge.sentence.startswith("The charge fits this boost: the manifold is as warm, and the charge as")
    assert sound.charge.sentence.endswith("That is no word on whether the boost is right.")


@pytest.mark.parametrize(("change", "word"), [(FOULED, "thin"), (TOO_COLD, "dense")])
def test_a_charge_that_does_not_fit_says_which_way(change, word):
    found = judged(read(generator(), **change))
    assert found.charge.answer == FAILS
    assert f"it is too {word}: at point 7" in found.charge.sentence
    assert f"the charge is too {word} for this boost" in found.overall


@pytest.mark.parametrize(("change", "sign"), [(FOULED, "low"), (TOO_COLD, "high")])
def test_a_charge_off_where_no_machine_can_be_told_points_at_the_gauges(change, sign):
    run = without(read(generator(), **change), "compressor_outlet_temperature")
    found = judged(run)
    assert (found.machines.answer, found.charge.answer) == (UNKNOWN, FAILS)
    assert told._LOOK.text(f"charge_{sign}") in found.overall


def test_a_charge_without_its_thermometer_says_so():
    found = judged(without(generator(), "manifold_temperature"))
    assert (
        found.charge.sentence
        == "Whether the charge fits this boost cannot be said: no reading of manifold temperature."
    )


def test_a_charge_without_boost_enough_says_so():
    found = judged(read(up_to(generator(), 0.0), boost=lambda boost: boost / 3))
    assert found.charge.sentence.endswith("cannot be said: no point of this run has enough boost.")


def test_numbers_in_si_are_the_same_numbers():
    us, si = (judged(read(generator(), **HALVED), system=system) for system in ("us", "si"))
    assert "at point 7 it is 83 kPa, and should be 166 ± 11 kPa" in si.boost.sentence
    assert us.boost.points == si.boost.points


def test_the_two_numbers_and_their_width_end_at_one_place(sound):
    words = sound.boost.sentence.split()
    figures = [words[place] for place in (words.index("psi,") - 1, words.index("±") - 1, words.index("±") + 1)]
    assert {len(one.partition(".")[2]) for one in figures} == {1}


def test_the_rule_says_how_wide_and_at_what_risk(sound):
    assert f"boost {sound.boost.factor:.1f}, machines {sound.machines.factor:.1f}" in sound.rule
    assert "of 100 runs of a sound engine at most 5" in sound.rule
    assert all(2.0 <= one.factor < 3.0 for one in (sound.boost, sound.machines, sound.charge))


def test_a_run_of_nothing_has_no_rule():
    assert judged(up_to(stated(generator(None), design=Design()), -1.0)).rule == ""


def test_a_point_in_the_verdict_is_that_of_the_reduction(sound):
    reduced = reduce.reduce_run(generator())
    for one in sound.machines.points:
        assert one.measured == pytest.approx(reduced[one.quantity].value[one.row])
    for one in sound.charge.points:
        assert one.measured == pytest.approx(reduced["measured_charge_gain"].value[one.row])


def test_a_maker_that_states_power_only_is_compared_by_power():
    by_power = Rated(MAKER.boost, MAKER.engine_speed, None, Stated(291e3), MAKER.barometer, MAKER.ambient_temperature)
    found = judged(generator(by_power))
    assert found.boost.answer == HOLDS
    assert judged(without(generator(by_power), "power")).boost.sentence == told._WHY.text("no_work")


def test_a_maker_without_a_width_gets_the_usual_one():
    bare = replace(MAKER, boost=Stated(24.0 * PSI))
    wide, narrow = (judged(generator(one)).boost.points[0].plus_or_minus for one in (bare, MAKER))
    assert wide > 1.5 * narrow


def test_missing_readings_in_a_row_leave_the_others():
    run = read(generator(), boost=lambda boost: np.where(np.arange(len(boost)) == 5, np.nan, boost))
    assert {one.point for one in judged(run).charge.points} == {"2", "3", "4", "6", "7", "8"}


def test_every_sentence_is_used(tmp_path):
    importlib.reload(told)  # with no sentence taken yet
    for change in (HALVED, RAISED, WORN, BETTER, FOULED, TOO_COLD):
        judged(read(generator(), **change))
    for change in (FOULED, TOO_COLD):
        judged(without(read(generator(), **change), "compressor_outlet_temperature"))
    for make in NOTHING.values():
        judged(*make())
    for column in ("manifold_temperature", "compressor_outlet_temperature"):
        judged(coarse(generator(), column, 30.0))
        judged(without(generator(), column))
    judged(coarse(coarse(generator(), "compressor_outlet_temperature", 40.0), "manifold_temperature", 40.0))
    judged(generator(None), generator(None), doubtful={"red": ("1",), "banks": ("2",), "fits": ("boost fits kPa",)})
    judged(generator(), doubtful={"amber": ("air flow",)})
    judged(up_to(generator(), 0.70))
    judged(read(up_to(generator(), 0.0), boost=lambda boost: boost / 3))
    judged(stated(generator(), design=Design()))
    judged(stated(generator(), design=Design(Stated(0.74, 0.02), Stated(0.80, 0.03), Stated(1e4, 1e3))))
    altered.write_fitted_engine(tmp_path)
    for change in ({}, LATER):  # the run that was fitted to, and a later one
        judged(altered.with_model(read(generator(None), **change), tmp_path))
    told.WORDS.finished()


@pytest.mark.parametrize(
    ("quantity", "expected", "matters"),
    [
        ("boost", 165e3, 0.15 * 165e3),
        ("compressor_efficiency", 0.74, 0.08),
        ("effectiveness", 0.80, 0.10),
        (CHARGE, 1.45, 0.05 * 2.45),  # of the density, which is 1 and the gain
    ],
)
def test_a_point_tells_while_its_bar_is_no_wider_than_a_change_that_matters(quantity, expected, matters):
    for share, tells in ((0.995, True), (1.005, False)):
        assert AtPoint(quantity, "", 0, "1", expected, expected, share * matters).tells == tells


def test_readings_that_cannot_be_are_what_to_look_at_first():
    sound = reduce.reduce_run(generator())
    assert "nothing here asks for a second look" in verdicts.judge_run(sound).overall
    marked = verdicts.judge_run(sound, doubtful={"red": ("0", "3")}).overall
    assert marked.endswith("look first at the readings that cannot be right, at points 0, 3.")
    fits = {"red": ("0", "3"), "fits": ("boost fits psi abs", "fuel flow fits kg/h")}
    marked = verdicts.judge_run(sound, doubtful=fits).overall
    assert marked.endswith("cannot be right, at points 0, 3 (boost fits psi abs, fuel flow fits kg/h).")
    odd = verdicts.judge_run(sound, doubtful={"amber": ("air flow", "oil pressure")}).overall
    assert odd.endswith("look first at what is marked amber: air flow, oil pressure.")
    worn = verdicts.judge_run(
        reduce.reduce_run(read(generator(), **WORN)), doubtful={"red": ("3",), "banks": ("1", "3")}
    ).overall
    assert "look first at the readings that cannot be right, at point 3, then at the two banks, which differ at" in worn
    assert "points 1, 3: exchange their probes and read again, then at the compressor" in worn


def test_a_barometer_that_nobody_read_is_named_and_not_the_boost():
    found = judged(without(generator(), "barometer"))
    assert "no row has the barometer" in found.boost.sentence
    assert "look first at the barometer: read it" in found.overall
