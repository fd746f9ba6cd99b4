"""The gas of the charge: dry air and the water vapour it carries, as an ideal mixture or as real moist air.

Both answer the same calls, always with the humidity ratio of the place: what has condensed is no part of the gas.
Enthalpies are for a kilogram of what was drawn in, dry air and all of its water.
"""

from collections.abc import Callable
from typing import Any

import numpy as np

from turbomath.air import moist, moist_terms
from turbomath.physics import compression, humidity, real_humidity, water
from turbomath.table.kinds_of_value import Values

_REAL = {"real", "moist"}


def mixture(air: Any) -> "_Mixture":
    """Return how a model of air takes its water; real moist air if there is no model."""
    return RealMixture() if air is None or air.name in _REAL else IdealMixture(air)


class _Mixture:
    laws: Any = None  # how much water the air can carry
    density: Callable[..., Any]
    isentropic_efficiency: Callable[..., Any]

    def humidity_ratio(self, pressure: Values, temperature: Values, relative_humidity: Values) -> Any:
        """Water vapour with each kilogram of dry air [kg/kg]."""
        return self.laws.humidity_ratio(pressure, temperature, relative_humidity)

    def condensate(self, pressure: Values, temperature: Values, humidity_ratio: Values) -> Any:
        """Water formed with each kilogram of dry air [kg/kg]."""
        return self.laws.condensate(pressure, temperature, humidity_ratio)

    def dew_point(self, pressure: Values, humidity_ratio: Values) -> Any:
        """Dew point [K]; `nan` in air so dry that it is below the range of the saturation equation."""
        known = humidity.vapour_pressure(pressure, humidity_ratio) >= 1.1 * water.saturation_pressure(water.LOWEST)
        return self.laws.dew_point(pressure, np.where(known, humidity_ratio, 0.0))

    def dry_air_density(self, pressure: Values, temperature: Values, humidity_ratio: Values) -> Any:
        """Dry air in a cubic metre [kg/m^3]; what is over saturation has condensed and takes no room."""
        vapour = humidity_ratio - self.condensate(pressure, temperature, humidity_ratio)
        return self.density(pressure, temperature, vapour) / (1 + vapour)


class IdealMixture(_Mixture):
    """Any model of dry air: the vapour takes its share of the pressure, and its heat is taken as that of air.

    There is no enhancement factor, and the heat of condensation is left out.
    """

    laws = humidity

    def __init__(self, air: Any) -> None:
        self.air, self.name = air, air.name

    def density(self, pressure: Values, temperature: Values, humidity_ratio: Values) -> Any:
        """Density of dry air and vapour together [kg/m^3]."""
        dry = self.air.density(pressure - humidity.vapour_pressure(pressure, humidity_ratio), temperature)
        return dry * (1 + humidity_ratio)

    def enthalpy(self, pressure: Values, temperature: Values, humidity_ratio: Values, condensate: Values = 0.0) -> Any:
        """Enthalpy of a kilogram of what was drawn in [J/kg]; differences only are meaningful."""
        return self.air.enthalpy(pressure, temperature)

    def outlet_temperature(
        self,
        inlet_pressure: Values,
        inlet_temperature: Values,
        outlet_pressure: Values,
        efficiency: Values,
        humidity_ratio: Values,
    ) -> Any:
        """Outlet temperature of a compressor [K]."""
        return self.air.outlet_temperature(inlet_pressure, inlet_temperature, outlet_pressure, efficiency)

    def isentropic_efficiency(
        self,
        inlet_pressure: Values,
        inlet_temperature: Values,
        outlet_pressure: Values,
        outlet_temperature: Values,
        humidity_ratio: Values,
    ) -> Any:
        """Compressor efficiency from readings [-]."""
        return self.air.isentropic_efficiency(inlet_pressure, inlet_temperature, outlet_pressure, outlet_temperature)


class RealMixture(_Mixture):
    """Real air and vapour that feel each other, with the enhancement factor; dry where the humidity ratio is 0.

    Condensing water gives its heat to the aftercooler. States outside the fitted range are left as a gap.
    """

    laws = real_humidity
    name = "moist"
    density = staticmethod(moist.density)

    def outlet_temperature(
        self,
        inlet_pressure: Values,
        inlet_temperature: Values,
        outlet_pressure: Values,
        efficiency: Values,
        humidity_ratio: Values,
    ) -> Any:
        """Outlet temperature of a compressor [K]."""
        moist.warn_of_expansion(inlet_pressure, outlet_pressure)
        return moist.outlet_temperature(inlet_pressure, inlet_temperature, outlet_pressure, efficiency, humidity_ratio)

    def isentropic_efficiency(
        self,
        inlet_pressure: Values,
        inlet_temperature: Values,
        outlet_pressure: Values,
        outlet_temperature: Values,
        humidity_ratio: Values,
    ) -> Any:
        """Compressor efficiency from readings [-].

        A reading outside the fitted range cannot be true; how far it is off is told as for a perfect gas.
        """
        readings = inlet_pressure, inlet_temperature, outlet_pressure, outlet_temperature
        found = moist.isentropic_efficiency(*readings, humidity_ratio)
        return np.where(np.isnan(found), compression.isentropic_efficiency(*readings), found)

    def enthalpy(self, pressure: Values, temperature: Values, humidity_ratio: Values, condensate: Values = 0.0) -> Any:
        """Enthalpy of a kilogram of what was drawn in [J/kg], its water from one zero as vapour and as liquid."""
        vapour = humidity_ratio - condensate
        gas = (1 + vapour) * moist.enthalpy(pressure, temperature, vapour)
        return (gas + condensate * moist_terms.condensed_enthalpy(temperature)) / (1 + humidity_ratio)
