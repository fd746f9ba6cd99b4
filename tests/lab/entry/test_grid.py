"""The grid has the columns that the engine of the bench needs, with units, and the rows of the printed sheet."""

import pytest

from turbomath.lab.entry.entry import Entry
from turbomath.lab.entry.grid import grid, plan, point_of
from turbomath.lab.run.bench import read_bench
from turbomath.lab.run.blank import sheet_columns
from turbomath.table.errors import TurbomathError


@pytest.fixture
def bench(run_folder):
    return read_bench(run_folder(None) / "bench.toml")


def added(row, text="load"):
    return {(row, "condition"): Entry(row, "condition", text)}


def test_the_columns_are_those_of_the_printed_sheet_with_units_in_the_heads(bench):
    found = grid(plan(bench), {})
    assert [one.name for one in found.columns] == [*sheet_columns(bench), "time", "remark"]
    heads = {one.name: one.head for one in found.columns}
    assert heads["boost"] == "boost [psi]"
    assert heads["compressor_outlet_pressure"] == "compressor outlet pressure [psi gauge]"
    assert heads["manifold_temperature"] == "manifold temperature [°F]"
    assert found.unit("boost") == "psi"
    assert found.unit("remark") == found.unit("nothing") == ""


def test_an_engine_without_aftercooler_has_no_columns_for_one(bench_text, run_folder):
    bench = read_bench(run_folder(None, bench_text.replace('"air-to-air"', '"none"')) / "bench.toml")
    names = [one.name for one in grid(plan(bench, ["zero"]), {}).columns]
    assert "cooler_pressure_loss" not in names
    assert "boost" in names


def test_si_benches_have_si_heads_and_a_gauge_may_have_its_own_unit(bench_text, run_folder):
    bench = read_bench(run_folder(None, bench_text.replace('units = "us"', 'units = "si"')) / "bench.toml")
    found = grid(plan(bench, chosen_units={"boost": "bar", "air_flow": "kg/h"}), {})
    assert (found.unit("boost"), found.unit("manifold_temperature"), found.unit("air_flow")) == ("bar", "°C", "kg/h")


def test_zeros_stand_at_both_ends_and_every_point_between_has_two_passes(bench):
    keys = [row.key for row in grid(plan(bench, ["zero", "low idle", "load", "zero after"]), {}).rows]
    assert keys == ["zero", "1A", "1B", "2A", "2B", "zero after"]
    conditions = [row.condition for row in grid(plan(bench), {}).rows]
    assert conditions[0] == "zero"
    assert conditions[-1] == "zero after"
    assert conditions.count("load") == 14


def test_a_point_that_was_added_comes_before_the_zeros_after_and_a_condition_can_be_named_anew(bench):
    found = grid(plan(bench, ["zero", "load", "zero after"]), added("3A") | added("1A", "no load"))
    assert [(row.key, row.condition) for row in found.rows] == [
        ("zero", "zero"),
        ("1A", "no load"),
        ("1B", "no load"),
        ("2A", ""),
        ("2B", ""),
        ("3A", "load"),
        ("3B", "load"),
        ("zero after", "zero after"),
    ]


def test_a_condition_belongs_to_pass_a_and_a_zero_row_has_none(bench):
    cells = grid(plan(bench, ["zero", "load"]), {}).cells
    assert ("1A", "condition") in cells
    assert ("1B", "condition") not in cells
    assert ("zero", "condition") not in cells
    assert {("zero", "boost"), ("1B", "remark"), ("1A", "time")} <= cells
    assert ("2A", "boost") not in cells


@pytest.mark.parametrize(
    ("row", "point"),
    [("1A", 1), ("12B", 12), ("500A", 500), ("501A", 0), ("01A", 0), ("1C", 0), ("zero", 0), ("", 0), ("¹A", 0)],
)
def test_a_row_name_means_its_point(row, point):
    assert point_of(row) == point


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        ({"conditions": ["zero", "full tilt"]}, "full tilt"),
        ({"chosen_units": {"bost": "psi"}}, "bost"),
        ({"chosen_units": {"boost": "furlong"}}, "furlong"),
        ({"chosen_units": {"boost": "°F"}}, "°F"),
        ({"chosen_units": {"compressor_outlet_pressure": "psi"}}, "gauge"),
        ({"chosen_units": {"boost": "psi] [kPa"}}, "psi] [kPa"),
        ({"chosen_units": {"boost": ""}}, "boost"),
    ],
)
def test_a_plan_that_cannot_be_is_refused_in_one_sentence(bench, arguments, said):
    with pytest.raises(TurbomathError, match=r".") as refusal:
        plan(bench, **arguments)
    assert said in str(refusal.value)
    assert "\n" not in str(refusal.value)
