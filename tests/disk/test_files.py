"""Files are written whole or not at all; text is harmless in a spreadsheet cell; work and data are found."""

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
