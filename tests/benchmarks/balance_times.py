"""How fast and how surely the balance is found: 20,000 points, all arrangements, with and without a wastegate.

Run: python -m tests.benchmarks.balance_times. The rival is scipy.optimize.root, point by point, on the same equations
from the same first guess. Times are those of one process (CPU), so that a busy machine does not change the ratios.
"""

import time
from dataclasses import replace

import numpy as np
from scipy import optimize

from turbomath.engine import balance, gas_path, settling
from turbomath.engine.ready_engines import AIR_TO_AIR, JACKET_WATER, NOT_AFTERCOOLED, WITH_WASTEGATE
from turbomath.physics import atmosphere

POINTS, ONE_BY_ONE, SINGLE = 20_000, 600, 50
GATE = WITH_WASTEGATE.wastegate


def gated(engine):
    """The engine with a smaller turbine and the wastegate."""
    return replace(engine, turbine_area=0.85 * engine.turbine_area, wastegate=GATE)


ENGINES = [one for engine in (NOT_AFTERCOOLED, JACKET_WATER, AIR_TO_AIR) for one in (engine, gated(engine))]


def domain(random, count):
    """Sites from 0 to 3000 m and -20 to 45 °C, and loads from 8 to 110 %."""
    site = dict(
        ambient_pressure=atmosphere.pressure(random.uniform(0, 3000, count)),
        ambient_temperature=random.uniform(253.15, 318.15, count),
        engine_speed=np.full(count, 30.0),
    )
    return site, random.uniform(0.08, 1.1, count)


def with_faults(random, engine, count):
    """The engine with up to ten things wrong at once."""
    between = random.uniform
    return replace(
        engine,
        turbine_area=engine.turbine_area * between(0.8, 1.2, count),
        intake_coefficient=engine.intake_coefficient * between(1, 3, count),
        exhaust_coefficient=engine.exhaust_coefficient * between(1, 3, count),
        best_compressor_efficiency=engine.best_compressor_efficiency * between(0.8, 1, count),
        turbine_efficiency=engine.turbine_efficiency * between(0.8, 1, count),
        volumetric_efficiency=engine.volumetric_efficiency * between(0.85, 1, count),
        timing_retard=between(-2, 8, count),
        leak_area_before_aftercooler=between(0, 1.5e-4, count),
        leak_area_after_aftercooler=between(0, 1.5e-4, count),
        exhaust_leak_area=between(0, 1.5e-4, count),
    )


def timed(function, *arguments, **named):
    """CPU seconds and the answer."""
    start = time.process_time()
    answer = function(*arguments, **named)
    return time.process_time() - start, answer


def scipy_one_by_one(engine, site, fuel):
    """Solve each point alone; return how many failed and the pressures found."""
    numbers, missed, pressures = settling.numbers_of(engine), 0, []
    for p0, T0, N, flow in zip(*site.values(), fuel, strict=True):
        points = settling.Points(numbers, dict(p0=p0, T0=T0, N=N))

        def sums(logs, points=points, flow=flow):
            return np.array(gas_path.imbalances(points.state(*np.exp(logs), flow)))

        found = optimize.root(sums, settling.first_guess(points, flow), tol=1e-10)
        missed += np.abs(found.fun).max() > settling.GOOD
        pressures.append(np.exp(found.x[1]))
    return missed, np.array(pressures)


def main():
    """Print misses, times and ratios."""
    random, share = np.random.default_rng(7), POINTS // len(ENGINES) + 1
    print(f"{share * len(ENGINES)} points, {len(ENGINES)} engines")
    spent = dict.fromkeys(("fuel", "load", "scipy"), 0.0)
    for engine in ENGINES:
        site, load = domain(random, share)
        fuel_time, fuelled = timed(balance.solve, engine, **site, fuel_flow=load * engine.rated_fuel_flow)
        load_time, loaded = timed(balance.solve, engine, **site, power=load * engine.rated_power)
        few = {name: values[:ONE_BY_ONE] for name, values in site.items()}
        one_time, (missed, pressures) = timed(scipy_one_by_one, engine, few, load[:ONE_BY_ONE] * engine.rated_fuel_flow)
        apart = np.abs(pressures / fuelled.compressor_outlet_pressure[:ONE_BY_ONE] - 1)
        spent["fuel"] += fuel_time / share
        spent["load"] += load_time / share
        spent["scipy"] += one_time / ONE_BY_ONE
        gate = "wastegate" if engine.wastegate.area else "no gate"
        print(
            f"{engine.name:>13} {gate:>9}: missed {(~fuelled.converged).sum()} (fuel) and {(~loaded.converged).sum()} "
            f"(load), not carried {(~loaded.carried).sum()}, scipy missed {missed}, median difference from scipy "
            f"{np.median(apart):.0e}, largest residual {fuelled.residual.max():.0e}"
        )
    fuel, load, rival = (spent[name] / len(ENGINES) * 1e6 for name in ("fuel", "load", "scipy"))
    print(f"fuel given {fuel:.1f} us a point; scipy one by one {rival:.0f} us: {rival / fuel:.0f} times")
    print(f"power given {load:.1f} us a point: {load / fuel:.2f} times fuel given")
    for name, known in (("fuel", {"fuel_flow": 0.0165}), ("power", {"power": 250e3})):
        site = dict(ambient_pressure=98_544.0, ambient_temperature=298.15, engine_speed=30.0)
        seconds, _ = timed(
            lambda known=known, site=site: [balance.solve(AIR_TO_AIR, **site, **known) for _ in range(SINGLE)]
        )
        print(f"one point, {name} given: {seconds / SINGLE * 1e3:.1f} ms")
    site, load = domain(random, POINTS)
    faulty = with_faults(random, WITH_WASTEGATE, POINTS)
    seconds, b = timed(balance.solve, faulty, **site, fuel_flow=load * WITH_WASTEGATE.rated_fuel_flow)
    print(f"ten faults at once: missed {(~b.converged).sum()} of {POINTS}, {seconds / POINTS * 1e6:.1f} us a point")
    seconds, b = timed(balance.solve, faulty, **site, power=load * WITH_WASTEGATE.rated_power)
    print(
        f"the same, power given: missed {(~b.converged).sum()}, {seconds / POINTS * 1e6:.1f} us a point, "
        f"{(~b.carried).sum()} loads too great"
    )


if __name__ == "__main__":
    main()
