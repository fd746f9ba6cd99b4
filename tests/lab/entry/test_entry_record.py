"""The run-up record as it is entered: on the disk before it is called saved, another's file left alone."""

import errno
import shutil

import pytest

from turbomath.disk import files
from turbomath.disk.journal import Journal
from turbomath.lab.entry.entry_record import JOURNAL, EntryRecord
from turbomath.lab.record.questions import Box
from turbomath.lab.record.record import FILE, read_record
from turbomath.lab.record.record_text import new_record
from turbomath.lab.run.bench import read_bench
from turbomath.table.errors import TurbomathError

WHO, TRIED = Box("supervisor", "", "answer"), Box("first_stop_tried", "", "answer")
LEFT = Box("idle", "low", "as_left")


@pytest.fixture
def folder(tmp_path):
    shutil.copy(files.shipped("data") / "generator_air_to_air" / "bench.toml", tmp_path)
    return tmp_path


def refuse(_):
    raise OSError(errno.ENOSPC, "No space left")


def opened(folder):
    return EntryRecord(folder, read_bench(folder / "bench.toml"))


def test_what_was_answered_stands_there_again_and_in_the_file(folder):
    first = opened(folder)
    for box, text in ((WHO, "AB"), (TRIED, "Y"), (LEFT, "700,5"), (WHO, " CD,\tat the panel ")):
        assert first.enter(box, text, "ab") == (True, "Saved.")
    assert first.write() == (True, f"Written to {FILE}.")
    again = opened(folder)
    assert again.texts == {WHO: " CD,\tat the panel ", TRIED: "Y", LEFT: "700,5"}
    found = read_record(folder, again.bench).answers
    texts = {box: answer.text for box, answer in found.items()}
    assert texts == {WHO: "CD, at the panel", TRIED: "yes", LEFT: "700.5 rpm"}
    assert len(Journal(folder / JOURNAL).read()[0]) == 5, "four answers, and the sum of the file: nothing is changed"


def test_what_is_no_answer_is_kept_as_typed_and_said(folder):
    record = opened(folder)
    record.enter(TRIED, "perhaps")
    record.enter(LEFT, "seven hundred")
    found = record.looked()
    assert set(found.refusals) == {TRIED, LEFT}
    assert found.refusals[LEFT].expected == "a number in rpm"
    record.write()
    text = (folder / FILE).read_text(encoding="utf-8")
    assert "left out, as typed: first_stop_tried: perhaps" in text
    assert read_record(folder, record.bench).answers == {}


def test_an_emptied_box_is_no_answer(folder):
    record = opened(folder)
    record.enter(WHO, "AB")
    record.enter(WHO, "")
    assert record.looked().values == {}


def test_a_blank_record_is_filled_in_and_one_filled_in_by_hand_is_left_alone(folder):
    new_record(folder)
    record = opened(folder)
    record.enter(WHO, "AB")
    assert record.write().sentence == f"Written to {FILE}."
    by_hand = '[people_and_stops]\nsupervisor = "somebody else"\n'
    (folder / FILE).write_text(by_hand, encoding="utf-8")
    record.enter(TRIED, "n")
    assert "was left as it is, and what you entered is in record-entered.toml" in record.write().sentence
    assert (folder / FILE).read_text(encoding="utf-8") == by_hand
    assert 'first_stop_tried = "no"' in (folder / "record-entered.toml").read_text(encoding="utf-8")


def test_a_disk_that_refuses_leaves_the_answer_here_until_it_is_saved(folder, monkeypatch):
    record = opened(folder)
    with monkeypatch.context() as full:
        full.setattr("turbomath.disk.journal.os.fsync", refuse)
        told = record.enter(WHO, "AB")
        assert not told.saved
        assert told.sentence.startswith("Not saved: No space left.")
        assert WHO in record.unsaved
    assert record.again() == (True, "Saved.")
    assert opened(folder).texts == {WHO: "AB"}


def test_another_window_is_heard(folder):
    one, other = opened(folder), opened(folder)
    one.enter(WHO, "AB")
    other.enter(TRIED, "y")
    other.write()
    assert other.texts == {WHO: "AB", TRIED: "y"}
    assert one.refresh() == 1


def test_a_box_that_is_none_is_refused_and_a_long_text_is_not_kept(folder):
    record = opened(folder)
    with pytest.raises(TurbomathError, match="no such box"):
        record.enter(Box("supervisor", "1", "answer"), "AB")
    assert not record.enter(WHO, "x" * 2_001).saved
    record.enter(WHO, "x" * 300)
    assert "at most 200 letters" in record.looked().refusals[WHO].expected
