"""What the design is at each point: itself at the rated one, other flows by rules that know their own ±."""

import numpy as np
import pytest

from tests.lab.verdicts.altered import FULL_LOAD, MAKER, generator, stated, up_to
from turbomath.lab.reduction.design_here import RULES, design_here, rated_row, stated_design
from turbomath.lab.reduction.stations import gauge_readings
from turbomath.lab.run.amounts import Stated
from turbomath.lab.run.bench import Design
from turbomath.lab.run.readings import read_run

NAMES = ("compressor_efficiency", "effectiveness", "cooler_pressure_loss")


def here(run, row=FULL_LOAD, **rules):
    """Return the design at each row of a run, the rules as far off as is said."""
    values, _ = gauge_readings(run)
    design = {f"design_{name}": one.value for name, one in stated_design(run.bench).items()}
    found = design_here(run, values | design | dict.fromkeys(RULES, 0.0) | rules, row)
    return {name: found[f"design_{name}"] for name in NAMES if f"design_{name}" in found}


@pytest.mark.parametrize("maker", [None, MAKER])
def test_the_rated_point_has_the_design_itself(maker):
    found = here(generator(maker))
    for name, value, near in zip(NAMES, (0.74, 0.80, 1.5 * 6894.757), (1e-4, 0.004, 300.0), strict=True):
        assert found[name][FULL_LOAD] == pytest.approx(value, abs=near)


def test_loss_follows_flow_squared_over_density():
    # Kays and London, eq. 2-26a: friction factor unchanged. Flow is speed x density here, the speed is the same
    run = generator(None)
    density = (run["boost"] + run["barometer"]) / run["manifold_temperature"]
    loads = run["load"] >= 0.25
    ratio = (density / density[FULL_LOAD])[loads]
    assert here(run)["cooler_pressure_loss"][loads] == pytest.approx(1.5 * 6894.757 * ratio, rel=1e-6)


def test_less_flow_is_cooled_better_as_its_transfer_units_say():
    # almost all the resistance on the charge side and much more water than charge: effectiveness = 1 - exp(-NTU),
    # NTU as flow^-0.2 (Incropera, eq. 8.60: the film as flow^0.8)
    run = generator(None, "generator_jacket_water")
    density = (run["boost"] + run["barometer"]) / run["manifold_temperature"]
    ratio = density[3] / density[FULL_LOAD]
    near = -np.expm1(np.log(1 - 0.75) * ratio**-0.2)
    assert here(run)["effectiveness"][3] == pytest.approx(near, abs=0.015)
    assert here(run)["effectiveness"][3] > 0.75


def test_each_rule_may_be_off_and_more_so_far_from_the_rated_point():
    run = generator(None)
    for rule, name in zip(RULES, NAMES, strict=True):
        off = np.abs(here(run, **{rule: 1.0})[name] - here(run)[name])
        assert off[FULL_LOAD] == pytest.approx(0.0, abs=1e-9)
        assert off[2] > off[5] > 0


def test_a_run_to_part_load_is_not_taken_for_the_rated_point():
    half = here(up_to(generator(None), 0.55), row=4)
    assert half["effectiveness"][4] > 0.82
    assert half["cooler_pressure_loss"][4] < 0.8 * 1.5 * 6894.757


def test_the_makers_point_tells_how_far_a_part_load_is():
    for name in NAMES:
        maker, own = here(generator(MAKER))[name], here(generator(None))[name]
        assert maker[2] == pytest.approx(own[2], rel=0.02)


def test_an_engine_without_aftercooler_has_a_compressor_only():
    assert set(here(generator(None, "generator_no_aftercooler"))) == {"compressor_efficiency"}


def test_a_design_without_its_own_width_gets_the_usual_one():
    bare = Design(Stated(0.74), Stated(0.80, 0.05), Stated(10_000.0))
    widths = [one.tolerance for one in stated_design(stated(generator(), design=bare).bench).values()]
    assert widths == pytest.approx([0.03, 0.05, 2_500.0])


def test_no_loss_is_below_zero_however_far_the_rule_is_off_where_nothing_flows():
    for rule in (-4.0, 4.0):
        found = here(generator(None), rule_of_loss=rule)["cooler_pressure_loss"]
        assert np.all(found[~np.isnan(found)] >= 0)


def test_the_design_holds_where_the_boost_is_most_and_not_where_the_manifold_pressure_is(run_folder):
    """An INVENTED run of two days: 120 kPa of boost at 80 kPa outside, then 110 kPa at 101 kPa."""
    head = "point,condition,load [%],barometer [kPa],ambient temperature [°C],boost [kPa]"
    bench = '[run]\ntitle = "INVENTED"\ninvented = true\nunits = "si"\n[engine]\naftercooler = "none"\n'
    run = read_run(run_folder(f"{head}\n1,load,100,80,20,120\n2,load,100,101,20,110\n", bench))
    assert rated_row(run, gauge_readings(run)[0]) == 0
