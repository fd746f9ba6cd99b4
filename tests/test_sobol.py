"""The kit's own Sobol points against scipy's, bit for bit: the same seed gives the same ± to the last digit."""

import numpy as np
import pytest
from scipy.special import ndtri
from scipy.stats import qmc

from turbomath import uncertainty
from turbomath.sobol import MOST_DIMENSIONS, normal_points, sobol_points


@pytest.mark.parametrize("dimensions", [1, 2, 28, MOST_DIMENSIONS])
@pytest.mark.parametrize(("count", "seed"), [(4096, 20260312), (1000, 7), (1, 3)])
@pytest.mark.filterwarnings("ignore:The balance properties:UserWarning")
def test_the_points_are_those_of_scipy_to_the_last_bit(count, dimensions, seed):
    assert np.array_equal(sobol_points(count, dimensions, seed), qmc.Sobol(dimensions, seed=seed).random(count))


@pytest.mark.parametrize("dimensions", [MOST_DIMENSIONS, MOST_DIMENSIONS + 1])
def test_more_inputs_than_the_table_has_are_taken_too(dimensions):
    """A sum of so many equal rectangular errors: its standard uncertainty is their number's square root."""
    names = [f"x{turn}" for turn in range(dimensions)]
    found = uncertainty.propagate(
        lambda **given: sum(given.values()), dict.fromkeys(names, 1.0), dict.fromkeys(names, 0.1), method="sobol"
    )
    assert found["result"].standard_uncertainty == pytest.approx(0.1 * np.sqrt(dimensions), rel=0.05)


def test_where_the_table_ends_each_dimension_is_still_evenly_filled():
    points = sobol_points(1000, MOST_DIMENSIONS + 3, 7)
    assert np.array_equal(points[:, :MOST_DIMENSIONS], sobol_points(1000, MOST_DIMENSIONS, 7))
    assert all(len(set((1000 * column).astype(int))) == 1000 for column in points[:, MOST_DIMENSIONS:].T)


def test_normal_points_are_those_of_scipy():
    even = np.concatenate([[1e-12, 1 - 1e-12], sobol_points(4096, 2, 3).ravel()[1:]])
    assert normal_points(even) == pytest.approx(ndtri(even), rel=1e-12, abs=1e-15)
