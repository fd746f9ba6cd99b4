"""Moist air side by side with CoolProp's humid air, in one run: how much faster, and how far apart.

    python -m tests.benchmarks.moist_air

A point is the whole chain: outlet temperature, the densities before and after, and the dry air of each. The bars are
ratios of times measured here; the state of the machine falls out of them.
"""

import time

import numpy as np
from CoolProp.CoolProp import HAPropsSI

from tests.air import moist_reference
from turbomath import air
from turbomath.physics import real_humidity

POINTS, REFERENCE_POINTS, INTEGRATED_POINTS, ROUNDS = 100_000, 400, 60, 3
FASTER, APART, FROM_INTEGRAL = 60, 1e-4, 5e-6


def inlets():
    """Inlet pressure, temperature, outlet pressure, efficiency and humidity ratio of physical inlets."""
    draw = np.random.default_rng(20260312)
    pressure, temperature = draw.uniform(65e3, 105e3, POINTS), draw.uniform(250.0, 318.0, POINTS)
    humidity = real_humidity.humidity_ratio(pressure, temperature, draw.uniform(0.05, 0.98, POINTS))
    return pressure, temperature, pressure * draw.uniform(1.3, 4.5, POINTS), draw.uniform(0.6, 1.0, POINTS), humidity


def timed(function, rounds=ROUNDS):
    """The answer of a function and its shortest time [s]."""
    best = np.inf
    for _ in range(rounds):
        start = time.perf_counter()
        answer = function()
        best = min(best, time.perf_counter() - start)
    return answer, best


def ours(p1, t1, p2, efficiency, humidity):
    """The chain by the kit."""
    model = air.choose("moist", humidity_ratio=humidity)
    t2 = model.outlet_temperature(p1, t1, p2, efficiency)
    return t2, model.density(p1, t1), model.density(p2, t2)


def theirs(p1, t1, p2, efficiency, humidity):
    """The chain by CoolProp, point by point, as its humid air has to be asked."""
    t2 = [moist_reference.by_its_entropy(*one) for one in zip(p1, t1, p2, efficiency, humidity, strict=True)]
    for pressure, temperature in ((p1, t1), (p2, t2)):
        for p, t, w in zip(pressure, temperature, humidity, strict=True):
            HAPropsSI("Vda", "T", t, "P", p, "W", w)
    return np.array(t2)


def row(name, value, bar, good, form):
    """Print one bar and return whether it holds."""
    print(f"{name:<66} {value:>9{form}}   bar {bar:<8g} {'ok' if good else 'MISSED'}")
    return bool(good)


def main():
    """Print the bars of moist air and return whether all hold."""
    points = inlets()
    few = [one[:REFERENCE_POINTS] for one in points]
    (found, *_), here = timed(lambda: ours(*points))
    reference, there = timed(lambda: theirs(*few), rounds=1)
    print(f"  moist, a point: {1e6 * here / POINTS:.2f} us here, {1e6 * there / REFERENCE_POINTS:.0f} us there")
    ratio = (there / REFERENCE_POINTS) / (here / POINTS)
    apart = np.max(np.abs(found[:REFERENCE_POINTS] / reference - 1))
    exact = [moist_reference.outlet(*(one[i] for one in points)) for i in range(INTEGRATED_POINTS)]
    off = np.max(np.abs(found[:INTEGRATED_POINTS] / exact - 1))
    return all(
        [
            row("moist, whole chain: times faster than HAPropsSI, a point", ratio, FASTER, ratio >= FASTER, ".0f"),
            row("moist, outlet temperature against HAPropsSI, relative", apart, APART, apart <= APART, ".1e"),
            row("moist, the same against its own h and v integrated", off, FROM_INTEGRAL, off <= FROM_INTEGRAL, ".1e"),
        ]
    )


if __name__ == "__main__":
    main()
