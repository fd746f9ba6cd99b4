"""Exit ticket of lesson 02: divide by the efficiency, take the ratio of absolute pressures, doubt a hot thermometer."""

from turbomath.widgets.asking import Option, Question
from turbomath.widgets.panel import Ticket


def ticket_squeezing_heats_air():
    """Return the exit ticket of the lesson."""
    return Ticket(TICKET)


_TELL = "Tell your instructor what you got, and how."

TICKET = (
    Question(
        "Without losses, squeezing would warm the air by 180 F° (100 C°). The compressor efficiency is 72 %. By how "
        "much does the air really warm?",
        (
            Option(
                "130 F° (72 C°)",
                "You multiplied by the efficiency. A real compressor makes more heat than the "
                "ideal one, not less: divide.",
                "M6",
            ),
            Option("180 F° (100 C°)", "That is the ideal rise. Losses come on top.", "M6"),
            Option("250 F° (139 C°)", "Right: 180 ÷ 0.72 = 250 F°, and 100 ÷ 0.72 = 139 C°.", right=True),
            Option(
                "232 F° (128 C°)",
                "You added the missing 28 %. The ideal rise is 72 % of the real one, so divide "
                "by 0.72: 28 % up is not 28 % down.",
                "M14",
            ),
            Option("my answer is not here", _TELL),
        ),
    ),
    Question(
        "Boost at the compressor outlet is 25.5 psi, the barometer 14.3 psi, the compressor inlet 13.9 psi abs. What "
        "pressure ratio goes into the temperature formula?",
        (
            Option(
                "1.78",
                "You divided gauge by barometer: 25.5 ÷ 14.3. Make the outlet absolute first: 25.5 + 14.3 = 39.8.",
                "M1",
            ),
            Option(
                "1.83",
                "You divided a gauge pressure by an absolute one. Make the outlet absolute first: 25.5 + 14.3 = 39.8.",
                "M1",
            ),
            Option("2.78", "Nearly: 39.8 ÷ 14.3. But the compressor takes its air behind the filter, at 13.9.", "M7"),
            Option("2.86", "Right: (25.5 + 14.3) ÷ 13.9 = 39.8 ÷ 13.9.", right=True),
            Option("my answer is not here", _TELL),
        ),
    ),
    Question(
        "Boost and weather are as last year. The outlet thermometer shows 30 F° (17 C°) more, which makes the "
        "compressor efficiency 61 instead of 70 %. What do you do first?",
        (
            Option(
                "order a turbocharger",
                "Perhaps it is worn. But one reading is no finding: first look whether the "
                "thermometer can be believed.",
                "M18",
            ),
            Option(
                "look where the outlet thermometer sits, and read all again",
                "Right: a probe that touches the "
                "wall or sees the hot turbine housing reads too high. Then clean and inspect.",
                right=True,
            ),
            Option(
                "nothing: boost is as before",
                "Boost says nothing of heat. Hotter air is thinner, and the aftercooler has more to do.",
                "M4",
            ),
            Option(
                "blame the exhaust side: it heats the air",
                "The turbine's heat reaches the air a little, mostly "
                "at light load. Most of the heat is the squeezing itself, over the efficiency.",
                "M6",
            ),
            Option("my answer is not here", _TELL),
        ),
    ),
)
