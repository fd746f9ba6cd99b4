"""The engine of one reading: theory at its stations, what was read beside it, and nothing where nothing is known."""

import dataclasses

import numpy as np
import pytest

from tests.lab.verdicts.altered import FULL_LOAD, generator, stated, without
from turbomath.lab.reduction.reduce import reduce_run
from turbomath.lab.report.engine_drawn import engine_of_readings
from turbomath.lab.run.bench import Design
from turbomath.lab.run.channels import AFTERCOOLERS
from turbomath.pictures.air_path import COOLERS


@pytest.fixture(scope="module")
def drawn():
    return engine_of_readings(reduce_run(generator()), FULL_LOAD, "us")


def test_what_was_read_stands_at_its_station_with_twice_its_standard_uncertainty(drawn):
    """By hand, with the instruments of bench.toml.

    Boost, grade 1A (ASME B40.100: 1 % of span) of 60 psi, read to 0.5: hypot(0.6, 0.25) = 0.65 psi; over the square
    root of 3, twice: 0.75. Type K, standard (ASTM E230: 4 F° below 561 °F), read to 1 °F: hypot(4, 0.5) = 4.03 F°; 4.7.
    """
    assert drawn.stations["manifold"].read == "24.0 ± 0.8 psi, 132 ± 5 °F"
    assert drawn.stations["compressor_outlet"].read == "338 ± 5 °F"
    assert drawn.stations["ambient"].read.startswith("77 ± ")
    assert drawn.stations["turbine_inlet"].read.startswith("1005 ± ")


def test_the_stations_are_those_of_theory_at_the_boost_that_was_read(drawn):
    reduced = reduce_run(generator())
    outside, manifold = drawn.stations["ambient"], drawn.stations["manifold"]
    gain = manifold.density / outside.density - 1
    assert gain == pytest.approx(reduced["theoretical_charge_gain"].value[FULL_LOAD], rel=1e-9)
    assert manifold.pressure - outside.pressure == pytest.approx(24.0 * 6894.757, rel=1e-6)
    assert drawn.aftercooler == "air-to-air"


def test_the_shaft_has_the_power_that_the_compressor_takes(drawn):
    assert drawn.shaft_power == pytest.approx(reduce_run(generator())["compressor_power"].value[FULL_LOAD])


def test_without_a_design_there_is_no_theory_to_draw():
    assert engine_of_readings(reduce_run(stated(generator(), design=Design())), FULL_LOAD, "us") is None


def test_what_was_not_read_is_not_said():
    bare = reduce_run(without(generator(), "turbine_inlet_temperature", "manifold_temperature"))
    found = engine_of_readings(bare, FULL_LOAD, "si")
    assert "turbine_inlet" not in found.stations
    assert found.stations["manifold"].read.count("±") == 1
    assert np.isfinite(found.stations["manifold"].temperature)  # of theory


def test_every_aftercooler_of_bench_toml_can_be_drawn():
    assert set(AFTERCOOLERS) <= set(COOLERS)


def test_an_outlet_read_in_absolute_pressure_is_shown_in_absolute_pressure():
    """A reading of 186.2 kPa abs stays what it is; only those that count from the barometer lose it."""
    run = generator()
    values = {**run.values, "compressor_outlet_pressure": np.full(len(run), 186_200.0)}
    absolute = dataclasses.replace(run, columns=(*run.columns, "compressor_outlet_pressure"), values=values)
    shown = engine_of_readings(reduce_run(absolute), FULL_LOAD, "si").stations["compressor_outlet"].read
    assert shown.startswith("186")
    assert "kPa abs" in shown
