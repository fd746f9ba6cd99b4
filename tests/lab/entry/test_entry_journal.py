"""Two programs that write to one journal wait for each other, by whichever lock the system has."""

import errno
import os
import subprocess
import sys
import types
from pathlib import Path

import pytest

import turbomath
from turbomath.disk import journal
from turbomath.disk.journal import Journal
from turbomath.lab.entry.entry import Entry
from turbomath.lab.entry.entry_journal import EntryJournal, checksum
from turbomath.lab.entry.grid import Plan

HOUSE = str(Path(turbomath.__file__).parents[1])
FAR = 0x7FFF_FFF0
BUSY = errno.EDEADLK  # what the C library of Windows gives after ten seconds

# A stand-in for `msvcrt`: its lock is on the bytes where the file stands (Python library reference, msvcrt)
WINDOWS = """
import errno, fcntl, os, sys
from turbomath.disk import journal

class Windows:
    LK_UNLCK, LK_LOCK = 0, 1

    @staticmethod
    def locking(handle, mode, count):
        place = os.lseek(handle, 0, os.SEEK_CUR)
        fcntl.lockf(handle, fcntl.LOCK_EX if mode else fcntl.LOCK_UN, count, place)

journal.fcntl, journal.msvcrt = None, Windows
kept = journal.Journal(sys.argv[1])
for number in range(int(sys.argv[3])):
    kept.append({"who": sys.argv[2], "number": number, "text": "x" * int(sys.argv[4])})
"""


class Windows:
    """A lock of Windows that notes what it is asked, and refuses first what it is told to refuse."""

    LK_UNLCK, LK_LOCK = 0, 1

    def __init__(self, *refusals):
        self.asked, self.refusals = [], list(refusals)

    def locking(self, handle, mode, count):
        self.asked.append((mode, os.lseek(handle, 0, os.SEEK_CUR), count))
        if self.refusals and mode == self.LK_LOCK:
            raise OSError(self.refusals.pop(0), "refused")


@pytest.fixture
def kept(tmp_path, monkeypatch):
    monkeypatch.setattr(journal, "fcntl", None)
    return Journal(tmp_path / "one.journal")


def test_on_windows_a_byte_beyond_every_journal_is_locked_and_let_go(kept, monkeypatch):
    windows = Windows()
    monkeypatch.setattr(journal, "msvcrt", windows)
    kept.append({"a": 1})
    kept.append({"b": 2})
    assert windows.asked == [(1, FAR, 1), (0, FAR, 1)] * 2
    assert kept.read() == ([{"a": 1}, {"b": 2}], "")
    assert kept.path.stat().st_size < 100, "the far byte is locked, not written"


def test_on_windows_the_lock_is_waited_for_as_long_as_it_takes(kept, monkeypatch):
    windows = Windows(BUSY, BUSY, BUSY)
    monkeypatch.setattr(journal, "msvcrt", windows)
    kept.append({"a": 1})
    assert [mode for mode, _, _ in windows.asked] == [1, 1, 1, 1, 0]


@pytest.mark.parametrize("cutting", [True, False], ids=["locks", "no locks"])
def test_on_windows_half_a_line_is_cut_off_only_under_a_lock(kept, monkeypatch, cutting):
    windows = Windows(*([] if cutting else [errno.EINVAL] * 3))  # a shared folder that knows no locks
    monkeypatch.setattr(journal, "msvcrt", windows)
    write = os.write
    monkeypatch.setattr(journal.os, "write", lambda handle, line: write(handle, line[:9]))
    with pytest.raises(OSError, match="No space left"):
        kept.append({"a": 1})
    monkeypatch.setattr(journal.os, "write", write)
    kept.append({"b": 2})
    records, note = kept.read()
    assert records == [{"b": 2}]
    assert bool(note) != cutting


@pytest.mark.process
def test_which_lock_there_is_follows_the_system():
    code = (
        "import sys, types, pathlib, numpy, turbomath.table.errors, turbomath.disk.files, os\nos.name = 'nt'; "
        "sys.modules['fcntl'] = None; sys.modules['msvcrt'] = types.ModuleType('msvcrt'); "
        "from turbomath.disk import journal; print(journal.fcntl, journal.msvcrt.__name__)"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, cwd=HOUSE)
    assert done.stdout == "None msvcrt\n", done.stderr
    assert isinstance(journal.fcntl, types.ModuleType) == (os.name == "posix")


@pytest.mark.process
def test_two_programs_with_the_lock_of_windows_do_not_mix_their_lines(tmp_path):
    path = tmp_path / "one.journal"
    running = [
        subprocess.Popen([sys.executable, "-c", WINDOWS, str(path), who, "100", length], cwd=HOUSE)
        for who, length in (("a", "70000"), ("b", "9"))
    ]
    assert [one.wait(timeout=120) for one in running] == [0, 0]
    records, note = Journal(path).read()
    assert note == ""
    for who in "ab":
        assert [one["number"] for one in records if one["who"] == who] == list(range(100))


# What a journal of readings holds


def test_a_journal_gives_the_first_plan_each_entry_once_and_the_sums(tmp_path):
    kept = EntryJournal(tmp_path)
    assert kept.read().entries == ()
    first, second = Plan(("zero", "load"), {"boost": "psi"}), Plan(("load",), {"boost": "kPa"})
    one, other = Entry("1A", "boost", "24"), Entry("1A", "boost", "25")
    kept.begin(first)
    kept.append(one)
    kept.append(other)
    kept.begin(second)
    kept.append(one)  # as after a disk that took it and could not say so
    kept.will_write(b"123456789")
    found = kept.read()
    assert (found.plan, found.entries, found.note) == (first, (one, other), "")
    assert found.sums == {checksum(b"123456789")}


# SHA-256 of "abc": FIPS 180-4, the worked example of NIST
def test_the_sum_of_a_file_is_the_published_one():
    assert checksum(b"abc") == "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"
