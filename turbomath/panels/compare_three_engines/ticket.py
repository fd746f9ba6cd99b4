"""Exit ticket of lesson 10: air from two gauges, what was held equal, and the same boost up high."""

from turbomath.widgets.asking import Option, Question
from turbomath.widgets.panel import Ticket


def ticket_compare_three_engines():
    """Return the exit ticket of the lesson."""
    return Ticket(TICKET)


_TELL = "Tell your instructor what you got, and how."

TICKET = (
    Question(
        "A cooler is fitted; fuel, speed and turbine stay. Boost falls from 34.5 to 24.0 psi (238 to 165 kPa), the "
        "manifold from 394 to 129 °F (201 to 54 °C). The barometer stands at 14.3 psi (98.6 kPa). What became of the "
        "air?",
        (
            Option(
                "30 % less", "You divided gauge by gauge. Add the barometer to both, then use the temperatures.", "M1"
            ),
            Option(
                "22 % less",
                "You took pressure for air. The charge is also much cooler, and so denser: use the temperatures.",
                "M4",
            ),
            Option("14 % more", "Right: 38.3 ÷ 48.8 × 854 ÷ 589, or 263.6 ÷ 336.6 × 474 ÷ 327.", right=True),
            Option("140 % more (190 % in °C)", "You divided °F by °F, or °C by °C. Add 460 to °F, or 273 to °C.", "M3"),
            Option("my answer is not here", _TELL),
        ),
    ),
    Question(
        "One student says air-to-air gives a third more air than no aftercooler; another says 14 %. Both used the "
        "first panel at full load. Who is right?",
        (
            Option(
                "the first: engines are compared at equal boost",
                "Equal boost is one way to compare. It took less "
                "fuel in one of the engines: boost alone does not settle it.",
                "M4",
            ),
            Option(
                "the second: fuel makes the power",
                "Equal fuel is one way to compare. At equal boost the other number is as true.",
                "M17",
            ),
            Option(
                "both, if each says what was held equal",
                "Right: a third more at equal boost, 14 % more at equal "
                'fuel. Without the words "at equal" neither says anything.',
                right=True,
            ),
            Option(
                "both: together it is some 50 %", "They are two answers about one engine. Nothing adds up here.", "M14"
            ),
            Option("my answer is not here", _TELL),
        ),
    ),
    Question(
        "At 10,000 ft the gauge shows 24 psi (165 kPa), as at sea level, with the same fuel. The barometer stands at "
        "10.1 psi (70 kPa) in place of 14.7 (101). The manifold is as warm as before. What about the air?",
        (
            Option(
                "the same: the boost is the same",
                "The gauge counts from the barometer. Add it in both places, then compare.",
                "M4",
            ),
            Option(
                "31 % less, like the air outside",
                "You compared the air outside. The cylinders fill from the manifold: compare that.",
                "M16",
            ),
            Option("12 % less", "Right: 34.1 ÷ 38.7, or 235 ÷ 266. A warmer manifold takes a little more.", right=True),
            Option(
                "the same: set the barometer to sea level first",
                "That number is for weather maps. The engine breathes what an open barometer reads where it stands.",
                "M2",
            ),
            Option("my answer is not here", _TELL),
        ),
    ),
)
