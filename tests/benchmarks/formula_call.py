"""What the checks around a formula cost: its bare equation, a call that the kit makes, a call that a user makes.

Only a user's call is looked at for numbers in a shop's unit. Printed, never judged. Run
`python tests/benchmarks/formula_call.py`.
"""

import time
import timeit

import numpy as np

from turbomath.physics import compression
from turbomath.table.errors import PACKAGE

CALL = "compression.outlet_temperature(*given)"
CASES = {"one number": 2000, "array of 1,000": 500, "array of 100,000": 10}


def best_time(code, given, number):
    """Return the shortest of a few runs of compiled code [µs a call]."""
    names = {"compression": compression, "given": given}
    times = timeit.repeat(lambda: exec(code, names), timer=time.process_time, number=number, repeat=15)
    return min(times) / number * 1e6


def main():
    """Print a line a size: bare, called by the kit, called by a user, and what the look at units adds."""
    bare = compile("compression.outlet_temperature.__wrapped__(*given)", "a user's file", "exec")
    inside, outside = compile(CALL, f"{PACKAGE}lab/a_file.py", "exec"), compile(CALL, "a user's file", "exec")
    for name, number in CASES.items():
        size = int(name.split()[-1].replace(",", "")) if "array" in name else 1
        pressure = np.linspace(95e3, 100e3, size) if size > 1 else 97e3
        given = (pressure, 300.0, 2.5 * pressure, 0.74)
        found = [best_time(code, given, number) for code in (bare, inside, outside)]
        added = found[2] / found[1] - 1
        print(f"{name:17} bare {found[0]:8.1f}   kit {found[1]:8.1f}   user {found[2]:8.1f} µs   ({added:+.0%})")


if __name__ == "__main__":
    main()
