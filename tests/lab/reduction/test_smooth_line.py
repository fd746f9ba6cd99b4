"""A line through points that err both ways: a published one, its ±, and what common errors do to it."""

import numpy as np
import pytest

from turbomath.lab.reduction import smooth_line as module
from turbomath.lab.reduction.smooth_line import Points, smooth_line

# Pearson's points with York's weights: York, Can. J. Phys. 44 (1966) 1079; the line as in York and others, Am. J. Phys.
# 72 (2004) 367, table III (from memory)
X = np.array([0.0, 0.9, 1.8, 2.6, 3.3, 4.4, 5.2, 6.1, 6.5, 7.4])
Y = np.array([5.9, 5.4, 4.4, 4.6, 3.5, 3.7, 2.8, 2.8, 2.4, 1.5])
X_WEIGHTS = np.array([1000, 1000, 500, 800, 200, 80, 60, 20, 1.8, 1.0])
Y_WEIGHTS = np.array([1, 1.8, 4, 8, 20, 20, 70, 70, 100, 500.0])
YORK = {"intercept": (5.47991, 0.29497), "slope": (-0.480533, 0.057985)}


def points(x, y, across, upwards, common=0.0):
    """Points with errors of each alone, and one *common* to all that moves them along y."""
    each = np.eye(len(x))
    x_shares = {("x", str(turn)): across * row for turn, row in enumerate(each)}
    y_shares = {("y", str(turn)): upwards * row for turn, row in enumerate(each)} | {("all",): common + 0 * y}
    names = x_shares | y_shares
    none = np.zeros(len(x))
    return Points(x, y, *({one: shares.get(one, none) for one in names} for shares in (x_shares, y_shares)), {})


def test_the_published_line_and_its_plus_or_minus_come_out(monkeypatch):
    monkeypatch.setattr(module, "BEND_FROM", 99)  # the published one is straight
    line = smooth_line(points(X, Y, X_WEIGHTS**-0.5, Y_WEIGHTS**-0.5))
    slope = (line.at(7.4) - line.at(0.0)) / 7.4
    assert line.at(0.0) == pytest.approx(YORK["intercept"][0], abs=5e-6)
    assert slope == pytest.approx(YORK["slope"][0], abs=5e-7)
    as_slope = np.array([[1, -1], [0, 2 / 7.4]]) @ line.moved
    unsure = np.sqrt((as_slope**2).sum(axis=1))
    assert unsure == pytest.approx([YORK["intercept"][1], YORK["slope"][1]], rel=1e-4)
    assert line.plus_or_minus(0.0) == pytest.approx(2 * unsure[0], rel=0.05)


def test_a_bent_line_is_where_nothing_lies_nearer():
    """Beside a search for the least sum of squares over line and true places, by a general library."""
    from scipy.optimize import least_squares

    bent, across, upwards = Y + 0.3 * X**2, 0.2 + 0.02 * X, 0.5 - 0.03 * X

    def off(numbers):
        coefficients, stands = numbers[:3], numbers[3:]
        there = coefficients[0] + coefficients[1] * stands + coefficients[2] * stands**2
        return np.concatenate([(X - stands) / across, (bent - there) / upwards])

    best = least_squares(off, [5, 0, 0.1, *X], xtol=1e-14, ftol=1e-14, gtol=1e-14).x[:3]
    line = smooth_line(points(X, bent, across, upwards))
    assert line.bends
    assert line.at(X) == pytest.approx(np.polyval(best[::-1], X), abs=0.05 * upwards.min())


def test_points_at_too_few_places_make_a_straight_line_and_at_one_place_none():
    places = np.repeat([1.0, 2.0, 2.1], 3)
    line = smooth_line(points(places, places**2, 0.01 + 0 * places, 0.1 + 0 * places))
    assert not line.bends
    assert smooth_line(points(0 * places, places, 0.01 + 0 * places, 0.1 + 0 * places)) is None


def test_a_common_error_stays_whole_however_many_points_there_are():
    for count in (6, 60):
        x = np.linspace(1, 2, count)
        line = smooth_line(points(x, 2 * x, 0.001 + 0 * x, 0.001 + 0 * x, common=0.1))
        assert line.plus_or_minus(1.5) == pytest.approx(0.1 * 3**0.5, rel=0.05)  # of one rectangle all, GUM 4.3.7


def test_a_point_that_lies_off_is_told_and_sound_ones_are_not():
    x = np.linspace(1, 2, 12)
    y = 2 * x + np.where(np.arange(12) == 7, 0.5, 0.0)
    far = np.abs(smooth_line(points(x, y, 0.01 + 0 * x, 0.05 + 0 * x)).distance)
    assert np.argmax(far) == 7
    assert far[7] > 1
    assert (np.delete(far, 7) < 1).all()


@pytest.mark.long
def test_the_truth_lies_inside_in_19_of_20_with_some_errors_common_and_some_own():
    chance, inside, called, count = np.random.default_rng(7), [], [], 250
    wide = np.sqrt(3) * np.array([0.01, 0.02, 0.02])
    for _ in range(count):
        stands = np.sort(chance.uniform(0.2, 0.5, 9))
        errors = chance.uniform(-1, 1, (2, 9)), chance.uniform(-1, 1)
        x = stands + wide[0] * errors[0][0]
        y = 1 + 4 * stands**1.3 + wide[1] * errors[0][1] + wide[2] * errors[1]
        flat = np.ones(9)
        line = smooth_line(points(x, y, 0.01 * flat, 0.02 * flat, common=0.02))
        at = chance.uniform(line.low, line.high)
        inside.append(abs(line.at(at) - 1 - 4 * at**1.3) <= line.plus_or_minus(at))
        called.append((np.abs(line.distance) > 1).any())
    assert 0.91 < np.mean(inside) < 0.985  # 95.45 of 100; three standard deviations of 250
    assert np.mean(called) < 0.09
