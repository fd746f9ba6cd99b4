"""`turbomath handbook`: what it writes and says, and what it refuses."""

import re
import subprocess
import sys

import pytest

from tests.handbook.a_page import Page
from turbomath import cli

COST = re.compile(r"Written: (\S+) \((\d+) formulas, (\d+\.\d\d) MB, made in \d+\.\d s\)")


def test_the_handbook_is_written_where_it_is_wanted_and_says_what_it_cost(tmp_path, capsys, html):
    assert cli.main(["handbook", "--out", str(tmp_path / "new" / "folder")]) == 0
    place, count, size = COST.search(capsys.readouterr().out).groups()
    assert place == str(tmp_path / "new" / "folder" / "handbook.html")
    text = (tmp_path / "new" / "folder" / "handbook.html").read_text(encoding="utf-8")
    assert text == html
    assert int(count) == len(Page(text).root.all("article"))
    assert float(size) == pytest.approx(len(text.encode()) / 1e6, abs=0.006)


def test_the_sheet_is_written_instead_when_it_is_asked_for(tmp_path, capsys, monkeypatch):
    monkeypatch.chdir(tmp_path)
    assert cli.main(["handbook", "--sheet"]) == 0
    assert "formula_sheet.html (24 formulas" in capsys.readouterr().out
    assert [path.name for path in tmp_path.iterdir()] == ["formula_sheet.html"]


def test_a_folder_that_cannot_be_written_is_refused_in_one_sentence(tmp_path, capsys):
    (tmp_path / "file").write_text("kept")
    assert cli.main(["handbook", "--sheet", "--out", str(tmp_path / "file")]) == 1
    said = capsys.readouterr()
    assert said.out == ""
    assert said.err == f"{tmp_path / 'file'}: File exists. What was there before is as it was.\n"
    assert (tmp_path / "file").read_text() == "kept"


@pytest.mark.process
def test_the_command_runs_in_a_process_of_its_own(tmp_path):
    command = [sys.executable, "-m", "turbomath", "handbook", "--sheet", "--out", str(tmp_path)]
    done = subprocess.run(command, capture_output=True, encoding="utf-8", timeout=120)
    assert (done.returncode, done.stderr) == (0, "")
    assert (tmp_path / "formula_sheet.html").is_file()
    wrong = subprocess.run([*command[:4], "--shet"], capture_output=True, encoding="utf-8", timeout=120)
    assert wrong.returncode == 2
