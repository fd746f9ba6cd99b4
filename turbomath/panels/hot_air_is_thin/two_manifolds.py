"""Lesson 03: which manifold holds more air? Boost and temperature together decide; the box and the barometer stay."""

from turbomath import units
from turbomath.panels.hot_air_is_thin.picture_box_of_air import picture_box_of_air
from turbomath.panels.hot_air_is_thin.picture_equal_density import picture_equal_density, table_equal_density
from turbomath.physics import charge
from turbomath.table.errors import OutOfRangeError
from turbomath.units.rounding import fixed
from turbomath.units.shown import shown, words
from turbomath.widgets.answers import Answer, Table, readout
from turbomath.widgets.asking import Option, Question
from turbomath.widgets.controls import Control
from turbomath.widgets.desk import Sheet
from turbomath.widgets.panel import Panel, Ticket


def _boost(psi):
    return units.to_si(psi, "psi", "boost")


def _temperature(fahrenheit):
    return units.to_si(fahrenheit, "°F", "manifold_temperature")


BAROMETER = units.to_si(14.2, "psi abs", "barometer")
A = {"boost": _boost(20.0), "manifold_temperature": _temperature(300.0)}
B = {"boost": _boost(15.0), "manifold_temperature": _temperature(120.0)}
CONTROLS = (
    Control("boost", A["boost"], 0.0, _boost(40.0)),
    Control("manifold_temperature", A["manifold_temperature"], 283.15, 473.15, held=True),
    Control("barometer", BAROMETER, locked=True, us="psi abs", si="kPa abs"),
)
_BOX = {"us": "a cubic foot", "si": "a cubic metre"}
_MASS = {"us": "lb", "si": "kg"}


def panel_hot_air_is_thin():
    """Return the live panel of the lesson."""
    return Panel(Sheet("Which manifold holds more air?", PREDICTION, CONTROLS, answer, (("A", A), ("B", B))))


def ticket_hot_air_is_thin():
    """Return the exit ticket of the lesson."""
    return Ticket(TICKET)


def answer(controls, system):
    """Return what the panel shows: a chart, boxes of dots, a sentence, five read-outs and two tables."""
    pressure, temperature = controls.boost + controls.barometer, controls.manifold_temperature
    if pressure <= 0:
        said, least = words("boost", controls.boost, system), words("boost", controls.barometer, system)
        raise OutOfRangeError(f"{said} on the gauge is below a full vacuum, which here reads −{least}. Set more boost.")
    cases = (
        ("hot", "A", *_state(A, controls)),
        ("cooled", "B", *_state(B, controls)),
        ("measured", "yours", *_state(controls._asdict(), controls)),
    )
    a, b, yours = (case[-1] for case in cases)
    temperatures, boosts = CONTROLS[1].range, CONTROLS[0].range
    chart = picture_equal_density(
        controls.barometer, temperatures, boosts, [case[:4] for case in cases], system, held=controls.held
    )
    boxes = picture_box_of_air([(role, label, density) for role, label, _, _, density in cases], system)
    readouts = (
        readout("absolute pressure", "manifold_pressure", pressure, system),
        readout("absolute temperature", "manifold_temperature", temperature, system, {"us": "°R", "si": "K"}[system]),
        readout("density", "manifold_density", yours, system),
        readout("against A", "density_gain", yours / a - 1, system),
        readout("against B", "density_gain", yours / b - 1, system),
    )
    lines = Table("Boost that gives each density", *table_equal_density(controls.barometer, chart, system))
    sentence, table = _sentence(controls, yours, a, b, system), _table(cases, controls, system)
    return Answer((chart, boxes), sentence, readouts, (table, lines), own=("yours",))


def _state(case, controls):
    temperature, boost = case["manifold_temperature"], case["boost"]
    return temperature, boost, charge.density(boost + controls.barometer, temperature)


def _sentence(controls, yours, a, b, system):
    mass = shown("manifold_density", yours, system)[0]
    place = (
        f"At {words('boost', controls.boost, system)} of boost and "
        f"{words('manifold_temperature', controls.manifold_temperature, system)}"
    )
    return (
        f"{place}, {_BOX[system]} of manifold holds {mass} {_MASS[system]} of air: "
        f"{_against(yours / a - 1, 'A')}, {_against(yours / b - 1, 'B')}."
    )


def _against(gain, label):
    size = fixed(abs(gain) * 100, 1)
    if size == "0.0":
        return f"as much as {label}"
    return f"{size} % {'more' if gain > 0 else 'less'} than {label}"


def _table(cases, controls, system):
    columns = (
        ("boost", "boost"),
        ("absolute pressure", "manifold_pressure"),
        ("temperature", "manifold_temperature"),
        ("density", "manifold_density"),
    )
    heads = tuple(f"{head} [{units.display(name, system)}]" for head, name in columns)
    rows = []
    for _, label, temperature, boost, density in cases:
        values = (boost, boost + controls.barometer, temperature, density)
        rows.append((label, *(shown(name, value, system)[0] for (_, name), value in zip(columns, values, strict=True))))
    return Table("The same in numbers", ("manifold", *heads), tuple(rows))


def _outcome(system):
    a, b = (charge.density(case["boost"] + BAROMETER, case["manifold_temperature"]) for case in (A, B))
    first, second = (words("manifold_density", density, system) for density in (a, b))
    return f"B holds more: {second}, against {first} in A. Lower boost, more air."


PREDICTION = Question(
    "Two manifolds of the same size. The barometer reads 14.2 psi (97.9 kPa). Which one holds more air?",
    (
        Option(
            "A: 20 psi (138 kPa) of boost, 300 °F (149 °C)",
            "A has more boost, and many people stop there. But "
            "boost is not the amount of air: A is also much hotter, and hot air is thin.",
            "M4",
        ),
        Option(
            "B: 15 psi (103 kPa) of boost, 120 °F (49 °C)",
            "You saw that heat thins the air. Now find out how much heat undoes how much boost.",
            right=True,
        ),
        Option(
            "both the same",
            "The size says how much space there is, not how much air is in it. Pressure and temperature say that.",
            "M4",
        ),
        Option(
            "something else", "Good that you said so. Look at both below, then tell the class what you had in mind."
        ),
    ),
    outcome=_outcome,
)

TICKET = (
    Question(
        "The gauge shows 20 psi of boost, the barometer 14.2 psi. Which pressure belongs in the density formula?",
        (
            Option(
                "20 psi",
                "That is gauge pressure: it counts from the barometer. With the engine off the gauge "
                "shows 0, and the manifold still holds air. Add the barometer.",
                "M1",
            ),
            Option("34.2 psi", "Right: 20 + 14.2 = 34.2 psi absolute.", right=True),
            Option(
                "34.7 psi",
                "That is 20 + 14.7. The 14.7 is for a standard day at sea level; your shop's own barometer reads 14.2.",
                "M2",
            ),
            Option(
                "5.8 psi",
                "You took the barometer away. The gauge starts counting at the barometer, so it has to be added.",
                "M1",
            ),
            Option(
                "my answer is not here", "Tell your instructor what you got; then add gauge and barometer once more."
            ),
        ),
    ),
    Question(
        "Charge air cools from 300 °F to 150 °F at the same absolute pressure. What happens to its density?",
        (
            Option(
                "it doubles",
                "You divided 300 by 150. °F does not start at zero heat. Add 460 first: 760 ÷ 610 = 1.246.",
                "M3",
            ),
            Option("it rises by about 25 %", "Right: (300 + 460) ÷ (150 + 460) = 1.246.", right=True),
            Option(
                "it falls by about 20 %",
                "You have the fraction upside down: colder air is denser, so the hot temperature goes on top.",
                "M14",
            ),
            Option(
                "it stays the same",
                "The pressure stays, but the colder the air, the more of it fits at that pressure.",
                "M4",
            ),
            Option(
                "my answer is not here",
                "Tell your instructor what you got; then divide the two absolute temperatures once more.",
            ),
        ),
    ),
    Question(
        "An aftercooler is cleaned. The manifold is now cooler, and boost fell from 20 to 18 psi. Does the engine "
        "get less air?",
        (
            Option(
                "yes, boost is lower",
                "Boost is not air flow. Less boost with much cooler air can be more air: "
                "work out the density before and after.",
                "M4",
            ),
            Option(
                "it may get more: work out the density", "Right: pressure and temperature together decide.", right=True
            ),
            Option(
                "no change, the manifold is the same size",
                "The size is the same in both cases. What changed is how tightly the air is packed in it.",
                "M4",
            ),
            Option(
                "yes, by 10 %, since 18 is 10 % less than 20",
                "That compares gauge readings. With the barometer "
                "added, 32.2 against 34.2 psi is 6 % less, and the cooler air has not been counted yet.",
                "M1",
            ),
            Option("my answer is not here", "Tell your instructor what you think, and why."),
        ),
    ),
)
