"""The shipped runs are INVENTED, say so, and can be made again to the last digit."""

from dataclasses import replace

import numpy as np
import pytest

from turbomath import uncertainty, units
from turbomath.disk import files
from turbomath.engine import balance
from turbomath.lab import checks, invent
from turbomath.lab.checks import limits
from turbomath.lab.reduction import reduce
from turbomath.lab.run import readings
from turbomath.lab.run.bench import read_bench
from turbomath.table.errors import TurbomathError

RECIPES = {recipe.run: recipe for recipe in invent.RECIPES}
LOADED = [name for name in RECIPES if name.startswith("generator")]


def test_every_shipped_run_has_a_recipe_and_every_recipe_a_run():
    assert sorted(RECIPES) == files.shipped_runs()


@pytest.mark.parametrize("name", RECIPES)
def test_a_recipe_makes_its_file_again(name):
    folder = files.shipped("data") / name
    made = invent.readings_csv(RECIPES[name], read_bench(folder / "bench.toml"))
    assert made == (folder / "readings.csv").read_text(encoding="utf-8")


def test_a_load_that_the_engine_cannot_carry_is_refused():
    recipe = RECIPES["generator_no_aftercooler"]
    asked = replace(recipe, steps=(invent.Step("load", 1800, 58, 1.6),))
    with pytest.raises(TurbomathError, match="at 160% load and 1800 rpm found 'cannot carry this load'"):
        invent.readings_csv(asked, read_bench(files.shipped("data") / recipe.run / "bench.toml"))


@pytest.mark.parametrize(
    ("name", "rated"),
    [
        ("generator_no_aftercooler", (24.0, 7.0, 1.6, 1160.0, 106.6)),
        ("generator_jacket_water", (24.0, 9.0, 1.9, 1143.0, 122.8)),
        ("generator_air_to_air", (24.0, 12.0, 2.3, 1000.0, 131.0)),
    ],
)
def test_at_full_load_the_gauges_show_what_the_engine_was_fitted_to(name, rated):
    """Psi, inH2O, inHg, °F and lb/h of the recipe, within what the gauges may be off; usual values, common practice."""
    run = readings.read_run(name)
    columns = "boost", "intake_restriction", "exhaust_back_pressure", "turbine_inlet_temperature", "fuel_flow"
    for column, fitted in zip(columns, rated, strict=True):
        fitted = units.to_si(fitted, units.display(column, "us"), column)
        width = 2 * uncertainty.standard(run.bench.instrument(column), fitted)
        assert run[column][7] == pytest.approx(fitted, abs=float(width)), column


def test_the_engine_on_the_stand_is_as_it_was_fitted():
    """3.2 psi, 7 inH2O and 0.8 inHg without load at 2250 rpm; 140 kW and 1150 °F at 2100 rpm: common practice."""
    engine = replace(invent.STAND, displacement=0.0084, volumetric_efficiency=0.90)
    site = dict(ambient_pressure=28.87 * 3386.389, ambient_temperature=(64 + 459.67) / 1.8)
    idle = balance.solve(engine, **site, engine_speed=37.5, power=0.0)
    assert idle.boost / 6894.757 == pytest.approx(3.2, abs=0.01)
    assert idle.intake_restriction / 249.0889 == pytest.approx(7.0, abs=0.01)
    assert idle.exhaust_back_pressure / 3386.389 == pytest.approx(0.8, abs=0.005)
    full = balance.solve(engine, **site, engine_speed=35.0, fuel_flow=engine.rated_fuel_flow)
    assert full.power == pytest.approx(140e3, rel=1e-3)
    assert full.turbine_inlet_temperature * 1.8 - 459.67 == pytest.approx(1150.0, abs=0.5)


@pytest.mark.parametrize("name", LOADED)
def test_between_the_loads_the_run_is_one_engine(name):
    """Boost, heat, fuel and restriction rise with load; idle fuel is some per cent of full (common practice)."""
    run = readings.read_run(name)
    for column in (
        "boost",
        "compressor_outlet_temperature",
        "turbine_inlet_temperature",
        "fuel_flow",
        "power",
        "intake_restriction",
        "exhaust_back_pressure",
    ):
        rising = run[column][2:8]
        assert np.all(np.diff(rising) >= 0), column
        assert rising[-1] > rising[0]
    assert 0.02 < run["fuel_flow"][1] / run["fuel_flow"][7] < 0.06
    assert 0.08 < run["fuel_flow"][8] / run["fuel_flow"][7] < 0.20


@pytest.mark.parametrize("name", LOADED)
def test_a_healthy_run_is_free_of_amber_and_red(name):
    assert {flag.level for flag in checks.check_run(readings.read_run(name))} <= {"note"}


def test_the_run_up_is_red_only_for_its_oil_gauge_at_the_stop():
    flags = [flag for flag in checks.check_run(readings.read_run("stand_unloaded_run_up")) if flag.level != "note"]
    assert [(flag.point, flag.column, flag.level) for flag in flags] == [("2", "oil_pressure", "red")]


@pytest.mark.parametrize("name", RECIPES)
def test_every_shipped_file_says_invented(name):
    folder = files.shipped("data") / name
    assert read_bench(folder / "bench.toml").run.invented
    assert "INVENTED" in (folder / "bench.toml").read_text(encoding="utf-8").splitlines()[0]
    rows = (folder / "readings.csv").read_text(encoding="utf-8-sig").splitlines()[1:]
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
