"""Questions on readings: repeats, and how sure a result is."""

import numpy as np

from turbomath.homework.bank import instruments
from turbomath.homework.bank.mistakes import SHARED, mistake
from turbomath.homework.bank.question import Given, Tolerance
from turbomath.homework.bank.readings import AIR_AT_CORE, COOL, HOT, NUMBER, PRESSURE, a_span, asked, given
from turbomath.homework.bank.steps import EFFECTIVENESS, step
from turbomath.homework.bank.wording import Either, Wording

STEADY = {"first": "first_reading", "second": "second_reading", "third": "third_reading"}
HALF_A_STEP = Tolerance(us=345.0, si=300.0)  # Pa: 0.05 psi or 0.3 kPa
THREE = ("compressor_outlet_temperature", "manifold_temperature", "cooling_medium_temperature")


def _reading(name, letter):
    return Given(name, ("psi", 0.1), ("kPa", 0.5), "boost", symbol=rf"p_\mathrm{{{letter}}}")


def _two_spans(drawn, system):
    """Return the spans of two gauges that shops have."""
    return {f"{name}_span": a_span(drawn[name], system) for name in ("first", "second")}


def _four_readings(drawn, system):
    """Return three readings of a steady engine, and one taken while it changed speed."""
    boost = drawn["boost"]
    steady = {"first_reading": boost, "second_reading": boost + drawn["up"], "third_reading": boost - drawn["down"]}
    return steady | {"bad_reading": boost - drawn["off"]}


def _all_four(s):
    return [s.first_reading, s.second_reading, s.third_reading, s.bad_reading]


def _sum_of_shares(s):
    return s.effectiveness * s.half_width * sum(abs(1 / s.degrees(s[name])) for name in THREE)


words = Wording(__file__, "data_sense.toml", SHARED)
QUESTIONS = (
    words.question(
        "two_gauges_for_one_difference",
        number=43,
        difficulty=3,
        givens=(
            given("first_span", "boost", of="boost", symbol=r"p_\mathrm{span,A}"),
            given("second_span", "boost", of="boost", symbol=r"p_\mathrm{span,B}"),
            given("difference", "loss", of="cooler_pressure_loss", source="cooler_pressure_loss"),
            Given("band", ("%", 1), ("%", 1), "density_gain", symbol=r"s_\mathrm{band}"),
        ),
        steps=(
            step("first_half_width", instruments.band_of_span, span="first_span", symbol=r"a_\mathrm{A}"),
            step("second_half_width", instruments.band_of_span, span="second_span", symbol=r"a_\mathrm{B}"),
            step("half_width", instruments.together, first="first_half_width", second="second_half_width", symbol="a"),
        ),
        asked=(asked("half_width", PRESSURE, of="cooler_pressure_loss", tolerance=Tolerance(0.02)),),
        mistakes=(
            mistake("one_gauge_only", "M18", half_width="first_half_width"),
            mistake("errors_added", "M13", half_width=lambda s: s.first_half_width + s.second_half_width),
            mistake("per_cent_of_difference", "M13", half_width=lambda s: s.band * s.difference),
        ),
        ranges={"first": (0, 1, "-"), "second": (0, 1, "-"), "band": (2, 2, "%")},
        also=_two_spans,
        verdict=Either(lambda s: s.half_width > s.difference / 2, "too_wide", "better_with_one"),
    ),
    words.question(
        "mean_of_repeats",
        number=55,
        difficulty=1,
        givens=(
            _reading("first_reading", "A"),
            _reading("second_reading", "B"),
            _reading("third_reading", "C"),
            _reading("bad_reading", "D"),
        ),
        steps=(
            step("half_range", instruments.half_range, **STEADY, symbol="a"),
            step("mean_boost", instruments.mean_of_three, **STEADY, symbol=r"p_\mathrm{mean}"),
        ),
        asked=(
            asked("half_range", PRESSURE, of="cooler_pressure_loss", tolerance=HALF_A_STEP),
            asked("mean_boost", PRESSURE, of="boost", tolerance=HALF_A_STEP),
        ),
        mistakes=(
            mistake(
                "unsteady_reading_kept",
                "M18",
                half_range=lambda s: np.ptp(_all_four(s), axis=0) / 2,
                mean_boost=lambda s: np.mean(_all_four(s), axis=0),
            ),
        ),
        ranges={"up": (0.2, 0.8, "psi"), "down": (0.2, 0.8, "psi"), "off": (4, 8, "psi")},
        also=_four_readings,
    ),
    words.question(
        "uncertainty_of_effectiveness",
        number=56,
        difficulty=3,
        givens=(
            HOT,
            COOL,
            AIR_AT_CORE,
            Given("half_width", ("F°", 0.1), ("C°", 0.1), "temperature_rise", symbol="a"),
        ),
        steps=(
            EFFECTIVENESS,
            step(
                "effectiveness_half_width",
                instruments.effectiveness_half_width,
                inlet_temperature="compressor_outlet_temperature",
                medium_temperature="cooling_medium_temperature",
            ),
        ),
        asked=(
            asked("effectiveness", NUMBER),
            asked("effectiveness_half_width", NUMBER, of="effectiveness", tolerance=Tolerance(us=0.001, si=0.001)),
        ),
        mistakes=(
            mistake(
                "per_cent_of_reading",
                "M18",
                effectiveness_half_width=_sum_of_shares,
            ),
            mistake(
                "errors_added",
                "M13",
                effectiveness_half_width=lambda s: (
                    2 * s.half_width / (s.compressor_outlet_temperature - s.cooling_medium_temperature)
                ),
            ),
        ),
        ranges={
            "half_width": (4.0, 4.0, "F°"),
            "ambient_temperature": (50, 105, "°F"),
            "effectiveness": (0.55, 0.88, "-"),
            "boost": (14, 36, "psi"),
        },
    ),
)
words.finished()
