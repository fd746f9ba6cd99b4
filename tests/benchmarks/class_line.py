"""How often the truth lies inside the ± of the line that a class draws of its compressor.

    python -m tests.benchmarks.class_line [CLASSES]

Each class is simulated with equations of its own (`tests.lab.reduction.class_world`): three to six groups, each with
its gauges, one error of the assumed volumetric efficiency for all. Asked is the line at one flow of its reach, drawn at
random. Bar: inside in 93 to 97 of 100; of classes that read one engine right at most 5 % are told of a point that the
line does not fit. Exits with 1 where a bar is missed.
"""

import sys
import tempfile

import numpy as np

from tests.lab.reduction.class_world import a_class, read
from turbomath.lab.reduction.compressor_line import compressor_line

CLASSES, SEED = 1_000, 22
INSIDE, MOST_CALLED = (0.93, 0.97), 0.05


def main(count=CLASSES):
    """Print what was found; return 1 if a bar is missed."""
    chance, inside, called, shares = np.random.default_rng(SEED), [], [], []
    with tempfile.TemporaryDirectory() as folder:
        for _ in range(count):
            world = a_class(chance)
            found = compressor_line(read(world, folder))
            at = chance.uniform(found.line.low, found.line.high)
            off, width = found.line.at(at) - world.truth(at), found.line.plus_or_minus(at)
            inside.append(abs(off[0]) <= width[0])
            called.append(found.off.any())
            shares.append((off[0] / world.truth(at), width[0] / world.truth(at)))
    off, width = np.array(shares).T
    print(f"{count} classes: the truth inside the ± in {np.mean(inside):.1%}; bar 93 to 97 %")
    print(f"± of the line: median {np.median(width):.1%} of the pressure ratio; off by {np.mean(off):+.2%} in the mean")
    print(f"told of a point that the line does not fit: {np.mean(called):.1%}; bar at most 5 %")
    return int(not (INSIDE[0] <= np.mean(inside) <= INSIDE[1] and np.mean(called) <= MOST_CALLED))


if __name__ == "__main__":
    sys.exit(main(*(int(word) for word in sys.argv[1:])))
