"""Numbers as a panel shows them: so many decimals for each unit, a real minus, and the unit beside it."""

from turbomath import units
from turbomath.table.quantities import QUANTITIES
from turbomath.units.rounding import NO_VALUE, fixed, rounded

_DECIMALS = {
    "psi": 1,
    "psi abs": 1,
    "psi gauge": 1,
    "kPa": 1,
    "kPa abs": 1,
    "kPa gauge": 1,
    "inHg": 2,
    "inH2O": 1,
    "°F": 0,
    "°C": 0,
    "K": 0,
    "°R": 0,
    "F°": 0,
    "C°": 0,
    "lb/ft³": 4,
    "kg/m³": 3,
    "%": 1,
    "rpm": 0,
    "ft": 0,
    "m": 0,
    "lb/min": 1,
    "hp": 0,
    "kW": 0,
}


def shown(name: str, value: float, system: str, unit: str | None = None) -> tuple[str, str]:
    """Return an SI value of a quantity as (text, unit) in the system "us" or "si", or in a stated unit.

    Examples
    --------
    >>> shown("manifold_density", 1.94640, "us"), shown("boost", -6894.757, "us")
    (('0.1215', 'lb/ft³'), ('−1.0', 'psi'))
    """
    unit = unit or units.display(name, system)
    return in_unit(units.from_si(value, unit, name), unit), "" if unit == "-" else unit


def head(name: str, system: str) -> str:
    """Return the head of a column: the plain name of a quantity with its unit.

    Examples
    --------
    >>> head("manifold_density", "us"), head("pressure_ratio", "us")
    ('manifold density [lb/ft³]', 'pressure ratio')
    """
    unit = units.display(name, system)
    return QUANTITIES[name].plain_name + ("" if unit == "-" else f" [{unit}]")


def in_unit(number: float, unit: str | None) -> str:
    """Return a number that is already in its unit, as text."""
    if number != number or unit not in _DECIMALS:
        return rounded(number)
    return fixed(number, _DECIMALS[unit]) if abs(number) < 1e15 else NO_VALUE


def words(name: str, value: float, system: str, unit: str | None = None) -> str:
    """Return an SI value as one piece of text with its unit.

    Examples
    --------
    >>> words("manifold_temperature", 422.0389, "us")
    '300 °F'
    """
    return " ".join(shown(name, value, system, unit)).strip()
