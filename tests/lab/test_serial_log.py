"""A serial port written to a file: whole lines only, through unplugging, tried with a pseudo-terminal."""

import importlib.util
import os
import random
import signal
import subprocess
import sys
import time

import pytest

from turbomath.cli import main
from turbomath.lab import serial_log
from turbomath.lab.serial_log import WholeLines


@pytest.mark.parametrize("seed", range(6))
@pytest.mark.parametrize("end", [b"\r\n", b"\n", b"\r"])
def test_no_line_is_lost_or_torn_however_the_bytes_come(seed, end):
    chance, lines, got = random.Random(seed), WholeLines(), []
    sent = [f"{turn},{chance.random():.4f}".encode() for turn in range(300)]
    raw = end.join(sent) + end + b"x"  # a return at the very end waits for what follows it
    lines.feed(b"")
    at = 0
    while at < len(raw):
        size = chance.randrange(1, 25)
        got += lines.feed(raw[at : at + size])
        at += size
    assert got == sent


def test_a_line_that_had_begun_before_is_left_out_and_one_after_a_pause_is_not():
    lines = WholeLines()
    assert lines.feed(b"5.2,25\n35.3,26\n36") == [b"35.3,26"]
    lines.begin_anew()
    assert lines.feed(b".4,27\n") == []
    lines.begin_anew()
    assert lines.feed(b"") == []
    assert lines.feed(b"time,boost\n1,2\n") == [b"time,boost", b"1,2"]


@pytest.mark.parametrize(
    ("line", "first"), [(b"rpm;boost", b"time;rpm;boost"), (b"rpm,boost", b"time,rpm,boost"), (b"1800\t12,5", b"\t")]
)
def test_the_time_goes_before_each_line_and_its_word_before_a_head(line, first):
    stamped = serial_log._stamped(line)
    assert stamped.endswith(line)
    assert first in stamped
    assert stamped.startswith(b"time") == (first != b"\t")


def test_what_is_missing_is_said_in_one_sentence(tmp_path, monkeypatch, capsys):
    for words, part in (
        (["log", "/dev/nowhere at all", "--to", str(tmp_path / "a.csv")], "found no serial port that opens"),
        (["log", "COM3"], "Add --to FILE."),
    ):
        assert main(words) == 1
        said = capsys.readouterr().err
        assert part in said
        assert len(said.splitlines()) == 1
    monkeypatch.setattr(importlib.util, "find_spec", lambda name: None)
    assert main(["log", "COM3", "--to", "a.csv"]) == 1
    assert "pip install turbomath[serial]" in capsys.readouterr().err
    assert list(tmp_path.iterdir()) == []


def plugged(link):
    """Return the logger's end of a new pseudo-terminal that stands under the name *link*."""
    ours, theirs = os.openpty()
    link.unlink(missing_ok=True)
    link.symlink_to(os.ttyname(theirs))
    return ours, theirs


def wait_for(path, words):
    for _ in range(600):
        if path.exists() and words in path.read_bytes():
            return
        time.sleep(0.05)
    raise AssertionError(f"{words!r} never came: {path.read_bytes() if path.exists() else 'no file'}")


@pytest.mark.process
def test_it_writes_whole_lines_through_unplugging_and_stops_on_ctrl_c(tmp_path):
    link, log, said = tmp_path / "port", tmp_path / "today.csv", tmp_path / "said"
    ours, theirs = plugged(link)
    code = "import signal, sys; signal.signal(signal.SIGINT, signal.default_int_handler); "
    code += "from turbomath.cli import main; sys.exit(main())"
    with said.open("wb") as stream:
        words = [sys.executable, "-c", code, "log", str(link), "--to", str(log)]
        running = subprocess.Popen(words, stdout=stream, stderr=subprocess.STDOUT)
        try:
            wait_for(said, b"Stop with")
            time.sleep(0.3)  # quiet, as before a logger's first line
            os.write(ours, b"time [s],boost [psi]\r\n0,1")
            os.write(ours, b"2.5\r\n1,13.0\r\n2,1")  # the plug is pulled in the middle of a line
            wait_for(log, b"1,13.0\n")
            for end in (ours, theirs):
                os.close(end)
            wait_for(said, b"is gone")
            ours, theirs = plugged(link)
            wait_for(said, b"is back")
            os.write(ours, b"3.3\r\n4,14.5\r\n")  # had begun before the port was open again
            wait_for(log, b"4,14.5\n")
            running.send_signal(signal.SIGINT)
            assert running.wait(30) == 130
        finally:
            running.kill()
    assert log.read_bytes() == b"time [s],boost [psi]\n0,12.5\n1,13.0\n4,14.5\n"
    told = " ".join(said.read_text(encoding="utf-8").split())
    assert "4 lines in" in told
    assert "Traceback" not in told
