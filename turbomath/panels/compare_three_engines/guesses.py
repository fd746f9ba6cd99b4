"""Lesson 10, second panel: why this engine makes this boost: guess, follow the air, compare two powers, guess again."""

from dataclasses import replace
from typing import Any

from turbomath.engine import balance, guessing
from turbomath.panels.compare_three_engines import LESSON
from turbomath.panels.compare_three_engines.bars_and_table import EXHAUST, GAUGE, MANIFOLD, signed
from turbomath.panels.compare_three_engines.beyond import beyond, joined
from turbomath.panels.compare_three_engines.fitted_cooler import HEIGHT, OUTSIDE, SHORT
from turbomath.panels.compare_three_engines.held import AIR, NAMES, SAME, site_of
from turbomath.panels.compare_three_engines.picture_closing_in import picture_closing_in
from turbomath.pictures.bar_scales import FINE_POWER, FLOW
from turbomath.table.errors import OutOfRangeError
from turbomath.table.records import each_point
from turbomath.units import to_si
from turbomath.units.rounding import fixed
from turbomath.units.shop import psi
from turbomath.widgets.answers import Answer, Readout, Table, readout
from turbomath.widgets.cases import Cases, alike, in_columns
from turbomath.widgets.controls import Choice, Control, at_start
from turbomath.widgets.panel import Panel

CONTROLS = (
    Choice("cooler", "aftercooler", tuple((name, SHORT[name]) for name in NAMES), AIR),
    Control("pressure_ratio", 2.0, 1.1, 4.9),
    Control("fuel_flow", SAME[AIR].rated_fuel_flow, *(to_si(pounds, "lb/h", "fuel_flow") for pounds in (20.0, 160.0))),
    OUTSIDE,
    replace(HEIGHT, more=True),
)
NEXT = {guessing.MORE: "higher", guessing.LESS: "lower", guessing.BALANCED: "stop"}
TITLE = "Two powers on one shaft; 1 to 4 are the first guesses in turn"
LOWEST, HIGHEST = 1.0, 5.0  # pressure ratios between which a guess may lie
MOST = (psi(50.0), to_si(140.0, "hp", "power"))
CLOSE = 0.01  # share of the compressor's power within which a guess is near enough


def panel() -> Panel:
    """Return the live panel of guesses that close in on the boost."""
    return Panel(LESSON.words["closing_in"].sheet(CONTROLS, answer, _outcome, together=closing_in.together))


def answer(controls: Any, system: str) -> Answer:
    """Return what the panel shows: two powers at each guess, what they come to, read-outs, and the guesses in turn."""
    worked, rest = closing_in(controls)
    boosts = [*(one.boost for one in worked), rest.boost]
    brought = [*(one.compressor_power + one.power_to_spare for one in worked), rest.compressor_power]
    taken = [*(one.compressor_power for one in worked), rest.compressor_power]
    picture = picture_closing_in(TITLE, boosts, brought, taken, system, MOST)
    readouts = (
        Readout("guesses", str(len(worked)), ""),
        readout("boost", GAUGE, rest.boost, system),
        readout("air", FLOW, rest.mass_flow, system),
        readout("exhaust", EXHAUST, rest.turbine_inlet_temperature, system),
        readout("compressor takes", FINE_POWER, rest.compressor_power, system),
    )
    past = beyond({controls.cooler: (SAME[controls.cooler], rest)}, {controls.cooler: ""}, system)
    sentence = joined(_sentence(worked, rest, system), past)
    return Answer((picture,), sentence, readouts, (_table(worked, rest, system),))


def _case(controls):
    """Return what the guesses follow from."""
    if not LOWEST < controls.pressure_ratio < HIGHEST:
        raise OutOfRangeError(
            f"guess a pressure ratio between {LOWEST:g} and {HIGHEST:g}; no turbocharger of this sort is outside."
        )
    if not 0 < controls.fuel_flow <= SAME[controls.cooler].greatest_fuel_flow:
        raise OutOfRangeError(
            "this engine burns more than nothing and no more than its fuel stop gives. Set a fuel between."
        )
    return (
        controls.cooler,
        controls.pressure_ratio,
        controls.elevation,
        controls.ambient_temperature,
        controls.fuel_flow,
    )


@alike
def _closing_in(cooler, cases):
    first, elevation, temperature, fuel = in_columns(cases)
    given = {"engine": SAME[cooler], **site_of(elevation, temperature), "fuel_flow": fuel}
    worked = guessing.steps_of_many(**given, first_guess=first, closeness=CLOSE)
    return [
        (one, rest)
        if one[-1].verdict == guessing.BALANCED
        else OutOfRangeError(
            "no guess comes to a balance there. Set fuel, temperature and height nearer to where they were."
        )
        for one, rest in zip(worked, each_point(balance.solve(**given)), strict=True)
    ]


# For a record of controls: the guesses, one after another, from the reader's first to the one that is in balance; and
# the balance that they come to
closing_in = Cases(_case, _closing_in)


def _sentence(worked, rest, system):
    first = worked[0]
    spare = FINE_POWER.words(abs(first.power_to_spare), system)
    end = f"At {GAUGE.words(rest.boost, system)} the shaft brings what the compressor takes: that is the boost."
    if first.verdict == guessing.BALANCED:
        return f"Your first guess is near enough. {end}"
    if first.verdict == guessing.MORE:
        return f"At your first guess the shaft has {spare} to spare: it speeds up, and the boost climbs. {end}"
    return f"At your first guess the shaft is {spare} short: it slows down, and the boost falls. {end}"


def _table(worked, rest, system):
    """Return the guesses in turn with what follows from each, and the balance that they come to."""
    columns = (
        (GAUGE, "boost", "boost"),
        (FLOW, "air", "mass_flow"),
        (MANIFOLD, "T3", "manifold_temperature"),
        (EXHAUST, "exhaust", "turbine_inlet_temperature"),
        (FINE_POWER, "compressor takes", "compressor_power"),
    )
    heads = (
        "guess",
        "outlet over ambient",
        *(f"{name} [{told.unit(system)}]" for told, name, _ in columns),
        f"to spare [{FINE_POWER.unit(system)}]",
        "next guess",
    )

    def row(name, one, spare, verdict):
        return (
            name,
            fixed(one.compressor_outlet_pressure / rest.ambient_pressure, 2),
            *(told.text(getattr(one, field), system) for told, _, field in columns),
            signed(FINE_POWER.number(spare, system), 1),
            verdict,
        )

    rows = [row(str(turn), one, one.power_to_spare, NEXT[one.verdict]) for turn, one in enumerate(worked, 1)]
    return Table("Guess after guess (INVENTED engine)", heads, (*rows, row("balance", rest, 0.0, "–")))


def _outcome(system):
    start = at_start(CONTROLS)
    worked, rest = closing_in(start)
    first = worked[0]
    return {
        "first": GAUGE.words(first.boost, system),
        "spare": FINE_POWER.words(first.power_to_spare, system),
        "boost": GAUGE.words(rest.boost, system),
    }
