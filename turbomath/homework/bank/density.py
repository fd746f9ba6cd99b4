"""Questions on charge density: what pressure and temperature do to it, gains and losses."""

from turbomath.homework.bank import arithmetic
from turbomath.homework.bank.common import (
    DEGREES,
    DENSITY,
    HALF_A_PER_CENT,
    MANIFOLD,
    OUTLET,
    OUTLET_BOOST,
    PER_CENT,
    PRESSURE,
    SEA_LEVEL,
    UPSIDE_DOWN,
    asked,
    boost_as_absolute,
    degrees_ratio,
    density,
    density_from_degrees,
    given,
)
from turbomath.homework.bank.question import Given, Mistake, Question, Tolerance
from turbomath.physics import charge, cooling, humidity
from turbomath.working import Step, sums
from turbomath.working.coherent import to_si

BAROMETER, BOOST = given("barometer"), given("boost")
HOT, COOL = given("compressor_outlet_temperature"), given("manifold_temperature")
_HOT, _COOL = "compressor_outlet_temperature", "manifold_temperature"
WARM = {"ambient_temperature": (50, 105, "°F")}
WARM_REASON = "Near 0 °C a ratio of °C has no sensible value."
HIGH_GROUND = {"elevation": (2500, 5500, "ft")}
HALF_POINT = Tolerance(us=0.005, si=0.005)
FORGOTTEN_BAROMETER = "That is the absolute pressure. The gauge counts from the barometer: take the barometer off."
SAME_BOOST = "You kept the boost. Equal boost is not equal air: hot air needs more pressure for the same density."

QUESTIONS = (
    Question(
        "ambient_density",
        22,
        "density of the air outside",
        1,
        "The station barometer reads {barometer}, the air at the engine is at {ambient_temperature}. What is its "
        "density?",
        (BAROMETER, given("ambient_temperature")),
        (density("ambient_density", "barometer", "ambient_temperature"),),
        (asked("ambient_density", DENSITY),),
        (
            SEA_LEVEL,
            Mistake("M3", {"ambient_density": density_from_degrees("barometer", "ambient_temperature")}, DEGREES),
            Mistake(
                "M9",
                {"barometer": lambda s: to_si(s.number("barometer"), "psi", "barometer")},
                "You put inches of mercury where psi belong. 1 inHg is 0.491 psi.",
                only="us",
            ),
        ),
        ("Absolute pressure over absolute temperature.", "US: 2.70 × psi ÷ °R. SI: kPa ÷ (0.287 × K)."),
        HIGH_GROUND | WARM,
        "Below 2,500 ft a sea-level barometer passes as rounding. " + WARM_REASON,
    ),
    Question(
        "compressor_outlet_density",
        23,
        "density before an aftercooler",
        2,
        "A gauge at the compressor outlet reads {compressor_outlet_boost}, the air there is at "
        "{compressor_outlet_temperature}; the station barometer reads {barometer}. What is the density there?",
        (OUTLET_BOOST, HOT, BAROMETER),
        (OUTLET, density("compressor_outlet_density", "compressor_outlet_pressure", _HOT)),
        (asked("compressor_outlet_density", DENSITY),),
        (
            boost_as_absolute("compressor_outlet_pressure", "compressor_outlet_boost"),
            Mistake(
                "M3", {"compressor_outlet_density": density_from_degrees("compressor_outlet_pressure", _HOT)}, DEGREES
            ),
            SEA_LEVEL,
        ),
        ("Make the pressure absolute first.", "US: 2.70 × psi abs ÷ °R. SI: kPa abs ÷ (0.287 × K)."),
        {"elevation": (4000, 5500, "ft"), "boost": (8, 28, "psi")},
        "Lower down, or at more boost, a sea-level barometer passes as rounding.",
    ),
    Question(
        "manifold_density",
        24,
        "density of the charge",
        2,
        "Manifold boost {boost}, manifold temperature {manifold_temperature}, station barometer {barometer}. The "
        "aftercooler before it loses {cooler_pressure_loss}. What is the density in the manifold?",
        (BOOST, COOL, BAROMETER, given("cooler_pressure_loss")),
        (MANIFOLD, density("manifold_density", "manifold_pressure", _COOL)),
        (asked("manifold_density", DENSITY),),
        (
            boost_as_absolute(),
            Mistake("M3", {"manifold_density": density_from_degrees("manifold_pressure", _COOL)}, DEGREES),
            Mistake(
                "M8",
                {"manifold_pressure": lambda s: s.barometer + s.boost + s.cooler_pressure_loss},
                "You added the aftercooler's pressure loss. That is the pressure before the aftercooler; the manifold "
                "gauge is behind it.",
            ),
        ),
        ("Which pressure does the manifold gauge show?", "US: 2.70 × psi abs ÷ °R. SI: kPa abs ÷ (0.287 × K)."),
        {"cooler_pressure_loss": (1.8, 4, "psi")} | WARM,
        "A small loss would pass as rounding. " + WARM_REASON,
    ),
    Question(
        "aftercooling_density_gain",
        25,
        "what an aftercooler does to density",
        3,
        "Before the aftercooler: gauge {compressor_outlet_boost}, {compressor_outlet_temperature}. Behind it: gauge "
        "{boost}, {manifold_temperature}. Station barometer {barometer}. By how many per cent does the density rise?",
        (OUTLET_BOOST, HOT, BOOST, COOL, BAROMETER),
        (
            OUTLET,
            MANIFOLD,
            Step(
                "aftercooling_density_gain",
                charge.density_gain,
                {
                    "inlet_pressure": "compressor_outlet_pressure",
                    "inlet_temperature": _HOT,
                    "outlet_pressure": "manifold_pressure",
                    "outlet_temperature": _COOL,
                },
            ),
        ),
        (asked("aftercooling_density_gain", PER_CENT, tolerance=HALF_POINT),),
        (
            Mistake(
                "M8",
                {"manifold_pressure": "compressor_outlet_pressure"},
                "You left the pressure loss out. The aftercooler cools the charge and lets some pressure go: use "
                "both gauges.",
            ),
            Mistake(
                "M3",
                {
                    "aftercooling_density_gain": lambda s: (
                        s.manifold_pressure / s.compressor_outlet_pressure * degrees_ratio(_HOT, _COOL)(s) - 1
                    )
                },
                DEGREES,
            ),
            Mistake(
                "M14",
                {
                    "aftercooling_density_gain": lambda s: (
                        s.compressor_outlet_pressure
                        / s.manifold_pressure
                        * s.manifold_temperature
                        / s.compressor_outlet_temperature
                        - 1
                    )
                },
                UPSIDE_DOWN,
            ),
            Mistake(
                "M1",
                {
                    "aftercooling_density_gain": lambda s: (
                        s.boost / s.compressor_outlet_boost * s.compressor_outlet_temperature / s.manifold_temperature
                        - 1
                    )
                },
                "You took the ratio of the gauge readings. Add the barometer to each first.",
            ),
        ),
        ("Density follows pressure over temperature, both absolute.", "(p3 ÷ p2) × (T2 ÷ T3) − 1."),
        {"cooler_pressure_loss": (1.5, 4, "psi")} | WARM,
        "A small loss would pass as rounding. " + WARM_REASON,
    ),
    Question(
        "which_manifold_holds_more",
        26,
        "boost is not air",
        2,
        "Manifold A: boost {boost_a} at {temperature_a}. Manifold B: boost {boost_b} at {temperature_b}. The same "
        "size, "
        "the same barometer, {barometer}. By how many per cent does B hold more air than A? (Less is negative.)",
        (
            given("boost_a", "boost", of="boost", symbol=r"p_\mathrm{boost,A}"),
            given("temperature_a", "temperature", of="temperature", symbol=r"T_\mathrm{A}"),
            given("boost_b", "boost", of="boost", symbol=r"p_\mathrm{boost,B}"),
            given("temperature_b", "temperature", of="temperature", symbol=r"T_\mathrm{B}"),
            BAROMETER,
        ),
        (
            Step(
                "pressure_a",
                sums.absolute_pressure,
                {"barometer": "barometer", "boost": "boost_a"},
                "pressure",
                r"p_\mathrm{A}",
            ),
            Step(
                "pressure_b",
                sums.absolute_pressure,
                {"barometer": "barometer", "boost": "boost_b"},
                "pressure",
                r"p_\mathrm{B}",
            ),
            density("density_a", "pressure_a", "temperature_a", r"\rho_\mathrm{A}"),
            density("density_b", "pressure_b", "temperature_b", r"\rho_\mathrm{B}"),
            Step("more_air_in_b", sums.gain_between, {"density_a": "density_a", "density_b": "density_b"}),
        ),
        (asked("more_air_in_b", PER_CENT, of="density_gain", tolerance=Tolerance(us=0.01, si=0.01)),),
        (
            Mistake(
                "M4",
                {"more_air_in_b": lambda s: s.boost_b / s.boost_a - 1},
                "You compared the boost gauges. Boost is not air: the hotter charge is thinner. Work both densities "
                "out.",
            ),
            Mistake(
                "M3",
                {
                    "more_air_in_b": lambda s: (
                        s.pressure_b / s.pressure_a * degrees_ratio("temperature_a", "temperature_b")(s) - 1
                    )
                },
                DEGREES,
            ),
            Mistake(
                "M1",
                {"pressure_a": "boost_a", "pressure_b": "boost_b"},
                "You put gauge readings where absolute pressures belong. Add the barometer to each.",
            ),
            Mistake("M14", {"more_air_in_b": lambda s: s.density_a / s.density_b - 1}, UPSIDE_DOWN),
        ),
        ("Which has more pressure, and which is cooler?", "Two densities, then B ÷ A − 1."),
        {"lower_by": (0.15, 0.45, "-")} | WARM,
        WARM_REASON,
        also=lambda v, system: {
            "boost_a": v["boost"],
            "temperature_a": v["compressor_outlet_temperature"],
            "boost_b": v["boost"] * (1 - v["lower_by"]),
            "temperature_b": v["manifold_temperature"],
        },
        verdict=lambda s: (
            "B holds more, with less boost: it is cooler."
            if s.more_air_in_b > 0
            else "B holds less: it is cooler, but not cool enough for its boost."
        ),
    ),
    Question(
        "uncooled_boost_for_same_density",
        27,
        "what boost would have to be without an aftercooler",
        3,
        "Behind the aftercooler the gauge reads {boost} at {manifold_temperature}; the station barometer reads "
        "{barometer}. Without it the charge would be at {compressor_outlet_temperature}. What boost would then give "
        "the "
        "same density?",
        (BOOST, COOL, BAROMETER, HOT),
        (
            MANIFOLD,
            density("manifold_density", "manifold_pressure", _COOL),
            Step(
                "pressure_needed",
                charge.pressure,
                {"density": "manifold_density", "temperature": _HOT},
                "pressure",
                r"p_\mathrm{needed}",
            ),
            Step(
                "boost_needed",
                sums.gauge_pressure,
                {"pressure": "pressure_needed", "barometer": "barometer"},
                "boost",
                r"p_\mathrm{boost,needed}",
            ),
        ),
        (asked("boost_needed", PRESSURE, of="boost"),),
        (
            Mistake("M4", {"boost_needed": "boost"}, SAME_BOOST),
            Mistake("M1", {"boost_needed": "pressure_needed"}, FORGOTTEN_BAROMETER),
            Mistake(
                "M1",
                {"boost_needed": lambda s: s.boost * s.compressor_outlet_temperature / s.manifold_temperature},
                "You scaled the gauge reading. Scale the absolute pressure, then take the barometer off.",
            ),
            Mistake("M3", {"pressure_needed": lambda s: s.manifold_pressure * degrees_ratio(_HOT, _COOL)(s)}, DEGREES),
        ),
        ("Equal density: pressure and absolute temperature rise together.", "p × T2 ÷ T3 − barometer."),
        WARM,
        WARM_REASON,
        verdict="more boost than with the aftercooler, as it must be.",
    ),
    Question(
        "cooled_boost_for_same_density",
        28,
        "why low boost may follow a good repair",
        3,
        "Before an aftercooler was fitted, boost was {boost} at {compressor_outlet_temperature}. Now the charge is at "
        "{manifold_temperature}. The station barometer reads {barometer}. What boost gives the same density as before?",
        (BOOST, HOT, COOL, BAROMETER),
        (
            MANIFOLD,
            density("density_before", "manifold_pressure", _HOT, r"\rho_\mathrm{before}"),
            Step(
                "pressure_needed",
                charge.pressure,
                {"density": "density_before", "temperature": _COOL},
                "pressure",
                r"p_\mathrm{needed}",
            ),
            Step(
                "boost_needed",
                sums.gauge_pressure,
                {"pressure": "pressure_needed", "barometer": "barometer"},
                "boost",
                r"p_\mathrm{boost,needed}",
            ),
        ),
        (asked("boost_needed", PRESSURE, of="boost"),),
        (
            Mistake(
                "M4", {"boost_needed": "boost"}, "You kept the boost. Cooler air is denser, so less pressure will do."
            ),
            Mistake("M1", {"boost_needed": "pressure_needed"}, FORGOTTEN_BAROMETER),
            Mistake(
                "M1",
                {"boost_needed": lambda s: s.boost * s.manifold_temperature / s.compressor_outlet_temperature},
                "You scaled the gauge reading. Scale the absolute pressure, then take the barometer off.",
            ),
            Mistake("M3", {"pressure_needed": lambda s: s.manifold_pressure * degrees_ratio(_COOL, _HOT)(s)}, DEGREES),
        ),
        ("Equal density: pressure and absolute temperature fall together.", "p × T3 ÷ T2 − barometer."),
        {"boost": (16, 36, "psi")} | WARM,
        "At low boost the answer would be vacuum. " + WARM_REASON,
        where=lambda s: s.boost_needed > 14_000.0,
        verdict="less boost and the same air: low boost may follow a good repair.",
    ),
    Question(
        "break_even_pressure_loss",
        29,
        "when an aftercooler is no use",
        3,
        "A gauge at the compressor outlet reads {compressor_outlet_boost}; the aftercooler cools the charge from "
        "{compressor_outlet_temperature} to {manifold_temperature}. Station barometer {barometer}. At which pressure "
        "loss would all the gain in density be gone?",
        (OUTLET_BOOST, HOT, COOL, BAROMETER),
        (
            OUTLET,
            Step(
                "break_even_pressure_loss",
                cooling.break_even_pressure_loss,
                {
                    "inlet_pressure": "compressor_outlet_pressure",
                    "inlet_temperature": _HOT,
                    "outlet_temperature": _COOL,
                },
            ),
        ),
        (asked("break_even_pressure_loss", PRESSURE, tolerance=Tolerance(0.01)),),
        (
            Mistake(
                "M3",
                {
                    "break_even_pressure_loss": lambda s: (
                        s.compressor_outlet_pressure * (1 - degrees_ratio(_COOL, _HOT)(s))
                    )
                },
                DEGREES,
            ),
            boost_as_absolute("compressor_outlet_pressure", "compressor_outlet_boost"),
            Mistake(
                "M14",
                {
                    "break_even_pressure_loss": lambda s: (
                        s.compressor_outlet_pressure * (s.compressor_outlet_temperature / s.manifold_temperature - 1)
                    )
                },
                UPSIDE_DOWN,
            ),
        ),
        ("At break-even, p over T is the same before and after.", "p2 × (1 − T3 ÷ T2)."),
        WARM,
        WARM_REASON,
    ),
    Question(
        "air_lost_in_a_hotter_manifold",
        30,
        "what a hotter manifold costs",
        2,
        "At the same boost the manifold has gone from {temperature_before} to {temperature_now}. By how many per cent "
        "has the air in it changed? (A loss is negative.)",
        (
            given("temperature_before", "temperature", of="temperature", source="cool", symbol=r"T_\mathrm{before}"),
            given("temperature_now", "temperature", of="temperature", source="hot", symbol=r"T_\mathrm{now}"),
        ),
        (
            Step(
                "change_of_air",
                arithmetic.gain_at_equal_pressure,
                {"inlet_temperature": "temperature_before", "outlet_temperature": "temperature_now"},
            ),
        ),
        (asked("change_of_air", PER_CENT, of="density_gain", tolerance=HALF_A_PER_CENT),),
        (
            Mistake(
                "M14",
                {"change_of_air": lambda s: 1 - s.temperature_now / s.temperature_before},
                UPSIDE_DOWN + " What was there before is the 100 %.",
            ),
            Mistake(
                "M14",
                {"change_of_air": lambda s: 1 - s.temperature_before / s.temperature_now},
                "The size is right, the sign is not: hotter air is thinner, so there is less of it.",
            ),
            Mistake(
                "M3",
                {"change_of_air": lambda s: degrees_ratio("temperature_before", "temperature_now")(s) - 1},
                DEGREES,
            ),
        ),
        ("Hotter air is thinner.", "T before ÷ T now − 1, both absolute."),
        {"cool": (90, 160, "°F"), "warmer_by": (55, 110, "F°")},
        "A small change would look the same with the ratio upside down; the tolerance is 0.2 points for the same "
        "reason.",
        also=lambda v, system: {"hot": v["cool"] + v["warmer_by"]},
        verdict="hotter air is thinner, so the change is a loss.",
    ),
    Question(
        "dry_air_lost_to_humidity",
        31,
        "what humidity costs",
        2,
        "{temperature}, relative humidity {relative_humidity}, station barometer {barometer}. The table gives a "
        "saturation pressure of {saturation_pressure} at that temperature. How many per cent of the air has vapour "
        "pushed out?",
        (
            given("temperature", "temperature", source="humid_temperature"),
            given("relative_humidity", "per cent"),
            BAROMETER,
            Given("saturation_pressure", ("inHg", 0.001), ("kPa", 0.01)),
        ),
        (
            Step(
                "vapour_pressure",
                arithmetic.vapour_pressure,
                {"relative_humidity": "relative_humidity", "saturation_pressure": "saturation_pressure"},
            ),
            Step(
                "dry_air_lost", arithmetic.dry_air_lost, {"vapour_pressure": "vapour_pressure", "pressure": "barometer"}
            ),
        ),
        (asked("dry_air_lost", PER_CENT, of="density_gain", tolerance=Tolerance(us=0.001, si=0.001)),),
        (
            Mistake(
                "M16",
                {"dry_air_lost": "relative_humidity"},
                "You took the relative humidity itself. It is a share of what the air could hold, not of the air.",
            ),
            Mistake(
                "M16",
                {"dry_air_lost": lambda s: 0.622 * s.vapour_pressure / (s.barometer - s.vapour_pressure)},
                "That is the mass of water for each mass of dry air. Asked is the share of the pressure.",
            ),
            Mistake(
                "M16",
                {"vapour_pressure": "saturation_pressure"},
                "You took the air as saturated. Multiply by the relative humidity first.",
            ),
        ),
        ("How much of the pressure is vapour?", "Humidity × saturation pressure ÷ barometer."),
        {"humid_temperature": (80, 105, "°F"), "relative_humidity": (40, 90, "%")},
        "In cool or dry air the loss is too small to tell the mistakes apart.",
        also=lambda v, system: {"saturation_pressure": humidity.saturation_pressure(v["humid_temperature"])},
        verdict="a few per cent at most, and only in hot, damp air.",
    ),
    Question(
        "density_in_another_unit",
        32,
        "convert densities",
        1,
        "A sheet gives the charge density as {density}. What is that in the other unit?",
        (Given("density", ("kg/m³", 0.001), ("lb/ft³", 0.0001), source="manifold_density"),),
        (),
        (asked("density", DENSITY),),
        (
            Mistake(
                "M9",
                {"density": lambda s: _written(s, s.number("density") / _factor(s))},
                "You divided where it multiplies, or the other way round. A cubic foot is a small part of a cubic "
                "metre and holds far less.",
            ),
            Mistake(
                "M9",
                {"density": lambda s: _written(s, s.number("density") * (2.2046 if s.system == "us" else 0.45359))},
                "You converted pounds and kilograms only. Convert the cubic foot and the cubic metre too.",
            ),
        ),
        ("Which is the bigger number?", "1 kg/m³ = 0.0624 lb/ft³."),
    ),
)


def _factor(sheet):
    """Return the factor from the unit on the sheet to the unit asked for."""
    return to_si(1.0, *_ON_SHEET[sheet.system]) / to_si(1.0, *_WANTED[sheet.system])


def _written(sheet, number):
    """Return a number written down in the unit asked for, in SI."""
    return to_si(number, *_WANTED[sheet.system])


_ON_SHEET = {"us": ("kg/m³", "density"), "si": ("lb/ft³", "density")}
_WANTED = {"us": ("lb/ft³", "density"), "si": ("kg/m³", "density")}
