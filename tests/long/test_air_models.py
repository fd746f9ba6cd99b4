"""A million fresh points: outlet temperature and density of real air against the equation solved to rounding.

Not part of a plain pytest: `python -m pytest tests/long/test_air_models.py` takes about ten minutes.
"""

import numpy as np
import pytest

from tests.air import solved
from tests.air.test_real import BAR, REAL, engine, states, whole_range
from turbomath.air.equation import HIGHEST

FRESH = np.random.SeedSequence().entropy % 2**32


@pytest.mark.timeout(7200)
@pytest.mark.parametrize(("draw", "count"), [(engine, 700_000), (whole_range, 300_000)])
def test_outlet_temperature_on_a_million_fresh_points(draw, count):
    compressors = draw(count, FRESH)
    exact = np.array([solved.outlet_temperature(*one) for one in zip(*compressors, strict=True)])
    inside = exact <= HIGHEST
    found = REAL.outlet_temperature(*(one[inside] for one in compressors))
    np.testing.assert_allclose(found, exact[inside], rtol=BAR, err_msg=f"seed {FRESH}")


@pytest.mark.timeout(7200)
def test_density_on_a_million_fresh_points():
    pressure, temperature = states(1_000_000, FRESH)
    exact = np.array([solved.at(*one)[0] for one in zip(pressure, temperature, strict=True)])
    np.testing.assert_allclose(REAL.density(pressure, temperature), exact, rtol=BAR, err_msg=f"seed {FRESH}")
