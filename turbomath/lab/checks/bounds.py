"""Every number that a check judges by, once, in shop units, with where it comes from.

`usual` is the range beyond which a reading deserves a second look (amber), `possible` the one beyond which it
cannot be right (red). None is an open end. Most are common practice: ranges a heavy-duty shop meets, no maker's.
"""

import math
from dataclasses import dataclass, replace
from functools import cache, cached_property

import numpy as np

from turbomath import units
from turbomath.lab.run.amounts import Stated

COMMON_PRACTICE = "common practice"
OPEN = (None, None)
ALIKE = (0, 0)  # two readings of one thing: no range to tell
LEAST_SCALE = 0.1  # of the usual range


@dataclass(frozen=True)
class Bound:
    """Two ranges for one quantity, in *unit*; `typical` is a healthy value.

    `why` reads on into the usual range; `impossible` says what is wrong beyond the possible one, where "cannot be
    right" does not fit.
    """

    quantity: str
    unit: str
    usual: tuple = OPEN
    possible: tuple = OPEN
    why: str = "usual is"
    typical: float | None = None
    source: str = COMMON_PRACTICE
    impossible: str = ""

    @cached_property
    def usual_in_si(self) -> tuple[float, float]:
        """(low, high) of the usual range in SI, infinite where open."""
        return self._in_si(self.usual)

    @cached_property
    def possible_in_si(self) -> tuple[float, float]:
        """(low, high) of the possible range in SI, infinite where open."""
        return self._in_si(self.possible)

    def level(self, value: float, width: float, firm: bool = False) -> str:
        """Return "red", "amber" or "": is *value* beyond a range by more than *width*? *firm*: no width for red."""
        if _beyond(value, 0.0 if firm else width, self.possible_in_si):
            return "red"
        return "amber" if _beyond(value, width, self.usual_in_si) else ""

    def distance(self, value: float) -> float:
        """Return how far *value* is from typical; 1 is the end of the usual range, 0 where nothing is typical.

        A typical value that is stated at that end, or beyond it, counts as a tenth of the range away from it.
        """
        if self.typical is None:
            return 0.0
        typical, (low, high) = self._one_in_si(self.typical), self.usual_in_si
        end = high if value > typical else low
        scale = abs(end - typical) if np.isfinite(end) else abs(typical)
        least = LEAST_SCALE * (high - low) if np.isfinite(high - low) else 0.0
        return abs(value - typical) / max(scale, least)

    def expecting(self, stated: Stated | None) -> "Bound":
        """Return the same bound with the typical value that bench.toml states, if it does."""
        if stated is None:
            return self
        return replace(self, typical=units.from_si(stated.value, self.unit, self.quantity))

    def at_least_as_wide_as(self, band: tuple[float, float]) -> "Bound":
        """Return the same bound about the middle of a band, its usual range no narrower than that band."""
        half = units.from_si((band[1] - band[0]) / 2, self.unit, self.quantity)
        return replace(self, usual=(min(self.usual[0], -half), max(self.usual[1], half)))

    def words(self, level: str) -> str:
        """Return why a value of this level is remarkable, with the range."""
        usual = "" if self.usual == OPEN else self.why if self.usual == ALIKE else f"{self.why} {self._range()}"
        if level != "red":
            return usual
        impossible = self.impossible or f"nothing {self._outside()} can be right"
        return f"{usual}, and {impossible}" if usual else impossible

    def _range(self):
        low, high = (None if end is None else _figure(end) for end in self.usual)
        words = f"at most {high}" if low is None else f"at least {low}" if high is None else f"{low} to {high}"
        return f"{words} {self.unit}".removesuffix(" -")

    def _outside(self):
        low, high = (None if end is None else _figure(end) for end in self.possible)
        words = f"above {high}" if low is None else f"below {low}" if high is None else f"outside {low} to {high}"
        return f"{words} {self.unit}".removesuffix(" -")

    def _in_si(self, ends):
        return tuple(
            open_end if end is None else self._one_in_si(end)
            for end, open_end in zip(ends, (-math.inf, math.inf), strict=True)
        )

    def _one_in_si(self, number):
        return in_si((self.quantity, number, self.unit))


def _figure(number):
    return f"{number:,g}".replace("-", "−")


def _beyond(value, width, ends):
    return value < ends[0] - width or value > ends[1] + width


BOUNDS = {
    # The air outside
    "barometer": Bound(
        "intake_restriction",
        "inHg",
        (-0.6, 0.6),
        (-1.3, 1.3),
        typical=0.0,
        why="weather moves a station barometer from the standard atmosphere by",
        source="USSA1976; common practice",
    ),
    "inlet rise": Bound(
        "temperature_rise",
        "F°",
        (-5, 25),
        (-20, 60),
        typical=3,
        why="between the air in the room and the air at the machine an engine shows",
    ),
    # Compressor
    "compressor rise": Bound(
        "temperature_rise", "F°", (10, None), (0, None), why="squeezed air leaves hotter than it came, by"
    ),
    "compressor efficiency": Bound(
        "compressor_efficiency",
        "-",
        (0.58, 0.80),
        (0.45, 0.88),
        typical=0.74,
        why="a sound single-stage compressor has",
    ),
    "pressure ratio": Bound("pressure_ratio", "-", (None, 4.0), (None, 5.0), why="a single stage gives"),
    "pressure ratio at load": Bound("pressure_ratio", "-", (None, 4.0), (1.0, 5.0), why="a single stage gives"),
    "boost at no load": Bound("boost", "psi", (None, 6), (None, 12), why="without load the turbine gives"),
    "boost of maker": Bound("load", "%", (85, 115), (65, 135), typical=100, why="of the maker's value at rated load"),
    "sensor and gauge": Bound(
        "boost", "psi", (-1.0, 1.0), (-2.5, 2.5), typical=0.0, why="the two show one pressure and differ by"
    ),
    # Aftercooler
    "aftercooler drop": Bound("temperature_rise", "F°", (20, None), (0, None), why="at load an aftercooler takes out"),
    "aftercooler drop, little to cool": Bound(
        "temperature_rise", "F°", possible=(0, None), impossible="a medium colder than the charge does not heat it"
    ),
    "between inlet and medium": Bound(
        "temperature_rise",
        "F°",
        possible=(None, 0),
        impossible="the charge cannot leave outside the two temperatures that meet in the aftercooler",
    ),
    "above medium": Bound(
        "temperature_rise", "F°", (5, None), (0, None), why="hot charge leaves an aftercooler above its medium by"
    ),
    "effectiveness air-to-air": Bound(
        "effectiveness", "-", (0.60, 0.92), (0, 1), typical=0.80, why="an air-to-air aftercooler has"
    ),
    "effectiveness liquid": Bound(
        "effectiveness", "-", (0.50, 0.85), (0, 1), typical=0.75, why="an aftercooler cooled by liquid has"
    ),
    "cooler pressure loss": Bound(
        "cooler_pressure_loss", "psi", (0.1, 3.0), (0.0, 6.0), typical=1.5, why="at load an aftercooler loses"
    ),
    "two losses": Bound(
        "cooler_pressure_loss",
        "psi",
        ALIKE,
        why="two ways to one pressure loss differ by no more than the gauges allow",
    ),
    "manifold over outlet": Bound(
        "cooler_pressure_loss", "psi", possible=(None, 0), impossible="air flows from the higher pressure to the lower"
    ),
    # Engine
    "intake restriction": Bound(
        "intake_restriction", "inH2O", (None, 20), (0, 25), typical=12, why="a filter fit to use shows"
    ),
    "intake restriction at high load": Bound(
        "intake_restriction", "inH2O", (5, 20), (0, 25), typical=12, why="near full load a filter fit to use shows"
    ),
    "turbine inlet temperature": Bound(
        "turbine_inlet_temperature",
        "°F",
        (None, 1250),
        (None, 1400),
        why="a heavy-duty engine at load shows",
        impossible="above 1,400 °F a turbine does not last",
    ),
    "turbine inlet temperature at full load": Bound(
        "turbine_inlet_temperature",
        "°F",
        possible=(300, None),
        impossible="at full load nothing below 300 °F before the turbine can be right",
    ),
    "volumetric efficiency": Bound(
        "volumetric_efficiency",
        "-",
        (0.80, 1.00),
        (0.65, 1.10),
        typical=0.92,
        why="on manifold density an engine fills to",
    ),
    "air-fuel ratio at full load": Bound(
        "pressure_ratio", "-", (20, 35), (14.5, 100), typical=28, why="a diesel engine at full load runs at"
    ),
    "air-fuel ratio": Bound("pressure_ratio", "-", OPEN, (14.5, 100)),
    "specific fuel consumption": Bound(
        "specific_fuel_consumption",
        "lb/hp·h",
        (0.31, 0.45),
        (0.28, 0.60),
        typical=0.36,
        why="from half load up a diesel engine burns",
    ),
    "power": Bound("load", "%", (-2, 2), (-5, 5), typical=0, why="power is torque times speed, so the two differ by"),
    "low idle speed": Bound("engine_speed", "rpm", (500, 1000), OPEN, typical=700, why="a heavy-duty engine idles at"),
    "low idle from maker": Bound(
        "engine_speed", "rpm", (-25, 25), (-100, 100), typical=0, why="a governor holds it within"
    ),
    "high idle from maker": Bound(
        "engine_speed", "rpm", (-50, 50), (-150, 150), typical=0, why="a governor holds it within"
    ),
    "oil pressure at idle": Bound(
        "oil_pressure",
        "psi",
        (10, None),
        (5, None),
        why="a warm engine at low idle keeps",
        impossible="below 5 psi no engine runs on",
    ),
    "oil pressure": Bound("oil_pressure", "psi", OPEN, (5, None), impossible="below 5 psi no engine runs on"),
    "oil pressure at load": Bound(
        "oil_pressure", "psi", OPEN, (25, None), impossible="below 25 psi no engine runs on at load"
    ),
    "engine coolant temperature": Bound(
        "engine_coolant_temperature",
        "°F",
        (160, 210),
        (None, 220),
        typical=185,
        why="a warm engine at work keeps",
        impossible="above 220 °F no engine runs on",
    ),
    # Instruments
    "cold thermometers": Bound(
        "temperature_rise", "F°", (-4, 4), (-8, 8), typical=0, why="with the engine cold all thermometers agree within"
    ),
    "drift": Bound("temperature_rise", "F°", (-2, 2), (-5, 5), why="a steady engine drifts each minute by"),
    # Between points of a run, ratio of a point to the middle one
    "like the other points": Bound(
        "load", "%", (70, 130), (40, 160), why="set against the other points at load it should be"
    ),
}

# Where a check begins to be able to judge
LEAST_BOOST = ("boost", 10, "psi")  # 5,000 random healthy points: below it the efficiency cries wolf
NARROW_EFFICIENCY = 0.10  # a ± this small tells even below that boost
HOT_ENOUGH_TO_COOL = ("temperature_rise", 60, "F°")
CORRECTED_BAROMETER = ("barometer", 29.5, 30.5, "inHg")
HIGH_SITE = ("elevation", 1500, "ft")
LIKE_COOLANT = ("temperature_rise", 60, "F°")  # a medium so far above ambient is no air
LIKE_AMBIENT = ("temperature_rise", 10, "F°")  # points this near in ambient are one run
MOST_AGREE = 0.75  # of the other points, or no law holds in this sheet and no single point can be named
HIGH_LOAD, HALF_LOAD, FULL_LOAD = 0.75, 0.50, 0.90


@cache
def in_si(threshold: tuple[str, float, str]) -> float:
    """Return a threshold (quantity, number, unit) in SI."""
    quantity, number, unit = threshold
    return units.to_si(number, unit, quantity)
