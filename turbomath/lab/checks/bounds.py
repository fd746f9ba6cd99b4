"""Every number that a check judges by, once, in shop units, with where it comes from.

`usual` is the range beyond which a reading deserves a second look (amber), `possible` the one beyond which it
cannot be right (red). None is an open end. Most are common practice: ranges a heavy-duty shop meets, no maker's. Those
of each fuel are in `fuel_bounds`.
"""

from turbomath.lab.checks.bound import ALIKE, COMMON_PRACTICE, OPEN, Bound, in_si

__all__ = ["BOUNDS", "COMMON_PRACTICE", "Bound", "in_si"]

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
    "pressure ratio, two stages": Bound("pressure_ratio", "-", (None, 8.0), (None, 12.0), why="two stages give"),
    "pressure ratio at load, two stages": Bound("pressure_ratio", "-", (None, 8.0), (1.0, 12.0), why="two stages give"),
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
    "effectiveness jacket-water": Bound(
        "effectiveness", "-", (0.50, 0.85), (0, 1), typical=0.75, why="an aftercooler cooled by jacket water has"
    ),
    "effectiveness separate-circuit": Bound(
        "effectiveness", "-", (0.50, 0.99), (0, 1), typical=0.80, why="an aftercooler with a circuit of its own has"
    ),
    "effectiveness two-part": Bound(
        "effectiveness", "-", (0.80, 0.99), (0, 1), typical=0.90, why="a two-part aftercooler has, to its cold circuit,"
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
    "turbine inlet temperature at full load": Bound(
        "turbine_inlet_temperature",
        "°F",
        possible=(300, None),
        impossible="at full load nothing {outside} before the turbine can be right",
    ),
    "volumetric efficiency": Bound(
        "volumetric_efficiency",
        "-",
        (0.80, 1.00),
        (0.65, 1.10),
        typical=0.92,
        why="on manifold density an engine fills to",
    ),
    "mean effective pressure": Bound(
        "mean_effective_pressure", "psi", (None, 450), (None, 650), why="turbocharged engines of all sizes reach"
    ),
    "mean effective pressure at load": Bound(
        "mean_effective_pressure", "psi", (None, 450), (3, 650), why="turbocharged engines of all sizes reach"
    ),
    "mean effective pressure at full load": Bound(
        "mean_effective_pressure", "psi", (60, 450), (30, 650), why="at full load engines of all sizes reach"
    ),
    "piston speed": Bound(
        "piston_speed", "ft/min", (None, 2800), (None, 6000), why="pistons of heavy-duty engines reach"
    ),
    "piston speed, small cylinders": Bound(
        "piston_speed", "ft/min", (None, 4200), (None, 6000), why="pistons of small cylinders reach"
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
        impossible="{outside} no engine runs on",
    ),
    "oil pressure": Bound("oil_pressure", "psi", OPEN, (5, None), impossible="{outside} no engine runs on"),
    "oil pressure at load": Bound(
        "oil_pressure", "psi", OPEN, (25, None), impossible="{outside} no engine runs on at load"
    ),
    "engine coolant temperature": Bound(
        "engine_coolant_temperature",
        "°F",
        (160, 210),
        (None, 220),
        typical=185,
        why="a warm engine at work keeps",
        impossible="{outside} no engine runs on",
    ),
    # Instruments
    "cold thermometers": Bound(
        "temperature_rise", "F°", (-4, 4), (-8, 8), typical=0, why="with the engine cold all thermometers agree within"
    ),
    "beside a warm engine": Bound(
        "temperature_rise",
        "F°",
        (-4, None),
        (-8, None),
    ),
    "drift": Bound("temperature_rise", "F°", (-2, 2), (-5, 5), why="a steady engine drifts each minute by"),
    # Between points of a run, ratio of a point to the middle one
    "like the other points": Bound(
        "load", "%", (70, 130), (40, 160), why="set against the other points at load it should be"
    ),
}

# What the left bank of a sound engine shows less than the right one
_DIFFER = "the two banks of a sound engine differ by"
BANK_BOUNDS = {
    "intake_restriction": Bound("intake_restriction", "inH2O", (-5, 5), why=_DIFFER),
    "compressor_inlet_temperature": Bound("temperature_rise", "F°", (-10, 10), why=_DIFFER),
    "compressor_outlet_pressure": Bound("boost", "psi", (-1, 1), why=_DIFFER),
    "compressor_outlet_temperature": Bound("temperature_rise", "F°", (-20, 20), why=_DIFFER),
    "turbine_inlet_temperature": Bound("temperature_rise", "F°", (-60, 60), why=_DIFFER),
    "turbine_outlet_temperature": Bound("temperature_rise", "F°", (-60, 60), why=_DIFFER),
    "turbine_inlet_pressure": Bound("boost", "psi", (-2, 2), why=_DIFFER),
}

# Where a check begins to be able to judge
LEAST_BOOST = ("boost", 10, "psi")  # 5,000 random healthy points: below it the efficiency cries wolf
NARROW_EFFICIENCY = 0.10  # a ± this small tells even below that boost
HOT_ENOUGH_TO_COOL = ("temperature_rise", 60, "F°")
CORRECTED_BAROMETER = ("barometer", 29.5, 30.5, "inHg")
HIGH_SITE = ("elevation", 1500, "ft")
LIKE_COOLANT = ("temperature_rise", 60, "F°")  # a medium so far above ambient is no air
LIKE_AMBIENT = ("temperature_rise", 10, "F°")  # points this near in ambient are one run
SOAKED = ("temperature_rise", 30, "F°")  # by so much a hot engine may heat what little air flows at idle
WARM = ("temperature_rise", 30, "F°")  # above the air outside: no cold engine
MOST_AGREE = 0.75  # of the other points, or no law holds in this sheet and no single point can be named
HIGH_LOAD, HALF_LOAD, FULL_LOAD = 0.75, 0.50, 0.90
