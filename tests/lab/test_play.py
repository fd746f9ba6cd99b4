"""A run played for a class without an engine: lines whole and INVENTED, steady stretches that are the run's points."""

import shutil

import numpy as np
import pytest

from turbomath import units
from turbomath.cli import main
from turbomath.disk import files
from turbomath.lab import play
from turbomath.lab.run.readings import read_run
from turbomath.table.errors import OutOfRangeError, RefusedFileError

RUN = "generator_air_to_air"


@pytest.fixture(scope="module")
def played(tmp_path_factory):
    """Return the path of the log of a shipped run."""
    path = tmp_path_factory.mktemp("played") / "today.csv"
    assert play.play(read_run(RUN), path, at_once=True) == 8 * 300
    return path


def test_every_line_is_whole_and_says_that_it_is_invented(played):
    first, head, *rows = played.read_text(encoding="utf-8").splitlines()
    assert "INVENTED" in first
    assert all(row.endswith(",INVENTED") and row.count(",") == head.count(",") for row in rows)


def test_its_steady_stretches_are_the_points_of_the_run_within_a_step_of_each_gauge(played):
    shipped, found = read_run(RUN), read_run(RUN, played)
    assert found.bench.run.invented
    assert len(found) == 8
    for name, step in (("boost", 0.5), ("compressor_outlet_temperature", 1.0), ("manifold_temperature", 1.0)):
        unit = "psi" if name == "boost" else "F°"
        size = units.to_si(step, unit, "boost" if name == "boost" else "temperature_rise")
        assert np.all(np.abs(found[name] - shipped[name][1:]) < 1.5 * size), name


def test_stretches_are_offered_and_none_is_taken_silently(played, tmp_path, monkeypatch, capsys):
    monkeypatch.chdir(tmp_path)
    assert main(["report", str(played), "--bench", RUN]) == 0
    said = capsys.readouterr().out
    assert "8 steady stretches of it may become points" in said
    assert "None was taken yet" in said
    assert list(tmp_path.iterdir()) == []
    assert main(["report", str(played), "--bench", RUN, "--take", "2,8"]) == 0
    said = capsys.readouterr().out
    assert "INVENTED" in said
    text = (tmp_path / "today-report" / "report.html").read_text(encoding="utf-8")
    assert "may become" not in text
    assert main(["report", str(played), "--bench", RUN, "--take", "two"]) == 1
    assert "expected all, or numbers such as 1,3" in capsys.readouterr().err


@pytest.mark.parametrize("more", [[], ["--take", "1"]])
def test_without_its_bench_a_loggers_file_is_refused(played, tmp_path, monkeypatch, capsys, more):
    monkeypatch.chdir(tmp_path)
    for run in [str(played), *([RUN] if more else [])]:
        assert main(["report", run, *more]) == 1
        assert "Add --bench FOLDER." in capsys.readouterr().err
    assert list(tmp_path.iterdir()) == []


def test_it_keeps_to_the_clock(tmp_path):
    waited = []
    play.play(read_run(RUN), tmp_path / "log.csv", hold=2, rate=10, sleep=waited.append)
    assert len(waited) == 8 * 20
    assert 0 <= waited[0] <= 0.1
    assert waited[-1] == pytest.approx(15.9, abs=2.0), "told when, as the clock stands still here"


@pytest.mark.parametrize(
    ("name", "value"), [("hold", 0), ("hold", 1e9), ("rate", -1), ("rate", 1000), ("rate", float("nan"))]
)
def test_what_cannot_be_played_is_refused(tmp_path, name, value):
    with pytest.raises(OutOfRangeError, match=name):
        play.play(read_run(RUN), tmp_path / "log.csv", at_once=True, **{name: value})
    assert not (tmp_path / "log.csv").exists()


def test_a_file_that_is_there_is_left_as_it_is(tmp_path, capsys):
    (tmp_path / "log.csv").write_text("mine", encoding="utf-8")
    with pytest.raises(RefusedFileError, match="left as it is"):
        play.play(read_run(RUN), tmp_path / "log.csv", at_once=True)
    assert (tmp_path / "log.csv").read_text(encoding="utf-8") == "mine"
    folder = tmp_path / "zeros"
    shutil.copytree(files.shipped("data") / RUN, folder)
    (folder / "readings.csv").write_text("point,condition,boost [psi]\n0,zero,0\n", encoding="utf-8")
    assert main(["play", str(folder), "--to", str(tmp_path / "other.csv")]) == 1
    assert "no point with the engine running" in capsys.readouterr().err
