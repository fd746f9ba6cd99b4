"""Fuel, torque and the cooling medium in a reduced run: hand-worked numbers, other ways to the same, and gaps."""

import numpy as np
import pytest

from tests.lab.reference_case import BENCH, REFERENCE
from turbomath.lab.reduction import reduce
from turbomath.lab.report.terminal import on_terminal
from turbomath.lab.report.worked import reading
from turbomath.lab.run import readings
from turbomath.physics import correction, exchanger

FULL_DAY = {  # one full-load reading; the dry barometer is 96.2 kPa
    "load [%]": "100",
    "torque [N·m]": "1528",
    "fuel mass [kg]": "2.5",
    "fuel time [s]": "150.0",
    "cooling medium outlet temperature [°F]": "150",
}


@pytest.fixture
def reduced(tmp_path):
    """Return a function (changed readings, bench) -> the one full-load reading, reduced."""

    def make(change, bench=BENCH):
        row = {**REFERENCE, **change}
        (tmp_path / "bench.toml").write_text(bench, encoding="utf-8")
        (tmp_path / "readings.csv").write_text(f"{','.join(row)}\n{','.join(row.values())}\n", encoding="utf-8")
        return reduce.reduce_run(readings.read_run(tmp_path))

    return make


def test_fuel_and_power_by_hand(reduced):
    results = reduced(FULL_DAY)
    flow, power = 2.5 / 150, 2 * np.pi * results.run["torque"][0] * results.run["engine_speed"][0]
    assert results["fuel_flow"].value[0] == pytest.approx(flow, rel=1e-12)
    assert results["power"].value[0] == pytest.approx(power, rel=1e-12)
    assert results["specific_fuel_consumption"].value[0] == pytest.approx(flow / power, rel=1e-12)
    ratio = results["air_flow"].value[0] / flow  # the sheet has no humidity: dry air
    assert results["air_fuel_ratio"].value[0] == pytest.approx(ratio, rel=1e-9)
    # light diesel: Heywood, table D.4, 14.5 to the printed digits (from memory of the print)
    assert results["excess_air_ratio"].value[0] == pytest.approx(ratio / 14.5, rel=1e-3)


def test_scale_and_meter_torque_and_wattmeter_come_to_the_same(reduced):
    one = reduced(FULL_DAY)
    read = {
        key: value for key, value in FULL_DAY.items() if key not in ("fuel mass [kg]", "fuel time [s]", "torque [N·m]")
    }
    power = one["power"].value[0] / 1000
    other = reduced(read | {"fuel flow [kg/h]": "60.0", "power [kW]": f"{power:.6f}"})
    for name in ("fuel_flow", "power", "air_fuel_ratio", "specific_fuel_consumption", "corrected_power"):
        assert other[name].value[0] == pytest.approx(one[name].value[0], rel=1e-7)


def test_every_new_result_has_its_plus_or_minus(reduced):
    results = reduced(FULL_DAY)
    for name in (
        "fuel_flow",
        "power",
        "air_fuel_ratio",
        "excess_air_ratio",
        "specific_fuel_consumption",
        "corrected_power",
        "conductance",
    ):
        assert np.isfinite(results[name].value).all(), name
        assert (results[name].standard_uncertainty > 0).all(), name
        assert results[name].standard_uncertainty[0] < 0.3 * results[name].value[0], name


def test_power_is_corrected_at_full_load_and_within_the_standard_only(reduced):
    results = reduced(FULL_DAY)
    factor = results["corrected_power"].value[0] / results["power"].value[0]
    low, high = correction.VALID_FACTOR
    assert low < factor < high
    part = reduced(FULL_DAY | {"load [%]": "80"})
    assert np.isnan(part["corrected_power"].value).all()
    assert "full load only" in part.missing["corrected_power"]
    cold = reduced(FULL_DAY | {"ambient temperature [°F]": "45"})  # 280 K
    assert np.isnan(cold["corrected_power"].value).all()


def test_conductance_is_that_of_the_four_thermometers(reduced):
    results = reduced(FULL_DAY)
    run, flow = results.run, results["air_flow"].value[0]
    hot, cool = run["compressor_outlet_temperature"][0], run["manifold_temperature"][0]
    into, out = run["cooling_medium_temperature"][0], run["cooling_medium_outlet_temperature"][0]
    charge = flow * 1004.685
    medium = charge * (hot - cool) / (out - into)
    effectiveness = exchanger.effectiveness_from_conductance(
        results["conductance"].value[0], charge, medium, "crossflow, both unmixed"
    )
    assert effectiveness == pytest.approx(results["effectiveness"].value[0], rel=1e-5)


def test_readings_that_cannot_be_leave_gaps_and_stop_nothing(reduced):
    results = reduced(FULL_DAY | {"fuel time [s]": "0", "cooling medium outlet temperature [°F]": "40"})
    for name in ("fuel_flow", "air_fuel_ratio", "conductance"):
        assert np.isnan(results[name].value).all()
    assert np.isfinite(results["power"].value).all()


def test_another_fuel_gets_no_excess_air(reduced):
    results = reduced(FULL_DAY, BENCH.replace("[engine]", '[engine]\nfuel = "methanol"'))
    assert np.isfinite(results["air_fuel_ratio"].value).all()
    assert "does not know" in results.missing["excess_air_ratio"]


def test_the_report_tells_fuel_and_the_limits_of_the_correction():
    text = on_terminal(reduce.reduce_run(readings.read_run("generator_air_to_air")), "us")
    assert "Fuel and power" in text
    assert "ISO 1585" in text
    assert "corrects itself" in text
    quiet = on_terminal(reduce.reduce_run(readings.read_run("stand_unloaded_run_up")), "us")
    assert "Fuel and power" not in quiet
    assert "ISO 1585" not in quiet


@pytest.mark.parametrize("system", ["us", "si"])
def test_fuel_is_worked_step_by_step(system):
    text = reading.worked(readings.read_run("generator_air_to_air"), "7", system)
    for words in ("AFR = ", "b = ṁ_fuel / P", "λ = AFR / AFR_st", "131.5 lb/h"):
        assert words in text
