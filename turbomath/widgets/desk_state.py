"""What is worth keeping of a desk, as JSON can hold it, and the way back; what no longer fits is left out."""

import math
from typing import Any

from turbomath.table.errors import TurbomathError
from turbomath.table.quantities import possible
from turbomath.widgets import asking


def state(desk: Any) -> dict[str, Any]:
    """Return the units, every control, what was typed, the case that is kept, and the answers."""
    kept = desk.kept
    return {
        "system": desk.system,
        "values": dict(desk.values),
        "held": {name: name in desk.held for name in desk.controls},
        "typed": {name: list(one) for name, one in desk.typed.items()},
        "faults": {name: list(one) for name, one in desk.faults.items()},
        "kept": None if kept is None else {name: getattr(kept, name) for name in desk.values},
        "asked": asking.states([desk.asked]),
        "steps": desk.ticks.state(),
    }


def take_up(desk: Any, state: dict[str, Any]) -> None:
    """Put everything where it was kept."""
    if state.get("system") in ("us", "si"):
        desk.system = state["system"]
    desk.values |= _values(desk, state.get("values"))
    for name, on in _table(state, "held").items():
        if name in desk.controls and not desk.controls[name].locked:
            (desk.held.add if on else desk.held.discard)(name)
    for name, into in (("typed", desk.typed), ("faults", desk.faults)):
        pairs = _table(state, name).items()
        into |= {control: (str(one[0]), str(one[1])) for control, one in pairs if control in desk.controls}
    if kept := _values(desk, state.get("kept")):
        desk.kept = desk.record()._replace(**kept, held=frozenset())
    asking.take_up([desk.asked], state.get("asked"))
    desk.ticks.take_up(state.get("steps"))


def _table(state, name):
    found = state.get(name)
    return found if isinstance(found, dict) else {}


def _values(desk, values):
    """Return those values that a control of the desk can have."""
    found = values if isinstance(values, dict) else {}
    return {name: value for name, value in found.items() if _fits(desk, name, value)}


def _fits(desk, name, value):
    if name in desk.choices:
        return value in dict(desk.choices[name].options)
    if name not in desk.controls or isinstance(value, bool) or not isinstance(value, int | float):
        return False
    try:
        return math.isfinite(possible(name, float(value)))
    except TurbomathError:
        return False
