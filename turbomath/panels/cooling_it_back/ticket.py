"""Exit ticket of lesson 04: effectiveness from readings, the right reference, and why 1 cannot be."""

from turbomath.widgets.asking import Option, Question
from turbomath.widgets.panel import Ticket


def ticket_cooling_it_back():
    """Return the exit ticket of the lesson."""
    return Ticket(TICKET)


_TELL = "Tell your instructor what you got, and how."

TICKET = (
    Question(
        "Compressor outlet 330 °F (166 °C), manifold 130 °F (54 °C), air at the core face 80 °F (27 °C). What is the "
        "effectiveness?",
        (
            Option(
                "0.61",
                "You divided the drop by the thermometer's number: 200 ÷ 330. Divide by the greatest "
                "possible drop, 330 − 80.",
                "M5",
            ),
            Option("0.39", "You divided T3 by T2. Effectiveness is drop over greatest possible drop: 200 ÷ 250.", "M5"),
            Option("0.80", "Right: (330 − 130) ÷ (330 − 80) = 200 ÷ 250.", right=True),
            Option("0.20", "That is what is left: 50 ÷ 250. The share that was taken off is 1 less that.", "M14"),
            Option("my answer is not here", _TELL),
        ),
    ),
    Question(
        "Jacket-water aftercooler: T2 331 °F (166 °C), T3 222 °F (106 °C). The shop is at 77 °F (25 °C), coolant "
        "enters the core at 185 °F (85 °C) and leaves at 192 °F (89 °C). What is the effectiveness?",
        (
            Option(
                "0.43", "You measured against the air of the shop. This core never meets it: take the coolant.", "M12"
            ),
            Option("0.75", "Right: (331 − 222) ÷ (331 − 185) = 109 ÷ 146.", right=True),
            Option("0.78", "You took the coolant where it leaves. Take it where it enters.", "M12"),
            Option("0.33", "That is the drop over the thermometer's number: 109 ÷ 331.", "M5"),
            Option("my answer is not here", _TELL),
        ),
    ),
    Question(
        "Air-to-air readings give an effectiveness of 1.04. What do you say?",
        (
            Option("a very good core", "Nothing cools below what cools it. Above 1 a reading is wrong.", "M5"),
            Option("it is 104 % efficient", "Effectiveness is no efficiency, and it cannot pass 1 either.", "M5"),
            Option(
                "a temperature was read wrong; I look at the core face first",
                "Right: the air there was colder than you took it, or T2 or T3 is wrong.",
                right=True,
            ),
            Option("I average it with last week's 0.80", "An average hides a bad reading. Find it.", "M18"),
            Option("my answer is not here", _TELL),
        ),
    ),
)
