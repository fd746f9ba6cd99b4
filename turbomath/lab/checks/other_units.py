"""The numbers of a column, had the gauge shown another unit of the same kind."""

from collections.abc import Iterator

import numpy as np
from numpy.typing import NDArray

from turbomath import units
from turbomath.lab.checks.look import Look
from turbomath.table.errors import UnitError
from turbomath.table.quantities import QUANTITIES
from turbomath.units.spellings import FAMILIES, UNITS

# The units a gauge in a shop may have, likeliest first (kgf/cm² is a bar within 2 %); other families as listed
PRESSURES = ("kPa", "psi", "bar", "inHg", "inH2O", "hPa", "mmHg")
TEMPERATURES = ("°C", "°F", "K")


def readings_in_other_units(look: Look, column: str) -> Iterator[tuple[str, NDArray]]:
    """Yield (unit, the column's numbers read in that unit [SI, as the run keeps them]).

    Units only scale: a negative reading is left out, save of temperature.
    """
    kind = QUANTITIES[column].kind if column in QUANTITIES else ""
    written = look.run.units.get(column)
    numbers = _numbers(look, column, written)
    if numbers is None:
        return
    for unit in _units(kind):
        try:
            values = _in_si(look, column, kind, numbers, unit)
        except UnitError:
            continue
        if not np.allclose(values, look.run[column], equal_nan=True):
            yield unit, np.where((numbers < 0) & (kind != "temperature"), np.nan, values)


def _numbers(look, column, written):
    """Return the numbers of a column as they were written; None if its unit is none of its own kind."""
    quantity = "boost" if column in look.run.gauge_columns else column
    try:
        return units.from_si(
            look.shown(column), written.split(" gauge")[0] if quantity != column else written, quantity
        )
    except UnitError:
        return None


def _units(kind):
    family = FAMILIES.get(kind, kind)
    if family == "temperature":
        return TEMPERATURES
    if family != "pressure":
        return [shown for shown, _, _ in UNITS.get(family, ())]
    words = {"pressure": (" gauge", " abs"), "gauge pressure": ("", " abs")}.get(kind, ("",))
    return [unit + word for word in words for unit in PRESSURES]


def _in_si(look, column, kind, numbers, unit):
    station = look.run.station_pressure
    if kind == "gauge pressure" and unit.endswith(" abs"):
        return units.to_si(numbers, unit, "manifold_pressure") - station
    if kind == "pressure" and unit.endswith(" gauge"):
        return units.to_si(numbers, unit.removesuffix(" gauge"), "boost") + station
    return units.to_si(numbers, unit, column)
