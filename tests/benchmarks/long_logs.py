"""Print what a report of a logger's file takes: seconds and memory for 25,000, 50,000 and 100,000 rows.

    python -m tests.benchmarks.long_logs

Bars for 100,000 rows: 10 s, 600 MB, a page of 1 MB; and no more than linear: each doubling at most 2.4 times as long.
Each report runs in a fresh Python. Exits with 1 where a bar is missed.
"""

import os
import re
import subprocess
import sys
import tempfile
import time
from pathlib import Path

from tests.lab.conftest import BENCH
from tests.lab.run.logged import log

ROWS = (25_000, 50_000, 100_000)
MOST_SECONDS, MOST_MEGABYTES, MOST_PAGE, MOST_GROWTH = 10.0, 600.0, 1_000_000, 2.4


def measured(rows, folder):
    """Return (wall seconds, processor seconds, greatest memory in MB, bytes of the page) of one report."""
    run = folder / f"log of {rows}"
    run.mkdir()
    (run / "bench.toml").write_text(BENCH, encoding="utf-8")
    (run / "readings.csv").write_text(log(rows)[0], encoding="utf-8")
    start = time.perf_counter()
    command = [sys.executable, "-m", "turbomath", "report", str(run), "--out", str(folder / f"{rows}")]
    with subprocess.Popen(command, stdout=subprocess.PIPE, text=True) as report:
        said = report.stdout.read()
        _, status, used = os.wait4(report.pid, 0)
        report.returncode = os.waitstatus_to_exitcode(status)
    wall = time.perf_counter() - start
    assert report.returncode == 0
    assert re.search("5 steady stretches", " ".join(said.split()))
    page = (folder / f"{rows}" / "report.html").stat().st_size
    return wall, used.ru_utime + used.ru_stime, used.ru_maxrss / 1024, page


def main():
    """Print each; return 1 if a bar is missed."""
    with tempfile.TemporaryDirectory() as made:
        found = [measured(rows, Path(made)) for rows in ROWS]
    for rows, (wall, processor, memory, page) in zip(ROWS, found, strict=True):
        print(
            f"{rows:7,} rows: {wall:.1f} s ({processor:.1f} s of the processor), {memory:.0f} MB, page {page:,} bytes"
        )
    growth = found[2][1] / found[1][1]
    wall, _, memory, page = found[-1]
    held = wall <= MOST_SECONDS and memory <= MOST_MEGABYTES and page <= MOST_PAGE and growth <= MOST_GROWTH
    print(f"twice the rows take {growth:.2f} times as long: {'ok' if held else 'MISSED'}")
    return int(not held)


if __name__ == "__main__":
    sys.exit(main())
