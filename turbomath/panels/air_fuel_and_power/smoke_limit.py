"""Lesson 06, third panel: fuel makes the power, air says how much fuel burns without smoke."""

from typing import Any

import numpy as np

from turbomath import units
from turbomath.panels.air_fuel_and_power import LESSON
from turbomath.panels.air_fuel_and_power.picture_power_and_smoke import picture_power_and_smoke, ratios_shown
from turbomath.physics import fuel
from turbomath.pictures.bar_scales import BURNT, FLOW, POWER
from turbomath.table.errors import OutOfRangeError
from turbomath.units.rounding import fixed
from turbomath.units.shop import pounds_per_minute
from turbomath.widgets.answers import Answer, Readout, Table, readout
from turbomath.widgets.controls import Control
from turbomath.widgets.panel import Panel


def _power(horses):
    return units.to_si(horses, "hp", "power")


def _consumption(pounds):
    return units.to_si(pounds, "lb/hp·h", "specific_fuel_consumption")


STOICHIOMETRIC = float(fuel.stoichiometric_air_fuel_ratio(fuel.DIESEL_HYDROGEN_CARBON_RATIO))
SETTING = {
    "specific_fuel_consumption": _consumption(0.345),
    "smoke_limit": 24.0,
}  # a rating keeps clear of visible smoke
RATED = _power(400.0)
AIR = RATED * SETTING["specific_fuel_consumption"] * SETTING["smoke_limit"]  # what those 400 hp need at the limit
CONTROLS = (
    Control("mass_flow", AIR, pounds_per_minute(20.0), pounds_per_minute(110.0), us="lb/min", si="kg/min"),
    Control("power", RATED, _power(50.0), _power(650.0)),
    Control("specific_fuel_consumption", *(_consumption(number) for number in (0.345, 0.30, 0.45))),
    Control("smoke_limit", SETTING["smoke_limit"], 16.0, 30.0),
)
CASES = {
    "rated": {**SETTING, "mass_flow": AIR, "power": RATED},
    "more_power_and_air": {**SETTING, "mass_flow": pounds_per_minute(61.3), "power": _power(430.0)},
    "more_power": {**SETTING, "mass_flow": pounds_per_minute(60.0), "power": _power(435.0)},
    "more_air": {**SETTING, "mass_flow": 1.30 * AIR, "power": RATED},
}
VISIBLE = fuel.SMOKE_LIMIT_AIR_FUEL_RATIO
RICHEST, LEANEST = 5.0, 200.0  # air-fuel ratios outside of which no diesel burns at work


def panel() -> Panel:
    """Return the live panel of fuel, power and the smoke limit."""
    return Panel(LESSON.words["smoke_limit"].sheet(CONTROLS, answer, _outcome, CASES, JUDGES))


def at_the_edge(controls: Any) -> bool:
    """Return whether the air-fuel ratio is that of the smoke limit, to half a pound of air."""
    return abs(found(controls)[1] - controls.smoke_limit) <= 0.5


JUDGES = {"at_the_edge": at_the_edge}


def answer(controls: Any, system: str) -> Answer:
    """Return what the panel shows: power against air-fuel ratio, a sentence, read-outs and a table."""
    burnt, ratio, allowed = found(controls)
    if not RICHEST <= ratio <= LEANEST:
        raise OutOfRangeError(
            f"the air-fuel ratio would be {fixed(ratio, 1)}, and no diesel runs so. Set the air flow "
            "or the power nearer to the other."
        )
    along = ratios_shown(controls.smoke_limit, ratio)
    picture = picture_power_and_smoke(
        along,
        fuel.power_potential(controls.mass_flow, along, controls.specific_fuel_consumption),
        controls.smoke_limit,
        STOICHIOMETRIC,
        (ratio, controls.power),
        system,
        _power(700.0),
    )
    excess = fuel.excess_air_ratio(ratio, STOICHIOMETRIC)
    readouts = (
        readout("fuel", BURNT, burnt, system),
        Readout("air-fuel ratio", fixed(ratio, 1), ""),
        Readout("air to spare", fixed(100 * (excess - 1), 0), "%"),
        readout("air allows", POWER, allowed, system),
    )
    sentence = _sentence(controls, ratio, allowed, system)
    return Answer((picture,), sentence, readouts, (_table(controls, system), _limits(controls, system)), ("yours",))


def found(controls: Any) -> tuple[float, float, float]:
    """Return the fuel flow [kg/s], the air-fuel ratio, and the power that the air allows at the smoke limit [W]."""
    burnt = fuel.fuel_flow(controls.power, controls.specific_fuel_consumption)
    ratio = fuel.air_fuel_ratio(controls.mass_flow, burnt) if burnt > 0 else float("nan")
    if not np.isfinite(ratio):
        raise OutOfRangeError("without power and fuel there is no air-fuel ratio. Set both above zero.")
    return (
        burnt,
        ratio,
        fuel.power_potential(controls.mass_flow, controls.smoke_limit, controls.specific_fuel_consumption),
    )


def _sentence(controls, ratio, allowed, system):
    power, most = (POWER.words(value, system) for value in (controls.power, allowed))
    limit = fixed(controls.smoke_limit, 1).removesuffix(".0")
    told = f"{power} runs at {fixed(ratio, 1)} of air to 1 of fuel"
    if ratio < controls.smoke_limit - 0.05:
        return (
            f"{told}: under the smoke limit used here, {limit}. It smokes and runs hot. Without smoke this air "
            f"allows {most}."
        )
    if ratio < controls.smoke_limit + 0.05:
        return f"{told}: at the smoke limit used here. This air allows no more; the maker's rating may be less."
    return (
        f"{told}: above the smoke limit used here, {limit}. More fuel would give {most} before smoke, if the maker "
        "allows it."
    )


def _table(controls, system):
    burnt, ratio, allowed = found(controls)
    rows = (
        *(
            (name, told.text(value, system), told.unit(system))
            for name, told, value in (
                ("air", FLOW, controls.mass_flow),
                ("power", POWER, controls.power),
                ("fuel", BURNT, burnt),
            )
        ),
        ("air-fuel ratio", fixed(ratio, 1), ""),
        ("no air over (stoichiometric)", fixed(STOICHIOMETRIC, 1), ""),
        ("smoke limit used here (common practice, not a specification)", fixed(controls.smoke_limit, 1), ""),
        ("power at that limit", POWER.text(allowed, system), POWER.unit(system)),
    )
    return Table("Your case in numbers", ("quantity", "number", "unit"), rows)


def _limits(controls, system):
    """Return what the same air would allow at other limits: why the one that is used has to be said."""
    rows = []
    for limit in sorted({VISIBLE, 22.0, 24.0, 26.0, 28.0, controls.smoke_limit}):
        allowed = fuel.power_potential(controls.mass_flow, limit, controls.specific_fuel_consumption)
        note = "smoke is seen" if limit == VISIBLE else "used here" if limit == controls.smoke_limit else ""
        rows.append((fixed(limit, 1), POWER.text(allowed, system), note))
    heads = ("smoke limit", f"power [{POWER.unit(system)}]", "note")
    return Table("What this air allows at another limit (common practice)", heads, tuple(rows))


def _outcome(system):
    allowed = fuel.power_potential(1.30 * AIR, SETTING["smoke_limit"], SETTING["specific_fuel_consumption"])
    return {"allowed": POWER.words(allowed, system), "rated": POWER.words(RATED, system)}
