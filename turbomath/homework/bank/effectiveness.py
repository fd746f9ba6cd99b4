"""Questions on effectiveness: what it is, and what comes out of an aftercooler that has it."""

from turbomath.homework.bank import arithmetic
from turbomath.homework.bank.mistakes import SHARED, degrees_ratio, ideal_from_degrees, mistake, rise_multiplied
from turbomath.homework.bank.readings import (
    AIR_AT_CORE,
    COOL,
    COOLANT_IN,
    COOLANT_OUT,
    HOT,
    INLET_TEMPERATURE,
    NUMBER,
    TEMPERATURE,
    WARM,
    asked,
    given,
)
from turbomath.homework.bank.steps import EFFECTIVENESS, cooled, ideal, real, step
from turbomath.homework.bank.wording import Wording


def _drop(s, medium="cooling_medium_temperature"):
    return s.compressor_outlet_temperature - s[medium]


def _effectiveness_to(medium):
    return lambda s: _drop(s, "manifold_temperature") / _drop(s, medium)


words = Wording(__file__, "effectiveness.toml", SHARED)
QUESTIONS = (
    words.question(
        "effectiveness_air_to_air",
        number=33,
        difficulty=2,
        givens=(HOT, COOL, AIR_AT_CORE, INLET_TEMPERATURE),
        steps=(EFFECTIVENESS,),
        asked=(asked("effectiveness", NUMBER),),
        mistakes=(
            mistake(
                "drop_over_hot_temperature",
                "M5",
                effectiveness=lambda s: (
                    (s.degrees(s.compressor_outlet_temperature) - s.degrees(s.manifold_temperature))
                    / s.degrees(s.compressor_outlet_temperature)
                ),
            ),
            mistake(
                "ratio_of_temperatures",
                "M5",
                effectiveness=degrees_ratio("manifold_temperature", "compressor_outlet_temperature"),
            ),
            mistake("air_at_compressor_inlet", "M12", effectiveness=_effectiveness_to("compressor_inlet_temperature")),
            mistake(
                "what_is_left",
                "M5",
                effectiveness=lambda s: (s.manifold_temperature - s.cooling_medium_temperature) / _drop(s),
            ),
        ),
        ranges={
            "inlet_warming": (14, 20, "F°"),
            "core_warming": (0, 2, "F°"),
            "effectiveness": (0.62, 0.9, "-"),
            "ambient_temperature": (40, 95, "°F"),
        },
    ),
    words.question(
        "effectiveness_jacket_water",
        number=34,
        difficulty=2,
        givens=(
            HOT,
            given("manifold_temperature", source="jacket_manifold_temperature"),
            COOLANT_IN,
            COOLANT_OUT,
            given("ambient_temperature"),
        ),
        steps=(EFFECTIVENESS,),
        asked=(asked("effectiveness", NUMBER),),
        mistakes=(
            mistake("air_outside", "M12", effectiveness=_effectiveness_to("ambient_temperature")),
            mistake("coolant_that_leaves", "M12", effectiveness=_effectiveness_to("cooling_medium_outlet_temperature")),
        ),
        ranges={"coolant_warming": (9, 15, "F°"), "boost": (18, 36, "psi")},
        where=lambda s: _drop(s) > 45.0,
    ),
    words.question(
        "manifold_temperature",
        number=35,
        difficulty=2,
        givens=(given("effectiveness"), HOT, AIR_AT_CORE),
        steps=(cooled(),),
        asked=(asked("manifold_temperature", TEMPERATURE),),
        mistakes=(
            mistake(
                "share_of_hot_temperature",
                "M5",
                manifold_temperature=lambda s: s.from_degrees(
                    s.effectiveness * s.degrees(s.compressor_outlet_temperature)
                ),
            ),
            mistake(
                "drop_in_per_cent",
                "M5",
                manifold_temperature=lambda s: s.from_degrees(
                    (1 - s.effectiveness) * s.degrees(s.compressor_outlet_temperature)
                ),
            ),
        ),
    ),
    words.question(
        "hot_day",
        number=36,
        difficulty=3,
        givens=(
            INLET_TEMPERATURE,
            given("pressure_ratio"),
            given("compressor_efficiency"),
            given("effectiveness"),
            AIR_AT_CORE,
        ),
        steps=(ideal(), real(), cooled()),
        asked=(asked("manifold_temperature", TEMPERATURE),),
        mistakes=(
            mistake("degrees_in_a_ratio", "M3", ideal_outlet_temperature=ideal_from_degrees()),
            mistake("multiplied_by_efficiency", "M6", compressor_outlet_temperature=rise_multiplied()),
            mistake("ideal_as_real", "M6", compressor_outlet_temperature="ideal_outlet_temperature"),
            mistake(
                "air_at_compressor_inlet",
                "M12",
                manifold_temperature=lambda s: (
                    s.compressor_outlet_temperature - s.effectiveness * _drop(s, "compressor_inlet_temperature")
                ),
            ),
        ),
        ranges={
            "ambient_temperature": (85, 105, "°F"),
            "inlet_warming": (18, 24, "F°"),
            "core_warming": (0, 2, "F°"),
            "effectiveness": (0.6, 0.72, "-"),
            "compressor_efficiency": (0.6, 0.7, "-"),
            "boost": (20, 36, "psi"),
        },
    ),
    words.question(
        "jacket_water_or_air",
        number=37,
        difficulty=2,
        givens=(
            given(
                "jacket_temperature",
                "temperature",
                of="temperature",
                source="jacket_manifold_temperature",
                symbol=r"T_\mathrm{jacket}",
            ),
            given(
                "air_temperature",
                "temperature",
                of="temperature",
                source="manifold_temperature",
                symbol=r"T_\mathrm{air}",
            ),
        ),
        steps=(
            step(
                "density_ratio",
                arithmetic.ratio_at_equal_pressure,
                inlet_temperature="jacket_temperature",
                outlet_temperature="air_temperature",
            ),
        ),
        asked=(asked("density_ratio", NUMBER),),
        mistakes=(
            mistake("degrees_in_a_ratio", "M3", density_ratio=degrees_ratio("jacket_temperature", "air_temperature")),
            mistake("upside_down", "M14", density_ratio=lambda s: s.air_temperature / s.jacket_temperature),
        ),
        ranges=WARM,
    ),
)
words.finished()
