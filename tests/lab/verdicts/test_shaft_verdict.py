"""Whether the shaft closes: each answer, from the shipped INVENTED runs with one thing altered."""

import pytest

from tests.lab.verdicts.altered import coarse, read, without
from turbomath.lab import verdicts
from turbomath.lab.reduction.reduce import reduce_run
from turbomath.lab.run.readings import read_run

RUN = read_run("generator_air_to_air")


def judged(run):
    return verdicts.judge_run(reduce_run(run))


@pytest.mark.parametrize("name", ["generator_air_to_air", "generator_jacket_water", "generator_no_aftercooler"])
def test_a_shipped_run_with_exhaust_readings_closes(name):
    found = judged(read_run(name))
    assert found.shaft.answer == verdicts.HOLDS
    assert found.shaft.sentence.startswith("The shaft closes: at point 7 the compressor takes 0.9")
    assert "± 0.0" in found.shaft.sentence
    assert "common practice" in found.shaft.source


def test_it_is_not_asked_where_nothing_was_read_after_the_turbine():
    assert judged(read_run("stand_unloaded_run_up")).shaft is None


def test_more_than_the_turbine_can_give():
    found = judged(read(RUN, turbine_inlet_temperature=lambda one: one - 40))
    assert found.shaft.answer == verdicts.FAILS
    assert "No turbine gives less than its compressor takes" in found.shaft.sentence
    assert "look first at the thermometers of the shaft" in found.overall
    assert found.machines.answer == verdicts.HOLDS


def test_far_less_than_the_turbine_gives():
    found = judged(read(RUN, turbine_inlet_temperature=lambda one: one + 40))
    assert found.shaft.answer == verdicts.FAILS
    assert "leak between the two ends" in found.shaft.sentence


def test_a_missing_end_is_named():
    found = judged(without(RUN, "compressor_outlet_temperature"))
    assert found.shaft.answer == verdicts.UNKNOWN
    assert found.shaft.sentence.endswith("cannot be said: no reading of compressor outlet temperature.")


def test_coarse_thermometers_cannot_tell():
    found = judged(coarse(RUN, "turbine_inlet_temperature", 15.0))
    assert found.shaft.answer == verdicts.UNKNOWN
    assert "these readings cannot tell" in found.shaft.sentence
