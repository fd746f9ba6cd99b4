"""The numbers by which readings are judged, typed a second time: one that is changed by a slip of the hand is seen.

They are common practice, a range that a heavy-duty shop meets; those with a published source name it in `bounds`.
"""

from turbomath.lab.checks import bounds, fuel_bounds

# Name -> (unit, usual range, possible range, typical)
JUDGED_BY = {
    "barometer": ("inHg", (-0.6, 0.6), (-1.3, 1.3), 0.0),
    "inlet rise": ("F°", (-5, 25), (-20, 60), 3),
    "compressor rise": ("F°", (10, None), (0, None), None),
    "compressor efficiency": ("-", (0.58, 0.8), (0.45, 0.88), 0.74),
    "pressure ratio": ("-", (None, 4.0), (None, 5.0), None),
    "pressure ratio at load": ("-", (None, 4.0), (1.0, 5.0), None),
    "pressure ratio, two stages": ("-", (None, 8.0), (None, 12.0), None),
    "pressure ratio at load, two stages": ("-", (None, 8.0), (1.0, 12.0), None),
    "boost at no load": ("psi", (None, 6), (None, 12), None),
    "boost of maker": ("%", (85, 115), (65, 135), 100),
    "sensor and gauge": ("psi", (-1.0, 1.0), (-2.5, 2.5), 0.0),
    "aftercooler drop": ("F°", (20, None), (0, None), None),
    "aftercooler drop, little to cool": ("F°", (None, None), (0, None), None),
    "between inlet and medium": ("F°", (None, None), (None, 0), None),
    "above medium": ("F°", (5, None), (0, None), None),
    "effectiveness air-to-air": ("-", (0.6, 0.92), (0, 1), 0.8),
    "effectiveness jacket-water": ("-", (0.5, 0.85), (0, 1), 0.75),
    "effectiveness separate-circuit": ("-", (0.5, 0.99), (0, 1), 0.8),
    "effectiveness two-part": ("-", (0.8, 0.99), (0, 1), 0.9),
    "cooler pressure loss": ("psi", (0.1, 3.0), (0.0, 6.0), 1.5),
    "two losses": ("psi", (0, 0), (None, None), None),
    "manifold over outlet": ("psi", (None, None), (None, 0), None),
    "intake restriction": ("inH2O", (None, 20), (0, 25), 12),
    "intake restriction at high load": ("inH2O", (5, 20), (0, 25), 12),
    "turbine inlet temperature at full load": ("°F", (None, None), (300, None), None),
    "volumetric efficiency": ("-", (0.8, 1.0), (0.65, 1.1), 0.92),
    "mean effective pressure": ("psi", (None, 450), (None, 650), None),
    "mean effective pressure at load": ("psi", (None, 450), (3, 650), None),
    "mean effective pressure at full load": ("psi", (60, 450), (30, 650), None),
    "piston speed": ("ft/min", (None, 2800), (None, 6000), None),
    "piston speed, small cylinders": ("ft/min", (None, 4200), (None, 6000), None),
    "power": ("%", (-2, 2), (-5, 5), 0),
    "low idle speed": ("rpm", (500, 1000), (None, None), 700),
    "low idle from maker": ("rpm", (-25, 25), (-100, 100), 0),
    "high idle from maker": ("rpm", (-50, 50), (-150, 150), 0),
    "oil pressure at idle": ("psi", (10, None), (5, None), None),
    "oil pressure": ("psi", (None, None), (5, None), None),
    "oil pressure at load": ("psi", (None, None), (25, None), None),
    "engine coolant temperature": ("°F", (160, 210), (None, 220), 185),
    "cold thermometers": ("F°", (-4, 4), (-8, 8), 0),
    "beside a warm engine": ("F°", (-4, None), (-8, None), None),
    "drift": ("F°", (-2, 2), (-5, 5), None),
    "like the other points": ("%", (70, 130), (40, 160), None),
}
BEFORE_TURBINE = {
    "diesel": ("°F", (None, 1250), (None, 1400), None),
    "natural gas": ("°F", (None, 1350), (None, 1550), None),
    "propane": ("°F", (None, 1400), (None, 1600), None),
    "gasoline": ("°F", (None, 1750), (None, 1900), None),
}
BETWEEN_BANKS = {
    "intake_restriction": ("inH2O", (-5, 5), (None, None), None),
    "compressor_inlet_temperature": ("F°", (-10, 10), (None, None), None),
    "compressor_outlet_pressure": ("psi", (-1, 1), (None, None), None),
    "compressor_outlet_temperature": ("F°", (-20, 20), (None, None), None),
    "turbine_inlet_temperature": ("F°", (-60, 60), (None, None), None),
    "turbine_outlet_temperature": ("F°", (-60, 60), (None, None), None),
    "turbine_inlet_pressure": ("psi", (-2, 2), (None, None), None),
}
BEGINS = {
    "LEAST_BOOST": ("boost", 10, "psi"),
    "NARROW_EFFICIENCY": 0.1,
    "HOT_ENOUGH_TO_COOL": ("temperature_rise", 60, "F°"),
    "CORRECTED_BAROMETER": ("barometer", 29.5, 30.5, "inHg"),
    "HIGH_SITE": ("elevation", 1500, "ft"),
    "LIKE_COOLANT": ("temperature_rise", 60, "F°"),
    "LIKE_AMBIENT": ("temperature_rise", 10, "F°"),
    "SOAKED": ("temperature_rise", 30, "F°"),
    "WARM": ("temperature_rise", 30, "F°"),
    "MOST_AGREE": 0.75,
    "HIGH_LOAD": 0.75,
    "HALF_LOAD": 0.5,
    "FULL_LOAD": 0.9,
}


def numbers(table):
    return {name: (one.unit, one.usual, one.possible, one.typical) for name, one in table.items()}


def test_readings_are_judged_by_these_ranges():
    assert numbers(bounds.BOUNDS) == JUDGED_BY
    assert numbers(bounds.BANK_BOUNDS) == BETWEEN_BANKS
    assert numbers(fuel_bounds.BEFORE_TURBINE) == BEFORE_TURBINE


def test_a_check_begins_to_judge_here():
    assert {name: getattr(bounds, name) for name in BEGINS} == BEGINS
