"""The ± beside each number holds when every gauge is drawn from its rectangle, or there is no number."""

import numpy as np
import pytest

from turbomath import air as air_models
from turbomath.lab.reduction.reduce import measured_and_theoretical, reduce_run
from turbomath.lab.reduction.stations import gauge_readings
from turbomath.lab.run.readings import read_run
from turbomath.table.errors import unwarned

pytestmark = pytest.mark.long
DRAWS = 4_000
RUNS = ("generator_air_to_air", "generator_jacket_water", "stand_unloaded_run_up")
NAMES = ("mass_flow_gain", "greatest_possible_gain", "measured_charge_gain", "effectiveness", "compressor_efficiency")


@unwarned()
def drawn(run):
    """Every measured result, a row for each draw; one error of each gauge for all points, as in a shop."""
    values, unsure = gauge_readings(run)
    random = np.random.default_rng(20260312)
    errors = {name: random.uniform(-np.sqrt(3), np.sqrt(3), (DRAWS, 1)) for name in values}
    read = {name: np.asarray(value) + errors[name] * unsure[name] for name, value in values.items()}
    return measured_and_theoretical(run, air_models.choose("moist"), read)


@pytest.mark.parametrize("name", RUNS)
def test_the_width_shown_is_that_of_the_draws_and_a_number_is_shown_where_the_draws_have_one(name):
    run = read_run(name)
    reduced, draws = reduce_run(run, air="moist"), drawn(run)
    efficiency = draws["compressor_efficiency"]
    impossible = np.mean(~((efficiency > 0) & (efficiency <= 1)), axis=0)
    for result in ("mass_flow_gain", "greatest_possible_gain"):
        shown = np.isfinite(reduced[result].value)
        assert not (shown & (impossible > 0.03)).any()
        hidden = np.isfinite(reduced["compressor_efficiency"].value) & ~shown & (run["boost"] > 0)
        cooled = run.bench.engine.aftercooler != "none" or result == "greatest_possible_gain"
        assert not cooled or (impossible[hidden] > 0.01).all()
    for result in NAMES:
        for row in np.flatnonzero(np.isfinite(reduced[result].value) & (run["boost"] >= 2 * 6894.757)):
            spread = np.nanstd(draws[result][:, row])
            assert reduced[result].standard_uncertainty[row] == pytest.approx(spread, rel=0.12), (result, row)
            inside = np.abs(draws[result][:, row] - reduced[result].value[row]) <= reduced[result].plus_or_minus[row]
            assert inside.mean() > 0.93, (result, row)
