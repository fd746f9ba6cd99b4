"""What boost an engine should make today, carried by the balance from a boost that is known: rated, or an earlier day.

The balance of a ready engine is brought to the size of this one and to the known boost. Only the ratio of its two
answers, today over then, is used; so what the model has wrong at both points falls out.
"""

from dataclasses import dataclass, replace
from typing import Any

import numpy as np
from numpy.typing import NDArray

from turbomath.air.perfect import PerfectAir
from turbomath.engine import balance, path
from turbomath.engine.ready_engines import AIR_TO_AIR, JACKET_WATER, NOT_AFTERCOOLED
from turbomath.engine.turbocharged_engine import TurbochargedEngine
from turbomath.physics import airflow, exchanger
from turbomath.table.constants import AIR_SPECIFIC_HEAT
from turbomath.table.kinds_of_value import Values

START = {
    "none": NOT_AFTERCOOLED,
    "air-to-air": AIR_TO_AIR,
    "jacket-water": JACKET_WATER,
    "separate-circuit": JACKET_WATER,  # a liquid of its own temperature
}
MOST_EFFECTIVE = 0.98  # a core that meets the medium's temperature would need an endless surface
_FUEL_STOP = 3.0  # of the fuel at the known point: the fuel that is read decides, no stop of a model


@dataclass(frozen=True)
class Point:
    """Where an engine runs; `fuel_flow` or `power` is given, not both. SI, absolute pressures; floats or arrays."""

    ambient_pressure: Values
    ambient_temperature: Values
    engine_speed: Values
    fuel_flow: Values | None = None
    power: Values | None = None
    medium_temperature: Values | None = None  # of a liquid, that of the ready engine if not given; air is ambient

    @property
    def driven_by(self) -> dict[str, Values]:
        """Return what says how hard the engine works: its fuel or its power."""
        given = {"fuel_flow": self.fuel_flow, "power": self.power}
        return {name: one for name, one in given.items() if one is not None}


@dataclass(frozen=True)
class Design:
    """The sort of aftercooler, the size of the engine, and what its machines do at the known point."""

    aftercooler: str
    displacement: float  # m^3 swept in a four-stroke cycle
    volumetric_efficiency: float
    compressor_efficiency: float
    effectiveness: float = 0.0
    cooler_pressure_loss: float = 0.0


def engine_at(design: Design, point: Point, boost: Values) -> TurbochargedEngine:
    """Return an engine of this design that makes this boost [Pa] at this point, all single numbers.

    A boost that no turbine of a sensible size gives is met as nearly as can be.
    """
    return with_boost(sized_engine(design, point, float(boost)), point, boost)


def with_boost(sized: TurbochargedEngine, point: Point, boost: Values) -> TurbochargedEngine:
    """Return the engine with the turbine that makes this boost [Pa] at this point, or comes nearest to it."""
    low, high = 0.3 * float(sized.turbine_area), 3.0 * float(sized.turbine_area)
    for _ in range(3):
        areas = np.geomspace(low, high, 17)
        trials: dict[str, Any] = {"turbine_area": areas}
        boosts = boost_of(replace(sized, **trials), point)
        known = np.isfinite(boosts)
        if not known.any():
            return sized  # no turbine carries this load: its boost stays nan
        found = float(np.exp(np.interp(-boost, -boosts[known], np.log(areas[known]))))  # a larger turbine, less boost
        step = (high / low) ** (1 / 16)
        low, high = found / step, found * step
    return replace(sized, turbine_area=found)


def carried_boost(engine: TurbochargedEngine, boost: Values, then: Point, now: Point) -> NDArray[np.float64]:
    """Return the boost [Pa] that was known *then*, brought to *now*; `nan` where the balance finds no answer."""
    return np.asarray(boost) * boost_of(engine, now) / boost_of(engine, then)


def boost_of(engine: TurbochargedEngine, point: Point) -> NDArray[np.float64]:
    """Return the boost [Pa] of the balance at a point; `nan` where it finds none or the load is too much."""
    if point.medium_temperature is not None and engine.aftercooler.arrangement == "jacket-water":
        cooler = replace(engine.aftercooler, jacket_water_temperature=point.medium_temperature)
        engine = replace(engine, aftercooler=cooler)
    settled = balance.solve(
        engine,
        ambient_pressure=point.ambient_pressure,
        ambient_temperature=point.ambient_temperature,
        engine_speed=point.engine_speed,
        **point.driven_by,
    )
    return np.where(settled.carried, settled.boost, np.nan)


def sized_engine(design: Design, point: Point, boost: float) -> TurbochargedEngine:
    """Return the ready engine of this aftercooler, every flow and area of it brought to the size of this one."""
    start, (flow, charge) = START[design.aftercooler], _air(design, point, boost)
    scale = flow / _rated_flow(start)
    rated_fuel = start.rated_fuel_flow * scale if point.fuel_flow is None else float(point.fuel_flow)
    return replace(
        start,
        displacement=design.displacement,
        volumetric_efficiency=design.volumetric_efficiency,
        rated_speed=float(point.engine_speed),
        rated_power=start.rated_power * scale if point.power is None else float(point.power),
        rated_fuel_flow=rated_fuel,
        fuel_stop=_FUEL_STOP,
        turbine_area=start.turbine_area * scale,
        intake_coefficient=start.intake_coefficient / scale**2,
        exhaust_coefficient=start.exhaust_coefficient / scale**2,
        best_compressor_flow=start.best_compressor_flow * scale,
        best_compressor_efficiency=design.compressor_efficiency,
        aftercooler=_cooler(design, start.aftercooler, scale, flow, charge),
    )


def _cooler(design, start, scale, flow, charge):
    """Return the aftercooler that has the design's effectiveness and loss at this flow [kg/s] of charge."""
    if start.arrangement == "none":
        return start
    rate, density = flow * AIR_SPECIFIC_HEAT, (charge.compressor_outlet_density + charge.manifold_density) / 2
    air = start.arrangement == "air-to-air"
    medium = scale * start.cooling_air_flow * charge.ambient_density * AIR_SPECIFIC_HEAT
    kind, ratio = ("crossflow, both unmixed", min(rate / medium, 1.0)) if air else ("counterflow", 0.0)
    return replace(
        start,
        conductance=rate * exchanger.ntu(min(design.effectiveness, MOST_EFFECTIVE), ratio, kind),
        reference_mass_flow=flow,
        cooling_air_flow=scale * start.cooling_air_flow,
        pressure_loss_coefficient=design.cooler_pressure_loss * density / flow**2,
    )


def _air(design, point, boost):
    """Return (air flow [kg/s], the path of the charge) at the known point, in perfect air."""
    charge = path.charge_path(
        ambient_pressure=float(point.ambient_pressure),
        ambient_temperature=float(point.ambient_temperature),
        manifold_pressure=float(point.ambient_pressure) + boost,
        isentropic_efficiency=design.compressor_efficiency,
        effectiveness=min(design.effectiveness, MOST_EFFECTIVE),
        medium_temperature=_medium(design, point),
        cooler_pressure_loss=design.cooler_pressure_loss,
        air=PerfectAir(),
    )
    speed = float(point.engine_speed)
    return airflow.mass_flow(charge.manifold_density, design.displacement, speed, design.volumetric_efficiency), charge


def _medium(design, point):
    """Return the temperature of a liquid medium [K]; `None` where the medium is ambient air."""
    start = START[design.aftercooler].aftercooler
    if start.arrangement != "jacket-water":
        return None
    return float(start.jacket_water_temperature if point.medium_temperature is None else point.medium_temperature)


def _rated_flow(engine):
    """Return the air flow [kg/s] of a ready engine at its rated point, on the day it is fitted for."""
    day = dict(ambient_pressure=98_544.0, ambient_temperature=298.15, engine_speed=engine.rated_speed)
    return balance.solve(engine, **day, fuel_flow=engine.rated_fuel_flow).mass_flow
