"""Dry air as factors on a perfect gas: the equation behind the models "ideal" and "real", with no iteration.

`make_tables.py` says what the tables are and makes them. Everything here is written once and takes floats or
one-dimensional arrays (see `blocks.py`), in SI units and unchecked; a state outside the fitted range gives `nan`.
"""

import json
from pathlib import Path
from typing import Any

import numpy as np

from turbomath.table.kinds_of_value import Values

TABLES = json.loads(Path(__file__).with_name("real_tables.json").read_text(encoding="utf-8"))
LOWEST, HIGHEST = TABLES["range_K"]
HIGHEST_PRESSURE = TABLES["highest_pressure_Pa"]
GAS_CONSTANT = TABLES["gas_constant"]  # J/(kg K), that of the equation
HEAT_UNIT = 3.5 * GAS_CONSTANT  # J/(kg K), specific heat of a perfect gas
EXPONENT = 2 / 7  # of the pressure ratio, in a perfect gas
BELOW, ABOVE = LOWEST - 15, HIGHEST + 25  # K, limits of the heat and isentropic temperature of any state in range

_MIDDLE, _SHIFT = TABLES["middle_K"], TABLES["forces_shift_K"]
_PER_PRESSURE = 1 / TABLES["pressure_unit_Pa"]


class Equation:
    """One equation of dry air. Without the `forces` of the molecules on each other it is the ideal gas."""

    def __init__(self, forces: bool = True) -> None:
        self.highest_pressure = HIGHEST_PRESSURE if forces else np.inf
        rows = TABLES["factors"]
        self._ideal = {name: table[0] for name, table in rows.items()}
        self._forces = {name: table[:0:-1] if forces else [] for name, table in rows.items()}

    def outside(self, pressure: Values, temperature: Values) -> Any:
        """Whether a state is outside the fitted range; a missing one (`nan`) is not."""
        return (temperature < LOWEST) | (temperature > HIGHEST) | (pressure > self.highest_pressure)

    def density(self, pressure: Values, temperature: Values) -> Any:
        """Density [kg/m^3]."""
        places, q = self._state(pressure, temperature)
        return pressure / (self._factor("compressibility", places, q) * (GAS_CONSTANT * temperature))

    def enthalpy(self, pressure: Values, temperature: Values) -> Any:
        """Enthalpy [J/kg], from CoolProp's zero."""
        places, q = self._state(pressure, temperature)
        return self._enthalpy(temperature * self._factor("heat", places, q))

    def entropy(self, pressure: Values, temperature: Values) -> Any:
        """Entropy [J/(kg K)], from CoolProp's zero."""
        places, q = self._state(pressure, temperature)
        return self._entropy(pressure, temperature * self._factor("entropy", places, q))

    def specific_heat(self, pressure: Values, temperature: Values) -> Any:
        """Specific heat at constant pressure [J/(kg K)]."""
        places, q = self._state(pressure, temperature)
        return HEAT_UNIT * self._factor("specific_heat", places, q)

    def heat_terms(self, pressure: Values, temperature: Values) -> tuple[Any, Any, Any]:
        """Enthalpy [J/kg], entropy [J/(kg K)] and specific heat [J/(kg K)]."""
        places, q = self._state(pressure, temperature)
        return (
            self._enthalpy(temperature * self._factor("heat", places, q)),
            self._entropy(pressure, temperature * self._factor("entropy", places, q)),
            HEAT_UNIT * self._factor("specific_heat", places, q),
        )

    def outlet_temperature(
        self, inlet_pressure: Values, inlet_temperature: Values, outlet_pressure: Values, isentropic_efficiency: Values
    ) -> Any:
        """Outlet temperature [K] of a compressor."""
        inlet, ideal, q = self._compression(inlet_pressure, inlet_temperature, outlet_pressure)
        heat = _inside(inlet + (ideal - inlet) / isentropic_efficiency, BELOW, ABOVE)
        temperature = heat * self._factor("temperature_from_heat", _places(heat), q)
        return _inside(temperature, LOWEST, HIGHEST)

    def isentropic_efficiency(
        self, inlet_pressure: Values, inlet_temperature: Values, outlet_pressure: Values, outlet_temperature: Values
    ) -> Any:
        """Compressor efficiency [-] from readings; `nan` or infinite where the heat did not change."""
        inlet, ideal, _ = self._compression(inlet_pressure, inlet_temperature, outlet_pressure)
        places, q = self._state(outlet_pressure, outlet_temperature)
        return np.divide(ideal - inlet, outlet_temperature * self._factor("heat", places, q) - inlet)

    def _compression(self, inlet_pressure, inlet_temperature, outlet_pressure):
        """Heat temperature at the inlet and at the outlet of a compressor without losses, and the latter's pressure."""
        places, q = self._state(inlet_pressure, inlet_temperature)
        inlet = inlet_temperature * self._factor("heat", places, q)
        isentropic = inlet_temperature * self._factor("entropy", places, q)
        isentropic = _inside(isentropic * (outlet_pressure / inlet_pressure) ** EXPONENT, BELOW, ABOVE)
        q = self._scaled(outlet_pressure)
        return inlet, isentropic * self._factor("heat_from_entropy", _places(isentropic), q), q

    def _state(self, pressure, temperature):
        return _places(_inside(temperature, LOWEST, HIGHEST)), self._scaled(pressure)

    def _scaled(self, pressure):
        return _inside(pressure, 0.0, self.highest_pressure) * _PER_PRESSURE

    def _factor(self, name, places, q):
        """The factor of a table: the ideal gas, and a polynomial for each power of the pressure."""
        ideal, forces = places
        value = 0.0
        for row in self._forces[name]:
            value += _polynomial(row, forces)
            value *= q
        value += _polynomial(self._ideal[name], ideal)
        return value

    @staticmethod
    def _enthalpy(heat_temperature):
        return HEAT_UNIT * heat_temperature + TABLES["enthalpy_at_zero"]

    @staticmethod
    def _entropy(pressure, isentropic_temperature):
        heat = HEAT_UNIT * np.log(isentropic_temperature / TABLES["equal_K"]) + TABLES["entropy_at_equal"]
        return heat - GAS_CONSTANT * np.log(pressure / TABLES["standard_pressure_Pa"])


def _places(x):
    """Where a temperature stands in the polynomials of the ideal gas, and in those of the forces."""
    off = x - _MIDDLE
    return off / (x + _MIDDLE), off / (x + _SHIFT)


def _polynomial(row, x):
    """A polynomial of at least the first degree, its coefficients from the highest power down."""
    value = row[0] * x
    value += row[1]
    for one in row[2:]:
        value *= x
        value += one
    return value


def _inside(x, low, high):
    """*x* where it is from *low* to *high*, else `nan`."""
    if isinstance(x, float):
        return x if low <= x <= high else np.nan
    if low <= x.min() and x.max() <= high:
        return x
    return np.where((x >= low) & (x <= high), x, np.nan)
