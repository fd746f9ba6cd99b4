"""Exit ticket of lesson 08: what a zero is for, what to do with a reading that cannot be, and what is held equal."""

from turbomath.widgets.asking import Option, Question
from turbomath.widgets.panel import Ticket


def ticket_live_lab():
    """Return the exit ticket of the lesson."""
    return Ticket(TICKET)


_TELL = "Tell your instructor what you would do, and why."

TICKET = (
    Question(
        "Engine off, before the start: the boost gauge shows 1.5 psi (10 kPa). What do you do?",
        (
            Option(
                "take 1.5 psi off every reading later",
                "Nobody knows whether it is off by the same all along the "
                "scale. Zero the gauge or change it, and write down what you found.",
                "M18",
            ),
            Option(
                "write it down, then zero or change the gauge",
                "Right: the zero is the cheapest check there is, and the sheet shows later that it was made.",
                right=True,
            ),
            Option(
                "nothing: it is 2.5 % of a 60 psi gauge",
                "Grade B allows 3 % of span in the low quarter, so it is "
                "barely inside. But a pointer that is off zero can be set right at once, for nothing.",
                "M13",
            ),
            Option(
                "write 0.0: the engine is off",
                "The sheet is for what the gauge shows, not for what it should show.",
                "M18",
            ),
            Option("my answer is not here", _TELL),
        ),
    ),
    Question(
        "At full load two readers got 24.0 and 27.5 psi (165 and 190 kPa) for the same point, half a minute apart. "
        "What goes into the conclusion?",
        (
            Option(
                "the mean, 25.75 psi",
                "A mean of two readings that do not fit hides that one is wrong. Wait until "
                "it is steady, and read both passes again.",
                "M18",
            ),
            Option(
                "the higher one: the engine was still coming up",
                "Then neither was steady. Wait, and read again.",
                "M18",
            ),
            Option(
                "neither yet: both passes are read again, while the engine is there",
                "Right. Both readings stay on the sheet, with a remark.",
                right=True,
            ),
            Option("the one that fits the theory", "Then you have measured the theory. Read again.", "M18"),
            Option("my answer is not here", _TELL),
        ),
    ),
    Question(
        "Two groups run the same engine on two days and get charge gains of 143 and 139 %, each ± 5 points. What may "
        "you say?",
        (
            Option(
                "the engine lost 4 points between the days",
                "The two ± are wider than that. These gauges cannot tell the two apart.",
                "M18",
            ),
            Option("these gauges see no difference", "Right: 4 points lie inside the ±.", right=True),
            Option("one group read wrong", "Nothing shows that. Both results fit each other, within their ±.", "M18"),
            Option("on average the ± is 0", "An average does not take away what the same gauges share.", "M18"),
            Option("my answer is not here", _TELL),
        ),
    ),
)
