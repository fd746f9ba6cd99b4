"""Lesson 11: what hand work leaves out of the air, how far that puts its numbers off, and whether gauges can tell."""

from typing import Any

from turbomath import units
from turbomath.panels.is_ideal_air_good_enough import LESSON
from turbomath.panels.is_ideal_air_good_enough.models import COLDEST, MEANING, MODELS, TAKEN, airs, apart, gauges
from turbomath.panels.is_ideal_air_good_enough.picture_left_out import WITHIN, picture_left_out, verdict
from turbomath.pictures.air_path import picture_air_path
from turbomath.table.constants import STANDARD_PRESSURE
from turbomath.units.rounding import fixed
from turbomath.units.shown import RISE, head, shown
from turbomath.widgets.answers import Answer, Readout, Table, readout
from turbomath.widgets.controls import Choice, Control, at_start
from turbomath.widgets.panel import Panel


def _air(celsius):
    return units.to_si(celsius, "°C", "ambient_temperature")


GRADES = (
    ("B", "grade B: ± 3, 2, 3 % of span"),
    ("A", "grade A: ± 2, 1, 2 % of span"),
    ("2A", "grade 2A: ± 0.5 % of span"),
)
LIMITS = (
    ("standard", {"us": "type K: ± 4.0 F° or 0.75 %", "si": "type K: ± 2.2 C° or 0.75 %"}),
    ("special", {"us": "type K, special: ± 2.0 F° or 0.4 %", "si": "type K, special: ± 1.1 C° or 0.4 %"}),
)
CONTROLS = (
    Control("ambient_temperature", 300.0, COLDEST, _air(50.0)),
    Control("pressure_ratio", 3.0, 1.0, 5.0),
    Control("relative_humidity", 1.0),
    Control("compressor_efficiency", 0.74, 0.50, 0.85),
    Control("effectiveness", 0.80, 0.0, 0.95, more=True),
    Control("barometer", STANDARD_PRESSURE, more=True),
    Choice("grade", "boost gauge, 0 to 60 psi (414 kPa)", GRADES, "A", more=True),
    Choice("thermocouple", "thermometers", LIMITS, "standard", more=True),
)
MOST_RISE, MOST_CHARGE = {"us": 8.0, "si": 5.0}, 5.0  # F° and C°, %: so far the scales reach at least
SPEAKS = ("compressor", "aftercooler", "manifold")
TITLE = "The air path, with real air and its water"
LEAST_WATER = 5e-5  # kg/kg, the least that is told


def _case(temperature, ratio, humidity, effectiveness=0.80):
    return {
        "ambient_temperature": temperature,
        "pressure_ratio": ratio,
        "relative_humidity": humidity,
        "compressor_efficiency": 0.74,
        "effectiveness": effectiveness,
    }


CASES = {
    "wet_day": _case(300.0, 3.0, 1.0),
    "dry_day": _case(300.0, 3.0, 0.0),
    "hard_squeeze": _case(300.0, 5.0, 0.0),
    "deep_cold": _case(COLDEST, 5.0, 1.0, 0.90),
}


def panel() -> Panel:
    """Return the live panel of four models of air beside the gauges."""
    return Panel(
        LESSON.words["is_ideal_air_good_enough"].sheet(CONTROLS, answer, _outcome, CASES, together=airs.together)
    )


def answer(controls: Any, system: str) -> Answer:
    """Return what the panel shows: the air path, two pictures of what is left out, a sentence, read-outs, tables."""
    found = airs(controls)
    (outlet, charge), (thermometer, density) = apart(found), gauges(controls, found["moist"])
    outlet = tuple(_rise(off, system) for off in outlet)
    known = _rise(thermometer, system), 100 * density
    charge = tuple(100 * off for off in charge)
    pictures = (
        picture_left_out(
            "Outlet temperature: how far hand work is off",
            tuple(zip(TAKEN, outlet, strict=True)),
            known[0],
            "thermometer",
            RISE[system],
            most=MOST_RISE[system],
        ),
        picture_left_out(
            "Dry air in the charge: how far hand work is off",
            tuple(zip(TAKEN, charge, strict=True)),
            known[1],
            "gauges",
            "%",
            most=MOST_CHARGE,
        ),
    )
    readouts = (
        readout("outlet, wet air", "compressor_outlet_temperature", found["moist"].outlet, system),
        Readout("hand work, outlet", _signed(sum(outlet), 1), RISE[system]),
        readout("charge, dry air", "dry_air_density", found["moist"].charge, system),
        Readout("hand work, charge", _signed(sum(charge), 1), "%"),
        Readout("gauges, charge", f"± {fixed(known[1], 1)}", "%"),
    )
    tables = (_models(found, system), *(Table(one.title, one.heads, one.rows) for one in pictures))
    engines = (_engine(found["moist"], controls, system),)
    return Answer(pictures, _sentence(found, outlet, charge, known, system), readouts, tables, engines=engines)


def _engine(real, controls, system):
    """The way of the air as it is, real and wet; outside air cools it."""
    medium = controls.ambient_temperature
    return picture_air_path(TITLE, real.way, "air-to-air", system, medium_temperature=medium, speaks=SPEAKS)


def _rise(difference, system):
    return float(units.from_si(difference, RISE[system], "temperature_rise"))


def _signed(number, places):
    text = fixed(number, places)
    return text if text.startswith("−") or float(text) == 0 else f"+{text}"


def _most(offs):
    """Return what puts a number furthest off, and how far."""
    return max(zip(TAKEN, offs, strict=True), key=lambda one: abs(one[1]))


def _beside(off, plus_or_minus, unit):
    """Return in words how a number that is off compares with the ± of the gauges."""
    known = f"±\u00a0{fixed(plus_or_minus, 1)} {unit}"
    return f"within the {known}" if verdict(off, plus_or_minus) == WITHIN else f"more than the {known}"


def _sentence(found, outlet, charge, known, system):
    (taken, off), (hot, rise) = _most(charge), _most(outlet)
    way, heat = "too much" if off > 0 else "too little", "too hot" if rise > 0 else "too cool"
    water = found["moist"].condensate
    drops = f" {fixed(1e3 * water, 1)} g/kg of water form drops behind the aftercooler." if water > LEAST_WATER else ""
    return (
        f"Charge: “{taken}” is most off, {fixed(abs(off), 2)} % {way}, {_beside(off, known[1], '%')}. "
        f"Outlet: “{hot}”, {fixed(abs(rise), 1)} {RISE[system]} {heat}, "
        f"{_beside(rise, known[0], RISE[system])}.{drops}"
    )


def _models(found, system):
    names = ("compressor_outlet_temperature", "manifold_temperature", "manifold_dry_air_density")
    rows = []
    for model in MODELS:
        one, best = found[model], found["moist"]
        texts = (
            shown(name, value, system)[0]
            for name, value in zip(names, (one.outlet, one.manifold, one.charge), strict=True)
        )
        off = _signed(_rise(one.outlet - best.outlet, system), 2), _signed(100 * (one.charge / best.charge - 1), 2)
        rows.append((MEANING[model], *texts, *off))
    heads = ("air", *(head(name, system) for name in names), f"outlet off [{RISE[system]}]", "charge off [%]")
    return Table("Four models of air", heads, tuple(rows))


def _outcome(system):
    found = airs(at_start(CONTROLS))
    _, charge = apart(found)
    gamma, ideal, water = (fixed(abs(100 * off), 2 if abs(off) < 0.01 else 1) for off in charge)
    return {"water": water, "gamma": gamma, "ideal": ideal}
