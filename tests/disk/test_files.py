"""Files are written whole or not at all; text is harmless in a spreadsheet cell; work and data are found."""

import os
import stat
import time

import pytest

from turbomath.disk import files


def test_what_a_spreadsheet_would_run_is_shown_as_text():
    for text in ["=1+1", "+1", "-1", "@SUM(A1)", "  =1", "\t=1", "\r=1", "\ufeff=1+1", "\u200b=1", "\x00=1"]:
        assert files.cell(text) == "'" + text


def test_other_text_stays_as_it_is():
    for text in ["", "24.5", "a=b", "steady, two readers", "5 - 3"]:
        assert files.cell(text) == text


def test_a_failed_write_leaves_the_old_file_and_nothing_else(tmp_path, monkeypatch):
    path = tmp_path / "kept.txt"
    files.write_whole(path, "old")

    def full(_handle):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(files.os, "fsync", full)
    with pytest.raises(OSError, match="No space"):
        files.write_whole(path, "new")
    assert path.read_text(encoding="utf-8") == "old"
    assert [entry.name for entry in tmp_path.iterdir()] == ["kept.txt"]


def test_the_work_folder_can_be_chosen(monkeypatch, tmp_path):
    monkeypatch.setenv("TURBOMATH_WORK", str(tmp_path))
    assert files.work_folder() == tmp_path
    monkeypatch.delenv("TURBOMATH_WORK")
    assert files.work_folder().name == "turbomath"


def test_shipped_folders_are_found():
    assert (files.shipped("data") / "README.md").is_file()
    assert (files.shipped("lessons") / "README.md").is_file()


@pytest.mark.skipif(os.name == "nt", reason="Windows has other permissions")
def test_a_new_file_follows_the_mask_a_private_folder_and_what_was_there(tmp_path):
    tmp_path.chmod(0o755)
    private, before = tmp_path / "private", os.umask(0o027)
    try:
        files.write_whole(tmp_path / "key.html", "x")
        private.mkdir(mode=0o700)
        files.write_whole(private / "roster.csv", "x")
        (tmp_path / "key.html").chmod(0o604)
        files.write_whole(tmp_path / "key.html", "y")
        files.write_whole(tmp_path / "other.html", "x")
    finally:
        os.umask(before)
    found = {path.name: stat.S_IMODE(path.stat().st_mode) for path in tmp_path.rglob("*.*")}
    assert found == {"key.html": 0o604, "other.html": 0o640, "roster.csv": 0o600}


def test_what_a_crash_left_half_written_is_removed_once_it_is_old(tmp_path):
    for name, age in (("old", 2 * 3600), ("young", 60)):
        left = tmp_path / f".writing-{name}"
        left.write_text("half", encoding="utf-8")
        os.utime(left, (time.time() - age,) * 2)
    files.write_whole(tmp_path / "kept.txt", "whole")
    assert sorted(path.name for path in tmp_path.iterdir()) == [".writing-young", "kept.txt"]


def test_a_folder_is_there_whole_or_not_at_all(tmp_path):
    target = tmp_path / "class"

    def full():
        with files.whole_folder(target) as place:
            files.write_whole(place / "one.txt", "1")
            raise OSError(28, "No space left on device")

    with pytest.raises(OSError, match="No space"):
        full()
    assert list(tmp_path.iterdir()) == []
    target.mkdir()
    with files.whole_folder(target) as place:
        files.write_whole(place / "in" / "one.txt", "1")
    assert [path.relative_to(tmp_path).as_posix() for path in tmp_path.rglob("*.txt")] == ["class/in/one.txt"]
