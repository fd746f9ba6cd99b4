"""The ranges of air and fuel, for each fuel that the kit knows by name; of another one nothing is judged.

Common practice. Air-fuel ratios follow from how rich and how lean engines run on the fuel; consumptions from an
efficiency of at most a half at the heating values of `turbomath.lab.run.fuels`, and from the spread of engines in use,
also behind the gears of a tractor.
"""

from dataclasses import replace

from turbomath.lab.checks.bound import OPEN, Bound
from turbomath.lab.run import fuels
from turbomath.lab.run.bench import Engine


def _air(usual, possible, typical, why):
    return Bound("pressure_ratio", "-", usual, possible, typical=typical, why=f"{why} at full load runs at")


def _burnt(usual, possible, typical, why):
    return Bound(
        "specific_fuel_consumption", "lb/hp·h", usual, possible, typical=typical, why=f"from half load up {why} burns"
    )


AIR_FUEL_AT_FULL_LOAD = {
    "diesel": _air((20, 35), (14.5, 100), 28, "a diesel engine"),
    "natural gas": _air((15, 36), (10, 44), 28, "an engine on natural gas"),
    "propane": _air((13, 28), (7.8, 34), 16, "an engine on propane"),
    "gasoline": _air((11, 16), (7.3, 26), 13, "a gasoline engine"),
}
CONSUMPTION = {
    "diesel": _burnt((0.27, 0.50), (0.25, 0.60), 0.36, "a diesel engine"),
    "natural gas": _burnt((0.25, 0.45), (0.22, 0.70), 0.33, "an engine on natural gas"),
    "propane": _burnt((0.28, 0.50), (0.25, 0.80), 0.38, "an engine on propane"),
    "gasoline": _burnt((0.35, 0.60), (0.29, 0.95), 0.45, "a gasoline engine"),
}


def _exhaust(usual, possible, why):
    return Bound(
        "turbine_inlet_temperature",
        "°F",
        (None, usual),
        (None, possible),
        why=f"{why} at load shows",
        impossible="{outside} a turbine does not last",
    )


# A spark needs a richer mixture than a diesel has, so the exhaust is hotter and the turbine made for it
BEFORE_TURBINE = {
    "diesel": _exhaust(1250, 1400, "a heavy-duty engine"),
    "natural gas": _exhaust(1350, 1550, "an engine on natural gas"),
    "propane": _exhaust(1400, 1600, "an engine on propane"),
    "gasoline": _exhaust(1750, 1900, "a gasoline engine"),
}


def turbine_inlet_temperature(engine: Engine) -> Bound:
    """Return the range of the exhaust before the turbine; of a fuel that is not known that of a diesel engine."""
    return BEFORE_TURBINE.get(fuels.plain(engine.fuel), BEFORE_TURBINE["diesel"])


def air_fuel_ratio(engine: Engine, at_full_load: bool) -> Bound | None:
    """Return the range of air over fuel; None for a fuel that is not known.

    At part load it is only what is possible, and in a two-stroke engine, where air blows through unburnt.
    """
    bound = AIR_FUEL_AT_FULL_LOAD.get(fuels.plain(engine.fuel))
    usual = at_full_load and engine.strokes == 4
    return bound if usual or bound is None else replace(bound, usual=OPEN, typical=None)


def consumption(engine: Engine) -> Bound | None:
    """Return the range of specific fuel consumption; None for a fuel that is not known."""
    return CONSUMPTION.get(fuels.plain(engine.fuel))
