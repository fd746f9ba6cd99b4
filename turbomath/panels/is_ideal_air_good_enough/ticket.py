"""Exit ticket of lesson 11: what the water takes, what the ± of a thermometer hides, and where the real gas counts."""

from turbomath.widgets.asking import Option, Question
from turbomath.widgets.panel import Ticket


def ticket_is_ideal_air_good_enough():
    """Return the exit ticket of the lesson."""
    return Ticket(TICKET)


_TELL = "Tell your instructor what you got, and how."

TICKET = (
    Question(
        "Barometer 14.7 psi (101.3 kPa). The air is saturated at 80 °F (27 °C): its vapour has 0.51 psi (3.5 kPa). How "
        "much dry air does hand work count that is not there?",
        (
            Option(
                "none: vapour comes on top",
                "The barometer is the whole of it. What part of it the vapour has, the dry air has not.",
                "M4",
            ),
            Option(
                "2.2 %",
                "That is the water by weight: 22 g with each kilogram. Vapour is light, and takes more "
                "room than its weight says.",
                "M16",
            ),
            Option("about 3.5 %", "Right: 0.51 ÷ 14.7, and 3.5 ÷ 101.3.", right=True),
            Option("100 %", "That is the share of what the air could hold, not of the air.", "M16"),
            Option("my answer is not here", _TELL),
        ),
    ),
    Question(
        "Hand work with γ = 1.4 says that the air leaves at 350 °F (177 °C). Your thermometer, ± 4.6 F° (2.5 C°), "
        "shows 347 °F (175 °C). What have you found?",
        (
            Option(
                "that air is no ideal gas",
                "It is none, but you have not found it: 3 F° lie within the ± of your thermometer.",
                "M18",
            ),
            Option(
                "a compressor better than the maker says",
                "3 F° lie within the ± of the thermometer. No compressor was ever judged by that.",
                "M18",
            ),
            Option("a thermometer that reads too low", "It may be right to the degree: 3 F° lie within its ±.", "M18"),
            Option(
                "nothing: the two agree as far as I can tell",
                "Right: 3 F° is less than 4.6 F°. Hand work was good enough.",
                right=True,
            ),
            Option("my answer is not here", _TELL),
        ),
    ),
    Question(
        "On a dry day, where does the pull between the molecules change the density most?",
        (
            Option(
                "where the charge is hottest",
                "Hot molecules fly past each other. The pull counts where they are slow and close.",
            ),
            Option(
                "in deep cold, at high boost, behind a good aftercooler",
                "Right: cold and close together. Even there it is about half a per cent at most.",
                right=True,
            ),
            Option("high up on a mountain", "There the air is thin and its molecules are far apart: nearly ideal."),
            Option(
                "everywhere the same: R is R",
                "R is for molecules without a pull. The colder and denser the air, the less that holds.",
            ),
            Option("my answer is not here", _TELL),
        ),
    ),
)
