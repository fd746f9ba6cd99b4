"""Programs that enter readings and are killed while they do, or that enter into one run at once; what became of it.

Run as ``python -m tests.lab.entry.entry_trials killed|record|together FOLDER COUNT``; the outcome is printed as JSON.
``record`` kills programs that answer the run-up record.
"""

import json
import os
import random
import signal
import subprocess
import sys
import time
from pathlib import Path

import turbomath
from turbomath.lab.entry.entry_journal import FILE, EntryJournal, checksum
from turbomath.lab.entry.entry_record import JOURNAL, EntryRecord
from turbomath.lab.entry.entry_run import EntryRun
from turbomath.lab.record.questions import boxes
from turbomath.lab.record.record import read_record
from turbomath.lab.run.bench import read_bench
from turbomath.lab.run.readings import read_run

BENCH = '[run]\ntitle = "INVENTED"\ninvented = true\n'
COLUMNS = ("barometer", "ambient_temperature", "boost", "manifold_temperature")
A_FOLDER = 50  # trials in one journal, so that each goes on behind whatever the kill before it left
HOUSE = str(Path(turbomath.__file__).parents[1])
MOST_SECONDS = 0.02  # between the last acknowledgement waited for and the kill


def fresh(folder, number):
    """Return a new run folder with a bench."""
    path = Path(folder) / str(number)
    path.mkdir(parents=True)
    (path / "bench.toml").write_text(BENCH, encoding="utf-8")
    return path


def enter(folder, who, count, tell=lambda name: None):
    """Enter so many readings, write readings.csv each time, and tell the name of each that is called saved."""
    entered = EntryRun(folder)
    for number in range(count):
        row = f"{1 + number % 9}{'AB'[number % 2]}"
        told = entered.enter(row, COLUMNS[number % 4], f"{20 + number % 7},5", who, f"{who} {number}", look=False)
        if told.saved:
            tell(f"{who} {number}\n")
        entered.write()


def answer(folder, who, count, tell=lambda name: None):
    """Answer so many questions of the run-up record, write record.toml each time, tell what is called saved."""
    bench = read_bench(Path(folder) / "bench.toml")
    record, offered = EntryRecord(folder, bench), [(box, column) for box, _, _, column in boxes(bench)]
    for number in range(count):
        box, column = offered[number % len(offered)]
        text = {"number": f"{20 + number % 7},5", "words": f"reader {who}"}.get(column.kind, "y")
        if record.enter(box, text, who, f"{who} {number}").saved:
            tell(f"{who} {number}\n")
        record.write()


def child(*work, what=enter):
    """Do some work in a process of its own; return its number and the end of the pipe that it tells into."""
    read, write = os.pipe()
    number = os.fork()
    if number:
        os.close(write)
        return number, os.fdopen(read, encoding="ascii")
    try:
        what(*work, lambda name: os.write(write, name.encode()))
    finally:
        os._exit(0)


def record(folder, count):
    """Kill so many programs while they answer the run-up record; return what `killed` does."""
    return killed(folder, count, what=answer, file=JOURNAL, is_torn=torn_record)


def killed(folder, count, chance=None, *, what=enter, file=FILE, is_torn=None):
    """Kill so many programs while they enter; return what was lost or torn, with the number of acknowledgements."""
    is_torn = is_torn or torn
    chance, found = chance or random.Random(18), {"acknowledged": 0, "lost": [], "torn": [], "cut": 0, "half": 0}
    for first in range(0, count, A_FOLDER):
        path, told = fresh(folder, first), []
        for trial in range(first, min(first + A_FOLDER, count)):
            number, said = child(path, str(trial), 10_000, what=what)
            told += [said.readline() for _ in range(chance.randrange(1, 9))]
            time.sleep(chance.random() * MOST_SECONDS)
            os.kill(number, signal.SIGKILL)
            told += said.readlines()
            os.waitpid(number, 0)
            found["torn"] += is_torn(path, trial)
        there = {one.remark for one in EntryJournal(path, file).read().entries}
        found["acknowledged"] += len(told)
        found["lost"] += [name for name in told if name.rstrip("\n") not in there]
        found["cut"] += "not whole" in EntryJournal(path, file).read().note
        found["half"] += len(list(path.glob(".writing-*")))
    return found


def torn(path, trial):
    """Return what is wrong with the files of a folder: each is whole, and readings.csv is as it was meant."""
    kept, readings = EntryJournal(path).read(), path / "readings.csv"
    if not readings.exists():
        return []
    whole = checksum(readings.read_bytes()) in kept.sums and len(read_run(path)) > 0
    return [] if whole and set(path.glob("readings*.csv")) == {readings} else [f"trial {trial}"]


def torn_record(path, trial):
    """Return what is wrong with record.toml: it is whole, as it was meant, and there is no other beside it."""
    written = path / "record.toml"
    if not written.exists():
        return []
    ours = checksum(written.read_bytes()) in EntryJournal(path, JOURNAL).read().sums
    whole = ours and read_record(path, read_bench(path / "bench.toml")).answers
    return [] if whole and set(path.glob("record*.toml")) == {written} else [f"trial {trial}"]


def together(folder, count):
    """Let two programs enter into one run at once; return their entries as the journal has them, and its note."""
    path = fresh(folder, "together")
    running = [child(path, who, count) for who in "ab"]
    told = [name.strip() for _, said in running for name in said.readlines()]
    for number, _ in running:
        os.waitpid(number, 0)
    kept, written = EntryJournal(path).read(), EntryRun(path).write()
    return {
        "told": told,
        "there": [one.remark for one in kept.entries],
        "note": kept.note,
        "written": written.path.name,
        "torn": torn(path, 0),
    }


def outcome(what, folder, count):
    """Return what the program of these trials found; one that stumbles fails the test."""
    alone = os.environ | {"OPENBLAS_NUM_THREADS": "1", "OMP_NUM_THREADS": "1"}  # a fork takes no threads along
    command = [sys.executable, "-m", "tests.lab.entry.entry_trials", what, str(folder), str(count)]
    done = subprocess.run(command, capture_output=True, text=True, cwd=HOUSE, env=alone)
    assert done.returncode == 0, done.stderr
    return json.loads(done.stdout)


if __name__ == "__main__":
    print(
        json.dumps(
            {"killed": killed, "record": record, "together": together}[sys.argv[1]](sys.argv[2], int(sys.argv[3]))
        )
    )
