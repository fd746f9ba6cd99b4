"""The shipped runs are INVENTED, say so, and can be made again to the last digit."""

import numpy as np
import pytest

from turbomath import files
from turbomath.lab import invent, limits, readings, reduce
from turbomath.lab.bench import read_bench

RECIPES = {recipe.run: recipe for recipe in invent.RECIPES}
LOADED = [name for name in RECIPES if name.startswith("generator")]


def test_every_shipped_run_has_a_recipe_and_every_recipe_a_run():
    assert sorted(RECIPES) == files.shipped_runs()


@pytest.mark.parametrize("name", RECIPES)
def test_a_recipe_makes_its_file_again(name):
    folder = files.shipped("data") / name
    made = invent.readings_csv(RECIPES[name], read_bench(folder / "bench.toml"))
    assert made == (folder / "readings.csv").read_text(encoding="utf-8")


@pytest.mark.parametrize("name", RECIPES)
def test_every_shipped_file_says_invented(name):
    folder = files.shipped("data") / name
    assert read_bench(folder / "bench.toml").run.invented
    assert "INVENTED" in (folder / "bench.toml").read_text(encoding="utf-8").splitlines()[0]
    rows = (folder / "readings.csv").read_text(encoding="utf-8").splitlines()[1:]
    assert all("INVENTED" in row for row in rows)


def test_the_data_page_begins_with_invented():
    assert (files.shipped("data") / "README.md").read_text(encoding="utf-8").startswith("INVENTED")


@pytest.mark.parametrize("name", LOADED)
def test_a_healthy_run_agrees_with_theory_at_every_load_step(name):
    run = readings.read_run(name)
    reduced = reduce.reduce_run(run)
    loaded = [answer for answer, condition in zip(reduced.agree, run.conditions, strict=True) if condition == "load"]
    assert loaded == ["yes"] * 6
    assert not [flag for flag in limits.limit_flags(run) if flag.level == "limit"]


@pytest.mark.parametrize("name", RECIPES)
def test_zero_idle_and_high_idle_are_there_with_oil_pressure(name):
    run = readings.read_run(name)
    for condition in ("zero", "low idle", "high idle"):
        row = run.conditions.index(condition)
        assert run.pegged["oil_pressure"][row] or np.isfinite(run["oil_pressure"][row])


def test_the_same_boost_carries_one_third_more_air_with_the_air_to_air_aftercooler():
    flow = {name: reduce.reduce_run(readings.read_run(name))["air_flow"].value[7] for name in LOADED}
    gain = flow["generator_air_to_air"] / flow["generator_no_aftercooler"] - 1
    assert gain == pytest.approx(0.334, abs=0.03)  # the reference case, hand-worked
    assert flow["generator_no_aftercooler"] < flow["generator_jacket_water"] < flow["generator_air_to_air"]


def test_the_unloaded_run_up_pegs_its_oil_gauge_cold_and_nothing_is_computed_from_it():
    run = readings.read_run("stand_unloaded_run_up")
    row = run.conditions.index("high idle")
    assert run.pegged["oil_pressure"][row]
    assert np.isnan(run["oil_pressure"][row])
    assert run.at_least["oil_pressure"][row] == pytest.approx(100 * 6894.757, rel=1e-6)  # NIST SP 811
    assert not [flag for flag in limits.limit_flags(run) if flag.level == "limit"]


def test_its_boost_is_too_small_to_judge_the_compressor():
    reduced = reduce.reduce_run(readings.read_run("stand_unloaded_run_up"))
    running = reduced["compressor_efficiency"].plus_or_minus[1:]
    assert np.all(running > 0.3)
