"""Exit ticket of lesson 01: two gauges that disagree, the right barometer, and a restriction "in vacuum"."""

from turbomath.widgets.asking import Option, Question
from turbomath.widgets.panel import Ticket


def ticket_gauge_and_absolute():
    """Return the exit ticket of the lesson."""
    return Ticket(TICKET)


_TELL = "Tell your instructor what you got, and how."

TICKET = (
    Question(
        "The scan tool shows 36.2 psi of manifold pressure, the dash gauge 22 psi of boost. The barometer in the shop "
        "reads 14.2 psi. Which is right?",
        (
            Option(
                "the dash gauge: nobody runs 36 psi of boost",
                "It is not boost. The scan tool counts from vacuum: take the barometer off, and 22 is left.",
                "M1",
            ),
            Option(
                "the scan tool: the dash gauge is off by 14.2",
                "The dash gauge is open to the air and shows 0 "
                "with the engine off. It leaves the barometer out on purpose.",
                "M1",
            ),
            Option(
                "both", "Right: 22 + 14.2 = 36.2. One counts from the air outside, the other from vacuum.", right=True
            ),
            Option(
                "neither: average them",
                "Two readings of two different things have no average. One is gauge, one is absolute.",
                "M18",
            ),
            Option("my answer is not here", _TELL),
        ),
    ),
    Question(
        "A shop at 5,280 ft. The weather report says 29.92 inHg, an open barometer on the bench 24.64 inHg (12.1 psi). "
        "Boost is 24 psi. What is the absolute pressure in the manifold?",
        (
            Option("24 psi", "That is what the gauge shows. It counts from the barometer: add it.", "M1"),
            Option("36.1 psi", "Right: 24 + 12.1, with the barometer where the engine stands.", right=True),
            Option(
                "38.7 psi",
                "You added 14.7, which is the report's barometer. It is corrected to sea level, and the "
                "engine is not there: 7 % too high.",
                "M2",
            ),
            Option(
                "48.6 psi",
                "You added inches of mercury to psi. Make it one unit first: 24.64 inHg × 0.491 is 12.1 psi.",
                "M9",
            ),
            Option("my answer is not here", _TELL),
        ),
    ),
    Question(
        'The barometer reads 28.60 inHg, which is 14.05 psi. The gauge on the intake shows "12 in. H2O vacuum". '
        "What is the absolute pressure at the compressor inlet?",
        (
            Option("14.48 psi", 'You added the restriction. "Vacuum" means below the air outside: take it off.', "M7"),
            Option(
                "14.05 psi",
                "That leaves the restriction out. It is small, but it goes into every pressure ratio.",
                "M7",
            ),
            Option("13.62 psi", "Right: 12 × 0.0361 = 0.43 psi below the barometer.", right=True),
            Option(
                "8.15 psi",
                "You took 12 inches of mercury off. Mercury is 13.6 times as heavy as water: 12 inH2O is 0.43 psi.",
                "M9",
            ),
            Option("my answer is not here", _TELL),
        ),
    ),
)
