"""The main job against the outside: printed tables, standards and worked examples, one row each.

The rows are those of data/published/check_values.csv; how one is read says `turbomath.handbook.check_values`.

Status: V read in print or in a published transcription that names the print; V+C the same, and a
library or formula reproduces it; C worked out here or by a library; M from memory. Only V and V+C count.
"""

import csv
import importlib
import pkgutil
from collections import Counter
from dataclasses import asdict

import pytest

from turbomath import physics
from turbomath.disk import files
from turbomath.handbook.check_values import CheckValues
from turbomath.handbook.check_values import function as resolve
from turbomath.table.sources import SOURCES

COUNTED = {"V", "V+C"}
LEAST_ROWS, LEAST_SOURCES, MOST_OF_ONE_TABLE = 40, 6, 10


FILE = files.shipped("data") / "published" / "check_values.csv"
CHECKS = CheckValues()
ROWS = {case: asdict(row) for case, row in CHECKS.items()}
counted = [row for row in ROWS.values() if row["status"] in COUNTED]


def result(row):
    return CHECKS.result(row["case"])


def steps(row):
    """The row and the rows it leans on."""
    return [asdict(step) for step in CHECKS.steps(row["case"])]


def table_of(row):
    return row["source"], row["place"].split(",")[0]


def test_every_row_says_where_it_comes_from_and_why_its_tolerance():
    for case, row in ROWS.items():
        assert row["source"] in SOURCES, case
        assert any(word in row["place"].lower() for word in ("table", "p.", "example", "eq.", "section")), case
        assert row["status"] in {"V", "V+C", "C", "M", "M+C"}, case
        assert row["tolerance_kind"] in {"relative", "absolute"}, case
        assert float(row["tolerance"]) > 0, case
        assert len(row["reason"]) > 10, case


@pytest.mark.parametrize("source", sorted({row["source"] for row in ROWS.values()}))
def test_the_kit_agrees_with_the_publication(source):
    rows = {case: row for case, row in ROWS.items() if row["source"] == source}
    assert [f"{case}: {result(row)} for {row['expected']}" for case, row in rows.items() if not agrees(row)] == []


def agrees(row):
    expected, tolerance = float(row["expected"]), float(row["tolerance"])
    close = {"relative": {"rel": tolerance, "abs": 0}, "absolute": {"rel": 0, "abs": tolerance}}
    return result(row) == pytest.approx(expected, **close[row["tolerance_kind"]])


def test_no_tolerance_is_wider_than_two_per_cent_of_what_is_asked_unless_few_digits_are_printed():
    for case, row in ROWS.items():
        tolerance = float(row["tolerance"])
        relative = tolerance if row["tolerance_kind"] == "relative" else tolerance / abs(float(row["expected"]))
        assert relative <= 0.02 or "printed" in row["reason"], case


def test_cases_have_names_of_their_own():
    with FILE.open(newline="", encoding="utf-8") as stream:
        cases = [row["case"] for row in csv.DictReader(stream)]
    assert cases == list(ROWS)


def test_enough_rows_from_enough_sources_and_not_too_many_from_one_table():
    assert len(counted) >= LEAST_ROWS
    assert len({row["source"] for row in counted}) >= LEAST_SOURCES
    table, most = Counter(map(table_of, counted)).most_common(1)[0]
    assert most <= MOST_OF_ONE_TABLE, table


def test_every_public_physics_function_meets_a_published_value():
    names = [info.name for info in pkgutil.iter_modules(physics.__path__, "turbomath.physics.")]
    modules = map(importlib.import_module, names)
    formulas = {member for module in modules for member in vars(module).values() if hasattr(member, "formula")}
    touched = {resolve(step["function"]) for row in counted for step in steps(row)}
    assert len(formulas) >= 30
    assert [f"{missing.__module__}.{missing.__name__}" for missing in formulas - touched] == []


def test_the_gas_table_is_not_read_where_it_is_misprinted():
    # Cengel table A-17 prints h(550 K) = 555.74 where u + RT gives 554.71: never a check value
    assert not any("550" in row["place"] for row in ROWS.values() if row["source"] == "Cengel")
