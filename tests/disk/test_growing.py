"""A growing file is read by whole lines, each once, through torn writes, truncation, rotation and a locked file."""

import os
import random

import pytest

from turbomath.disk import growing
from turbomath.disk.growing import Growing


@pytest.fixture
def path(tmp_path):
    return tmp_path / "log.csv"


def add(path, raw):
    with path.open("ab") as stream:
        stream.write(raw)


def test_a_file_that_is_not_there_yet_has_no_lines(path):
    following = Growing(path)
    assert following.look().lines == ()
    add(path, b"1,2\n")
    assert following.look() == growing.News((b"1,2",), begun_anew=False)


def test_half_a_line_waits_for_its_end(path):
    following = Growing(path)
    add(path, b"1,2\r\n3,")
    assert following.look().lines == (b"1,2",)
    assert following.look().lines == ()
    add(path, b"4\n5")
    assert following.look().lines == (b"3,4",)


def test_a_file_cut_short_and_written_on_begins_anew(path):
    following = Growing(path)
    add(path, b"1\n2\n3\n")
    following.look()
    path.write_bytes(b"9\n")
    assert following.look() == growing.News((b"9",), begun_anew=True)
    add(path, b"10\n")
    assert following.look() == growing.News((b"10",), begun_anew=False)


def test_another_file_under_the_name_begins_anew(path, tmp_path):
    following = Growing(path)
    add(path, b"1\n2\n")
    following.look()
    os.replace(path, tmp_path / "log.1.csv")
    assert following.look().lines == (), "between two files there is none"
    add(path, b"3\n4\n5\n")
    assert following.look() == growing.News((b"3", b"4", b"5"), begun_anew=True, moved=True)


def test_what_was_written_before_the_file_got_another_name_is_read_first(path, tmp_path):
    following = Growing(path)
    add(path, b"1\n2\n")
    following.look()
    add(path, b"3\n4\n5")  # the last one torn
    os.replace(path, tmp_path / "log.1.csv")
    add(path, b"6\n")
    assert following.look() == growing.News((b"3", b"4"))
    assert following.look() == growing.News((b"6",), begun_anew=True, moved=True)
    (tmp_path / "log.1.csv").unlink()
    path.unlink()
    add(path, b"7\n")
    assert following.look() == growing.News((b"7",), begun_anew=True)


def test_a_file_written_over_with_as_much_is_told_by_its_start(path):
    following = Growing(path)
    add(path, b"1,1\n2,2\n")
    following.look()
    with path.open("r+b") as stream:
        stream.write(b"8,8\n9,9\n7,7\n")
    assert following.look() == growing.News((b"8,8", b"9,9", b"7,7"), begun_anew=True)


def test_a_file_that_its_writer_holds_shut_is_looked_at_again(path, monkeypatch):
    """As on Windows, where another program may open a file so that nobody else can (Win32 sharing violation)."""
    following = Growing(path)
    add(path, b"1\n")
    with monkeypatch.context() as shut:
        shut.setattr("pathlib.Path.open", lambda *_: (_ for _ in ()).throw(PermissionError(13, "sharing violation")))
        assert following.look().lines == ()
    assert following.look().lines == (b"1",)


def test_a_folder_and_a_file_without_line_ends_are_refused(path, tmp_path, monkeypatch):
    with pytest.raises(IsADirectoryError):
        Growing(tmp_path).look()
    monkeypatch.setattr(growing, "MOST_AT_ONCE", 8)
    add(path, b"x" * 9)
    with pytest.raises(OSError, match="no line ends within 8 bytes"):
        Growing(path).look()


@pytest.mark.parametrize("seed", range(5))
def test_no_line_is_lost_or_misread_however_it_is_torn(path, seed):
    chance, following, got = random.Random(seed), Growing(path), []
    lines = [f"{turn},{chance.random():.6f}".encode() for turn in range(2_000)]
    raw, at = b"".join(line + b"\n" for line in lines), 0
    while at < len(raw):
        size = chance.randrange(1, 60)
        add(path, raw[at : at + size])
        at += size
        if chance.random() < 0.5:
            got += following.look().lines
    while more := following.look().lines:
        got += more
    assert got == lines
