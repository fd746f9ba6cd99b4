"""Air as a perfect gas: R = 287.05287 J/(kg K), heat-capacity ratio 7/5. Good enough for hand work."""

from typing import Any

import numpy as np
from numpy.typing import NDArray

from turbomath.physics import charge, compression
from turbomath.table.constants import AIR_GAS_CONSTANT, AIR_SPECIFIC_HEAT, STANDARD_PRESSURE, STANDARD_TEMPERATURE
from turbomath.table.formulas import check_shapes, plain
from turbomath.table.kinds_of_value import Values
from turbomath.table.quantities import possible
from turbomath.table.unusual import warn_of_unusual


def state(pressure: Values, temperature: Values) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Return pressure and temperature as checked float arrays of one broadcast shape."""
    given = {"pressure": possible("pressure", pressure), "temperature": possible("temperature", temperature)}
    shape = check_shapes(given)
    warn_of_unusual("the air model", given)
    pressure, temperature = given.values()
    return np.broadcast_to(pressure, shape), np.broadcast_to(temperature, shape)


class PerfectAir:
    """Perfect gas with constant specific heat; see `turbomath.air.choose` for the shape of call."""

    name = "perfect"
    density = staticmethod(charge.density)
    outlet_temperature = staticmethod(compression.outlet_temperature)
    isentropic_efficiency = staticmethod(compression.isentropic_efficiency)

    def enthalpy(self, pressure: Values, temperature: Values) -> Any:
        """Enthalpy [J/kg]; differences only are meaningful. Does not depend on pressure."""
        pressure, temperature = state(pressure, temperature)
        return plain(AIR_SPECIFIC_HEAT * temperature + 0 * pressure)

    def entropy(self, pressure: Values, temperature: Values) -> Any:
        """Entropy [J/(kg K)]; differences only are meaningful."""
        pressure, temperature = state(pressure, temperature)
        heat = AIR_SPECIFIC_HEAT * np.log(temperature / STANDARD_TEMPERATURE)
        return plain(heat - AIR_GAS_CONSTANT * np.log(pressure / STANDARD_PRESSURE))

    def specific_heat(self, pressure: Values, temperature: Values) -> Any:
        """Specific heat at constant pressure [J/(kg K)]: 3.5 R everywhere."""
        pressure, temperature = state(pressure, temperature)
        return plain(AIR_SPECIFIC_HEAT + 0 * (pressure + temperature))
