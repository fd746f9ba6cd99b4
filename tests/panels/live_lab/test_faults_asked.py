"""The fault finder of the live lab without a browser: a guess first, then an answer, or a sentence why not."""

import csv
import shutil

import pytest

from turbomath.disk import files
from turbomath.panels.live_lab import LESSON
from turbomath.panels.live_lab.lab import LabDesk

PLUGGED, SOUND = "faults/plugged_filter", "faults/sound"
GUESS = "the filter: restriction is up"


@pytest.fixture
def desk(tmp_path, monkeypatch):
    """Return a desk at a run folder with the bench of the INVENTED faults, predicted, and no reading yet."""
    monkeypatch.setenv("TURBOMATH_WORK", str(tmp_path))
    monkeypatch.setattr("turbomath.disk.journal.os.fsync", lambda _: None)  # a run has many entries
    (tmp_path / "week 3").mkdir()
    shutil.copy(files.shipped("data") / PLUGGED / "bench.toml", tmp_path / "week 3")
    desk = LabDesk("title")
    desk.hear("open", path="week 3")
    desk.hear("answer", text=LESSON.predictions["live_lab"].options[1].words)
    return desk


def entered(desk, *loads):
    """Enter the readings of the plugged filter at some loads, as they stand in its file."""
    columns = {head: name for name, head in desk.frame()["sheet"]["columns"]}
    with (files.shipped("data") / PLUGGED / "readings.csv").open(encoding="utf-8-sig") as stream:
        rows = [row for row in csv.DictReader(stream) if row["load [%]"]]
    for number, row in enumerate(rows, 3):
        for head, text in row.items():
            if head in columns and row["load [%]"] in loads:
                desk.hear("enter", row=f"{number}A", column=columns[head], text=text)
    desk.hear("work out")


def asked(desk, guess=GUESS, **how):
    desk.hear("look for faults", guess=guess, **how)
    return desk.frame()["faults"]


def test_the_answer_comes_behind_a_guess_and_is_that_of_the_shipped_run(desk):
    entered(desk, "25", "40", "60", "80", "100")
    before = asked(desk, guess=" ")
    assert before["answer"] is None
    assert before["fault"].startswith("Write your own guess first")
    found = asked(desk, beside=SOUND)
    assert found["said"] == f"You guessed: {GUESS}"
    answer = found["answer"]
    assert answer["head"].endswith("(5 loads, 7 gauges) INVENTED: no engine was measured.")
    assert answer["answer"].startswith("The readings fit one fault on the list best: plugged air filter or intake")
    assert "restriction up 110 %" in answer["likely"][0]
    assert answer["test"][0].startswith("Look at filter and intake (10 minutes).")
    assert any(line.startswith("Caution, rotating and hot parts") for line in answer["test"])
    assert any("The maker's manual comes first" in line for line in answer["worth"])
    sister = asked(desk, beside=SOUND, own=False)["answer"]
    assert "another engine of its make and type" in sister["head"]
    again = LabDesk("title")
    again.take_up(desk.state())
    again.hear("wall", on=True)
    again.hear("faults on the wall")
    assert "another engine of its make and type" in again.frame()["faults"]["answer"]["head"]
    again.hear("wall", on=False)
    assert again.frame()["faults"]["guess"] == GUESS
    assert again.frame()["faults"]["beside"] == SOUND


def refused(desk, **how):
    """Return why it cannot say, in one line."""
    found = asked(desk, **how)
    assert found["answer"] is None
    assert found["fault"].startswith("It cannot say yet. ")
    assert "\n" not in found["fault"]
    return found["fault"]


def test_where_it_cannot_say_one_sentence_says_why(desk):
    assert "Found no number so far, expected readings at two loads" in refused(desk)
    entered(desk, "100")
    assert "found one load, expected readings at 2 loads or more" in refused(desk, beside=SOUND)
    entered(desk, "40")
    assert asked(desk, beside=SOUND)["answer"]
    for beside, words in (
        ("nowhere", "expected a run folder"),
        ("week 3", "Found this very run"),
        ("a\x00b", "expected the folder of an earlier run"),
        ("generator_jacket_water", "found a run of another engine"),
    ):
        assert words in refused(desk, beside=beside)
    for row in ("4A", "7A"):
        for column in ("fuel_flow", "power"):
            desk.hear("enter", row=row, column=column, text="")
    desk.hear("work out")
    assert "found no reading of fuel flow or power under load" in refused(desk)


def test_a_reading_takes_the_answer_away_and_nothing_is_worked_out_while_it_is_typed(desk, monkeypatch):
    entered(desk, "40", "100")
    asked(desk, beside=SOUND)
    monkeypatch.setattr("turbomath.panels.live_lab.fault_page.held_against.found_in", None)  # a call would fail
    desk.hear("enter", row="7A", column="boost", text="23.0")
    desk.hear("work out")
    found = desk.frame()["faults"]
    assert found["answer"] is None
    assert found["fault"].startswith("Readings have changed since you asked")
    desk.hear("open", path="week 3")
    assert desk.frame()["faults"]["guess"] == "", "another run, another guess"
    desk.hear("again")
    assert desk.frame()["faults"] is None, "it waits for the prediction"


def test_an_engine_that_the_model_has_not_is_said_so(desk):
    bench = desk.entries.folder / "bench.toml"
    bench.write_text(bench.read_text(encoding="utf-8").replace("[engine]", "[engine]\nstages = 2", 1), encoding="utf-8")
    desk.hear("open", path="week 3")
    desk.hear("enter", row="7A", column="boost", text="23.5")
    desk.hear("work out")
    assert "found stages = 2, expected an engine with one stage" in refused(desk)
