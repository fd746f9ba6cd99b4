"""Air by CoolProp: the equation of state of Lemmon et al. (2000), called directly. The reference.

Importing CoolProp takes about two seconds, so it is imported at the first call. Its array calls return
`inf` for states it cannot solve; here each state is solved on its own and a failure is refused in words.
"""

import threading
from typing import Any

import numpy as np

from turbomath.air.perfect import state
from turbomath.table.errors import OutOfRangeError, warn_at_caller
from turbomath.table.formulas import check_shapes, plain
from turbomath.table.kinds_of_value import Values
from turbomath.table.quantities import possible

LOWEST_TEMPERATURE, HIGHEST_TEMPERATURE = 60.0, 2000.0  # K, the range of the equation of state
HIGHEST_PRESSURE = 2000e6  # Pa
_here = threading.local()


def _fluid():
    """The library's state of air, one a thread, made at the first call."""
    if not hasattr(_here, "fluid"):
        from CoolProp.CoolProp import AbstractState

        _here.fluid = AbstractState("HEOS", "Air")
    return _here.fluid


def _solve(inputs, first, second, output):
    """One state: the library's pair name, its two inputs, and the output's name; `nan` in gives `nan` out."""
    if np.isnan(first) or np.isnan(second):
        return np.nan
    import CoolProp

    fluid = _fluid()
    try:
        fluid.update(getattr(CoolProp, inputs), first, second)
        result = getattr(fluid, output)()
    except ValueError:
        result = np.inf
    if not np.isfinite(result):
        raise OutOfRangeError(f"the equation of state of air has no answer at {inputs} {first:g}, {second:g}.")
    return result


def gas_constant() -> float:
    """Gas constant of the equation of state [J/(kg K)]."""
    return _fluid().gas_constant() / _fluid().molar_mass()


def at_density(density: float, temperature: float) -> tuple[float, float, float, float]:
    """Pressure [Pa], enthalpy [J/kg], entropy and specific heat [J/(kg K)] at one state, to rounding: no iteration."""
    import CoolProp

    fluid = _fluid()
    fluid.update(CoolProp.DmassT_INPUTS, density, temperature)
    return fluid.p(), fluid.hmass(), fluid.smass(), fluid.cpmass()


_solve_each = np.vectorize(_solve, otypes=[float])


def refuse_outside(pressure: Any, temperature: Any, size: int | None = None) -> None:
    """Refuse states outside the range of the equation of state; *size* is how many there were, if not all are given."""
    outside = (temperature < LOWEST_TEMPERATURE) | (temperature > HIGHEST_TEMPERATURE) | (pressure > HIGHEST_PRESSURE)
    if np.any(outside):
        raise OutOfRangeError(
            f"the equation of state of air holds from {LOWEST_TEMPERATURE:g} to {HIGHEST_TEMPERATURE:g} K and up to "
            f"{HIGHEST_PRESSURE:g} Pa; {outside.sum()} of {size or outside.size} states are outside, the first at "
            f"{pressure[outside][0]:g} Pa and {temperature[outside][0]:g} K."
        )


def _property(pressure, temperature, output):
    pressure, temperature = state(pressure, temperature)
    refuse_outside(pressure, temperature)
    return plain(_solve_each("PT_INPUTS", pressure, temperature, output))


class CoolPropAir:
    """Dry air as a real gas; see `turbomath.air.choose` for the shape of call."""

    name = "coolprop"

    def density(self, pressure: Values, temperature: Values) -> Any:
        """Density [kg/m^3]."""
        return _property(pressure, temperature, "rhomass")

    def enthalpy(self, pressure: Values, temperature: Values) -> Any:
        """Enthalpy [J/kg]; differences only are meaningful."""
        return _property(pressure, temperature, "hmass")

    def entropy(self, pressure: Values, temperature: Values) -> Any:
        """Entropy [J/(kg K)]; differences only are meaningful."""
        return _property(pressure, temperature, "smass")

    def specific_heat(self, pressure: Values, temperature: Values) -> Any:
        """Specific heat at constant pressure [J/(kg K)]."""
        return _property(pressure, temperature, "cpmass")

    def outlet_temperature(
        self, inlet_pressure: Values, inlet_temperature: Values, outlet_pressure: Values, isentropic_efficiency: Values
    ) -> Any:
        """Outlet temperature [K] of a compressor with the given isentropic efficiency, in (0, 1]."""
        efficiency = possible("isentropic_efficiency", isentropic_efficiency)
        inlet, ideal, outlet_pressure = self._ideal(inlet_pressure, inlet_temperature, outlet_pressure, efficiency)
        return plain(_solve_each("HmassP_INPUTS", inlet + (ideal - inlet) / efficiency, outlet_pressure, "T"))

    def isentropic_efficiency(
        self, inlet_pressure: Values, inlet_temperature: Values, outlet_pressure: Values, outlet_temperature: Values
    ) -> Any:
        """Compressor efficiency [-] from readings; `nan` where undefined, a `RangeWarning` outside 0..1."""
        outlet = self.enthalpy(outlet_pressure, outlet_temperature)
        inlet, ideal, _ = self._ideal(inlet_pressure, inlet_temperature, outlet_pressure, outlet)
        with np.errstate(divide="ignore", invalid="ignore"):
            efficiency = np.where(outlet != inlet, (ideal - inlet) / np.subtract(outlet, inlet), np.nan)
        if np.any((efficiency < 0) | (efficiency > 1)):
            warn_at_caller("the efficiency from these readings is outside 0 to 1; a reading must be wrong.")
        return plain(efficiency)

    def _ideal(self, inlet_pressure, inlet_temperature, outlet_pressure, other):
        """Inlet enthalpy, enthalpy at the outlet of a compressor without losses, and the checked outlet pressure."""
        outlet_pressure = possible("outlet_pressure", outlet_pressure)
        check_shapes(
            {
                "inlet": inlet_pressure,
                "inlet temperature": inlet_temperature,
                "outlet": outlet_pressure,
                "outlet value": other,
            }
        )
        if np.any(np.less(outlet_pressure, inlet_pressure)):
            warn_at_caller("the outlet pressure is below the inlet pressure; check gauge against absolute.")
        inlet = self.enthalpy(inlet_pressure, inlet_temperature)
        entropy = self.entropy(inlet_pressure, inlet_temperature)
        return inlet, _solve_each("PSmass_INPUTS", outlet_pressure, entropy, "hmass"), outlet_pressure


def thin_gas(fluid: str, temperature: float) -> tuple[float, float, float]:
    """Second and third virial coefficient and ideal-gas heat capacity of "Air" or "Water" vapour [SI, a mole]."""
    import CoolProp

    gas = CoolProp.AbstractState("HEOS", fluid)
    gas.update(CoolProp.DmolarT_INPUTS, 1e-6, temperature)
    return gas.Bvirial(), gas.Cvirial(), gas.cp0molar()


def condensation_heat(temperature: float) -> float:
    """What water vapour as an ideal gas gives up until it is water at saturation [J/kg]."""
    import CoolProp

    water = CoolProp.AbstractState("HEOS", "Water")
    water.update(CoolProp.DmolarT_INPUTS, 1e-6, temperature)
    vapour = water.hmass()
    water.update(CoolProp.QT_INPUTS, 0, temperature)
    return vapour - water.hmass()
