"""Lesson 04, last panel: what limits effectiveness, the core or the flow of the medium; exact series and usual rule."""

from typing import Any

import numpy as np

from turbomath.panels.cooling_it_back import LESSON
from turbomath.panels.cooling_it_back.picture_fan_off import picture_fan_off
from turbomath.physics import exchanger
from turbomath.table.errors import OutOfRangeError
from turbomath.table.kinds_of_value import Values
from turbomath.units.rounding import fixed
from turbomath.widgets.answers import Answer, Readout, Table
from turbomath.widgets.controls import Control
from turbomath.widgets.panel import Panel

# An INVENTED air-to-air core with the fan on
CONDUCTANCE, CHARGE, MEDIUM, SHARE = 1100.0, 465.0, 1900.0, 0.5  # W/K, W/K, W/K, -
MOST_CONDUCTANCE, LEAST_FLOW, MOST_FLOW = 20_000.0, 0.05 - 1e-9, 5.0
UNMIXED = "crossflow, both unmixed"
CONTROLS = (
    Control("medium_flow_ratio", 1.0, 0.05, 1.5),
    Control("charge_flow_ratio", 1.0, 0.3, 1.5),
    Control("conductance", CONDUCTANCE, 200.0, 3000.0),
)
CASES = {
    "fan_on": {"medium_flow_ratio": 1.0, "charge_flow_ratio": 1.0, "conductance": CONDUCTANCE},
    "fan_off": {"medium_flow_ratio": 0.15, "charge_flow_ratio": 1.0, "conductance": CONDUCTANCE},
}


def panel() -> Panel:
    """Return the live panel of what limits effectiveness."""
    return Panel(LESSON.words["what_limits"].sheet(CONTROLS, answer, cases=CASES))


def answer(controls: Any, system: str) -> Answer:
    """Return what the panel shows: effectiveness against the flow of the medium, which side limits, and the rule."""
    if controls.conductance > MOST_CONDUCTANCE or not LEAST_FLOW <= controls.charge_flow_ratio <= MOST_FLOW:
        raise OutOfRangeError("no aftercooler is like that. Set a smaller conductance, and flows nearer to 1.")
    if not LEAST_FLOW <= controls.medium_flow_ratio <= MOST_FLOW:
        raise OutOfRangeError("the rule for other flows does not reach so far. Set flows nearer to 1.")
    flows = np.linspace(0.05, max(1.5, controls.medium_flow_ratio), 60)
    exact, rule, most = effectivenesses(controls, flows)
    here, about, limit = (float(part) for part in effectivenesses(controls, controls.medium_flow_ratio))
    picture = picture_fan_off(flows, exact, rule, most, (controls.medium_flow_ratio, here), system)
    readouts = (
        Readout("exact", fixed(here, 3), ""),
        Readout("usual rule", fixed(about, 3), ""),
        Readout("rule less exact", fixed(about - here, 3), ""),
        Readout("limit", fixed(limit, 3), ""),
    )
    heads = ("flow of the medium", "exact", "usual rule", "rule less exact", "limit")
    places = np.array([0.1, 0.15, 0.25, 0.5, 1.0, 1.5])
    rows = tuple(
        (fixed(flow, 2), fixed(one, 3), fixed(two, 3), fixed(two - one, 3), fixed(end, 3))
        for flow, one, two, end in zip(places, *effectivenesses(controls, places), strict=True)
    )
    table = Table("Effectiveness, charge side (INVENTED core)", heads, rows)
    return Answer((picture,), _sentence(here, limit), readouts, (table,), own=("yours",))


def effectivenesses(controls: Any, medium_flow_ratio: Values) -> tuple[Any, Any, Any]:
    """Return the exact charge effectiveness, that by the textbooks' rule, and what the medium could carry at most."""
    charge, medium = CHARGE * controls.charge_flow_ratio, MEDIUM * np.asarray(medium_flow_ratio)
    conductance = exchanger.conductance_at_flows(
        controls.conductance, controls.charge_flow_ratio, medium_flow_ratio, SHARE
    )
    smaller = np.minimum(charge, medium)
    units_, ratio = conductance / smaller, smaller / np.maximum(charge, medium)
    found = (
        exchanger.effectiveness(units_, ratio, UNMIXED),
        exchanger.approximate_effectiveness(units_, ratio),
        np.ones_like(ratio),
    )
    return tuple(exchanger.charge_effectiveness(one, charge, medium) for one in found)


def _sentence(here, limit):
    told = f"Effectiveness {fixed(here, 2)}."
    if limit < 1:
        return (
            f"{told} The cooling air limits: it carries less heat than the charge brings. Even an endless core "
            f"stops at {fixed(limit, 2)}."
        )
    return f"{told} The core limits: the cooling air could carry all the heat. More core would help."
