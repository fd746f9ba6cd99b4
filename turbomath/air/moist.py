"""Real dry air with water vapour as a gas: the virial equation of Hyland and Wexler as Herrmann et al. (2009) use it.

Everything is for a kilogram of the mixture, dry air and vapour together; without vapour it is the model "real" to
rounding. The functions take the humidity ratio with each state and leave a gap (`nan`) outside the fitted range;
`MoistAir` holds one humidity ratio and refuses what cannot be. Liquid water is no part of the gas:
`moist_terms.condensed_enthalpy` says what heat it carries when some has formed.
"""

from typing import Any

import numpy as np

from turbomath.air.blocks import in_blocks
from turbomath.air.equation import GAS_CONSTANT, HIGHEST, HIGHEST_PRESSURE, LOWEST, Equation
from turbomath.air.moist_terms import Vapour
from turbomath.physics import real_humidity
from turbomath.physics.water import CRITICAL
from turbomath.physics.water import LOWEST as COLDEST_WATER
from turbomath.table.errors import OutOfRangeError, warn_at_caller
from turbomath.table.formulas import check_shapes, plain
from turbomath.table.kinds_of_value import Values
from turbomath.table.quantities import possible
from turbomath.table.unusual import warn_of_unusual

ENTROPY_STEPS, ENTHALPY_STEPS = 2, 2  # of Newton; each doubles the figures, and the start is good to two
ROUNDING = 1e-9  # of the relative humidity
_DRY = Equation()
_RANGE = f"{LOWEST:g} to {HIGHEST:g} K and up to {HIGHEST_PRESSURE:g} Pa"


def density(pressure: Values, temperature: Values, humidity_ratio: Values) -> Any:
    """Density of dry air and vapour together [kg/m^3]."""
    return in_blocks(_density, pressure, inside(pressure, temperature), humidity_ratio)


def enthalpy(pressure: Values, temperature: Values, humidity_ratio: Values) -> Any:
    """Enthalpy [J/kg]; differences at one humidity ratio only are meaningful."""
    return in_blocks(_specific_enthalpy, pressure, inside(pressure, temperature), humidity_ratio)


def entropy(pressure: Values, temperature: Values, humidity_ratio: Values) -> Any:
    """Entropy [J/(kg K)]; differences at one humidity ratio only are meaningful."""
    return _heat_term(1, pressure, temperature, humidity_ratio)


def specific_heat(pressure: Values, temperature: Values, humidity_ratio: Values) -> Any:
    """Specific heat at constant pressure [J/(kg K)]."""
    return _heat_term(2, pressure, temperature, humidity_ratio)


def outlet_temperature(
    inlet_pressure: Values,
    inlet_temperature: Values,
    outlet_pressure: Values,
    isentropic_efficiency: Values,
    humidity_ratio: Values,
) -> Any:
    """Outlet temperature [K] of a compressor with the given isentropic efficiency."""
    found = in_blocks(
        _outlet_temperature,
        inlet_pressure,
        inside(inlet_pressure, inlet_temperature),
        outlet_pressure,
        isentropic_efficiency,
        humidity_ratio,
    )
    return inside(outlet_pressure, found)


def isentropic_efficiency(
    inlet_pressure: Values,
    inlet_temperature: Values,
    outlet_pressure: Values,
    outlet_temperature: Values,
    humidity_ratio: Values,
) -> Any:
    """Compressor efficiency [-] from readings; `nan` where undefined."""
    return in_blocks(
        _isentropic_efficiency,
        inlet_pressure,
        inside(inlet_pressure, inlet_temperature),
        outlet_pressure,
        inside(outlet_pressure, outlet_temperature),
        humidity_ratio,
    )


def inside(pressure: Values, temperature: Values) -> Any:
    """The temperature, missing where the state is outside the fitted range, with a `RangeWarning`."""
    outside = _DRY.outside(pressure, temperature)
    if not np.any(outside):
        return temperature
    warn_at_caller(f"a state of the air is outside {_RANGE}, where real air is worked out; it is left empty.")
    return plain(np.where(outside, np.nan, temperature))


def _heat_term(which, pressure, temperature, humidity_ratio):
    def term(p, T, w):
        return _heat_terms(p, T, Vapour(w))[which] / (1 + w)

    return in_blocks(term, pressure, inside(pressure, temperature), humidity_ratio)


def _density(pressure, temperature, humidity_ratio):
    volume = Vapour(humidity_ratio).volume(pressure, temperature)
    return (1 + humidity_ratio) / (1 / _DRY.density(pressure, temperature) + volume)


def _specific_enthalpy(pressure, temperature, humidity_ratio):
    return _enthalpy(pressure, temperature, Vapour(humidity_ratio)) / (1 + humidity_ratio)


def _enthalpy(pressure, temperature, vapour):
    """The first of `_heat_terms` alone."""
    return _DRY.enthalpy(pressure, temperature) + vapour.enthalpy(pressure, temperature)


def _heat_terms(pressure, temperature, vapour):
    """Enthalpy, entropy and heat capacity of a kilogram of dry air and its vapour [J, J/K, J/K]."""
    return tuple(
        map(sum, zip(_DRY.heat_terms(pressure, temperature), vapour.heat_terms(pressure, temperature), strict=True))
    )


def _ideal_outlet(inlet_pressure, inlet_temperature, outlet_pressure, vapour):
    """Enthalpy at the inlet, and temperature, enthalpy and heat capacity where an ideal compressor lets it out.

    The last step moves temperature and enthalpy without asking the equation again: it is below a millionth.
    """
    inlet, entropy, heat = _heat_terms(inlet_pressure, inlet_temperature, vapour)
    exponent = (GAS_CONSTANT + vapour.gas_constant) / heat
    temperature = inlet_temperature * (outlet_pressure / inlet_pressure) ** exponent
    for _ in range(ENTROPY_STEPS):
        temperature = _fitted(temperature)
        ideal, reached, heat = _heat_terms(outlet_pressure, temperature, vapour)
        step = temperature * np.expm1((entropy - reached) / heat)
        temperature = temperature + step
    return inlet, temperature, ideal + heat * step, heat


def _fitted(temperature):
    """The nearest temperature of the fitted range: a step may leave it, though the answer lies inside."""
    if isinstance(temperature, float):
        return min(max(temperature, LOWEST), HIGHEST)
    return np.clip(temperature, LOWEST, HIGHEST)


def _outlet_temperature(inlet_pressure, inlet_temperature, outlet_pressure, efficiency, humidity_ratio):
    if not np.any(humidity_ratio):
        dry = _DRY.outlet_temperature(inlet_pressure, inlet_temperature, outlet_pressure, efficiency)
        if not np.any(np.isnan(dry)):  # else below, which finds about how far outside the range
            return dry
    vapour = Vapour(humidity_ratio)
    inlet, temperature, reached, heat = _ideal_outlet(inlet_pressure, inlet_temperature, outlet_pressure, vapour)
    outlet = inlet + (reached - inlet) / efficiency
    for _ in range(ENTHALPY_STEPS):
        temperature = _fitted(temperature + (outlet - reached) / heat)
        reached, _, heat = _heat_terms(outlet_pressure, temperature, vapour)
    return temperature + (outlet - reached) / heat


def _isentropic_efficiency(inlet_pressure, inlet_temperature, outlet_pressure, outlet_temperature, humidity_ratio):
    vapour = Vapour(humidity_ratio)
    inlet, _, ideal, _ = _ideal_outlet(inlet_pressure, inlet_temperature, outlet_pressure, vapour)
    outlet = _enthalpy(outlet_pressure, outlet_temperature, vapour)
    return np.divide(ideal - inlet, np.where(outlet == inlet, np.nan, outlet - inlet))


class MoistAir:
    """Real air with one humidity ratio (a float, or an array that broadcasts with the states), all water as vapour.

    See `turbomath.air.choose` for the shape of call. Every property is for a kilogram of the mixture; `density` is
    that of dry air and vapour together, `dry_air_density` and `vapour_density` are its two parts. A state in which
    water must form is refused: over water, and below 233.15 K, where none stays liquid, over ice.
    """

    name = "moist"

    def __init__(self, humidity_ratio: Values = 0.0) -> None:
        self.humidity_ratio = possible("humidity_ratio", humidity_ratio)

    def density(self, pressure: Values, temperature: Values) -> Any:
        """Density of dry air and vapour together [kg/m^3]."""
        return self._property(density, pressure, temperature)

    def dry_air_density(self, pressure: Values, temperature: Values) -> Any:
        """Dry air in a cubic metre [kg/m^3]."""
        return plain(self.density(pressure, temperature) / (1 + self.humidity_ratio))

    def vapour_density(self, pressure: Values, temperature: Values) -> Any:
        """Water vapour in a cubic metre [kg/m^3]."""
        return plain(self.humidity_ratio * self.dry_air_density(pressure, temperature))

    def enthalpy(self, pressure: Values, temperature: Values) -> Any:
        """Enthalpy [J/kg]; differences only are meaningful."""
        return self._property(enthalpy, pressure, temperature)

    def entropy(self, pressure: Values, temperature: Values) -> Any:
        """Entropy [J/(kg K)]; differences only are meaningful."""
        return self._property(entropy, pressure, temperature)

    def specific_heat(self, pressure: Values, temperature: Values) -> Any:
        """Specific heat at constant pressure [J/(kg K)]."""
        return self._property(specific_heat, pressure, temperature)

    def outlet_temperature(
        self, inlet_pressure: Values, inlet_temperature: Values, outlet_pressure: Values, isentropic_efficiency: Values
    ) -> Any:
        """Outlet temperature [K] of a compressor with the given isentropic efficiency, in (0, 1]."""
        efficiency = possible("isentropic_efficiency", isentropic_efficiency)
        inlet = self._inside(inlet_pressure, inlet_temperature, "inlet_")
        outlet_pressure = possible("outlet_pressure", outlet_pressure)
        check_shapes(
            {
                "inlet_pressure": inlet[0],
                "inlet_temperature": inlet[1],
                "outlet_pressure": outlet_pressure,
                "isentropic_efficiency": efficiency,
            }
        )
        warn_of_expansion(inlet[0], outlet_pressure)
        outlet = in_blocks(_outlet_temperature, *inlet, outlet_pressure, efficiency, self.humidity_ratio)
        refuse_outside(outlet_pressure, outlet)
        return outlet

    def isentropic_efficiency(
        self, inlet_pressure: Values, inlet_temperature: Values, outlet_pressure: Values, outlet_temperature: Values
    ) -> Any:
        """Compressor efficiency [-] from readings; `nan` where undefined, a `RangeWarning` outside 0..1."""
        inlet = self._inside(inlet_pressure, inlet_temperature, "inlet_")
        outlet = self._inside(outlet_pressure, outlet_temperature, "outlet_")
        names = ("inlet_pressure", "inlet_temperature", "outlet_pressure", "outlet_temperature")
        check_shapes(dict(zip(names, (*inlet, *outlet), strict=True)))
        warn_of_expansion(inlet[0], outlet[0])
        (p1, T1), (p2, T2) = inlet, outlet
        efficiency = isentropic_efficiency(p1, T1, p2, T2, self.humidity_ratio)
        if np.any((efficiency < 0) | (efficiency > 1)):
            warn_at_caller("the efficiency from these readings is outside 0 to 1; a reading must be wrong.")
        return efficiency

    def _property(self, function, pressure, temperature):
        return function(*self._inside(pressure, temperature), self.humidity_ratio)

    def _inside(self, pressure, temperature, station=""):
        """Return a checked state in which all of the water is vapour."""
        named = {f"{station}pressure": pressure, f"{station}temperature": temperature}
        given = {name: possible(name, value) for name, value in named.items()}
        check_shapes(given | {"humidity_ratio": self.humidity_ratio})
        warn_of_unusual("moist air", given)
        pressure, temperature = given.values()
        refuse_outside(pressure, temperature)
        refuse_supersaturated(pressure, temperature, self.humidity_ratio)
        return pressure, temperature


def relative_humidity(pressure: Values, temperature: Values, humidity_ratio: Values) -> Any:
    """Vapour over the most there can be [-]: over water, and below 233.15 K over ice."""
    cold = np.less(temperature, COLDEST_WATER)
    liquid = np.clip(temperature, COLDEST_WATER, CRITICAL)  # hotter, there is no limit either
    over_water = real_humidity.relative_humidity(pressure, liquid, humidity_ratio)
    if not np.any(cold):
        return over_water
    icy = np.where(cold, temperature, COLDEST_WATER)
    return np.where(cold, real_humidity.relative_humidity(pressure, icy, humidity_ratio, over="ice"), over_water)


def refuse_supersaturated(pressure: Values, temperature: Values, humidity_ratio: Values) -> None:
    """Refuse states in which some of the water cannot be vapour, in words, for numbers and arrays alike."""
    if not np.any(humidity_ratio):
        return
    humidity = np.asarray(relative_humidity(pressure, temperature, humidity_ratio))
    over = humidity > 1 + ROUNDING
    if np.any(over):
        p, T, w = (np.broadcast_to(part, over.shape)[over][0] for part in (pressure, temperature, humidity_ratio))
        count = f"{over.sum()} of {over.size} states are, the first" if over.ndim else "it is"
        raise OutOfRangeError(
            f"air cannot carry this much water as vapour: the relative humidity must be at most 1; {count} "
            f"{humidity[over][0]:.4g} at {p:g} Pa, {T:g} K and a humidity ratio of {w:g}. Some of the water has to "
            "form drops or ice first; take it off (turbomath.physics.real_humidity.condensate), or check the readings."
        )


def refuse_outside(pressure: Values, temperature: Values) -> None:
    """Refuse states outside the range in which the equation was fitted."""
    outside = np.asarray(_DRY.outside(pressure, temperature))
    if np.any(outside):
        p, T = (np.broadcast_to(part, outside.shape)[outside][0] for part in (pressure, temperature))
        raise OutOfRangeError(
            f"real air is worked out from {_RANGE}; {outside.sum()} of {outside.size} states are outside, the first at "
            f"{p:g} Pa and {T:g} K."
        )


def warn_of_expansion(inlet_pressure: Values, outlet_pressure: Values) -> None:
    """Warn at the caller's line where a compressor's outlet pressure is below its inlet's."""
    if np.any(np.less(outlet_pressure, inlet_pressure)):
        warn_at_caller("the outlet pressure is below the inlet pressure; check gauge against absolute.")
