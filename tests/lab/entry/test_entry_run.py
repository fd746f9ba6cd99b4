"""Readings entered at the engine are on the disk before they are called saved; no disk, window or hand loses one."""

import errno
import io
import os
import shutil
import types

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from turbomath import cli
from turbomath.disk import files, journal
from turbomath.lab.checks import check_run
from turbomath.lab.entry import run_of_entries
from turbomath.lab.entry.entry import Entry
from turbomath.lab.entry.entry_journal import FILE, EntryJournal
from turbomath.lab.entry.entry_run import LONGEST, EntryRun
from turbomath.lab.entry.grid import plan
from turbomath.lab.reduction.reduce import reduce_run
from turbomath.lab.run import blank
from turbomath.lab.run.bench import read_bench
from turbomath.lab.run.readings import read_run
from turbomath.table.errors import RefusedFileError, TurbomathError

POINT = {
    "barometer": "29,10",
    "ambient_temperature": "77",
    "boost": "24.0",
    "manifold_temperature": "132",
    "compressor_outlet_temperature": "338",
    "cooling_medium_temperature": "79",
}
REFUSALS = [errno.ENOSPC, errno.EACCES, errno.EIO]


@pytest.fixture
def folder(run_folder):
    return run_folder(None)


@pytest.fixture
def entered(folder):
    entered = EntryRun(folder)
    for column, text in POINT.items():
        entered.enter("3A", column, text, "seat 4", look=False)
    return entered


def refusing(monkeypatch, module, call, number, times=1_000):
    """Make a call of the system fail so many times."""
    real, left = getattr(module, call), [times]

    def refuse(*given, **named):
        if left[0] <= 0:
            return real(*given, **named)
        left[0] -= 1
        raise OSError(number, os.strerror(number))

    monkeypatch.setattr(module, call, refuse)


# Opening again


def test_opening_again_restores_every_cell_to_the_letter(entered, folder):
    entered.enter("3A", "remark", "=1+1 <b>\x00\u202e\ud800\n é", remark="../x", look=False)
    again = EntryRun(folder)
    assert again.texts == entered.texts
    assert again.entries == entered.entries
    assert (again.restored, again.note, again.unsaved) == (len(POINT) + 1, "", {})
    assert (folder / FILE).stat().st_mode & 0o077 == 0, "readings are nobody else's business"


def test_nothing_is_written_before_the_first_entry(folder):
    there = sorted(folder.iterdir())
    entered = EntryRun(folder)
    assert (entered.restored, entered.results()) == (0, None)
    assert entered.undo().sentence == "Nothing to take back."
    assert entered.write().saved is False
    assert sorted(folder.iterdir()) == there


def test_a_journal_that_has_begun_keeps_its_plan_and_its_heads(bench_text, run_folder):
    first = EntryRun(run_folder(None), ["zero", "load"], {"boost": "kPa"})
    first.enter("1A", "boost", "165", look=False)
    again = EntryRun(run_folder(None, bench_text.replace('units = "us"', 'units = "si"')))
    assert again.grid == first.grid
    assert again.results().run["boost"][0] == 165_000


def test_the_heads_of_a_blank_readings_file_are_taken(folder):
    head = blank.head("air-to-air").replace("boost [psi]", "boost [bar]")
    (folder / "readings.csv").write_text(head, encoding="utf-8")
    entered = EntryRun(folder)
    assert entered.grid.unit("boost") == "bar"
    entered.enter("1A", "boost", "1,65", look=False)
    assert entered.write().path == folder / "readings.csv"
    assert read_run(folder)["boost"] == pytest.approx([165_000])


def test_a_shipped_run_and_a_folder_without_a_bench_are_refused(tmp_path):
    with pytest.raises(RefusedFileError, match="of your own"):
        EntryRun(files.shipped("data") / "generator_air_to_air")
    with pytest.raises(RefusedFileError, match="no such file"):
        EntryRun(tmp_path)


def test_a_cell_that_is_not_there_is_refused(entered):
    for row, column in (("3C", "boost"), ("3A", "bost"), ("3B", "condition"), ("zero", "pass")):
        with pytest.raises(TurbomathError, match="no such box"):
            entered.enter(row, column, "1")
    assert len(entered.entries) == len(POINT)


def test_a_text_too_long_is_not_called_saved(entered, folder):
    told = entered.enter("3A", "remark", "x" * (LONGEST + 1))
    assert told.saved is False
    assert "2,000" in told.sentence
    assert entered.enter("3A", "remark", "x" * LONGEST).saved is True


# Taking back


def test_undo_and_redo_are_entries_too_and_survive(entered, folder):
    entered.enter("3A", "boost", "42", look=False)
    told = entered.undo("seat 7")
    assert told.saved is True
    assert "'42'" in told.sentence
    assert EntryRun(folder).texts["3A", "boost"] == "24.0"
    assert entered.redo().saved is True
    assert EntryRun(folder).texts["3A", "boost"] == "42"
    assert entered.redo().saved is False
    assert [one.text for one in entered.history("3A", "boost")] == ["24.0", "42", "42", "42"]
    assert entered.history("3A", "boost")[2].reader == "seat 7"


def test_everything_can_be_taken_back_one_by_one_and_brought_back(entered):
    before = entered.texts
    for _ in before:
        assert entered.undo().saved
    assert entered.texts == {}
    assert entered.undo().saved is False
    while entered.redo().saved:
        pass
    assert entered.texts == before


def test_an_entry_can_be_taken_back_by_its_name_once(entered):
    name = entered.history("3A", "barometer")[0].name
    assert entered.undo(name=name).saved is True
    assert ("3A", "barometer") not in entered.texts
    assert entered.undo(name=name).saved is False
    assert len(entered.texts) == len(POINT) - 1


def test_points_can_be_added_up_to_a_bound(entered, folder, monkeypatch):
    last = entered.grid.rows[-2]
    assert entered.add_point("no load", "seat 4").saved is True
    added = EntryRun(folder).grid.rows[-2]
    assert (int(added.point), added.condition) == (int(last.point) + 1, "no load")
    with pytest.raises(TurbomathError, match="full tilt"):
        entered.add_point("full tilt")
    monkeypatch.setattr("turbomath.lab.entry.entry_run.MOST_POINTS", int(added.point))
    assert entered.add_point().saved is False


# Two windows


def test_what_another_window_entered_is_seen_the_last_stands_and_both_are_kept(entered, folder):
    other = EntryRun(folder)
    other.enter("3A", "boost", "25", "seat 9", look=False)
    other.enter("4A", "boost", "30", "seat 9", look=False)
    assert entered.texts["3A", "boost"] == "24.0"
    assert entered.refresh() == 2
    assert entered.refresh() == 0
    assert entered.texts["3A", "boost"] == "25"
    assert [one.reader for one in entered.history("3A", "boost")] == ["seat 4", "seat 9"]
    entered.enter("3A", "boost", "26", "seat 4", look=False)
    other.refresh()
    assert other.texts == entered.texts
    assert other.texts["3A", "boost"] == "26"


def test_undo_leaves_the_entries_of_another_window_alone(entered, folder):
    other = EntryRun(folder)
    other.enter("5A", "boost", "30", look=False)
    entered.refresh()
    assert entered.undo().sentence.startswith("Taken back: cooling medium temperature")
    assert ("5A", "boost") in entered.texts


def test_a_file_written_while_another_window_enters_holds_that_entry_too(entered, folder, monkeypatch):
    other, real, once = EntryRun(folder), files.write_whole, []

    def slowly(path, content):
        if not once:
            once.append(other.enter("4A", "boost", "30", look=False))
        real(path, content)

    monkeypatch.setattr(files, "write_whole", slowly)
    assert entered.write().saved is True
    assert read_run(folder).cells["boost"] == ("24.0", "30")


def test_two_windows_that_begin_with_other_heads_never_mix_units(folder):
    first, second = EntryRun(folder, units={"boost": "kPa"}), EntryRun(folder)
    second.enter("2A", "boost", "24", look=False)
    told = first.enter("1A", "boost", "165")
    assert [flag.level for flag in told.flags] == ["red"]
    assert "psi, not in kPa" in told.flags[0].reason
    run = EntryRun(folder).results().run
    np.testing.assert_allclose(run["boost"], [np.nan, 24 * 6894.757], rtol=1e-6)  # psi in Pa, NIST SP 811
    assert "165" in run.cells["remark"][0]


# Results and files


def test_results_come_with_each_entry_and_are_those_of_the_run_folder(entered, folder):
    found = entered.results()
    assert found.rows == ("3A",)
    assert found.run.folder == folder
    entered.write()
    run = read_run(folder)
    reduced = reduce_run(run)
    for name, estimate in reduced.estimates.items():
        np.testing.assert_array_equal(found.reduced[name].value, estimate.value)
        np.testing.assert_array_equal(found.reduced[name].plus_or_minus, estimate.plus_or_minus)
    assert found.flags == check_run(run)
    assert entered.enter("4A", "boost", "10", look=False).saved
    assert entered.results().rows == ("3A", "4A")


def test_the_report_of_the_command_line_works_on_the_folder(entered, folder, tmp_path, capsys):
    entered.write()
    assert cli.main(["report", str(folder), "--out", str(tmp_path / "out")]) == 0
    assert "charge gain" in capsys.readouterr().out


def test_readings_can_be_written_again_and_again(entered, folder):
    for text in ("20", "21", "", "22"):
        entered.enter("4A", "boost", text, look=False)
        written = entered.write()
        assert (written.path, written.saved) == (folder / "readings.csv", True)
    assert EntryRun(folder).write().path == folder / "readings.csv", "another day it is still known as its own"
    assert read_run(folder).cells["boost"] == ("24.0", "22")


def test_writing_the_same_again_adds_nothing_to_the_journal(entered, folder):
    entered.write()
    before = (folder / FILE).read_bytes()
    assert entered.write().saved is True
    assert (folder / FILE).read_bytes() == before


def test_a_file_whose_entries_were_all_taken_back_has_a_head_only(entered, folder):
    entered.write()
    while entered.undo().saved:
        pass
    assert entered.write().saved is True
    assert (folder / "readings.csv").read_text(encoding="utf-8-sig").count("\n") == 1


def by_hand(folder, name="readings.csv", text="boost [psi]\n24\n"):
    path = folder / name
    path.write_text(text, encoding="utf-8")
    return path, path.read_bytes()


@pytest.mark.parametrize("before", [True, False], ids=["was there before", "changed since"])
def test_a_file_changed_by_hand_is_left_as_it_is_and_ours_goes_beside_it(entered, folder, before):
    if not before:
        entered.write()
    path, content = by_hand(folder)
    for boost in ("25", "26"):
        entered.enter("4A", "boost", boost, look=False)
        written = entered.write()
        assert written.saved is True
        assert written.path == folder / "readings-entered.csv"
        assert written.path.name in written.sentence
        assert "left as it is" in written.sentence.replace("was left", "left")
        assert path.read_bytes() == content
    assert "26" in written.path.read_text(encoding="utf-8")
    beside, changed = by_hand(folder, "readings-entered.csv")
    assert entered.write().path == folder / "readings-entered-2.csv"
    assert beside.read_bytes() == changed


def test_a_workbook_a_link_and_a_folder_in_the_way_are_left_as_they_are(entered, folder, tmp_path):
    victim = tmp_path / "victim.csv"
    victim.write_bytes(b"keep me")
    (folder / "readings.csv").symlink_to(victim)
    (folder / "readings-entered.csv").mkdir()
    assert entered.write().path.name == "readings-entered-2.csv"
    assert victim.read_bytes() == b"keep me"
    (folder / "readings.csv").unlink()
    for book in ("readings.xlsx", "readings.ods"):
        (folder / book).write_bytes(b"PK")
        written = entered.write()
        assert written.path.name == "readings-entered-2.csv"
        assert book in written.sentence
        (folder / book).unlink()


def test_a_link_to_our_own_file_elsewhere_stays_a_link(entered, folder, tmp_path):
    entered.write()
    os.replace(folder / "readings.csv", tmp_path / "elsewhere.csv")
    (folder / "readings.csv").symlink_to(tmp_path / "elsewhere.csv")
    entered.enter("4A", "boost", "30", look=False)
    assert entered.write().path == folder / "readings-entered.csv"
    assert (folder / "readings.csv").is_symlink()


def test_a_blank_file_of_columns_that_are_not_ours_is_left_as_it_is(entered, folder):
    path, content = by_hand(folder, text="boost [psi],smoke by eye\n")
    assert entered.write().path != path
    assert path.read_bytes() == content


# Refusals of the disk


@pytest.mark.parametrize("number", REFUSALS)
@pytest.mark.parametrize("call", ["open", "write", "fsync"])
def test_what_the_journal_could_not_take_is_told_kept_here_and_saved_later(entered, folder, monkeypatch, call, number):
    before = EntryRun(folder).texts
    refusing(monkeypatch, journal.os, call, number)
    told = [entered.enter(row, "boost", text, look=False) for row, text in (("4A", "24"), ("4A", "25"), ("5A", "30"))]
    monkeypatch.undo()
    for one in told:
        assert one.saved is False
        assert one.sentence == f"Not saved: {os.strerror(number)}. It stays here until it is saved or you leave."
    assert set(entered.unsaved) == {("4A", "boost"), ("5A", "boost")}
    assert entered.texts["4A", "boost"] == "25"
    there = EntryRun(folder).texts
    assert there.items() >= before.items()
    assert (entered.again().saved, entered.again().sentence, entered.unsaved) == (True, "Saved.", {})
    assert EntryRun(folder).texts == entered.texts == before | {("4A", "boost"): "25", ("5A", "boost"): "30"}
    assert [one.text for one in EntryRun(folder).history("4A", "boost")] == ["24", "25"], "each once, in order"


@pytest.mark.parametrize("number", REFUSALS)
def test_the_next_entry_takes_along_what_could_not_be_saved_before(folder, monkeypatch, number):
    entered = EntryRun(folder)
    refusing(monkeypatch, journal.os, "write", number, times=1)
    assert entered.enter("1A", "boost", "1", look=False).saved is False
    assert entered.enter("2A", "boost", "2", look=False).saved is True
    assert entered.unsaved == {}
    assert list(EntryRun(folder).texts.values()) == ["1", "2"]


def no_step(number):
    """Return a stand-in for a call of the system that fails."""

    def refuse(*_given, **_named):
        raise OSError(number, os.strerror(number))

    return refuse


def no_room(number):
    """Return a stand-in for `os.fdopen` whose files take nothing."""
    real = os.fdopen

    class Full(io.RawIOBase):
        def __init__(self, handle, mode):
            self.stream = real(handle, mode)

        def write(self, content):
            raise OSError(number, os.strerror(number))

        def close(self):
            self.stream.close()
            super().close()

    return Full


STEPS = ["open", "fdopen", "write", "fsync", "chmod", "replace"]


@pytest.mark.parametrize("number", REFUSALS)
@pytest.mark.parametrize("step", STEPS)
def test_what_the_disk_refuses_of_readings_leaves_the_old_file_and_says_so(entered, folder, monkeypatch, step, number):
    entered.write()
    before, names = (folder / "readings.csv").read_bytes(), sorted(os.listdir(folder))
    entered.enter("4A", "boost", "30", look=False)
    stand_in = {"fdopen": no_room(number)} if step == "write" else {step: no_step(number)}
    monkeypatch.setattr(files, "os", types.SimpleNamespace(**vars(os) | stand_in))  # the journal has the same calls
    written = entered.write()
    monkeypatch.undo()
    assert written.saved is False
    assert os.strerror(number) in written.sentence
    assert "\n" not in written.sentence
    assert (folder / "readings.csv").read_bytes() == before
    assert sorted(os.listdir(folder)) == names
    assert entered.write().saved is True
    assert read_run(folder).cells["boost"] == ("24.0", "30")


@pytest.mark.parametrize("number", REFUSALS)
def test_a_disk_without_room_for_the_look_still_saves_and_says_so(entered, folder, monkeypatch, number):
    refusing(monkeypatch, run_of_entries.tempfile, "TemporaryDirectory", number)
    told = entered.enter("4A", "boost", "30")
    assert (told.saved, told.flags) == (True, ())
    assert told.sentence == f"Saved. It could not be looked at: {os.strerror(number)}."
    assert EntryRun(folder).texts["4A", "boost"] == "30"


def test_a_journal_that_cannot_be_read_again_keeps_what_it_took(entered, folder, monkeypatch):
    refusing(monkeypatch, journal.os, "fdopen", errno.EIO)
    assert entered.enter("4A", "boost", "30", look=False).saved is True
    assert entered.texts["4A", "boost"] == "30"
    with pytest.raises(OSError, match=r"."):
        entered.refresh()
    monkeypatch.undo()
    assert entered.refresh() == 0
    assert EntryRun(folder).texts == entered.texts


def test_a_journal_that_is_no_ordinary_file_is_refused(folder):
    os.mkfifo(folder / FILE)
    with pytest.raises(RefusedFileError, match="ordinary file"):
        EntryRun(folder)


# Torn journals


def test_a_journal_cut_at_every_byte_gives_the_whole_entries_before_the_cut_with_a_note(entered, folder):
    path = folder / FILE
    whole, entries = path.read_bytes(), entered.entries
    ends = [place + 1 for place, mark in enumerate(whole) if mark == ord("\n")]
    for cut in range(len(whole) + 1):
        path.write_bytes(whole[:cut])
        kept = EntryJournal(folder).read()
        lines = sum(end - 1 <= cut for end in ends)  # a line that lacks nothing but its end is whole
        assert kept.entries == entries[: max(lines - 1, 0)], cut
        torn = cut > 0 and cut not in ends and cut + 1 not in ends
        assert bool(kept.note) == torn, cut
        assert ("not whole" in kept.note) == torn, cut


@pytest.mark.parametrize("cut", [1, 30, 200, 400, 700])
def test_behind_a_torn_line_entering_goes_on(entered, folder, cut):
    path = folder / FILE
    path.write_bytes(path.read_bytes()[:-cut])
    again = EntryRun(folder)
    stood = again.texts
    assert ("not whole" in again.note) == (cut != 1)
    assert again.enter("9A", "boost", "24", look=False).saved is True
    assert EntryRun(folder).texts == stood | {("9A", "boost"): "24"}


STRANGE = [
    {},
    {"entry": None},
    {"entry": {"row": "3A"}},
    {"plan": []},
    {"plan": {"conditions": [], "units": {}}},
    {"plan": {"conditions": ["x"], "units": {"boost": "psi"}}},
    {"plan": {"conditions": "zero", "units": 3}},
    {"plan": {"conditions": [[]], "units": {"boost": 1}}},
    {"answer": "36,8"},
]


def test_lines_of_another_kit_are_left_out_with_a_note(entered, folder):
    kept = journal.Journal(folder / FILE)
    for one in STRANGE:
        kept.append(one)
    again = EntryRun(folder)
    assert again.texts == entered.texts
    assert f"{len(STRANGE)} lines are no entries" in again.note
    assert again.grid == entered.grid


def test_entries_of_strange_rows_and_units_in_a_journal_do_no_harm(entered, folder):
    kept = EntryJournal(folder)
    for one in (
        Entry("../x", "boost", "1", "psi"),
        Entry("1A", "__class__", "1", "psi"),
        Entry("99999999A", "boost", "1", "psi"),
        Entry("1A", "boost", "1", "furlong"),
        Entry("1B", "condition", "load"),
    ):
        kept.append(one)
    again = EntryRun(folder)
    assert len(again.grid.rows) == len(entered.grid.rows)
    assert len(again.results().left_out) == 5
    assert again.results().rows == ("1A", "3A")


def test_a_plan_of_units_that_are_none_leaves_that_column_out(folder):
    bench = read_bench(folder / "bench.toml")
    planned = plan(bench)
    EntryJournal(folder).begin(type(planned)(planned.conditions, planned.units | {"boost": "furlong"}))
    entered = EntryRun(folder)
    entered.enter("1A", "load", "50", look=False)
    assert entered.enter("1A", "boost", "1").flags[0].level == "red"
    assert entered.results().run.columns == ("point", "condition", "time", "pass", "load", "reader", "remark")


CELLS = st.tuples(
    st.sampled_from(["zero", "1A", "1B", "2A", "zero after"]), st.sampled_from(["boost", "load", "remark"])
)


@given(st.lists(st.tuples(CELLS, st.text(max_size=12), st.text(max_size=8), st.text(max_size=8)), max_size=8))
def test_any_text_is_saved_restored_written_and_looked_at(tmp_path_factory, entries):
    folder = tmp_path_factory.mktemp("any")
    (folder / "bench.toml").write_text('[run]\ntitle = "INVENTED"\ninvented = true\n', encoding="utf-8")
    entered = EntryRun(folder, ["zero", "load", "load", "zero after"])
    for (row, column), text, reader, remark in entries:
        told = entered.enter(row, column, text, reader, remark)
        assert told.saved is True
        assert entered.texts[row, column] == text
    assert EntryRun(folder).texts == entered.texts
    assert entered.write().saved is bool(entries and entered.write().path.exists())
    entered.results()
    shutil.rmtree(folder)
