"""Questions on compression: how hot the air leaves, compressor efficiency, two stages."""

from turbomath.homework.bank import arithmetic
from turbomath.homework.bank.mistakes import (
    SHARED,
    degrees_ratio,
    ideal_from_degrees,
    ideal_with_exponent,
    mistake,
    rise_multiplied,
)
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

PRESSURE_RATIO, EFFICIENCY = given("pressure_ratio"), given("compressor_efficiency")
_HOT_OVER_INLET = degrees_ratio("compressor_outlet_temperature", "compressor_inlet_temperature")


def _real_rise(s):
    """Return how far the air warms, as a share of where it began."""
    return s.compressor_outlet_temperature / s.compressor_inlet_temperature - 1


def _reading_scaled(s):
    """Return the rise [K] that comes of scaling the thermometer's reading by the two efficiencies."""
    scaled = s.degrees(s.compressor_outlet_temperature) * (s.compressor_efficiency / s.worn_efficiency - 1)
    return s.written(scaled, RISE, "temperature_rise")


words = Wording(__file__, "compression.toml", SHARED)
QUESTIONS = (
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
            mistake("reading_scaled", "M3", temperature_increase=_reading_scaled),
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
)
words.finished()
