"""One reading worked step by step comes to the same results as the report."""

import math
import random
import shutil
import warnings

import numpy as np
import pytest

from tests.command_line import turbomath
from turbomath import air, units
from turbomath.disk import files
from turbomath.lab.reduction import reduce
from turbomath.lab.reduction.results import RESULTS
from turbomath.lab.report.worked import reading
from turbomath.lab.run import readings
from turbomath.table.errors import RangeWarning, TurbomathError
from turbomath.working.chain import results

RUNS = files.shipped_runs()
BY_HAND = air.choose("perfect")
ELSEWHERE = {
    "density_ratio",
    "volumetric_efficiency",
    "dew_point",
    "cooler_pressure_loss",
    "greatest_possible_gain",
    "theoretical_aftercooling_density_gain",
    "condensate_flow",
    "conductance",
    "corrected_power",
    "turbine_efficiency",
    "turbocharger_efficiency",
}


@pytest.mark.parametrize("name", RUNS)
def test_the_steps_of_every_reading_come_to_the_results_of_the_report(name):
    run = readings.read_run(name)
    reduced = reduce.reduce_run(run, air=BY_HAND)
    for row in range(len(run)):
        if not np.isfinite(reduced["ambient_density"].value[row]):
            continue
        values = _values(reading.chain(run, row))
        for result in set(RESULTS) - ELSEWHERE:
            expected = float(reduced[result].value[row])
            assert math.isfinite(expected) == (result in values), (run.points[row], result)
            if result in values:
                assert values[result] == pytest.approx(expected, rel=1e-9, abs=1e-12)


def test_the_steps_to_both_efficiencies_of_the_turbine_come_near_those_of_the_report():
    """The report has the enthalpy of real burnt gas; by hand one heat capacity ratio stands for the whole way."""
    run = readings.read_run("generator_air_to_air")
    reduced = reduce.reduce_run(run, air=BY_HAND)
    for row in range(2, 8):
        values = _values(reading.chain(run, row))
        for result in ("turbine_efficiency", "turbocharger_efficiency"):
            assert values[result] == pytest.approx(float(reduced[result].value[row]), rel=0.005)


@pytest.mark.parametrize("system", ["us", "si"])
def test_the_printed_numbers_are_those_of_the_report(system):
    run = readings.read_run("generator_jacket_water")
    reduced = reduce.reduce_run(run, air=BY_HAND)
    row = reading.row_of(run, "7")
    text = reading.worked(run, "7", system)
    answers = dict(line.strip().split(": ") for line in text[text.index("\nAnswer") :].splitlines() if ": " in line)
    for result in ("pressure_ratio", "compressor_efficiency", "effectiveness", "measured_charge_gain"):
        shown = answers[result.replace("_", " ")].split()[0]
        unit = units.display(result, system)
        expected = units.from_si(float(reduced[result].value[row]), unit, result)
        assert float(shown) == pytest.approx(expected, rel=1e-3)  # five figures on the way


def test_readings_stand_as_they_were_written_and_the_run_is_said_to_be_invented():
    text = reading.worked(readings.read_run("generator_air_to_air"), "7", "us")
    assert "INVENTED" in text.splitlines()[0]
    for written in ("29.09 inHg", "12 inH2O", "24 psi", "338 °F", "132 °F", "45 %"):
        assert written in text


def edited(folder, old, new):
    """Return the air-to-air run with one piece of its readings replaced."""
    shutil.copytree(files.shipped("data") / "generator_air_to_air", folder)
    text = (folder / "readings.csv").read_text(encoding="utf-8-sig")
    assert old in text
    (folder / "readings.csv").write_text(text.replace(old, new), encoding="utf-8")
    return readings.read_run(folder)


def test_water_that_forms_is_a_step_of_its_own(tmp_path):
    run = edited(tmp_path / "damp", "1800,29.09,77,45,12.0,80,338,24.0,132", "1800,29.09,95,95,12.0,97,338,24.0,100")
    row = reading.row_of(run, "7")
    chain = reading.chain(run, row)
    values = results(chain.steps, {given: amount.value for given, amount in chain.given.items()})
    assert values["water_at_manifold_temperature"] > 0.01
    reduced = reduce.reduce_run(run, air=BY_HAND)
    for name in ("manifold_density", "air_flow", "compressor_power", "heat_rejected", "air_fuel_ratio"):
        assert values[name] == pytest.approx(float(reduced[name].value[row]), rel=1e-9), name
    assert values["compressor_mass_flow"] > 1.01 * values["air_flow"]  # the water went through the compressor
    assert "w_left,3 = w − w_water,3" in reading.worked(run, "7", "si")


def test_an_efficiency_above_one_is_worked_and_nothing_is_built_on_it(tmp_path):
    folder = tmp_path / "little boost"
    run = edited(folder, "0.5,80,87,0.5,81", "0.5,80,84,0.5,81")  # low idle, 4 F° of rise
    reduced = reduce.reduce_run(run, air=BY_HAND)
    assert reduced["compressor_efficiency"].value[1] > 1
    assert math.isnan(reduced["mass_flow_gain"].value[1])
    chain = reading.chain(run, 1)
    with pytest.warns(RangeWarning, match="a reading must be wrong"):
        values = results(chain.steps, {given: amount.value for given, amount in chain.given.items()})
    for name in ("compressor_efficiency", "measured_charge_gain", "theoretical_charge_gain"):
        assert values[name] == pytest.approx(float(reduced[name].value[1]), rel=1e-9)
    assert "mass_flow_gain" not in values
    done = turbomath("report", folder, "--work", "1", cwd=tmp_path)
    assert (done.returncode, done.stderr) == (0, "")
    assert "compressor efficiency: 1." in done.stdout


def test_at_no_speed_no_air_flows_and_nothing_is_worked_from_it(tmp_path):
    run = edited(tmp_path / "still", "7,load,100,1800", "7,load,100,0")
    values = _values(reading.chain(run, reading.row_of(run, "7")))
    assert "manifold_density" in values
    for name in ("air_flow", "compressor_power", "heat_rejected", "air_fuel_ratio"):
        assert name not in values
        assert math.isnan(reduce.reduce_run(run, air=BY_HAND)[name].value[7])


@pytest.mark.parametrize("seed", range(24))
def test_a_damaged_sheet_is_worked_as_far_as_the_report_goes(seed, tmp_path):
    """Cells blank, at their stop, nought, halved or doubled: no refusal but the one in words, and no other number."""
    draw = random.Random(seed)
    folder = tmp_path / "damaged"
    shutil.copytree(files.shipped("data") / RUNS[seed % len(RUNS)], folder)
    head, *lines = [line.split(",") for line in (folder / "readings.csv").read_text(encoding="utf-8-sig").splitlines()]
    for line in lines:
        for place in range(2, len(line) - 1):
            if not head[place].startswith(("barometer", "ambient")) and draw.random() < 0.2:
                line[place] = draw.choice(["", ">5", "0", _times(line[place], 0.5), _times(line[place], 2)])
    (folder / "readings.csv").write_text("\n".join(map(",".join, [head, *lines])) + "\n", encoding="utf-8")
    run = readings.read_run(folder)
    reduced = reduce.reduce_run(run, air=BY_HAND)
    for row in range(1, len(run)):
        values = _values(reading.chain(run, row))
        assert reading.worked(run, run.points[row], draw.choice(["us", "si"]))
        for result in {*RESULTS} & {*values} - ELSEWHERE:
            expected = float(reduced[result].value[row])
            if math.isfinite(expected):
                assert values[result] == pytest.approx(expected, rel=1e-8, abs=1e-10), (run.points[row], result)


def _values(chain):
    with warnings.catch_warnings():
        warnings.simplefilter("ignore", RangeWarning)
        return results(chain.steps, {given: amount.value for given, amount in chain.given.items()})


def _times(cell, factor):
    return f"{factor * float(cell):.4g}" if cell.replace(".", "").isdigit() else cell


def test_a_point_that_is_not_there_or_was_not_running_is_refused_in_words():
    run = readings.read_run("generator_air_to_air")
    with pytest.raises(TurbomathError, match="found '99', expected a point of generator_air_to_air: 0, 1"):
        reading.worked(run, "99", "us")
    with pytest.raises(TurbomathError, match="Choose another point"):
        reading.worked(run, "0", "us")


def test_the_command_line_prints_one_reading_and_writes_nothing(tmp_path):
    command = ("report", "generator_no_aftercooler", "--units", "si", "--work")
    done = turbomath(*command, "5", cwd=tmp_path)
    assert done.returncode == 0, done.stderr
    assert "ρ_3 = p_3 × (1 + w)" in done.stdout
    assert list(tmp_path.iterdir()) == []
    done = turbomath(*command, "x", cwd=tmp_path)
    assert (done.returncode, done.stdout) == (1, "")
    assert done.stderr.count("\n") == 1
