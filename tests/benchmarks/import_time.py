"""How long `import turbomath` takes beside `import numpy` alone.

    python -m tests.benchmarks.import_time

Each import runs in a fresh Python, in turn, and times itself. Bar: the median of turbomath at most 1.3 of numpy's.
Exits with 1 where it is missed.
"""

import statistics
import subprocess
import sys

ROUNDS, FIRST, BAR = 11, 1, 1.3
NAMES = ("numpy", "turbomath")
TIMED = "import time; start = time.perf_counter(); import {}; print(time.perf_counter() - start)"


def main():
    """Print both times and their ratio; return 1 if it misses the bar."""
    times = {name: [] for name in NAMES}
    for turn in range(ROUNDS + FIRST):
        for name, found in times.items():
            took = float(subprocess.check_output([sys.executable, "-c", TIMED.format(name)]))
            found += [took] if turn >= FIRST else []
    for name, found in times.items():
        ends = f"from {1000 * min(found):.1f} to {1000 * max(found):.1f}"
        print(f"import {name}: {1000 * statistics.median(found):.1f} ms ({ends})")
    ratio = statistics.median(times["turbomath"]) / statistics.median(times["numpy"])
    print(f"{ratio:.2f} of numpy's; bar {BAR}: {'ok' if ratio <= BAR else 'MISSED'}")
    return int(ratio > BAR)


if __name__ == "__main__":
    sys.exit(main())
