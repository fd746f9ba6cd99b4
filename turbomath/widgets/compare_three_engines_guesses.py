"""Lesson 10, second panel: why this engine makes this boost: guess, follow the air, compare two powers, guess again."""

from dataclasses import replace

from turbomath.engine import guessing
from turbomath.errors import OutOfRangeError
from turbomath.pictures.closing_in import picture_closing_in
from turbomath.pictures.rounding import fixed
from turbomath.widgets.air_fuel_and_power_told import FLOW, POWER
from turbomath.widgets.answers import Answer, Readout, Table
from turbomath.widgets.asking import Option, Question
from turbomath.widgets.compare_three_engines import HEIGHT, OUTSIDE, SHORT, si
from turbomath.widgets.compare_three_engines_held import AIR, NAMES, SAME, site_of
from turbomath.widgets.compare_three_engines_told import EXHAUST, GAUGE, MANIFOLD, OUTLET, PRESSURES, signed
from turbomath.widgets.controls import Choice, Control, at_start
from turbomath.widgets.desk import Sheet
from turbomath.widgets.panel import Panel

CONTROLS = (
    Choice("cooler", "aftercooler", tuple((name, SHORT[name]) for name in NAMES), AIR),
    Control("pressure_ratio", 2.0, 1.1, 4.9),
    Control("fuel_flow", SAME[AIR].rated_fuel_flow, *(si(pounds, "lb/h", "fuel_flow") for pounds in (20.0, 160.0))),
    OUTSIDE, replace(HEIGHT, more=True),
)  # fmt: skip
TITLE = "Two powers on one shaft; 1 to 4 along the foot are the first guesses in turn"
LOWEST, HIGHEST = 1.0, 5.0  # pressure ratios between which a guess may lie
MOST = (si(50.0, "psi", "boost"), si(140.0, "hp", "power"))
CLOSE = 0.001  # share of the compressor's power; so close that the boost agrees with the first panel's
FINE = replace(POWER, us=("hp", 1), si=("kW", 1))  # so that the difference can be followed


def panel_closing_in():
    """Return the live panel of guesses that close in on the boost."""
    return Panel(Sheet("Who sets the boost?", PREDICTION, CONTROLS, answer))


def answer(controls, system):
    """Return what the panel shows: two powers at each guess, what they come to, read-outs, and the guesses in turn."""
    worked = guesses(controls)
    brought = [one.compressor_power + one.power_to_spare for one in worked]
    picture = picture_closing_in(TITLE, [one.boost for one in worked], brought,
                                 [one.compressor_power for one in worked], system, MOST)  # fmt: skip
    last = worked[-1]
    readouts = (
        Readout("guesses", str(len(worked)), ""),
        GAUGE.readout("boost", last.boost, system),
        FLOW.readout("air", last.mass_flow, system),
        EXHAUST.readout("exhaust", last.turbine_inlet_temperature, system),
        FINE.readout("compressor takes", last.compressor_power, system),
    )
    table = _table(worked, site_of(controls.elevation, controls.ambient_temperature)["ambient_pressure"], system)
    return Answer((picture,), _sentence(worked, system), readouts, (table,))


def guesses(controls):
    """Return the guesses, one after another, from the reader's first to the one that is in balance."""
    if not LOWEST < controls.pressure_ratio < HIGHEST:
        raise OutOfRangeError(f"guess a pressure ratio between {LOWEST:g} and {HIGHEST:g}; no turbocharger of this "
                              "sort is outside.")  # fmt: skip
    engine = SAME[controls.cooler]
    if not 0 < controls.fuel_flow <= engine.greatest_fuel_flow:
        raise OutOfRangeError("this engine burns more than nothing and no more than its fuel stop gives. Set a fuel "
                              "between.")  # fmt: skip
    site = site_of(controls.elevation, controls.ambient_temperature)
    worked = guessing.steps(engine, **site, fuel_flow=controls.fuel_flow, first_guess=controls.pressure_ratio,
                            closeness=CLOSE)  # fmt: skip
    if worked[-1].verdict != guessing.BALANCED:
        raise OutOfRangeError("no guess comes to a balance there. Set fuel, temperature and height nearer to where "
                              "they were.")  # fmt: skip
    return worked


def _sentence(worked, system):
    first, last = worked[0], worked[-1]
    spare = FINE.words(abs(first.power_to_spare), system)
    end = f"At {GAUGE.words(last.boost, system)} the shaft brings what the compressor takes: that is the boost."
    if first.verdict == guessing.BALANCED:
        return f"Your first guess is in balance. {end}"
    if first.verdict == guessing.MORE:
        return f"At your first guess the shaft has {spare} to spare: it speeds up, and the boost climbs. {end}"
    return f"At your first guess the shaft is {spare} short: it slows down, and the boost falls. {end}"


def _table(worked, outside, system):
    """Return the guesses in turn, with what follows from each."""
    columns = ((GAUGE, "boost", "boost"), (FLOW, "air", "mass_flow"), (OUTLET, "T2", "compressor_outlet_temperature"),
               (MANIFOLD, "T3", "manifold_temperature"), (EXHAUST, "exhaust", "turbine_inlet_temperature"),
               (PRESSURES, "expansion ratio", "expansion_ratio"),
               (FINE, "compressor takes", "compressor_power"))  # fmt: skip
    heads = ("guess", "outlet over ambient", *(f"{name} [{told.unit(system)}]".removesuffix(" [-]")
                                               for told, name, _ in columns),
             f"to spare [{FINE.unit(system)}]", "verdict")  # fmt: skip
    rows = tuple((str(turn), fixed(one.compressor_outlet_pressure / outside, 2),
                  *(told.text(getattr(one, field), system) for told, _, field in columns),
                  signed(FINE.number(one.power_to_spare, system), 1), one.verdict)
                 for turn, one in enumerate(worked, 1))  # fmt: skip
    return Table("Guess after guess (INVENTED engine)", heads, rows)


def _outcome(system):
    worked = guesses(at_start(CONTROLS))
    spare = FINE.words(worked[0].power_to_spare, system)
    return (f"The balance. At {GAUGE.words(worked[0].boost, system)} the shaft has {spare} to spare and speeds up. The "
            f"boost climbs until nothing is to spare, at {GAUGE.words(worked[-1].boost, system)}.")  # fmt: skip


PREDICTION = Question(
    "An engine without a wastegate pulls at a steady load. Who sets its boost?",
    (
        Option("the compressor: it squeezes by its own ratio", "A compressor has no ratio of its own. How hard it "
               "squeezes follows from its speed, and that follows from the power it is given."),
        Option("a setting of the maker: the rated boost", "The rated boost is what came out on the maker's test day. "
               "This engine has no part that holds it."),
        Option("the fuel alone: the same fuel, the same boost", "You saw one fuel at three boosts. Fuel brings the "
               "heat; the air it meets decides how hot the exhaust gets.", "M4"),
        Option("the balance: what the turbine brings and the compressor takes", "Now guess for yourself, too low and "
               "too high, and follow the guesses.", right=True),
        Option("something else", "Good that you said so. Make a guess, and follow it."),
    ),
    outcome=_outcome,
)  # fmt: skip
