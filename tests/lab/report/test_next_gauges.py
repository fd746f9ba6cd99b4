"""What to read next: the one or two gauges that open the most results. The run is INVENTED."""

import pytest

from tests.lab.verdicts.altered import generator, without
from turbomath.lab.reduction.reduce import reduce_run
from turbomath.lab.reduction.results import RESULTS
from turbomath.lab.report.next_gauges import GAUGES, next_gauges_sentence
from turbomath.lab.report.sentences import missing_lines

ONE, TWO, THREE, BENCH = "manifold_pressure", "ambient_pressure", "fuel_flow", "displacement"


@pytest.mark.parametrize(
    ("wanting", "sentence"),
    [
        ({}, ""),
        ({"a": (ONE,), "b": (ONE,)}, ""),  # two results are not worth a word
        ({"a": (ONE,), "b": (ONE,), "c": (ONE,)}, "What would tell most: the boost. With that, 3 results"),
        ({"a": (ONE,), "b": (ONE, TWO), "c": (TWO, ONE)}, "What would tell most: the boost, then the barometer."),
        ({"a": (TWO,), "b": (TWO,), "c": (THREE,)}, "What would tell most: the barometer, then the fuel flow. With"),
        ({"a": (BENCH,), "b": (ONE, BENCH), "c": (ONE,), "d": ()}, ""),
    ],
)
def test_the_gauges_that_open_most_are_named_the_better_one_first(wanting, sentence):
    found = next_gauges_sentence(wanting)
    assert found.startswith(sentence)
    assert bool(found) == bool(sentence)


def test_every_gauge_of_the_advice_is_one_that_a_result_may_lack():
    assert set(GAUGES) <= {need for needs in RESULTS.values() for need in needs}


def test_of_manifold_sensors_alone_the_barometer_tells_most():
    few = ("boost", "manifold_temperature", "engine_speed", "fuel_flow", "load")
    run = generator()
    reduced = reduce_run(without(run, *(name for name in run.values if name not in few)))
    first = missing_lines(reduced)[0]
    assert first.startswith("What would tell most: the barometer, then ")
    with_it = reduce_run(without(run, *(name for name in run.values if name not in (*few, "barometer"))))
    assert len(with_it.missing) < len(reduced.missing)


def test_where_little_is_wanting_nothing_is_said():
    assert not missing_lines(reduce_run(generator()))[0].startswith("What would tell most")
