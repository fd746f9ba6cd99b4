"""How long `turbomath report` takes from a cold start, beside an older commit, or beside importing two libraries.

    python -m tests.benchmarks.cold_report            # beside `import numpy, matplotlib.figure`
    python -m tests.benchmarks.cold_report dfedde4    # beside the report of that commit; bar: 0.35 of its time

Each starts a fresh Python, in turn, so that what else the machine does falls on both. Exits with 1 where the bar is
missed.
"""

import io
import os
import statistics
import subprocess
import sys
import tarfile
import tempfile
import time
from pathlib import Path

ROUNDS, FIRST, BAR = 5, 1, 0.35
HERE = Path(__file__).resolve().parents[2]
RUN = "generator_air_to_air"


def seconds(command, folder):
    """Return (wall, processor) seconds of a command in a fresh Python that finds the kit in *folder*."""
    before, start = os.times(), time.perf_counter()
    kept = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
    subprocess.run(
        [sys.executable, *command],
        check=True,
        env=kept | {"PYTHONPATH": str(folder)},
        cwd=folder,
        stdout=subprocess.DEVNULL,
    )
    wall, after = time.perf_counter() - start, os.times()
    return wall, sum(after[2:4]) - sum(before[2:4])


def main():
    """Print the times and their ratios; return 1 if the bar is missed."""
    older = sys.argv[1] if len(sys.argv) > 1 else ""
    with tempfile.TemporaryDirectory() as made:
        report = ("-m", "turbomath", "report", RUN, "--out", str(Path(made) / "out"))
        works = {"report": (report, HERE)}
        if older:
            packed = subprocess.check_output(["git", "archive", older], cwd=HERE)
            with tarfile.open(fileobj=io.BytesIO(packed)) as archive:
                archive.extractall(Path(made) / "older", filter="data")
            works[older] = (report, Path(made) / "older")
        else:
            works["import numpy, matplotlib"] = (("-c", "import numpy, matplotlib.figure"), HERE)
        times = {name: [] for name in works}
        for turn in range(ROUNDS + FIRST):
            for name, work in works.items():
                took = seconds(*work)
                times[name] += [took] if turn >= FIRST else []
    middle = {name: [statistics.median(column) for column in zip(*found, strict=True)] for name, found in times.items()}
    for name, (wall, processor) in middle.items():
        print(f"{name}: {wall:.2f} s, of them {processor:.2f} s of the processor")
    (wall, processor), (other, its_own) = middle.values()
    print(
        f"ratio {wall / other:.2f}, of the processor's time {processor / its_own:.2f}", f"(bar {BAR})" if older else ""
    )
    return int(bool(older) and wall / other > BAR)


if __name__ == "__main__":
    sys.exit(main())
