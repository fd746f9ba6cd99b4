"""The usual wheels of a turbocharger, sized by the compressor's best flow: rim, diameter, inertia, and where maps end.

Common practice, of no maker in particular. In two compressors measured and published (Wahlström and Eriksson 2011;
Sivertsson and Eriksson 2014) the flow at which nothing more is squeezed is 1.6 to 2.1 times the best one of the same
wheel speed, at every speed that an engine under load has.
"""

from typing import Any

import numpy as np
from numpy.typing import NDArray

from turbomath.table.constants import AIR_GAS_CONSTANT, AIR_HEAT_CAPACITY_RATIO
from turbomath.table.kinds_of_value import Values

MAP_TEMPERATURE, MAP_PRESSURE = 298.15, 1e5  # K, Pa: what flows and speeds are corrected to
WORK_COEFFICIENT = 0.75  # at the best flow, of blades that lean back; common practice
FALL_WITH_FLOW = 0.35  # how much of it goes as the flow doubles; Korpela, Principles of Turbomachinery, from memory
FLOW_COEFFICIENT = 0.12  # volume flow over rim speed and wheel area, where the compressor is best; from memory
INERTIA_OF_SIZE = 40.0  # kg/m^3: rotor inertia over the fifth power of the wheel's diameter; from memory
LEAST_SHARE, GREATEST_SHARE = 0.60, 1.75  # of the best flow at that wheel speed: surge (common practice), and choke
LEAST_DRAWN = 1.3  # pressure ratio below which hardly a map is drawn
_EXPONENT = (AIR_HEAT_CAPACITY_RATIO - 1) / AIR_HEAT_CAPACITY_RATIO
_SPECIFIC_HEAT = AIR_GAS_CONSTANT / _EXPONENT


def corrected_flow(mass_flow: Values, pressure: Values, temperature: Values) -> NDArray[np.float64]:
    """Return a flow [kg/s] brought to the pressure and temperature of the map, as in `physics.correction`."""
    return np.asarray(mass_flow * np.sqrt(temperature / MAP_TEMPERATURE) / (pressure / MAP_PRESSURE))


def speed_share(engine: Any, pressure_ratio: Values) -> NDArray[np.float64]:
    """Return the speed of the wheel over its best, whose square goes with the work of the ideal compressor."""
    work = np.maximum(np.asarray(pressure_ratio) ** _EXPONENT - 1, 1e-3)
    return np.asarray(np.sqrt(work / (engine.best_pressure_ratio**_EXPONENT - 1)))


def flow_limits(engine: Any, pressure_ratio: Values) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Return (surge, choke): the least and the greatest corrected flow [kg/s] at a pressure ratio; `nan` below maps."""
    best = engine.best_compressor_flow * speed_share(engine, pressure_ratio)
    best = np.where(np.asarray(pressure_ratio) >= LEAST_DRAWN, best, np.nan)
    return LEAST_SHARE * best, GREATEST_SHARE * best


def tip_speed(engine: Any, specific_work: Values, flow: Values) -> NDArray[np.float64]:
    """Return the speed of the wheel's rim [m/s] that does this work [J/kg] at this corrected flow [kg/s].

    Blades that lean back do less work the more air they pass, so the work coefficient falls with flow over rim speed;
    where the flow is best it is `WORK_COEFFICIENT`. The rim's speed is then the root of a quadratic.
    """
    work = np.maximum(specific_work, 0.0) / WORK_COEFFICIENT
    passed = FALL_WITH_FLOW * rim_at_best(engine) * flow / engine.best_compressor_flow
    lean = 1 + FALL_WITH_FLOW
    return np.asarray((passed + np.sqrt(passed**2 + 4 * lean * work)) / (2 * lean))


def rim_at_best(engine: Any) -> NDArray[np.float64]:
    """Return the speed of the rim [m/s] where the compressor is best."""
    work = _SPECIFIC_HEAT * MAP_TEMPERATURE * (engine.best_pressure_ratio**_EXPONENT - 1)
    return np.asarray(np.sqrt(work / engine.best_compressor_efficiency / WORK_COEFFICIENT))


def diameter(engine: Any) -> NDArray[np.float64]:
    """Return the usual diameter [m] of a compressor wheel that is best at this engine's flow."""
    volume = engine.best_compressor_flow * AIR_GAS_CONSTANT * MAP_TEMPERATURE / MAP_PRESSURE
    return np.asarray(np.sqrt(volume / (FLOW_COEFFICIENT * rim_at_best(engine) * np.pi / 4)))


def rotor_inertia(engine: Any) -> NDArray[np.float64]:
    """Return the usual moment of inertia [kg m^2] of shaft and both wheels of this size."""
    return np.asarray(INERTIA_OF_SIZE * diameter(engine) ** 5)
