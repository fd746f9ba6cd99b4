"""Questions on readings: repeats, and how sure a result is."""

import numpy as np

from turbomath.homework.bank import arithmetic
from turbomath.homework.bank.aftercooler import EFFECTIVENESS
from turbomath.homework.bank.common import AIR_AT_CORE, NUMBER, PRESSURE, a_span, asked, given
from turbomath.homework.bank.question import Given, Mistake, Question, Tolerance
from turbomath.working import Step


def _reading(name, letter):
    return Given(name, ("psi", 0.1), ("kPa", 0.5), "boost", symbol=rf"p_\mathrm{{{letter}}}")


READINGS = {"first": "first_reading", "second": "second_reading", "third": "third_reading"}

QUESTIONS = (
    Question(
        "two_gauges_for_one_difference",
        43,
        "what two gauges can tell of a difference",
        3,
        "A pressure loss is taken as the difference of two grade B gauges ({band} of span in the middle half), "
        "{first_span} "
        "and {second_span} full scale, both read in the middle half; the difference is {difference}. How sure is it, "
        "if their errors have nothing to do with each other?",
        (
            given("first_span", "boost", of="boost", symbol=r"p_\mathrm{span,A}"),
            given("second_span", "boost", of="boost", symbol=r"p_\mathrm{span,B}"),
            given("difference", "loss", of="cooler_pressure_loss", source="cooler_pressure_loss"),
            Given("band", ("%", 1), ("%", 1), "density_gain", symbol=r"s_\mathrm{band}"),
        ),
        (
            Step(
                "first_half_width",
                arithmetic.band_of_span,
                {"band": "band", "span": "first_span"},
                symbol=r"a_\mathrm{A}",
            ),
            Step(
                "second_half_width",
                arithmetic.band_of_span,
                {"band": "band", "span": "second_span"},
                symbol=r"a_\mathrm{B}",
            ),
            Step(
                "half_width",
                arithmetic.together,
                {"first": "first_half_width", "second": "second_half_width"},
                symbol="a",
            ),
        ),
        (asked("half_width", PRESSURE, of="cooler_pressure_loss", tolerance=Tolerance(0.02)),),
        (
            Mistake("M18", {"half_width": "first_half_width"}, "You counted one gauge only. Both can be off."),
            Mistake(
                "M13",
                {"half_width": lambda s: s.first_half_width + s.second_half_width},
                "You added the two. Errors that have nothing to do with each other add as squares.",
            ),
            Mistake(
                "M13",
                {"half_width": lambda s: s.band * s.difference},
                "You took the per cent of the difference. A grade is a per cent of the span of each gauge.",
            ),
        ),
        ("How far off may each gauge be?", "Root of the sum of the squares."),
        {"first": (0, 1, "-"), "second": (0, 1, "-"), "band": (2, 2, "%")},
        "Two spans far apart leave only the wide one to see.",
        also=lambda v, system: _two_spans(v, system),
        verdict=lambda s: (
            "it is nearly as wide as the difference, or wider: use one differential gauge."
            if s.half_width > s.difference / 2
            else "one differential gauge would still do better."
        ),
    ),
    Question(
        "mean_of_repeats",
        55,
        "repeats, spread, and a reading to leave out",
        1,
        "Boost was read four times: {first_reading}, {second_reading}, {third_reading} while the engine ran "
        "steadily, and "
        "{bad_reading} while it was still changing speed. What is half the range, and what is the mean, of the "
        "readings "
        "that count?",
        (
            _reading("first_reading", "A"),
            _reading("second_reading", "B"),
            _reading("third_reading", "C"),
            _reading("bad_reading", "D"),
        ),
        (
            Step("half_range", arithmetic.half_range, READINGS, symbol="a"),
            Step("mean_boost", arithmetic.mean_of_three, READINGS, symbol=r"p_\mathrm{mean}"),
        ),
        (
            asked("half_range", PRESSURE, of="cooler_pressure_loss", tolerance=Tolerance(us=345.0, si=300.0)),
            asked("mean_boost", PRESSURE, of="boost", tolerance=Tolerance(us=345.0, si=300.0)),
        ),
        (
            Mistake(
                "M18",
                {
                    "half_range": lambda s: _widest(s) / 2,
                    "mean_boost": lambda s: (s.first_reading + s.second_reading + s.third_reading + s.bad_reading) / 4,
                },
                "You kept the reading that was taken while the engine changed speed. A reading of another state does "
                "not count: leave it out and say so.",
            ),
        ),
        ("Which readings are of the same steady state?", "Mean of three; half of highest less lowest."),
        {"up": (0.2, 0.8, "psi"), "down": (0.2, 0.8, "psi"), "off": (4, 8, "psi")},
        "The reading to leave out must stand well apart, and the spread must show on the gauge.",
        also=lambda v, system: {
            "first_reading": v["boost"],
            "second_reading": v["boost"] + v["up"],
            "third_reading": v["boost"] - v["down"],
            "bad_reading": v["boost"] - v["off"],
        },
        verdict="the mean lies between the lowest and the highest of the readings that count.",
    ),
    Question(
        "uncertainty_of_effectiveness",
        56,
        "how sure an effectiveness is",
        3,
        "Effectiveness of an air-to-air aftercooler from {compressor_outlet_temperature} in, {manifold_temperature} "
        "out "
        "and {cooling_medium_temperature} at the core face. Each thermocouple may be {half_width} off, independently "
        "of "
        "the others. What is the effectiveness, and how far off may it be (root of the sum of squares)?",
        (
            given("compressor_outlet_temperature"),
            given("manifold_temperature"),
            AIR_AT_CORE,
            Given("half_width", ("F°", 0.1), ("C°", 0.1), "temperature_rise", symbol="a"),
        ),
        (
            EFFECTIVENESS,
            Step(
                "effectiveness_half_width",
                arithmetic.effectiveness_half_width,
                {
                    "effectiveness": "effectiveness",
                    "inlet_temperature": "compressor_outlet_temperature",
                    "medium_temperature": "cooling_medium_temperature",
                    "half_width": "half_width",
                },
            ),
        ),
        (
            asked("effectiveness", NUMBER),
            asked("effectiveness_half_width", NUMBER, of="effectiveness", tolerance=Tolerance(us=0.001, si=0.001)),
        ),
        (
            Mistake(
                "M18",
                {
                    "effectiveness_half_width": lambda s: (
                        s.effectiveness * s.half_width * sum(abs(1 / s.degrees(s[name])) for name in _THREE)
                    )
                },
                "You added the errors as per cent of each reading. A per cent of a thermometer reading has no "
                "meaning: "
                "see how far each error moves the effectiveness.",
            ),
            Mistake(
                "M13",
                {
                    "effectiveness_half_width": lambda s: (
                        2 * s.half_width / (s.compressor_outlet_temperature - s.cooling_medium_temperature)
                    )
                },
                "You added the three parts. Errors that have nothing to do with each other add as squares.",
            ),
        ),
        (
            "Move one thermometer by its error: how far does the result move?",
            "a × √((1 − ε)² + 1 + ε²) ÷ (T2 − air at the core).",
        ),
        {
            "half_width": (4.0, 4.0, "F°"),
            "ambient_temperature": (50, 105, "°F"),
            "effectiveness": (0.55, 0.88, "-"),
            "boost": (14, 36, "psi"),
        },
        "At low boost the drop is too small to judge an aftercooler by.",
        verdict=lambda s: "so write the effectiveness to two decimals, no more.",
    ),
)

_THREE: tuple[str, ...] = ("compressor_outlet_temperature", "manifold_temperature", "cooling_medium_temperature")


def _two_spans(values, system):
    """Return the spans of two gauges that shops have."""
    return {f"{name}_span": a_span(values[name], system) for name in ("first", "second")}


def _widest(sheet):
    four = [sheet[f"{name}_reading"] for name in ("first", "second", "third", "bad")]
    return np.max(four, axis=0) - np.min(four, axis=0)
