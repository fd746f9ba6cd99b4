"""How honest the ± of the shaft is: 1,000 simulated shafts with gas data of their own, and the gauges of a shop.

Run: python -m tests.benchmarks.shafts [shafts]. Bar: the true ratio of the powers at the two ends, and the true outlet
temperature of the compressor by the shaft, lie inside their ± in 93 to 97 %. Exits with 1 where the bar is missed.
"""

import sys

from tests.lab.reduction import simulated_shaft as simulated

SHAFTS = 1_000
LEAST, MOST = 0.93, 0.97


def main():
    count = int(sys.argv[1]) if len(sys.argv) > 1 else SHAFTS
    missed = False
    for seed in (20260312, 1, 2):
        true = simulated.shafts(count, seed)
        for name, inside in simulated.inside(simulated.as_read(true, seed), true).items():
            share = inside.mean()
            missed |= not LEAST <= share <= MOST
            print(f"seed {seed}: {name.replace('_', ' ')}: {share:.1%} of {count} inside the ±")
    sys.exit(missed)


if __name__ == "__main__":
    main()
