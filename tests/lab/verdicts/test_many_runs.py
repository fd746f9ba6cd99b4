"""Simulated engines with real gauge grades, none of the kit's code behind them: the bars, on few of them.

`tests/benchmarks/verdicts.py` draws thousands. With so few the limits are those that a sound kit passes in all but one
of a thousand draws: of 60 runs at a risk of 5 % more than 9 wrong ones have a chance below 0.001 (binomial).
"""

import pytest

from tests.lab.verdicts.many_runs import LOST_BOOST, answers, share
from turbomath.lab import verdicts

pytestmark = pytest.mark.long
SOUND, FAULTY = 60, 30
QUESTIONS = ("boost", "machines", "charge")


@pytest.mark.parametrize("known", [{}, {"rated": False}, {"earlier": False}], ids=["both", "earlier run", "maker"])
def test_sound_engines_are_left_alone(known):
    found = answers(SOUND, **known)
    assert all(share(found, question) <= 9 / SOUND for question in QUESTIONS)
    assert share(found, "boost", verdicts.HOLDS) > 0.8


def test_without_anything_to_compare_with_the_boost_is_taken_as_given():
    found = answers(FAULTY, rated=False, earlier=False)
    assert share(found, "boost", verdicts.UNKNOWN) == 1.0


@pytest.mark.parametrize("cause", LOST_BOOST)
def test_boost_15_per_cent_low_is_seen_and_only_that_verdict_says_so(cause):
    found = answers(FAULTY, cause, rated=False)
    assert share(found, "boost") >= 0.9
    assert share(found, "machines") <= 0.25
    assert all(one.overall.startswith("The boost is too low") for one in found if one.boost.answer == verdicts.FAILS)


def test_a_compressor_8_points_below_its_design_is_seen():
    assert share(answers(FAULTY, "compressor"), "machines") >= 0.85


def test_an_aftercooler_10_points_below_its_design_is_seen():
    found = answers(2 * FAULTY, "aftercooler")
    cooled = [one for one in found if any(point.quantity == "effectiveness" for point in one.machines.points)]
    assert len(cooled) > FAULTY
    assert share(cooled, "machines") >= 0.85
