"""Numbers as a panel shows them: so many decimals for each unit, a real minus, and the unit beside it."""

from dataclasses import dataclass
from typing import Any

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


DEGREE, RISE = {"us": "°F", "si": "°C"}, {"us": "F°", "si": "C°"}  # a temperature, and a difference of two


@dataclass(frozen=True)
class Shown:
    """A quantity as it is shown; (unit, decimals) for each system where those of the tables will not do.

    Examples
    --------
    >>> air = Shown("mass_flow", ("lb/min", 1), ("kg/min", 1))
    >>> air.words(0.5, "si"), air.unit("us"), Shown("manifold_temperature").words(422.0389, "us")
    ('30.0 kg/min', 'lb/min', '300 °F')
    """

    name: str
    us: tuple[str, int] | None = None
    si: tuple[str, int] | None = None

    def unit(self, system: str) -> str:
        """Return the unit shown."""
        return self._own(system)[0] or units.display(self.name, system)

    def number(self, value: Any, system: str) -> float:
        """Return an SI value as a number in the unit shown."""
        return float(units.from_si(value, self.unit(system), self.name))

    def text(self, value: Any, system: str) -> str:
        """Return an SI value as text without its unit."""
        return in_unit(self.number(value, system), self.unit(system), self._own(system)[1])

    def words(self, value: Any, system: str) -> str:
        """Return an SI value as text with its unit."""
        return f"{self.text(value, system)} {self.unit(system).removesuffix('-')}".strip()

    def _own(self, system: str) -> tuple[str, int] | tuple[None, None]:
        return {"us": self.us, "si": self.si}[system] or (None, None)


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


def in_unit(number: float, unit: str, places: int | None = None) -> str:
    """Return a number that is already in its unit, as text; with the decimals of the unit where none are stated."""
    places = _DECIMALS.get(unit) if places is None else places
    if number != number or places is None:
        return rounded(number)
    return fixed(number, places) if abs(number) < 1e15 else NO_VALUE


def words(name: str, value: float, system: str, unit: str | None = None) -> str:
    """Return an SI value as one piece of text with its unit.

    Examples
    --------
    >>> words("manifold_temperature", 422.0389, "us")
    '300 °F'
    """
    return " ".join(shown(name, value, system, unit)).strip()


def width_unit(name: str, system: str) -> tuple[str, str]:
    """Return (quantity, unit) in which the ± of a quantity is shown; that of a temperature is a difference.

    Examples
    --------
    >>> width_unit("manifold_temperature", "us"), width_unit("manifold_pressure", "si")
    (('temperature_rise', 'F°'), ('boost', 'kPa'))
    """
    stands_for = {"temperature": "temperature_rise", "pressure": "boost"}.get(QUANTITIES[name].kind, name)
    return stands_for, units.display(stands_for, system)
