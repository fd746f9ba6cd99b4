"""INVENTED engines and gauges with faults, in the world of `simulated_sheet`: its equations, none of the kit's.

A hard world: between two runs of one engine the weather changes and the engine drifts a little; gauges have a steady
error, one of the run, one of the point and a wrong scale of the run; temperatures have not settled; a fault brings side
effects that no list has (a fouled compressor passes less, a worn turbine leaks a little, late timing loses filling).
"""

from dataclasses import dataclass, replace

import numpy as np

from tests.engine import simulated_sheet as simulated
from turbomath.engine.faults.observed import Observed

LOADS = np.array([0.25, 0.4, 0.6, 0.8, 1.0])
# Gauge: half-width of what its maker allows (a part of the reading, and an amount), and its step [SI]. Shop gauges:
# grade 1A of 60 psi, thermocouples of class 1 and standard, manometers, one per cent of fuel and power.
TOLERANCES = {
    "intake_restriction": (0.0, 50.0, 25.0),
    "compressor_outlet_pressure": (0.0, 4137.0, 1724.0),
    "compressor_outlet_temperature": (0.0, 2.2, 0.5),
    "cooler_pressure_loss": (0.0, 690.0, 345.0),
    "boost": (0.0, 4137.0, 1724.0),
    "manifold_temperature": (0.0, 2.2, 0.5),
    "turbine_inlet_temperature": (0.0, 4.5, 2.0),
    "exhaust_back_pressure": (0.0, 340.0, 170.0),
    "power": (0.01, 0.0, 500.0),
    "fuel_flow": (0.01, 0.0, 2e-5),
}
WEATHER = {"ambient_pressure": (0.0, 100.0, 30.0), "ambient_temperature": (0.0, 1.0, 0.5)}
UNSETTLED = {"compressor_outlet_temperature": 1.5, "manifold_temperature": 1.5, "turbine_inlet_temperature": 5.0}
NEW_AT_POINT, NEW_EACH_RUN = 0.3, 0.4

# Fault: moderate size and the most that is drawn, in the world's own measures
SIZES = {
    "charge_leak_before": (0.055, 0.22),
    "charge_leak_after": (0.036, 0.15),
    "exhaust_leak": (0.06, 0.25),
    "cooler_fouled": (0.22, 0.60),
    "cooler_restricted": (0.40, 2.5),
    "filter_plugged": (0.50, 2.5),
    "compressor_fouled": (0.05, 0.18),
    "turbine_worn": (0.07, 0.25),
    "turbine_open": (0.10, 0.35),
    "turbine_closed": (0.045, 0.18),
    "wastegate_open": (0.50, 1.0),
    "wastegate_closed": (0.25, 1.0),
    "exhaust_restricted": (0.50, 3.0),
    "late_timing": (4.0, 10.0),
    "hot_intake": (6.0, 20.0),
    "overfuelled": (0.04, 0.15),
    "underfuelled": (0.04, 0.15),
}
UNLISTED = ("low filling", "dead cylinder", "friction", "late cam")
SWAPS = (("manifold_temperature", "compressor_outlet_temperature"), ("boost", "compressor_outlet_pressure"))
BAD_GAUGES = ("zero", "scale", "wrong type", "port", "swapped", "in the sun")


@dataclass(frozen=True)
class World:
    """Engines along the first axis; `gated` says which has a wastegate."""

    engines: simulated.Engine
    random: np.random.Generator

    @property
    def gated(self):
        return self.engines.gate[:, 0] > 0

    def __len__(self):
        return len(self.engines.area)


def world(seed, gated):
    """Return sound engines with an air-to-air aftercooler, 4 to 25 L: one for each of *gated*, with a gate if true."""
    random, drawn = np.random.default_rng(seed), []
    gated = np.asarray(gated, dtype=bool)
    while sum(map(np.sum, drawn_gates(drawn))) < gated.sum() or sum(map(len, drawn_gates(drawn))) < 2 * len(gated):
        some = simulated.draw(random, max(40, 5 * len(gated)))
        fits = (some.kind == "air-to-air") & (some.displacement > 4e-3) & (some.displacement < 25e-3)
        drawn.append(simulated.taken(some, np.flatnonzero(fits[:, 0])))
    every = joined(drawn)
    with_gate = list(np.flatnonzero(every.gate[:, 0] > 0))
    chosen = [with_gate.pop(0) if must else None for must in gated]
    left = [place for place in range(len(every.area)) if place not in chosen]
    chosen = [left.pop(0) if place is None else place for place in chosen]
    return World(simulated.taken(every, chosen), random)


def drawn_gates(drawn):
    """Return which engines of each draw have a gate."""
    return [one.gate[:, 0] > 0 for one in drawn]


def joined(several):
    """Return engines, or days, one after the other."""
    kind = type(several[0])
    return kind(**{name: np.concatenate([getattr(one, name) for one in several]) for name in vars(several[0])})


def days(of: World, loads=LOADS):
    """Return the weather and the fuel of one run of each engine; the setting gives the fuel within half a per cent."""
    random, shape = of.random, (len(of), len(loads))
    pressure = random.uniform(92e3, 101e3, (len(of), 1)) + np.zeros(shape)
    warm = random.uniform(283.0, 306.0, (len(of), 1)) + random.normal(0, 0.3, shape)
    fuel = of.engines.fuel * loads * (1 + random.normal(0, 0.005, shape))
    return simulated.Day(pressure, warm, of.engines.speed + np.zeros(shape), fuel)


def drifted(of: World):
    """Return the engines on another day: nothing is quite as it was."""
    names = ("filling", "island", "turbine", "area", "indicated", "ntu", "loss", "restriction", "back_pressure")
    count = (len(of), 1)
    moved = {name: getattr(of.engines, name) * (1 + of.random.normal(0, 0.002, count)) for name in names}
    return replace(of.engines, **moved)


def another_of_its_type(of: World):
    """Return engines of the same type that nobody has run before: their numbers scatter by one or two per cent."""
    scatter = {"filling": 0.01, "island": 0.01, "turbine": 0.015, "area": 0.01, "indicated": 0.007, "ntu": 0.03}
    scatter |= {"loss": 0.05, "restriction": 0.05, "back_pressure": 0.05, "walls": 0.02}
    count = (len(of), 1)
    moved = {name: getattr(of.engines, name) * (1 + of.random.normal(0, by, count)) for name, by in scatter.items()}
    return replace(of.engines, **moved)


def with_fault(engine, day, name, size, random):
    """Return (engines, days) with a fault of this size on each, and its side effects."""
    size = np.asarray(size, dtype=float).reshape(-1, 1)  # 0 is none
    some = random.uniform(0.0, 1.0, size.shape)  # of a side effect

    def times(**factors):
        return replace(engine, **{one: getattr(engine, one) * factor for one, factor in factors.items()})

    made = {
        "charge_leak_before": lambda: replace(engine, hole_before=size * engine.area),
        "charge_leak_after": lambda: replace(engine, hole_after=size * engine.area),
        "exhaust_leak": lambda: replace(engine, exhaust_hole=size),
        "cooler_fouled": lambda: times(ntu=1 - size),
        "cooler_restricted": lambda: times(loss=1 + size, ntu=1 - 0.03 * size * some),
        "filter_plugged": lambda: times(restriction=1 + size),
        "compressor_fouled": lambda: times(island=1 - size, island_flow=1 - 0.2 * size * some),
        "turbine_worn": lambda: times(turbine=1 - size, area=1 + 0.1 * size * some),
        "turbine_open": lambda: times(area=1 + size, turbine=1 - 0.1 * size * some),
        "turbine_closed": lambda: times(area=1 - size, turbine=1 - 0.2 * size * some),
        "wastegate_open": lambda: replace(engine, gate_stuck=1.0 * size),
        "wastegate_closed": lambda: times(gate=1 - size),
        "exhaust_restricted": lambda: times(back_pressure=1 + size),
        "late_timing": lambda: replace(engine, retard=size, walls=engine.walls * (1 + 0.004 * size * some)),
        "hot_intake": lambda: replace(engine, hot_air=size),
        "low filling": lambda: times(filling=1 - size),
        "dead cylinder": lambda: replace(engine, unburnt=size),
        "friction": lambda: times(friction=1 + size, friction_speed=1 + size),
        "late cam": lambda: times(filling=1 - size, indicated=1 - 0.4 * size),
        "overfuelled": lambda: engine,
        "underfuelled": lambda: engine,
    }[name]()
    share = {"overfuelled": 1 + size, "underfuelled": 1 - size}.get(name, 1.0)
    return made, replace(day, fuel=day.fuel * share)


def true_readings(engine, day):
    """Return what gauges without error would show; pressures count from the barometer."""
    found = simulated.settled(engine, day)
    outlet, boost = (found[f"{one}_pressure"] - day.pressure for one in ("compressor_outlet", "manifold"))
    found |= {"compressor_outlet_pressure": outlet, "boost": boost, "cooler_pressure_loss": outlet - boost}
    return {name: found[name] for name in TOLERANCES if name != "fuel_flow"} | {"fuel_flow": day.fuel}


def halves(readings):
    """Return the readings of the first half of the engines, and of the second."""
    middle = len(next(iter(readings.values()))) // 2
    return tuple({name: one[part] for name, one in readings.items()} for part in (slice(middle), slice(middle, None)))


def uncertainty(name, value):
    """Return the standard uncertainty that bench.toml would declare, and what of it is new at each point."""
    share, amount, step = (TOLERANCES | WEATHER)[name]
    unsure = np.hypot(share * np.abs(value) + amount, step / 2) / np.sqrt(3)
    scatter = np.sqrt((NEW_AT_POINT * unsure) ** 2 + step**2 / 12 + UNSETTLED.get(name, 0.0) ** 2)
    return unsure, scatter


def steady_errors(of: World):
    """Return for each gauge what it is off all its life, in standard uncertainties."""
    steady = np.sqrt(1 - NEW_AT_POINT**2 - NEW_EACH_RUN**2)
    return {name: steady * of.random.normal(size=(len(of), 1)) for name in TOLERANCES | WEATHER}


def as_read(true, day, steady, random):
    """Return (readings, weather read) of every engine with the errors of one run."""
    weather = {"ambient_pressure": day.pressure, "ambient_temperature": day.temperature}
    read = {name: _read(name, value, steady[name], random) for name, value in (true | weather).items()}
    return {name: read[name] for name in true}, {name: read[name] for name in weather}


def _read(name, value, steady, random):
    unsure, _ = uncertainty(name, value)
    run, scale = (NEW_EACH_RUN * random.normal(size=(len(value), 1)) for _ in range(2))
    top = np.max(np.abs(value), axis=1, keepdims=True)
    moving = random.normal(size=value.shape) * UNSETTLED.get(name, 0.0)
    shown = value + unsure * (steady + run + NEW_AT_POINT * random.normal(size=value.shape)) + moving
    if name in TOLERANCES:
        shown = shown + scale * np.max(unsure, axis=1, keepdims=True) * value / top
    step = (TOLERANCES | WEATHER)[name][2]
    return np.round(shown / step) * step


def with_bad_gauge(read, weather, sort, random):
    """Return (readings, weather, the fault as the list names it) of one engine, one instrument of which is bad."""
    read, weather = dict(read), dict(weather)
    pressures = [name for name in TOLERANCES if "temperature" not in name and name not in ("power", "fuel_flow")]
    sign = random.choice([-1, 1])
    if sort == "in the sun":
        weather["ambient_temperature"] = weather["ambient_temperature"] + random.uniform(5, 15)
        return read, weather, "in the sun: ambient_temperature"
    if sort == "swapped":
        loss = np.max(read["cooler_pressure_loss"]) > 5 * np.max(uncertainty("boost", read["boost"])[0])
        one, other = SWAPS[random.integers(2) if loss else 0]
        read[one], read[other] = read[other], read[one]
        return read, weather, f"swapped: {one} {other}"
    if sort == "wrong type":
        name = random.choice([name for name in TOLERANCES if "temperature" in name])
        share, way = (random.uniform(0.73, 0.79), "low") if sign < 0 else (random.uniform(1.29, 1.35), "high")
        cold = weather["ambient_temperature"]
        read[name] = cold + share * (read[name] - cold)
        return read, weather, f"wrong type: {name} {way}"
    if sort == "zero":
        name = random.choice([*pressures, *(name for name in TOLERANCES if "temperature" in name)])
        unsure = np.max(uncertainty(name, read[name])[0])
        read[name] = read[name] + sign * random.uniform(5, 12) * unsure
        return read, weather, f"zero: {name}"
    if sort == "port":
        share = -random.uniform(0.3, 0.6) if sign < 0 else random.uniform(0.5, 1.0)
        read["intake_restriction"] = read["intake_restriction"] * (1 + share)
        return read, weather, "port: intake_restriction"
    name = random.choice([*pressures[1:], "power", "fuel_flow"])
    share = sign * random.uniform(5, 12) * np.max(uncertainty(name, read[name])[0]) / np.max(read[name])
    read[name] = read[name] * (1 + share)
    return read, weather, f"{sort}: {name}"


def observed(read, weather, day, place, loads=LOADS):
    """Return the readings of one engine as the kit takes them."""
    site = {name: one[place] for name, one in weather.items()} | {"engine_speed": day.speed[place]}
    mine = {name: one[place] for name, one in read.items()}
    widths = {name: uncertainty(name, value) for name, value in (mine | {n: site[n] for n in WEATHER}).items()}
    unsure = {name: one for name, (one, _) in widths.items()}
    return Observed(site, mine, unsure, {name: one for name, (_, one) in widths.items()}, loads)
