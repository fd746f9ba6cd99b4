"""Lesson 06: the engine swallows the same volume every two turns; how many pounds that is, density decides."""

from typing import Any

from turbomath import units
from turbomath.panels.air_fuel_and_power import LESSON
from turbomath.physics import airflow, charge
from turbomath.pictures.bar_scales import FLOW, VOLUME
from turbomath.pictures.lying_bars import picture_lying_bars
from turbomath.table.errors import OutOfRangeError
from turbomath.units.rounding import fixed
from turbomath.units.shop import fahrenheit, psi
from turbomath.units.shown import shown, words
from turbomath.widgets.answers import Answer, Table, readout
from turbomath.widgets.controls import Choice, Control, at_start
from turbomath.widgets.engines import engine
from turbomath.widgets.panel import Panel

FOUR, TWO = "four-stroke", "two-stroke"
STROKES = {FOUR: 4, TWO: 2}
CYCLES = ((FOUR, "four-stroke: fills once in two turns"), (TWO, "two-stroke: fills in every turn"))
HOT, COOLED = fahrenheit(330.0), fahrenheit(130.0)
MANIFOLD = Control("manifold_temperature", COOLED, fahrenheit(40.0), fahrenheit(400.0))
BOOST = Control("boost", *(psi(number) for number in (22.0, 0.0, 40.0)))
SPEED = Control("engine_speed", *(units.to_si(rpm, "rpm", "engine_speed") for rpm in (1800.0, 600.0, 2400.0)))
DISPLACEMENT = Control("displacement", *(units.to_si(litres, "L", "displacement") for litres in (12.7, 5.0, 17.0)))
BAROMETER = Control("barometer", units.to_si(28.60, "inHg", "barometer"), more=True)
AMBIENT = Control("ambient_temperature", fahrenheit(85.0), more=True)
CONTROLS = (
    MANIFOLD,
    BOOST,
    SPEED,
    DISPLACEMENT,
    Control("volumetric_efficiency", 0.92, 0.6, 1.05, more=True),
    BAROMETER,
    AMBIENT,
    Choice("cycle", "working cycle", CYCLES, FOUR, more=True),
)
CASES = {"cooled": {"manifold_temperature": COOLED}, "not_cooled": {"manifold_temperature": HOT}}


def panel() -> Panel:
    """Return the live panel of the air that an engine swallows."""
    return Panel(LESSON.words["air_fuel_and_power"].sheet(CONTROLS, answer, _outcome, CASES))


def answer(controls: Any, system: str) -> Answer:
    """Return what the panel shows: the swallow hot and as it is set, a sentence, read-outs and two tables."""
    hot, here = swallowed(controls, HOT), swallowed(controls, controls.manifold_temperature)
    readouts = (
        readout("swallowed", VOLUME, here["swallowed"], system),
        readout("density", "manifold_density", here["density"], system),
        readout("air", FLOW, here["air"], system),
        readout("outside", VOLUME, here["outside"], system),
    )
    picture, sentence = _picture(controls, hot, here, system), _sentence(controls, hot, here, system)
    tables = (_table(controls, hot, here, system), _slips(controls, here, system))
    return Answer((picture,), sentence, readouts, tables, engines=(_engine(controls, system),))


def _engine(controls, system):
    """What fills the manifold and then the cylinder; how it became so is drawn and not told."""
    outside = controls.barometer, controls.ambient_temperature
    there = manifold_pressure(controls), controls.manifold_temperature
    stations = {"ambient": outside, "compressor_inlet": outside, "compressor_outlet": there, "manifold": there}
    silent = ("compressor_inlet", "compressor_outlet")
    return engine("What each filling takes in", system, stations, speaks=("manifold", "cylinder"), silent=silent)


def swallowed(controls: Any, temperature: float) -> dict[str, float]:
    """Return density, mass flow, and the volume flows in the manifold and outside, at a manifold temperature."""
    density = charge.density(manifold_pressure(controls), temperature)
    air = airflow.mass_flow(
        density, controls.displacement, controls.engine_speed, controls.volumetric_efficiency, STROKES[controls.cycle]
    )
    return {
        "density": density,
        "air": air,
        "swallowed": airflow.volume_flow(air, density),
        "outside": airflow.volume_flow(air, ambient_density(controls)),
    }


def manifold_pressure(controls: Any) -> float:
    """Return the absolute pressure in the manifold [Pa]; a boost below a full vacuum is refused."""
    pressure = controls.barometer + controls.boost
    if pressure <= 0:
        raise OutOfRangeError("that boost is below a full vacuum. Read the gauge and the barometer again.")
    return pressure


def ambient_density(controls: Any) -> float:
    """Return the density of the air outside [kg/m³]."""
    return charge.density(controls.barometer, controls.ambient_temperature)


def _filling(controls):
    return controls.displacement * controls.volumetric_efficiency


def _litres(volume):
    return fixed(units.from_si(volume, "L", "displacement"), 2)


def _picture(controls, hot, here, system):
    before, now = (words("manifold_temperature", value, system) for value in (HOT, controls.manifold_temperature))
    cool = "cooled" if controls.manifold_temperature < HOT else "hot"
    groups = [
        told.group_of(
            heading,
            (
                ("ambient" if name == "outside" else "hot", before, hot[name]),
                ("ambient" if name == "outside" else cool, f"yours, {now}", here[name]),
            ),
            system,
        )
        for heading, name, told in (
            ("volume swallowed, as it is in the manifold", "swallowed", VOLUME),
            ("mass of that air", "air", FLOW),
            ("the same air as a volume outside", "outside", VOLUME),
        )
    ]
    return picture_lying_bars("One engine at one boost: a hot charge, and yours", groups)


def _sentence(controls, hot, here, system):
    fillings = 60 * controls.engine_speed / _turns(controls)
    density = words("manifold_density", here["density"], system)
    gain, before = here["density"] / hot["density"] - 1, words("manifold_temperature", HOT, system)
    size = fixed(100 * abs(gain), 1)
    against = f"{size} % {'more' if gain > 0 else 'less'} than at" if size != "0.0" else "as much as at"
    return (
        f"{_litres(_filling(controls))} L, {fixed(fillings, 0)} times a minute, is "
        f"{VOLUME.words(here['swallowed'], system)}. At {density} that is {FLOW.words(here['air'], system)} of "
        f"air, {against} {before}."
    )


def _table(controls, hot, here, system):
    """Return the steps of the sum, hot and as it is set."""
    unit, degree = units.display("manifold_density", system), units.display("manifold_temperature", system)
    inches = fixed(units.from_si(controls.displacement, "in³", "displacement"), 0)
    both = (hot, here)
    rows = (
        (
            f"manifold temperature [{degree}]",
            *(shown("manifold_temperature", value, system)[0] for value in (HOT, controls.manifold_temperature)),
        ),
        ("displacement [L]", *(_litres(controls.displacement),) * 2),
        ("displacement [in³]", *(inches,) * 2),
        ("each filling [L]", *(_litres(_filling(controls)),) * 2),
        (f"density [{unit}]", *(shown("manifold_density", one["density"], system)[0] for one in both)),
        *(
            (f"{name} [{told.unit(system)}]", *(told.text(one[name], system) for one in both))
            for name, told in (("swallowed", VOLUME), ("air", FLOW), ("outside", VOLUME))
        ),
    )
    return Table("The same in numbers", ("step", "hot", "yours"), rows)


def _slips(controls, here, system):
    """Return what usual slips make of the air flow."""
    air = here["air"]
    made = (
        ("none: this is right", air),
        ("filled in every turn (a four-stroke does in every second)", air * _turns(controls)),
        ("density outside in place of the manifold's", air * ambient_density(controls) / here["density"]),
        ("volumetric efficiency left out", air / controls.volumetric_efficiency),
        ("144 in³ to the cubic foot (1,728 are)", 12 * air),
    )
    rows = tuple((name, FLOW.text(value, system)) for name, value in made)
    return Table("What slips make of it", ("slip", f"air [{FLOW.unit(system)}]"), rows)


def _turns(controls):
    """Return how many turns of the crankshaft one filling takes."""
    return STROKES[controls.cycle] / 2


def _outcome(system):
    start = at_start(CONTROLS)
    hot, here = swallowed(start, HOT)["air"], swallowed(start, COOLED)["air"]
    return {
        "more": fixed(100 * (here / hot - 1), 0),
        "cooled": FLOW.words(here, system),
        "hot": FLOW.words(hot, system),
    }
