"""Questions to choose in: order the stations, the reading that cannot be, name the fault, two mechanics disagree.

What points to which fault is common practice of the trade; the maker's manual and a test come before any part.
"""

from turbomath.homework.bank.question import Case, Choice, Option
from turbomath.physics import compression
from turbomath.working.writing import fixed

_ORDER = "Follow the air from outside to the cylinder of an engine with an aftercooler. Which order is right?"
_TEST_FIRST = "Then prove it by a test before you buy a part."


def _order(words, reply, code=""):
    return Option(" → ".join(words.split(", ")), reply, code)


STATIONS = Case(
    _ORDER,
    (
        _order(
            "ambient, compressor inlet, compressor outlet, manifold",
            "Right: filter, compressor, aftercooler, manifold.",
        ),
        _order(
            "ambient, compressor inlet, manifold, compressor outlet",
            "The manifold is behind the aftercooler, and the aftercooler is behind the compressor.",
            "M8",
        ),
        _order(
            "compressor inlet, ambient, compressor outlet, manifold",
            "Air starts outside; the filter and its restriction lie between outside and the compressor.",
            "M7",
        ),
        _order(
            "ambient, compressor outlet, compressor inlet, manifold",
            "In and out are the wrong way round: a compressor takes air in before it gives it out.",
            "M14",
        ),
    ),
)
HIGHEST = Case(
    "At which station is the absolute pressure highest?",
    (
        Option("compressor outlet", "Right: after it, the aftercooler takes a little away."),
        Option("manifold", "The aftercooler loses some pressure on the way to the manifold.", "M8"),
        Option("compressor inlet", "There it is lowest: behind the filter, below the barometer.", "M7"),
        Option("ambient", "That is the barometer. The compressor raises the pressure above it.", "M1"),
    ),
)

FAULTS = (
    Case(
        "At full load, against the healthy engine: manifold temperature 60 F° (33 C°) up, effectiveness down from "
        "0.80 "
        "to 0.58, pressure loss of the aftercooler as before, exhaust hotter. Which fault fits best?",
        (
            Option(
                "air-to-air core dirty outside, or its fan off",
                "Right: hot manifold, pressure loss normal: the outside. " + _TEST_FIRST,
            ),
            Option("core plugged inside", "Then the pressure loss would have risen.", "M8"),
            Option(
                "air filter plugged", "Then the intake restriction would have risen, and effectiveness stayed.", "M7"
            ),
            Option(
                "worn compressor",
                "That makes T2 hotter for its pressure ratio. Effectiveness is of the aftercooler.",
                "M5",
            ),
        ),
    ),
    Case(
        "At full load, against the healthy engine: intake restriction doubled, boost down, exhaust hotter, black "
        "smoke, "
        "effectiveness as before. Which fault fits best?",
        (
            Option("air filter plugged", "Right: the restriction alone proves it."),
            Option(
                "aftercooler dirty outside",
                "Then effectiveness would have fallen and restriction would not have risen.",
                "M5",
            ),
            Option("not enough fuel", "Then the exhaust would be cooler and the stack clean.", "M17"),
            Option("boost gauge reads low", "A gauge alone cannot double the restriction and heat the exhaust.", "M18"),
        ),
    ),
    Case(
        "At full load, against the healthy engine: power down, boost down, exhaust cooler, stack clean. Which fault "
        "fits "
        "best?",
        (
            Option(
                "not enough fuel (fuel filter, air in the fuel)",
                "Right: low boost and cool exhaust is the fuel side. " + _TEST_FIRST,
            ),
            Option(
                "boost leak behind the aftercooler",
                "With less air and the same fuel the exhaust gets hotter, and it smokes.",
                "M4",
            ),
            Option(
                "air filter plugged", "With less air and the same fuel the exhaust gets hotter, and it smokes.", "M7"
            ),
            Option(
                "worn compressor",
                "With less air and the same fuel the exhaust gets hotter. Low boost is not always the turbocharger.",
                "M4",
            ),
        ),
    ),
    Case(
        "At full load the boost gauge reads 6 psi (41 kPa) less than last month. Exhaust, temperatures, power and "
        "smoke "
        "are as they were, and the engine pulls well. What do you do first?",
        (
            Option(
                "check or swap the boost gauge and its line", "Right: one odd reading with no partner is the gauge."
            ),
            Option("change the turbocharger", "No other reading moved. Less air would have heated the exhaust.", "M18"),
            Option(
                "look for a leak behind the aftercooler",
                "A leak that big would have heated the exhaust and made smoke.",
                "M4",
            ),
            Option("clean the aftercooler", "The manifold temperature is as it was.", "M5"),
        ),
    ),
    Case(
        "At full load, against the healthy engine: exhaust back pressure three times as high, boost down, exhaust "
        "hotter, intake restriction a little lower. Which fault fits best?",
        (
            Option("restriction in the exhaust behind the turbine", "Right: the back-pressure gauge alone proves it."),
            Option("air filter plugged", "Then the intake restriction would have risen.", "M7"),
            Option("core plugged inside", "Then the pressure loss of the aftercooler would have risen.", "M8"),
            Option("too much fuel", "Then boost and power would have risen too.", "M17"),
        ),
    ),
)

MECHANICS = (
    Case(
        "After an aftercooler was cleaned, boost fell from 20 to 18 psi (138 to 124 kPa) and the manifold is 60 F° "
        "(33 C°) cooler. Ana: “The engine gets less air now.” Ben: “It may well get more.” Who is right?",
        (
            Option(
                "Ben: density decides, and cooler air is denser", "Right: pressure and temperature together decide."
            ),
            Option("Ana: less boost is less air", "Boost is not air. Work out both densities.", "M4"),
            Option(
                "neither: the manifold is the same size",
                "The size stayed; how tightly the air is packed did not.",
                "M4",
            ),
        ),
    ),
    Case(
        "The shop is at 3,600 ft (1,100 m). The radio gives 30.05 inHg (101.8 kPa). Ana adds boost to that. Ben adds "
        "boost to the 26.4 inHg (89.4 kPa) of the barometer on the bench. Who has the manifold pressure?",
        (
            Option(
                "Ben: the bench barometer reads what presses here", "Right: station pressure, never a corrected one."
            ),
            Option("Ana: the radio is more exact", "It is corrected to sea level: exact, but for another place.", "M2"),
            Option(
                "both: boost is what counts", "A gauge counts from the air around it, so that air must be added.", "M1"
            ),
        ),
    ),
    Case(
        "Ana: “The compressor is 70 % efficient, so the air warms by 70 % of the ideal rise.” Ben: “It warms by more "
        "than the ideal rise.” Who is right?",
        (
            Option("Ben: divide the ideal rise by 0.70", "Right: losses turn into heat."),
            Option("Ana: multiply by 0.70", "Losses make the air hotter, not cooler.", "M6"),
            Option(
                "neither: efficiency does not change the temperature",
                "All that is lost in a compressor ends up as heat in the air.",
                "M6",
            ),
        ),
    ),
    Case(
        "A grade B gauge, 0 to 60 psi (0 to 414 kPa), 2 % in mid scale, reads 20 psi (138 kPa). Ana: “So ± 0.4 psi "
        "(2.8 kPa).” Ben: “± 1.2 psi (8.3 kPa).” Who is right?",
        (
            Option("Ben: 2 % of the span of 60", "Right: a grade is a per cent of the span."),
            Option("Ana: 2 % of the reading of 20", "A grade is a per cent of the span, whatever the reading.", "M13"),
            Option("neither: a gauge is right or it is broken", "Every gauge has a band it may be off by.", "M18"),
        ),
    ),
    Case(
        "Density rose by 25 % with the aftercooler on. It is taken off again. Ana: “So density falls by 25 %.” Ben: "
        "“By "
        "20 %.” Who is right?",
        (
            Option("Ben: from 125 back to 100", "Right: 25 of 125 is 20 %."),
            Option("Ana: what went up comes down", "The 100 % is another one: 25 of 125 is 20 %.", "M14"),
            Option("neither: density does not change", "It does: the charge is hot again.", "M4"),
        ),
    ),
    Case(
        "Ana: “With 20 % more air the diesel makes 20 % more power by itself.” Ben: “Only if more fuel goes in.” "
        "Who is "
        "right?",
        (
            Option("Ben: air sets the smoke limit, fuel makes the power", "Right."),
            Option("Ana: power follows air", "A diesel runs lean. More air alone makes it cleaner and cooler.", "M17"),
            Option(
                "neither: a diesel needs 14.7 parts of air for one of fuel",
                "That is near the chemistry's bare minimum; diesels run at 20 to 100 parts.",
                "M17",
            ),
        ),
    ),
)


def impossible_readings(drawn, system):
    """Return four sheets, each with one reading that cannot be."""
    return tuple(_sheet(drawn, system, which) for which in _SPOILED)


def _sheet(drawn, system, which):
    values = {name: drawn[name] for name in _SHOWN}
    values[which] = _SPOILED[which](drawn)
    listed = "; ".join(f"{words} {_text(values[name], system)}" for name, words in _SHOWN.items())
    options = [Option(f"{_SHOWN[which]}", "Right: " + _WHY[which](values, system))]
    options += [
        Option(
            words,
            "That one can be. Work out compressor efficiency and effectiveness, and see which reading spoils them.",
            "M18",
        )
        for name, words in _SHOWN.items()
        if name != which
    ]
    text = (
        f"A sheet of an air-to-air engine at full load says: {listed}; pressure ratio "
        f"{drawn['pressure_ratio']:.2f}. One of these readings cannot be. Which?"
    )
    return Case(text, tuple(options))


_SHOWN = {
    "core_air_temperature": "air at the core face",
    "compressor_inlet_temperature": "compressor inlet",
    "compressor_outlet_temperature": "compressor outlet",
    "manifold_temperature": "manifold",
}
_SPOILED = {
    "compressor_outlet_temperature": lambda d: (
        d["compressor_inlet_temperature"]
        + 0.75
        * (
            compression.ideal_outlet_temperature(1e5, d["compressor_inlet_temperature"], 1e5 * d["pressure_ratio"])
            - d["compressor_inlet_temperature"]
        )
    ),
    "manifold_temperature": lambda d: d["core_air_temperature"] - 12.0,
}
_WHY = {
    "compressor_outlet_temperature": lambda v, system: "the rise is below that of a compressor without any losses.",
    "manifold_temperature": lambda v, system: "the charge cannot leave colder than the air that cools it.",
}


def _text(kelvin, system):
    return f"{fixed(kelvin * 1.8 - 459.67, 0)} °F" if system == "us" else f"{fixed(kelvin - 273.15, 0)} °C"


QUESTIONS = (
    Choice(
        "order_the_stations",
        0,
        "name the four stations in order",
        1,
        (STATIONS, HIGHEST),
        ("What does the air meet first?", "Outside, filter, compressor, aftercooler, manifold."),
    ),
    Choice(
        "impossible_reading",
        57,
        "find the reading that cannot be",
        2,
        impossible_readings,
        ("Work out compressor efficiency and effectiveness.", "Neither can be above 1."),
        {"boost": (16, 32, "psi"), "effectiveness": (0.62, 0.88, "-")},
    ),
    Choice(
        "match_the_fault",
        0,
        "name the fault from its signature",
        3,
        FAULTS,
        (
            "Look at pairs of readings, not at one.",
            "Boost down and exhaust hotter is the air side; boost down and exhaust cooler is the fuel side.",
        ),
    ),
    Choice(
        "two_mechanics",
        0,
        "judge two opinions",
        2,
        MECHANICS,
        ("Which numbers would settle it?", "Work it out for a simple case."),
    ),
)
