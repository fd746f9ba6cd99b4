"""The models of air side by side with CoolProp and with a perfect gas, in one run: how much faster, how far apart.

    python -m tests.benchmarks.air_models

A point is the whole chain: outlet temperature of the compressor, temperature after the aftercooler, and the densities
before the compressor, after it and in the manifold. The bars are ratios of times measured here, so that the state of
the machine falls out of them. Exits with 1 where a bar is missed.
"""

import subprocess
import sys
import time

import CoolProp
import numpy as np
from CoolProp.CoolProp import AbstractState, PropsSI

from tests.air import solved
from tests.benchmarks import moist_air
from tests.benchmarks.moist_air import row, timed
from turbomath import air

POINTS, MANY, REFERENCE_POINTS, CALLS, SOLVED_POINTS = 100_000, 1_000_000, 10_000, 2_000, 2_000
ONE_CALL = {
    "turbomath": "from turbomath import air; air.choose('real').outlet_temperature(98e3, 300.0, 270e3, 0.74)",
    "CoolProp": "from CoolProp.CoolProp import PropsSI; PropsSI('D', 'P', 98e3, 'T', 300.0, 'Air')",
}


def engines(count, seed=20260312):
    """Inlet pressure and temperature, outlet pressure, efficiency, effectiveness, medium, pressure loss."""
    draw = np.random.default_rng(seed)
    p1, t1 = draw.uniform(60e3, 105e3, count), draw.uniform(233, 323, count)
    return (
        p1,
        t1,
        p1 * draw.uniform(1.2, 5, count),
        draw.uniform(0.55, 0.85, count),
        draw.uniform(0.5, 0.9, count),
        t1 - 3.0,
        draw.uniform(1e3, 1e4, count),
    )


def kit_chain(model, p1, t1, p2, efficiency, effectiveness, medium, loss):
    """The chain by a model of the kit."""
    t2 = model.outlet_temperature(p1, t1, p2, efficiency)
    t3 = t2 - effectiveness * (t2 - medium)
    return t2, t3, model.density(p1, t1), model.density(p2, t2), model.density(p2 - loss, t3)


def props_chain(p1, t1, p2, efficiency, effectiveness, medium, loss):
    """The chain by PropsSI, a whole array a call."""
    entropy, h1 = PropsSI("S", "P", p1, "T", t1, "Air"), PropsSI("H", "P", p1, "T", t1, "Air")
    h2 = h1 + (PropsSI("H", "P", p2, "S", entropy, "Air") - h1) / efficiency
    t2 = PropsSI("T", "P", p2, "H", h2, "Air")
    t3 = t2 - effectiveness * (t2 - medium)
    return t2, t3, *(PropsSI("D", "P", p, "T", t, "Air") for p, t in ((p1, t1), (p2, t2), (p2 - loss, t3)))


def state_chain(fluid, *engine):
    """The chain by one of CoolProp's own states, point by point."""
    return np.array([_one(fluid, *one) for one in zip(*engine, strict=True)]).T


def _one(fluid, p1, t1, p2, efficiency, effectiveness, medium, loss):
    t2, d1 = state_outlet(fluid, p1, t1, p2, efficiency)
    d2 = fluid.rhomass()
    t3 = t2 - effectiveness * (t2 - medium)
    fluid.update(CoolProp.PT_INPUTS, p2 - loss, t3)
    return t2, t3, d1, d2, fluid.rhomass()


def state_outlet(fluid, p1, t1, p2, efficiency):
    """Outlet temperature and inlet density by one of CoolProp's own states, which is left at the outlet."""
    fluid.update(CoolProp.PT_INPUTS, p1, t1)
    d1, h1 = fluid.rhomass(), fluid.hmass()
    fluid.update(CoolProp.PSmass_INPUTS, p2, fluid.smass())
    fluid.update(CoolProp.HmassP_INPUTS, h1 + (fluid.hmass() - h1) / efficiency, p2)
    return fluid.T(), d1


def bar(name, value, limit, form, at_least=True):
    """Print one bar and return whether it holds."""
    return row(name, value, limit, value >= limit if at_least else value <= limit, form)


def chains():
    """The whole chain for arrays, beside every way CoolProp has."""
    engine = engines(POINTS)
    few = [one[:REFERENCE_POINTS] for one in engine]
    found, here = timed(lambda: kit_chain(air.choose("real"), *engine), rounds=5)
    here /= POINTS
    exact, tables = AbstractState("HEOS", "Air"), AbstractState("BICUBIC&HEOS", "Air")  # made before the clock runs
    others = {
        "vectorised PropsSI": lambda: props_chain(*few),
        "AbstractState HEOS": lambda: state_chain(exact, *few),
        "AbstractState BICUBIC": lambda: state_chain(tables, *few),
    }
    times, answers = {}, {}
    for name, work in others.items():
        answers[name], took = timed(work, rounds=1)
        times[name] = took / REFERENCE_POINTS
        print(f"  {name}: {1e6 * times[name]:.1f} us a point, {times[name] / here:.0f} x; real {1e6 * here:.2f} us")
    good = [
        bar("real, whole chain: times faster than vectorised PropsSI", times["vectorised PropsSI"] / here, 600, ".0f")
    ]
    props = answers["vectorised PropsSI"]
    apart = max(np.max(np.abs(found[i][:REFERENCE_POINTS] / props[i] - 1)) for i in (0, 3, 4))
    good.append(bar("real, T2 and densities against PropsSI, relative", apart, 5e-9, ".1e", at_least=False))
    return [*good, *against_the_solved_equation(found, engine)]


def against_the_solved_equation(found, engine):
    """T2 and the density there against the equation solved to rounding."""
    few = zip(*(one[:SOLVED_POINTS] for one in engine[:4]), strict=True)
    exact = np.array([solved.outlet_temperature(*one) for one in few])
    density = np.array([solved.at(*one)[0] for one in zip(engine[2][:SOLVED_POINTS], exact, strict=True)])
    apart = [np.max(np.abs(mine[:SOLVED_POINTS] / sure - 1)) for mine, sure in ((found[0], exact), (found[3], density))]
    name = "real, {} against the equation solved to rounding, relative"
    return [
        bar(name.format(what), one, 1e-9, ".1e", at_least=False)
        for what, one in zip(("T2", "density"), apart, strict=True)
    ]


def scalars():
    """One outlet temperature with its checks, beside scalar PropsSI and AbstractState."""
    model, fluid = air.choose("real"), AbstractState("HEOS", "Air")
    one = (98e3, 300.0, 270e3, 0.74)

    def props(p1, t1, p2, efficiency):
        h1, entropy = PropsSI("H", "P", p1, "T", t1, "Air"), PropsSI("S", "P", p1, "T", t1, "Air")
        h2 = h1 + (PropsSI("H", "P", p2, "S", entropy, "Air") - h1) / efficiency
        return PropsSI("T", "P", p2, "H", h2, "Air")

    works = (model.outlet_temperature, props, lambda *given: state_outlet(fluid, *given))
    here, theirs, states = (timed(lambda work=work: [work(*one) for _ in range(CALLS)])[1] for work in works)
    print(f"  one call: {1e6 * here / CALLS:.1f} us")
    return [
        bar("real, one outlet temperature: times faster than scalar PropsSI", theirs / here, 25, ".0f"),
        bar("real, one outlet temperature: times faster than AbstractState", states / here, 5, ".0f"),
    ]


def beside_perfect():
    """A million points of the chain beside the perfect gas."""
    engine = engines(MANY)
    real, perfect = (timed(lambda name=name: kit_chain(air.choose(name), *engine))[1] for name in ("real", "perfect"))
    return [bar("real, whole chain: times the time of the perfect gas", real / perfect, 12, ".1f", at_least=False)]


def first_answer():
    """A fresh Python to its first answer, beside one PropsSI call; what Python itself takes is left out of both."""

    def seconds(code):
        took = []
        for _ in range(5):
            start = time.perf_counter()
            subprocess.run([sys.executable, "-c", code], check=True)
            took.append(time.perf_counter() - start)
        return min(took)

    empty = seconds("import numpy")
    kit, coolprop = (seconds(code) - seconds("pass") for code in ONE_CALL.values())
    print(
        f"  first answer: kit {1e3 * kit:.0f} ms, of which numpy {1e3 * (empty - seconds('pass')):.0f} ms; "
        f"PropsSI {1e3 * coolprop:.0f} ms"
    )
    return [bar("real, first answer of a fresh Python: times sooner than PropsSI", coolprop / kit, 10, ".1f")]


def main():
    good = [*chains(), *scalars(), *beside_perfect(), *first_answer()]
    return int(not all([*good, moist_air.main()]))


if __name__ == "__main__":
    sys.exit(main())
