"""Faults of the engine: what each does to an engine of the balance, up to as much as an engine still runs with.

The sizes called moderate are what a simulated study could name nine times in ten; they are no limits of a maker.
"""

from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Any

import numpy as np
from numpy.typing import NDArray

from turbomath.engine.turbocharged_engine import TurbochargedEngine
from turbomath.table.kinds_of_value import Values

Engine = TurbochargedEngine
STEPS = np.array([0.08, 0.2, 0.4, 0.7, 1.0])  # from the least to the most; the effect is taken straight between two
LEAST = 0.35  # of a moderate size: less is no fault


@dataclass(frozen=True)
class EngineFault:
    """One fault; `made` gives the engine that has it, of sizes from 0 to `most`. `part` is what it must have."""

    name: str
    moderate: float
    most: float
    made: Callable[[Engine, Values], Engine]
    part: str = ""

    def fits(self, engine: Engine) -> bool:
        """Return whether the engine has the part that this fault is of."""
        has = {"": True, "cooler": engine.aftercooler.arrangement != "none", "gate": float(engine.wastegate.area) > 0}
        return has[self.part]

    @property
    def sizes(self) -> NDArray[np.float64]:
        """The sizes that are tried: from the least that is a fault to the most."""
        least = LEAST * self.moderate
        return np.concatenate([[least], least + STEPS * (self.most - least)])


def _changed(engine: Engine, **numbers: Any) -> Engine:
    """Return the engine with other numbers, which may be arrays."""
    return replace(engine, **numbers)


def _of_engine(name: str) -> Callable[[Engine, Values], Engine]:
    return lambda engine, factor: _changed(engine, **{name: getattr(engine, name) * factor})


def _of_cooler(name: str) -> Callable[[Engine, Values], Engine]:
    def made(engine: Engine, factor: Values) -> Engine:
        changed: dict[str, Any] = {name: getattr(engine.aftercooler, name) * factor}
        return replace(engine, aftercooler=replace(engine.aftercooler, **changed))

    return made


def _hole(name: str) -> Callable[[Engine, Values], Engine]:
    return lambda engine, share: _changed(engine, **{name: share * engine.turbine_area})


def _more(change: Callable[[Engine, Values], Engine]) -> Callable[[Engine, Values], Engine]:
    return lambda engine, size: change(engine, 1 + size)


def _less(change: Callable[[Engine, Values], Engine]) -> Callable[[Engine, Values], Engine]:
    return lambda engine, size: change(engine, 1 - size)


def _gate_open(engine: Engine, size: Values) -> Engine:
    return replace(engine, wastegate=replace(engine.wastegate, least_opening=size))


def _gate_closed(engine: Engine, size: Values) -> Engine:
    less: dict[str, Any] = {"area": engine.wastegate.area * (1 - size)}
    return _changed(engine, wastegate=replace(engine.wastegate, **less))


def _late(engine: Engine, size: Values) -> Engine:
    return _changed(engine, timing_retard=engine.timing_retard + size)


def _hot_intake(engine: Engine, size: Values) -> Engine:
    return _changed(engine, intake_warming=engine.intake_warming + size)


# Name, moderate size, most, what it changes. Shares, but for the last two: crank degrees and kelvin. Holes are shares
# of the turbine's area.
ENGINE_FAULTS = (
    EngineFault("charge_leak_before", 0.055, 0.35, _hole("leak_area_before_aftercooler"), "cooler"),
    EngineFault("charge_leak_after", 0.036, 0.25, _hole("leak_area_after_aftercooler")),
    EngineFault("exhaust_leak", 0.06, 0.35, _hole("exhaust_leak_area")),
    EngineFault("cooler_fouled", 0.22, 0.75, _less(_of_cooler("conductance")), "cooler"),
    EngineFault("cooler_restricted", 0.40, 4.0, _more(_of_cooler("pressure_loss_coefficient")), "cooler"),
    EngineFault("filter_plugged", 0.50, 4.0, _more(_of_engine("intake_coefficient"))),
    EngineFault("compressor_fouled", 0.05, 0.25, _less(_of_engine("best_compressor_efficiency"))),
    EngineFault("turbine_worn", 0.07, 0.35, _less(_of_engine("turbine_efficiency"))),
    EngineFault("turbine_open", 0.10, 0.50, _more(_of_engine("turbine_area"))),
    EngineFault("turbine_closed", 0.045, 0.25, _less(_of_engine("turbine_area"))),
    EngineFault("wastegate_open", 0.50, 2.5, _gate_open, "gate"),
    EngineFault("wastegate_closed", 0.25, 1.0, _gate_closed, "gate"),
    EngineFault("exhaust_restricted", 0.50, 5.0, _more(_of_engine("exhaust_coefficient"))),
    EngineFault("late_timing", 4.0, 14.0, _late),
    EngineFault("hot_intake", 6.0, 30.0, _hot_intake),
)
FUEL_FAULTS = {"overfuelled": (0.02, 0.25), "underfuelled": (-0.02, -0.35)}  # share at one setting: least, and most


def faults_of(engine: Engine) -> tuple[EngineFault, ...]:
    """Return the faults that this engine can have."""
    return tuple(one for one in ENGINE_FAULTS if one.fits(engine))


def engines_with(engine: Engine, faults: tuple[EngineFault, ...]) -> Engine:
    """Return all faulty engines in one, one for each fault and each of its sizes: numbers of shape (engines, 1)."""
    found = engine
    for place, fault in enumerate(faults):
        size = np.zeros((len(faults), len(fault.sizes)))
        size[place] = fault.sizes
        found = fault.made(found, size.reshape(-1, 1))
    return found
