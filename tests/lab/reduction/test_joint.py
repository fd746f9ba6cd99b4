"""One statement for all points of a run: how wide its ± is, against closed forms and against errors drawn here."""

import numpy as np
import pytest

from tests.lab.verdicts.altered import coarse, generator
from turbomath.lab.reduction.joint import DRAWN_RISK, RISK, Differences, coverage, joined, own_parts, split

ALONE = np.zeros(8)


def one_each(inputs):
    """Eight points, each with so many errors of its own, all of one size."""
    shared = {f"{point} {number}": np.eye(8)[point] for point in range(8) for number in range(inputs)}
    return Differences(np.zeros(8), shared, ALONE)


def test_one_error_common_to_all_points_widens_nothing():
    common = Differences(np.zeros(8), {"boost": np.linspace(1, 5, 8)}, ALONE)
    assert coverage(common) == 2.0  # the factor of the rest of a report


def test_errors_of_each_point_alone_widen_as_the_triangle_says():
    # two equal rectangles make a triangle of half-width a: P(|x| < y a) = 1 - (1 - y)^2, to the power of eight points
    y = 1 - np.sqrt(1 - (1 - DRAWN_RISK) ** (1 / 8))
    assert coverage(one_each(2)) == pytest.approx(y * np.sqrt(6), abs=0.03)


def test_a_step_of_each_point_counts_as_an_error_of_its_own():
    stepped = Differences(np.zeros(8), {str(point): np.eye(8)[point] for point in range(8)}, np.ones(8))
    assert coverage(stepped) == pytest.approx(coverage(one_each(2)), abs=0.05)


@pytest.mark.parametrize("inputs", [2, 3, 6])
def test_a_sound_run_is_called_wrong_no_more_often_than_stated(inputs):
    random = np.random.default_rng(inputs)
    sensitivity, own = random.normal(size=(inputs, 8)), random.uniform(0, 1, 8)
    shared = {str(number): one for number, one in enumerate(sensitivity)}
    found = Differences(np.zeros(8), shared, own)
    errors = random.uniform(-np.sqrt(3), np.sqrt(3), (20_000, inputs)) @ sensitivity
    errors += own * random.uniform(-np.sqrt(3), np.sqrt(3), (20_000, 8))
    false = (np.abs(errors) > coverage(found) * found.standard_uncertainty).any(axis=1).mean()
    assert 0.01 < false <= RISK


def test_a_gauge_named_twice_moves_both_sets_together():
    one = Differences(np.zeros(2), {"boost": np.array([1.0, 1.0])}, np.zeros(2))
    other = Differences(np.zeros(1), {"boost": np.array([-2.0]), "fuel": np.array([1.0])}, np.zeros(1))
    both = joined([one, other])
    assert both.shared["boost"] == pytest.approx([1, 1, -2])
    assert both.shared["fuel"] == pytest.approx([0, 0, 1])
    assert both.standard_uncertainty == pytest.approx([1, 1, np.sqrt(5)])


def test_a_reading_step_is_each_points_own_and_the_rest_is_common():
    run = generator()  # 1 % of 60 psi, read to 0.5 psi: the step has 0.25^2 of 0.25^2 + 0.6^2
    step, unsteady = (part[7] for part in own_parts(run, np.arange(len(run)))["boost"])
    assert step == pytest.approx(0.25**2 / (0.25**2 + 0.6**2))
    assert unsteady == pytest.approx((0.005 * 24) ** 2 / (0.25**2 + 0.6**2), rel=0.01)
    parted = split(np.zeros(1), {"boost": np.array([2.0])}, {"boost": (np.array([step]), np.array([0.0]))})
    assert parted.standard_uncertainty == pytest.approx([2.0])
    assert parted.own == pytest.approx([2 * np.sqrt(step)])


def test_a_gauge_without_a_step_has_only_its_unsteadiness_alone():
    step, unsteady = own_parts(coarse(generator(), "boost", 6894.757), np.array([7]))["boost"]
    assert (step, unsteady > 0) == (0.0, True)
