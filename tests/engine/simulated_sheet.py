"""INVENTED engines to try the fit on: their own equations, gas data and shapes of machines, none of the kit's.

Other than the balance of the kit: the turbine's flow follows an exponent of its own between one nozzle and many rows;
the wheel's speed is a number of its own, found from a work coefficient that leans with the flow; the compressor has its
best island at a speed of its own; bearings take a power with the square of that speed; the engine's filling follows
charge temperature and back pressure; burnt gas has its own specific heat; the walls take heat with the gas flow; the
friction grows with the cylinder pressure. Engines stand along the first axis, points along the second.
"""

from dataclasses import dataclass, fields, replace

import numpy as np

R, CP, KAPPA = 287.2, 1007.0, 0.2852  # air
HEAT, STOICHIOMETRIC = 42.8e6, 14.45  # fuel
KINDS = np.array(["none", "air-to-air", "jacket-water", "held"])


@dataclass(frozen=True)
class Engine:
    """Numbers of the engines, each of shape (engines, 1); "rated" is on the maker's day."""

    kind: np.ndarray
    displacement: np.ndarray
    speed: np.ndarray  # rev/s, rated
    boost: np.ndarray  # Pa, rated
    air_fuel: np.ndarray  # rated
    filling: np.ndarray
    filling_slope: np.ndarray
    island: np.ndarray  # best compressor efficiency
    island_speed: np.ndarray  # wheel speed of the island over the rated one
    island_flow: np.ndarray  # flow coefficient of the island over the rated one
    narrow_speed: np.ndarray
    narrow_flow: np.ndarray
    lean: np.ndarray  # work coefficient against flow coefficient
    turbine: np.ndarray  # best turbine efficiency
    matched: np.ndarray  # rated blade-speed ratio over its best
    reynolds: np.ndarray  # power of the flow with which the turbine does better
    law: np.ndarray  # exponent of the turbine's flow: 2 of an ellipse; 2.36 and 2.89 in `published_engines`
    bearings: np.ndarray  # rated share of the turbine's power
    ntu: np.ndarray
    ntu_power: np.ndarray
    water: np.ndarray
    loss: np.ndarray
    restriction: np.ndarray
    back_pressure: np.ndarray
    indicated: np.ndarray
    rich: np.ndarray
    friction: np.ndarray
    friction_speed: np.ndarray
    friction_pressure: np.ndarray
    walls: np.ndarray
    walls_power: np.ndarray
    gate: np.ndarray  # rated area of the gate over the turbine's; 0 is no gate
    gate_opens: np.ndarray  # share of the rated boost
    flow: np.ndarray = 1.0  # rated, like all below: found by `rated`
    density: np.ndarray = 1.0
    coefficient: np.ndarray = 1.0
    wheel: np.ndarray = 1.0
    fuel: np.ndarray = 1.0
    gas_speed: np.ndarray = 1.0
    area: np.ndarray = 1.0
    hot: np.ndarray = 850.0  # K before the turbine
    hole_before: np.ndarray = 0.0  # faults, all below: m^2 before and after the cooler
    hole_after: np.ndarray = 0.0
    exhaust_hole: np.ndarray = 0.0  # over the turbine's area
    gate_stuck: np.ndarray = 0.0  # share that it stays open
    retard: np.ndarray = 0.0  # degrees
    unburnt: np.ndarray = 0.0  # share of the fuel
    hot_air: np.ndarray = 0.0  # K, of the engine's own heat drawn in


@dataclass(frozen=True)
class Day:
    """The weather and what the engine is given, each of shape (engines, points)."""

    pressure: np.ndarray
    temperature: np.ndarray
    speed: np.ndarray
    fuel: np.ndarray


MAKER = 100_000.0, 298.0


def draw(random, count):
    """Return sound engines of all sizes, from a pickup's to a ship's."""
    engines = _drawn(random, 2 * count + 20)
    sound = np.isfinite(engines.area[:, 0]) & (engines.turbine[:, 0] > 0)
    return taken(engines, np.flatnonzero(sound)[:count])


def taken(engines, index):
    """Return the engines of an index."""
    count = len(engines.displacement)
    return Engine(**{e.name: np.broadcast_to(getattr(engines, e.name), (count, 1))[index] for e in fields(Engine)})


def _drawn(random, count):
    def between(low, high):
        return random.uniform(low, high, (count, 1))

    size = np.exp(between(np.log(2e-3), np.log(1.0)))
    kind = random.choice(KINDS, (count, 1), p=[0.12, 0.48, 0.25, 0.15])
    cooled = kind != "none"
    gated = (between(0, 1) < 0.3) & (size < 0.03)
    engine = Engine(
        kind,
        size,
        speed=np.clip(30 * (size / 12e-3) ** -0.22 * between(0.85, 1.15), 6, 55),
        boost=np.where(cooled, between(1.2, 2.4), between(0.7, 1.2)) * 1e5,
        air_fuel=between(25, 32),
        filling=between(0.88, 0.97),
        filling_slope=between(0.0, 0.03),
        island=between(0.73, 0.80),
        island_speed=between(0.80, 1.05),
        island_flow=between(0.9, 1.1),
        narrow_speed=between(0.0, 0.25),
        narrow_flow=between(0.1, 0.35),
        lean=between(0.0, 0.25),
        turbine=between(0.66, 0.76),
        matched=between(0.92, 1.05),
        reynolds=between(0.0, 0.10),
        law=between(2.0, 2.9),
        bearings=between(0.02, 0.05),
        ntu=-np.log(1 - np.where(kind == "air-to-air", between(0.72, 0.88), between(0.65, 0.88))),
        ntu_power=between(-0.45, -0.2),
        water=np.where(kind == "held", between(310, 330), between(353, 363)),
        loss=between(4e3, 12e3) * cooled,
        restriction=between(1500, 4000),
        back_pressure=between(3e3, 9e3),
        indicated=between(0.465, 0.515),
        rich=between(0.05, 0.14),
        friction=between(0.9e5, 1.4e5),
        friction_speed=between(1500, 3500),
        friction_pressure=between(0.0, 0.05),
        walls=between(0.13, 0.20),
        walls_power=between(0.75, 1.0),
        gate=np.where(gated, between(0.08, 0.2), 0.0),
        gate_opens=between(0.55, 0.75),
    )
    return rated(engine)


def rated(e):
    """Return the engines with fuel, wheel and turbine for their boost, on the maker's day."""
    p0, t0 = MAKER
    p3 = p0 + e.boost
    p2, p1 = p3 + e.loss, p0 - e.restriction
    e = replace(e, flow=1e-3 * e.displacement * e.speed / 12e-3)  # a first flow for the cooler
    for _ in range(30):
        away = e.narrow_speed * (1 - e.island_speed) ** 2 + e.narrow_flow * (1 - e.island_flow) ** 2
        work = CP * t0 * ((p2 / p1) ** KAPPA - 1) / (e.island - away)
        t2 = t0 + work / CP
        t3 = _charge_temperature(e, t2, t0, e.flow)
        flow = _filling(e, t3, p3, 1.1 * p3) * p3 / (R * t3) * e.displacement * e.speed / 2
        e = replace(e, flow=flow)
    wheel = np.sqrt(work / 0.7)
    e = replace(
        e,
        density=(p2 / t2 + p3 / t3) / 2 / R,
        coefficient=flow * t0 / p1 / wheel,
        wheel=wheel,
        fuel=flow / e.air_fuel,
    )
    day = Day(p0, t0, e.speed, e.fuel)
    gas = flow + e.fuel
    t4 = _exhaust_temperature(e, day, flow, t3)
    p5 = p0 + e.back_pressure
    through = gas * np.where(e.gate > 0, 1 / (1 + e.gate), 1.0)
    efficiency = e.turbine * (1 - (e.matched - 1) ** 2)
    ideal = work * flow / (1 - e.bearings) / through / efficiency
    drop = ideal / (_specific_heat(t4) * t4)
    ratio = np.where(drop < 0.45, 1 - np.minimum(drop, 0.45), np.nan) ** (-_specific_heat(t4) / R)
    area = gas * np.sqrt(R * t4) / (ratio * p5 * _flow_law(e, ratio)) / (1 + e.gate)
    sound = (ratio < 3.8) & (t4 < 1000.0)
    return replace(e, gas_speed=np.sqrt(2 * ideal), area=np.where(sound, area, np.nan), hot=t4)


def _filling(e, t3, p3, p4):
    return e.filling * (t3 / 320.0) ** 0.25 * (1 - e.filling_slope * (p4 / p3 - 1))


def _charge_temperature(e, t2, t0, flow):
    effect = -np.expm1(-e.ntu * (flow / e.flow) ** e.ntu_power)
    medium = np.where(e.kind == "air-to-air", t0, e.water)
    cooled = t2 - effect * (t2 - medium)
    return np.where(e.kind == "none", t2, np.where(e.kind == "held", e.water, cooled))


def _specific_heat(t):
    return 1010.0 + 0.19 * t  # lean burnt gas between 400 and 1000 K, of the kind of textbook tables


def _exhaust_temperature(e, day, flow, t3):
    burnt = day.fuel * HEAT * (1 - e.unburnt)
    loaded = day.fuel / e.fuel / (day.speed / e.speed)
    share = e.walls * loaded ** (e.walls_power - 1)
    left = burnt * (1 - _indicated(e, day, flow) - share) + flow * CP * (t3 - day.temperature)
    t4 = np.full_like(left, 700.0)
    for _ in range(8):
        t4 = day.temperature + left / ((flow + day.fuel) * (1010.0 + 0.095 * (t4 + day.temperature)))
    return t4


def _indicated(e, day, flow):
    late = 1 - 0.006 * e.retard - 0.0003 * e.retard**2
    return (e.indicated - e.rich * (STOICHIOMETRIC * day.fuel / flow) ** 1.7) * late


def _hole(area, p, t, behind):
    """Flow of a nozzle, through a hole [kg/s]."""
    ratio = np.clip(behind / np.maximum(p, 1.0), 0.528, 1.0)
    return area * p / np.sqrt(R * t) * np.sqrt(7.0 * np.maximum(ratio**1.4286 - ratio**1.7143, 0.0))


def _flow_law(e, ratio):
    return 0.67 * np.sqrt(1 - ratio**-e.law)


def states(e, day, p3):
    """Return what follows from a manifold pressure: (spare power, everything that a gauge could show)."""
    flow = e.flow * p3 / (MAKER[0] + e.boost) * day.speed / e.speed
    wheel, p4 = e.wheel * np.sqrt(np.maximum(p3 / day.pressure, 1.02) ** KAPPA - 1) / 0.6, p3
    t3, lost_before, lost_after = np.full_like(p3, 320.0), 0.0, 0.0
    inlet, thin = day.temperature + e.hot_air, day.temperature / MAKER[1] * MAKER[0] / day.pressure
    for _ in range(40):
        cooled, drawn = flow + lost_after, flow + lost_after + lost_before
        p1 = day.pressure - e.restriction * (drawn / e.flow) ** 2 * thin
        p2 = p3 + e.loss * (cooled / e.flow) ** 1.9 * e.density * R * t3 / p3
        relative = drawn * inlet / p1 / wheel / e.coefficient
        off = e.narrow_speed * (wheel / e.wheel - e.island_speed) ** 2
        off = off + e.narrow_flow * (relative - e.island_flow) ** 2
        efficiency = np.maximum(e.island - off, 0.3)
        work = CP * inlet * ((p2 / p1) ** KAPPA - 1) / efficiency
        wheel = 0.5 * wheel + 0.5 * np.sqrt(np.maximum(work, 50.0) / (0.7 * (1 - e.lean * (relative - 1))))
        t2 = inlet + work / CP
        t3 = _charge_temperature(e, t2, day.temperature, cooled)
        lost_before = 0.5 * lost_before + 0.5 * _hole(e.hole_before, p2, t2, day.pressure)
        lost_after = 0.5 * lost_after + 0.5 * _hole(e.hole_after, p3, t3, day.pressure)
        new = _filling(e, t3, p3, p4) * p3 / (R * t3) * e.displacement * day.speed / 2
        flow = 0.5 * flow + 0.5 * new
        gas = flow + day.fuel
        t4 = _exhaust_temperature(e, day, flow, t3)
        open_share = np.clip((p3 - day.pressure - e.gate_opens * e.boost) / ((1 - e.gate_opens) * e.boost), 0, 1.5)
        ways = 1 + e.gate * np.maximum(open_share, e.gate_stuck) + e.exhaust_hole
        left = gas * (1 - e.exhaust_hole / ways)
        p5 = day.pressure + e.back_pressure * (left / (e.flow + e.fuel)) ** 1.9 * t4 / e.hot * MAKER[0] / day.pressure
        p4 = 0.5 * p4 + 0.5 * p5 * _ratio(e, gas * np.sqrt(R * t4) / (e.area * ways * p5))
    ratio = np.maximum(p4 / p5, 1.0001)
    ideal = _specific_heat(t4) * t4 * (1 - ratio ** (-R / _specific_heat(t4)))
    blade = e.matched * (wheel / e.wheel) / (np.sqrt(2 * ideal) / e.gas_speed)
    turbine = e.turbine * (1 - (blade - 1) ** 2) * np.minimum(gas / (e.flow + e.fuel), 1.2) ** e.reynolds
    drawn = flow + lost_after + lost_before
    rated_power = e.wheel**2 * 0.7 * e.flow / (1 - e.bearings)
    spare = turbine * gas / ways * ideal - work * drawn - e.bearings * rated_power * (wheel / e.wheel) ** 2
    swept = e.displacement * day.speed / 2
    indicated = _indicated(e, day, flow) * day.fuel * HEAT * (1 - e.unburnt)
    friction = e.friction + e.friction_speed * day.speed + e.friction_pressure * (p3 - 2e5)
    power = indicated - (friction + p4 - p3) * swept
    t5 = t4 - (work * drawn + (spare > 9e99)) / (gas * _specific_heat(t4)) * 1.06
    return spare, dict(
        manifold_pressure=p3,
        power=power,
        manifold_temperature=t3,
        compressor_outlet_temperature=t2,
        turbine_inlet_temperature=t4,
        turbine_inlet_pressure=p4,
        turbine_outlet_temperature=t5,
        intake_restriction=day.pressure - p1,
        compressor_outlet_pressure=p2,
        exhaust_back_pressure=p5 - day.pressure,
    )


def _ratio(e, flow):
    """Return the expansion ratio that passes this flow x sqrt(R T) over (area x pressure behind the turbine)."""
    low, high = np.ones_like(flow), np.full_like(flow, 9.0)
    for _ in range(30):
        middle = (low + high) / 2
        less = middle * _flow_law(e, middle) < flow
        low, high = np.where(less, middle, low), np.where(less, high, middle)
    return middle


def settled(e, day):
    """Return what gauges without error would show where turbine and compressor are in balance."""
    shape = np.broadcast_shapes(np.shape(e.fuel), np.shape(day.fuel))
    low, high = np.full(shape, 1.005) * day.pressure, np.full(shape, 5.0) * day.pressure
    for _ in range(30):
        p3 = (low + high) / 2
        spare, _ = states(e, day, p3)
        up = np.nan_to_num(spare, nan=-1.0) > 0
        low, high = np.where(up, p3, low), np.where(up, high, p3)
    return states(e, day, (low + high) / 2)[1]
