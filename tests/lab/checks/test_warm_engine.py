"""Zeros of an engine that has run not long ago, and of a gauge that counts from vacuum. All runs INVENTED."""

import pytest

from turbomath.lab import checks
from turbomath.lab.run import readings

BENCH = """\
[run]
title = "INVENTED: zeros of an engine that is not cold"
invented = true
units = "si"
[site]
elevation = "1000 m"
barometer = "{barometer}"
[engine]
aftercooler = "separate-circuit"
cylinders = 12
"""
HEADS = {
    "barometer [kPa]": "89.5",
    "ambient temperature [°C]": "20",
    "compressor outlet temperature [°C]": "21",
    "manifold pressure [kPa abs]": "89.5",
    "manifold temperature [°C]": "64",
    "cooling medium temperature [°C]": "42",
    "turbine inlet temperature [°C]": "118",
}


@pytest.fixture
def flags_of(run_folder):
    """Return the flags of one row with the engine off, some of its cells changed; None was not read."""

    def made(site="station", **cells):
        row = {head: text for head in HEADS if (text := cells.get(head.split(" [")[0].replace(" ", "_"), HEADS[head]))}
        text = f"point,condition,{','.join(row)}\n0,zero,{','.join(row.values())}\n"
        return checks.check_run(readings.read_run(run_folder(text, BENCH.format(barometer=site))))

    return made


def test_thermometers_of_a_warm_engine_need_not_agree_and_no_unit_is_named(flags_of):
    (flag,) = flags_of()
    assert (flag.check, flag.level, flag.column) == (3, "amber", "turbine_inlet_temperature")
    assert "manifold temperature 64 °C, ambient temperature 20 °C before the start: the engine is still" in flag.reason
    assert "cold engine" in flag.action


def test_nothing_beside_a_warm_engine_is_colder_than_the_air_outside(flags_of):
    _, flag = sorted(flags_of(compressor_outlet_temperature="8"), key=lambda flag: flag.level)
    assert (flag.check, flag.level, flag.column) == (3, "red", "compressor_outlet_temperature")
    assert (
        "compressor outlet temperature 8 °C, ambient temperature 20 °C before the start; beside a warm" in flag.reason
    )


@pytest.mark.parametrize(
    "cells",
    [
        {
            "manifold_temperature": "20",
            "turbine_inlet_temperature": "118",
        },  # one thermometer alone makes no warm engine
        {"manifold_temperature": "44", "turbine_inlet_temperature": "45", "compressor_outlet_temperature": "44"},
    ],
)
def test_in_a_cold_engine_the_thermometer_that_is_out_is_named(flags_of, cells):
    (flag,) = flags_of(**cells)
    assert flag.level == "red"
    assert "middle of all thermometers" in flag.reason


def test_an_absolute_gauge_at_rest_is_set_beside_the_barometer_that_was_read(flags_of):
    cold = {"manifold_temperature": "20", "turbine_inlet_temperature": "21", "manifold_pressure": "92"}
    (flag,) = flags_of(**cold)
    assert flag.reason.startswith("manifold pressure 92 kPa abs, barometer 89.5 kPa with the engine off; a gauge at")
    assert "zero" not in flag.reason
    assert not flags_of(site="standard-atmosphere", **cold | {"barometer": None})
