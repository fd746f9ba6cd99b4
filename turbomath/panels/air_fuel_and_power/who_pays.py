"""Lesson 06, fourth panel: the turbine pays for the compressor, with heat and with pressure before it."""

from collections import namedtuple
from dataclasses import replace
from typing import Any

from turbomath import units
from turbomath.panels.air_fuel_and_power import LESSON
from turbomath.panels.air_fuel_and_power.swallow import BAROMETER, BOOST, manifold_pressure
from turbomath.physics import compression, turbine
from turbomath.pictures.bar_scales import ABOVE, ABSOLUTE, CHANGE, FINE_POWER, POWER
from turbomath.pictures.lying_bars import picture_lying_bars
from turbomath.table.errors import OutOfRangeError
from turbomath.units.rounding import NO_VALUE, fixed
from turbomath.units.shop import fahrenheit, pounds_per_minute
from turbomath.units.shown import words
from turbomath.widgets.answers import Answer, Table, readout
from turbomath.widgets.controls import Control, at_start
from turbomath.widgets.panel import Panel


def _mercury(inches):
    return units.to_si(inches, "inHg", "exhaust_back_pressure")


# Burnt gas as a perfect gas, for hand work: the usual values of Saravanamuttoo and others, section 2.2
SPECIFIC_HEAT, HEAT_CAPACITY_RATIO = 1148.0, 4 / 3  # J/(kg K), -
FLOW, LEAST_FLOW, MOST_FLOW = (pounds_per_minute(number) for number in (60.0, 10.0, 110.0))
CONTROLS = (
    Control("turbine_inlet_temperature", *(fahrenheit(number) for number in (1100.0, 600.0, 1400.0))),
    Control("turbine_efficiency", 0.70, 0.45, 0.85),
    Control("compressor_outlet_temperature", *(fahrenheit(number) for number in (330.0, 100.0, 450.0))),
    Control("mass_flow", FLOW, LEAST_FLOW, MOST_FLOW, us="lb/min", si="kg/min"),
    Control("compressor_inlet_temperature", fahrenheit(85.0), more=True),
    Control("air_fuel_ratio", 24.0, 18.0, 60.0, more=True),
    Control("shaft_efficiency", 0.96, 0.90, 1.0, more=True),
    Control("exhaust_back_pressure", _mercury(1.5), 0.0, _mercury(10.0), more=True),
    replace(BOOST, more=True),
    BAROMETER,
)
CASES = {"good_turbine": {"turbine_efficiency": 0.70}, "worn_turbine": {"turbine_efficiency": 0.55}}
EFFICIENCIES = (0.50, 0.55, 0.60, 0.65, 0.70, 0.75, 0.80)
MOST_RATIO = 20.0  # no single turbine works at more
Shaft = namedtuple("Shaft", "taken given cooled ratio before after manifold")


def panel() -> Panel:
    """Return the live panel of the turbine and the shaft."""
    return Panel(LESSON.words["who_pays"].sheet(CONTROLS, answer, _outcome, CASES))


def answer(controls: Any, system: str) -> Answer:
    """Return what the panel shows: powers, temperatures and pressures as bars, a sentence, read-outs and tables."""
    found = shaft(controls)
    readouts = (
        readout("compressor takes", POWER, found.taken, system),
        readout("exhaust out", "turbine_outlet_temperature", found.cooled, system),
        readout("before turbine", ABSOLUTE, found.before, system),
        readout("over manifold", ABOVE, found.before - found.manifold, system),
    )
    tables = _balance(controls, found, system), _by_efficiency(controls, system)
    return Answer((_picture(controls, found, system),), _sentence(controls, found, system), readouts, tables)


def shaft(controls: Any) -> Shaft:
    """Return the balance of the shaft: powers [W], exhaust after the turbine [K], expansion ratio, pressures [Pa]."""
    hot, efficiency, mass = controls.turbine_inlet_temperature, controls.turbine_efficiency, exhaust(controls)
    taken = controls.mass_flow * _work(controls)
    given = taken / controls.shaft_efficiency
    wanted = given / mass if mass > 0 else 0.0
    ratio = turbine.expansion_ratio(hot, wanted, efficiency, SPECIFIC_HEAT, HEAT_CAPACITY_RATIO)
    if not ratio <= MOST_RATIO:
        raise OutOfRangeError(
            "no pressure before this turbine would give so much work. Set hotter exhaust, a better "
            "turbine or a cooler compressor outlet."
        )
    cooled = turbine.outlet_temperature(hot, ratio, efficiency, HEAT_CAPACITY_RATIO)
    after = _pressure_after(controls)
    return Shaft(taken, given, cooled, ratio, ratio * after, after, manifold_pressure(controls))


def _work(controls):
    work = compression.specific_work(controls.compressor_inlet_temperature, controls.compressor_outlet_temperature)
    if work < 0:
        raise OutOfRangeError("the air would leave the compressor colder than it came. Set a hotter outlet.")
    return work


def _pressure_after(controls):
    after = controls.barometer + controls.exhaust_back_pressure
    if after <= 0:
        raise OutOfRangeError("that back pressure is below a full vacuum. Read the gauge again.")
    return after


def exhaust(controls: Any) -> float:
    """Return the mass flow of exhaust [kg/s]: the air and its fuel."""
    return controls.mass_flow * (1 + 1 / controls.air_fuel_ratio)


def _picture(controls, found, system):
    rise = controls.compressor_outlet_temperature - controls.compressor_inlet_temperature
    groups = (
        POWER.group_of(
            "power", (("measured", "turbine gives", found.given), ("hot", "compressor takes", found.taken)), system
        ),
        CHANGE.group_of(
            "change of temperature",
            (
                ("measured", "exhaust cools by", controls.turbine_inlet_temperature - found.cooled),
                ("hot", "air warms by", rise),
            ),
            system,
        ),
        ABSOLUTE.group_of(
            "absolute pressure",
            (
                ("measured", "before the turbine", found.before),
                ("ambient", "after the turbine", found.after),
                ("cooled", "in the manifold", found.manifold),
            ),
            system,
        ),
    )
    return picture_lying_bars("The shaft in balance, and the pressures on both sides of the pistons", groups)


def _sentence(controls, found, system):
    hot, cold = (
        words("turbine_outlet_temperature", value, system)
        for value in (controls.turbine_inlet_temperature, found.cooled)
    )
    told = f"The exhaust pays {POWER.words(found.given, system)}: it cools from {hot} to {cold}"
    over = found.before - found.manifold
    by = ABOVE.text(abs(over), system)
    if float(by) == 0:
        return f"{told}. Before the turbine it stands as high as the manifold: the pistons neither gain nor pay."
    by = f"{by} {ABOVE.unit(system)}"
    if over > 0:
        return (
            f"{told}, and stands {by} over the manifold. The pistons push against more than the charge gives them: "
            "the crankshaft pays that part."
        )
    return f"{told}, and stands {by} under the manifold. The charge gives the pistons more than the exhaust takes."


def _balance(controls, found, system):
    degree = units.display("turbine_outlet_temperature", system)
    temperatures = (
        ("exhaust before the turbine", controls.turbine_inlet_temperature),
        ("exhaust after it", found.cooled),
    )
    rows = (
        *(
            (name, FINE_POWER.text(value, system), FINE_POWER.unit(system))
            for name, value in (
                ("compressor takes", found.taken),
                ("bearings take", found.given - found.taken),
                ("turbine gives", found.given),
            )
        ),
        *(
            (name, fixed(units.from_si(value, degree, "turbine_outlet_temperature"), 0), degree)
            for name, value in temperatures
        ),
        ("expansion ratio", fixed(found.ratio, 2), ""),
        *(
            (name, ABSOLUTE.text(value, system), ABSOLUTE.unit(system))
            for name, value in (
                ("after the turbine", found.after),
                ("before the turbine", found.before),
                ("manifold", found.manifold),
            )
        ),
    )
    return Table("The balance of the shaft", ("quantity", "number", "unit"), rows)


def _by_efficiency(controls, system):
    """Return what turbines of other efficiencies need before them for the same boost and air."""
    rows = []
    for efficiency in EFFICIENCIES:
        try:
            found = shaft(controls._replace(turbine_efficiency=efficiency))
        except OutOfRangeError:
            rows.append((fixed(efficiency, 2), *(NO_VALUE,) * 3))
        else:
            rows.append(
                (
                    fixed(efficiency, 2),
                    fixed(found.ratio, 2),
                    ABSOLUTE.text(found.before, system),
                    ABOVE.text(found.before - found.manifold, system),
                )
            )
    heads = (
        "turbine efficiency",
        "expansion ratio",
        f"before the turbine [{ABSOLUTE.unit(system)}]",
        f"over the manifold [{ABOVE.unit(system)}]",
    )
    return Table("The same work from other turbines", heads, tuple(rows))


def _outcome(system):
    found = shaft(at_start(CONTROLS))
    return {
        "taken": POWER.words(found.taken, system),
        "cold": words("turbine_outlet_temperature", found.cooled, system),
        "before": ABSOLUTE.words(found.before, system),
    }
