"""INVENTED engines to try the verdicts on: their own equations, gas constants and noise, none of the kit's.

Other than the balance of the kit, the turbine is a nozzle and not an ellipse, the core follows an exponent of its own,
the exhaust takes a share of the fuel's heat, and the compressor's best efficiency falls away with a square of its own.
Engines stand along the first axis, points along the second.
"""

from dataclasses import dataclass, fields, replace

import numpy as np

R, CP, EXPONENT = 287.1, 1008.0, 0.2850  # air
CPG, GAMMA = 1148.0, 1.342  # burnt gas
HEAT = 42.7e6  # J/kg of fuel
EXHAUST_RISE = 0.3  # how much more of its heat little fuel leaves in the exhaust
PSI = 6894.757
LOADS = np.array([0.25, 0.5, 0.7, 0.85, 1.0])  # of the rated fuel


@dataclass(frozen=True)
class Engine:
    """Numbers of the engines, each of shape (engines, 1); "rated" is on the maker's day."""

    arrangement: np.ndarray
    displacement: np.ndarray
    filling: np.ndarray
    speed: np.ndarray
    fuel: np.ndarray
    boost: np.ndarray
    efficiency: np.ndarray
    narrowness: np.ndarray
    effectiveness: np.ndarray
    core_exponent: np.ndarray
    loss: np.ndarray
    loss_exponent: np.ndarray
    restriction: np.ndarray
    back_pressure: np.ndarray
    exhaust_share: np.ndarray
    turbine_efficiency: np.ndarray
    gate: np.ndarray  # most that the gate adds to the turbine's area; 0 is no gate
    flow: np.ndarray = 0.0
    density: np.ndarray = 1.0
    corrected: np.ndarray = 1.0
    area: np.ndarray = 1.0
    leak: np.ndarray = 0.0  # effective area of a hole after the aftercooler, m^2


@dataclass(frozen=True)
class Day:
    """The weather and what the engine is given, each of shape (engines, points) or (engines, 1)."""

    pressure: np.ndarray
    temperature: np.ndarray
    speed: np.ndarray
    fuel: np.ndarray
    water: np.ndarray = 360.0


MAKER_PRESSURE, MAKER_TEMPERATURE = 100_000.0, 298.0


def draw(random, count):
    """Return engines as shops have them; those whose turbine could not do it are drawn again."""
    between = lambda low, high: random.uniform(low, high, (count, 1))  # noqa: E731
    arrangement = random.choice(["air-to-air", "jacket-water", "none"], (count, 1), p=[0.6, 0.25, 0.15])
    cooled = arrangement != "none"
    speed, size, filling = between(25, 36), between(5e-3, 16e-3), between(0.86, 0.96)
    boost = np.where(cooled, between(18, 30), between(12, 18)) * PSI
    effectiveness = np.where(arrangement == "air-to-air", between(0.72, 0.86), between(0.66, 0.80)) * cooled
    engine = Engine(
        arrangement,
        size,
        filling,
        speed,
        fuel=np.ones((count, 1)),
        boost=boost,
        efficiency=between(0.70, 0.78),
        narrowness=between(0.05, 0.25),
        effectiveness=effectiveness,
        core_exponent=between(0.45, 0.8),
        loss=between(0.8, 2.0) * PSI * cooled,
        loss_exponent=between(1.8, 2.0),
        restriction=between(1500, 4000),
        back_pressure=between(4e3, 10e3),
        exhaust_share=between(0.40, 0.46),
        turbine_efficiency=between(0.68, 0.75),
        gate=np.where(between(0, 1) < 0.4, between(0.1, 0.2), 0.0),
    )
    engine = rated(engine, between(25, 31))
    bad = ~np.isfinite(engine.area[:, 0])
    if bad.any():
        engine = _filled(engine, bad, draw(random, int(bad.sum())))
    return engine


def _filled(engine, bad, other):
    def one(name):
        values = np.array(getattr(engine, name))
        values = np.broadcast_to(values, (len(bad), 1)).copy()
        values[bad] = np.broadcast_to(getattr(other, name), (int(bad.sum()), 1))
        return values

    return Engine(**{entry.name: one(entry.name) for entry in fields(Engine)})


def rated(engine, air_fuel):
    """Return the engine with fuel for this air-fuel ratio and a turbine for its boost, on the maker's day."""
    p0, t0 = MAKER_PRESSURE, MAKER_TEMPERATURE
    p3 = p0 + engine.boost
    p2 = p3 + engine.loss
    t2 = t0 * (1 + ((p2 / (p0 - engine.restriction)) ** EXPONENT - 1) / engine.efficiency)
    medium = np.where(engine.arrangement == "jacket-water", 360.0, t0)
    t3 = t2 - engine.effectiveness * (t2 - medium)
    flow = engine.filling * p3 / (R * t3) * engine.displacement * engine.speed / 2
    engine = replace(
        engine,
        fuel=flow / air_fuel,
        flow=flow,
        density=(p2 / t2 + p3 / t3) / 2 / R,
        corrected=flow * np.sqrt(t0) / (p0 - engine.restriction),
    )
    return replace(engine, area=needed_area(engine, Day(p0, t0, engine.speed, engine.fuel), p3))


def charge(e, day, p3):
    """Return (compressor flow, flow into the cylinders, T2, T3, compressor power, loss) at a manifold pressure."""
    flow, t3, loss, hole = e.flow + 0 * p3, 320.0 + 0 * p3, e.loss + 0 * p3, 0.0
    for _ in range(12):
        p1 = day.pressure - e.restriction * (flow / e.flow) ** 2 * (MAKER_PRESSURE / day.pressure)
        off = flow * np.sqrt(day.temperature) / p1 / e.corrected - 1
        efficiency = e.efficiency - e.narrowness * off**2
        t2 = day.temperature * (1 + (((p3 + loss) / p1) ** EXPONENT - 1) / efficiency)
        effectiveness = effectiveness_at(e, flow)
        medium = np.where(e.arrangement == "jacket-water", day.water, day.temperature)
        t3 = t2 - effectiveness * (t2 - medium)
        drawn = e.filling * p3 / (R * t3) * e.displacement * day.speed / 2
        hole = e.leak * np.sqrt(np.maximum(p3**2 - day.pressure**2, 0.0) / (R * t3))
        flow = drawn + hole
        density = ((p3 + loss) / t2 + p3 / t3) / 2 / R
        loss = e.loss * (flow / e.flow) ** e.loss_exponent * e.density / density
    return flow, drawn, t2, t3, flow * CP * (t2 - day.temperature), loss, day.pressure - p1


def effectiveness_at(e, flow):
    """Return the effectiveness of the core at another flow: one exponent for all of it."""
    size = -np.log1p(-np.minimum(e.effectiveness, 0.97))
    return -np.expm1(-size * (flow / e.flow) ** (e.core_exponent - 1))


def exhaust(e, day, flow, t3):
    """Return (gas flow, temperature and pressure before and behind which the turbine works)."""
    gas = flow + day.fuel
    share = e.exhaust_share * (1 + EXHAUST_RISE * (1 - day.fuel / e.fuel))
    t4 = day.temperature + (share * day.fuel * HEAT + flow * CP * (t3 - day.temperature)) / (gas * CPG)
    p5 = day.pressure + e.back_pressure * (gas / (e.flow + e.fuel)) ** 2
    return gas, t4, p5


def nozzle(ratio):
    """Return flow x sqrt(R T)/(area x pressure) of a nozzle."""
    ratio = np.minimum(ratio, (2 / (GAMMA + 1)) ** (-GAMMA / (GAMMA - 1)))
    return np.sqrt(2 * GAMMA / (GAMMA - 1) * (ratio ** (-2 / GAMMA) - ratio ** (-(GAMMA + 1) / GAMMA)))


def gate_share(e, day, p3):
    """Return what the gate adds to the turbine's area, as a share of it: it opens over the last third of the boost."""
    travel = np.clip(((p3 - day.pressure) / e.boost - 0.65) / 0.5, 0.0, 1.0)
    return e.gate * travel


def needed_ratio(e, day, p3, efficiency=None):
    """Return (expansion ratio that drives the compressor, gas flow, T4, p5) at a manifold pressure."""
    _, drawn, _, t3, power, *_ = charge(e, day, p3)
    gas, t4, p5 = exhaust(e, day, drawn, t3)
    through = gas / (1 + gate_share(e, day, p3))
    drop = power / 0.96 / (through * CPG * t4 * (e.turbine_efficiency if efficiency is None else efficiency))
    with np.errstate(invalid="ignore"):
        return np.where(drop < 0.6, 1 - drop, np.nan) ** (-GAMMA / (GAMMA - 1)), gas, t4, p5


def needed_area(e, day, p3):
    """Return the area of the turbine that makes this manifold pressure; `nan` where none does."""
    ratio, gas, t4, p5 = needed_ratio(e, day, p3)
    ratio = np.where(ratio < 4.0, ratio, np.nan)
    return gas * np.sqrt(R * t4) / (ratio * p5 * nozzle(ratio)) / (1 + gate_share(e, day, p3))


def expansion(e, day, p3, gas, t4, p5):
    """Return the expansion ratio that the turbine's area puts before this flow."""
    area = e.area * (1 + gate_share(e, day, p3))
    low, high = np.ones_like(gas), np.full_like(gas, 12.0)
    for _ in range(40):
        middle = np.sqrt(low * high)
        short = area * middle * p5 * nozzle(middle) / np.sqrt(R * t4) < gas
        low, high = np.where(short, middle, low), np.where(short, high, middle)
    return middle


def settled(e, day):
    """Return the manifold pressure at which the turbine drives the compressor."""
    shape = np.broadcast_shapes(np.shape(e.fuel), np.shape(day.fuel))
    low, high = np.broadcast_to(day.pressure * 0.98, shape), np.broadcast_to(day.pressure * 5.0, shape)
    for _ in range(36):
        p3 = (low + high) / 2
        needed, gas, t4, p5 = needed_ratio(e, day, p3)
        spare = expansion(e, day, p3, gas, t4, p5) > np.nan_to_num(needed, nan=99.0)
        low, high = np.where(spare, p3, low), np.where(spare, high, p3)
    return p3


def lost(e, day, share, cause):
    """Return the engine with one cause that takes this share of its boost at this point, and the share it takes."""
    p3 = day.pressure + (1 - share) * (settled(e, day) - day.pressure)
    if cause == "slack wastegate":
        return replace(e, area=needed_area(e, day, p3))
    if cause == "worn turbine":
        low, high = 0.2 * e.turbine_efficiency, e.turbine_efficiency
        change = lambda middle: replace(e, turbine_efficiency=middle)  # noqa: E731
    else:  # a leak of the charge
        low, high = 0.08 * e.area + 0.0, 0.0 * e.area
        low, high = np.maximum(low, 4e-4), high
        change = lambda middle: replace(e, leak=middle)  # noqa: E731
    for _ in range(24):
        middle = (low + high) / 2
        less = settled(change(middle), day) < p3
        low, high = np.where(less, middle, low), np.where(less, high, middle)
    return change(middle)
