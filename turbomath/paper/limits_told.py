"""Limits that a balance goes past, and the range that its model was fitted to, in words and in a reader's units."""

from collections.abc import Mapping, Sequence

from turbomath.engine.limits import Past
from turbomath.table import prose
from turbomath.table.quantities import QUANTITIES
from turbomath.units.rounding import fixed
from turbomath.units.shown import RISE, Shown

_WORDS = prose.read(__file__, "limits_told.toml")
_PASSED, _OUTSIDE = _WORDS.table("passed"), _WORDS.table("outside")
_WHOSE = _PASSED.text("whose")
_LIMITS = {name: _PASSED.raw(name) for name in _PASSED.names() if name != "whose"}
_SIDES = {below: _OUTSIDE.text("below" if below else "above") for below in (True, False)}
_SHOWN = {
    "air_fuel_ratio": Shown("air_fuel_ratio", ("", 1), ("", 1)),
    "corrected_mass_flow": Shown("mass_flow", ("lb/min", 1), ("kg/min", 1)),
    "tip_speed": Shown("tip_speed", ("ft/s", 0), ("m/s", 0)),
    "fuel_flow": Shown("fuel_flow", ("lb/h", 1), ("kg/h", 1)),
}


def passed_words(found: Sequence[Past], system: str) -> str:
    """Return a sentence for each limit that was passed, and whose limits they are; "" where none was."""
    return passed_by_each({"": found}, system)


def passed_by_each(found: Mapping[str, Sequence[Past]], system: str) -> str:
    """Return the same of several engines, each sentence led by what is said of its engine; "" where none passes any."""
    told = [
        _led(lead, _LIMITS[one.name].format(**_amounts(one, system)))
        for lead, passed in found.items()
        for one in passed
    ]
    return " ".join([*told, _WHOSE]) if told else ""


def outside_words(found: Sequence[Past], system: str, what: str = "The model") -> str:
    """Return in one sentence what of a point lies outside the range that *what* was fitted to; "" where nothing does.

    *what* begins the sentence.
    """
    if not found:
        return ""
    parts = (
        _OUTSIDE.text("part", name=QUANTITIES[one.quantity].plain_name, side=_SIDES[one.below], **_amounts(one, system))
        for one in found
    )
    return _OUTSIDE.text("sentence", what=what, parts="; ".join(parts))


def _led(lead: str, sentence: str) -> str:
    """Return a sentence with its lead, behind which it begins small."""
    return f"{lead}{sentence[0].lower()}{sentence[1:]}" if lead else sentence


def _amounts(one: Past, system: str) -> dict[str, str]:
    """Return the value, the end of the range that was passed, and how far: in degrees, or in per cent."""
    how = _SHOWN.get(one.quantity, Shown(one.quantity))
    value, end = (how.words(amount, system) for amount in (one.value, one.nearest))
    if "temperature" not in one.quantity:
        return {"value": value, "end": end, "far": f"{fixed(100 * one.share, 0)} %"}
    apart = abs(how.number(one.value, system) - how.number(one.nearest, system))
    return {"value": value, "end": end, "far": f"{fixed(apart, 0)} {RISE[system]}"}
