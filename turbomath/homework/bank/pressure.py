"""Questions on pressure: gauge and absolute, before and behind filter, compressor and aftercooler."""

from turbomath.homework.bank.mistakes import (
    SEA_LEVEL,
    SHARED,
    boost_as_absolute,
    converted_the_wrong_way,
    mistake,
    taken_as,
)
from turbomath.homework.bank.question import Given
from turbomath.homework.bank.readings import ABSOLUTE, BAROMETER, BOOST, HIGH_GROUND, NUMBER, PRESSURE, asked, given
from turbomath.homework.bank.steps import INLET, MANIFOLD, OUTLET, OUTLET_GAUGE, RATIO
from turbomath.homework.bank.wording import Wording
from turbomath.working.coherent import to_si

MERCURY, WATER = ("inHg", "mmHg"), ("inH2O", "mmH2O")
RESTRICTION, LOSS = given("intake_restriction"), given("cooler_pressure_loss")
REAL_RESTRICTION, REAL_LOSS = {"intake_restriction": (15, 25, "inH2O")}, {"cooler_pressure_loss": (1.2, 4, "psi")}
RESTRICTION_LEFT_OUT = mistake("restriction_left_out", "M7", compressor_inlet_pressure="barometer")
LOSS_LEFT_OUT = mistake("loss_left_out", "M8", compressor_outlet_boost="boost")


def _inches_added(s):
    return s.answered(s.number("barometer") + s.number("boost"), "manifold_pressure")


def _inches_taken_off(s):
    return to_si(s.number("barometer") - s.number("intake_restriction"), "inHg", "barometer")


words = Wording(__file__, "pressure.toml", SHARED)
QUESTIONS = (
    words.question(
        "manifold_pressure_from_boost",
        number=1,
        difficulty=1,
        givens=(BAROMETER, BOOST),
        steps=(MANIFOLD,),
        asked=(asked("manifold_pressure", ABSOLUTE),),
        mistakes=(
            boost_as_absolute(),
            SEA_LEVEL,
            mistake("inches_as_psi", "M9", only="us", manifold_pressure=_inches_added),
        ),
        ranges=HIGH_GROUND,
    ),
    words.question(
        "boost_in_another_unit",
        number=2,
        difficulty=1,
        givens=(Given("boost", ("inHg", 0.5), ("mmHg", 5), source="old_gauge"),),
        steps=(),
        asked=(asked("boost", PRESSURE),),
        mistakes=(
            mistake("another_liquid", "M9", boost=taken_as("boost", WATER)),
            mistake("divided", "M14", boost=converted_the_wrong_way("boost", MERCURY, PRESSURE)),
        ),
        ranges={"old_gauge": (10, 75, "inHg")},
    ),
    words.question(
        "restriction_in_another_unit",
        number=3,
        difficulty=1,
        givens=(Given("intake_restriction", ("inH2O", 0.5), ("mmH2O", 5)),),
        steps=(),
        asked=(asked("intake_restriction", PRESSURE),),
        mistakes=(
            mistake("another_liquid", "M9", intake_restriction=taken_as("intake_restriction", MERCURY)),
            mistake(
                "divided", "M14", intake_restriction=converted_the_wrong_way("intake_restriction", WATER, PRESSURE)
            ),
        ),
        ranges={"intake_restriction": (5, 30, "inH2O")},
    ),
    words.question(
        "compressor_inlet_pressure",
        number=4,
        difficulty=1,
        givens=(BAROMETER, RESTRICTION),
        steps=(INLET,),
        asked=(asked("compressor_inlet_pressure", ABSOLUTE),),
        mistakes=(
            mistake("restriction_added", "M7", compressor_inlet_pressure=lambda s: s.barometer + s.intake_restriction),
            RESTRICTION_LEFT_OUT,
            mistake("water_from_mercury", "M9", only="us", compressor_inlet_pressure=_inches_taken_off),
        ),
        ranges=REAL_RESTRICTION,
    ),
    words.question(
        "compressor_outlet_pressure",
        number=5,
        difficulty=1,
        givens=(BOOST, LOSS, BAROMETER),
        steps=(OUTLET_GAUGE, OUTLET),
        asked=(asked("compressor_outlet_boost", PRESSURE, of="boost"), asked("compressor_outlet_pressure", ABSOLUTE)),
        mistakes=(
            LOSS_LEFT_OUT,
            mistake("loss_taken_off", "M8", compressor_outlet_boost=lambda s: s.boost - s.cooler_pressure_loss),
            boost_as_absolute("compressor_outlet_pressure", "compressor_outlet_boost"),
        ),
        ranges=REAL_LOSS,
    ),
    words.question(
        "pressure_ratio",
        number=6,
        difficulty=2,
        givens=(BAROMETER, RESTRICTION, BOOST, LOSS),
        steps=(INLET, OUTLET_GAUGE, OUTLET, RATIO),
        asked=(asked("pressure_ratio", NUMBER),),
        mistakes=(
            mistake("ratio_of_gauges", "M1", pressure_ratio=lambda s: s.boost / s.barometer),
            RESTRICTION_LEFT_OUT,
            SEA_LEVEL,
            LOSS_LEFT_OUT,
        ),
        ranges=HIGH_GROUND | REAL_RESTRICTION | REAL_LOSS,
    ),
)
words.finished()
