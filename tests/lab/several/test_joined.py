"""What groups entered at one engine, as one run. INVENTED readings."""

import csv
import shutil

import pytest

from tests.command_line import turbomath
from turbomath.disk import files
from turbomath.lab.entry.entry_run import EntryRun
from turbomath.lab.run.readings import read_run
from turbomath.lab.several import joined
from turbomath.table.errors import RefusedFileError, TurbomathError

PRESSURES = {"barometer": "29,10", "boost": "24.0"}
HEATS = {"ambient_temperature": "77", "manifold_temperature": "132"}


@pytest.fixture
def group(tmp_path):
    """Return ``group(name, {row: {column: text}})`` -> the folder in which that was entered."""

    def entered(name, rows, engine="generator_air_to_air", **options):
        folder = tmp_path / name
        folder.mkdir()
        shutil.copy(files.shipped("data") / engine / "bench.toml", folder)
        run = EntryRun(folder, **options)
        for row, cells in rows.items():
            for column, text in cells.items():
                assert run.enter(row, column, text, "ab", look=False).saved
        return folder

    return entered


def rows_of(folder):
    with open(folder / "readings.csv", encoding="utf-8-sig", newline="") as page:
        return {one["point"] + one["pass"]: one for one in csv.DictReader(page)}


def test_groups_that_read_other_gauges_make_one_row(group, tmp_path):
    folders = group("one", {"3A": PRESSURES}), group("two", {"3A": HEATS, "4A": PRESSURES})
    said = joined.join(folders, tmp_path / "whole")
    assert said == ["6 readings of 2 groups stand in " + str(tmp_path / "whole" / "readings.csv") + "."]
    whole, run = rows_of(tmp_path / "whole"), read_run(tmp_path / "whole")
    assert list(whole) == ["3A", "4A"]
    assert whole["3A"]["reader"] == "one ab, two ab"
    assert run["boost"] == pytest.approx([24.0 * 6894.757, 24.0 * 6894.757])  # SI brochure, psi
    assert run["manifold_temperature"][0] == pytest.approx((132 + 459.67) / 1.8)


def test_a_row_read_twice_is_two_passes_and_a_third_is_left_where_it_is(group, tmp_path):
    readings = [{"boost": text} for text in ("24.0", "24.5", "23.5")]
    folders = [group(f"group {turn}", {"3A": one, "zero": one}) for turn, one in enumerate(readings)]
    said = joined.join(folders, tmp_path / "whole")
    assert "group 1, row 3A: another group has read it too. This reading stands as 3B." in said
    assert f"group 2, row 3A: left out, since others have read it. It is in {folders[2]}." in said
    assert f"group 1, row zero: left out, since others have read it. It is in {folders[1]}." in said
    whole = rows_of(tmp_path / "whole")
    assert [whole[row]["boost [psi]"] for row in ("zero", "3A", "3B")] == ["24.0", "24.0", "24.5"]
    assert len(EntryRun(folders[2]).texts) == 2


def test_runs_that_do_not_belong_together_are_refused_and_nothing_is_made(group, tmp_path):
    one, other = group("one", {"3A": PRESSURES}), group("other", {"3A": PRESSURES}, "generator_jacket_water")
    metric = group("metric", {"3A": {"boost": "165"}}, units={"boost": "kPa"})
    rows, empty = group("rows", {"1A": PRESSURES}, conditions=["high idle"]), group("empty", {})
    for folders, words in (
        ([one], "found 1 run, expected the runs of two groups or more"),
        ([one, other], "expected what .* says of engine and gauges"),
        ([one, metric], "boost in kPa"),
        ([one, rows], "found 'a row of high idle', expected a row of zero"),
        ([one, empty], "found 'no reading', expected readings entered in lesson 08"),
    ):
        with pytest.raises(TurbomathError, match=words):
            joined.join(folders, tmp_path / "whole")
        assert not (tmp_path / "whole").exists()
    with pytest.raises(RefusedFileError, match="found 'something there already', expected a new folder"):
        joined.join([one, one], other)
    two = group("two", {"4A": HEATS})
    done = turbomath("pool", "one", two.name, "--into", "whole", cwd=tmp_path)
    assert (done.returncode, done.stderr) == (0, "")
    assert "4 readings of 2 groups" in done.stdout
