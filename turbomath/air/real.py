"""The models "real" and "ideal": dry air with the heat of its molecules, with and without their forces on each other.

Both run the same equation (`equation.py`); "ideal" leaves its forces out. A state outside the fitted range, from 210
to 720 K and for "real" up to 900 kPa, is never extrapolated: "real" asks the model "coolprop", 90 microseconds a
state, and "ideal" refuses. `density`, `heat_terms` and `outside` are the equation itself, unchecked, for those who
build on it.
"""

import math
from typing import Any

import numpy as np

from turbomath.air import equation
from turbomath.air.blocks import in_blocks
from turbomath.air.equation import GAS_CONSTANT, HIGHEST, HIGHEST_PRESSURE, LOWEST
from turbomath.table.errors import OutOfRangeError, warn_at_caller
from turbomath.table.formulas import check_shapes, defined, plain
from turbomath.table.kinds_of_value import Values
from turbomath.table.quantities import QUANTITIES, possible
from turbomath.table.unusual import far_limits, warn_of_unusual

__all__ = [
    "GAS_CONSTANT",
    "HIGHEST",
    "HIGHEST_PRESSURE",
    "LOWEST",
    "IdealAir",
    "RealAir",
    "density",
    "heat_terms",
    "outside",
]
STATE = ("pressure", "temperature")
INLET = ("inlet_pressure", "inlet_temperature", "outlet_pressure")
_DOUBTFUL = far_limits("inlet_pressure")[0]  # Pa; a lower pressure may be in another unit
ROUNDING = 1e-6  # of an efficiency, when the air hardly warms
_REAL, _IDEAL = equation.Equation(), equation.Equation(forces=False)
density, heat_terms, outside = _REAL.density, _REAL.heat_terms, _REAL.outside


class _FittedAir:
    """The shape of call of `turbomath.air.choose` around an `Equation`: checks, and what to do outside its range."""

    _equation: equation.Equation

    def density(self, pressure: Values, temperature: Values) -> Any:
        """Density [kg/m^3]."""
        return self._answer("density", STATE, (pressure, temperature))

    def enthalpy(self, pressure: Values, temperature: Values) -> Any:
        """Enthalpy [J/kg]; differences only are meaningful."""
        return self._answer("enthalpy", STATE, (pressure, temperature))

    def entropy(self, pressure: Values, temperature: Values) -> Any:
        """Entropy [J/(kg K)]; differences only are meaningful."""
        return self._answer("entropy", STATE, (pressure, temperature))

    def specific_heat(self, pressure: Values, temperature: Values) -> Any:
        """Specific heat at constant pressure [J/(kg K)]."""
        return self._answer("specific_heat", STATE, (pressure, temperature))

    def outlet_temperature(
        self, inlet_pressure: Values, inlet_temperature: Values, outlet_pressure: Values, isentropic_efficiency: Values
    ) -> Any:
        """Outlet temperature [K] of a compressor with the given isentropic efficiency, in (0, 1]."""
        given = inlet_pressure, inlet_temperature, outlet_pressure, isentropic_efficiency
        return self._answer("outlet_temperature", (*INLET, "isentropic_efficiency"), given)

    def isentropic_efficiency(
        self, inlet_pressure: Values, inlet_temperature: Values, outlet_pressure: Values, outlet_temperature: Values
    ) -> Any:
        """Compressor efficiency [-] from readings; `nan` where undefined, a `RangeWarning` outside 0..1."""
        given = inlet_pressure, inlet_temperature, outlet_pressure, outlet_temperature
        efficiency = self._answer("isentropic_efficiency", (*INLET, "outlet_temperature"), given)
        efficiency = defined(np.isfinite(efficiency), efficiency)
        if np.any((efficiency < -ROUNDING) | (efficiency > 1 + ROUNDING)):
            warn_at_caller("the efficiency from these readings is outside 0 to 1; a reading must be wrong.")
        return plain(efficiency)

    def _answer(self, result, names, given):
        """The equation's *result*: plain good numbers the short way, everything else checked and in blocks."""
        equation = getattr(self._equation, result)
        if _plain_numbers(*given):
            answer = equation(*given)
            if answer == answer:  # not a gap
                return float(answer)
        given = [possible(name, one) for name, one in zip(names, given, strict=True)]
        named = dict(zip(names, given, strict=True))
        check_shapes(named)
        warn_of_unusual(result, named)
        answer = in_blocks(equation, *given)
        gaps = np.isnan(answer)
        if np.any(gaps):
            gaps = gaps & ~np.isnan(sum(given))
        if len(given) == 4 and np.any(np.less(given[2], given[0]) & ~gaps):
            warn_at_caller("the outlet pressure is below the inlet pressure; check gauge against absolute.")
        if not np.any(gaps):
            return answer
        answer = np.asarray(answer)
        outside = [np.broadcast_to(one, gaps.shape)[gaps] for one in given]
        answer[gaps] = self._outside(result, names, outside, gaps.size)
        return plain(answer)


class RealAir(_FittedAir):
    """Dry air as a real gas by the equation of Lemmon et al. (2000); see `turbomath.air.choose` for the shape of call.

    Outlet temperature and density are those of the equation to 1e-9; outside the fitted range they are CoolProp's.
    """

    name = "real"
    _equation = _REAL

    def _outside(self, result, names, given, size):
        from turbomath.air import coolprop

        coolprop.refuse_outside(*given[:2], size=size)
        return getattr(coolprop.CoolPropAir(), result)(*given)


class IdealAir(_FittedAir):
    """Dry air as an ideal gas, its specific heat changing with temperature; see `turbomath.air.choose`."""

    name = "ideal"
    _equation = _IDEAL

    def _outside(self, result, names, given, size):
        first = ", ".join(f"{name} {one[0]:g} {QUANTITIES[name].unit}" for name, one in zip(names, given, strict=True))
        raise OutOfRangeError(
            f"air as an ideal gas is worked out from {LOWEST:g} to {HIGHEST:g} K; {given[0].size} of {size} states are "
            f"or lead outside, the first at {first}. Take the model 'real' or 'coolprop' there."
        )


def _plain_numbers(inlet_pressure, inlet_temperature, outlet_pressure=math.inf, last=1.0):
    """Whether all are Python floats that can be, and the pressure does not fall: nothing to check or to warn of."""
    return (
        type(inlet_pressure) is type(inlet_temperature) is type(outlet_pressure) is type(last) is float
        and _DOUBTFUL < inlet_pressure <= outlet_pressure
        and inlet_pressure < math.inf
        and 0.0 < last <= 1.0
    )
