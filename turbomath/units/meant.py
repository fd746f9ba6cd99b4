"""The unit in which a number may have been meant."""

from turbomath.table.quantities import QUANTITIES
from turbomath.units.door import spellings, to_si

MOST = 2  # units to name


def units_meant(name: str, value: float) -> tuple[str, ...]:
    """Return the units in which a number would be a usual value of a quantity, the quantity's display units first.

    Examples
    --------
    >>> units_meant("inlet_pressure", 14.5), units_meant("inlet_temperature", 77.0)
    (('psi abs',), ('°F', '°C'))
    """
    low, high = QUANTITIES[name].sensible
    absolute = [unit for unit in spellings(name) if not unit.endswith(" gauge")]
    return tuple(unit for unit in absolute if low <= to_si(value, unit, name) <= high)[:MOST]
