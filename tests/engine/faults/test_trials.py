"""A few cases of the hard world; how often all of it is right is counted by `python -m tests.benchmarks.faults`."""

from dataclasses import replace

import numpy as np
import pytest

from tests.engine import fault_world as hard
from tests.engine.fault_trials import alone, trials
from turbomath.engine.faults.changes import FREE, GOVERNOR, RACK
from turbomath.engine.faults.naming import SOUND, diagnosis, whitened
from turbomath.engine.faults.pairs import pairs

PLAIN = ("filter_plugged", "cooler_fouled", "exhaust_restricted", "late_timing")


@pytest.fixture(scope="module")
def few():
    """Return {what is wrong: its trials}, all twice the moderate size at least; sound engines under ()."""
    wrong = [(), (), (), *((name,) for name in (*PLAIN, *hard.UNLISTED)), ("filter_plugged", "cooler_fouled")]
    found = {}
    for names, one in zip(wrong, trials(5, wrong, share=2.0), strict=True):
        found.setdefault(names, []).append(one)
    return found


def test_a_fault_of_twice_the_moderate_size_is_among_the_first_two(few):
    for name in PLAIN:
        (one,) = few[(name,)]
        assert name in [named.name for named in one.found.named[:2]]
        assert one.found.of(SOUND) < 0.01


def test_a_sound_engine_is_left_alone(few):
    found = [one.found for one in few[()]]
    assert sum(one.best.name == SOUND for one in found) >= 2
    assert all(one.fits for one in found)


def test_a_fault_that_is_on_no_list_is_called_so(few):
    assert sum(few[(name,)][0].found.fits for name in hard.UNLISTED) <= 1


def test_two_faults_are_found_together(few):
    names = ("filter_plugged", "cooler_fouled")
    assert set(names) in [set(pair.names) for pair in pairs(few[names][0].changes)[:3]]


def test_the_chances_add_up_and_the_noise_is_whitened(few):
    """A covariance C = L L' turned by L has the unit matrix: the sum of squares is then chi square (GUM, 5.2)."""
    one = few[()][0]
    assert sum(named.probability for named in one.found.named) == pytest.approx(1.0)
    change, _ = whitened(one.changes, FREE)
    noise = one.changes.noise + 0.3**2 * one.changes.fuel.T @ one.changes.fuel
    straight = one.changes.change @ np.linalg.solve(noise, one.changes.change)
    assert change @ change == pytest.approx(straight, rel=1e-6)
    assert set(one.changes.settings) == {RACK, GOVERNOR}


def test_a_gauge_whose_own_width_is_larger_tells_less(few):
    """Ten times the width of every gauge: what was sure is no longer."""
    (one,) = few[("late_timing",)]
    sure = one.found.best.probability
    wide = replace(one.changes, noise=100 * one.changes.noise)
    assert diagnosis(wide).best.probability < sure
    assert diagnosis(wide).of(SOUND) > one.found.of(SOUND)


@pytest.mark.parametrize("fitted", [False, True], ids=["ready", "fitted"])
def test_with_no_run_beside_it_no_sound_engine_is_accused_and_a_gross_fault_is_still_told(fitted):
    """Of other engines' gauges, each off all its life: only what no engine of the trade would show may be named."""
    *sound, swapped = alone(5, [(), (), ("swapped",)], share=2.0, fitted=fitted)
    for one in sound:
        assert one.changes.alone
        assert one.found.best.name == SOUND
        assert one.found.fits
    assert (swapped.found.best.name,) == swapped.wrong
    assert swapped.found.of(SOUND) < 0.01
