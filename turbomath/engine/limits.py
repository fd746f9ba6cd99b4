"""What a balance goes past: the limits of the machines, and the range that the model of the engine was fitted to.

The equations hold anywhere; an engine does not. What is past a limit is told with how far, and nothing is changed by
it. In words, in a reader's units: `turbomath.paper.limits_told`.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from turbomath.engine import wheels
from turbomath.engine.turbocharged_engine import TurbochargedEngine
from turbomath.physics.fuel import SMOKE_LIMIT_AIR_FUEL_RATIO
from turbomath.table.kinds_of_value import Values

SURGE, CHOKE, OVERSPEED, HOT, SMOKE = "surge", "choke", "overspeed", "hot", "smoke"
DRIVES = ("fuel_flow", "power")

# What a ready engine, fitted at one point, was tried for: 3000 m to sea level, -20 to 45 °C, rated speed, and loads
TRIED = {"ambient_pressure": (69e3, 104e3), "ambient_temperature": (253.15, 318.15)}  # Pa, K
TRIED_SPEED, TRIED_LOAD = (0.95, 1.05), (0.08, 1.10)  # of the rated
NEAR = {  # as near to a point that an engine was fitted to, it is still that point; shares, of a temperature kelvins
    "engine_speed": 0.05,
    "fuel_flow": 0.05,
    "power": 0.05,
    "ambient_pressure": 0.03,
    "ambient_temperature": 10.0,
}


@dataclass(frozen=True)
class Limits:
    """Limits of a turbocharger and its engine: usual ones, common practice; the maker's go before them."""

    greatest_tip_speed: float = 530.0  # m/s of a wheel of forged aluminium
    greatest_turbine_inlet_temperature: float = 1022.0  # K, 1380 °F
    least_air_fuel_ratio: float = SMOKE_LIMIT_AIR_FUEL_RATIO


@dataclass(frozen=True)
class Past:
    """Something past its range, at the point where it is furthest: the value, and the range from low to high, SI.

    `name` is that of the limit; `quantity` is what is past it. A range may be open at one end.
    """

    name: str
    quantity: str
    value: float
    low: float
    high: float

    @property
    def below(self) -> bool:
        """Whether the value is below the range, and not above."""
        return self.value < self.low

    @property
    def nearest(self) -> float:
        """The end of the range that was passed."""
        return self.low if self.below else self.high

    @property
    def share(self) -> float:
        """How far past it is, as a share of the end of the range that was passed."""
        return abs(self.value / self.nearest - 1)


def passed(engine: TurbochargedEngine, found: Any, limits: Limits | None = None) -> tuple[Past, ...]:
    """Return the limits that a balance passes, each where it is passed furthest.

    Parameters
    ----------
    engine : TurbochargedEngine
        The engine that was solved.
    found : Balance
        At one point or many; or what has its fields.
    limits : Limits, optional
        Those of the maker; usual ones if not given.
    """
    limits = limits or Limits()
    surge, choke = wheels.flow_limits(engine, found.pressure_ratio)
    ranges = (
        (SURGE, "corrected_mass_flow", surge, np.inf),
        (CHOKE, "corrected_mass_flow", 0.0, choke),
        (OVERSPEED, "tip_speed", 0.0, limits.greatest_tip_speed),
        (HOT, "turbine_inlet_temperature", 0.0, limits.greatest_turbine_inlet_temperature),
        (SMOKE, "air_fuel_ratio", limits.least_air_fuel_ratio, np.inf),
    )
    return _past((name, quantity, getattr(found, quantity), low, high) for name, quantity, low, high in ranges)


def tried(engine: TurbochargedEngine, drive: str) -> dict[str, tuple[float, float]]:
    """Return what an engine that was fitted at its rated point was tried for; *drive* is "fuel_flow" or "power"."""
    rated = {"fuel_flow": engine.rated_fuel_flow, "power": engine.rated_power}[drive]
    return tried_from(float(engine.rated_speed), drive, float(rated))


def tried_from(engine_speed: float, drive: str, rated: float) -> dict[str, tuple[float, float]]:
    """Return the same of any engine fitted at one point: its speed [rev/s], and its fuel [kg/s] or power [W] there."""
    slow, fast = (share * engine_speed for share in TRIED_SPEED)
    low, high = (share * rated for share in TRIED_LOAD)
    return {"engine_speed": (slow, fast), drive: (low, high), **TRIED}


def around(points: Mapping[str, Values]) -> dict[str, tuple[float, float]]:
    """Return the range of the points that an engine was fitted to, by the names of what was given at each."""
    return {name: _around(name, np.asarray(points[name], dtype=float)) for name in NEAR if name in points}


def outside(reach: Mapping[str, tuple[float, float]], point: Any) -> tuple[Past, ...]:
    """Return what of a point is outside the range that a model was fitted to or tried for, the load last.

    Parameters
    ----------
    reach : mapping of str to (low, high)
        From `tried` or `around`; only what the point has is looked at.
    point : Point or Balance
        At one point or many.
    """
    there = {name: getattr(point, name, None) for name in reach}
    given = ((name, name, there[name], low, high) for name, (low, high) in reach.items() if there[name] is not None)
    return tuple(sorted(_past(given), key=lambda one: one.quantity in DRIVES))


def _around(name: str, values: NDArray[np.float64]) -> tuple[float, float]:
    low, high, near = float(np.nanmin(values)), float(np.nanmax(values)), NEAR[name]
    return (low - near, high + near) if "temperature" in name else (low * (1 - near), high * (1 + near))


def _past(ranges):
    found = []
    for name, quantity, value, low, high in ranges:
        value, low, high = (np.ravel(one) for one in np.broadcast_arrays(np.asarray(value, dtype=float), low, high))
        out = (value < low) | (value > high)
        end = np.where(value < low, low, high)
        by = np.where(out, np.abs(value - np.where(out, end, 0.0)) / np.where(out, end, 1.0), 0.0)
        if by.size and np.any(by > 0):
            worst = int(np.argmax(by))
            found.append(Past(name, quantity, float(value[worst]), float(low[worst]), float(high[worst])))
    return tuple(found)
