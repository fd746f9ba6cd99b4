"""From entries to readings.csv and back: the same texts, the same numbers; what cannot be read is said, not lost."""

import csv
import io
import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from turbomath import units
from turbomath.lab.entry.entry import Entry
from turbomath.lab.entry.entry_sheet import entry_sheet
from turbomath.lab.entry.grid import Plan, grid, plan
from turbomath.lab.entry.run_of_entries import taken
from turbomath.lab.run.bench import read_bench
from turbomath.table.errors import RefusedFileError

PLANNED = Plan(
    ("zero", "load", "load", "zero after"),
    {
        "load": "%",
        "barometer": "inHg",
        "ambient_temperature": "°F",
        "boost": "psi",
        "compressor_outlet_pressure": "psi gauge",
        "manifold_temperature": "°C",
        "fuel_flow": "lb/h",
    },
)


def cells(*entries):
    """Return standing cells from (row, column, text) or entries; a number has the unit of its head."""
    made = [one if isinstance(one, Entry) else Entry(*one, PLANNED.units.get(one[1], "")) for one in entries]
    return {one.cell: one for one in made}


def written(*entries):
    """Return (rows of readings.csv as dictionaries, what was left out)."""
    there = cells(*entries)
    sheet = entry_sheet(grid(PLANNED, there), there)
    return list(csv.DictReader(io.StringIO(sheet.text().removeprefix("\ufeff")))), sheet.left_out


@pytest.mark.parametrize(
    ("typed", "text"),
    [
        ("24.5", "24.5"),
        ("24,5", "24.5"),
        ("24,50", "24.50"),
        (" 24.5 ", "24.5"),
        ("−3", "−3"),
        ("-0,5", "-0.5"),
        ("1.234,5", "1,234.5"),
        ("1 234,5", "1 234.5"),
        ("1,234.5", "1,234.5"),
        ("1.234.567", "1,234,567"),
        (">60", ">60"),
        ("60+", "60+"),
        (">24,5", ">24.5"),
        ("≥ 60", "≥ 60"),
        (",5", ".5"),
        ("1e3", "1e3"),
    ],
)
def test_a_number_stands_as_typed_with_a_decimal_point(typed, text):
    (row,), left_out = written(("1A", "boost", typed))
    assert row["boost [psi]"] == text
    assert left_out == ()


@pytest.mark.parametrize("typed", ["", "-", "–", "n/a", "NA", "   "])
def test_no_reading_is_an_empty_cell_and_no_fault(typed):
    (row,), left_out = written(("1A", "boost", typed), ("1A", "load", "50"))
    assert "boost [psi]" not in row
    assert left_out == ()


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ("2a4", "Write figures only"),
        ("1,800", "1800 or 1.800"),
        ("24.5 psi", "Write figures only"),
        ("=1+1", "Write figures only"),
        ("nan", "Write figures only"),
        ("inf", "Write figures only"),
        ("1e999", "Write figures only"),
        (">", "Write figures only"),
        ("24..5", "Write figures only"),
        ("٢٤", "Write figures only"),
        ("x" * 1_999, "Write figures only"),
    ],
)
def test_what_is_no_number_is_left_out_and_said_in_the_remark_of_its_row(typed, said):
    (row,), (left_out,) = written(("1A", "boost", typed), ("1A", "load", "50"), ("1A", "remark", "steady"))
    assert "boost [psi]" not in row
    assert row["remark"].startswith("steady; boost: left out, as typed: ")
    assert (left_out.row, left_out.column, left_out.text) == ("1A", "boost", typed)
    assert left_out.expected == "a number in psi"
    assert said in left_out.action


def test_a_number_typed_under_another_head_is_left_out_not_converted():
    (row,), (left_out,) = written(Entry("1A", "boost", "165", "kPa"), ("1A", "load", "50"))
    assert "boost [psi]" not in row
    assert left_out.expected == "a number in psi, not in kPa"


def test_a_cell_of_another_grid_is_left_out_and_named():
    rows, left_out = written(("9A", "load", "50"), ("noon", "boost", "24"), ("9A", "oil_pressure", "55"))
    assert [(one.row, one.column) for one in left_out] == [("noon", "boost"), ("9A", "oil_pressure")]
    assert [row["point"] for row in rows] == ["9"], "a point that only the journal knows is there"


def test_passes_are_rows_of_their_own_and_zeros_are_not_subtracted():
    rows, _ = written(
        ("zero", "boost", "0.5"), ("1A", "boost", "24"), ("1B", "boost", "25"), ("zero after", "boost", "1")
    )
    assert [(row["point"], row["condition"], row["pass"], row["boost [psi]"]) for row in rows] == [
        ("zero", "zero", "", "0.5"),
        ("1", "load", "A", "24"),
        ("1", "load", "B", "25"),
        ("zero after", "zero after", "", "1"),
    ]


def test_a_condition_named_anew_holds_for_both_passes_and_one_that_is_none_is_left_out():
    rows, _ = written(("1A", "boost", "2"), ("1B", "boost", "2"), ("1A", "condition", "High idle"))
    assert [row["condition"] for row in rows] == ["High idle", "High idle"]
    (row,), (left_out,) = written(("1A", "boost", "2"), ("1A", "condition", "full tilt"))
    assert row["condition"] == ""
    assert "low idle" in left_out.expected


def test_readers_and_remarks_of_a_row_stand_together():
    (row,), _ = written(
        Entry("1A", "boost", "24", "psi", "seat 4", "needle shakes"),
        Entry("1A", "load", "50", "%", "seat 7"),
        Entry("1A", "barometer", "29", "inHg", "seat 4"),
        ("1A", "remark", "fan on"),
        ("1A", "time", "08:50"),
    )
    assert (row["reader"], row["remark"], row["time"]) == ("seat 4, seat 7", "fan on; boost: needle shakes", "08:50")


def test_a_remark_on_a_missing_reading_is_kept():
    (row,), _ = written(Entry("1A", "boost", "-", "psi", "", "gauge broken"))
    assert row["remark"] == "boost: gauge broken"


@pytest.fixture(scope="module")
def site(tmp_path_factory):
    """A folder, its bench, and the text of that."""
    folder = tmp_path_factory.mktemp("entered")
    text = b'[run]\ntitle = "INVENTED"\ninvented = true\n[site]\nelevation = "350 m"\n'
    (folder / "bench.toml").write_bytes(text)
    return folder, read_bench(folder / "bench.toml"), text


def read_back(site, there):
    return taken(*site, grid(PLANNED, there), there)


NUMBERS = st.decimals(-300, 3_000, places=2).map(str) | st.integers(-40, 2_000).map(str)
TYPED = st.builds(
    lambda number, comma, pegged: pegged.format(number.replace(".", ",") if comma else number),
    NUMBERS,
    st.booleans(),
    st.sampled_from(["{}", "{}", "{}", ">{}", "{}+"]),
) | st.sampled_from(["", "-", "n/a", "2a4", "1,800", "=1+1", "24 psi", "\x00", "\ud800"])
ROWS = ("zero", "1A", "1B", "2A", "2B", "zero after")
ENTERED = st.dictionaries(st.tuples(st.sampled_from(ROWS), st.sampled_from(list(PLANNED.units))), TYPED, max_size=20)


@given(ENTERED)
def test_entries_to_files_to_readings_are_the_same_texts_and_numbers(site, entered):
    there = cells(*((row, column, text) for (row, column), text in entered.items()))
    found = read_back(site, there)
    left_out = {(one.row, one.column): one for one in found.sheet.left_out}
    for (row, column), text in entered.items():
        run, bare = found.run, text.strip(">+").replace(",", ".")
        try:
            number = None if (row, column) in left_out or text in ("", "-", "n/a") else float(bare)
        except ValueError:
            pytest.fail(f"{text!r} was taken for a reading")
        if number is None:
            assert (
                run is None
                or row not in found.sheet.keys
                or not run.has(column)
                or math.isnan(run[column][found.sheet.keys.index(row)])
            )
            continue
        index = found.sheet.keys.index(row)
        assert run.cells[column][index] == text.replace(",", ".")
        assert bool(run.pegged[column][index]) == (text != text.strip(">+"))
        value = run.at_least[column][index] if run.pegged[column][index] else run[column][index]
        expected = units.to_si(
            number,
            PLANNED.units[column].removesuffix(" gauge"),
            "boost" if "gauge" in PLANNED.units[column] else column,
        )
        if column in run.gauge_columns:
            expected = expected + run.station_pressure[index]
        np.testing.assert_equal(value, expected)


# Absolute zero is −459.67 °F and −273.15 °C (BIPM, SI Brochure 9th edition, 2.3.1: t/°C = T/K − 273.15)
@pytest.mark.parametrize(
    ("column", "can", "cannot"),
    [
        ("ambient_temperature", "-459.6", "-459.7"),
        ("manifold_temperature", "-273.1", "-273.2"),
        ("barometer", "0.01", "0"),
        ("compressor_outlet_pressure", "-14.2", "-14.3"),
    ],
)
def test_what_the_reader_of_readings_would_refuse_is_left_out_and_all_else_is_read(site, column, can, cannot):
    others = [(row, "barometer", "29.10") for row in ("1A", "2A")] + [("2A", "boost", "24")]
    for text in (can, cannot):
        there = cells(*others, ("1A", column, text), ("1A", "boost", "12"))
        found = read_back(site, there)
        left_out = [(one.row, one.column, one.text) for one in found.sheet.left_out]
        assert left_out == ([("1A", column, text)] if text == cannot else [])
        assert units.from_si(found.run["boost"], "psi", "boost") == pytest.approx([12, 24])


def test_a_column_that_needs_what_the_bench_does_not_say_is_left_out_whole(site):
    planned = Plan(PLANNED.conditions, PLANNED.units | {"fuel_flow": "L/h"})
    there = cells(("1A", "boost", "24")) | {
        (row, "fuel_flow"): Entry(row, "fuel_flow", "30", "L/h") for row in ROWS[1:3]
    }
    found = taken(*site, grid(planned, there), there)
    assert [(one.row, one.column) for one in found.sheet.left_out] == [("1A", "fuel_flow"), ("1B", "fuel_flow")]
    assert "fuel_density" in found.sheet.left_out[0].expected
    assert found.run.columns == ("point", "condition", "time", "pass", "boost", "reader", "remark")


def test_what_the_reader_refuses_as_a_whole_is_said_once(site, monkeypatch):
    monkeypatch.setattr("turbomath.lab.run.cells.MOST_BYTES", 100)
    with pytest.raises(RefusedFileError, match="a larger file"):
        read_back(site, cells(("1A", "boost", "24"), ("1A", "remark", "x" * 100)))


def test_there_is_no_run_until_there_is_a_number(site):
    assert read_back(site, {}).run is None
    assert read_back(site, cells(("1A", "remark", "fan on"), ("1A", "boost", "2a4"))).run is None


def test_the_usual_plan_of_the_bench_can_be_filled_in_whole_and_read(run_folder, tmp_path):
    folder = run_folder(None)
    bench = read_bench(folder / "bench.toml")
    planned = plan(bench)
    empty = grid(planned, {})
    there = {
        (row.key, name): Entry(row.key, name, "1,5", unit) for row in empty.rows for name, unit in planned.units.items()
    }
    found = taken(folder, bench, (folder / "bench.toml").read_bytes(), empty, there)
    assert len(found.run) == len(empty.rows)
    assert set(planned.units) <= set(found.run.columns)
    assert found.sheet.left_out == ()
    assert (found.run.name, found.run.folder, found.run.bench) == (folder.name, folder, bench)
