"""Exit ticket of lesson 07: the ratio behind an unchanged gauge, a barometer corrected twice, and thin cold air."""

from turbomath.widgets.asking import Option, Question
from turbomath.widgets.panel import Ticket


def ticket_altitude_heat_humidity():
    """Return the exit ticket of the lesson."""
    return Ticket(TICKET)


_TELL = "Tell your instructor what you got, and how."

TICKET = (
    Question(
        "At sea level, barometer 14.7 psi (101 kPa), the gauge shows 20 psi (138 kPa). At 7,000 ft, barometer 11.3 psi "
        "(78 kPa), it still shows 20 psi. What is the pressure ratio up there? Leave restriction and losses out.",
        (
            Option(
                "2.36, as at sea level",
                "The gauge is the same, the barometer is not. Make both pressures absolute: 31.3 ÷ 11.3.",
                "M1",
            ),
            Option("1.77", "That is gauge ÷ barometer. A pressure ratio takes absolute pressures.", "M1"),
            Option(
                "2.77",
                "Right: (11.3 + 20) ÷ 11.3. The compressor works harder, and the gauge does not tell.",
                right=True,
            ),
            Option(
                "3.07",
                "You put the sea-level barometer on top and the one up there below: 34.7 ÷ 11.3. Both have "
                "to be that of the place.",
                "M2",
            ),
            Option("my answer is not here", _TELL),
        ),
    ),
    Question(
        "On the bench at 5,280 ft an open barometer reads 24.64 inHg (83.4 kPa). A table says: at this height multiply "
        "the weather report's barometer by 0.823. Which one goes into your sums?",
        (
            Option(
                "20.28 inHg",
                "You corrected a reading that needed none. The table is for a report that was corrected to sea level.",
                "M2",
            ),
            Option("24.64 inHg", "Right: it was read where the engine stands. Nothing is left to correct.", right=True),
            Option("29.92 inHg", "That belongs to sea level. Your engine breathes the air of the shop.", "M2"),
            Option(
                "27.28 inHg",
                "That is the mean of two barometers of two places. An average of a right and a wrong number is wrong.",
                "M18",
            ),
            Option("my answer is not here", _TELL),
        ),
    ),
    Question(
        "A standard day. At 5,280 ft the barometer is 17.7 % lower than at sea level, and the air is colder: 40 °F "
        "(4.5 °C) against 59 °F (15 °C). How much less air is in a cubic foot?",
        (
            Option(
                "17.7 % less",
                "That is pressure alone. The cold packs some of it back: two causes, opposite ways.",
                "M4",
            ),
            Option(
                "20.7 % less",
                "You let the cold thin the air. Cold air is denser: the cold temperature goes below.",
                "M14",
            ),
            Option("14.6 % less", "Right: 0.823 × 518.7 ÷ 499.7 = 0.854.", right=True),
            Option("21.4 % more", "You divided 59 by 40. °F does not start at zero heat: add 459.7 first.", "M3"),
            Option("my answer is not here", _TELL),
        ),
    ),
)
