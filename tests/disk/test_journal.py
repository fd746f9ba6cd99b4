"""A journal keeps what it took: cut anywhere, refused by the disk, written by two at once, killed at any moment."""

import errno
import json
import os
import random
import signal
import subprocess
import sys
import threading
import zlib
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

import turbomath
from turbomath.disk import journal
from turbomath.disk.journal import Journal
from turbomath.table.errors import RefusedFileError

TRIALS = 150
RECORDS = [{"question": 1, "answer": "36,8 psi abs"}, {"answer": "304 °F\n\x00\u2028", "deep": [{"a": None}]}, {}]
HOUSE = str(Path(turbomath.__file__).parents[1])
JSON = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats(allow_nan=False, allow_infinity=False) | st.text(),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(), inner, max_size=3),
    max_leaves=8,
)


@pytest.fixture
def kept(tmp_path):
    return Journal(tmp_path / "work" / "answers.journal")


def fill(kept, records=RECORDS):
    for record in records:
        kept.append(record)
    return kept.path.read_bytes()


# CRC-32 of "123456789": the check value of the catalogue of parametrised CRC algorithms (CRC-32/ISO-HDLC)
def test_a_line_is_the_published_checksum_and_json(kept):
    assert zlib.crc32(b"123456789") == 0xCBF43926
    fill(kept, [{"a": 1}])
    head, text = kept.path.read_text(encoding="ascii").rstrip("\n").split(" ", 1)
    assert json.loads(text) == {"a": 1}
    assert head == f"{zlib.crc32(text.encode()):08x}"


def test_what_was_appended_is_read_in_its_order_and_a_missing_file_is_empty(kept):
    assert kept.read() == ([], "")
    fill(kept)
    assert kept.read() == (RECORDS, "")
    assert Journal(str(kept.path)).read() == (RECORDS, "")
    assert kept.path.stat().st_mode & 0o077 == 0, "answers are nobody else's business"


@given(st.lists(st.dictionaries(st.text(), JSON, max_size=4), max_size=5))
def test_any_json_comes_back_as_it_was(tmp_path_factory, records):
    kept = Journal(tmp_path_factory.mktemp("any") / "one")
    for record in records:
        kept.append(record)
    assert kept.read() == (records, "")


def test_cut_at_every_byte_all_lines_before_the_cut_are_there_and_writing_goes_on(kept):
    whole = fill(kept)
    ends = [place + 1 for place, mark in enumerate(whole) if mark == ord("\n")]
    for cut in range(len(whole) + 1):
        kept.path.write_bytes(whole[:cut])
        complete = sum(end - 1 <= cut for end in ends)  # a line that lacks nothing but its end is whole
        torn = cut > 0 and cut not in ends and cut + 1 not in ends
        records, note = kept.read()
        assert records == RECORDS[:complete], cut
        assert bool(note) == torn, cut
        kept.append({"after": cut})
        records, note = kept.read()
        assert records == [*RECORDS[:complete], {"after": cut}], cut
        assert bool(note) == torn, cut


def test_a_changed_byte_anywhere_costs_that_line_only_and_is_said(kept):
    whole = fill(kept)
    for place in range(len(whole)):
        changed = bytearray(whole)
        changed[place] ^= 0x01
        kept.path.write_bytes(changed)
        records, note = kept.read()
        assert all(record in RECORDS for record in records), place
        assert len(records) >= len(RECORDS) - 2, place  # the end of a line joins two
        assert len(records) == len(RECORDS) or "not whole" in note, place


def test_the_note_names_the_lines(kept):
    whole = fill(kept).splitlines(keepends=True)
    kept.path.write_bytes(whole[0] + b"\x00\x00\n" + whole[1][:-4])
    assert kept.read() == (
        [RECORDS[0]],
        "answers.journal: lines 2, 3 are not whole, as after a power cut, and left out. All other lines are whole.",
    )


@pytest.mark.parametrize("line", [b"\xff\xfe", b"[1]", b'"text"', b"{", b"[" * 100_000, b""])
def test_a_line_with_a_true_checksum_that_is_no_record_is_left_out(kept, line):
    fill(kept, RECORDS[:1])
    with kept.path.open("ab") as stream:
        stream.write(b"%08x %s\n" % (zlib.crc32(line), line))
    records, note = kept.read()
    assert records == RECORDS[:1]
    assert "line 2 is not whole" in note


@pytest.mark.parametrize("record", [{"a": float("nan")}, {"a": {1, 2}}, {"a": b"x"}, [1], "text", None])
def test_what_json_cannot_hold_is_refused_and_nothing_is_written(kept, record):
    before = fill(kept)
    with pytest.raises((TypeError, ValueError)):
        kept.append(record)
    assert kept.path.read_bytes() == before


@pytest.mark.parametrize("call", ["open", "write", "fsync"])
@pytest.mark.parametrize("number", [errno.ENOSPC, errno.EIO, errno.EACCES, errno.EDQUOT])
def test_what_the_disk_refuses_is_raised_and_what_was_there_stays(kept, monkeypatch, call, number):
    fill(kept)

    def refuse(*_, **__):
        raise OSError(number, os.strerror(number))

    monkeypatch.setattr(journal.os, call, refuse)
    with pytest.raises(OSError, match=r".") as refusal:
        kept.append({"answer": "lost?"})
    assert refusal.value.errno == number
    monkeypatch.undo()
    assert kept.read()[0][: len(RECORDS)] == RECORDS
    kept.append({"again": True})
    assert kept.read()[0][-1] == {"again": True}


@pytest.mark.parametrize("cutting", [True, False], ids=["locks", "no locks"])
def test_a_line_that_fits_only_in_part_is_refused_and_does_not_spoil_the_next(kept, monkeypatch, cutting):
    fill(kept)
    write = os.write
    for part in (0, 1, 9, 20):
        monkeypatch.setattr(journal.os, "write", lambda handle, line, part=part: write(handle, line[:part]))
        if not cutting:
            monkeypatch.setattr(journal, "fcntl", None)
        with pytest.raises(OSError, match="No space left"):
            kept.append({"answer": "half of this", "part": part})
        monkeypatch.undo()
    kept.append({"next": 1})
    records, note = kept.read()
    assert records == [*RECORDS, {"next": 1}]
    assert bool(note) != cutting, "without a lock it is left, since a line of another may stand behind it"


LIMITED = """
import resource, sys
from turbomath.disk.journal import Journal
kept = Journal(sys.argv[1])
kept.append({"answer": "first"})
resource.setrlimit(resource.RLIMIT_FSIZE, (60, 60))
try:
    kept.append({"answer": "x" * 100})
except OSError as refusal:
    print(kept.path.stat().st_size, kept.read())
kept.append({"answer": "z"})
"""


@pytest.mark.process
def test_where_the_system_really_takes_only_part_of_a_line_that_part_goes_again(kept):
    done = subprocess.run([sys.executable, "-c", LIMITED, kept.path], capture_output=True, text=True, cwd=HOUSE)
    assert done.stdout.split(" ", 1)[1] == "([{'answer': 'first'}], '')\n", done.stderr
    assert kept.read() == ([{"answer": "first"}, {"answer": "z"}], "")


def test_each_record_is_on_the_disk_before_append_returns_and_the_name_of_a_new_file_too(kept, monkeypatch):
    calls = []
    for name in ("write", "fsync", "close"):
        real = getattr(os, name)
        monkeypatch.setattr(journal.os, name, lambda *given, name=name, real=real: calls.append(name) or real(*given))
    kept.append({})
    assert calls == ["write", "fsync", "close", "fsync", "close"]
    kept.append({})
    assert calls[5:] == ["write", "fsync", "close"]


def test_a_folder_that_may_not_be_written_to(kept):
    kept.path.parent.parent.joinpath("work").write_text("a file in the way", encoding="utf-8")
    with pytest.raises(OSError, match=r"."):
        kept.append({})


def test_links_and_devices_are_not_written_through(kept, tmp_path):
    kept.path.parent.mkdir()
    victim = tmp_path / "victim"
    victim.write_bytes(b"keep me")
    kept.path.symlink_to(victim)
    with pytest.raises(OSError, match=r"."):
        kept.append({})
    assert victim.read_bytes() == b"keep me"
    kept.path.unlink()
    os.mkfifo(kept.path)
    for doing in (kept.read, lambda: kept.append({})):
        with pytest.raises(RefusedFileError, match="ordinary file"):
            doing()


WRITER = """
import sys
from turbomath.disk.journal import Journal
kept = Journal(sys.argv[1])
for number in range(int(sys.argv[3])):
    kept.append({"who": sys.argv[2], "number": number, "text": "x" * int(sys.argv[4])})
    print(number, flush=True)
"""


def writer(path, who, count, length=50):
    return subprocess.Popen(
        [sys.executable, "-c", WRITER, str(path), who, str(count), str(length)],
        stdout=subprocess.PIPE,
        text=True,
        cwd=HOUSE,
    )


@pytest.mark.process
def test_two_programs_and_two_threads_at_once_do_not_mix_their_lines(kept):
    running = [writer(kept.path, "a", 100, 70_000), writer(kept.path, "b", 100, 9)]
    threads = [
        threading.Thread(target=lambda who=who: [kept.append({"who": who, "number": number}) for number in range(100)])
        for who in "cd"
    ]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    for one in running:
        one.communicate(timeout=120)
        assert one.returncode == 0
    records, note = kept.read()
    assert note == ""
    assert len(records) == 400
    for who in "abcd":
        assert [one["number"] for one in records if one["who"] == who] == list(range(100))


@pytest.mark.process
def test_killed_at_any_moment_nothing_that_was_acknowledged_is_lost(kept):
    """One journal through all trials, so that each goes on behind whatever the kill before it left."""
    chance, acknowledged = random.Random(20), []
    for trial in range(TRIALS):
        process = writer(kept.path, str(trial), 10_000, chance.choice((10, 5_000)))
        for _ in range(chance.randrange(1, 12)):
            acknowledged.append((str(trial), int(process.stdout.readline())))
        process.send_signal(signal.SIGKILL)
        acknowledged += [(str(trial), int(line)) for line in process.communicate()[0].split("\n")[:-1]]
    there = {(one["who"], one["number"]) for one in kept.read()[0]}
    assert len(acknowledged) > 5 * TRIALS
    assert [one for one in acknowledged if one not in there] == []
