"""Published figures read as a sheet of readings: from the file to the reduced results, which the source prints too.

Each folder of tests/published/engines is a run, and its printed.toml says what comes out, where it is printed, and why
the tolerance is what it is. They are worked examples of books and of a course: nobody read these gauges.
"""

import tomllib
from pathlib import Path

import pytest

from turbomath.lab.checks import check_run
from turbomath.lab.reduction.reduce import reduce_run
from turbomath.lab.run.readings import read_run
from turbomath.table.sources import SOURCES

FOLDERS = sorted(path.parent for path in (Path(__file__).parent / "engines").glob("*/printed.toml"))


def printed(folder):
    """Return (what the file says of its source, result -> what is printed)."""
    content = tomllib.loads((folder / "printed.toml").read_text(encoding="utf-8"))
    results = {name: one for name, one in content.items() if isinstance(one, dict)}
    return {name: one for name, one in content.items() if name not in results}, results


@pytest.mark.parametrize("folder", FOLDERS, ids=lambda folder: folder.name)
def test_the_readings_of_a_publication_give_what_it_prints(folder):
    source, results = printed(folder)
    reduced = reduce_run(read_run(folder))
    assert source["source"] in SOURCES
    assert len(results) >= 3
    for name, one in results.items():
        assert len(one["reason"]) >= 5, name
        assert one["tolerance"] <= 0.01 * one["printed"], name
        assert reduced[name].value[0] == pytest.approx(one["printed"], rel=0, abs=one["tolerance"]), name


@pytest.mark.parametrize("folder", FOLDERS, ids=lambda folder: folder.name)
def test_nothing_in_them_is_called_impossible_but_an_intake_without_any_loss(folder):
    red = [flag for flag in check_run(read_run(folder)) if flag.level in ("limit", "red")]
    assert [flag.reason for flag in red if flag.column != "intake_restriction"] == []


def test_there_are_three_from_three_sources():
    assert len({printed(folder)[0]["source"] for folder in FOLDERS}) >= 3
