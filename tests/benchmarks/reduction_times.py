"""Print how long a run takes, beside a plain piece of the same work on the same machine.

    python tests/benchmarks/reduction_times.py

Aims: a six-point run with its uncertainty in 0.5 s (linear and Sobol together), a file read or refused in 50 ms.
"""

import statistics
import time

from turbomath.disk import files
from turbomath.lab import checks
from turbomath.lab.reduction import reduce
from turbomath.lab.run import readings

RUN = "generator_air_to_air"


def seconds(work, times=7):
    """Median time of *work* over several turns, after one to warm up."""
    work()
    turns = []
    for _ in range(times):
        start = time.perf_counter()
        work()
        turns.append(time.perf_counter() - start)
    return statistics.median(turns)


def main():
    sheet = (files.shipped("data") / RUN / "readings.csv").read_text(encoding="utf-8-sig")
    plain = seconds(lambda: [line.split(",") for line in sheet.splitlines()])
    run = readings.read_run(RUN)
    loaded = sum(condition == "load" for condition in run.conditions)
    print(f"{RUN}: {len(run)} readings, {loaded} of them load steps")
    for name, work in (
        ("split the file, plain", lambda: [line.split(",") for line in sheet.splitlines()]),
        ("read the run folder", lambda: readings.read_run(RUN)),
        ("reduce, linear", lambda: reduce.reduce_run(run)),
        ("reduce, 4,096 Sobol points", lambda: reduce.reduce_run(run, method="sobol")),
        ("check", lambda: checks.check_run(run)),
    ):
        taken = seconds(work)
        print(f"  {name:28s} {1e3 * taken:9.2f} ms   {taken / plain:10.0f} × the plain split")


if __name__ == "__main__":
    main()
