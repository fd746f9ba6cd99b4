"""Exit ticket of lesson 05: low boost after a repair, what a loss leaves, and what a worn compressor does to a gain."""

from turbomath.widgets.asking import Option, Question
from turbomath.widgets.panel import Ticket


def ticket_what_the_engine_gains():
    """Return the exit ticket of the lesson."""
    return Ticket(TICKET)


_TELL = "Tell your instructor what you got, and how."

TICKET = (
    Question(
        "A leaking, dirty aftercooler was replaced. Same fuel, same load: boost fell from 22 to 18 psi, and the "
        "manifold is 60 F° cooler. What do you do?",
        (
            Option(
                "find the lost boost: less boost is less air",
                "Boost is not air flow. The charge is cooler now: work out the density before and after, then decide.",
                "M4",
            ),
            Option(
                "work out the density before and after",
                "Right: cooler air needs less pressure to be as dense, so low boost may follow a good repair.",
                right=True,
            ),
            Option(
                "nothing: the air fell as much as the boost, 18 %",
                "That compares two gauge readings. Add the barometer, then divide by absolute temperature.",
                "M1",
            ),
            Option(
                "turn up the fuel until boost is back at 22 psi",
                "More fuel makes boost, and heat with it. The "
                "gauge is not the goal; the air is. Stay within the maker's limits.",
                "M17",
            ),
            Option("my answer is not here", _TELL),
        ),
    ),
    Question(
        "Cooling alone makes the charge 33.9 % denser. The aftercooler takes 4.8 % of the absolute pressure. How much "
        "denser is the charge in the end?",
        (
            Option("33.9 %", "That leaves the pressure loss out. Less pressure, less air in each cubic foot.", "M8"),
            Option(
                "29.1 %",
                "You took 4.8 from 33.9. But the 4.8 % is of the larger amount: multiply 1.339 by 0.952.",
                "M14",
            ),
            Option("27.5 %", "Right: 1.339 × 0.952 = 1.275.", right=True),
            Option("40.6 %", "You divided by 0.952. The loss makes the air thinner, so multiply.", "M14"),
            Option("my answer is not here", _TELL),
        ),
    ),
    Question(
        "Since last year the aftercooling density gain rose from 30 to 37 %, at the same boost and the same weather. "
        "What may have happened?",
        (
            Option(
                "the aftercooler got better: the engine gets more air",
                "The aftercooler has more to cool when the charge comes in hotter. Look at the charge gain: it fell.",
                "M5",
            ),
            Option(
                "the compressor is worn: the charge comes in hotter",
                "Right: hotter in, more to cool, a bigger number, and yet less air. Judge by the charge gain.",
                right=True,
            ),
            Option(
                "the engine makes 7 % more power",
                "More air alone is no power; and there is not even more air. Look at the charge gain.",
                "M17",
            ),
            Option(
                "nothing: the boost is the same, so the air is",
                "The gauge shows the same, but the charge is hotter, so thinner.",
                "M4",
            ),
            Option("my answer is not here", _TELL),
        ),
    ),
)
