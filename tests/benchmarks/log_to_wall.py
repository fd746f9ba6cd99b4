"""How long a logger's line takes from the disk to the live lab, at 10 Hz, behind an hour of lines that are there.

``python -m tests.benchmarks.log_to_wall [SECONDS]``; lines come torn, in bursts and after pauses. The bar: 95 of 100
within a second, none lost or misread. The browser looks every 0.3 s as here, and draws the line a moment later.
"""

import csv
import json
import os
import random
import shutil
import sys
import tempfile
import threading
import time
from pathlib import Path

import numpy as np

from tests.lab.run.logged import log
from turbomath.disk import files
from turbomath.panels.live_lab.lab import LabDesk

RATE, THERE, LOOK = 10.0, 36_000, 0.3  # rows a second, rows that are there, s between two looks (live_lab.js)


def written(path, rows, told, chance):
    """Write the rows at their times, some in two pieces, some late and all at once; tell when each was whole."""
    start, late = time.monotonic(), []
    with path.open("a", encoding="utf-8") as stream:
        for turn, row in enumerate(rows):
            time.sleep(max(0.0, start + turn / RATE - time.monotonic()))
            late.append(row)
            if chance.random() < 0.05 and turn < len(rows) - 1:
                continue  # the logger pauses: this one comes with the next
            text = "".join(late)
            cut = chance.randrange(len(text)) if chance.random() < 0.3 else 0
            stream.write(text[:cut])
            stream.flush()
            if cut:
                time.sleep(0.02)
            stream.write(text[cut:])
            stream.flush()
            told += [time.monotonic()] * len(late)
            late.clear()


def main(seconds):
    text, _ = log(THERE + round(seconds * RATE), 1 / RATE)
    head, *rows = text.splitlines(keepends=True)
    with tempfile.TemporaryDirectory() as work:
        os.environ["TURBOMATH_WORK"] = work
        run = Path(work) / "run"
        run.mkdir()
        shutil.copy(files.shipped("data") / "generator_air_to_air" / "bench.toml", run)
        (run / "today.csv").write_text(head + "".join(rows[:THERE]), encoding="utf-8")
        desk, told, behind, looks = LabDesk("title"), [], [], []
        desk.hear("open", path="run")
        desk.hear("follow file", path="run/today.csv")
        writer = threading.Thread(target=written, args=(run / "today.csv", rows[THERE:], told, random.Random(22)))
        writer.start()
        seen = THERE
        while writer.is_alive() or desk.log.followed.rows > seen or seen < THERE + len(told):
            begun = time.monotonic()
            desk.hear("look at file")
            json.dumps(desk.frame())
            now = time.monotonic()
            looks.append(now - begun)
            behind += [now - when for when in told[seen - THERE : desk.log.followed.rows - THERE]]
            seen = desk.log.followed.rows
            time.sleep(max(0.0, LOOK - (now - begun)))
        lost = len(rows) - desk.log.followed.rows
        names = [name.split(" [")[0].replace(" ", "_") for name in next(csv.reader([head]))]
        meant = np.array([[float(cell) for cell in row.split(",")] for row in rows])
        misread = sum(
            int((np.array(desk.log.followed.values[name]) != meant[:, at]).sum())
            for at, name in enumerate(names)
            if name != "time"
        )
    fifty, ninety_five = np.percentile(behind, [50, 95])
    print(
        f"{len(behind)} lines at {RATE:g} Hz behind {THERE:,}: median {fifty:.2f} s, 95 of 100 in {ninety_five:.2f} s"
    )
    print(f"a look takes {1000 * np.median(looks):.0f} ms, at most {1000 * max(looks):.0f} ms")
    print(f"lost {lost}, misread {misread}")
    assert ninety_five <= 1.0
    assert (lost, misread) == (0, 0)


if __name__ == "__main__":
    main(float(sys.argv[1]) if len(sys.argv) > 1 else 60.0)
