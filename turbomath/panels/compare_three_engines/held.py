"""Three aftercoolers on the engine balance: what is held equal, and what the engines then do."""

from collections.abc import Callable
from dataclasses import replace
from typing import Any

import numpy as np
from numpy.typing import NDArray

from turbomath.engine import balance
from turbomath.engine.ready_engines import AIR_TO_AIR, JACKET_WATER, READY
from turbomath.engine.turbocharged_engine import Aftercooler, TurbochargedEngine
from turbomath.physics import atmosphere
from turbomath.table.errors import OutOfRangeError
from turbomath.table.kinds_of_value import Values
from turbomath.units.rounding import fixed

NONE, WATER, AIR = NAMES = "none", "jacket-water", "air-to-air"
FUEL, AIR_FLOW, BOOST, REMATCHED, OWN = "fuel", "air", "boost", "fuel and boost", "nothing"
COOLERS = {NONE: Aftercooler(), WATER: JACKET_WATER.aftercooler, AIR: AIR_TO_AIR.aftercooler}
SAME = {name: replace(AIR_TO_AIR, aftercooler=cooler) for name, cooler in COOLERS.items()}  # one turbine for all
LEAST_FUEL = 0.05  # of the most, where a search for a fuel begins
AREAS = 0.5, 2.5  # of the turbine's own, between which a turbine is looked for
SAMPLES, ROUNDS = 17, 3


def three(
    held: str, load: float, elevation: float, temperature: float
) -> dict[str, tuple[TurbochargedEngine, balance.Balance | None]]:
    """What the three engines do with one thing held equal.

    Parameters
    ----------
    held : str
        FUEL, AIR_FLOW, BOOST: with one turbine for all. REMATCHED: fuel and boost, with a turbine found for each. OWN:
        nothing but the share of the rated power, each with its own turbine.
    load, elevation, temperature : float [-], [m], [K]
        Share of rated power, that of the air-to-air engine unless each has its own; height; air at the engine.

    Returns
    -------
    dict of name to (TurbochargedEngine, Balance)
        The balance is None where the engine cannot do what was asked.

    Raises
    ------
    OutOfRangeError
        If the air-to-air engine, which the others are to equal, cannot carry the load.
    """
    site = site_of(elevation, temperature)
    if held == OWN:
        return {name: (READY[name], carried(READY[name], site, load)) for name in NAMES}
    guide = carried(AIR_TO_AIR, site, load)
    if guide is None:
        raise OutOfRangeError(
            f"the air-to-air engine cannot carry {fixed(100 * load, 0)} % of its rated power here. Set less load."
        )
    others = {name: _equal(held, SAME[name], site, guide) for name in (NONE, WATER)}
    return others | {AIR: (AIR_TO_AIR, guide)}


def site_of(elevation: Values, temperature: float) -> dict[str, Any]:
    """Return the site as `balance.solve` takes it, on a day of standard pressure, at rated speed."""
    return dict(
        ambient_pressure=atmosphere.pressure(elevation),
        ambient_temperature=temperature,
        engine_speed=AIR_TO_AIR.rated_speed,
    )


def carried(engine: TurbochargedEngine, site: dict[str, Any], load: float) -> balance.Balance | None:
    """Return the balance at a share of an engine's own rated power, or None where it cannot carry that."""
    found = balance.solve(engine, **site, power=load * engine.rated_power)
    if not found.converged:
        raise OutOfRangeError("no balance was found there. Set load, temperature and height nearer to where they were.")
    return found if found.carried else None


def _equal(held, engine, site, guide):
    """Return an engine and its balance where it equals the guide in what is held."""
    if held == REMATCHED:
        return _rematched(engine, site, guide)
    if held == FUEL:
        return engine, balance.solve(engine, **site, fuel_flow=guide.fuel_flow)
    name = {AIR_FLOW: "mass_flow", BOOST: "boost"}[held]
    most = engine.greatest_fuel_flow
    fuel = place(
        lambda fuels: getattr(balance.solve(engine, **site, fuel_flow=fuels), name),
        getattr(guide, name),
        LEAST_FUEL * most,
        most,
    )
    return engine, None if fuel is None else balance.solve(engine, **site, fuel_flow=fuel)


def _rematched(engine, site, guide):
    """Return the engine with the turbine that gives the guide's boost at the guide's fuel, and its balance."""

    def boost(areas):
        return balance.solve(replace(engine, turbine_area=areas), **site, fuel_flow=guide.fuel_flow).boost

    area = place(boost, guide.boost, *(share * engine.turbine_area for share in AREAS))
    if area is None:
        return engine, None
    engine = replace(engine, turbine_area=area)
    return engine, balance.solve(engine, **site, fuel_flow=guide.fuel_flow)


def place(values_at: Callable[[NDArray], NDArray], target: float, low: float, high: float) -> float | None:
    """Return where between *low* and *high* a steadily changing quantity has a value, or None if nowhere.

    `values_at` takes an array of places and returns the quantity at each.
    """
    for _ in range(ROUNDS):
        places = np.linspace(low, high, SAMPLES)
        off = values_at(places) - target
        before = np.flatnonzero(off[:-1] * off[1:] <= 0)
        if before.size == 0:
            return None
        low, high = (float(places[before[0] + step]) for step in (0, 1))
        first, last = (float(off[before[0] + step]) for step in (0, 1))
    return low + (high - low) * first / (first - last) if first != last else low
