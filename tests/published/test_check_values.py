"""The main job against the outside: printed tables, standards and worked examples, one row each.

A row of check_values.csv holds data only. Its `arguments` are ``name=value`` pairs; a value is a
number, a word (its blanks written as _), or ``row:case`` for what the kit itself makes of another
row, so that a worked example can be followed step by step. The result is multiplied by the values in
`times`, if there are any.

Status: V read in print or in a published transcription that names the print; V+C the same, and a
library or formula reproduces it; C worked out here or by a library; M from memory. Only V and V+C count.
"""

import csv
import importlib
import pathlib
import pkgutil
from collections import Counter

import pytest

from turbomath import air, physics
from turbomath.table.sources import SOURCES

COLUMNS = [
    "case",
    "source",
    "place",
    "status",
    "function",
    "arguments",
    "times",
    "expected",
    "tolerance",
    "tolerance_kind",
    "reason",
    "note",
]
COUNTED = {"V", "V+C"}
LEAST_ROWS, LEAST_SOURCES, MOST_OF_ONE_TABLE = 40, 6, 10


def read_rows():
    with open(pathlib.Path(__file__).with_name("check_values.csv"), newline="", encoding="utf-8") as file:
        reader = csv.DictReader(file)
        rows = list(reader)
    assert reader.fieldnames == COLUMNS
    return {row["case"]: row for row in rows}, len(rows)


ROWS, COUNT = read_rows()
counted = [row for row in ROWS.values() if row["status"] in COUNTED]


def resolve(dotted):
    """Return what a dotted path under turbomath names; ``air.perfect.density`` is a method of that model."""
    first, second, *rest = dotted.split(".")
    if first == "air":
        return getattr(air.choose(second), rest[0])
    module = importlib.import_module(f"turbomath.{first}.{second}")
    return getattr(module, rest[0])


def value(text):
    """Return the number, the word or the kit's own result of another row."""
    if text.startswith("row:"):
        return result(ROWS[text.removeprefix("row:")])
    try:
        return float(text)
    except ValueError:
        return text.replace("_", " ")


def pairs(row):
    return dict(pair.split("=", 1) for pair in row["arguments"].split())


def result(row):
    answer = resolve(row["function"])(**{name: value(text) for name, text in pairs(row).items()})
    for factor in row["times"].split():
        answer *= value(factor)
    return answer


def steps(row):
    """The row and the rows it leans on."""
    named = [*pairs(row).values(), *row["times"].split()]
    inner = [ROWS[text.removeprefix("row:")] for text in named if text.startswith("row:")]
    return [row, *(step for other in inner for step in steps(other))]


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
    assert len(ROWS) == COUNT


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
