"""The kit's own Sobol points against scipy's, bit for bit: the same seed gives the same ± to the last digit."""

import numpy as np
import pytest
from scipy.stats import qmc

from turbomath import uncertainty
from turbomath.sobol import MOST_DIMENSIONS, sobol_points


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
