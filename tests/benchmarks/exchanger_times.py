"""How much faster the exact crossflow series is than the `ht` library, for arrays: printed, never judged.

Run `python tests/benchmarks/exchanger_times.py`.
"""

import time

import ht
import numpy as np

from turbomath.physics import crossflow

ELEMENTS = 20_000
REPEATS = 15


def best_time(function):
    """Return the shortest of a few runs [s]."""
    times = []
    for _ in range(REPEATS):
        start = time.process_time()
        function()
        times.append(time.process_time() - start)
    return min(times)


def main():
    """Print the time of one element each way, their ratio and the largest difference."""
    draw = np.random.default_rng(2026)
    ntu, ratio = draw.uniform(0.05, 8.0, ELEMENTS), draw.uniform(0.02, 1.0, ELEMENTS)
    few = slice(0, 500)
    reference = np.array(
        [ht.effectiveness_from_NTU(N, C, subtype="crossflow") for N, C in zip(ntu, ratio, strict=True)]
    )
    theirs = best_time(
        lambda: [
            ht.effectiveness_from_NTU(N, C, subtype="crossflow") for N, C in zip(ntu[few], ratio[few], strict=True)
        ]
    ) / len(ntu[few])
    ours = best_time(lambda: crossflow.effectiveness(ntu, ratio)) / ELEMENTS
    inverse = best_time(lambda: crossflow.ntu(reference, ratio)) / ELEMENTS
    difference = np.max(np.abs(crossflow.effectiveness(ntu, ratio) / reference - 1))
    print(
        f"effectiveness, both unmixed: {ours * 1e6:.2f} µs an element, ht {theirs * 1e6:.0f} µs: {theirs / ours:.0f} x"
    )
    print(f"number of transfer units: {inverse * 1e6:.2f} µs an element")
    print(f"largest relative difference over {ELEMENTS} elements: {difference:.1e}")


if __name__ == "__main__":
    main()
