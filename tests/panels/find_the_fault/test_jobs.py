"""Lesson 09: each job has one answer, a cheapest way that is the cheapest, and a bill that is kept.

What each fault does to the gauges is common practice: troubleshooting charts of the trade agree on these directions.
"""

import itertools
import json

import pytest

from tests.panels.opening import opened, unseen
from tests.widgets.told import tell
from turbomath.engine.faults import changes, naming
from turbomath.engine.faults.observed import FUEL
from turbomath.lab.faults import in_part
from turbomath.lab.faults.held_against import found_in
from turbomath.lab.faults.next_test import TESTS
from turbomath.lab.run.readings import as_run
from turbomath.panels.find_the_fault import LESSON, job
from turbomath.panels.find_the_fault.readings import readings
from turbomath.panels.find_the_fault.told import EARLIER, OF_TEST, PRICES, RUNS

each_job = pytest.mark.parametrize("name", RUNS)
SIGNS = {  # past its own ± at full load, up or down; common practice
    "faults/plugged_filter": {"intake_restriction": 1, "turbine_inlet_temperature": 1},
    "faults/exhaust_leak": {"boost": -1, "intake_restriction": -1, "exhaust_back_pressure": -1},
    "faults/dirty_aftercooler": {"manifold_temperature": 1},
    "faults/wrong_thermocouple": {"turbine_inlet_temperature": -1},
    "faults/charge_leak_after": {"boost": -1, "intake_restriction": 1, "turbine_inlet_temperature": 1},
    "faults/late_timing": {"boost": 1, FUEL: 1, "turbine_inlet_temperature": 1},
}


@pytest.fixture(autouse=True)
def work(tmp_path, monkeypatch):
    """No test finds a bill that another has kept."""
    monkeypatch.setenv("TURBOMATH_WORK", str(tmp_path))


def pay(panel, item, guess="gauge", because="hunch"):
    """Pay for something as a reader does, and return the frame."""
    unseen(panel, "pick", name="buy", key=item)
    unseen(panel, "pick", name="guess", key=guess)
    return tell(panel, "pick", name="because", key=because)


def spent(frame):
    return next(one["text"] for one in frame["shown"]["readouts"] if one["label"] == "spent")


@each_job
def test_all_readings_name_what_the_run_was_made_with_and_what_the_question_calls_right(name):
    run = RUNS[name]
    alone = found_in(as_run(run), as_run(EARLIER)).diagnosis
    assert in_part.fault_of(run, EARLIER).name == alone.best.name
    whole = in_part.in_part(run, EARLIER, frozenset({*PRICES, "power"}))
    assert whole.best.name == alone.best.name
    assert whole.best.probability > 0.9
    (right,) = [one.words for one in LESSON.words[name].prediction.options if one.right]
    common = {"gauge": "gauge", "cooler_fouled": "dirty outside", "filter_plugged": "filter", "late_timing": "late"}
    assert common.get(job.suspect_of(run), job.suspect_of(run).partition("_")[0]) in right


@each_job
def test_the_readings_move_as_the_trade_expects(name):
    for gauge, way in SIGNS[RUNS[name]].items():
        full = readings(RUNS[name], gauge, "us")[-1]
        assert full.times * way > 1, gauge
        assert full.change[0] == ("+" if way > 0 else "−")


@each_job
def test_the_cheapest_way_names_the_fault_and_no_cheaper_one_does(name):
    run = RUNS[name]
    way, _ = job.ways(run)
    fault = in_part.fault_of(run, EARLIER).name

    def named(gauges, tests):
        found = in_part.in_part(run, EARLIER, frozenset({*gauges, "power"}), tests)
        return found.best.name == fault and found.best.probability > in_part.NAMED

    assert named(way.gauges, (way.test,) if way.test else ())
    assert way.minutes == sum(PRICES[one] for one in way.gauges) + (way.test.minutes if way.test else 0)
    for count in range(len(PRICES) + 1):
        for gauges in itertools.combinations(PRICES, count):
            for test in (None, *TESTS):
                cost = sum(PRICES[one] for one in gauges) + (test.minutes if test else 0)
                assert cost >= way.minutes or not named(gauges, (test,) if test else ())


def test_some_gauges_of_a_change_are_those_of_runs_that_had_no_others():
    both = in_part.held_beside("faults/exhaust_leak", EARLIER)
    kept = ["boost", "power"]
    some = naming.diagnosis(both.changes.only(kept))
    assert both.changes.only(both.changes.gauges).change == pytest.approx(both.changes.change)
    assert both.changes.only(kept).gauges == tuple(kept)
    engine = next(one for one in both.changes.paths if one.sort == "engine")
    same = next(one for one in both.changes.only(kept).paths if one.name == engine.name)
    place = both.changes.gauges.index("boost") * both.changes.points
    assert same.effects[:, : both.changes.points] == pytest.approx(
        engine.effects[:, place : place + both.changes.points]
    )
    assert some.best.probability < naming.diagnosis(both.changes).best.probability
    assert isinstance(both.changes, changes.Changes)


def test_nothing_is_paid_for_before_a_guess_and_a_reason():
    panel = opened("job_5")
    frame = tell(panel, "pick", name="buy", key="boost")
    assert "what do you think now" in frame["shown"]["sentence"]
    assert spent(frame) == "0"
    frame = tell(panel, "pick", name="guess", key="turbine_worn")
    assert spent(frame) == "0"
    frame = tell(panel, "pick", name="because", key="hunch")
    assert spent(frame) == str(PRICES["boost"])
    bill = frame["shown"]["tables"][0]["rows"]
    assert bill == (("boost", "5", "worn turbine or bearings", "a hunch", "–"),)
    left = next(one for one in frame["controls"] if one["name"] == "buy")["options"]
    assert "boost" not in [key for key, _ in left]
    assert spent(pay(panel, "boost")) == str(PRICES["boost"]), "nothing is paid for twice"


def test_before_a_class_the_reason_is_said_aloud():
    panel = opened("job_5")
    unseen(panel, "wall", on=True)
    unseen(panel, "pick", name="buy", key="boost")
    frame = tell(panel, "pick", name="guess", key="turbine_worn")
    assert frame["shown"]["tables"][0]["rows"][0][3] == "said aloud in class"


def test_a_test_is_told_with_its_cautions_and_what_it_shows():
    panel = opened("job_5")
    leak = next(key for key, test in OF_TEST.items() if "charge_leak_after" in test.finds)
    frame = pay(panel, leak)
    assert "It shows something" in frame["shown"]["sentence"]
    for one in OF_TEST[leak].cautions:
        assert one.text in frame["shown"]["sentence"]
    filters = next(key for key, test in OF_TEST.items() if "filter_plugged" in test.finds)
    assert "It shows nothing" in pay(panel, filters)["shown"]["sentence"]


def test_which_guess_was_right_stays_behind_until_the_answer_is_open():
    panel = opened("job_2")
    assert panel.frame["asked"][0]["right"] == []
    pay(panel, "boost")
    assert "Cheapest way" not in json.dumps(panel.frame)
    frame = pay(panel, "answer", "exhaust_leak")
    assert any(frame["asked"][0]["right"])
    for words in ("You named it", "Cheapest way", "What would have fooled you"):
        assert words in frame["shown"]["sentence"]
    assert "You had named: worn turbine" in told_at_the_end("job_2", "turbine_worn")


def told_at_the_end(name, guess):
    panel = opened(name)
    unseen(panel, "reset")
    return pay(panel, "answer", guess)["shown"]["sentence"]


def test_the_bill_is_kept_and_taken_up_and_what_no_longer_fits_is_left_out():
    panel = opened("job_1")
    pay(panel, "intake_restriction", "filter_plugged", "pressure")
    desk = panel.desk
    state = json.loads(json.dumps(desk.state()))
    desk.reset()
    desk.take_up({**state, "bought": [*state["bought"], ["torque", "gauge", "hunch"], ["boost"], 3, ["boost", {}, ""]]})
    assert desk.bought == (("intake_restriction", "filter_plugged", "pressure"),)
    desk.reset()
    assert desk.bought == ()


def test_paper_has_every_reading_and_a_phone_each_alone():
    desk = opened("job_3").desk
    whole = desk.printed("us")
    assert "Cheapest way" in whole.sentence
    assert not any("not paid for" in text for _, text in whole.pictures[0].rows)
    desk.values["buy"] = "boost"
    one = desk.printed("si")
    assert sum("not paid for" in text for _, text in one.pictures[0].rows) == len(PRICES) - 1
