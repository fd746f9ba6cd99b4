"""How well an engine fitted to its own sheet tells the rest: engines of three other models, and their gauges.

Run: python -m tests.benchmarks.fits [engines]. 200 INVENTED engines of all sizes, whose shapes scatter as widely as
the trade's (a wide world: some with a wastegate), and as many of each of two published models. Bars: boost at loads
that no fit has seen lies inside the model's ± in at least 93 %, and so does power; a fit takes at most 2 s. Of the
published generator set, fitted at full and half load: between them boost within 5 % and power within 2.5 %, at 30 %
boost within 12 %; at full load alone boost within 7 % down to three quarters and 12 % down to five eighths; each in 95
of 100. Exits with 1 where a bar is missed.

What two points cannot tell: with other shapes of wheels, manifold and friction the same two points stand above boosts
at 30 % that are 5 % apart (one standard deviation, wide world), and a gate may open anywhere between them.
"""

import sys
import time
from dataclasses import replace

import numpy as np

from tests.engine import published_engines as published
from tests.engine import simulated_sheet as simulated
from turbomath.engine.expected import Point
from turbomath.engine.fitting import fit
from turbomath.engine.ready_engines import AIR_TO_AIR, JACKET_WATER, NOT_AFTERCOOLED
from turbomath.engine.turbocharged_engine import Wastegate
from turbomath.table.errors import OutOfRangeError

ENGINES = 200
LOADS = np.array([0.3, 0.4, 0.5, 0.625, 0.75, 0.875, 1.0])
LEAST_INSIDE, MOST_SECONDS = 0.93, 2.0
FITTED = {"full load alone": (6,), "full and half load": (2, 6), "four loads": (0, 2, 4, 6)}
COLUMNS = {
    "all columns": (
        "manifold_pressure",
        "power",
        "manifold_temperature",
        "compressor_outlet_temperature",
        "turbine_inlet_temperature",
        "turbine_outlet_temperature",
    ),
    "three columns removed": ("manifold_pressure", "power", "turbine_inlet_temperature"),
}
PUBLISHED = COLUMNS["all columns"][:-1]  # the published models have no temperature behind the turbine
LEAST_TRUE = {  # quantity, place in LOADS: the share that 95 of 100 keep
    "full and half load": {("boost", 0): 0.12, ("power", 3): 0.025}
    | {("boost", load): 0.05 for load in (3, 4, 5)}
    | {("power", load): 0.025 for load in (4, 5)},
    "full load alone": {("boost", 5): 0.07, ("boost", 4): 0.07, ("boost", 3): 0.12},
}
ERRORS = {"manifold_pressure": 0.008, "power": 0.005}  # standard deviation of a sheet's figures, as a share
DEGREES = 2.0  # and of its temperatures
KINDS = {"none": NOT_AFTERCOOLED, "air-to-air": AIR_TO_AIR, "jacket-water": JACKET_WATER, "held": JACKET_WATER}


def like(engines, place):
    """Return what is known of an engine before its sheet: size, sort of aftercooler, and that it has a wastegate."""
    one = {name: value[place, 0] for name, value in vars(engines).items()}
    known = replace(KINDS[str(one["kind"])], displacement=float(one["displacement"]))
    return replace(known, wastegate=Wastegate(area=1e-4)) if one["gate"] else known


def sheets(random, count):
    """Return (engines, days, what perfect gauges show, what the sheet says)."""
    engines = simulated.draw(random, count)
    shape = (count, len(LOADS))
    propeller = np.where(random.uniform(size=(count, 1)) < 0.3, LOADS ** (1 / 3), 1.0)
    day = simulated.Day(
        np.broadcast_to(random.uniform(92e3, 102e3, (count, 1)), shape),
        np.broadcast_to(random.uniform(283.0, 308.0, (count, 1)), shape),
        engines.speed * propeller,
        engines.fuel * LOADS * np.ones(shape),
    )
    true = simulated.settled(engines, day)
    said = {name: _said(random, name, value, day) for name, value in true.items()}
    return engines, day, true, said


def published_sheets(random, count, model):
    """Return (what is known of the engines, days, what perfect gauges show, what the sheet says) of a published model.

    Three of ten generator sets follow a propeller's curve; the truck's vanes are held still at one speed.
    """
    engines = published.draw(random, count, model)
    shape = (len(engines.area), len(LOADS))
    curved = random.uniform(size=(shape[0], 1)) < 0.3 * isinstance(model, published.GeneratorSet)
    speed = engines.speed * np.where(curved, LOADS ** (1 / 3), 1.0)
    day = simulated.Day(np.full(shape, published.AMBIENT), np.full(shape, 298.0), speed, engines.fuel * LOADS)
    true = published.settled(engines, day.speed, day.fuel)
    said = {name: _said(random, name, value, day) for name, value in true.items()}
    return [replace(JACKET_WATER, displacement=model.displacement)] * shape[0], day, true, said


def _said(random, name, value, day):
    error = random.normal(size=value.shape)
    if "temperature" in name:
        return value + DEGREES * error
    base = day.pressure if "pressure" in name else 0.0
    return base + (value - base) * (1 + ERRORS.get(name, 0.01) * error)


def points(day, said, place, loads, columns):
    """Return the points of one sheet as `fit` takes them."""
    given = dict(
        ambient_pressure=day.pressure, ambient_temperature=day.temperature, engine_speed=day.speed, fuel_flow=day.fuel
    )
    told = {name: said[name] for name in columns}
    return [{name: float(one[place, load]) for name, one in (given | told).items()} for load in loads]


def elsewhere(day, place):
    """Return all loads of one engine."""
    return Point(day.pressure[place], day.temperature[place], day.speed[place], fuel_flow=day.fuel[place])


def main(count=ENGINES):
    """Print every bar; return 1 if one is missed."""
    random = np.random.default_rng(20260312)
    engines, day, true, said = sheets(random, count)
    held, likes = True, [like(engines, place) for place in range(count)]
    for words, columns in COLUMNS.items():
        for named, loads in FITTED.items():
            held &= _one_sort(likes, day, true, said, columns, loads, f"{words}, {named}")
    for model in (published.GeneratorSet(), published.Truck()):
        likes, day, true, said = published_sheets(np.random.default_rng(3), count, model)
        for named, loads in FITTED.items():
            words = f"published {type(model).__name__}, {named}"
            most = LEAST_TRUE.get(named, {}) if isinstance(model, published.GeneratorSet) else {}
            held &= _one_sort(likes, day, true, said, PUBLISHED, loads, words, most)
    return int(not held)


def _one_sort(likes, day, true, said, columns, loads, words, most=None):
    unseen = [load for load in range(len(LOADS)) if load not in loads]
    found, gates, longest, refused = [], [], 0.0, 0
    for place, known in enumerate(likes):
        begun = time.process_time()
        try:
            fitted = fit(points(day, said, place, loads, columns), engine=known)
        except OutOfRangeError as refusal:
            refused += 1
            print(f"  engine {place}: {refusal}")
            continue
        longest = max(longest, time.process_time() - begun)
        expected = fitted.expected(elsewhere(day, place))
        found.append(_row(expected, true, day, place)[:, unseen])
        gates.append(known.wastegate.area > 0)
    rows = np.array(found)
    off, width, power, power_width = (rows[:, one] for one in range(4))
    inside = np.mean(np.abs(off) <= width)
    power_inside = np.mean(np.abs(power) <= power_width)
    ok = min(inside, power_inside) >= LEAST_INSIDE and longest <= MOST_SECONDS
    for (name, load), bar in (most or {}).items():
        worst = np.quantile(np.abs(rows[:, 2 * (name == "power"), unseen.index(load)]), 0.95)
        ok &= bool(worst <= bar)
    print(
        f"{words}: boost inside {inside:.1%}, off {_quantiles(off)}, ± {np.median(width):.1%} at the middle; power off "
        f"{_quantiles(power)}, inside {power_inside:.1%}; refused {refused}; "
        f"longest {longest:.2f} s; {'ok' if ok else 'MISSED'}",
        flush=True,
    )
    print(f"    95 of 100 without a gate within: {_by_load(off[~np.array(gates)], unseen)}")
    print(f"    power, 95 of 100 within: {_by_load(power, unseen)}")
    return ok


def _row(expected, true, day, place):
    boost, power = true["manifold_pressure"][place] - day.pressure[place], true["power"][place]
    return np.array(
        [
            expected["boost"].value / boost - 1,
            expected["boost"].plus_or_minus / boost,
            expected["power"].value / power - 1,
            expected["power"].plus_or_minus / power,
        ]
    )


def _quantiles(off):
    return f"{np.median(np.abs(off)):.1%} at the middle, {np.quantile(np.abs(off), 0.95):.1%} in 95 of 100"


def _by_load(off, unseen):
    return ", ".join(
        f"{LOADS[load]:.0%} {np.quantile(np.abs(off[:, place]), 0.95):.1%}" for place, load in enumerate(unseen)
    )


if __name__ == "__main__":
    sys.exit(main(*(int(word) for word in sys.argv[1:])))
