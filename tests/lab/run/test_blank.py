"""A new run folder: valid as it is, complete for its engine, and never over an existing one."""

import pytest

from turbomath.lab.run import bench, blank, readings
from turbomath.lab.run.channels import AFTERCOOLERS
from turbomath.table.errors import RefusedFileError


@pytest.mark.parametrize("aftercooler", AFTERCOOLERS)
def test_a_new_bench_can_be_read_as_it_is_and_with_every_blank_taken(tmp_path, aftercooler):
    blank.new_run(tmp_path, aftercooler)
    assert bench.read_bench(tmp_path / "bench.toml").engine.aftercooler == aftercooler
    lines = (tmp_path / "bench.toml").read_text(encoding="utf-8").splitlines()
    taken = [line.removeprefix("# ") if "=" in line or line.startswith("# [") else line for line in lines]
    (tmp_path / "bench.toml").write_text("\n".join(taken), encoding="utf-8")
    full = bench.read_bench(tmp_path / "bench.toml")
    assert set(full.instruments) == set(blank.columns(aftercooler))
    assert full.design.compressor_efficiency.value == 0.74
    assert full.limits


def test_a_new_sheet_takes_readings(tmp_path):
    blank.new_run(tmp_path, "jacket-water")
    head = (tmp_path / "readings.csv").read_text(encoding="utf-8-sig")
    with (tmp_path / "readings.csv").open("a", encoding="utf-8") as sheet:
        sheet.write("1,load,100,1800,29.1,77" + "," * (head.count(",") - 5) + "\n")
    run = readings.read_run(tmp_path)
    assert run.unknown_columns == ()
    assert set(blank.columns("jacket-water")) <= set(run.columns)


def test_without_an_aftercooler_there_is_nothing_to_read_on_one():
    assert "manifold_temperature" not in blank.columns("none")
    assert "cooling medium" not in blank.head("none")


def test_an_existing_run_is_left_as_it_was(tmp_path):
    (tmp_path / "readings.csv").write_text("mine", encoding="utf-8")
    with pytest.raises(RefusedFileError, match="left as it is"):
        blank.new_run(tmp_path)
    assert (tmp_path / "readings.csv").read_text(encoding="utf-8") == "mine"
    assert not (tmp_path / "bench.toml").exists()
