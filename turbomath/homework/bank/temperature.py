"""Questions on temperature: absolute scales, compression, compressor efficiency, thermocouples."""

from turbomath.homework.bank import arithmetic
from turbomath.homework.bank.mistakes import (
    SHARED,
    converted_the_wrong_way,
    degrees_ratio,
    ideal_from_degrees,
    ideal_with_exponent,
    mistake,
    rise_multiplied,
)
from turbomath.homework.bank.question import Given, Tolerance
from turbomath.homework.bank.readings import (
    AIR_AT_CORE,
    HOT,
    INLET_TEMPERATURE,
    NUMBER,
    RISE,
    TEMPERATURE,
    asked,
    given,
)
from turbomath.homework.bank.steps import cooled, ideal, real, step
from turbomath.homework.bank.wording import Wording
from turbomath.working.coherent import from_si, to_si

PRESSURE_RATIO, EFFICIENCY = given("pressure_ratio"), given("compressor_efficiency")
ABSOLUTE_DEGREES = ("°R", "K")
OTHER_DEGREES, OTHER_RISE = TEMPERATURE[::-1], RISE[::-1]
_ABSOLUTE_OF = {TEMPERATURE: ABSOLUTE_DEGREES, OTHER_DEGREES: ABSOLUTE_DEGREES[::-1]}
_HOT_OVER_INLET = degrees_ratio("compressor_outlet_temperature", "compressor_inlet_temperature")


def _absolute(s, degrees, sign=1):
    """Return what [K] a student means who adds the number that one scale takes to count from absolute zero."""
    zero = s.shown(s.written(0.0, degrees, "temperature"), _ABSOLUTE_OF[degrees], "temperature")
    return s.written(s.number("temperature") + sign * zero, ABSOLUTE_DEGREES, "temperature")


def _without_32(s):
    """Return what [K] a student means who takes 32 off before counting from absolute zero."""
    return _absolute(s, TEMPERATURE) - s.written(32.0, RISE, "temperature_rise")


def _drop_as_reading(s):
    """Return the drop [K] that comes of turning it into the other scale as if it were a thermometer's reading."""
    reading = s.written(s.number("temperature_drop"), TEMPERATURE, "temperature")
    return s.written(s.shown(reading, OTHER_DEGREES, "temperature"), OTHER_RISE, "temperature_rise")


def _real_rise(s):
    """Return how far the air warms, as a share of where it began."""
    return s.compressor_outlet_temperature / s.compressor_inlet_temperature - 1


def _rise_of(number):
    """Return the rise [K] that so many F° or C° are."""
    return lambda s: s.written(number(s), RISE, "temperature_rise")


def _share_as_reading(s):
    """Return the share of a reading [K], turned into °F as if it were a reading itself."""
    celsius = s.share * from_si(s.temperature, "°C", "temperature")
    return s.written(s.degrees(to_si(celsius, "°C", "temperature")), RISE, "temperature_rise")


words = Wording(__file__, "temperature.toml", SHARED)
QUESTIONS = (
    words.question(
        "absolute_temperature",
        number=13,
        difficulty=1,
        givens=(given("temperature", "temperature", source="shown"),),
        steps=(),
        asked=(asked("temperature", ABSOLUTE_DEGREES),),
        mistakes=(
            mistake("number_of_the_other_scale", "M3", temperature=lambda s: _absolute(s, OTHER_DEGREES)),
            mistake("offset_32", "M10", temperature=_without_32),
            mistake("below_absolute_zero", "M3", temperature=lambda s: _absolute(s, TEMPERATURE, sign=-1)),
        ),
        ranges={"shown": (-20, 450, "°F")},
    ),
    words.question(
        "temperature_drop_on_the_other_scale",
        number=14,
        difficulty=1,
        givens=(given("temperature_drop", "rise", of="temperature_rise", source="drop", symbol=r"\Delta T"),),
        steps=(),
        asked=(asked("temperature_drop", OTHER_RISE, of="temperature_rise", tolerance=Tolerance(0.005)),),
        mistakes=(
            mistake("offset_32", "M10", temperature_drop=_drop_as_reading),
            mistake(
                "wrong_way",
                "M14",
                temperature_drop=converted_the_wrong_way("temperature_drop", RISE, OTHER_RISE, "temperature_rise"),
            ),
        ),
        ranges={"drop": (40, 250, "F°")},
    ),
    words.question(
        "ideal_outlet_temperature",
        number=15,
        difficulty=2,
        givens=(INLET_TEMPERATURE, PRESSURE_RATIO),
        steps=(ideal(),),
        asked=(asked("ideal_outlet_temperature", TEMPERATURE),),
        mistakes=(
            mistake("degrees_in_a_ratio", "M3", ideal_outlet_temperature=ideal_from_degrees()),
            mistake("exponent_of_0_4", "M15", ideal_outlet_temperature=ideal_with_exponent(0.4)),
            mistake("exponent_of_1_over_1_4", "M15", ideal_outlet_temperature=ideal_with_exponent(1 / 1.4)),
        ),
    ),
    words.question(
        "outlet_temperature",
        number=16,
        difficulty=2,
        givens=(INLET_TEMPERATURE, PRESSURE_RATIO, EFFICIENCY),
        steps=(ideal(), real()),
        asked=(asked("compressor_outlet_temperature", TEMPERATURE),),
        mistakes=(
            mistake("multiplied_by_efficiency", "M6", compressor_outlet_temperature=rise_multiplied()),
            mistake("ideal_as_real", "M6", compressor_outlet_temperature="ideal_outlet_temperature"),
            mistake("degrees_in_a_ratio", "M3", ideal_outlet_temperature=ideal_from_degrees()),
        ),
    ),
    words.question(
        "compressor_efficiency",
        number=17,
        difficulty=2,
        givens=(INLET_TEMPERATURE, HOT, PRESSURE_RATIO),
        steps=(
            ideal(),
            step(
                "compressor_efficiency",
                arithmetic.efficiency_from_rises,
                inlet_temperature="compressor_inlet_temperature",
                outlet_temperature="compressor_outlet_temperature",
            ),
        ),
        asked=(asked("compressor_efficiency", NUMBER),),
        mistakes=(
            mistake(
                "upside_down",
                "M14",
                compressor_efficiency=lambda s: (
                    (s.compressor_outlet_temperature - s.compressor_inlet_temperature)
                    / (s.ideal_outlet_temperature - s.compressor_inlet_temperature)
                ),
            ),
            mistake("degrees_in_a_ratio", "M3", ideal_outlet_temperature=ideal_from_degrees()),
            mistake(
                "ratio_of_gauges",
                "M1",
                ideal_outlet_temperature=lambda s: s.compressor_inlet_temperature * (s.pressure_ratio - 1) ** (2 / 7),
            ),
            mistake("exponent_of_0_4", "M15", ideal_outlet_temperature=ideal_with_exponent(0.4)),
        ),
    ),
    words.question(
        "highest_pressure_ratio",
        number=18,
        difficulty=3,
        givens=(INLET_TEMPERATURE, EFFICIENCY, given("compressor_outlet_temperature", source="limit")),
        steps=(
            step(
                "pressure_ratio",
                arithmetic.highest_pressure_ratio,
                inlet_temperature="compressor_inlet_temperature",
                outlet_temperature="compressor_outlet_temperature",
                isentropic_efficiency="compressor_efficiency",
            ),
        ),
        asked=(asked("pressure_ratio", NUMBER),),
        mistakes=(
            mistake(
                "degrees_in_a_ratio",
                "M3",
                pressure_ratio=lambda s: (1 + s.compressor_efficiency * (_HOT_OVER_INLET(s) - 1)) ** 3.5,
            ),
            mistake(
                "divided_by_efficiency",
                "M6",
                pressure_ratio=lambda s: (1 + _real_rise(s) / s.compressor_efficiency) ** 3.5,
            ),
            mistake(
                "exponent_of_0_286",
                "M15",
                pressure_ratio=lambda s: (1 + s.compressor_efficiency * _real_rise(s)) ** (2 / 7),
            ),
        ),
        ranges={"limit": (300, 430, "°F"), "ambient_temperature": (45, 105, "°F")},
    ),
    words.question(
        "hotter_by_a_worn_compressor",
        number=19,
        difficulty=2,
        givens=(
            INLET_TEMPERATURE,
            PRESSURE_RATIO,
            EFFICIENCY,
            given("worn_efficiency", "share", of="compressor_efficiency", source="worn", symbol=r"\eta_\mathrm{worn}"),
        ),
        steps=(
            ideal(),
            real(),
            real(efficiency="worn_efficiency", result="worn_outlet_temperature", symbol=r"T_\mathrm{2,worn}"),
            step(
                "temperature_increase",
                arithmetic.rise,
                inlet_temperature="compressor_outlet_temperature",
                outlet_temperature="worn_outlet_temperature",
                quantity="temperature_rise",
            ),
        ),
        asked=(asked("temperature_increase", RISE, of="temperature_rise"),),
        mistakes=(
            mistake(
                "reading_scaled",
                "M3",
                temperature_increase=_rise_of(
                    lambda s: (
                        s.degrees(s.compressor_outlet_temperature) * (s.compressor_efficiency / s.worn_efficiency - 1)
                    )
                ),
            ),
            mistake(
                "multiplied_by_efficiency",
                "M6",
                temperature_increase=lambda s: (
                    (s.ideal_outlet_temperature - s.compressor_inlet_temperature)
                    * (s.worn_efficiency - s.compressor_efficiency)
                ),
            ),
        ),
        ranges={"compressor_efficiency": (0.7, 0.8, "-"), "worn": (0.52, 0.62, "-")},
        where=lambda s: s.worn_outlet_temperature < 530.0,
    ),
    words.question(
        "two_stages",
        number=20,
        difficulty=3,
        givens=(
            EFFICIENCY,
            INLET_TEMPERATURE,
            given("first_ratio", "ratio", of="pressure_ratio", symbol=r"\pi_\mathrm{A}"),
            given("effectiveness"),
            AIR_AT_CORE,
            given("second_ratio", "ratio", of="pressure_ratio", symbol=r"\pi_\mathrm{B}"),
        ),
        steps=(
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
        asked=(asked("second_outlet_temperature", TEMPERATURE, of="temperature"),),
        mistakes=(
            mistake("cooler_left_out", "M8", second_inlet_temperature="first_outlet_temperature"),
            mistake(
                "multiplied_by_efficiency",
                "M6",
                first_outlet_temperature=rise_multiplied(ideal="first_ideal_temperature"),
                second_outlet_temperature=rise_multiplied("second_inlet_temperature", "second_ideal_temperature"),
            ),
            mistake(
                "degrees_in_a_ratio",
                "M3",
                first_ideal_temperature=ideal_from_degrees(ratio="first_ratio"),
                second_ideal_temperature=ideal_from_degrees("second_inlet_temperature", "second_ratio"),
            ),
        ),
        ranges={
            "first_ratio": (1.6, 2.2, "-"),
            "second_ratio": (1.6, 2.2, "-"),
            "ambient_temperature": (45, 105, "°F"),
        },
    ),
    words.question(
        "thermocouple_tolerance",
        number=21,
        difficulty=2,
        givens=(
            given("temperature", "temperature", source="shown"),
            Given("least", ("C°", 0.1), ("C°", 0.1), "temperature_rise", symbol=r"a_\mathrm{least}"),
            Given("share", ("%", 0.01), ("%", 0.01), "density_gain", symbol="s"),
        ),
        steps=(step("tolerance", arithmetic.thermocouple_tolerance, symbol="a"),),
        asked=(asked("tolerance", RISE, of="temperature_rise", tolerance=Tolerance(0.009)),),
        mistakes=(
            mistake("fixed_part_only", "M13", tolerance="least"),
            mistake("offset_32", "M10", only="us", tolerance=_share_as_reading),
            mistake(
                "per_cent_of_fahrenheit",
                "M13",
                only="us",
                tolerance=_rise_of(lambda s: s.share * s.degrees(s.temperature)),
            ),
            mistake("per_cent_of_absolute", "M3", tolerance=lambda s: s.share * s.temperature),
        ),
        ranges={"shown": (620, 1000, "°F"), "least": (3.96, 3.96, "F°"), "share": (0.75, 0.75, "%")},
    ),
)
words.finished()
