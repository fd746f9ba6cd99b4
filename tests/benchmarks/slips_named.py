"""How many planted slips are named truly and how many numbers wrongly, at each number of figures, US and SI.

    python -m tests.benchmarks.slips_named [SEATS]

Bars: named wrongly at most 0.2 % of all, named truly at least 70 % of those on the list. Exits with 1 where one is
missed.
"""

import pathlib
import runpy
import sys

from tests.homework.marking.planted_slips import LISTED, UNLISTED
from tests.homework.marking.slips_named import FIGURES, counted, shares
from tests.homework.marking.test_planted_slips import FEWEST_NAMED, MANY, MOST_NAMED_WRONGLY
from tests.variants_made import SYSTEMS


def main(seats=MANY):
    """Print the shares; return 1 if one of them misses its bar."""
    page = runpy.run_path(str(pathlib.Path(__file__).parents[1] / "homework" / "shop.py"))
    missed = False

    def answer(name, units, numbers):
        return page["SHOP"][name](page[units.upper()], numbers)

    print(f"{len(LISTED)} kinds on the list, {len(UNLISTED)} kinds that no list can know, {seats} seats")
    for figures in FIGURES:
        for system in SYSTEMS:
            wrongly, listed, unlisted, truly = shares(counted(system, figures, seats, answer))
            print(
                f"  {figures or 'all'} figures, {system.upper()}: named wrongly {wrongly:.3%} "
                f"(of the listed {listed:.3%}, of the others {unlisted:.3%}); listed named truly {truly:.1%}"
            )
            missed |= wrongly > MOST_NAMED_WRONGLY or truly < FEWEST_NAMED
    return int(missed)


if __name__ == "__main__":
    sys.exit(main(*map(int, sys.argv[1:])))
