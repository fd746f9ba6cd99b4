"""The exit ticket of lesson 00. Codes with S are the usual mistakes about safety; the teaching notes list them."""

from turbomath.widgets.asking import Option, Question
from turbomath.widgets.panel import Ticket


def ticket_start_here():
    """Return the exit ticket of the lesson."""
    return Ticket(TICKET)


TICKET = (
    Question(
        "An oil gauge 0 to 100 psi, grade B, reads 40 psi. Within what is the true pressure?",
        (
            Option(
                "40 psi exactly", "A pointer always stands somewhere. The maker promises a band, not a point.", "M18"
            ),
            Option("± 0.8 psi", "That is 2 % of 40. The grade speaks of the whole span: 2 % of 100.", "M13"),
            Option("± 2 psi", "Right: 2 % of 100 in the middle half. That is 5 % of the reading.", right=True),
            Option("± 3 psi", "3 % holds in the lowest and the highest quarter. 40 lies in the middle half.", "M13"),
            Option("my answer is not here", "Tell your instructor what you got; then take 2 % of the span once more."),
        ),
    ),
    Question(
        "Engine off, lines open to the air. A boost gauge 0 to 60 psi, grade B, shows 4 psi. What do you do?",
        (
            Option(
                "take 4 off every reading",
                "Nobody knows that it is 4 off all along the scale. You would be averaging over a bad gauge.",
                "M18",
            ),
            Option(
                "write 4 on the sheet, and zero or swap the gauge before the start",
                "Right: at rest it may be off by 1.8 psi, and 4 is more. The note stays on the sheet.",
                right=True,
            ),
            Option(
                "nothing: that is the barometer",
                "A boost gauge counts from the barometer, so open to the air it must show 0.",
                "M1",
            ),
            Option(
                "nothing: it is small against 60", "It is 4 psi on every reading: on 20 psi that is one fifth.", "M13"
            ),
            Option("my answer is not here", "Tell your instructor what you would do, and why."),
        ),
    ),
    Question(
        "The shop reads 14 psi of boost on one engine, and 0.1 MPa on the next. How do you type them?",
        (
            Option(
                "14 and 0.1: the header says it is boost",
                "A number without a unit is a guess for whoever reads "
                "it. The kit takes the unit from you, never from the size of the number.",
                "M9",
            ),
            Option("14 psi and 100 kPa", "Right: number and unit, in a unit that cannot be mistaken.", right=True),
            Option(
                "14 psi and 0.1 mpa",
                "With a small m that is another unit. The kit refuses both spellings and asks for kPa or bar.",
                "M9",
            ),
            Option(
                "14 psi and 0.1 psi",
                "The unit belongs to the gauge, not to the column above it. 0.1 MPa is 14.5 psi.",
                "M9",
            ),
            Option("my answer is not here", "Type it into the trainer above and see how it is read."),
        ),
    ),
    Question(
        "The engine speeds up by itself, and the key does not stop it. What happens now?",
        (
            Option(
                "everyone tries the key and the fuel lever again",
                "It is not burning what the lever gives it. Vapour or its own oil feeds it, and seconds count.",
                "S1",
            ),
            Option(
                "whoever stands nearest puts a hand or a rag on the intake",
                "Never. It takes the hand, or pulls the rag in. Only what was made ready beforehand is used.",
                "S2",
            ),
            Option(
                "the one named before the start cuts its air with the shut-off made for it; all others leave",
                "Right: who, with what, and in which order was agreed before the start.",
                right=True,
            ),
            Option(
                "somebody empties the CO2 extinguisher beside the engine",
                "CO2 comes third, and from outside the "
                "doorway with the exits open. In the room it kills, and an oxygen meter does not warn of it.",
                "S3",
            ),
            Option("my answer is not here", "Tell your instructor now, before the next start."),
        ),
    ),
)
