"""What water vapour adds to real dry air: its own share as an ideal gas, and what the molecules feel of each other.

The tables come from `make_moist_tables.py`, which says what they stand for. All functions here take plain numbers or
arrays alike, unchecked, and give amounts for a kilogram of dry air with its vapour; without vapour all are zero.
"""

import functools
import json
from pathlib import Path
from typing import Any

import numpy as np

from turbomath.table.kinds_of_value import Values


@functools.cache
def tables() -> dict[str, Any]:
    """Return the tables, read once."""
    return json.loads(Path(__file__).with_name("moist_tables.json").read_text(encoding="utf-8"))


class Vapour:
    """The vapour with a kilogram of dry air. `humidity_ratio` is a float or an array that fits the states asked for."""

    def __init__(self, humidity_ratio: Values) -> None:
        table = tables()
        self.humidity_ratio = humidity_ratio
        self.gas_constant = humidity_ratio * table["vapour_gas_constant"]
        self._scale, self._middle, self._half = table["scale_K"], table["middle"], table["half"]
        y = humidity_ratio * table["mole_ratio"]
        share = y / (1 + y)
        self._pairs = _weighted(table["pairs"], share, y)
        self._triplets = _weighted(table["triplets"], share / (1 + y) / (1 + y), y)
        self._heat = table["vapour_heat"]

    def volume(self, pressure: Values, temperature: Values) -> Any:
        """Volume [m^3]."""
        u = self._place(temperature)
        forces = 0.0
        for pair, triplet in zip(reversed(self._pairs), reversed(self._triplets), strict=True):
            forces = forces * u + (pair + 2 * pressure * triplet)
        return self.gas_constant * temperature / pressure + forces

    def heat_terms(self, pressure: Values, temperature: Values) -> tuple[Any, Any, Any]:
        """Enthalpy [J], entropy [J/K] and heat capacity at constant pressure [J/K]."""
        stretch = self._stretch(temperature)
        value, slope, bend = self._gibbs(pressure, self._place(temperature))
        enthalpy, entropy, heat = self._ideal(pressure, temperature)
        return (
            enthalpy + value + stretch * slope,
            entropy + stretch * slope / temperature,
            heat - stretch * (2 * slope + stretch * bend) / temperature,
        )

    def enthalpy(self, pressure: Values, temperature: Values) -> Any:
        """Enthalpy [J], the first of `heat_terms`, in half the time."""
        value, slope, _ = self._gibbs(pressure, self._place(temperature))
        return self.ideal_enthalpy(temperature) + value + self._stretch(temperature) * slope

    def ideal_enthalpy(self, temperature: Values) -> Any:
        """Enthalpy [J] as an ideal gas; the integral of its heat is exact."""
        parts = [one / (power + 1) for power, one in enumerate(self._heat)]
        return self.humidity_ratio * temperature * _summed(parts, temperature / self._scale)

    def _place(self, temperature):
        return (self._scale / temperature - self._middle) / self._half

    def _stretch(self, temperature):
        return self._scale / (self._half * temperature)

    def _gibbs(self, pressure, u):
        """The forces' part of the Gibbs energy [J], with its first and second derivative by u."""
        value = slope = bend = 0.0
        for pair, triplet in zip(reversed(self._pairs), reversed(self._triplets), strict=True):
            bend = bend * u + slope
            slope = slope * u + value
            value = value * u + pressure * (pair + pressure * triplet)
        return value, slope, 2 * bend

    def _ideal(self, pressure, temperature):
        """The vapour as an ideal gas: enthalpy, entropy, heat capacity; the integrals of its heat are exact."""
        t, w = temperature / self._scale, self.humidity_ratio
        parts = [one / power if power else 0.0 for power, one in enumerate(self._heat)]
        entropy = _summed(parts, t) + self._heat[0] * np.log(t)
        return (
            self.ideal_enthalpy(temperature),
            w * entropy - self.gas_constant * np.log(pressure),
            w * _summed(self._heat, t),
        )


def condensed_enthalpy(temperature: Values) -> Any:
    """Enthalpy of a kilogram of liquid water [J/kg], from the same zero as the vapour's."""
    table = tables()
    heat = _summed(table["condensation_heat"], temperature / table["scale_K"])
    return Vapour(1.0).ideal_enthalpy(temperature) - heat


def _weighted(rows, weight, factor):
    """Each coefficient of the sum of the rows: the first one weighted, every next one by a factor more."""
    if many := np.ndim(factor):
        return _summed([np.reshape(one, (-1, *many * (1,))) for one in rows], factor) * weight
    return [_summed(column, factor) * weight for column in zip(*rows, strict=True)]


def _summed(terms, factor):
    total = 0.0
    for one in reversed(terms):
        total = total * factor + one
    return total
