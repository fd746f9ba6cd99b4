"""Folders out to the users of a hub and back: what cannot be done is said, and nothing is made."""

import importlib.util

import pytest

from turbomath.disk import files
from turbomath.table.errors import TurbomathError


@pytest.fixture
def class_files(monkeypatch, tmp_path):
    monkeypatch.setenv("TURBOMATH_HUB", str(tmp_path / "srv"))
    path = files.shipped("data") / "hub" / "class_files.py"
    spec = importlib.util.spec_from_file_location("class_files", path)
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


@pytest.mark.parametrize("task", ["give", "collect"])
def test_a_student_who_is_no_user_is_named_and_nothing_is_made(class_files, tmp_path, capsys, task):
    (tmp_path / "week3" / "students" / "A01").mkdir(parents=True)
    seats = tmp_path / "class.csv"
    seats.write_text("seat,student\nA01,no-such-user\n", encoding="utf-8")
    assert class_files.main([task, str(tmp_path / "week3"), str(seats)]) == 1
    said = capsys.readouterr().out
    assert "A01" in said
    assert "found student 'no-such-user', expected a user of this machine." in said
    assert not (tmp_path / "srv").exists()


def test_a_folder_of_another_kind_is_refused(class_files, tmp_path):
    with pytest.raises(TurbomathError, match=r"found neither bench\.toml nor the folder students"):
        class_files.main(["give", str(tmp_path), "class.csv"])


def test_what_is_there_is_never_written_over(class_files, tmp_path):
    (tmp_path / "week3").mkdir()
    (tmp_path / "week3" / "answers.csv").write_text("mine", encoding="utf-8")
    (tmp_path / "week3" / "link").symlink_to(tmp_path / "elsewhere")
    given = {"answers.csv": b"blank", "link": b"x", "sheet.html": b"sheet"}
    assert class_files.put(tmp_path / "week3", given) == ["sheet.html"]
    assert (tmp_path / "week3" / "answers.csv").read_text(encoding="utf-8") == "mine"
    assert not (tmp_path / "elsewhere").exists()
