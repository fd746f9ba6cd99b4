"""What is stated of an instrument, in words."""

from turbomath import units
from turbomath.table.quantities import QUANTITIES
from turbomath.uncertainty import Instrument
from turbomath.units.rounding import rounded
from turbomath.units.shown import width_unit


def accuracy_words(name: str, instrument: Instrument, system: str) -> str:
    """Return how an instrument's accuracy is stated, in words."""
    if instrument.grade:
        return f"grade {instrument.grade} of {_span(name, instrument.span, system)} (ASME B40.100)"
    if instrument.thermocouple:
        letter, grade = instrument.thermocouple
        return f"type {letter}, {'class ' if grade in '12' else ''}{grade}"
    if instrument.accuracy is None:
        return "not stated"
    amount, basis = instrument.accuracy
    if basis == "plain":
        return f"± {amount_words(name, amount, system)}"
    span = f" {_span(name, instrument.span, system)}" if basis == "of span" else ""
    return f"± {rounded(100 * amount)} % {basis}{span}"


def amount_words(name: str, half_width: float, system: str) -> str:
    """Return a half-width or a step of a reading with its unit, to two figures."""
    quantity, unit = width_unit(name, system)
    return f"{rounded(float(f'{units.from_si(half_width, unit, quantity):.2g}'))} {unit}"


def _span(name, span, system):
    quantity = "boost" if QUANTITIES[name].kind == "pressure" else name
    unit = units.display(quantity, system)
    low, high = (rounded(float(f"{units.from_si(end, unit, quantity):.4g}")) for end in span)
    return f"{low}..{high} {unit}"
