"""Lesson 04, second and third panel: jacket water that heats the charge, at light load and on a cold morning."""

from turbomath.panels.cooling_it_back.how_far_back import (
    COLD_MORNING,
    LIGHT_LOAD,
    QUESTION,
    answer,
    case,
    controls_from,
    fahrenheit,
)
from turbomath.physics import cooling
from turbomath.units.shown import words
from turbomath.widgets.asking import Option, Question
from turbomath.widgets.desk import Sheet
from turbomath.widgets.panel import Panel


def panel_light_load():
    """Return the live panel of the charge at light load."""
    cases = (("light load", case(*LIGHT_LOAD)), ("full load", case(*QUESTION)))
    return Panel(
        Sheet(
            "At light load, what does 190 °F water do to the charge?",
            WARM_WATER,
            controls_from(*LIGHT_LOAD),
            answer,
            cases,
        )
    )


def panel_cold_morning():
    """Return the live panel of the charge on a cold morning."""
    return Panel(
        Sheet(
            "On a −20 °F morning, whose charge is warmer?",
            COLD,
            controls_from(*COLD_MORNING),
            answer,
            (("cold morning", case(*COLD_MORNING)),),
        )
    )


def _behind(hot, medium, effectiveness, system):
    behind = cooling.outlet_temperature(fahrenheit(hot), fahrenheit(medium), effectiveness)
    return words("manifold_temperature", behind, system)


def _warmed(system):
    hot, _, water, share = LIGHT_LOAD
    return f"Hotter: {_behind(hot, water, share, system)}. Heat goes from the water into the air."


def _cold(system):
    hot, air, water, share = COLD_MORNING
    wet, dry = (_behind(hot, medium, share, system) for medium in (water, air))
    return (
        f"The jacket-water engine's: {wet} against {dry}. At idle that is good: it burns cleaner and smokes less "
        "white. In an air-to-air core water can condense and freeze."
    )


WARM_WATER = Question(
    "Light load: the charge leaves the compressor at 160 °F (71 °C). The jacket water enters the aftercooler at 190 °F "
    "(88 °C). What does the aftercooler do to the charge?",
    (
        Option(
            "it cools it, as its name says",
            "A name cools nothing. Heat goes from the hotter to the colder, and here the water is the hotter one.",
            "M12",
        ),
        Option(
            "nothing: there is no boost to speak of", "Boost does not matter here. Look at which side is hotter.", "M4"
        ),
        Option("it heats it", "So the drop is negative, and the effectiveness as good as ever.", right=True),
        Option("something else", "Good that you said so. Compare it with the bars, then tell the class."),
    ),
    outcome=_warmed,
)
COLD = Question(
    "A −20 °F (−29 °C) morning, engine idling, coolant at 160 °F (71 °C). Whose charge is warmer, and is that bad?",
    (
        Option("the air-to-air engine's, and it is bad", "Air at −20 °F comes to its core. It can only cool.", "M12"),
        Option(
            "the jacket-water engine's, and it is bad",
            "Warmer it is. But cold air at idle burns poorly: warmth helps here.",
            "M4",
        ),
        Option(
            "the jacket-water engine's, and it is good",
            "Under load it costs air. Go to full load in the panel above.",
            right=True,
        ),
        Option("both the same", "The two meet quite different media: look at the bars Tm.", "M12"),
        Option("something else", "Good that you said so. Compare it with the bars, then tell the class."),
    ),
    outcome=_cold,
)
