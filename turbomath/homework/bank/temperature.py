"""Questions on temperature: absolute scales, compression, compressor efficiency, thermocouples."""

from turbomath.homework.bank import arithmetic
from turbomath.homework.bank.common import (
    AIR_AT_CORE,
    DEGREES,
    EXPONENT,
    IDEAL_AS_REAL,
    MULTIPLIED,
    NUMBER,
    OFFSET_32,
    TEMPERATURE,
    UPSIDE_DOWN,
    asked,
    cooled,
    given,
    ideal,
    ideal_from_degrees,
    ideal_with_exponent,
    real,
    rise_multiplied,
)
from turbomath.homework.bank.question import Given, Mistake, Question, Tolerance
from turbomath.working import Step

INLET_TEMPERATURE, PRESSURE_RATIO = given("compressor_inlet_temperature"), given("pressure_ratio")
EFFICIENCY = given("compressor_efficiency")
RISE = ("F°", "C°")
_OUT = "compressor_outlet_temperature"

QUESTIONS = (
    Question(
        "absolute_temperature",
        13,
        "°F to °R, °C to K",
        1,
        "A thermometer in the charge air shows {temperature}. What is that counted from absolute zero?",
        (given("temperature", "temperature", source="shown"),),
        (),
        (asked("temperature", ("°R", "K")),),
        (
            Mistake(
                "M3",
                {"temperature": lambda s: _absolute(s, _ICE[_other(s)])},
                "You added the number of the other scale. °F + 460 gives °R, °C + 273 gives K.",
            ),
            Mistake(
                "M10",
                {"temperature": lambda s: _absolute(s, _ICE[s.system] - 32)},
                "You took 32 off on the way. A degree Rankine is as big as a degree Fahrenheit, a kelvin as a degree "
                "Celsius: add 460 or 273 and nothing else.",
            ),
            Mistake(
                "M3",
                {"temperature": lambda s: _absolute(s, -_ICE[s.system])},
                "You went below absolute zero. Add the number, do not take it off.",
            ),
        ),
        ("Absolute zero is −460 °F or −273 °C.", "°R = °F + 460; K = °C + 273."),
        {"shown": (-20, 450, "°F")},
    ),
    Question(
        "temperature_drop_on_the_other_scale",
        14,
        "a difference has no 32 in it",
        1,
        "An aftercooler drops the charge by {temperature_drop}. How much is that on the other scale?",
        (given("temperature_drop", "rise", of="temperature_rise", source="drop", symbol=r"\Delta T"),),
        (),
        (asked("temperature_drop", ("C°", "F°"), of="temperature_rise", tolerance=Tolerance(0.005)),),
        (
            Mistake(
                "M10",
                {
                    "temperature_drop": lambda s: _drop(
                        s, (s.number("temperature_drop") - 32) / 1.8, s.number("temperature_drop") * 1.8 + 32
                    )
                },
                OFFSET_32,
            ),
            Mistake(
                "M14",
                {
                    "temperature_drop": lambda s: _drop(
                        s, s.number("temperature_drop") * 1.8, s.number("temperature_drop") / 1.8
                    )
                },
                "You multiplied where it divides, or the other way round. Celsius degrees are the bigger ones, so "
                "there are fewer of them.",
            ),
        ),
        ("How many Fahrenheit degrees lie between ice and steam, and how many Celsius?", "180 F° = 100 C°."),
        {"drop": (40, 250, "F°")},
        verdict="Celsius degrees are the bigger ones, so there are fewer of them.",
    ),
    Question(
        "ideal_outlet_temperature",
        15,
        "heat of compression without losses",
        2,
        "Air enters a compressor at {compressor_inlet_temperature}. The pressure ratio is {pressure_ratio}. How hot "
        "would it leave a compressor without losses?",
        (INLET_TEMPERATURE, PRESSURE_RATIO),
        (ideal(),),
        (asked("ideal_outlet_temperature", TEMPERATURE),),
        (
            Mistake("M3", {"ideal_outlet_temperature": ideal_from_degrees()}, DEGREES),
            Mistake("M15", {"ideal_outlet_temperature": ideal_with_exponent(0.4)}, EXPONENT + " You used 0.4."),
            Mistake("M15", {"ideal_outlet_temperature": ideal_with_exponent(1 / 1.4)}, EXPONENT + " You used 1/1.4."),
        ),
        ("Start from absolute temperature.", "T × ratio^0.286, then back to the thermometer's scale."),
    ),
    Question(
        "outlet_temperature",
        16,
        "heat of compression with losses",
        2,
        "Air enters a compressor at {compressor_inlet_temperature}. The pressure ratio is {pressure_ratio}, the "
        "compressor efficiency {compressor_efficiency}. How hot does it leave?",
        (INLET_TEMPERATURE, PRESSURE_RATIO, EFFICIENCY),
        (ideal(), real()),
        (asked(_OUT, TEMPERATURE),),
        (
            Mistake("M6", {_OUT: rise_multiplied()}, MULTIPLIED),
            Mistake("M6", {_OUT: "ideal_outlet_temperature"}, IDEAL_AS_REAL),
            Mistake("M3", {"ideal_outlet_temperature": ideal_from_degrees()}, DEGREES),
        ),
        ("First the ideal outlet temperature.", "Ideal rise ÷ efficiency, added to the inlet temperature."),
    ),
    Question(
        "compressor_efficiency",
        17,
        "compressor efficiency from readings",
        2,
        "A compressor takes air at {compressor_inlet_temperature} and gives it at {compressor_outlet_temperature}, "
        "at a "
        "pressure ratio of {pressure_ratio}. What is its efficiency?",
        (INLET_TEMPERATURE, given(_OUT), PRESSURE_RATIO),
        (
            ideal(),
            Step(
                "compressor_efficiency",
                arithmetic.efficiency_from_rises,
                {
                    "inlet_temperature": "compressor_inlet_temperature",
                    "ideal_outlet_temperature": "ideal_outlet_temperature",
                    "outlet_temperature": _OUT,
                },
            ),
        ),
        (asked("compressor_efficiency", NUMBER),),
        (
            Mistake(
                "M14",
                {
                    "compressor_efficiency": lambda s: (
                        (s.compressor_outlet_temperature - s.compressor_inlet_temperature)
                        / (s.ideal_outlet_temperature - s.compressor_inlet_temperature)
                    )
                },
                UPSIDE_DOWN + " No efficiency is above 1.",
            ),
            Mistake("M3", {"ideal_outlet_temperature": ideal_from_degrees()}, DEGREES),
            Mistake(
                "M1",
                {
                    "ideal_outlet_temperature": lambda s: (
                        s.compressor_inlet_temperature * (s.pressure_ratio - 1) ** (2 / 7)
                    )
                },
                "You took a ratio of gauge pressures, which is 1 smaller. The pressure ratio counts from vacuum.",
            ),
            Mistake("M15", {"ideal_outlet_temperature": ideal_with_exponent(0.4)}, EXPONENT + " You used 0.4."),
        ),
        ("Compare two rises: the ideal one and the real one.", "(ideal − inlet) ÷ (real − inlet)."),
    ),
    Question(
        "highest_pressure_ratio",
        18,
        "outlet temperature as a limit",
        3,
        "Air enters at {compressor_inlet_temperature}; the compressor efficiency is {compressor_efficiency}. Hoses "
        "allow "
        "{compressor_outlet_temperature} at the outlet. What is the highest pressure ratio?",
        (INLET_TEMPERATURE, EFFICIENCY, given(_OUT, source="limit")),
        (
            Step(
                "pressure_ratio",
                arithmetic.highest_pressure_ratio,
                {
                    "inlet_temperature": "compressor_inlet_temperature",
                    "outlet_temperature": _OUT,
                    "isentropic_efficiency": "compressor_efficiency",
                },
            ),
        ),
        (asked("pressure_ratio", NUMBER),),
        (
            Mistake(
                "M3",
                {
                    "pressure_ratio": lambda s: (
                        (
                            1
                            + s.compressor_efficiency
                            * (
                                s.degrees(s.compressor_outlet_temperature) / s.degrees(s.compressor_inlet_temperature)
                                - 1
                            )
                        )
                        ** 3.5
                    )
                },
                DEGREES,
            ),
            Mistake(
                "M6",
                {
                    "pressure_ratio": lambda s: (
                        (
                            1
                            + (s.compressor_outlet_temperature / s.compressor_inlet_temperature - 1)
                            / s.compressor_efficiency
                        )
                        ** 3.5
                    )
                },
                "You divided by the efficiency. Going from the real rise to the ideal one, multiply.",
            ),
            Mistake(
                "M15",
                {
                    "pressure_ratio": lambda s: (
                        (
                            1
                            + s.compressor_efficiency
                            * (s.compressor_outlet_temperature / s.compressor_inlet_temperature - 1)
                        )
                        ** (2 / 7)
                    )
                },
                "You used 0.286. Going from temperature to pressure, the exponent is 1/0.286 = 3.5.",
            ),
        ),
        ("How much of the allowed rise is the ideal one?", "(1 + efficiency × rise ÷ T)^3.5."),
        {"limit": (300, 430, "°F"), "ambient_temperature": (45, 105, "°F")},
        "Near 0 °C a ratio of °C has no sensible value.",
    ),
    Question(
        "hotter_by_a_worn_compressor",
        19,
        "what a worn compressor does to the charge",
        2,
        "Air enters at {compressor_inlet_temperature}, pressure ratio {pressure_ratio}. When new, the compressor had "
        "an "
        "efficiency of {compressor_efficiency}; now it has {worn_efficiency}. How much hotter does the air leave now?",
        (
            INLET_TEMPERATURE,
            PRESSURE_RATIO,
            EFFICIENCY,
            given("worn_efficiency", "share", of="compressor_efficiency", source="worn", symbol=r"\eta_\mathrm{worn}"),
        ),
        (
            ideal(),
            real(),
            real(efficiency="worn_efficiency", result="worn_outlet_temperature", symbol=r"T_\mathrm{2,worn}"),
            Step(
                "temperature_increase",
                arithmetic.rise,
                {"inlet_temperature": _OUT, "outlet_temperature": "worn_outlet_temperature"},
                "temperature_rise",
            ),
        ),
        (asked("temperature_increase", RISE, of="temperature_rise"),),
        (
            Mistake(
                "M3",
                {
                    "temperature_increase": lambda s: _rise_of_number(
                        s,
                        s.degrees(s.compressor_outlet_temperature) * (s.compressor_efficiency / s.worn_efficiency - 1),
                    )
                },
                "You scaled the thermometer reading. Efficiency works on the rise only: work the outlet temperature "
                "out twice and subtract.",
            ),
            Mistake(
                "M6",
                {
                    "temperature_increase": lambda s: (
                        (s.ideal_outlet_temperature - s.compressor_inlet_temperature)
                        * (s.worn_efficiency - s.compressor_efficiency)
                    )
                },
                MULTIPLIED,
            ),
        ),
        ("The ideal temperature is the same before and after.", "Two outlet temperatures, then the difference."),
        {"compressor_efficiency": (0.70, 0.80, "-"), "worn": (0.52, 0.62, "-")},
        "A compressor that lost little gives a difference that rounding would hide.",
        where=lambda s: s.worn_outlet_temperature < 530.0,
        verdict="a worn compressor gives hotter air at the same pressure ratio.",
    ),
    Question(
        "two_stages",
        20,
        "two compressors with an aftercooler between (extension)",
        3,
        "Two compressors in a row, each with an efficiency of {compressor_efficiency}. The first takes air at "
        "{compressor_inlet_temperature}, ratio {first_ratio}. A cooler between them has an effectiveness of "
        "{effectiveness}, with air at {cooling_medium_temperature} at its face. The second has a ratio of "
        "{second_ratio}. How hot does the air leave the second?",
        (
            EFFICIENCY,
            INLET_TEMPERATURE,
            given("first_ratio", "ratio", of="pressure_ratio", symbol=r"\pi_\mathrm{A}"),
            given("effectiveness"),
            AIR_AT_CORE,
            given("second_ratio", "ratio", of="pressure_ratio", symbol=r"\pi_\mathrm{B}"),
        ),
        (
            ideal(ratio="first_ratio", result="first_ideal_temperature", symbol=r"T_\mathrm{A,ideal}"),
            real(ideal="first_ideal_temperature", result="first_outlet_temperature", symbol=r"T_\mathrm{A}"),
            cooled("first_outlet_temperature", result="second_inlet_temperature", symbol=r"T_\mathrm{cooled}"),
            ideal("second_inlet_temperature", "second_ratio", "second_ideal_temperature", r"T_\mathrm{B,ideal}"),
            real(
                "second_inlet_temperature",
                "second_ideal_temperature",
                result="second_outlet_temperature",
                symbol=r"T_\mathrm{B}",
            ),
        ),
        (asked("second_outlet_temperature", TEMPERATURE, of="temperature"),),
        (
            Mistake(
                "M8",
                {"second_inlet_temperature": "first_outlet_temperature"},
                "You left the cooler between the stages out. The second compressor takes cooled air.",
            ),
            Mistake(
                "M6",
                {
                    "first_outlet_temperature": rise_multiplied(ideal="first_ideal_temperature"),
                    "second_outlet_temperature": rise_multiplied(
                        "second_inlet_temperature", "second_ideal_temperature"
                    ),
                },
                MULTIPLIED,
            ),
            Mistake(
                "M3",
                {
                    "first_ideal_temperature": ideal_from_degrees(ratio="first_ratio"),
                    "second_ideal_temperature": ideal_from_degrees("second_inlet_temperature", "second_ratio"),
                },
                DEGREES,
            ),
        ),
        ("Walk with the air: compressor, cooler, compressor.", "Five steps: ideal, real, cooled, ideal, real."),
        {"first_ratio": (1.6, 2.2, "-"), "second_ratio": (1.6, 2.2, "-"), "ambient_temperature": (45, 105, "°F")},
        "Near 0 °C a ratio of °C has no sensible value.",
        verdict="the cooler between lets the second compressor begin cool; without it the air would end far hotter.",
    ),
    Question(
        "thermocouple_tolerance",
        21,
        "how sure a thermocouple is",
        2,
        "A new type K thermocouple (standard: {least} or {share} of the reading in °C, whichever is greater) shows "
        "{temperature}. How far off may it be?",
        (
            given("temperature", "temperature", source="shown"),
            Given("least", ("C°", 0.1), ("C°", 0.1), "temperature_rise", symbol=r"a_\mathrm{least}"),
            Given("share", ("%", 0.01), ("%", 0.01), "density_gain", symbol="s"),
        ),
        (
            Step(
                "tolerance",
                arithmetic.thermocouple_tolerance,
                {"temperature": "temperature", "least": "least", "share": "share"},
                symbol="a",
            ),
        ),
        (asked("tolerance", RISE, of="temperature_rise", tolerance=Tolerance(0.009)),),
        (
            Mistake(
                "M13",
                {"tolerance": "least"},
                "You stopped at the fixed part. Work out the per cent of the reading in °C and take the greater.",
            ),
            Mistake(
                "M10",
                {"tolerance": lambda s: _rise_of_number(s, s.share * (s.temperature - 273.15) * 1.8 + 32)},
                OFFSET_32,
                only="us",
            ),
            Mistake(
                "M13",
                {"tolerance": lambda s: _rise_of_number(s, s.share * (s.temperature * 1.8 - 459.67))},
                "You took the per cent of the reading in °F. The rule is for °C: convert first.",
                only="us",
            ),
            Mistake(
                "M3",
                {"tolerance": lambda s: s.share * s.temperature},
                "You took the per cent of the absolute temperature. The rule is for the reading in °C.",
            ),
        ),
        ("Which is greater, the fixed part or the per cent?", "Turn the reading into °C before taking the per cent."),
        {"shown": (620, 1000, "°F"), "least": (3.96, 3.96, "F°"), "share": (0.75, 0.75, "%")},
        "Cooler, the fixed part would always win; hotter, a per cent of °F comes too near to the right answer.",
        verdict="above 293 °C (560 °F) the per cent is the greater of the two.",
    ),
)

_ICE: dict[str, float] = {"us": 459.67, "si": 273.15}


def _other(sheet):
    return "si" if sheet.system == "us" else "us"


def _absolute(sheet, offset):
    """Return what a student means who adds this offset to the reading: that many °R or K."""
    number = sheet.degrees(sheet.temperature) + offset
    return number / 1.8 if sheet.system == "us" else number


def _drop(sheet, in_us, in_si):
    """Return a difference [K] written as a number of C° on a US sheet, of F° on an SI one."""
    return in_us if sheet.system == "us" else in_si / 1.8


def _rise_of_number(sheet, number):
    """Return a difference [K] written as a number of F° or C°."""
    return number / 1.8 if sheet.system == "us" else number
