"""Questions on thermometers: the scales, a difference on another scale, and how sure a thermocouple is."""

from turbomath.homework.bank import instruments
from turbomath.homework.bank.mistakes import SHARED, converted_the_wrong_way, mistake
from turbomath.homework.bank.question import Given, Tolerance
from turbomath.homework.bank.readings import RISE, TEMPERATURE, asked, given
from turbomath.homework.bank.steps import step
from turbomath.homework.bank.wording import Wording
from turbomath.working.coherent import from_si, to_si

READING = given("temperature", "temperature", source="shown")
ABSOLUTE_DEGREES = ("°R", "K")
OTHER_DEGREES, OTHER_RISE = TEMPERATURE[::-1], RISE[::-1]
_ABSOLUTE_OF = {TEMPERATURE: ABSOLUTE_DEGREES, OTHER_DEGREES: ABSOLUTE_DEGREES[::-1]}


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


def _share_as_reading(s):
    """Return the share of a reading [K], turned into °F as if it were a reading itself."""
    celsius = s.share * from_si(s.temperature, "°C", "temperature")
    return s.written(s.degrees(to_si(celsius, "°C", "temperature")), RISE, "temperature_rise")


def _share_of_reading(s):
    """Return the share [K] of the reading in °F or °C."""
    return s.written(s.share * s.degrees(s.temperature), RISE, "temperature_rise")


words = Wording(__file__, "temperature.toml", SHARED)
SCALES = (
    words.question(
        "absolute_temperature",
        number=13,
        difficulty=1,
        givens=(READING,),
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
)
THERMOCOUPLES = (
    words.question(
        "thermocouple_tolerance",
        number=21,
        difficulty=2,
        givens=(
            READING,
            Given("least", ("C°", 0.1), ("C°", 0.1), "temperature_rise", symbol=r"a_\mathrm{least}"),
            Given("share", ("%", 0.01), ("%", 0.01), "density_gain", symbol="s"),
        ),
        steps=(step("tolerance", instruments.thermocouple_tolerance, symbol="a"),),
        asked=(asked("tolerance", RISE, of="temperature_rise", tolerance=Tolerance(0.009)),),
        mistakes=(
            mistake("fixed_part_only", "M13", tolerance="least"),
            mistake("offset_32", "M10", only="us", tolerance=_share_as_reading),
            mistake("per_cent_of_fahrenheit", "M13", only="us", tolerance=_share_of_reading),
            mistake("per_cent_of_absolute", "M3", tolerance=lambda s: s.share * s.temperature),
        ),
        ranges={"shown": (620, 1000, "°F"), "least": (3.96, 3.96, "F°"), "share": (0.75, 0.75, "%")},
    ),
)
words.finished()
