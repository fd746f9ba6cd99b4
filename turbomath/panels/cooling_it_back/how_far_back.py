"""Lesson 04: how far an aftercooler cools the charge back; its effectiveness and the medium decide."""

from typing import Any

from turbomath import units
from turbomath.panels.cooling_it_back import LESSON
from turbomath.panels.cooling_it_back.picture_temperature_bars import picture_temperature_bars
from turbomath.physics import compression, cooling
from turbomath.table.constants import STANDARD_PRESSURE
from turbomath.units.rounding import NO_VALUE, fixed
from turbomath.units.shop import fahrenheit, psi
from turbomath.units.shown import DEGREE, RISE, shown, words
from turbomath.widgets.answers import Answer, Readout, Table, readout
from turbomath.widgets.controls import Choice, Control
from turbomath.widgets.engines import engine
from turbomath.widgets.panel import Panel

NONE, AIR = "no aftercooler", "air-to-air"
JACKET, SEPARATE = "jacket-water", "separate circuit"
WATERS = ((JACKET, "the engine's jacket"), (SEPARATE, "a separate circuit"))
ENDS = fahrenheit(-40.0), fahrenheit(400.0)
NEARLY_ONE = 0.995
DRAWN_BOOST = psi(24.0)
WATER_KINDS = {JACKET: "jacket-water", SEPARATE: "separate-circuit"}


def controls_from(hot: float, air: float, water: float, effectiveness: float) -> tuple[Control | Choice, ...]:
    """Return the controls with these temperatures [°F] and this effectiveness at the start."""
    return (
        Control("effectiveness", effectiveness, 0.0, 0.95),
        Control("compressor_outlet_temperature", *(fahrenheit(number) for number in (hot, 0.0, 450.0))),
        Control("core_face_temperature", *(fahrenheit(number) for number in (air, -40.0, 150.0))),
        Control(
            "engine_coolant_temperature",
            *(fahrenheit(number) for number in (water, 60.0, 230.0)),
        ),
        Choice("water", "water comes from", WATERS, JACKET, more=True),
    )


def case(hot: float, air: float, water: float, effectiveness: float) -> dict[str, float]:
    """Return the values of a named case; temperatures in °F."""
    return {one.name: one.start for one in controls_from(hot, air, water, effectiveness) if isinstance(one, Control)}


CONTROLS = controls_from(336.0, 77.0, 185.0, 0.80)
# 110 °F at the compressor inlet, pressure ratio 2.6, compressor efficiency 0.74
_HOT = compression.outlet_temperature(1.0, fahrenheit(110.0), 2.6, 0.74)
HOT_OUTLET = units.from_si(_HOT, "°F", "manifold_temperature")
QUESTION, HOT_DAY = (336.0, 77.0, 185.0, 0.80), (float(HOT_OUTLET), 104.0, 185.0, 0.78)
LIGHT_LOAD, COLD_MORNING = (160.0, 77.0, 190.0, 0.75), (60.0, -20.0, 160.0, 0.80)
CASES = {"the_question": case(*QUESTION), "hot_day": case(*HOT_DAY)}


def panel() -> Panel:
    """Return the live panel of the aftercooler at load."""
    return Panel(LESSON.words["cooling_it_back"].sheet(CONTROLS, answer, _outcome, CASES))


def answer(controls: Any, system: str) -> Answer:
    """Return what the panel shows: bars of three aftercoolers, a sentence, read-outs and a table."""
    hot, air, water = (
        controls.compressor_outlet_temperature,
        controls.core_face_temperature,
        controls.engine_coolant_temperature,
    )
    by_water, by_air = outlets(controls)
    groups = ((NONE, (hot, hot, None)), (controls.water, (hot, by_water, water)), (AIR, (hot, by_air, air)))
    picture = picture_temperature_bars("Temperature before and behind the aftercooler", groups, system, ends=ENDS)
    readouts = (
        readout("by water", "manifold_temperature", by_water, system),
        readout("air-to-air", "manifold_temperature", by_air, system),
        readout("its drop", "temperature_rise", hot - by_air, system, RISE[system]),
        readout("greatest drop", "temperature_rise", hot - air, system, RISE[system]),
        Readout(f"drop over {DEGREE[system]}", fixed_share(hot, by_air, system), "%"),
    )
    engines = _engines(controls, by_water, by_air, system)
    sentence = _sentence(controls, by_water, by_air, system)
    return Answer((picture,), sentence, readouts, (_table(groups, system),), engines=engines)


def _engines(controls, by_water, by_air, system):
    """The charge cooled by water, and by air, drawn at one boost: an aftercooler that loses no pressure."""
    kinds = (
        (AIR, "air-to-air", by_air, controls.core_face_temperature),
        (controls.water, WATER_KINDS[controls.water], by_water, controls.engine_coolant_temperature),
    )
    outside = STANDARD_PRESSURE, controls.core_face_temperature
    hot = STANDARD_PRESSURE + DRAWN_BOOST, controls.compressor_outlet_temperature
    return tuple(
        engine(
            f"{name.capitalize()}, drawn at {words('boost', DRAWN_BOOST, system)} of boost and the standard barometer",
            system,
            {"ambient": outside, "compressor_inlet": outside, "compressor_outlet": hot, "manifold": (hot[0], behind)},
            aftercooler=kind,
            medium_temperature=medium,
            speaks=("aftercooler", "manifold"),
        )
        for name, kind, behind, medium in kinds
    )


def outlets(controls: Any) -> tuple[float, float]:
    """Return the temperature behind the water-cooled and behind the air-to-air aftercooler [K]."""
    media = controls.engine_coolant_temperature, controls.core_face_temperature
    hot, share = controls.compressor_outlet_temperature, controls.effectiveness
    by_water, by_air = (float(cooling.outlet_temperature(hot, medium, share)) for medium in media)
    return by_water, by_air


def fixed_share(hot: float, cool: float, system: str) -> str:
    """Return the drop as per cent of the thermometer's number, which means nothing: it differs between °F and °C."""
    number = units.from_si(hot, DEGREE[system], "manifold_temperature")
    after = units.from_si(cool, DEGREE[system], "manifold_temperature")
    return fixed(100 * (number - after) / number, 0) if abs(number) >= 1 else NO_VALUE


def _sentence(controls, by_water, by_air, system):
    hot, air, water = (
        controls.compressor_outlet_temperature,
        controls.core_face_temperature,
        controls.engine_coolant_temperature,
    )
    if controls.effectiveness > NEARLY_ONE:
        return (
            "Effectiveness 1 would bring the charge all the way to the medium. That takes a core without end; "
            "no aftercooler does it."
        )
    before, wet, dry = (words("manifold_temperature", value, system) for value in (hot, by_water, by_air))
    if water > hot >= air:
        return (
            f"The charge comes at {before}, colder than the water: the water heats it to {wet}. "
            f"Air-to-air leaves {dry}."
        )
    drop, most = (fixed(units.from_si(hot - end, RISE[system], "temperature_rise"), 0) for end in (by_air, air))
    return (
        f"Air-to-air takes {drop} of {most} {RISE[system]}: {before} becomes {dry}. With the same effectiveness "
        f"water leaves {wet}."
    )


def _table(groups, system):
    heads = (
        "aftercooler",
        *(f"{place} [{DEGREE[system]}]" for place in ("T2", "T3", "medium in")),
        f"drop [{RISE[system]}]",
        f"greatest drop [{RISE[system]}]",
        f"drop over {DEGREE[system]}, wrong [%]",
    )
    rows = []
    for name, (hot, cool, medium) in groups:
        levels = [
            NO_VALUE if value is None else shown("manifold_temperature", value, system)[0]
            for value in (hot, cool, medium)
        ]
        drops = [
            NO_VALUE if end is None else shown("temperature_rise", hot - end, system, RISE[system])[0]
            for end in (cool, medium)
        ]
        rows.append((name, *levels, *drops, fixed_share(hot, cool, system)))
    return Table("The three in numbers", heads, tuple(rows))


def _outcome(system):
    hot, air, share = fahrenheit(QUESTION[0]), fahrenheit(QUESTION[1]), QUESTION[3]
    behind = cooling.outlet_temperature(hot, air, share)
    most, drop = (words("temperature_rise", hot - end, system, RISE[system]) for end in (air, behind))
    return {"behind": words("manifold_temperature", behind, system), "most": most, "drop": drop}
