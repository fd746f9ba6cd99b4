"""The shipped runs with a fault are INVENTED, can be made again to the last digit, and each fault is found."""

import pytest

from turbomath.disk import files
from turbomath.engine.faults.naming import SOUND
from turbomath.lab import invent, invent_faults
from turbomath.lab.faults import held_against, told
from turbomath.lab.run.bench import read_bench
from turbomath.lab.run.readings import read_run

RECIPES = {recipe.run: recipe for recipe in invent_faults.RECIPES}
# Run -> the fault it was made with, as the list names it
FAULTS = {
    "sound_on_another_day": SOUND,
    "charge_leak_before": "charge_leak_before",
    "charge_leak_after": "charge_leak_after",
    "exhaust_leak": "exhaust_leak",
    "dirty_aftercooler": "cooler_fouled",
    "restricted_aftercooler": "cooler_restricted",
    "plugged_filter": "filter_plugged",
    "fouled_compressor": "compressor_fouled",
    "worn_turbine": "turbine_worn",
    "vanes_stuck_open": "turbine_open",
    "vanes_stuck_closed": "turbine_closed",
    "wastegate_stuck_open": "wastegate_open",
    "wastegate_stuck_closed": "wastegate_closed",
    "restricted_exhaust": "exhaust_restricted",
    "late_timing": "late_timing",
    "overfuelled": "overfuelled",
    "underfuelled": "underfuelled",
    "boost_gauge_off": "zero: boost",
    "back_pressure_scale": "scale: exhaust_back_pressure",
    "wrong_thermocouple": "wrong type: turbine_inlet_temperature low",
    "swapped_thermometers": "swapped: manifold_temperature compressor_outlet_temperature",
    "thermometer_in_the_sun": "in the sun: ambient_temperature",
    "restriction_port": "port: intake_restriction",
}


def test_every_shipped_fault_has_a_recipe_and_says_that_it_is_invented():
    assert sorted(RECIPES) == files.shipped_runs("faults")
    assert {f"faults/{name}" for name in FAULTS} == set(invent_faults.BASELINES)
    assert all(read_run(name).bench.run.invented for name in RECIPES)


@pytest.mark.parametrize("name", RECIPES)
def test_a_recipe_makes_its_files_again(name):
    folder = files.shipped("data") / name
    assert invent_faults.bench_toml(RECIPES[name]) == (folder / "bench.toml").read_text(encoding="utf-8")
    made = invent.readings_csv(RECIPES[name], read_bench(folder / "bench.toml"))
    assert made == (folder / "readings.csv").read_text(encoding="utf-8")


@pytest.mark.parametrize("name", FAULTS)
def test_the_fault_of_a_run_is_named_first_and_in_words(name):
    run = f"faults/{name}"
    found = held_against.found_in(read_run(run), read_run(invent_faults.BASELINES[run]))
    assert found.diagnosis.best.name == FAULTS[name]
    assert found.diagnosis.fits
    assert (told.test_asked(found) is None) == (FAULTS[name] == SOUND)
    said = " ".join(told.on_terminal(found).split())
    assert told.name_of(found.diagnosis.best) in said or FAULTS[name] == SOUND
    assert "from a simulation" in said
    assert "The maker's manual comes first" in said
