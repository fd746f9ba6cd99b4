"""The numbers of a shop as SI, for what is written down in shop units: where a control starts, what a case is."""

from typing import Any

from numpy.typing import ArrayLike

from turbomath.units.door import to_si


def fahrenheit(number: ArrayLike) -> Any:
    """Return a temperature in °F as SI."""
    return to_si(number, "°F", "ambient_temperature")


def psi(number: ArrayLike) -> Any:
    """Return a gauge pressure or a difference in psi as SI."""
    return to_si(number, "psi", "boost")


def pounds_per_minute(number: ArrayLike) -> Any:
    """Return a flow in lb/min as SI."""
    return to_si(number, "lb/min", "mass_flow")
