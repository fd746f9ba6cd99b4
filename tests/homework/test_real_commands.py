"""Each command of homework once as a process of its own, in the order in which a teacher uses them."""

import subprocess
import sys

import pytest

pytestmark = pytest.mark.process


def homework(*arguments, cwd):
    command = [sys.executable, "-m", "turbomath", "homework", *arguments]
    return subprocess.run(command, capture_output=True, encoding="utf-8", cwd=cwd, timeout=300)


def test_a_course_from_its_sheets_to_a_seat_forgotten(tmp_path):
    (tmp_path / "class.txt").write_text("A01\nA02\n", encoding="utf-8")
    for arguments, said in (
        (("question", "hot_day", "--worked"), "Sense check"),
        (("sheet", "gauge_to_density", "--seats", "class.txt", "--out", "Übung 3"), "2 seats, 2 of them new"),
        (("mark", "Übung 3"), "A01"),
        (("gradebook", "Übung 3"), "A02"),
        (("forget", "A02", "--folder", "Übung 3"), "Nothing else in this folder names it"),
        (("sample", "try"), "INVENTED"),
    ):
        done = homework(*arguments, cwd=tmp_path)
        assert (done.returncode, done.stderr) == (0, ""), arguments
        assert said in done.stdout, arguments


def test_what_is_refused_is_one_sentence_on_the_other_stream(tmp_path):
    done = homework("gradebook", "nirgends, é", cwd=tmp_path)
    assert (done.returncode, done.stdout, done.stderr.count("\n")) == (1, "", 1)
    assert "nirgends, é" in done.stderr
