"""Burnt gas of a fuel CnHm and dry air: an ideal gas whose specific heat rises with temperature.

The fuel burns to carbon dioxide and water, the water stays vapour, and what air was not needed goes along. That is
right for a diesel engine's exhaust; above about 1,800 K gases begin to break up, which is left out. With more and more
excess air the gas becomes dry air. `exhaust_table.json` holds the coefficients with their source.
"""

import json
from pathlib import Path
from typing import Any

import numpy as np

from turbomath.table.constants import MOLAR_GAS_CONSTANT
from turbomath.table.errors import OutOfRangeError, warn_at_caller
from turbomath.table.formulas import check_shapes, defined, plain
from turbomath.table.kinds_of_value import Values
from turbomath.table.quantities import possible
from turbomath.table.unusual import warn_of_unusual

_TABLE = json.loads(Path(__file__).with_name("exhaust_table.json").read_text(encoding="utf-8"))
SPECIES = tuple(_TABLE["species"])
LOWEST, HIGHEST = _TABLE["range_K"]
_MIDDLE = _TABLE["middle_K"]
_MASSES = np.array([_TABLE["species"][name]["molar_mass"] for name in SPECIES])
_BELOW, _ABOVE = (np.array([_TABLE["species"][name][part] for name in SPECIES]) for part in ("below", "above"))
_AIR = np.array([_TABLE["air"].get(name, 0.0) for name in SPECIES]) / sum(_TABLE["air"].values())
_STEPS = 8  # of Newton's method; it needs five


def choose(hydrogen_carbon_ratio: Values, excess_air_ratio: Values, humidity_ratio: Values = 0.0) -> "Exhaust":
    """Return the burnt gas of a fuel with so many hydrogen atoms to each carbon atom, at an excess air ratio.

    What water the air carried, by its humidity ratio, goes along; without one the air is dry.

    It has `density`, `enthalpy`, `entropy` and `specific_heat` of (pressure, temperature) as the models of
    `turbomath.air.choose` have, `turbine_outlet_temperature(turbine_inlet_pressure, turbine_inlet_temperature,
    turbine_outlet_pressure, turbine_efficiency)`, `turbine_efficiency(turbine_inlet_pressure,
    turbine_inlet_temperature, turbine_outlet_pressure, turbine_outlet_temperature)`, and `mole_fractions`. Enthalpy and
    entropy are meaningful as differences only. States from 200 to 2000 K.

    Raises
    ------
    OutOfRangeError
        For an excess air ratio below 1, where soot and carbon monoxide would be left.

    Examples
    --------
    >>> round(choose(1.8, 2.0).specific_heat(200_000.0, 800.0), 1)
    1152.1
    """
    y, excess = possible("hydrogen_carbon_ratio", hydrogen_carbon_ratio), possible("excess_air_ratio", excess_air_ratio)
    humidity = possible("humidity_ratio", humidity_ratio)
    check_shapes({"hydrogen_carbon_ratio": y, "excess_air_ratio": excess, "humidity_ratio": humidity})
    if np.any(excess < 1):
        raise OutOfRangeError("excess_air_ratio must be 1 or more [-]: with less air the fuel does not burn up.")
    return Exhaust(y, excess, humidity)


class Exhaust:
    """Burnt gas of fixed composition, or an array of them; see `choose`."""

    name = "exhaust"

    def __init__(self, hydrogen_carbon_ratio: Values, excess_air_ratio: Values, humidity_ratio: Values = 0.0) -> None:
        moles = _moles(hydrogen_carbon_ratio, 1 / excess_air_ratio, humidity_ratio)
        self.mole_fractions = moles / moles.sum(axis=-1, keepdims=True)
        self._mass = self.mole_fractions @ _MASSES
        self.gas_constant = plain(MOLAR_GAS_CONSTANT / self._mass)

    def density(self, pressure: Values, temperature: Values) -> Any:
        """Density [kg/m^3]."""
        pressure, temperature = self._state(pressure, temperature)
        return plain(pressure / (self.gas_constant * temperature))

    def enthalpy(self, pressure: Values, temperature: Values) -> Any:
        """Enthalpy [J/kg]; differences only are meaningful. Does not depend on pressure."""
        pressure, temperature = self._state(pressure, temperature)
        return plain(self._heat(temperature) + 0 * pressure)

    def entropy(self, pressure: Values, temperature: Values) -> Any:
        """Entropy [J/(kg K)]; differences only are meaningful."""
        pressure, temperature = self._state(pressure, temperature)
        return plain(self._standard_entropy(temperature) - self.gas_constant * np.log(pressure / 1e5))

    def specific_heat(self, pressure: Values, temperature: Values) -> Any:
        """Specific heat at constant pressure [J/(kg K)]. Does not depend on pressure."""
        pressure, temperature = self._state(pressure, temperature)
        return plain(self._capacity(temperature) + 0 * pressure)

    def heat_capacity_ratio(self, pressure: Values, temperature: Values) -> Any:
        """Specific heat at constant pressure over that at constant volume [-]."""
        capacity = self.specific_heat(pressure, temperature)
        return plain(capacity / (capacity - self.gas_constant))

    def turbine_outlet_temperature(
        self,
        turbine_inlet_pressure: Values,
        turbine_inlet_temperature: Values,
        turbine_outlet_pressure: Values,
        turbine_efficiency: Values,
    ) -> Any:
        """Temperature after a turbine of the given efficiency [K]; 1 gives the ideal temperature."""
        inlet, ideal = self._expansion(turbine_inlet_pressure, turbine_inlet_temperature, turbine_outlet_pressure)
        efficiency = possible("turbine_efficiency", turbine_efficiency)
        heat = inlet - efficiency * (inlet - self._heat(ideal))
        return plain(self._inverse(self._heat, self._capacity, heat, ideal))

    def turbine_efficiency(
        self,
        turbine_inlet_pressure: Values,
        turbine_inlet_temperature: Values,
        turbine_outlet_pressure: Values,
        turbine_outlet_temperature: Values,
    ) -> Any:
        """Turbine efficiency [-] from readings; `nan` where undefined, a `RangeWarning` outside 0..1."""
        inlet, ideal = self._expansion(turbine_inlet_pressure, turbine_inlet_temperature, turbine_outlet_pressure)
        outlet = self._inside(possible("turbine_outlet_temperature", turbine_outlet_temperature))
        drop = inlet - self._heat(ideal)
        efficiency = defined(drop != 0, (inlet - self._heat(outlet)) / np.where(drop == 0, np.nan, drop))
        if np.any((efficiency < -1e-9) | (efficiency > 1 + 1e-9)):  # rounding is no fault
            warn_at_caller(
                "the turbine efficiency from these readings is outside 0 to 1; heat is lost, or one is wrong."
            )
        return plain(efficiency)

    def _expansion(self, inlet_pressure, inlet_temperature, outlet_pressure):
        """Enthalpy before an expansion, and the temperature after it if nothing is lost."""
        named = {
            "turbine_inlet_pressure": inlet_pressure,
            "turbine_outlet_pressure": outlet_pressure,
            "turbine_inlet_temperature": inlet_temperature,
        }
        given = {name: possible(name, value) for name, value in named.items()}
        warn_of_unusual("burnt gas", given)
        before, after, temperature = given.values()
        temperature = self._inside(temperature)
        if np.any(before < after):
            warn_at_caller("the expansion ratio is below 1; check which pressure is before the turbine.")
        log_ratio = self.gas_constant * np.log(after / before)
        start = temperature * np.exp(log_ratio / self._capacity(temperature))
        slope = lambda T: self._capacity(T) / T  # noqa: E731
        return self._heat(temperature), self._inverse(
            self._standard_entropy, slope, self._standard_entropy(temperature) + log_ratio, start
        )

    def _state(self, pressure, temperature):
        given = {"pressure": possible("pressure", pressure), "temperature": possible("temperature", temperature)}
        check_shapes(given | {"the mixture": self._mass})
        warn_of_unusual("burnt gas", given)
        pressure, temperature = given.values()
        return pressure, self._inside(temperature)

    @staticmethod
    def _inside(temperature):
        if np.any((temperature < LOWEST) | (temperature > HIGHEST)):
            raise OutOfRangeError(
                f"burnt gas is worked out from {LOWEST:g} to {HIGHEST:g} K; a temperature is outside."
            )
        return temperature

    @staticmethod
    def _inverse(function, slope, wanted, start):
        """The temperature at which *function* has the *wanted* value, by Newton's method."""
        temperature = start
        for _ in range(_STEPS):
            temperature = temperature - (function(temperature) - wanted) / slope(temperature)
        return temperature

    def _capacity(self, T):
        return self._mixed(lambda a: a[0] + T * (a[1] + T * (a[2] + T * (a[3] + T * a[4]))), T)

    def _heat(self, T):
        return self._mixed(
            lambda a: a[5] + T * (a[0] + T * (a[1] / 2 + T * (a[2] / 3 + T * (a[3] / 4 + T * a[4] / 5)))), T
        )

    def _standard_entropy(self, T):
        return self._mixed(
            lambda a: a[6] + a[0] * np.log(T) + T * (a[1] + T * (a[2] / 2 + T * (a[3] / 3 + T * a[4] / 4))), T
        )

    def _mixed(self, reduced, T):
        """A property of the mixture for each kilogram, from its polynomial in the coefficients of each range."""
        below, above = (np.moveaxis(self.mole_fractions @ part, -1, 0) for part in (_BELOW, _ABOVE))
        return self.gas_constant * np.where(_MIDDLE > T, reduced(below), reduced(above))


def _moles(y, share, humidity):
    """Moles of each gas for each mole of dry air, of which *share* is burnt with CHy, with the vapour it carried."""
    y, share, humidity = np.broadcast_arrays(y, share, humidity)
    oxygen = _TABLE["air"]["O2"] / sum(_TABLE["air"].values())
    fuel = share * oxygen / (1 + y / 4)
    vapour = humidity * (_AIR @ _MASSES) / _TABLE["species"]["H2O"]["molar_mass"]
    change = {"CO2": fuel, "H2O": fuel * y / 2 + vapour, "O2": -share * oxygen}
    return np.stack([air + change.get(name, 0.0 * share) for name, air in zip(SPECIES, _AIR, strict=True)], axis=-1)
