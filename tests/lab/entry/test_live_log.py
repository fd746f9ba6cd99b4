"""A growing log beside the grid: its last row at once, stretches offered, and none taken by itself. INVENTED."""

import shutil

import pytest

from tests.lab.run.logged import LOADS, log, truth
from turbomath.disk import files
from turbomath.lab.entry.entry_run import EntryRun
from turbomath.lab.entry.live_log import LiveLog, beside
from turbomath.lab.run.bench import read_bench
from turbomath.table.errors import RefusedFileError


@pytest.fixture
def folder(tmp_path):
    shutil.copy(files.shipped("data") / "generator_air_to_air" / "bench.toml", tmp_path)
    return tmp_path


@pytest.fixture
def live(folder):
    """A log that is followed, and what writes into it; stretches are looked for at every call."""
    found = LiveLog(folder / "today.csv", read_bench(folder / "bench.toml"), clock=iter(range(0, 10**6, 10)).__next__)

    def write(text):
        with (folder / "today.csv").open("a", encoding="utf-8") as stream:
            stream.write(text)
        return found.look()

    return found, write


def test_the_last_row_is_there_at_once_and_half_a_row_is_not(live):
    found, write = live
    assert not found.look()
    assert write("# INVENTED\ntime [s],boost [psi]\n0,12.5\n1,13")
    assert (found.rows, found.last, found.invented) == (1, [("boost", "12.5", "psi")], True)
    assert write(".5\n")
    assert found.last == [("boost", "13.5", "psi")]


def test_steady_stretches_are_offered_and_taken_one_by_one(live, folder):
    found, write = live
    text, _ = log(1500, 2.0)
    lines = text.splitlines(keepends=True)
    for at in range(0, len(lines), 97):
        write("".join(lines[at : at + 97]))
    offers = found.offers()
    assert [one.means["boost"] for one in offers] == pytest.approx([truth(load)[0] for load in LOADS], abs=0.05)
    run = EntryRun(folder)
    assert run.entries == (), "nothing is taken by itself"
    told = found.take(4, run, "ab")
    assert told.saved
    assert told.sentence == "Point 3: 9 readings taken from today.csv."
    assert float(run.texts["3A", "boost"]) == pytest.approx(24.0, abs=0.05)
    assert run.texts["3A", "remark"].startswith("from today.csv, ")
    assert found.take(2, run).sentence.startswith("Point 4:")
    assert "no stretch 99" in found.take(99, run).sentence
    assert run.results().reduced["measured_charge_gain"].value[0] > 1


@pytest.mark.parametrize(("gauge", "apart"), [("24.5", False), ("29.0", True)])
def test_a_gauge_and_a_logger_that_disagree_are_said_so_with_their_plus_or_minus(live, folder, gauge, apart):
    found, write = live
    write(log(1500, 2.0)[0])
    run = EntryRun(folder)
    for column, text in (("boost", gauge), ("manifold_temperature", "130"), ("barometer", "29.1")):
        run.enter("3A", column, text, look=False)
    assert beside(run) == ["3"]
    assert found.take(4, run, point="3").sentence == "Point 3: 9 readings taken from today.csv."
    assert beside(run) == []
    said = [flag.reason for flag in run.flags("3B", "boost") if "read twice" in flag.reason]
    assert bool(said) == apart
    assert all("±" in reason for reason in said), said


@pytest.mark.parametrize(("speed", "load", "row"), [(705, 0, "1A"), (1940, 0, "2A"), (1200, 0, "3A"), (705, 30, "3A")])
def test_an_idle_within_the_makers_band_becomes_the_idle_point(live, folder, speed, load, row):
    found, write = live
    write("time [s],engine speed [rpm],load [%],manifold temperature [°F]\n")
    write("".join(f"{second},{speed},{load},90.0\n" for second in range(200)))
    run = EntryRun(folder)
    found.take(1, run)
    assert run.texts[row, "engine_speed"] == str(speed)


def test_when_every_point_under_load_is_full_another_is_added(live, folder):
    found, write = live
    write(log(1500, 2.0)[0])
    run = EntryRun(folder, ["load"])
    for point in "12":
        assert found.take(1, run).sentence.startswith(f"Point {point}:")


def test_a_file_begun_anew_forgets_what_it_offered_and_says_so(live, folder):
    found, write = live
    write(log(1500, 2.0)[0])
    assert found.offers()
    (folder / "today.csv").write_text("time [s],boost [psi]\n0,12.5\n", encoding="utf-8")
    found.look()
    assert (found.rows, found.offers()) == (1, ())
    assert "began anew" in found.said


def test_a_logger_that_moves_its_file_and_begins_another_goes_on_and_no_row_is_lost(live, folder):
    found, write = live
    head, *rows = log(1500, 2.0)[0].splitlines(keepends=True)
    write(head + "".join(rows[:700]))
    with (folder / "today.csv").open("a", encoding="utf-8") as stream:
        stream.write("".join(rows[700:705]))
    (folder / "today.csv").rename(folder / "today.1.csv")
    write(head + "".join(rows[705:]))
    write("")
    assert (found.rows, len(found.offers())) == (1500, len(LOADS))
    assert "rows of the one before are kept" in found.said
    (folder / "today.csv").rename(folder / "today.2.csv")
    write("time [s],boost [kPa]\n0,80.0\n")
    assert (found.rows, found.last) == (1, [("boost", "80.0", "kPa")])
    assert "no longer offered" in found.said


def test_a_log_in_other_units_is_entered_in_those_of_the_grid(folder):
    text, _ = log(1500, 2.0)
    head, rest = text.split("\n", 1)
    (folder / "today.csv").write_text(head.replace("boost [psi]", "boost [kPa]") + "\n" + rest, encoding="utf-8")
    found, run = LiveLog(folder / "today.csv", read_bench(folder / "bench.toml")), EntryRun(folder)
    found.look()
    found.take(4, run)
    assert float(run.texts["3A", "boost"]) == pytest.approx(24.0 / 6.8948, abs=0.01)  # NIST SP 811: 1 psi


def test_a_file_without_a_head_that_fits_is_refused_in_a_sentence(live):
    _, write = live
    with pytest.raises(RefusedFileError, match=r"under \[logger.columns\]"):
        write("a,b\n" * 120)
